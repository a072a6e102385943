package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
)

// Past is what the list of steps needs of the desk.
type Past interface {
	Steps() (names []string, done int)
	GoTo(n int) bool
}

// History lists the steps of the undo history, oldest first, with the present
// state marked. Picking a step goes there; the steps after it stay listed, and
// can be gone back to, until something else is drawn.
type History struct {
	past  Past
	list  *stepList
	names []string
	done  int
	frame *layout.Frame
	shown bool
	box   *fyne.Container
}

// NewHistory returns the list. It is filled while it is shown; see SetActive.
func NewHistory(past Past) *History {
	h := &History{past: past}
	h.list = newStepList(h)
	ring := &h.list.ring
	head := quiet("Pick a step to go back or forth to it. ► is where the drawing is.")
	h.box = container.NewBorder(head, nil, nil, nil, container.NewStack(h.list, ring))
	return h
}

// Object returns the list for a container.
func (h *History) Object() fyne.CanvasObject { return h.box }

// List returns the part that takes the keyboard.
func (h *History) List() fyne.Focusable { return h.list }

// SetActive says whether the list can be seen; it is filled only then.
func (h *History) SetActive(on bool) {
	h.shown = on
	h.fill()
}

// SetFrame follows the desk.
func (h *History) SetFrame(f *layout.Frame) {
	if h.frame != nil && f.Preview {
		return // a preview is no step
	}
	h.frame = f
	h.fill()
}

// Row returns what a row says: 0 is the state that was opened.
func (h *History) Row(i int) string {
	mark := "     "
	if i == h.done {
		mark = "►  "
	}
	text := "As it was opened"
	if i > 0 && i <= len(h.names) {
		text = h.names[i-1]
	}
	if i > h.done {
		text += "  (undone)"
	}
	return mark + text
}

// Rows returns how many rows there are.
func (h *History) Rows() int { return len(h.names) + 1 }

func (h *History) fill() {
	if !h.shown {
		return
	}
	h.names, h.done = h.past.Steps()
	h.list.Refresh()
	h.list.ScrollTo(h.done)
}

// pick goes to the state of a row.
func (h *History) pick(i int) {
	if i != h.done {
		h.past.GoTo(i)
	}
}

// stepList is a list in which Return picks, as a click does.
type stepList struct {
	widget.List
	ring Ring
}

func newStepList(h *History) *stepList {
	l := &stepList{ring: NewRing()}
	l.Length = h.Rows
	l.CreateItem = func() fyne.CanvasObject {
		row := widget.NewLabel("")
		row.Truncation = fyne.TextTruncateEllipsis
		return row
	}
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		row := o.(*widget.Label)
		row.TextStyle.Bold = i == h.done
		row.Importance = widget.MediumImportance
		if i > h.done {
			row.Importance = widget.LowImportance
		}
		row.SetText(h.Row(i))
	}
	l.OnSelected = func(i widget.ListItemID) {
		l.Unselect(i)
		h.pick(i)
	}
	l.HideSeparators = true
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained implements fyne.Focusable.
func (l *stepList) FocusGained() {
	l.List.FocusGained()
	l.ring.Show()
}

// FocusLost implements fyne.Focusable.
func (l *stepList) FocusLost() {
	l.List.FocusLost()
	l.ring.Hide()
}

// TypedRune implements fyne.Focusable.
func (l *stepList) TypedRune(r rune) { PassRune(l, r) }

// TypedKey implements fyne.Focusable.
func (l *stepList) TypedKey(e *fyne.KeyEvent) {
	if PassKey(l, e) {
		return
	}
	if e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		e = &fyne.KeyEvent{Name: fyne.KeySpace}
	}
	l.List.TypedKey(e)
}
