package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// Figure is a text of a drawing that the pointer rests on, or a line that stands
// for a figure, and where it lies in the widget.
type Figure struct {
	ID    doc.ID // what it is about
	Part  string // what stands under the pointer, of texts with several figures; "" for a line
	Whole string
	At    fyne.Position
	Size  fyne.Size
}

// resting tells somebody what the pointer rests on. Waiting until it rests is
// left to them.
type resting struct {
	tell func(*Figure) // with nil when the pointer goes; may be nil
	now  *Figure
	at   fyne.Position
}

// restUnits is how far a hand may tremble.
const restUnits = 3

// over says that the pointer is at a place, over a figure or, with nil, over none.
func (r *resting) over(f *Figure, at fyne.Position) {
	if r.tell == nil || f == nil && r.now == nil {
		return
	}
	if f != nil && r.now != nil && f.ID == r.now.ID && f.Part == r.now.Part && near(at, r.at, restUnits) {
		return
	}
	r.now, r.at = f, at
	r.tell(f)
}

// off says that the pointer is over no figure, or that something is done with it.
func (r *resting) off() { r.over(nil, fyne.Position{}) }

// letters finds the texts of a display list under the pointer. They are collected
// when they are asked for first.
type letters struct {
	of   *scene.List
	list []scene.Lettered
}

// reachMM is how far beside its letters a text is met.
const reachMM = 0.4

// all returns the texts of a list.
func (l *letters) all(of *scene.List) []scene.Lettered {
	if l.of != of {
		l.of, l.list = of, nil
		if of != nil {
			l.list = of.Lettering()
		}
	}
	return l.list
}

// at returns the text at a place of the list, the one drawn last.
func (l *letters) at(of *scene.List, p scene.XY) (t *scene.Lettered, ok bool) {
	l.all(of)
	for i := len(l.list) - 1; i >= 0; i-- {
		if l.list[i].Covers(p, reachMM) {
			return &l.list[i], true
		}
	}
	return nil, false
}

// figure returns what stands at a place of a list, nil for nothing; place says
// where a point of the list lies in the widget.
func (l *letters) figure(of *scene.List, p scene.XY, place func(scene.XY) fyne.Position) *Figure {
	t, ok := l.at(of, p)
	if !ok {
		return nil
	}
	lo, hi := t.Bounds()
	from, to := place(lo), place(hi)
	return &Figure{ID: doc.ID(t.Entity), Part: t.Part(p), Whole: t.Text, At: from, Size: fyne.NewSize(to.X-from.X, to.Y-from.Y)}
}

// rests says what the pointer of the board is over. While something is drawn or
// dragged it is over nothing.
func (b *Board) rests() {
	idle := b.in.held == holdNone && b.in.inside && b.session.Tool().Name() == tool.NameSelect && !b.session.Previewing()
	if b.cfg.OnFigure == nil || !idle || b.shows == scene.LookDusk || b.base.ahead.soft || b.convoy.on {
		b.rest.off()
		return
	}
	p, home := b.in.pointer, b.base.raster.Position()
	at := scene.XY{X: float64(p.X-home.X) / unitsPerMM, Y: float64(p.Y-home.Y) / unitsPerMM}
	f := b.base.letters.figure(b.base.list, at, func(q scene.XY) fyne.Position {
		return home.AddXY(float32(q.X*unitsPerMM), float32(q.Y*unitsPerMM))
	})
	if id := b.session.Overlay().Hover; f == nil && b.shows != scene.LookPlan && doc.KindOf(b.frame.Scheme, id) == doc.RunKind {
		f = &Figure{ID: id, At: p.SubtractXY(lineUnits/2, lineUnits/2), Size: fyne.NewSquareSize(lineUnits)}
	}
	b.rest.over(f, p)
}

// lineUnits is how large the place is that stands for a line under the pointer.
const lineUnits = 12

// rests says what the pointer of the diagram is over.
func (d *Diagram) rests() {
	if d.cfg.OnFigure == nil || !d.inside || d.pressed != 0 || d.drawing == nil {
		d.rest.off()
		return
	}
	d.rest.over(d.letters.figure(d.drawing.List, d.place(d.pointer), d.at), d.pointer)
}

// rests says what the pointer of the strip is over.
func (s *Strip) rests() {
	if s.cfg.OnFigure == nil || !s.in.inside || s.in.held || s.in.sizing || s.profile == nil {
		s.rest.off()
		return
	}
	at := scene.XY{X: float64(s.in.pointer.X) / unitsPerMM, Y: float64(s.in.pointer.Y) / unitsPerMM}
	s.rest.over(s.letters.figure(s.list, at, func(q scene.XY) fyne.Position {
		return fyne.NewPos(float32(q.X*unitsPerMM), float32(q.Y*unitsPerMM))
	}), s.in.pointer)
}
