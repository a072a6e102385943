package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	fynelayout "fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// blank says over an empty plan what to do first. It takes no clicks.
type blank struct {
	box     *fyne.Container
	drawing bool // the first thing is drawn: the words would be in its way
}

func newBlank() *blank {
	key := toolKey
	head := widget.NewLabel("Nothing is drawn yet")
	head.TextStyle.Bold = true
	keys := small(strings.Join([]string{
		key(tool.NameSupply), "Ctrl+Shift+Y", key(tool.NameArea) + "  " + key(tool.NameLine) + "  " + key(tool.NameMark),
		key(tool.NameLamp) + "  " + key(tool.NameRun), "F1"}, "\n"))
	keys.TextStyle.Bold = true
	text := container.New(fynelayout.NewFormLayout(), keys, small(strings.Join([]string{
		"supply point: where the power comes from", "picture to draw over; or drop a file",
		"ground: areas, walls and fences, trees", "lamps, and the runs between them", "all keys"}, "\n")))
	card := container.NewStack(panel.NewBackdrop(theme.ColorNameMenuBackground), container.NewVBox(head, text))
	b := &blank{box: container.New(centred{}, card)}
	b.box.Hide()
	return b
}

// centred puts its object in the middle, and asks for no room.
type centred struct{}

// MinSize implements fyne.Layout.
func (centred) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout implements fyne.Layout.
func (centred) Layout(o []fyne.CanvasObject, size fyne.Size) {
	want := o[0].MinSize()
	o[0].Resize(want)
	o[0].Move(fyne.NewPos(max(0, (size.Width-want.Width)/2), max(0, (size.Height-want.Height)/2)))
}

// setFrame shows the words while the plan is empty and nothing is begun on it.
func (b *blank) setFrame(f *layout.Frame, onPlan bool) {
	if on := onPlan && !b.drawing && empty(f.Scheme); on != b.box.Visible() {
		b.box.Hidden = !on
		b.box.Refresh()
	}
}

// empty reports whether nothing is on the plan, no picture either.
func empty(s *doc.Scheme) bool {
	none := !s.Plan.Underlay.Present()
	doc.Each(s, func(_ doc.Entity, k doc.Kind) { none = none && k == doc.ZoneKind })
	return none
}
