package layout

import (
	"context"
	"image"
	"math"
	"runtime"
	"slices"
	"sync"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
	"duskwire/layout/scene"
)

const (
	// duskCells is about how many cells the fine sheet has; a cell of the coarse
	// one is duskCoarse by duskCoarse of them.
	duskCells  = 512 * 512
	duskCoarse = 4
	// shareStep is what shares of full output are rounded to for the picture: a
	// run that is lengthened by a hand changes the volts of all lamps on it by
	// next to nothing, and each that changes has to be worked out again. At most
	// 0.2 % of a lamp's light.
	shareStep = 1.0 / 256
)

// Dusk works out night pictures one after the other and keeps what did not
// change in between: a lamp that is dragged or aimed is exchanged in the sheet,
// anything else is worked out anew, coarse first. What it gives depends on the
// wish alone, never on the ones before. It runs in a worker and is used by one
// goroutine at a time.
type Dusk struct {
	nights Nights
	night  *Night
	of     *Frame
	after  bool // of night: after curfew
	late   LateNight
	lamps  []light.Lamp // of night, shares rounded
	area   geom.Rect
	fine   tier
	coarse tier
	paint  *scene.Rasteriser
	cells  int // of the fine sheet, about
	given  given
}

// given says what was handed out last.
type given struct {
	night  *Night
	coarse bool
	area   geom.Rect
	seen   seen
}

// NewDusk returns a worker that has seen nothing yet.
func NewDusk() *Dusk { return &Dusk{paint: scene.NewRasteriser().Alone(), cells: duskCells} }

// Step does the next thing towards what is wished for. shot is nil when there is
// nothing new to show; more says that another Step with the same wish has
// something to do, so that the caller can look in between whether the wish still
// stands. A cancelled ctx ends a long step early with its error; what was done
// is kept.
func (d *Dusk) Step(ctx context.Context, w DuskWish) (shot *DuskShot, more bool, err error) {
	if err := d.look(w); err != nil {
		return nil, false, err
	}
	held := d.index(w.Hold)
	if !d.fine.quick(d) {
		if err := d.coarse.fill(context.Background(), d, d.cells/duskCoarse/duskCoarse); err != nil {
			return nil, false, err
		}
		if want := (given{d.night, true, d.area, w.seen()}); d.given != want {
			d.given = want
			return d.draw(w, &d.coarse, true), true, nil
		}
		if err := d.fine.fill(ctx, d, d.cells); err != nil {
			return nil, false, err
		}
	}
	if err := d.fine.follow(d, held); err != nil {
		return nil, false, err
	}
	if want := (given{d.night, false, d.area, w.seen()}); d.given != want {
		d.given = want
		return d.draw(w, &d.fine, false), held >= 0, nil
	}
	if held >= 0 {
		d.fine.sheet.Hold(held)
	}
	return nil, false, nil
}

// look takes in the frame and the area of a wish.
func (d *Dusk) look(w DuskWish) error {
	d.area = w.Area
	if d.of == w.Frame && d.after == w.AfterCurfew {
		return nil
	}
	night, err := d.nights.Of(w.Frame)
	if err != nil {
		return err
	}
	d.late = night.Late(w.Frame)
	if w.AfterCurfew {
		if night, err = night.AfterCurfew(w.Frame); err != nil {
			return err
		}
	}
	d.night, d.of, d.after = night, w.Frame, w.AfterCurfew
	d.lamps = make([]light.Lamp, night.Scene.Len())
	for i := range d.lamps {
		l := night.Scene.Lamp(i)
		l.Share, l.Profile = math.Round(l.Share/shareStep)*shareStep, l.Profile.Rounded(shareStep)
		d.lamps[i] = l
	}
	return nil
}

// index returns the number of a lamp in the night, -1 when it has none.
func (d *Dusk) index(id doc.ID) int {
	if id == "" {
		return -1
	}
	return slices.IndexFunc(d.night.Lamps, func(l *doc.Lamp) bool { return l.ID == id })
}

// tier is the light at one size of cells.
type tier struct {
	sheet *light.Sheet
	lamps []light.Lamp // that sheet shows
	solid []doc.Entity
	rise  []*doc.Area
	area  geom.Rect
	whole bool // sheet is filled
	band  int  // the next one to fill
	areas []*doc.Area
	rho   light.Ground
	image *picture.Picture // of the sheet, nil when it has to be made
	lines []light.Contour
}

// suits reports whether the sheet is of the same grid, things in the way and
// number of lamps, so that lamps can be exchanged in it.
func (t *tier) suits(d *Dusk) bool {
	return t.sheet != nil && t.area == d.area && len(t.lamps) == len(d.lamps) && slices.Equal(t.solid, d.night.Solid) && slices.Equal(t.rise, d.night.Ground)
}

