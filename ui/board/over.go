package board

import (
	"image/color"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

const (
	// many is the number of selected things from which they are marked in the
	// base image: a live object each would make every frame slow.
	many = 60

	ringUnits   = 15 // radius of the hover ring
	boxUnits    = 14 // half side of the box around a selected thing
	handleUnits = 4  // half side of the handle at a bend
	noteSize    = 14 // text size of the measure
	typedSize   = 16 // text size of what is typed
)

// over is what floats above the plan.
type over struct {
	board *Board
	pool  pool
	box   *fyne.Container
	mark  color.NRGBA // selection, snap mark, lines being drawn
	wash  color.NRGBA // inside of the rubber band
	ink   color.NRGBA
	paper color.NRGBA
	inked bool // the selection was marked in the base image
}

func (o *over) init(b *Board) {
	o.board = b
	o.box = o.pool.init()
	o.recolour()
}

// recolour takes the colours from the palette. The mark has a contrast of at
// least 5:1 on a white and on a black ground.
func (o *over) recolour() {
	p := o.board.paletteNow()
	o.ink, o.paper = nrgba(p.Ink), nrgba(p.Paper)
	o.mark = overColour(p)
	o.wash = o.mark
	o.wash.A = 0x22
}

// overColour is the colour of hover and selection.
func overColour(p *scene.Palette) color.NRGBA {
	if dark(p.Paper) {
		return color.NRGBA{R: 0x5F, G: 0xE3, B: 0xEE, A: 0xFF}
	}
	return color.NRGBA{R: 0x00, G: 0x6B, B: 0x75, A: 0xFF}
}

func nrgba(c scene.Colour) color.NRGBA { return color.NRGBA{R: c.R, G: c.G, B: c.B, A: c.A} }

func dark(c scene.Colour) bool { return int(c.R)+int(c.G)+int(c.B) < 3*128 }

// showOver puts everything that floats where it belongs.
func (b *Board) showOver() {
	o := &b.over
	if b.frame == nil {
		return
	}
	v := b.session.Overlay()
	o.selection()
	if b.marked != "" {
		o.flown()
	}
	if !b.in.inside && !b.in.keyed && b.in.held != holdLeft {
		// The pointer is elsewhere; a run that is being drawn stays to be seen.
		v.Hover, v.Snap, v.Grip = "", nil, false
		if len(v.Lines) == 0 {
			v.Note = ""
		}
	}
	if id := b.ringed(); id != "" {
		o.corners(id)
	}
	o.eyes()
	o.turnHandle(v.Grip)
	o.gesture(v)
	if b.in.keyed {
		o.cross(b.in.pointer, 14)
	}
	if b.in.focused {
		o.pool.rect(fyne.NewPos(1, 1), b.Size().SubtractWidthHeight(2, 2), nil, o.mark, 2)
	}
	o.pool.end()
}

// gesture shows what the tool wants shown.
func (o *over) gesture(v tool.Overlay) {
	b := o.board
	for _, l := range v.Lines {
		o.pool.path(b.places(l), o.mark, 2, b.Size())
	}
	if v.Rubber != nil {
		lo := b.view.at(geom.Point{X: v.Rubber.Min.X, Y: v.Rubber.Max.Y})
		hi := b.view.at(geom.Point{X: v.Rubber.Max.X, Y: v.Rubber.Min.Y})
		if v.Crossing { // without a wash and with a double edge: told by shape too
			o.pool.rect(lo, fyne.NewSize(hi.X-lo.X, hi.Y-lo.Y), nil, o.mark, 1)
			o.pool.rect(lo.AddXY(3, 3), fyne.NewSize(max(0, hi.X-lo.X-6), max(0, hi.Y-lo.Y-6)), nil, o.mark, 1)
		} else {
			o.pool.rect(lo, fyne.NewSize(hi.X-lo.X, hi.Y-lo.Y), o.wash, o.mark, 1)
		}
	}
	if v.Hover != "" && !b.panning() {
		o.hover(v.Hover)
	}
	if v.Snap != nil {
		o.snapMark(*v.Snap, v.Caught)
	}
	if v.Corner != nil {
		at := b.view.at(*v.Corner) // rings lie over the outline, squares under it
		o.pool.ring(at, handleUnits, o.mark, handleUnits)
		o.pool.ring(at, handleUnits+6, o.mark, 2.5)
	}
	var low, high float32 // ends of the note
	if v.Note != "" {
		low, high = o.note(v.Note, b.view.at(v.NoteAt))
	}
	if v.Typed != "" {
		o.typed(v.Typed, b.view.at(v.NoteAt), low, high)
	}
}

func (b *Board) panning() bool { return b.in.held == holdPan }

func (o *over) cross(at fyne.Position, half float32) {
	o.pool.line(at.SubtractXY(half, 0), at.AddXY(half, 0), o.mark, 1.5)
	o.pool.line(at.SubtractXY(0, half), at.AddXY(0, half), o.mark, 1.5)
}

// noteEdge is what a note keeps clear of the edges of the board.
const noteEdge = 6

// note shows a text beside a place, on the side that has room for it, in as many
// lines as a narrow board needs, and returns from where to where it reaches.
func (o *over) note(text string, at fyne.Position) (top, bottom float32) {
	board := o.board.Size()
	lines := noteLines(text, board.Width-2*noteEdge)
	size := fyne.Size{}
	for _, l := range lines {
		m := fyne.MeasureText(l, noteSize, fyne.TextStyle{})
		size = fyne.NewSize(max(size.Width, m.Width), size.Height+m.Height)
	}
	at = at.AddXY(14, 14)
	at.X = max(noteEdge, min(at.X, board.Width-size.Width-noteEdge))
	if at.Y+size.Height+noteEdge > board.Height {
		at.Y -= size.Height + 30
	}
	at.Y = max(noteEdge, min(at.Y, board.Height-size.Height-noteEdge))
	o.pool.plate(at.SubtractXY(4, 2), size.AddWidthHeight(8, 4), o.paper, o.mark, 1)
	for i, l := range lines {
		o.pool.text(l, at.AddXY(0, float32(i)*size.Height/float32(len(lines))), o.ink, noteSize)
	}
	return at.Y - 2, at.Y + size.Height + 2
}

// noteLines breaks a note into lines that fit a width.
func noteLines(text string, width float32) []string {
	wide := func(s string) float32 { return fyne.MeasureText(s, noteSize, fyne.TextStyle{}).Width }
	if wide(text) <= width {
		return []string{text}
	}
	var out []string
	for _, part := range strings.Split(text, "  ") { // parts that stand apart begin a line
		first := true
		for _, w := range q.Words(part) {
			if n := len(out); !first && wide(out[n-1]+" "+w) <= width {
				out[n-1] += " " + w
			} else {
				out = append(out, w)
			}
			first = false
		}
	}
	return out
}

// hover rings what a click would take.
func (o *over) hover(id doc.ID) {
	b := o.board
	if p, ok := doc.PointOf(b.frame.Scheme, id); ok {
		o.pool.ring(b.view.at(p.At), ringUnits, o.mark, 1.5)
		return
	}
	if r, ok := b.frame.Scheme.Runs.Get(id); ok {
		o.pool.path(b.places(doc.RunPath(b.frame.Scheme, r)), o.mark, 1.5, b.Size())
	}
	if d, ok := b.frame.Scheme.Dimensions.Get(id); ok {
		sh := doc.ShapeOf(b.frame.Scheme, d)
		o.pool.path(b.places([]geom.Point{sh.A, sh.B}), o.mark, 1.5, b.Size())
	}
}

// flown marks what was flown to: a double ring around a point, a box around
// the rest.
func (o *over) flown() {
	b := o.board
	r := tool.Extent(b.frame.Scheme, b.marked)
	if r.Empty() {
		return
	}
	lo := b.view.at(geom.Point{X: r.Min.X, Y: r.Max.Y})
	hi := b.view.at(geom.Point{X: r.Max.X, Y: r.Min.Y})
	if hi.X-lo.X < 2*ringUnits && hi.Y-lo.Y < 2*ringUnits {
		at := b.view.at(r.Centre())
		o.pool.ring(at, 22, o.mark, 3)
		o.pool.ring(at, 30, o.mark, 1.5)
		return
	}
	o.pool.rect(lo.SubtractXY(10, 10), fyne.NewSize(hi.X-lo.X+20, hi.Y-lo.Y+20), nil, o.mark, 3)
}

// selection marks what is selected, here or, when it is much, in the base.
func (o *over) selection() {
	b := o.board
	ids := b.session.Selection()
	if len(ids) > many {
		if !o.inked || !sameIDs(ids, b.toldIDs) {
			o.inked = true
			b.base.redraw()
		}
		return
	}
	if o.inked {
		o.inked = false
		b.base.redraw()
	}
	for _, id := range ids {
		o.selected(id, len(ids) == 1)
		o.padlock(b.frame.Scheme, id)
	}
	o.names(ids)
}

func sameIDs(a, b []doc.ID) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// selected marks one entity: a box around a point, a line with handles along
// anything else. A square is not taken for the round hover mark.
func (o *over) selected(id doc.ID, only bool) {
	b := o.board
	s := b.frame.Scheme
	if p, ok := doc.PointOf(s, id); ok {
		o.pool.square(b.view.at(p.At), boxUnits, nil, o.mark, 2)
		if only {
			o.beam(s, id)
			o.crown(s, id)
		}
		return
	}
	if d, ok := s.Dimensions.Get(id); ok {
		o.dimension(d, only)
		return
	}
	places := b.places(outline(s, id))
	// On a bed of paper, because a run often lies along a wall as dark as the mark.
	o.pool.path(places, o.paper, 6, b.Size())
	o.pool.path(places, o.mark, 3, b.Size())
	if !only {
		return
	}
	tool.Middles(s, id, o.board.view.length(pickUnits), func(_ int, p geom.Point) {
		if at := o.board.view.at(p); o.near(at) {
			o.pool.ring(at, handleUnits, o.mark, 1.5)
		}
	})
	tool.EndHandles(s, id, o.board.view.length(pickUnits), func(_ int, p geom.Point) {
		if at := o.board.view.at(p); o.near(at) { // a disc: a square would lie under the line
			o.pool.ring(at, handleUnits+1, o.paper, handleUnits+1)
			o.pool.ring(at, handleUnits+1, o.mark, 2)
		}
	})
	r, _ := s.Runs.Get(id)
	for i, p := range places {
		if r != nil && !tool.OwnVertex(r, i) {
			continue
		}
		if o.near(p) {
			o.pool.square(p, handleUnits, o.paper, o.mark, 1.5)
		}
	}
}

// near reports whether a place is on the board or just beside it.
func (o *over) near(p fyne.Position) bool {
	size := o.board.Size()
	return p.X > -20 && p.Y > -20 && p.X < size.Width+20 && p.Y < size.Height+20
}

// outline returns the points along which a run, line or area is marked.
func outline(s *doc.Scheme, id doc.ID) []geom.Point {
	e, _ := doc.Find(s, id)
	switch e := e.(type) {
	case *doc.Run:
		return doc.RunPath(s, e)
	case *doc.Line:
		return e.Path
	case *doc.Dimension:
		sh := doc.ShapeOf(s, e)
		return []geom.Point{sh.From, sh.A, sh.B, sh.To}
	case *doc.Area:
		if len(e.Ring) > 0 {
			return append(e.Ring[:len(e.Ring):len(e.Ring)], e.Ring[0])
		}
	}
	return nil
}

func (b *Board) places(ps []geom.Point) []fyne.Position {
	out := make([]fyne.Position, len(ps))
	for i, p := range ps {
		out[i] = b.view.at(p)
	}
	return out
}

// many returns the selected things when they are so many that they are marked in
// the base image.
func (o *over) many() []doc.ID {
	if ids := o.board.session.Selection(); len(ids) > many {
		return slices.Clone(ids)
	}
	return nil
}

// drawMany adds the marks of a large selection to the base image.
func drawMany(l *scene.List, s *doc.Scheme, ids []doc.ID, mark color.NRGBA) {
	style := scene.Style{Stroke: scene.Colour{R: mark.R, G: mark.G, B: mark.B, A: 255}, Width: 0.5}
	const half = float64(boxUnits) / unitsPerMM
	for _, id := range ids {
		it := scene.Item{Kind: scene.Polyline, Entity: string(id), Style: style}
		if p, ok := doc.PointOf(s, id); ok {
			c := l.View.Paper(p.At)
			it.Points = []scene.XY{{X: c.X - half, Y: c.Y - half}, {X: c.X + half, Y: c.Y - half},
				{X: c.X + half, Y: c.Y + half}, {X: c.X - half, Y: c.Y + half}, {X: c.X - half, Y: c.Y - half}}
		} else {
			for _, p := range outline(s, id) {
				it.Points = append(it.Points, l.View.Paper(p))
			}
		}
		if len(it.Points) > 1 {
			l.Items = append(l.Items, it)
		}
	}
}
