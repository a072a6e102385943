package board

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"duskwire/layout"
	"duskwire/layout/scene"
)

// night is the picture of the garden at night under the lines of the plan. It is
// drawn in a worker for the view that was on when it was asked for; until the next
// one comes it is moved and stretched with the view. Where it does not reach, bars
// of moonlit ground fill the board: a whole rectangle under it would cost a third
// of a frame.
type night struct {
	board  *Board
	raster *canvas.Raster
	bars   [4]*canvas.Rectangle
	box    *fyne.Container
	shot   *layout.DuskShot
	at     view // of the shot
}

// mostStretch is how many times larger or smaller than drawn a picture is shown
// until the next one comes.
const mostStretch = 6

func (n *night) init(b *Board) {
	n.board = b
	n.raster = canvas.NewRaster(n.generate)
	n.raster.ScaleMode = canvas.ImageScalePixels
	c := layout.NightAround()
	n.box = container.NewWithoutLayout(n.raster)
	for i := range n.bars {
		n.bars[i] = canvas.NewRectangle(color.NRGBA{R: c.R, G: c.G, B: c.B, A: 255})
		n.box.Add(n.bars[i])
	}
	n.box.Hide()
}

// generate hands out the picture as it was drawn.
func (n *night) generate(w, h int) image.Image {
	if n.shot == nil {
		return image.NewRGBA(image.Rect(0, 0, max(min(w, 1), 1), max(min(h, 1), 1)))
	}
	return n.shot.Image
}

// SetNight shows a night picture under the lines; nil takes the last one off.
func (b *Board) SetNight(s *layout.DuskShot) {
	n := &b.night
	n.shot = s
	if s != nil {
		n.at = view{origin: s.View.Origin, k: viewAt(s.View.Origin, s.View.Denominator, fyne.Size{}).k}
	}
	n.follow()
	n.raster.Refresh()
}

// Night returns the night picture shown, nil for none.
func (b *Board) Night() *layout.DuskShot { return b.night.shot }

// NightWish fills in what has to be drawn for the present view, with a margin for
// panning; ok is false while the board has no size.
func (b *Board) NightWish(w *layout.DuskWish) (ok bool) {
	size := b.Size()
	if size.Width < 1 || size.Height < 1 || b.base.dpp <= 0 {
		return false
	}
	v := b.view.panned(margin, margin)
	w.View = v.scene()
	w.Width, w.Height = float64(size.Width+2*margin)/unitsPerMM, float64(size.Height+2*margin)/unitsPerMM
	w.PxPerMM = unitsPerMM * b.base.dpp
	return true
}

// follow puts the picture where it belongs in the present view, and asks for
// another one when that is no longer the view it was drawn for.
func (n *night) follow() {
	b := n.board
	on := b.shows == scene.LookDusk
	if on != n.box.Visible() {
		if on {
			n.box.Show()
		} else {
			n.box.Hide()
		}
	}
	if !on {
		return
	}
	size := b.Size()
	at, to, shows := n.place(size)
	if shows {
		n.raster.Move(at)
		if n.raster.Size() != to {
			n.raster.Resize(to)
		}
		n.raster.Show()
	} else {
		n.raster.Hide()
		at, to = fyne.Position{}, fyne.Size{}
	}
	n.fill(size, at, to)
	if b.cfg.OnNight != nil && (!shows || n.worn(at, to, size)) {
		b.cfg.OnNight()
	}
}

// place returns where the picture lies on the board.
func (n *night) place(size fyne.Size) (at fyne.Position, to fyne.Size, shows bool) {
	b := n.board
	if n.shot == nil {
		return at, to, false
	}
	k := float32(n.at.k / b.view.k)
	at = b.view.at(n.at.origin)
	to = fyne.NewSize(float32(n.shot.Width*unitsPerMM)*k, float32(n.shot.Height*unitsPerMM)*k)
	if k > mostStretch || k < 1.0/mostStretch || at.X > size.Width || at.Y > size.Height || at.X+to.Width < 0 || at.Y+to.Height < 0 {
		return at, to, false
	}
	return fyne.NewPos(b.base.whole(at.X), b.base.whole(at.Y)), to, true
}

// worn reports whether the picture was drawn for another scale or its margin is
// nearly used up.
func (n *night) worn(at fyne.Position, to, size fyne.Size) bool {
	const left = margin / 4
	return math.Abs(n.at.k-n.board.view.k) > 1e-6*n.board.view.k || at.X > -left || at.Y > -left ||
		at.X+to.Width < size.Width+left || at.Y+to.Height < size.Height+left
}

// fill shows bars where the picture does not reach.
func (n *night) fill(size fyne.Size, at fyne.Position, to fyne.Size) {
	x0, y0 := min(max(at.X, 0), size.Width), min(max(at.Y, 0), size.Height)
	x1, y1 := min(max(at.X+to.Width, x0), size.Width), min(max(at.Y+to.Height, y0), size.Height)
	for i, r := range [4][4]float32{{0, 0, size.Width, y0}, {0, y1, size.Width, size.Height}, {0, y0, x0, y1}, {x1, y0, size.Width, y1}} {
		bar := n.bars[i]
		if r[2]-r[0] <= 0 || r[3]-r[1] <= 0 {
			bar.Hide()
			continue
		}
		bar.Move(fyne.NewPos(r[0], r[1]))
		bar.Resize(fyne.NewSize(r[2]-r[0], r[3]-r[1]))
		bar.Show()
	}
}

// paletteNow returns the colours that the plan is drawn in: over the night picture
// those of a dark screen, whatever the window has.
func (b *Board) paletteNow() *scene.Palette {
	if b.shows == scene.LookDusk {
		return nightPalette
	}
	return b.palette
}

var nightPalette = scene.Dark()

// figured reports whether a look shows figures of the circuits, which follow a
// gesture everywhere.
func figured(l scene.Look) bool { return l != scene.LookPlan && l != scene.LookDusk }
