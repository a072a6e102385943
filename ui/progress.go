package ui

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/ui/panel"
)

// progressRow takes the place of the line of help below the plan while work
// takes long: what is done, how far it is, and a button that stops it. It lies
// over that line, so that the plan keeps its size.
type progressRow struct {
	text   *widget.Label
	bar    *widget.ProgressBar
	cancel *widget.Button
	box    *fyne.Container
	first  Progress
}

// barWidth is the width of the bar in the row.
const barWidth = 160

func newProgressRow() *progressRow {
	p := &progressRow{text: widget.NewLabel(""), bar: widget.NewProgressBar()}
	p.text.Truncation = fyne.TextTruncateEllipsis
	p.cancel = widget.NewButton("Cancel", func() {
		if p.first.Cancel != nil {
			p.first.Cancel()
		}
	})
	right := container.NewHBox(container.New(atLeast{fyne.NewSize(barWidth, 0)}, p.bar), p.cancel)
	p.box = container.NewStack(panel.NewBackdrop(theme.ColorNameHeaderBackground), container.NewBorder(nil, nil, nil, right, p.text))
	p.box.Hide()
	return p
}

// show follows the list of the bridge: the oldest work is told, with how much
// there is beside it.
func (p *progressRow) show(list []Progress) {
	if len(list) == 0 {
		p.first = Progress{}
		p.box.Hide()
		return
	}
	p.first = list[0]
	text := p.first.Title
	if p.first.Step != "" {
		text += ": " + p.first.Step
	}
	if p.first.Stopping {
		text = "Stopping: " + lowerFirst(p.first.Title)
	}
	if n := len(list) - 1; n > 0 {
		text += " (and " + strconv.Itoa(n) + " more)"
	}
	p.text.SetText(text + "…")
	if p.first.Share >= 0 {
		p.bar.SetValue(p.first.Share)
		p.bar.Show()
	} else {
		p.bar.Hide()
	}
	if p.first.Stopping {
		p.cancel.Disable()
	} else {
		p.cancel.Enable()
	}
	p.box.Show()
}
