package ui

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// helpWalk takes tools through their states by what a hand can do, and collects
// what they say on the way.
type helpWalk struct {
	stock *doc.Stock
	said  map[string]string // sentence, and the tool that says it
}

// moves are what is done in every state: pointer and keys at a few places, on
// things and on none.
func moves(s *doc.Scheme) (out []tool.Event) {
	places := []geom.Point{geom.Pt(1.23, 4.56), geom.Pt(2.5, 4.6), geom.Pt(2.9, 6.1), geom.Pt(2.9, 6.1), geom.Pt(3.1, 3.3)}
	for _, tag := range []string{"L9", "L12", "B2"} {
		if p, ok := doc.PointOf(s, doc.WithTag(s, tag).Key()); ok {
			places = append(places, p.At)
		}
	}
	const reach = 60 * geom.Millimetre
	for _, at := range places {
		for _, k := range []tool.Kind{tool.Move, tool.Down, tool.Up} {
			out = append(out, tool.Event{Kind: k, At: at, Button: tool.LeftButton, Clicks: 1, Reach: reach})
		}
	}
	for _, r := range "oOaw3m.<=@,i[" {
		out = append(out, tool.Event{Kind: tool.Rune, At: places[0], Rune: r, Reach: reach})
	}
	for _, k := range []string{tool.KeyReturn, tool.KeyEscape, tool.KeyBackSpace, tool.KeyDelete, tool.KeyLeft} {
		out = append(out, tool.Event{Kind: tool.Key, At: places[2], Key: k, Reach: reach})
	}
	return out
}

// walk goes on from every state whose sentence is new. A state is told by its
// tool and what it says.
func (h *helpWalk) walk(name string, start tool.Tool, s *doc.Scheme, selection []doc.ID) {
	seen := map[string]bool{}
	queue := []tool.Tool{start}
	all := moves(s)
	for len(queue) > 0 && len(seen) < 200 {
		now := queue[0]
		queue = queue[1:]
		for _, e := range all {
			v := now.Handle(e, &tool.World{Scheme: s, Stock: h.stock, Selection: selection, Snap: true})
			if v.Hint != "" && h.said[v.Hint] == "" {
				h.said[v.Hint] = name
			}
			next := v.Next
			if next == nil {
				next = now
			}
			if key := fmt.Sprintf("%T %s %q", next, v.Hint, v.Overlay.Typed); !seen[key] {
				seen[key] = true
				queue = append(queue, next)
			}
		}
	}
}

// saidByTools returns every sentence of help that the tools come to.
func saidByTools(r *rig) map[string]string {
	f := r.desk.Frame()
	h := helpWalk{stock: f.Stock, said: map[string]string{}}
	plain, pictured := f.Scheme, *f.Scheme
	pictured.Plan.Underlay = doc.Underlay{File: "plan.png", Width: 4000, Height: 4000, At: geom.Pt(-2, 18), Pixel: 0.005}
	locked := pictured
	locked.Plan.Underlay.Lock = true
	d := tool.NewDefaults()
	for _, d.Series = range []tool.Series{{WithRun: true}, {Spacing: 1250 * geom.Millimetre, WithRun: true}, {}} {
		series := d.Series
		for _, t := range []tool.Tool{tool.NewRow(d), tool.NewArc(d)} {
			h.walk(t.Name(), t, plain, nil)
			d.Series = series
		}
	}
	for _, t := range tool.All(d) {
		h.walk(t.Name(), t, plain, nil)
		d.Series, d.Ground.Round = tool.Series{}, false
	}
	for _, s := range []*doc.Scheme{&pictured, &locked} {
		for _, t := range []tool.Tool{tool.NewScale(d), tool.NewScaleCheck(d), tool.NewMovePicture(d)} {
			h.walk(t.Name(), t, s, nil)
		}
	}
	long := func(a, b string) int { return len(a) - len(b) } // the longest name asks for the most room
	for _, kind := range []string{slices.MaxFunc(doc.AreaKinds, long), slices.MaxFunc(doc.LineKinds, long), slices.MaxFunc(doc.MarkKinds, long), "tree"} {
		name := d.Ground.Choose(kind)
		for _, d.Ground.Round = range []bool{false, true} {
			h.walk(name+" "+kind, tool.ByName(d, name), plain, nil)
		}
	}
	for _, tag := range []string{"L9", "R9", "A6", "N1", "SP1"} {
		ids := []doc.ID{doc.WithTag(plain, tag).Key()}
		h.walk("Select "+tag, tool.NewSelect(d), plain, ids)
		h.walk("Mirror", tool.NewMirror(d, ids), plain, ids)
	}
	return h.said
}

// TestHelpIsNotCutOff: every sentence that a tool comes to has room below the plan,
// at 1280 and at 640 units, with a word before it on what has caught the pointer;
// with a long word at least the sentence.
func TestHelpIsNotCutOff(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	said := saidByTools(r)
	if len(said) < 90 {
		t.Errorf("the tools come to %d sentences, expected more", len(said))
	}
	label, ok := find(r.w.status.Help(), func(l *widget.Label) bool { return true })
	if !ok {
		t.Fatal("no line of help")
	}
	for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(640, 400)} {
		r.w.Fyne().Resize(size)
		room := r.w.status.Help().Size().Height
		for _, text := range slices.Sorted(maps.Keys(said)) {
			for _, word := range []string{"Square to A6. ", "Crossing of in line with N16 and in line with the corner of A6. "} {
				r.w.status.SetHelp(word+text, text, false)
				if need := label.MinSize().Height - 8; need > room {
					t.Errorf("%s needs %g units at %v, the line of help has %g: %s", said[text], need, size, room, label.Text)
				}
			}
		}
	}
}
