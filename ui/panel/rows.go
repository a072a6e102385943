package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

const captionSize = theme.SizeNameCaptionText

// pair lays out a caption and a value side by side; captions of one panel line
// up because the split depends on the width alone.
type pair struct{}

const (
	captionMost = 124 // a caption needs no more than this
	pairLeast   = 190 // narrower than this the panel would be of no use
)

func (pair) split(width float32) float32 { return min(captionMost, width*0.42) }

// MinSize implements fyne.Layout.
func (p pair) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(pairLeast, max(o[0].MinSize().Height, o[1].MinSize().Height))
}

// Layout implements fyne.Layout.
func (p pair) Layout(o []fyne.CanvasObject, size fyne.Size) {
	at := p.split(size.Width)
	keepUnits(o[1], size.Width-at)
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(at, o[0].MinSize().Height))
	o[1].Move(fyne.NewPos(at, 0))
	o[1].Resize(fyne.NewSize(size.Width-at, size.Height))
}

// inset keeps its one object clear of the scroll bar on the right.
type inset struct{}

const barWidth = 10

// MinSize implements fyne.Layout.
func (inset) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().Add(fyne.NewSize(barWidth, 0))
}

// Layout implements fyne.Layout.
func (inset) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size.Subtract(fyne.NewSize(barWidth, 0)))
}

func caption(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}

func heading(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.TextStyle.Bold = true
	return l
}

func quiet(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	l.Importance = widget.LowImportance
	return l
}

// row is one line of a form.
type row interface {
	object() fyne.CanvasObject
	show()  // reads the frame, keeps what is being typed
	reset() // reads the frame, forgets what was typed
	flush() // commits what was typed
}

// line is what all rows share: the objects and when they are shown.
type line struct {
	box  *fyne.Container
	hint *Hinted // of the figure; nil for a row without one
	// about makes of the working of the figure what is said of it; nil takes it as it is.
	about func(Tip) Tip
	// when says whether the row applies; nil means always.
	when func() bool
}

func (l *line) object() fyne.CanvasObject { return l.box }

// why gives the figure of the row the tip that shows its working.
func (l *line) why(of func() Tip) *line {
	l.hint.Of = of
	if l.about != nil {
		l.hint.Of = func() Tip { return l.about(of()) }
	}
	return l
}

func (l *line) applies() bool {
	on := l.when == nil || l.when()
	if on != l.box.Visible() {
		if on {
			l.box.Show()
		} else {
			l.box.Hide()
		}
	}
	return on
}

// textRow is a caption with a field.
type textRow struct {
	line
	field *Field
	read  func() string
}

func newTextRow(name, placeholder string, read func() string, write func(string) error) *textRow {
	r := &textRow{read: read, field: NewField(placeholder, write)}
	r.box = container.New(pair{}, caption(name), r.field.Object())
	return r
}

func (r *textRow) show() {
	if r.applies() {
		r.field.SetShown(r.read())
	}
}

func (r *textRow) reset() {
	if r.applies() {
		r.field.Reset(r.read())
	}
}

func (r *textRow) flush() {
	if r.box.Visible() {
		r.field.Flush()
	}
}

// option is one choice: the key that goes into the scheme and what people read.
type option struct{ key, name string }

// choiceRow is a caption with a list to choose from.
type choiceRow struct {
	line
	pick    *Pick
	keys    []string
	options func() []option
	read    func() string
	write   func(key string) error
	reason  *widget.Label
}

func newChoiceRow(name string, options func() []option, read func() string, write func(string) error) *choiceRow {
	r := &choiceRow{options: options, read: read, write: write, reason: widget.NewLabel("")}
	r.pick = NewPick()
	r.reason.Importance = widget.DangerImportance
	r.reason.Wrapping = fyne.TextWrapWord
	r.reason.SizeName = captionSize
	r.reason.Hide()
	r.box = container.New(pair{}, caption(name), container.NewVBox(r.pick.Object(), r.reason))
	return r
}

// widen puts the list below its caption, for names that need the whole width.
func (r *choiceRow) widen() {
	name := r.box.Objects[0]
	r.box = container.New(under{}, name, r.pick.Object(), r.reason)
}