// changed returns the lamps that are not as the sheet shows them.
func (t *tier) changed(d *Dusk) (out []int) {
	for i := range d.lamps {
		if t.lamps[i] != d.lamps[i] {
			out = append(out, i)
		}
	}
	return out
}

// quick reports whether the sheet can be brought up to date by exchanging lamps,
// in much less time than filling it takes. An exchange works out one lamp, or two on a
// sheet too large to keep.
func (t *tier) quick(d *Dusk) bool {
	if !t.whole || !t.suits(d) {
		return false
	}
	n := len(t.changed(d))
	return n <= 1 || 16*n <= len(d.lamps)
}

// follow exchanges the lamps that have changed, the held one last, so that it
// stays held.
func (t *tier) follow(d *Dusk, held int) error {
	list := t.changed(d)
	if at := slices.Index(list, held); at >= 0 {
		list = append(slices.Delete(list, at, at+1), held)
	}
	for _, i := range list {
		if err := t.sheet.Exchange(i, d.lamps[i]); err != nil {
			return err
		}
		t.lamps[i] = d.lamps[i]
		t.image = nil
	}
	return nil
}

// fill works the sheet out, by exchange where that is quick. Cells is about how
// many it has.
func (t *tier) fill(ctx context.Context, d *Dusk, cells int) error {
	if t.quick(d) {
		return t.follow(d, -1)
	}
	if t.whole || !t.suits(d) || len(t.changed(d)) > 0 {
		if err := t.start(d, cells); err != nil {
			return err
		}
	}
	// One core is left to the hand; bands do not touch each other.
	side := max(1, runtime.NumCPU()-1)
	for t.band < t.sheet.Bands() {
		if err := ctx.Err(); err != nil {
			return err
		}
		var wait sync.WaitGroup
		for k := t.band; k < min(t.band+side, t.sheet.Bands()); k++ {
			wait.Go(func() { t.sheet.Band(k) })
		}
		wait.Wait()
		t.band += side
	}
	t.whole = true
	return nil
}

// start makes an empty sheet.
func (t *tier) start(d *Dusk, cells int) error {
	sc, err := d.night.Scene.Relit(d.lamps)
	if err != nil {
		return err
	}
	g := NightGrid(d.area, cells)
	sheet, err := light.NewSheetOn(sc, g, d.night.Relief(g))
	if err != nil {
		return err
	}
	if t.area != d.area {
		t.rho.Kind = nil
	}
	sheet.Keep()
	t.sheet, t.lamps, t.solid, t.rise, t.area = sheet, slices.Clone(d.lamps), d.night.Solid, d.night.Ground, d.area
	t.whole, t.band, t.image = false, 0, nil
	return nil
}

// develop makes picture and lines of the sheet, unless they are made.
func (t *tier) develop(d *Dusk) {
	s := d.of.Scheme
	if areas := s.Areas.All(); t.rho.Kind == nil || !slices.Equal(t.areas, areas) {
		t.areas, t.rho, t.image = areas, NightGround(s, t.sheet.Grid()), nil
	}
	if t.image != nil {
		return
	}
	g := t.sheet.Grid()
	img := image.NewRGBA(image.Rect(0, 0, g.W, g.H))
	t.sheet.Paint(light.Night, t.rho, img)
	t.image = picture.Of(img)
	t.lines = NightLines(t.sheet)
}

// NightLines returns the lines of equal lux of a sheet, faint levels first.
func NightLines(s *light.Sheet) (out []light.Contour) {
	values := s.All()
	for _, level := range light.Levels {
		out = append(out, light.Contours(s.Grid(), values, level)...)
	}
	return out
}

// draw makes the shot of a tier.
func (d *Dusk) draw(w DuskWish, t *tier, coarse bool) *DuskShot {
	t.develop(d)
	shot := &DuskShot{Seq: w.Frame.Seq, Preview: w.Frame.Preview, Night: d.night, AfterCurfew: d.after, Late: d.late, Coarse: coarse,
		Picture: t.image, Grid: t.sheet.Grid(), Lines: t.lines, View: w.View, Width: w.Width, Height: w.Height}
	px := func(mm float64) int { return max(int(math.Round(mm*w.PxPerMM)), 1) }
	shot.Image = image.NewRGBA(image.Rect(0, 0, px(w.Width), px(w.Height)))
	list := scene.Lux(scene.LuxInput{Picture: shot.Picture, Grid: shot.Grid, Lines: shot.Lines, Around: NightAround()}, w.View, w.Width, w.Height)
	d.paint.Draw(shot.Image, list, w.PxPerMM)
	return shot
}
