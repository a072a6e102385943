package board

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// Ends of the zoom of a diagram, in units for a millimetre of its own size, and
// the least that its letters can be read at: the capitals of the smallest, 1.8 mm, are
// then 6 units high. With 3.6 a diagram as wide as that of the example lost a tenth of
// its width in a window of 1280 x 800, where 3.3 shows it from edge to edge.
const (
	diagramSmallest = 0.25
	diagramLargest  = 30
	diagramLegible  = 3.3
)

// diagramImage is the cached image of a diagram with a margin around it, as base is
// that of the plan.
type diagramImage struct {
	diagram *Diagram
	raster  *canvas.Raster
	image   *image.RGBA
	paint   *scene.Rasteriser
	origin  scene.XY // place in the drawing at the image's upper left corner
	stale   bool
	dpp     float64
	draws   int // for tests
}

func (s *diagramImage) init(d *Diagram) {
	s.diagram, s.paint, s.stale, s.dpp = d, scene.NewRasteriser(), true, 1
	s.raster = canvas.NewRaster(s.generate)
	s.raster.ScaleMode = canvas.ImageScalePixels
}

// redraw has the image drawn for the present view at the next paint.
func (s *diagramImage) redraw() {
	d := s.diagram
	s.origin = scene.XY{X: d.origin.X - margin/d.k, Y: d.origin.Y - margin/d.k}
	s.raster.Move(fyne.NewPos(-margin, -margin))
	s.stale = true
	s.raster.Refresh()
}

// follow moves the image after the view, and has it redrawn when its margin is
// used up.
func (s *diagramImage) follow() {
	at := s.diagram.at(s.origin)
	if math.Abs(float64(at.X)+margin) > margin || math.Abs(float64(at.Y)+margin) > margin {
		s.redraw()
		return
	}
	whole := func(x float32) float32 { return float32(math.Round(float64(x)*s.dpp) / s.dpp) }
	s.raster.Move(fyne.NewPos(whole(at.X), whole(at.Y)))
}

