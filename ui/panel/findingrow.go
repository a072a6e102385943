package panel

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
)

var (
	_ fyne.Tappable     = (*findingRow)(nil)
	_ fyne.Focusable    = (*findingRow)(nil)
	_ desktop.Hoverable = (*findingRow)(nil)
)

// rowOwner is the list a row belongs to.
type rowOwner interface {
	pick(finding.Finding)
	detail(finding.Finding) []fyne.CanvasObject
	seen(fyne.CanvasObject) // brings a row, or a part of it, into view
	hints() *Tips
	step(from *findingRow, by int) // takes the keyboard to the row below or above
}

// findingRow shows one finding: its mark, its label and code, its sentence,
// and when open the detail below. It is reused for another finding when the
// list changes, so it always acts on the finding it holds now.
type findingRow struct {
	widget.BaseWidget
	owner  rowOwner
	now    finding.Finding
	open   bool
	filled bool
	stamp  uint64 // of what the detail holds besides the finding

	ground  *canvas.Rectangle
	strike  *canvas.Line
	mark    *Icon
	head    *widget.Label
	text    *widget.Label
	detail  *fyne.Container
	content *fyne.Container

	hovered, focused bool
	ring             Ring
}

func newFindingRow(owner rowOwner) *findingRow {
	r := &findingRow{owner: owner, ground: canvas.NewRectangle(nil), strike: canvas.NewLine(nil),
		mark: NewIcon(nil), ring: NewRing(), head: heading(""), text: widget.NewLabel(""), detail: container.New(snug{})}
	r.text.Wrapping = fyne.TextWrapWord
	r.head.Truncation = fyne.TextTruncateEllipsis
	r.detail.Hide()
	r.strike.StrokeWidth = 1.5
	r.strike.Hide()
	r.content = container.NewBorder(nil, nil, container.NewVBox(container.NewPadded(r.mark)), nil,
		container.New(tight{}, r.head, r.text, r.detail))
	r.ExtendBaseWidget(r)
	return r
}

// set puts a finding into the row and reports whether anything changed. stamp
// changes with what the detail holds besides the finding.
func (r *findingRow) set(f *finding.Finding, open bool, stamp uint64) bool {
	if r.filled && open == r.open && stamp == r.stamp && reflect.DeepEqual(*f, r.now) {
		return false
	}
	detail := open && (!r.filled || !r.open || stamp != r.stamp || !reflect.DeepEqual(*f, r.now))
	r.now, r.open, r.filled, r.stamp = *f, open, true, stamp
	r.mark.SetResource(Mark(f.Level))
	head := f.Level.String() + "  "
	if f.Subject.Label != "" {
		head += capital(f.Subject.Label) + "  "
	}
	r.head.SetText(head + string(f.Code))
	text := capital(f.Text)
	if f.Overruled != nil {
		text += "\nOverruled: " + f.Overruled.Reason
	}
	r.text.Importance = widget.MediumImportance
	if f.Overruled != nil {
		r.text.Importance = widget.LowImportance
		r.strike.Show()
	} else {
		r.strike.Hide()
	}
	r.text.SetText(text)
	if detail {
		r.detail.Objects = r.owner.detail(*f)
		for _, o := range r.detail.Objects {
			onFocus(o, r.owner.seen)
		}
		r.detail.Refresh()
	}
	if open {
		r.detail.Show()
	} else {
		r.detail.Hide()
	}
	r.settle()
	if r.Size().Width > 0 { // a new row is laid out when it gets its place
		relay(r.content)
	}
	return true
}

// Tapped implements fyne.Tappable.
func (r *findingRow) Tapped(*fyne.PointEvent) {
	r.owner.hints().Hide()
	r.owner.pick(r.now)
}

// FocusGained implements fyne.Focusable.
func (r *findingRow) FocusGained() {
	r.focused = true
	r.ring.Show()
	r.shade()
	r.owner.seen(r)
	r.tip()
}

// tip shows the working of the finding while the pointer or the keyboard is on
// its row; an open one says it below already.
func (r *findingRow) tip() {
	if !r.open && (r.now.Working != "" || r.now.Figure != "") {
		r.owner.hints().Over(r, func() Tip { return tipOf(&r.now) })
	}
}

// FocusLost implements fyne.Focusable.
func (r *findingRow) FocusLost() {
	r.focused = false
	r.ring.Hide()
	r.shade()
	r.owner.hints().Off(r)
}

