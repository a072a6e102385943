package board

import (
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// diagramWork is the part of a diagram that a worker does: of a large scheme the
// drawing made last stands until the next one comes.
type diagramWork struct {
	stale bool   // the drawing is not of the present frame, colours and width
	asked bool   // the worker was asked and is not done
	owed  doc.ID // to be brought into view when the drawing has come
	refit bool   // then show all of it
	turn  int    // goes up when what is under way is of no use
}

// SetFrame shows a frame; of a gesture too, when the diagram is seen.
func (d *Diagram) SetFrame(f *layout.Frame) {
	if d.frame != nil && d.frame.Scheme == f.Scheme && d.frame.Stock == f.Stock && d.frame.Circuits == f.Circuits && looksSame(d.frame, f) {
		return
	}
	if f.Behind && d.frame != nil && d.frame.Circuits == f.Circuits {
		return // its figures are shown; those of the move follow
	}
	d.frame, d.work.stale = f, true
	if d.active {
		d.redraw()
	}
}

// prepare draws the frame if that has not been done, or has a worker do it.
func (d *Diagram) prepare() {
	if w := wrapAt(d.size.Width); w != d.wrap {
		d.wrap, d.work.stale, d.work.refit = w, true, d.fit || d.begun
	}
	if d.work.stale && d.frame != nil {
		if d.drawing != nil && d.cfg.Work != nil && d.frame.Scheme.Lamps.Len()+d.frame.Scheme.Runs.Len() >= heavyFrom {
			d.ask()
		} else {
			d.drawing, d.work.stale = scene.NewOneLine(d.input()), false
		}
	}
	if d.drawing != nil && d.size.Width > 1 {
		d.firstView()
	}
}

// Fresh forgets drawing and view, for another scheme.
func (d *Diagram) Fresh() {
	d.placed, d.begun, d.fit, d.drawing = false, false, false, nil
	d.work = diagramWork{stale: true, asked: d.work.asked, turn: d.work.turn + 1}
}

// input returns what the drawing is made from.
func (d *Diagram) input() scene.OneLineInput {
	f := d.frame
	return scene.OneLineInput{Scheme: f.Scheme, Stock: f.Stock, Circuits: f.Circuits,
		Results: f.Results, Findings: f.Findings, Palette: d.palette, Width: d.wrap}
}

func (d *Diagram) ask() {
	if !d.work.asked {
		d.work.asked = true
		d.cfg.Work(d.take)
	}
}

// take hands the next drawing to the worker.
func (d *Diagram) take() (work, done func()) {
	if !d.work.stale || d.frame == nil {
		d.work.asked = false // drawn at once in between
		return nil, nil
	}
	in := d.input()
	d.work.stale = false
	var drawing *scene.Diagram
	turn := d.work.turn
	return func() { drawing = scene.NewOneLine(in) }, func() { d.deliver(drawing, turn) }
}

// deliver shows what the worker drew. What has changed meanwhile is drawn next.
func (d *Diagram) deliver(drawing *scene.Diagram, turn int) {
	d.work.asked = false
	if turn != d.work.turn {
		if d.active {
			d.redraw()
		}
		return
	}
	d.drawing = drawing
	if d.work.owed != "" && !d.work.stale {
		d.reveal(d.work.owed)
		d.work.owed = ""
	}
	if !d.active {
		return
	}
	if d.work.refit && !d.work.stale {
		d.work.refit = false
		d.refit()
	}
	d.redraw()
}

// owe remembers what is to be brought into view once it is drawn.
func (d *Diagram) owe(id doc.ID) {
	if d.work.owed = ""; d.work.stale || d.work.asked {
		d.work.owed = id
	}
}
