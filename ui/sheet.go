package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"duskwire/ui/panel"
)

// sheet is a dialog over the window. Every part of it that can have the focus
// is of a type below, so that Escape always closes it and Return always means
// the button that is marked.
type sheet struct {
	win    *Window
	title  string
	pop    *cover
	answer []answer
	scroll *container.Scroll // moved by the arrows while a button has the focus; nil: none
	// buttons are those of the answers, in order.
	buttons []*sheetButton
	home    fyne.Focusable          // has the keyboard again when a sheet over this one goes
	typed   func(fyne.KeyName) bool // keys that mean the same wherever the keyboard is; nil: none
}

// sheetMargin is the room around what a sheet says.
const sheetMargin = 8

// answer is one button of a sheet. A sheet stays open when check returns
// false; then is done once it is closed, so that it may open another.
type answer struct {
	text   string
	check  func() bool
	then   func()
	main   bool // meant by Return
	cancel bool // meant by Escape
}

// openSheet opens a dialog. body may be made with the sheet's own entries; least
// is the least size of the body.
func (w *Window) openSheet(title string, least fyne.Size, build func(*sheet) fyne.CanvasObject, answers ...answer) *sheet {
	w.tips.Hide()
	s := &sheet{win: w, title: title, answer: answers}
	head := widget.NewLabel(title)
	head.TextStyle.Bold = true
	head.SizeName = "subHeadingText"
	row := container.NewHBox(layout.NewSpacer())
	for i, a := range answers {
		b := newSheetButton(s, a.text, func() { s.choose(i) })
		if a.main {
			b.Importance = widget.HighImportance
		}
		s.buttons = append(s.buttons, b)
		row.Add(container.New(atLeast{fyne.NewSize(84, 0)}, b.object()))
	}
	inner := build(s)
	room := w.sheetRoom()
	least = least.Min(room)
	if s.scroll == nil {
		inner.Resize(fyne.NewSize(least.Width, 0)) // words know their lines once they have a width
		if high := inner.MinSize().Height; high > room.Height {
			const bar = 14 // the scroll bar lies over no field
			inner, least.Height = s.long(container.New(layout.NewCustomPaddedLayout(0, 0, 0, bar), inner)), room.Height
		}
	}
	body := container.New(atLeast{least}, inner)
	s.pop = newCover(container.New(layout.NewCustomPaddedLayout(sheetMargin, sheetMargin, sheetMargin, sheetMargin),
		container.NewBorder(head, container.New(layout.NewCustomPaddedLayout(sheetMargin, 0, 0, 0), row), nil, nil, body)), w.win.Canvas())
	w.sheets = append(w.sheets, s)
	s.pop.Show()
	return s
}

// sheetRoom is what the window has for the body of a sheet, its title and its
// buttons left out.
func (w *Window) sheetRoom() fyne.Size {
	size := w.win.Canvas().Size()
	if size.Width < leastWidth { // not shown yet
		size = startSize(w.personScale(), &w.memory)
	}
	return fyne.NewSize(size.Width-6*sheetMargin, size.Height-sheetFrame)
}

// sheetFrame is what title, buttons, margins and the menu take in height.
const sheetFrame = 130

// focus gives the keyboard to a part of the sheet.
func (s *sheet) focus(o fyne.Focusable) { s.win.win.Canvas().Focus(o) }

// close takes the sheet down and gives the keyboard back to the plan.
func (s *sheet) close() {
	for i, other := range s.win.sheets {
		if other == s {
			s.win.sheets = append(s.win.sheets[:i:i], s.win.sheets[i+1:]...)
			break
		}
	}
	s.pop.Hide()
	n := len(s.win.sheets)
	switch {
	case n == 0:
		s.win.focusPlan()
	case s.win.sheets[n-1].home != nil:
		s.win.win.Canvas().Focus(s.win.sheets[n-1].home)
	}
}

func (s *sheet) choose(i int) {
	a := &s.answer[i]
	if a.check != nil && !a.check() {
		return
	}
	s.close()
	if a.then != nil { // the check may have set it
		a.then()
	}
}

// long makes the body scroll, by the keyboard as well.
func (s *sheet) long(body fyne.CanvasObject) fyne.CanvasObject {
	s.scroll = container.NewVScroll(body)
	return s.scroll
}

// reveal scrolls a long body so that a part of it is seen.
func (s *sheet) reveal(o fyne.CanvasObject) {
	for _, b := range s.buttons {
		if o == fyne.CanvasObject(b) {
			return // not in the body
		}
	}
	if s.scroll != nil {
		panel.Bring(s.scroll, o)
	}
}

// move scrolls a long body and reports whether the key meant that.
func (s *sheet) move(name fyne.KeyName) bool {
	if s.typed != nil && s.typed(name) {
		return true
	}
	if s.scroll == nil {
		return false
	}
	by := map[fyne.KeyName]float32{
		fyne.KeyUp: -40, fyne.KeyDown: 40, fyne.KeyPageUp: -s.scroll.Size().Height, fyne.KeyPageDown: s.scroll.Size().Height,
	}[name]
	if by == 0 {
		return false
	}
	most := max(0, s.scroll.Content.MinSize().Height-s.scroll.Size().Height)
	s.scroll.ScrollToOffset(fyne.NewPos(0, min(most, max(0, s.scroll.Offset.Y+by))))
	return true
}

