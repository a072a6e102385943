package board

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// renderer owns what Fyne draws: the base image, the live picture and the
// floating marks, all clipped to the board. Refresh of the whole board throws
// every picture away, so nothing here or in the board calls it for a gesture. There is
// no paper under the base image: it covers the board, and every layer as large as
// that costs a third of a frame where OpenGL is done in software.
type renderer struct {
	board *Board
	clip  *container.Clip
}

// CreateRenderer implements fyne.Widget.
func (b *Board) CreateRenderer() fyne.WidgetRenderer {
	inner := container.NewWithoutLayout(b.night.box, b.base.raster, b.live.raster, b.over.box)
	return &renderer{board: b, clip: container.NewClip(inner)}
}

// Layout implements fyne.WidgetRenderer.
func (r *renderer) Layout(size fyne.Size) {
	r.clip.Resize(size)
	r.board.over.box.Resize(size)
	r.board.resized(size)
}

// MinSize implements fyne.WidgetRenderer.
func (r *renderer) MinSize() fyne.Size { return fyne.NewSize(240, 180) }

// Refresh implements fyne.WidgetRenderer.
func (r *renderer) Refresh() {
	r.board.base.redraw()
	r.board.showLive()
	r.board.showOver()
}

// Objects implements fyne.WidgetRenderer.
func (r *renderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.clip} }

// Destroy implements fyne.WidgetRenderer.
func (r *renderer) Destroy() {}

// resized fits everything to a new size; the plan point in the middle of the
// board stays there.
func (b *Board) resized(size fyne.Size) {
	if b.base.shown == size {
		return
	}
	old := b.base.shown
	b.base.shown = size
	b.view = b.view.panned(float64(size.Width-old.Width)/2, float64(size.Height-old.Height)/2)
	b.base.redraw()
	if b.fit {
		b.ZoomFit()
	}
	b.night.follow()
	b.showLive()
	b.showOver()
	b.tell()
}
