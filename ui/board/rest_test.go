package board

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// restHand is a hand at a board that tells what the pointer rests on.
func restHand(t *testing.T) (h *hand, told *[]*Figure) {
	h = newHand(t, smallGarden(), fyne.NewSize(700, 500))
	told = &[]*Figure{}
	tell := func(f *Figure) { *told = append(*told, f) }
	h.board.cfg.OnFigure, h.board.rest.tell = tell, tell
	h.paint()
	return h, told
}

// over returns the middle of a text of the plan that starts so.
func (h *hand) over(id doc.ID) fyne.Position {
	h.t.Helper()
	s := &h.board.base
	for _, l := range s.letters.all(s.list) {
		if doc.ID(l.Entity) == id {
			lo, hi := l.Bounds()
			return s.raster.Position().AddXY(float32((lo.X+hi.X)/2*unitsPerMM), float32((lo.Y+hi.Y)/2*unitsPerMM))
		}
	}
	h.t.Fatalf("nothing is written about %s", id)
	return fyne.Position{}
}

// TestRestingOnFigures: the board tells the text under the pointer once, and that it
// is left by moving on, by a button, by the wheel and when it leaves; never while a
// tool draws or something is dragged.
func TestRestingOnFigures(t *testing.T) {
	h, told := restHand(t)
	last := func() *Figure {
		if len(*told) == 0 {
			return nil
		}
		return (*told)[len(*told)-1]
	}
	at := h.over("l1")
	h.move(at)
	if f := last(); f == nil || f.ID != "l1" || f.Part != "L1" || f.Size.Width < 5 || at.X < f.At.X || at.X > f.At.X+f.Size.Width {
		t.Fatalf("told %+v over the name of L1 at %v", f, at)
	}
	n := len(*told)
	h.move(at.AddXY(1, 1))
	if len(*told) != n {
		t.Error("a hand that trembles starts anew")
	}
	for what, leave := range map[string]func(){
		"moving on": func() { h.move(fyne.NewPos(5, 5)) },
		"a press":   func() { h.press(at, desktop.MouseButtonPrimary); h.let() },
		"the wheel": func() { h.wheel(at, 0, 25); h.wheel(at, 0, -25); h.paint() },
		"leaving":   func() { h.board.MouseOut() },
		"the view":  func() { h.board.ZoomFit(); h.paint() },
	} {
		h.move(fyne.NewPos(5, 5))
		h.board.Select()
		h.move(at)
		if last() == nil {
			t.Fatalf("%s: not over the name", what)
		}
		n := len(*told)
		leave()
		if len(*told) == n || (*told)[n] != nil {
			t.Errorf("%s does not end it", what)
		}
		h.wait()
	}
	h.move(fyne.NewPos(5, 5))
	h.board.SetTool(tool.NewRun(h.board.Defaults()))
	n = len(*told)
	h.move(at)
	h.move(at.AddXY(8, 0))
	if len(*told) != n {
		t.Error("told while a run is drawn")
	}
}

// TestRestingOnALine: where runs show volts or amperes the line tells, on the plain
// plan it does not.
func TestRestingOnALine(t *testing.T) {
	h, told := restHand(t)
	on := h.where(0.6, 0.6)
	h.move(on)
	if len(*told) > 0 {
		t.Fatalf("the plain plan tells %+v", (*told)[0])
	}
	h.board.SetLook(scene.LookVolts)
	h.paint()
	h.move(h.where(3.4, 0.6))
	if n := len(*told); n == 0 || (*told)[n-1] == nil || (*told)[n-1].ID != "r1" {
		t.Fatalf("told %d times, expected of R1", n)
	}
}

// TestNoteFitsANarrowBoard: a long note stands in lines inside the board, wherever
// the pointer is.
func TestNoteFitsANarrowBoard(t *testing.T) {
	h := newHand(t, smallGarden(), fyne.NewSize(250, 240))
	const note = "12.35 m, 11 lamps every 1.25 m  r 13.40 m and what else there may be to say"
	for _, at := range []fyne.Position{{}, {X: 249, Y: 239}, {X: 125, Y: 100}, {X: 249}} {
		o := &h.board.over
		o.note(note, at)
		o.pool.end()
		n := 0
		for _, x := range o.pool.texts.items {
			if !x.Visible() || x.Text == "" {
				continue
			}
			n++
			if p, s := x.Position(), x.MinSize(); p.X < 0 || p.Y < 0 || p.X+s.Width > 250 || p.Y+s.Height > 240 {
				t.Errorf("at %v: %q lies at %v with %v in 250 by 240", at, x.Text, p, s)
			}
		}
		if n < 2 {
			t.Errorf("at %v: %d lines", at, n)
		}
	}
}

// TestSelectionLeavesTheName: the name of what is selected is written over the marks
// of the selection, on a plate of paper.
func TestSelectionLeavesTheName(t *testing.T) {
	h, _ := restHand(t)
	name := h.over("l1")
	h.board.Select("l1")
	var plate *canvas.Rectangle
	for _, r := range h.board.over.pool.plates.items {
		if p, s := r.Position(), r.Size(); r.Visible() && name.X > p.X && name.X < p.X+s.Width && name.Y > p.Y && name.Y < p.Y+s.Height {
			plate = r
		}
	}
	if plate == nil {
		t.Fatal("no plate under the name")
	}
	found := false
	for _, x := range h.board.over.pool.texts.items {
		found = found || x.Visible() && x.Text == "L1"
	}
	if !found {
		t.Error("the name is not written over the marks")
	}
	h.board.Select()
	if plate.Visible() {
		t.Error("the plate stays")
	}
}

// TestDiagramTellsItsFigures: the circuit tells figure by figure, and not while it is
// dragged.
func TestDiagramTellsItsFigures(t *testing.T) {
	var told []*Figure
	d, f, _ := newDiagram(t, DiagramConfig{OnFigure: func(f *Figure) { told = append(told, f) }})
	run := doc.WithTag(f.Scheme, "R3").Key()
	r, ok := d.drawing.RunOf(run)
	if !ok {
		t.Fatal("no R3")
	}
	low := d.at(scene.XY{X: r.High.X - 2, Y: r.High.Y - 1.5})
	d.MouseMoved(mouse(low, 0))
	if n := len(told); n != 1 || told[0] == nil || told[0].ID != run || told[0].Part == told[0].Whole {
		t.Fatalf("told %d times, %+v, expected a part of the text of R3", n, told)
	}
	d.MouseDown(mouse(low, desktop.MouseButtonPrimary))
	if told[len(told)-1] != nil {
		t.Error("a press does not end it")
	}
	n := len(told)
	d.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: low.AddXY(9, 9)}})
	if len(told) != n {
		t.Error("told while the view is dragged")
	}
}
