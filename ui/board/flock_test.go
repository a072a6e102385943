package board

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/calc/finding"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// newDrive begins to drag n lamps of a large garden, of which the worker has shown
// the first pictures.
func newDrive(t *testing.T, n int, board fyne.Size) (*hand, *studio) {
	t.Helper()
	h, s := newHand(t, largeGarden(200), board), &studio{}
	h.board.cfg.Work = s.run
	var ids []doc.ID
	for i := range n {
		ids = append(ids, doc.ID(fmt.Sprint("l", i)))
	}
	h.board.look(viewAt(geom.Pt(19.5, 2), 200, board))
	h.board.Select(ids...)
	s.rest(h)
	h.press(h.where(3, 1), desktop.MouseButtonPrimary)
	h.move(h.at.AddXY(10, 0))
	h.move(h.at.AddXY(20, 10))
	s.rest(h)
	if c := &h.board.convoy; !c.on || c.flock == nil || c.flock.image == nil {
		t.Fatal("no convoy")
	}
	return h, s
}

// herd returns the flock of the present frame, not drawn.
func herd(h *hand) *flock {
	b := h.board
	p := b.pair(b.base.sheet(b.view, b.base.shown))
	m := p.moved
	m.at, _ = anchor(m.frame.Scheme, m.lead)
	m.ids = together(m.from, m.frame.Scheme, m.lead)
	m.sheet.marks = nil
	for _, id := range b.over.many() {
		if m.ids[id] {
			m.sheet.marks = append(m.sheet.marks, id)
		}
	}
	m.sheet.in.Skip = func(id doc.ID) bool { return !m.ids[id] }
	return m
}

// TestFlockTakenAlong: while a hand moves, the picture of what moves is taken along
// and only the base is drawn again; when it rests, both are drawn for their place.
func TestFlockTakenAlong(t *testing.T) {
	h, s := newDrive(t, 100, fyne.NewSize(900, 500))
	c := &h.board.convoy
	if c.flock.frame != h.board.frame {
		t.Fatal("the picture at rest is of another frame")
	}
	was, draws := c.flock, h.board.base.draws
	for i := range 6 {
		h.move(h.at.AddXY(10, 5))
		for c.drawn != h.board.frame {
			if !s.step() {
				t.Fatalf("move %d is not drawn", i)
			}
		}
	}
	if c.flock != was {
		t.Error("what moves was drawn again")
	}
	if n := h.board.base.draws - draws; n != 6 {
		t.Errorf("the base was drawn %d times, want 6", n)
	}
	s.rest(h)
	if c.flock == was || c.flock.frame != h.board.frame {
		t.Error("the picture at rest is of another place")
	}
	h.let()
	s.rest(h)
	exact(h, "after the drag")
}

// TestFlockComesOutTheSame: the display list of a picture that is taken along is, item
// by item, the one of the picture that would have been drawn, but for where it lies.
// Labels look for room on a grid of the sheet, so that they may find it elsewhere; they
// are left out here, and drawn for their place when the hand rests.
func TestFlockComesOutTheSame(t *testing.T) {
	h, _ := newDrive(t, 100, fyne.NewSize(1400, 500))
	shown := h.board.convoy.flock
	for _, d := range []fyne.Delta{{DX: 16}, {DX: -7, DY: 30}, {DX: 1, DY: 1}, {DX: 40, DY: -11}} {
		h.move(h.at.AddXY(d.DX, d.DY))
		next := herd(h)
		if !shown.serves(next) {
			t.Fatalf("%v on: the picture does not serve", d)
		}
		next.draw(scene.NewRasteriser())
		a, b := unlettered(shown.sheet.list), unlettered(next.sheet.list)
		if len(a) != len(b) || len(a) < 500 {
			t.Fatalf("%v on: %d items, drawn %d, want the same and more than 500", d, len(a), len(b))
		}
		off := scene.XY{X: b[0].Points[0].X - a[0].Points[0].X, Y: b[0].Points[0].Y - a[0].Points[0].Y}
		for i := range a {
			x, y := a[i], b[i]
			for k := range x.Points {
				// Coordinates of some 200 mm in floating point.
				if math.Abs(x.Points[k].X+off.X-y.Points[k].X) > 1e-9 || math.Abs(x.Points[k].Y+off.Y-y.Points[k].Y) > 1e-9 {
					t.Fatalf("%v on: item %d of %s lies elsewhere", d, i, x.Entity)
				}
			}
			x.Points, y.Points = nil, nil
			if !reflect.DeepEqual(x, y) {
				t.Fatalf("%v on: item %d is %+v, drawn %+v", d, i, x, y)
			}
		}
	}
}

