package ui

import (
	"context"
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/packs"
	"duskwire/ui/panel"
)

// workPage is the drawing of a page on screen.
const workPage = "page on screen"

// How a page is fitted into the view.
const (
	fitPage  = iota // all of it
	fitWidth        // its width
	fitNone         // at a scale of its own
)

// fullSize is how many pixels a millimetre has at 100 %: 96 an inch, at a window
// of 100 %.
const fullSize = 96 / 25.4

// zooms are the steps of the zoom.
var zooms = []float64{0.25, 0.33, 0.5, 0.67, 0.75, 1, 1.25, 1.5, 2, 3, 4, 6}

// pageView shows one page. Pages are drawn in a worker, only what is seen of them;
// until that is there the picture before stands in, moved or scaled.
type pageView struct {
	widget.BaseWidget
	sheet   *sheet
	painter *packs.Painter
	raster  *canvas.Raster
	ring    panel.Ring

	page  *packs.Page // nil: nothing to show yet
	fit   int
	k     float64     // pixels a millimetre
	off   image.Point // of the page, at the upper left of the view
	size  image.Point // of the view in pixels
	drawn drawnPart
	buf   *image.RGBA

	turn    func(by int) // to another page
	zoomed  func()
	failure func(error)
}

// drawnPart is what the worker drew last.
type drawnPart struct {
	page *packs.Page
	k    float64
	at   image.Rectangle // of the page
	img  *image.RGBA
}

func newPageView(s *sheet, turn func(int)) *pageView {
	v := &pageView{sheet: s, painter: &packs.Painter{}, ring: panel.NewRing(), turn: turn, k: fullSize}
	v.raster = canvas.NewRaster(v.compose)
	v.raster.ScaleMode = canvas.ImageScalePixels
	v.ExtendBaseWidget(v)
	return v
}

// CreateRenderer implements fyne.Widget.
func (v *pageView) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(v.raster, v.ring))
}

// MinSize implements fyne.Widget.
func (v *pageView) MinSize() fyne.Size { return fyne.NewSize(160, 90) }

// Resize implements fyne.Widget.
func (v *pageView) Resize(size fyne.Size) {
	v.BaseWidget.Resize(size)
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		v.resized(int(math.Round(float64(size.Width*c.Scale()))), int(math.Round(float64(size.Height*c.Scale()))))
	}
}

// show puts another page into the view.
func (v *pageView) show(p *packs.Page) {
	if v.page == p {
		return
	}
	v.page = p
	v.off = image.Point{}
	v.place()
	v.again()
}

// resized takes the size of the view in pixels.
func (v *pageView) resized(w, h int) {
	if v.size == image.Pt(w, h) {
		return
	}
	v.size = image.Pt(w, h)
	v.place()
	v.draw()
}

// scale is how many pixels a unit of the window has.
func (v *pageView) scale() float64 {
	if s := v.Size(); s.Width > 0 && v.size.X > 0 {
		return float64(v.size.X) / float64(s.Width)
	}
	return 1
}

// pageSize is the size of the page in pixels.
func (v *pageView) pageSize() image.Point {
	return image.Pt(int(math.Round(v.page.List.Width*v.k)), int(math.Round(v.page.List.Height*v.k)))
}

// place works out the scale of a fitted page and keeps the page in the view.
func (v *pageView) place() {
	if v.page == nil || v.size.X <= 0 || v.size.Y <= 0 {
		return
	}
	margin := 12 * v.scale()
	wide := max(float64(v.size.X)-margin, 1) / v.page.List.Width
	switch v.fit {
	case fitPage:
		v.k = min(wide, max(float64(v.size.Y)-margin, 1)/v.page.List.Height)
	case fitWidth:
		v.k = wide
	}
	size := v.pageSize()
	keep := func(off, page, view int) int {
		if page <= view {
			return (page - view) / 2
		}
		return max(-int(margin)/2, min(off, page-view+int(margin)/2))
	}
	v.off = image.Pt(keep(v.off.X, size.X, v.size.X), keep(v.off.Y, size.Y, v.size.Y))
	if v.zoomed != nil {
		v.zoomed()
	}
}

// percent is the scale as it is read.
func (v *pageView) percent() float64 { return v.k / (fullSize * v.scale()) * 100 }

// zoomTo sets the scale, 1 for full size, about the middle of the view.
func (v *pageView) zoomTo(z float64) {
	if v.page == nil {
		return
	}
	k := fullSize * v.scale() * max(zooms[0], min(z, zooms[len(zooms)-1]))
	about := func(off, view int) int {
		return int(math.Round((float64(off)+float64(view)/2)*k/v.k - float64(view)/2))
	}
	v.off = image.Pt(about(v.off.X, v.size.X), about(v.off.Y, v.size.Y))
	v.fit, v.k = fitNone, k
	v.place()
	v.again()
}

