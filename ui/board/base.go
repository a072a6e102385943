package board

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// margin is how far the base image reaches beyond the board on every side, so
// that panning can move it before it has to be drawn again.
const margin = 96

// base is the cached picture of the plan. Fyne asks for it inside a paint; it
// is drawn only when it is stale, and otherwise handed out as it is. Of a large
// plan a worker draws what pan and wheel ask for, see ahead.go.
type base struct {
	board   *Board
	raster  *canvas.Raster
	image   *image.RGBA // as drawn last
	paint   *scene.Rasteriser
	view    view // of the raster's upper left corner
	stale   bool
	dpp     float64       // device pixels per unit, from the last paint
	shown   fyne.Size     // of the board
	room    float32       // how far the image reaches beyond it
	home    fyne.Position // of the image when it was drawn
	lay     doc.Underlay  // picture under the plan, as drawn
	draws   int           // how often it was drawn, for tests
	list    *scene.List   // that the image shows
	letters letters       // of it
	ahead   ahead
}

func (s *base) init(b *Board) {
	s.board, s.paint, s.stale, s.dpp = b, scene.NewRasteriser(), true, 1
	s.raster = canvas.NewRaster(s.generate)
	s.raster.ScaleMode = canvas.ImageScalePixels
}

// redraw has the image drawn for the present view at the next paint.
func (s *base) redraw() {
	s.redrawWith(margin, fyne.Delta{})
}

// redrawBare is redraw for a view that will not stay, without the margin: the
// wheel asks for one picture after the other, and a third less of each is to be
// drawn.
func (s *base) redrawBare() { s.redrawWith(0, fyne.Delta{}) }

// redrawWith draws the image with room on every side, shifted by lead.
func (s *base) redrawWith(room float32, lead fyne.Delta) {
	s.board.rest.off()
	if c := &s.board.convoy; c.on { // too much to be drawn at once
		c.again = true
		s.ahead.turn++
		s.soften()
		return
	}
	if s.later() {
		return
	}
	s.ahead.drop()
	s.place(room, lead)
	s.stale = true
	s.renew()
}

// place says where the image of the present view lies.
func (s *base) place(room float32, lead fyne.Delta) {
	s.room, s.home = room, fyne.NewPos(-room-lead.DX, -room-lead.DY)
	s.view = s.board.view.panned(-float64(s.home.X), -float64(s.home.Y))
	s.raster.Move(s.home)
}

// renew has the image handed out anew at the next paint.
func (s *base) renew() {
	size := s.shown.AddWidthHeight(2*s.room, 2*s.room)
	if s.shown.Width > 0 && s.raster.Size() != size {
		s.raster.Resize(size) // refreshes
		return
	}
	s.raster.Refresh() // of several in one tick Fyne makes one
}

// follow moves the image after the view, by whole device pixels so that it
// stays sharp, and has it redrawn when its margin is used up.
func (s *base) follow() {
	s.board.rest.off()
	if s.ahead.soft {
		s.soften()
		return
	}
	at := s.board.view.at(s.view.origin)
	// What moves goes on moving: most of the new margin lies where it comes from.
	lead := fyne.NewDelta(lead(at.X-s.home.X), lead(at.Y-s.home.Y))
	if at.X > 0 || at.Y > 0 || at.X < -2*s.room || at.Y < -2*s.room {
		s.redrawWith(margin, lead)
		return
	}
	s.raster.Move(fyne.NewPos(s.whole(at.X), s.whole(at.Y)))
	const soon = margin * 7 / 8
	if at.X > -soon && lead.DX > 0 || at.Y > -soon && lead.DY > 0 || at.X < soon-2*s.room && lead.DX < 0 || at.Y < soon-2*s.room && lead.DY < 0 {
		s.prepare(lead)
	}
}

// lead returns how far the image is shifted against a movement along one axis.
func lead(moved float32) float32 {
	const most, enough = margin * 3 / 4, margin / 4
	switch {
	case moved > enough:
		return most
	case moved < -enough:
		return -most
	}
	return 0
}

// moved reports whether the image is away from where it was drawn for.
func (s *base) moved() bool { return s.raster.Position() != s.home }

