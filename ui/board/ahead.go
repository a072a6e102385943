package board

import (
	"encoding/binary"
	"image"
	"math"

	"fyne.io/fyne/v2"

	"duskwire/layout/scene"
)

// heavyFrom is how many lamps and runs a plan has from which a picture of it is
// too much for one frame.
const heavyFrom = 250

// heavy reports whether pictures are drawn in a worker while the view changes.
func (b *Board) heavy() bool {
	return b.cfg.Work != nil && b.still != nil && b.base.image != nil && !b.base.stale &&
		b.still.Scheme.Lamps.Len()+b.still.Scheme.Runs.Len() >= heavyFrom
}

// shot is a drawn picture of the plan.
type shot struct {
	image *image.RGBA
	view  view // of its upper left corner
}

// ahead is the part of the base that a worker draws. While the wheel turns, the
// last picture is shown stretched (soft) and the worker draws the view of the
// moment, again and again; at rest what is shown is the picture that it drew for
// that very view. Under a pan it draws the ground that will be needed.
type ahead struct {
	soft    bool
	last    shot        // stretched while soft
	wide    shot        // the one before the wheel turned, around it
	scratch *image.RGBA // stretched
	spare   *image.RGBA // to draw into
	paint   *scene.Rasteriser
	asked   bool       // the worker was asked and is not done
	anew    bool       // what is drawn has changed since the picture under way was begun
	want    bool       // a pan needs new ground
	lead    fyne.Delta // where it lies
	turn    int        // goes up with everything that makes a picture under way useless
	took    view       // of the picture begun last
}

// drop forgets what is under way: the base is drawn at once.
func (a *ahead) drop() {
	a.soft, a.want, a.anew = false, false, false
	a.last, a.wide = shot{}, shot{}
	a.turn++
}

// later has the worker draw what has changed, while the last picture stays; false
// when that shows little of the present view and is of no use.
func (s *base) later() bool {
	a, now := &s.ahead, s.board.view
	if !s.board.heavy() {
		return false
	}
	of := shot{s.image, s.view}
	if a.soft {
		of = a.last
	}
	k := now.k / of.view.k // units of the picture a unit of the board
	x := float64(now.origin.X-of.view.origin.X)/of.view.k + k*float64(s.shown.Width)/2
	y := float64(of.view.origin.Y-now.origin.Y)/of.view.k + k*float64(s.shown.Height)/2
	w, h := float64(of.image.Rect.Dx())/s.dpp, float64(of.image.Rect.Dy())/s.dpp
	if k < 0.25 || k > 4 || x < 0 || y < 0 || x > w || y > h {
		return false
	}
	s.soften()
	a.anew = true
	return true
}

// soften shows the last picture stretched to the present view until the worker
// has drawn that.
func (s *base) soften() {
	a := &s.ahead
	if !a.soft {
		a.soft, a.want = true, false
		a.last = shot{s.image, s.view}
		a.wide = a.last
		a.took = s.board.view
		a.turn++
	}
	s.place(0, fyne.Delta{})
	s.renew()
	s.ask()
}

// prepare has the worker draw the ground that a pan will need next.
func (s *base) prepare(lead fyne.Delta) {
	if s.board.heavy() && !s.ahead.want {
		s.ahead.want, s.ahead.lead = true, lead
		s.ask()
	}
}

// wants reports whether the worker has anything to draw.
func (s *base) wants() bool {
	return s.ahead.soft || s.ahead.want || s.board.convoy.lags(s.board.frame)
}

func (s *base) ask() {
	if !s.ahead.asked {
		s.ahead.asked = true
		s.board.cfg.Work(s.take)
	}
}

// take hands the next picture to the worker.
func (s *base) take() (work, done func()) {
	a := &s.ahead
	if !s.wants() {
		a.asked = false
		return nil, nil
	}
	v, room, lead := s.board.view, float32(margin), fyne.Delta{}
	switch {
	case s.board.convoy.on && s.board.frame.Preview:
		room = 0 // it will not stay
	case a.want:
		lead = a.lead
	case v != a.took && v.k <= a.took.k || s.board.convoy.on:
		room = 0 // the wheel turns inward, where nothing of a margin would be seen; or there is enough to draw
	}
	a.took, a.anew = v, false
	it := s.sheet(v.panned(float64(room+lead.DX), float64(room+lead.DY)), s.shown.AddWidthHeight(2*room, 2*room))
	w, h := s.pixels(it.size)
	it.dpp = float64(w) / float64(it.size.Width)
	into := a.spare
	a.spare = nil
	if into == nil || into.Rect.Dx() != w || into.Rect.Dy() != h {
		into = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if a.paint == nil {
		a.paint = scene.NewLoneRasteriser()
	}
	paint, turn := a.paint, a.turn
	if c := &s.board.convoy; c.on && s.board.frame.Preview {
		p := s.board.pair(it)
		return func() { p.draw(paint, c.paint, into) }, func() { s.deliver(it, into, v, room, turn, p) }
	}
	return func() { it.draw(paint, into) }, func() { s.deliver(it, into, v, room, turn, nil) }
}

// pixels returns how many device pixels the driver will ask for.
func (s *base) pixels(size fyne.Size) (w, h int) {
	dpp := s.dpp
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.raster); c != nil {
		dpp = float64(c.Scale())
	}
	return int(math.Round(float64(size.Width) * dpp)), int(math.Round(float64(size.Height) * dpp))
}

