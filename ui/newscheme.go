package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// newScheme asks three questions and puts an empty scheme on the desk.
func (w *Window) newScheme() { w.keepWork(w.askNew) }

// opening is the sheet of the three questions: which rule set, which supply,
// which scale.
type opening struct {
	win                *Window
	rules, from, earth *sheetSelect
	loop, here, scale  *sheetEntry
	loopName           *widget.Label
	problem            *widget.Label
}

var earthings = []network.Earthing{network.EarthingUnknown, network.TNS, network.TNCS, network.TT}

func (w *Window) askNew() {
	o := &opening{win: w}
	s := w.openSheet("New scheme: three questions", fyne.NewSize(500, 0), o.build,
		answer{text: "Cancel", cancel: true},
		answer{text: "Start drawing", main: true, check: o.start, then: func() { w.take(tool.NameSupply) }})
	s.focus(o.rules)
}

func (o *opening) build(s *sheet) fyne.CanvasObject {
	var names []string
	for _, r := range o.win.desk.Rules() {
		names = append(names, r.Name)
	}
	o.rules = newSheetSelect(s, names, 0, nil)
	o.from = newSheetSelect(s, []string{"a fused spur off an existing circuit", "its own way at the board"}, 0, nil)
	o.earth = newSheetSelect(s, []string{"earthing not known yet", "TN-S", "TN-C-S", "TT"}, 0, func(int) { o.rename() })
	o.loop = newSheetEntry(s, "", "not known yet, or such as 0.35 Ω")
	o.here = newSheetEntry(s, "", "not measured yet, or such as 0.8 Ω")
	o.scale = newSheetEntry(s, "1:50", "1:50")
	o.loopName = widget.NewLabel("")
	o.rename()
	o.problem = wrapped("")
	o.problem.Importance = widget.DangerImportance
	o.problem.Hide()
	part := func(text string) *widget.Label {
		l := widget.NewLabel(text)
		l.TextStyle.Bold = true
		return l
	}
	row := func(name fyne.CanvasObject, o fyne.CanvasObject) fyne.CanvasObject {
		return container.New(captioned{}, name, o)
	}
	text := func(t string) fyne.CanvasObject { return widget.NewLabel(t) }
	return container.NewVBox(
		part("1. Which rule set judges it?"), row(text("Rule set"), o.rules),
		part("2. Where does the power come from?"), row(text("Supply"), o.from), row(text("Earthing"), o.earth),
		row(o.loopName, o.loop), row(text("Zs measured there"), o.here),
		part("3. At what scale is it drawn?"), row(text("Scale on paper"), o.scale),
		o.problem)
}

// rename calls the loop by what is measured under the earthing.
func (o *opening) rename() {
	if o.earth != nil && earthings[o.earth.SelectedIndex()] == network.TT {
		o.loopName.SetText("Electrode RA")
	} else {
		o.loopName.SetText("Ze at the board")
	}
}

// start reads the answers; a wrong one is told and the sheet stays.
func (o *opening) start() bool {
	w := o.win
	loop, err := maybeOhm(o.loop.Text)
	here, err2 := maybeOhm(o.here.Text)
	scale, err3 := panel.ParseScale(o.scale.Text)
	for _, e := range []error{err, err2, err3} {
		if e != nil {
			o.problem.SetText(e.Error())
			o.problem.Show()
			return false
		}
	}
	s := doc.New(w.desk.Rules()[o.rules.SelectedIndex()].Key)
	s.Country = w.desk.Rules()[o.rules.SelectedIndex()].Country
	s.Plan.Scale = scale
	pattern := tool.NewDefaults().Supply
	pattern.Spur = o.from.SelectedIndex() == 0
	pattern.Earthing = earthings[o.earth.SelectedIndex()]
	pattern.MeasuredZs = here
	if pattern.Earthing == network.TT {
		pattern.Electrode = loop
	} else {
		pattern.Ze = loop
	}
	if !pattern.Spur {
		pattern.Fuse = ""
	}
	w.defaults.Supply = pattern
	w.put(s, "")
	return true
}

// maybeOhm reads a resistance; nothing means not known.
func maybeOhm(text string) (q.Maybe[q.Ohm], error) {
	if text == "" {
		return q.Maybe[q.Ohm]{}, nil
	}
	v, err := q.ParseOhm(text)
	return q.Some(v), err
}

// captioned puts a caption of fixed width before an object.
type captioned struct{}

const captionWidth = 140

func (captioned) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(captionWidth+o[1].MinSize().Width, max(o[0].MinSize().Height, o[1].MinSize().Height))
}

func (captioned) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(captionWidth, size.Height))
	o[1].Move(fyne.NewPos(captionWidth, 0))
	o[1].Resize(fyne.NewSize(size.Width-captionWidth, size.Height))
}