// unlettered returns the items of a list that are no labels.
func unlettered(l *scene.List) []scene.Item {
	return slices.DeleteFunc(slices.Clone(l.Items), func(it scene.Item) bool { return it.Layer == scene.LayerLabels })
}

// TestFlockServes: a picture is not taken along when another would be drawn.
func TestFlockServes(t *testing.T) {
	h, _ := newDrive(t, 100, fyne.NewSize(900, 500))
	shown := h.board.convoy.flock
	h.move(h.at.AddXY(10, 5))
	mark := finding.Finding{Level: finding.Stop, Subject: finding.Subject{ID: "l3"}}
	tests := []struct {
		name   string
		change func(f *flock)
		serves bool
	}{
		{"moved", func(*flock) {}, true},
		{"another gesture", func(f *flock) { f.from = f.frame.Scheme }, false},
		{"one thing fewer", func(f *flock) { delete(f.ids, "l3") }, false},
		{"other colours", func(f *flock) { f.sheet.in.Palette = scene.Dark() }, false},
		{"another selection", func(f *flock) { f.sheet.marks = f.sheet.marks[1:] }, false},
		{"enlarged", func(f *flock) { f.sheet.view.k /= 2 }, false},
		{"figures along runs", func(f *flock) { f.sheet.in.Look = scene.LookVolts }, false},
		{"a mark more, young", func(f *flock) { f.sheet.in.Findings = []finding.Finding{mark} }, true},
		{"a mark more", func(f *flock) {
			f.sheet.in.Findings, f.asked = []finding.Finding{mark}, f.asked.Add(flockMarks)
		}, false},
		{"a mark on what stays", func(f *flock) {
			f.sheet.in.Findings, f.asked = []finding.Finding{{Subject: finding.Subject{ID: "l150"}}}, f.asked.Add(flockMarks)
		}, true},
		{"lengths known", func(f *flock) {
			f.sheet.in.Lengths, f.asked = []derive.Length{{Run: "rl1", Cut: 2}}, f.asked.Add(flockMarks)
		}, false},
	}
	for _, test := range tests {
		next := herd(h)
		test.change(next)
		if got := shown.serves(next); got != test.serves {
			t.Errorf("%s: serves %v, want %v", test.name, got, test.serves)
		}
	}
}

// TestFlockRoom: of things that reach beyond the board as much is drawn as is needed
// for a while, and when that is used up they are drawn again.
func TestFlockRoom(t *testing.T) {
	h, _ := newDrive(t, 200, fyne.NewSize(400, 300))
	h.board.SetSnap(false)
	h.board.ZoomIn()
	h.board.ZoomIn()
	h.board.ZoomIn()
	shown := herd(h)
	shown.draw(scene.NewRasteriser())
	if got, most := shown.sheet.size, h.board.Size().AddWidthHeight(2*flockRoom, 2*flockRoom); got.Width > most.Width || got.Height > most.Height {
		t.Errorf("the picture is %v, want at most %v", got, most)
	}
	for _, test := range []struct {
		by     float32
		serves bool
	}{{flockRoom - 4, true}, {8, false}} {
		h.move(h.at.AddXY(test.by, 0))
		if got := shown.serves(herd(h)); got != test.serves {
			t.Errorf("%v on: serves %v, want %v", test.by, got, test.serves)
		}
	}
	if bytes.Count(shown.image.Pix, []byte{0}) == len(shown.image.Pix) {
		t.Error("nothing is on the picture")
	}
}
