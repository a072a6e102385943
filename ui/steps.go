package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/journal"
	"duskwire/ui/panel"
)

// steps is the slim strip above the plan that goes with a new scheme: what is
// done, and how the next thing is done.
type steps struct {
	box   *fyne.Container
	row   *fyne.Container
	marks []*panel.Icon
	names []*widget.Label
	say   *widget.Label
	shown []layout.Step
	brief bool // numbers alone, but for the step that is next
}

// allDone is said when every step is.
const allDone = "Every step is done, which is no proof that it is right: read the findings, measure what is built."

func newSteps(closed func()) *steps {
	s := &steps{say: small(""), row: container.NewHBox()}
	s.say.Wrapping = fyne.TextWrapWord
	shut := panel.NewButton("Close", closed)
	shut.Importance = widget.LowImportance
	head := container.NewBorder(nil, nil, nil, shut.Object(), container.NewHScroll(s.row))
	s.box = container.NewStack(panel.NewBackdrop(theme.ColorNameMenuBackground),
		container.NewBorder(nil, widget.NewSeparator(), nil, nil, container.New(&sentence{}, head, s.say)))
	s.box.Hide()
	return s
}

// setFrame follows the scheme.
func (s *steps) setFrame(f *layout.Frame) {
	list := layout.FirstSteps(f)
	next := -1
	for i := range list {
		if i == len(s.marks) {
			mark := panel.NewIcon(nil)
			s.marks, s.names = append(s.marks, mark), append(s.names, small(""))
			s.row.Add(container.New(layoutOfStep{}, mark, s.names[i]))
		}
		if next < 0 && !list[i].Done {
			next = i
		}
	}
	same := len(s.shown) == len(list)
	for i := range list {
		same = same && s.shown[i] == list[i]
	}
	if same {
		return
	}
	s.shown = list
	for i, st := range list {
		s.names[i].TextStyle.Bold = i == next
		name := strconv.Itoa(i + 1)
		if !s.brief || i == next {
			name += " " + st.Name
		}
		s.names[i].SetText(name)
		if s.marks[i].Hidden = !st.Done; st.Done {
			s.marks[i].SetResource(panel.Mark(finding.Held))
		}
	}
	s.say.SetText(allDone)
	if next >= 0 {
		s.say.SetText(strconv.Itoa(next+1) + ". " + list[next].Say)
	}
	for _, o := range s.row.Objects {
		o.Refresh() // a mark that shows makes its step wider
	}
	s.row.Refresh()
	s.box.Refresh()
}

// layoutOfStep puts the mark of a step close before its name, so that it is not taken
// for that of the step before.
type layoutOfStep struct{}

// before is how far the mark of a step reaches into the empty edge of its name.
func (layoutOfStep) before(mark fyne.CanvasObject) float32 {
	if !mark.Visible() {
		return 0
	}
	return mark.MinSize().Width - theme.Size(theme.SizeNameInnerPadding)/2
}

// MinSize implements fyne.Layout.
func (l layoutOfStep) MinSize(o []fyne.CanvasObject) fyne.Size {
	name := o[1].MinSize()
	return fyne.NewSize(l.before(o[0])+name.Width, max(name.Height, o[0].MinSize().Height))
}

// Layout implements fyne.Layout.
func (l layoutOfStep) Layout(o []fyne.CanvasObject, size fyne.Size) {
	mark := o[0].MinSize()
	o[0].Resize(mark)
	o[0].Move(fyne.NewPos(0, (size.Height-mark.Height)/2))
	o[1].Resize(fyne.NewSize(o[1].MinSize().Width, size.Height))
	o[1].Move(fyne.NewPos(l.before(o[0]), 0))
}

// setBrief leaves the names out in a narrow window.
func (s *steps) setBrief(brief bool, f *layout.Frame) {
	if s.brief != brief {
		s.brief, s.shown = brief, nil
		s.setFrame(f)
	}
}

// sentence lays a line over a sentence that breaks; the sentence has as many
// lines as the longest needs at the width, so that the plan does not jump.
type sentence struct{ width float32 }

func (l *sentence) lines() float32 {
	per := theme.Size(theme.SizeNameCaptionText) * 0.56 // a letter is about so wide
	n := float32(1)
	for n < 5 && l.width > 0 && n*(l.width-20)/per < longestSay {
		n++
	}
	return n
}

// longestSay is the length of the longest sentence of the steps, in letters.
const longestSay = 100

// MinSize implements fyne.Layout.
func (l *sentence) MinSize(o []fyne.CanvasObject) fyne.Size {
	line := fyne.MeasureText("Ag", theme.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
	return fyne.NewSize(0, o[0].MinSize().Height+l.lines()*line+theme.Size(theme.SizeNameInnerPadding))
}

// Layout implements fyne.Layout.
func (l *sentence) Layout(o []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	head := o[0].MinSize().Height
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width, head))
	o[1].Move(fyne.NewPos(0, head-theme.Size(theme.SizeNameInnerPadding)))
	o[1].Resize(fyne.NewSize(size.Width, size.Height-head+theme.Size(theme.SizeNameInnerPadding)))
}

// showSteps opens the strip; ask is true when the person asked for it, otherwise
// it stays away once it was closed.
func (w *Window) showSteps(ask bool) {
	if !ask && w.memory.NoSteps {
		return
	}
	if ask && w.memory.NoSteps {
		w.remember(func(m *journal.Memory) { m.NoSteps = false })
	}
	w.steps.setFrame(w.desk.Frame())
	w.steps.box.Show()
	w.win.Content().Refresh()
}

// closeSteps takes the strip away, and keeps it away from the next new scheme.
func (w *Window) closeSteps() {
	w.steps.box.Hide()
	w.win.Content().Refresh()
	w.remember(func(m *journal.Memory) { m.NoSteps = true })
	w.focusPlan()
}
