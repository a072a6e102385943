package panel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

var _ fyne.Focusable = (*TabBar)(nil)

// TabBar gives the keyboard to the heads of tabs, which Fyne keeps for the
// mouse: the arrows choose a tab, Return goes into it.
type TabBar struct {
	widget.BaseWidget
	tabs *container.AppTabs
	ring Ring
	box  *fyne.Container
}

// NewTabBar returns the bar; Object holds it and the tabs.
func NewTabBar(tabs *container.AppTabs) *TabBar {
	b := &TabBar{tabs: tabs, ring: NewRing()}
	b.ExtendBaseWidget(b)
	b.box = container.New(barred{}, b, tabs, b.ring)
	return b
}

// Object returns the tabs with the bar under them, so that clicks go to the
// tabs.
func (b *TabBar) Object() fyne.CanvasObject { return b.box }

// barred lays the tabs over the bar, and the ring round their heads.
type barred struct{}

// MinSize implements fyne.Layout.
func (barred) MinSize(o []fyne.CanvasObject) fyne.Size { return o[1].MinSize() }

// Layout implements fyne.Layout.
func (barred) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[1].Move(fyne.NewPos(0, 0))
	o[1].Resize(size)
	head := size
	if t := o[1].(*container.AppTabs).Selected(); t != nil {
		head.Height = t.Content.Position().Y
	}
	for _, i := range []int{0, 2} {
		o[i].Move(fyne.NewPos(0, 0))
		o[i].Resize(head)
	}
}

// FocusGained implements fyne.Focusable.
func (b *TabBar) FocusGained() {
	b.box.Refresh()
	b.ring.Show()
}

// FocusLost implements fyne.Focusable.
func (b *TabBar) FocusLost() { b.ring.Hide() }

// TypedRune implements fyne.Focusable.
func (b *TabBar) TypedRune(r rune) { PassRune(b, r) }

// TypedKey implements fyne.Focusable.
func (b *TabBar) TypedKey(e *fyne.KeyEvent) {
	n, at := len(b.tabs.Items), b.tabs.SelectedIndex()
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyUp:
		b.tabs.SelectIndex((at + n - 1) % n)
	case fyne.KeyRight:
		b.tabs.SelectIndex((at + 1) % n)
	case fyne.KeyHome:
		b.tabs.SelectIndex(0)
	case fyne.KeyEnd:
		b.tabs.SelectIndex(n - 1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown:
		if app := fyne.CurrentApp(); app != nil {
			if c := app.Driver().CanvasForObject(b); c != nil {
				c.FocusNext()
				if _, more := c.Focused().(*widget.Button); more { // Fyne's, for heads without room
					c.FocusNext()
				}
			}
		}
	default:
		PassKey(b, e)
	}
}

// CreateRenderer implements fyne.Widget.
func (b *TabBar) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
