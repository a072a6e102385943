package board

import (
	"image"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// liveRoom is the room in units around what is dragged for its symbol and
// label.
const liveRoom = 72

// live is a transparent picture of what a gesture changes, over the base. It
// covers no more of the board than that needs.
type live struct {
	board  *Board
	raster *canvas.Raster
	image  *image.RGBA
	paint  *scene.Rasteriser
	ids    map[doc.ID]bool
	view   view
	draws  int // for tests
}

func (l *live) init(b *Board) {
	l.board, l.paint = b, scene.NewRasteriser()
	l.raster = canvas.NewRaster(l.generate)
	l.raster.ScaleMode = canvas.ImageScalePixels
	l.raster.Hide()
}

// showLive draws what the preview changes, or hides the live picture when
// there is nothing to show.
func (b *Board) showLive() {
	l := &b.live
	if b.convoy.on {
		b.convoy.follow(b)
		return
	}
	if b.frame == nil || b.still == nil || !b.frame.Preview {
		if l.raster.Visible() {
			l.linger()
		}
		return
	}
	l.ids = affected(b.still.Scheme, b.frame.Scheme)
	for id := range b.hidden {
		l.ids[id] = true // hidden by an earlier move of the same gesture
	}
	var r geom.Rect
	for id := range l.ids {
		r = r.Union(tool.Extent(b.frame.Scheme, id))
	}
	at, size, shows := window(b.view, b.Size(), r)
	if !shows {
		l.raster.Hide()
		return
	}
	l.view = b.view.panned(-float64(at.X), -float64(at.Y))
	l.raster.Move(at)
	if l.raster.Size() != size {
		l.raster.Resize(size) // refreshes
	} else {
		l.raster.Refresh()
	}
	l.raster.Show()
}

// linger leaves the picture where it is on the plan until the base shows what the
// gesture came to.
func (l *live) linger() {
	b := l.board
	if !b.base.ahead.soft || l.view.k != b.view.k {
		l.raster.Hide()
		return
	}
	at := b.view.at(l.view.origin)
	l.raster.Move(fyne.NewPos(b.base.whole(at.X), b.base.whole(at.Y)))
}

// window returns the part of a sheet of that size that shows a plan rectangle
// with room around it, in whole units.
func window(v view, sheet fyne.Size, r geom.Rect) (at fyne.Position, size fyne.Size, shows bool) {
	if r.Empty() {
		return at, size, false
	}
	lo := v.at(geom.Point{X: r.Min.X, Y: r.Max.Y})
	hi := v.at(geom.Point{X: r.Max.X, Y: r.Min.Y})
	x0 := math.Max(0, math.Floor(float64(lo.X))-liveRoom)
	y0 := math.Max(0, math.Floor(float64(lo.Y))-liveRoom)
	x1 := math.Min(float64(sheet.Width), math.Ceil(float64(hi.X))+liveRoom)
	y1 := math.Min(float64(sheet.Height), math.Ceil(float64(hi.Y))+liveRoom)
	if x1-x0 < 1 || y1-y0 < 1 {
		return at, size, false
	}
	return fyne.NewPos(float32(x0), float32(y0)), fyne.NewSize(float32(x1-x0), float32(y1-y0)), true
}

func (l *live) generate(w, h int) image.Image {
	if w <= 0 || h <= 0 || l.board.frame == nil || l.raster.Size().Width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	if l.board.convoy.on && l.image != nil {
		return l.image // drawn by the worker, stretched by the driver
	}
	if l.image == nil || l.image.Rect.Dx() != w || l.image.Rect.Dy() != h {
		l.image = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	in := l.board.input(l.board.frame)
	in.Skip = func(id doc.ID) bool { return !l.ids[id] }
	in.Show[scene.LayerPicture] = false // it is in the base
	size := l.raster.Size()
	list := scene.Build(in, l.view.scene(), float64(size.Width)/unitsPerMM, float64(size.Height)/unitsPerMM)
	list.Background.A = 0
	l.paint.Draw(l.image, list, unitsPerMM*float64(w)/float64(size.Width))
	l.draws++
	return l.image
}

// affected returns the ids of what looks different in two schemes: what was
// added, removed or changed, the runs that hang on it, and what stands at
// their ends, so that a symbol stays over its cables.
func affected(from, to *doc.Scheme) map[doc.ID]bool {
	d := doc.Diff(from, to)
	ids := map[doc.ID]bool{}
	for _, refs := range [][]doc.Ref{d.Added, d.Removed, d.Changed} {
		for _, r := range refs {
			ids[r.ID] = true
		}
	}
	var ends []doc.ID
	for _, s := range []*doc.Scheme{from, to} {
		for _, r := range s.Runs.All() {
			if ids[r.ID] || ids[r.From.On] || ids[r.To.On] {
				ends = append(ends, r.ID, r.From.On, r.To.On)
			}
		}
	}
	for _, id := range ends {
		if id != "" {
			ids[id] = true
		}
	}
	for _, s := range []*doc.Scheme{from, to} {
		for _, m := range s.Dimensions.All() {
			if ids[m.From.On] || ids[m.To.On] {
				ids[m.ID] = true // it measures what changes
			}
		}
	}
	return ids
}