// key handles Escape and Return and reports whether it did.
func (s *sheet) key(name fyne.KeyName) bool {
	for i, a := range s.answer {
		if name == fyne.KeyEscape && a.cancel || (name == fyne.KeyReturn || name == fyne.KeyEnter) && a.main {
			s.choose(i)
			return true
		}
	}
	return name == fyne.KeyEscape
}

// atLeast gives its one object a least size.
type atLeast struct{ size fyne.Size }

func (l atLeast) MinSize(o []fyne.CanvasObject) fyne.Size      { return o[0].MinSize().Max(l.size) }
func (l atLeast) Layout(o []fyne.CanvasObject, size fyne.Size) { filling{}.Layout(o, size) }

// filling gives its one object all the room.
type filling struct{}

// Layout implements fyne.Layout.
func (filling) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(size)
}

// sheetButton is a button that knows Escape and Return.
type sheetButton struct {
	widget.Button
	ring  panel.Ring
	sheet *sheet
}

func newSheetButton(s *sheet, text string, tapped func()) *sheetButton {
	b := &sheetButton{sheet: s, ring: panel.NewRing()}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	return b
}

// object returns the button with the ring that shows the focus.
func (b *sheetButton) object() fyne.CanvasObject { return container.NewStack(b, b.ring) }

// FocusGained implements fyne.Focusable.
func (b *sheetButton) FocusGained() {
	b.Button.FocusGained()
	b.ring.Show()
	b.sheet.reveal(b)
}

// FocusLost implements fyne.Focusable.
func (b *sheetButton) FocusLost() {
	b.Button.FocusLost()
	b.ring.Hide()
}

// TypedKey implements fyne.Focusable.
func (b *sheetButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		b.sheet.key(e.Name)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace: // a tap would take the keyboard away
		b.OnTapped()
	default:
		if b.sheet.move(e.Name) {
			return
		}
		b.Button.TypedKey(e)
	}
}

// sheetEntry is an entry that knows Escape and Return.
type sheetEntry struct {
	widget.Entry
	ring  panel.Ring
	sheet *sheet
}

func newSheetEntry(s *sheet, text, placeholder string) *sheetEntry {
	e := &sheetEntry{sheet: s, ring: panel.NewRing()}
	e.Text = text
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = container.ScrollHorizontalOnly
	e.PlaceHolder = placeholder
	e.ExtendBaseWidget(e)
	return e
}

// object returns the entry with the ring that shows the focus.
func (e *sheetEntry) object() fyne.CanvasObject { return container.NewStack(e, e.ring) }

// FocusGained implements fyne.Focusable.
func (e *sheetEntry) FocusGained() {
	e.Entry.FocusGained()
	e.ring.Show()
	e.sheet.reveal(e)
}

// FocusLost implements fyne.Focusable.
func (e *sheetEntry) FocusLost() {
	e.Entry.FocusLost()
	e.ring.Hide()
}

// TypedKey implements fyne.Focusable.
func (e *sheetEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		e.sheet.key(k.Name)
	case fyne.KeyReturn, fyne.KeyEnter:
		if e.OnSubmitted != nil {
			e.OnSubmitted(e.Text)
			return
		}
		e.sheet.key(k.Name)
	default:
		e.Entry.TypedKey(k)
	}
}

// sheetSelect is a list to choose from that knows Escape and Return.
type sheetSelect struct {
	widget.Select
	ring  panel.Ring
	sheet *sheet
}

func newSheetSelect(s *sheet, options []string, at int, changed func(int)) *sheetSelect {
	c := &sheetSelect{sheet: s, ring: panel.NewRing()}
	c.Options = options
	c.Selected = options[at]
	c.ExtendBaseWidget(c)
	c.OnChanged = func(string) {
		if changed != nil {
			changed(c.SelectedIndex())
		}
	}
	return c
}

// object returns the list with its border and the ring that shows the focus.
func (c *sheetSelect) object() fyne.CanvasObject { return container.NewStack(panel.Framed(c), c.ring) }

// FocusGained implements fyne.Focusable.
func (c *sheetSelect) FocusGained() {
	c.Select.FocusGained()
	c.ring.Show()
	c.sheet.reveal(c)
}

// FocusLost implements fyne.Focusable.
func (c *sheetSelect) FocusLost() {
	c.Select.FocusLost()
	c.ring.Hide()
}

// TypedKey implements fyne.Focusable.
func (c *sheetSelect) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape, fyne.KeyReturn, fyne.KeyEnter:
		c.sheet.key(e.Name)
	case fyne.KeyPageUp, fyne.KeyPageDown:
		c.sheet.move(e.Name)
	default:
		c.Select.TypedKey(e)
	}
}

// wrapped is a label that breaks its lines.
func wrapped(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	return l
}