// deliver shows what the worker drew for a view of the board with room around
// it, if it still fits; p is what goes with it while a convoy is on.
func (s *base) deliver(it *sheet, drawn *image.RGBA, of view, room float32, turn int, p *pair) {
	a := &s.ahead
	a.asked = false
	now := s.board.view
	at := now.at(it.view.origin)
	fits := now == of // to the pixel
	if !a.soft {
		fits = now.k == of.k && at.X <= 0 && at.Y <= 0 && at.X >= -2*room && at.Y >= -2*room
	}
	switch {
	case turn != a.turn || p == nil && s.board.convoy.on && s.board.frame.Preview: // or a gesture has begun since
		a.spare = drawn
	case fits && !a.anew:
		a.spare = s.image
		s.image, s.view, s.room, s.stale = drawn, it.view, room, false
		s.home = of.at(it.view.origin)
		s.lay, s.list = it.in.Scheme.Plan.Underlay, it.list
		s.draws++
		a.soft, a.want, a.last, a.wide = false, false, shot{}, shot{}
		s.raster.Move(fyne.NewPos(s.whole(at.X), s.whole(at.Y)))
		s.renew()
		s.beside(p)
		s.board.showLive() // it stood in for what has come
		if room == 0 && p == nil {
			a.want, a.lead = true, fyne.Delta{} // with its margin, for a pan
		}
	case a.soft:
		if a.last.image != a.wide.image {
			a.spare = a.last.image
		}
		a.last = shot{drawn, it.view}
		s.raster.Refresh()
		s.beside(p)
	default:
		a.spare, a.want = drawn, false
	}
	if s.wants() {
		s.ask()
	}
}

// beside shows what a convoy has on its own picture, as far as the base that was
// just taken over; without one everything is on the base.
func (s *base) beside(p *pair) {
	switch c := &s.board.convoy; {
	case p != nil:
		c.show(s.board, p)
	case c.on:
		c.end(s.board)
	}
}

// stretched returns the last pictures stretched to the present view: the one
// from before the wheel turned, and over it the last one. Around both is paper.
func (s *base) stretched(w, h int) image.Image {
	a := &s.ahead
	if a.scratch == nil || a.scratch.Rect.Dx() != w || a.scratch.Rect.Dy() != h {
		a.scratch = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	to := stretch{view: s.view, dpp: s.dpp}
	if p := s.board.palette.Paper; s.board.shows != scene.LookDusk { // over the night picture it is clear
		to.paper = uint32(p.R) | uint32(p.G)<<8 | uint32(p.B)<<16 | 0xFF000000
	}
	to.draw(a.scratch, a.last, a.wide)
	return a.scratch
}

// stretch lays pictures of the plan on an image in another view; each pixel takes
// that of the picture it lies in.
type stretch struct {
	view  view
	dpp   float64
	paper uint32
	cols  [2][]int // per column of the image: that of each picture, -1 outside
	rows  [2][]int
}

// draw fills the image: where over does not reach with under, and where neither
// does with paper.
func (t *stretch) draw(into *image.RGBA, over, under shot) {
	for i, p := range []shot{over, under} {
		k := t.view.k / p.view.k
		x0 := float64(t.view.origin.X-p.view.origin.X) / p.view.k * t.dpp
		y0 := float64(p.view.origin.Y-t.view.origin.Y) / p.view.k * t.dpp
		t.cols[i] = steps(into.Rect.Dx(), x0, k, p.image.Rect.Dx())
		t.rows[i] = steps(into.Rect.Dy(), y0, k, p.image.Rect.Dy())
	}
	for y := range into.Rect.Dy() {
		row := into.Pix[y*into.Stride : (y+1)*into.Stride]
		if y > 0 && t.rows[0][y] == t.rows[0][y-1] && t.rows[1][y] == t.rows[1][y-1] {
			copy(row, into.Pix[(y-1)*into.Stride:y*into.Stride])
			continue
		}
		t.row(row, line(over.image, t.rows[0][y]), line(under.image, t.rows[1][y]))
	}
}

// row fills one row of the image from a row of each picture, nil outside it.
func (t *stretch) row(to, over, under []byte) {
	for x := 0; len(to) >= 4; x, to = x+1, to[4:] {
		c := t.paper
		if at := t.cols[0][x]; at >= 0 && over != nil {
			c = binary.LittleEndian.Uint32(over[4*at:])
		} else if at := t.cols[1][x]; at >= 0 && under != nil {
			c = binary.LittleEndian.Uint32(under[4*at:])
		}
		binary.LittleEndian.PutUint32(to, c)
	}
}

func line(m *image.RGBA, y int) []byte {
	if y < 0 {
		return nil
	}
	return m.Pix[y*m.Stride : (y+1)*m.Stride]
}

// steps returns where n pixels of an image lie among the size pixels of a
// picture: the first begins at from, each is k wide; -1 outside.
func steps(n int, from, k float64, size int) []int {
	out := make([]int, n)
	for i := range out {
		at := int(math.Floor(from + (float64(i)+0.5)*k))
		if at < 0 || at >= size {
			at = -1
		}
		out[i] = at
	}
	return out
}