func (r *choiceRow) reset() {
	r.reason.Hide() // it was about another thing
	r.show()
}
func (r *choiceRow) flush() {}

// show fills the list with its hook detached, so that showing a value never
// writes one.
func (r *choiceRow) show() {
	if !r.applies() {
		return
	}
	r.pick.OnChanged = nil
	options, key := r.options(), r.read()
	names, at := make([]string, 0, len(options)+1), -1
	r.keys = r.keys[:0]
	for _, o := range options {
		if o.key == key {
			at = len(names)
		}
		names, r.keys = append(names, o.name), append(r.keys, o.key)
	}
	if at < 0 { // a key that the stock book does not know is shown as it is
		at = len(names)
		names, r.keys = append(names, "“"+key+"” (not in the stock book)"), append(r.keys, key)
	}
	if !same(names, r.pick.Options) {
		r.pick.SetOptions(names)
	}
	if r.pick.SelectedIndex() != at {
		r.pick.SetSelectedIndex(at)
	}
	r.pick.OnChanged = func(string) { r.chosen() }
}

func (r *choiceRow) chosen() {
	i := r.pick.SelectedIndex()
	if i < 0 || i >= len(r.keys) || r.keys[i] == r.read() {
		return
	}
	if err := r.write(r.keys[i]); err != nil {
		r.show() // what was refused is not shown as if it were so
		r.reason.SetText(err.Error())
		r.reason.Show()
		return
	}
	r.reason.Hide()
}

// checkRow is a yes or no.
type checkRow struct {
	line
	check *tick
	read  func() bool
	write func(bool) error
}

func newCheckRow(name string, read func() bool, write func(bool) error) *checkRow {
	r := &checkRow{check: newTick(name, nil), read: read, write: write}
	r.box = container.NewStack(r.check.object())
	return r
}

func (r *checkRow) reset() { r.show() }
func (r *checkRow) flush() {}

func (r *checkRow) show() {
	if !r.applies() {
		return
	}
	r.check.OnChanged = nil
	r.check.SetChecked(r.read())
	r.check.OnChanged = func(on bool) {
		if on == r.read() {
			return
		}
		if r.write(on) != nil {
			r.show()
		}
	}
}

// readRow shows a figure that cannot be edited here.
type readRow struct {
	line
	value *widget.Label
	read  func() string
}

func newReadRow(name string, read func() string, tips func() *Tips) *readRow {
	r := &readRow{value: widget.NewLabel(""), read: read}
	r.value.Wrapping = fyne.TextWrapWord
	r.hint = NewHinted(r.value, tips, nil)
	r.box = container.New(pair{}, caption(name), r.hint)
	return r
}

func (r *readRow) reset() { r.show() }
func (r *readRow) flush() {}

func (r *readRow) show() {
	if !r.applies() {
		return
	}
	if v := r.read(); v != unkept(r.value.Text) {
		r.value.SetText(v)
		if w := r.value.Size().Width; w > 0 {
			keepUnits(r.value, w)
		}
	}
}

// fixedRow is a heading or a sentence.
type fixedRow struct{ line }

func newFixedRow(o fyne.CanvasObject) *fixedRow {
	r := &fixedRow{}
	r.box = container.New(keeping{}, o)
	return r
}

func (r *fixedRow) show()  { r.applies() }
func (r *fixedRow) reset() { r.applies() }
func (r *fixedRow) flush() {}

// Kept holds a label that breaks its lines, none of them between a figure and its unit.
func Kept(l *widget.Label) *fyne.Container { return container.New(keeping{}, l) }

// keeping is a stack of sentences whose figures stay with their units.
type keeping struct{}

// MinSize implements fyne.Layout.
func (keeping) MinSize(o []fyne.CanvasObject) (size fyne.Size) {
	for _, c := range o {
		size = size.Max(c.MinSize())
	}
	return size
}

// Layout implements fyne.Layout.
func (keeping) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for _, c := range o {
		keepUnits(c, size.Width)
		c.Move(fyne.NewPos(0, 0))
		c.Resize(size)
	}
}

// heads reports whether the row is the heading of that text.
func (r *fixedRow) heads(text string) bool {
	l, ok := r.box.Objects[0].(*widget.Label)
	return ok && l.Text == text
}

func same(a, b []string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