// zoomBy goes to the next step up or down.
func (v *pageView) zoomBy(step int) {
	now := v.percent() / 100
	if step > 0 {
		for _, z := range zooms {
			if z > now*1.01 {
				v.zoomTo(z)
				return
			}
		}
		return
	}
	for i := len(zooms) - 1; i >= 0; i-- {
		if zooms[i] < now*0.99 {
			v.zoomTo(zooms[i])
			return
		}
	}
}

// setFit fits the page.
func (v *pageView) setFit(fit int) {
	v.fit = fit
	v.place()
	v.again()
}

// pan moves the view over the page by pixels and reports whether it moved.
func (v *pageView) pan(dx, dy int) bool {
	before := v.off
	v.off = v.off.Add(image.Pt(dx, dy))
	if v.page != nil {
		v.place()
	}
	if v.off == before {
		return false
	}
	v.again()
	return true
}

// again asks for the picture anew and shows meanwhile what there is.
func (v *pageView) again() {
	v.draw()
	v.raster.Refresh()
}

// seen is what of the page can be seen, in pixels of the page.
func (v *pageView) seen() image.Rectangle {
	return image.Rectangle{v.off, v.off.Add(v.size)}.Intersect(image.Rectangle{Max: v.pageSize()})
}

// draw draws what is seen in a worker, unless that is there already.
func (v *pageView) draw() {
	if v.page == nil || v.size.X <= 0 || v.size.Y <= 0 {
		return
	}
	part := drawnPart{page: v.page, k: v.k, at: v.seen()}
	if part.at.Empty() || v.drawn.page == part.page && v.drawn.k == part.k && v.drawn.at == part.at {
		return
	}
	painter := v.painter
	Run(v.sheet.win.bridge, workPage, func(ctx context.Context) (drawnPart, error) {
		var err error
		part.img, err = painter.Part(ctx, part.page, part.k, part.at)
		return part, err
	}, func(p drawnPart, err error) {
		if err != nil {
			v.failure(err)
			return
		}
		v.drawn = p
		v.raster.Refresh()
	})
}

// compose puts the picture of the view together.
func (v *pageView) compose(w, h int) image.Image {
	if v.buf == nil || v.buf.Rect.Dx() != w || v.buf.Rect.Dy() != h {
		v.buf = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	v.resized(w, h)
	fill(v.buf, v.buf.Rect, theme.Color(theme.ColorNameDisabledButton))
	if v.page == nil {
		return v.buf
	}
	page := image.Rectangle{Max: v.pageSize()}.Sub(v.off)
	fill(v.buf, page.Inset(-1), theme.Color(theme.ColorNamePlaceHolder)) // an edge round it
	fill(v.buf, page, color.White)
	d := &v.drawn
	if d.img == nil || d.page != v.page {
		return v.buf
	}
	if d.k == v.k {
		to := d.at.Sub(v.off).Intersect(v.buf.Rect)
		from := to.Add(v.off).Sub(d.at.Min)
		for y := range to.Dy() {
			i, j := v.buf.PixOffset(to.Min.X, to.Min.Y+y), d.img.PixOffset(from.Min.X, from.Min.Y+y)
			copy(v.buf.Pix[i:i+4*to.Dx()], d.img.Pix[j:j+4*to.Dx()])
		}
		return v.buf
	}
	v.standIn(page.Intersect(v.buf.Rect))
	return v.buf
}

// standIn scales the picture of another zoom into the view.
func (v *pageView) standIn(to image.Rectangle) {
	d, f := &v.drawn, v.drawn.k/v.k
	for y := to.Min.Y; y < to.Max.Y; y++ {
		sy := int((float64(y+v.off.Y)+0.5)*f) - d.at.Min.Y
		if sy < 0 || sy >= d.at.Dy() {
			continue
		}
		for x := to.Min.X; x < to.Max.X; x++ {
			sx := int((float64(x+v.off.X)+0.5)*f) - d.at.Min.X
			if sx < 0 || sx >= d.at.Dx() {
				continue
			}
			i, j := v.buf.PixOffset(x, y), d.img.PixOffset(sx, sy)
			copy(v.buf.Pix[i:i+4], d.img.Pix[j:j+4])
		}
	}
}

// fill paints a rectangle in one colour.
func fill(m *image.RGBA, r image.Rectangle, c color.Color) {
	r = r.Intersect(m.Rect)
	if r.Empty() {
		return
	}
	p := color.RGBAModel.Convert(c).(color.RGBA)
	first := m.Pix[m.PixOffset(r.Min.X, r.Min.Y):][:4*r.Dx()]
	for i := 0; i < len(first); i += 4 {
		first[i], first[i+1], first[i+2], first[i+3] = p.R, p.G, p.B, 255
	}
	for y := r.Min.Y + 1; y < r.Max.Y; y++ {
		copy(m.Pix[m.PixOffset(r.Min.X, y):], first)
	}
}