// generate is called by Fyne with the size in device pixels.
func (s *diagramImage) generate(w, h int) image.Image {
	d := s.diagram
	if w <= 0 || h <= 0 || d.drawing == nil || s.raster.Size().Width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	fits := s.image != nil && s.image.Rect.Dx() == w && s.image.Rect.Dy() == h
	if fits && !s.stale {
		return s.image
	}
	if !fits {
		s.image = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	size := s.raster.Size()
	s.dpp = float64(w) / float64(size.Width)
	k := d.k * s.dpp
	list := d.drawing.List.Part(s.origin, float64(size.Width)/d.k, float64(size.Height)/d.k, 2/k)
	s.paint.Draw(s.image, list, k)
	s.stale = false
	s.draws++
	return s.image
}

// ZoomIn enlarges the diagram about its middle.
func (d *Diagram) ZoomIn() { d.zoom(d.middle(), step) }

// ZoomOut makes it smaller.
func (d *Diagram) ZoomOut() { d.zoom(d.middle(), 1/step) }

// ZoomFit shows all of it, now and at every size until the view is changed.
func (d *Diagram) ZoomFit() {
	d.fit, d.begun = true, false
	d.prepare()
	if d.drawing == nil || d.size.Width < 1 {
		return
	}
	l := d.drawing.List
	d.k = clamped(min(float64(d.size.Width)/l.Width, float64(d.size.Height)/l.Height))
	d.k = min(d.k, unitsPerMM)
	d.origin = scene.XY{X: (l.Width - float64(d.size.Width)/d.k) / 2, Y: (l.Height - float64(d.size.Height)/d.k) / 2}
	d.look()
}

// wrapAt returns the width of a drawing whose letters can be read well at a
// width of the widget, in steps, so that a small change of size moves nothing.
func wrapAt(width float32) float64 {
	const least, step, legibly = 140, 20, 4.2
	return max(least, step*math.Floor((float64(width)/legibly-16)/step))
}

// firstView shows all of the diagram if it can be read so, else its beginning.
func (d *Diagram) firstView() {
	if d.placed {
		return
	}
	d.placed = true
	l := d.drawing.List
	d.k = clamped(min(unitsPerMM, float64(d.size.Width)/l.Width, float64(d.size.Height)/l.Height))
	if d.begun = d.k < diagramLegible; d.begun { // as wide as it is, and its beginning
		d.k = max(diagramLegible, min(unitsPerMM, float64(d.size.Width)/l.Width))
		d.origin = scene.XY{X: min(0, (l.Width-float64(d.size.Width)/d.k)/2)}
		return
	}
	d.fit = true
	d.origin = scene.XY{X: (l.Width - float64(d.size.Width)/d.k) / 2, Y: min(0, (l.Height-float64(d.size.Height)/d.k)/2)}
}

// refit chooses the view anew that nobody has changed, for another size.
func (d *Diagram) refit() {
	switch {
	case d.fit:
		d.ZoomFit()
	case d.begun:
		d.placed = false
	}
}

// whole reports whether all of the drawing is seen.
func (d *Diagram) whole() bool {
	a, b := d.at(scene.XY{}), d.at(scene.XY{X: d.drawing.List.Width, Y: d.drawing.List.Height})
	const slack = 1
	return a.X > -slack && a.Y > -slack && b.X < d.size.Width+slack && b.Y < d.size.Height+slack
}

func clamped(k float64) float64 { return min(diagramLargest, max(diagramSmallest, k)) }

func (d *Diagram) middle() fyne.Position { return fyne.NewPos(d.size.Width/2, d.size.Height/2) }

func (d *Diagram) zoom(at fyne.Position, factor float64) {
	fixed := d.place(at)
	d.fit, d.begun, d.k = false, false, clamped(d.k*factor)
	d.origin = scene.XY{X: fixed.X - float64(at.X)/d.k, Y: fixed.Y - float64(at.Y)/d.k}
	d.look()
}

// look draws everything anew for a changed view.
func (d *Diagram) look() {
	d.rest.off()
	d.picture.redraw()
	d.marks()
}

// pan moves the drawing with the pointer.
func (d *Diagram) pan(dx, dy float32) {
	d.fit, d.begun = false, false
	d.origin.X -= float64(dx) / d.k
	d.origin.Y -= float64(dy) / d.k
	d.rest.off()
	d.picture.follow()
	d.marks()
}

// FlyTo brings an entity into view and marks it until the next press.
func (d *Diagram) FlyTo(id doc.ID) {
	d.prepare()
	d.reveal(id)
	d.owe(id)
	d.marked = id
	d.marks()
}

// reveal brings an entity into view; the view stays when it is there already.
func (d *Diagram) reveal(id doc.ID) {
	if d.drawing == nil || d.size.Width < 1 {
		return
	}
	lo, hi, ok := d.drawing.Bounds(id)
	if s, is := d.drawing.Symbol(id); is {
		lo, hi = s.Low, s.High
	} else if r, is := d.drawing.RunOf(id); is { // the end that is its own
		p := r.Path
		lo, hi = p[len(p)-2], p[len(p)-1]
	}
	if !ok {
		return
	}
	const edge = 60
	a, b := d.at(lo), d.at(hi)
	dx, dy := nudge(a.X, b.X, d.size.Width, edge), nudge(a.Y, b.Y, d.size.Height, edge)
	if dx == 0 && dy == 0 {
		return
	}
	d.fit, d.begun = false, false
	d.origin.X -= float64(dx) / d.k
	d.origin.Y -= float64(dy) / d.k
	d.look()
}

// nudge is the least way that brings a stretch from a to b between the edges of
// a size, none when it is seen; the middle of what is too long, or far off, comes to
// the middle.
func nudge(a, b, size, edge float32) float32 {
	const seen = 8
	switch {
	case a >= seen && b <= size-seen:
		return 0
	case b-a > size-2*edge || b < -size/2 || a > 1.5*size:
		return (size - a - b) / 2
	case a < edge:
		return edge - a
	}
	return size - edge - b
}

// Where returns the place of an entity in the diagram, in Fyne's units.
func (d *Diagram) Where(id doc.ID) (p fyne.Position, ok bool) {
	if d.drawing == nil {
		return p, false
	}
	if s, is := d.drawing.Symbol(id); is {
		return d.at(s.At), true
	}
	if r, is := d.drawing.RunOf(id); is {
		a, b := r.Path[len(r.Path)-2], r.Path[len(r.Path)-1]
		return d.at(scene.XY{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}), true
	}
	return p, false
}

// marks shows hover and selection where they belong.
func (d *Diagram) marks() {
	c := overColour(d.palette)
	if d.drawing != nil {
		for _, id := range d.selected[:min(len(d.selected), many)] {
			d.mark(id, false)
		}
		if id := d.ringed(); id != "" {
			d.corners(id)
		}
		if d.inside && d.hover != "" && d.pressed == 0 {
			d.mark(d.hover, true)
		}
		if lo, hi, ok := d.drawing.Bounds(d.marked); ok && d.marked != "" {
			a, b := d.at(lo), d.at(hi)
			d.pool.rect(a.SubtractXY(5, 4), fyne.NewSize(b.X-a.X+10, b.Y-a.Y+8), nil, c, 3)
		}
	}
	if d.focused {
		d.pool.rect(fyne.NewPos(1, 1), d.size.SubtractWidthHeight(2, 2), nil, c, 2)
	}
	d.pool.end()
	d.hint()
}

// mark shows one entity as hovered, with a ring, or as selected, with a box; a
// run by a line along it, on paper when it is selected.
func (d *Diagram) mark(id doc.ID, hover bool) {
	c := overColour(d.palette)
	if s, ok := d.drawing.Symbol(id); ok {
		half := float32((max(s.RX, s.RY) + 1) * d.k)
		if hover {
			d.pool.ring(d.at(s.At), max(half, handleUnits)+2, c, 1.5)
		} else {
			d.pool.square(d.at(s.At), max(half, handleUnits), nil, c, 2)
		}
		return
	}
	r, ok := d.drawing.RunOf(id)
	if !ok {
		return
	}
	places := d.places(r.Path)
	if !hover {
		d.pool.path(places, nrgba(d.palette.Paper), 6, d.size)
		d.pool.path(places, c, 3, d.size)
		return
	}
	d.pool.path(places, c, 1.5, d.size)
}

// CreateRenderer implements fyne.Widget.
func (d *Diagram) CreateRenderer() fyne.WidgetRenderer {
	paper := canvas.NewRectangle(nrgba(d.palette.Paper))
	return &diagramRenderer{d, paper, container.NewClip(container.NewWithoutLayout(paper, d.picture.raster, d.box))}
}

type diagramRenderer struct {
	diagram *Diagram
	paper   *canvas.Rectangle
	clip    *container.Clip
}

// Layout implements fyne.WidgetRenderer.
func (r *diagramRenderer) Layout(size fyne.Size) {
	r.clip.Resize(size)
	r.paper.Resize(size)
	d := r.diagram
	d.box.Resize(size)
	if d.size == size {
		return
	}
	d.size = size
	d.picture.raster.Resize(fyne.NewSize(size.Width+2*margin, size.Height+2*margin))
	d.refit()
	if d.active && !d.fit {
		d.redraw()
	}
}

// MinSize implements fyne.WidgetRenderer.
func (r *diagramRenderer) MinSize() fyne.Size { return fyne.NewSize(240, 180) }

// Refresh implements fyne.WidgetRenderer.
func (r *diagramRenderer) Refresh() {
	r.paper.FillColor = nrgba(r.diagram.palette.Paper)
	r.paper.Refresh()
	if r.diagram.active {
		r.diagram.redraw()
	}
}

// Objects implements fyne.WidgetRenderer.
func (r *diagramRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.clip} }

// Destroy implements fyne.WidgetRenderer.
func (r *diagramRenderer) Destroy() {}
