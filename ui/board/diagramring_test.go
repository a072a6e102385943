package board

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/tool"
)

// ringCircuit opens plan and circuit of the example as the window joins them.
func ringCircuit(t *testing.T) (d *Diagram, b *Board, hint *string) {
	t.Helper()
	hint = new(string)
	d, f, _ := newDiagram(t, DiagramConfig{OnHint: func(s string) { *hint = s }})
	b = New(newFakeDesk(f.Scheme), Config{OnSelect: d.SetSelection, OnRing: d.FollowRing})
	d.cfg.Ring, d.cfg.OnSelect = b, func(ids []doc.ID) { b.Select(ids...) }
	return d, b, hint
}

// tapSpace taps the space bar, which repeats while it is held.
func tapSpace(d *Diagram) {
	e := &fyne.KeyEvent{Name: fyne.KeySpace}
	d.KeyDown(e)
	d.TypedRune(' ')
	d.TypedRune(' ')
	d.KeyUp(e)
}

// TestRingInCircuit: the ring goes over what is drawn in the circuit, in the order of
// the file; Space adds it to what is selected in both views and takes it out.
func TestRingInCircuit(t *testing.T) {
	d, b, hint := ringCircuit(t)
	var drawn []doc.ID
	doc.Each(d.frame.Scheme, func(e doc.Entity, k doc.Kind) {
		if _, _, ok := d.drawing.Bounds(e.Key()); ok && k != doc.ZoneKind {
			drawn = append(drawn, e.Key())
		}
	})
	id := func(tag string) doc.ID { return doc.WithTag(d.frame.Scheme, tag).Key() }
	if !slices.Contains(drawn, id("L15")) || slices.Contains(drawn, id("A1")) {
		t.Fatalf("drawn: %v", drawn)
	}
	for i := range 2*len(drawn) + 1 {
		d.TypedRune('}')
		if want := drawn[i%len(drawn)]; b.Ring() != want || d.ringed() != want {
			t.Fatalf("step %d: the ring is on %s, expected %s", i, b.Ring(), want)
		}
		if p, ok := d.Where(b.Ring()); !ok || p.X < 0 || p.Y < 0 || p.X > d.size.Width || p.Y > d.size.Height {
			t.Errorf("%s is not in view: %v", b.Ring(), p)
		}
	}
	d.TypedRune('{')
	if b.Ring() != drawn[len(drawn)-1] {
		t.Errorf("back from the first to %s", b.Ring())
	}
	b.Select(id("L3"))
	b.in.ring = id("L7")
	tapSpace(d)
	if want := []doc.ID{id("L3"), id("L7")}; !slices.Equal(b.Selection(), want) || !slices.Equal(d.Selection(), want) {
		t.Errorf("selected %v, in the circuit %v", b.Selection(), d.Selection())
	}
	if !strings.HasPrefix(*hint, "L7 is selected: Space takes it out") {
		t.Errorf("the hint is %q", *hint)
	}
	tapSpace(d)
	if want := []doc.ID{id("L3")}; !slices.Equal(b.Selection(), want) || !strings.HasPrefix(*hint, "L7: Space adds it") {
		t.Errorf("selected %v, %q", b.Selection(), *hint)
	}
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if b.Ring() != "" || len(d.Selection()) != 1 || strings.Contains(*hint, "Space") {
		t.Errorf("Escape leaves the ring on %q, selected %v, %q", b.Ring(), d.Selection(), *hint)
	}
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if len(b.Selection()) != 0 {
		t.Error("the second Escape leaves the selection")
	}
}

// TestRingInCircuitIsSeen: it has the four corners of the plan, about a symbol as about
// a run; what is not drawn has none, is not taken by Space, and is gone on from.
func TestRingInCircuitIsSeen(t *testing.T) {
	d, b, _ := ringCircuit(t)
	id := func(tag string) doc.ID { return doc.WithTag(d.frame.Scheme, tag).Key() }
	arms := func() (n int) {
		for _, l := range d.pool.lines.items {
			if l.Visible() && l.StrokeWidth == 3 {
				n++
			}
		}
		return n
	}
	for _, tag := range []string{"L7", "R9"} {
		b.in.ring = id(tag)
		d.FlyTo(id(tag)) // in sight, else nothing is drawn of it
		if got := arms(); got != 8 {
			t.Errorf("%s: %d arms, expected the 8 of four corners", tag, got)
		}
	}
	b.in.ring = id("A1")
	d.marks()
	if arms() != 0 || d.ringed() != "" {
		t.Error("a ring round what is not drawn")
	}
	if tapSpace(d); len(b.Selection()) != 0 {
		t.Errorf("Space takes %v, which is not seen", b.Selection())
	}
	last := b.beside(-1, d.draws)
	d.TypedRune('}')
	first := b.Ring()
	b.in.ring = id("A1")
	d.TypedRune('{')
	if b.Ring() != last || !d.draws(first) || b.beside(1, d.draws) != first {
		t.Errorf("from A1 back to %s and on to %s", b.Ring(), first)
	}
	p, _ := d.Where(id("L7"))
	d.MouseDown(mouse(p, desktop.MouseButtonPrimary))
	d.MouseUp(mouse(p, desktop.MouseButtonPrimary))
	if b.Ring() != "" {
		t.Error("a click leaves the ring")
	}
	d.TypedRune('}')
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if b.Ring() != "" {
		t.Error("the arrows leave the ring")
	}
	// With a tool in hand the plan has no ring: Space places there.
	b.SetTool(tool.NewRun(b.cfg.Defaults))
	d.TypedRune('}')
	if d.ringed() == "" || b.ringed() != "" {
		t.Errorf("with a run in hand: %q in the circuit, %q on the plan", d.ringed(), b.ringed())
	}
}
