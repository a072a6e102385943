package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Field is a text entry for one value of the scheme. It commits on Return and
// when it loses the focus; Escape brings back the value of the scheme. Wrong
// text stays, with the reason under it, and changes nothing.
type Field struct {
	widget.Entry
	shown string // the value of the scheme as last shown
	// unit is what a bare number is in while no value is shown; with one, it
	// is the unit of that. "" in a field that takes text as it is.
	unit string
	// onWheel gets the turns of the wheel over the field.
	onWheel func(*fyne.ScrollEvent)
	commit  func(text string) error
	reason  *widget.Label
	ring    Ring
	typing  bool // has the focus
	onFocus func(fyne.CanvasObject)
	// onKey gets every key first and says whether it took it; a field with one
	// takes Tab as well.
	onKey func(*fyne.KeyEvent) bool
}

// NewField returns a field that hands changed text to commit.
func NewField(placeholder string, commit func(string) error) *Field {
	f := &Field{commit: commit, reason: widget.NewLabel(""), ring: NewRing()}
	f.reason.Importance = widget.DangerImportance
	f.reason.Wrapping = fyne.TextWrapWord
	f.reason.SizeName = captionSize
	f.reason.Hide()
	f.Wrapping = fyne.TextWrapOff
	f.Scroll = container.ScrollHorizontalOnly
	f.SetPlaceHolder(placeholder)
	f.OnSubmitted = func(string) { f.Flush() }
	f.ExtendBaseWidget(f)
	return f
}

// SetUnit says what unit a bare number is in.
func (f *Field) SetUnit(unit string) { f.unit = unit }

// Object returns the field with the place for its reason.
func (f *Field) Object() fyne.CanvasObject {
	return container.NewVBox(container.NewStack(f, newWheel(func(e *fyne.ScrollEvent) {
		if f.onWheel != nil {
			f.onWheel(e)
		}
	}), f.ring), f.reason)
}

// SetShown sets the value of the scheme. While the field is being edited, or holds
// text that was refused, what was typed stays until the value itself changes.
func (f *Field) SetShown(value string) {
	if f.Text == value {
		f.shown = value
		f.fault("")
		return
	}
	dirty := f.Text != f.shown
	if dirty && (f.typing || value == f.shown) {
		f.shown = value
		return
	}
	f.shown = value
	f.SetText(value)
	f.fault("")
}

// Reset forgets what was typed and shows the value.
func (f *Field) Reset(value string) {
	f.shown = value
	if f.Text != value {
		f.SetText(value)
	}
	f.fault("")
}

// Flush commits the text if it differs from the value of the scheme.
func (f *Field) Flush() {
	text := strings.TrimSpace(f.Text)
	if f.unit != "" && text != f.shown {
		unit := unitOf(f.shown)
		if unit == "" {
			unit = f.unit
		}
		text = WithUnit(text, unit)
	}
	if text == f.shown {
		if f.Text != f.shown {
			f.SetText(f.shown)
		}
		f.fault("")
		return
	}
	err := bareLength(text, f.unit)
	if err == nil {
		err = f.commit(text)
	}
	if err != nil {
		f.fault(err.Error())
		return
	}
	f.Reset(f.shown) // as the program writes it: "600mm" becomes "0.6 m"
}

func (f *Field) fault(text string) {
	if text == f.reason.Text && f.reason.Visible() == (text != "") {
		return
	}
	f.reason.SetText(text)
	if text == "" {
		f.reason.Hide()
	} else {
		f.reason.Show()
	}
}

// Reason returns why the text was refused, "" when it was not.
func (f *Field) Reason() string { return f.reason.Text }

// TypedKey implements fyne.Focusable: Escape takes the typing back and gives the
// keyboard to the plan.
func (f *Field) TypedKey(e *fyne.KeyEvent) {
	if f.onKey != nil && f.onKey(e) {
		return
	}
	if e.Name == fyne.KeyEscape {
		typed := f.Text != f.shown
		if f.Reset(f.shown); typed && f.onKey != nil {
			return // in a column of fields the keyboard goes with the next one
		}
	}
	if PassKey(f, e) {
		return
	}
	f.Entry.TypedKey(e)
}

// AcceptsTab implements fyne.Tabbable.
func (f *Field) AcceptsTab() bool { return f.onKey != nil }

// FocusGained implements fyne.Focusable.
func (f *Field) FocusGained() {
	f.typing = true
	f.Entry.FocusGained()
	f.ring.Show()
	if f.onFocus != nil {
		f.onFocus(f)
	}
}

// FocusLost implements fyne.Focusable: what was typed is committed.
func (f *Field) FocusLost() {
	f.typing = false
	f.Entry.FocusLost()
	f.ring.Hide()
	f.Flush()
}