func (s *base) whole(x float32) float32 {
	return float32(math.Round(float64(x)*s.dpp) / s.dpp)
}

// generate is called by Fyne with the size in device pixels.
func (s *base) generate(w, h int) image.Image {
	if w <= 0 || h <= 0 || s.board.still == nil || s.raster.Size().Width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	s.dpp = float64(w) / float64(s.raster.Size().Width)
	if s.ahead.soft {
		return s.stretched(w, h)
	}
	fits := s.image != nil && s.image.Rect.Dx() == w && s.image.Rect.Dy() == h
	if fits && !s.stale {
		return s.image
	}
	if !fits {
		s.image = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	s.draw()
	return s.image
}

// draw paints the image for its view.
func (s *base) draw() {
	it := s.sheet(s.view, s.raster.Size())
	s.lay = it.in.Scheme.Plan.Underlay
	it.draw(s.paint, s.image)
	s.stale, s.list = false, it.list
	s.draws++
}

// sheet returns what a picture of the plan in a view is drawn from.
func (s *base) sheet(v view, size fyne.Size) *sheet {
	b := s.board
	in := b.input(b.still)
	if lay := b.frame.Scheme.Plan.Underlay; lay != b.still.Scheme.Plan.Underlay { // a gesture moves the picture
		moved := *b.still.Scheme
		moved.Plan.Underlay = lay
		in.Scheme = &moved
	}
	in.Show[scene.LayerGrid] = b.grid
	in.Circuits, in.Results = b.frame.Circuits, b.frame.Results // of the gesture, for the look
	if hidden := b.hidden; len(hidden) > 0 {
		in.Skip = func(id doc.ID) bool { return hidden[id] }
	}
	return &sheet{in: in, view: v, size: size, dpp: s.dpp, marks: b.over.many(), mark: b.over.mark}
}

// sheet is a picture of the plan with all that it is drawn from. It is
// immutable, so that a worker may draw it.
type sheet struct {
	in    scene.Input
	view  view // of the upper left corner
	size  fyne.Size
	dpp   float64
	marks []doc.ID // things that are marked as selected
	mark  color.NRGBA
	clear bool        // on nothing, to lie over another
	list  *scene.List // as drawn
}

// draw paints the sheet over the whole of the image.
func (s *sheet) draw(paint *scene.Rasteriser, into *image.RGBA) {
	list := scene.Build(s.in, s.view.scene(), float64(s.size.Width)/unitsPerMM, float64(s.size.Height)/unitsPerMM)
	drawMany(list, s.in.Scheme, s.marks, s.mark)
	if s.clear {
		list.Background.A = 0
	}
	paint.Draw(into, list, unitsPerMM*s.dpp)
	s.list = list
}

// input returns what a picture of a frame is built from.
func (b *Board) input(f *layout.Frame) scene.Input {
	in := scene.Input{
		Scheme: f.Scheme, Stock: f.Stock, Findings: f.Findings,
		Show: scene.AllLayers(), Palette: b.paletteNow(), Screen: true,
	}
	in.Show[scene.LayerGrid] = false
	if f.Under != nil && b.shows != scene.LookDusk {
		in.Picture = f.Under.Picture
	}
	if f.Circuits != nil {
		in.Lengths = f.Circuits.Lengths
	}
	in.Look, in.Circuits, in.Results = b.shows, f.Circuits, f.Results
	in.NoZones, in.Hatch = b.noZones, scene.Hatch{All: b.hatch, Only: b.hatched}
	return in
}

// looksSame reports whether two frames give the same picture of the plan.
func looksSame(a, b *layout.Frame) bool {
	if a.Scheme != b.Scheme || a.Stock != b.Stock || a.Under != b.Under || len(a.Findings) != len(b.Findings) {
		return false
	}
	for i := range a.Findings {
		x, y := &a.Findings[i], &b.Findings[i]
		if x.Level != y.Level || x.Subject.ID != y.Subject.ID || (x.Overruled == nil) != (y.Overruled == nil) {
			return false
		}
	}
	return true
}