// TypedRune implements fyne.Focusable.
func (r *findingRow) TypedRune(c rune) { PassRune(r, c) }

// TypedKey implements fyne.Focusable: Return and Space click, arrows go up and down.
func (r *findingRow) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		r.owner.hints().Hide()
		r.owner.pick(r.now)
	case fyne.KeyDown:
		r.owner.step(r, 1)
	case fyne.KeyUp:
		r.owner.step(r, -1)
	default:
		PassKey(r, e)
	}
}

// MouseIn implements desktop.Hoverable.
func (r *findingRow) MouseIn(*desktop.MouseEvent) { r.hovered = true; r.shade(); r.tip() }

// MouseMoved implements desktop.Hoverable.
func (r *findingRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *findingRow) MouseOut() { r.hovered = false; r.shade(); r.owner.hints().Off(r) }

// settle lays the row out after what it says has changed.
func (r *findingRow) settle() {
	r.paint()
	r.place(r.Size())
	canvas.Refresh(r)
}

func (r *findingRow) shade() {
	r.paint()
	r.ground.Refresh()
}

// paint sets the colours from the theme and the state.
func (r *findingRow) paint() {
	th, v := r.Theme(), fyne.CurrentApp().Settings().ThemeVariant()
	r.ground.FillColor = th.Color(theme.ColorNameBackground, v)
	r.ground.StrokeWidth = 0
	switch {
	case r.hovered:
		r.ground.FillColor = th.Color(theme.ColorNameHover, v)
	case r.open:
		r.ground.FillColor = th.Color(theme.ColorNameHeaderBackground, v)
	}
	r.strike.StrokeColor = th.Color(ColourQuiet, v)
}

// CreateRenderer implements fyne.Widget.
func (r *findingRow) CreateRenderer() fyne.WidgetRenderer {
	r.paint()
	return &findingRenderer{r, []fyne.CanvasObject{r.ground, r.content, r.strike, r.ring}}
}

type findingRenderer struct {
	row     *findingRow
	objects []fyne.CanvasObject
}

func (n *findingRenderer) Destroy()                     {}
func (n *findingRenderer) Objects() []fyne.CanvasObject { return n.objects }
func (n *findingRenderer) MinSize() fyne.Size           { return n.row.content.MinSize() }

func (n *findingRenderer) Layout(size fyne.Size) { n.row.place(size) }

// place puts the parts of the row where they belong.
func (r *findingRow) place(size fyne.Size) {
	r.ground.Resize(size)
	r.content.Resize(size)
	r.ring.Resize(size)
	at := r.head.Position().Add(fyne.NewPos(r.mark.Size().Width, r.head.MinSize().Height/2))
	inner := r.Theme().Size(theme.SizeNameInnerPadding)
	width := fyne.MeasureText(r.head.Text, r.Theme().Size(theme.SizeNameText), r.head.TextStyle).Width
	left := r.mark.Size().Width + 2*r.Theme().Size(theme.SizeNamePadding) + inner
	r.strike.Position1 = fyne.NewPos(left, at.Y)
	r.strike.Position2 = fyne.NewPos(left+width, at.Y)
}

func (n *findingRenderer) Refresh() {
	n.row.settle()
	n.row.content.Refresh()
	n.row.ring.Refresh()
}

// tight stacks a head line, a sentence and the detail; labels carry padding of
// their own, so that the sentence may move up under its head.
type tight struct{}

const tuck = 8

func (tight) MinSize(o []fyne.CanvasObject) fyne.Size {
	w, h := float32(0), float32(0)
	for i, c := range o {
		if !c.Visible() {
			continue
		}
		m := c.MinSize()
		w, h = max(w, m.Width), h+m.Height
		if i == 1 {
			h -= tuck
		}
	}
	return fyne.NewSize(w, h)
}

func (tight) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y := float32(0)
	for i, c := range o {
		if !c.Visible() {
			continue
		}
		if i == 1 {
			y -= tuck
		}
		keepUnits(c, size.Width)
		c.Move(fyne.NewPos(0, y))
		c.Resize(fyne.NewSize(size.Width, c.MinSize().Height))
		// A label knows its wrapped height once it has its width.
		if h := c.MinSize().Height; h != c.Size().Height {
			c.Resize(fyne.NewSize(size.Width, h))
		}
		y += c.Size().Height
	}
}
