package ui

import (
	"slices"
	"strings"

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
	rules, country     *sheetSelect
	from, earth        *sheetSelect
	loop, here, scale  *sheetEntry
	title              *sheetEntry
	loopName, hereName *widget.Label
	problem            *widget.Label
}

var earthings = []network.Earthing{network.EarthingUnknown, network.TNS, network.TNCS, network.TT}

// earthingName is the name of an arrangement in a list to choose from.
func earthingName(e network.Earthing) string {
	if e == network.EarthingUnknown {
		return "Not known yet"
	}
	return e.String()
}

func (w *Window) askNew() {
	o := &opening{win: w}
	s := w.openSheet("New scheme: three questions", fyne.NewSize(500, 0), o.build,
		answer{text: "Cancel", cancel: true},
		answer{text: "Start drawing", main: true, check: o.start, then: func() { w.take(tool.NameSupply) }})
	s.focus(o.title)
}

func (o *opening) build(s *sheet) fyne.CanvasObject {
	var names []string
	for _, r := range o.win.desk.Rules() {
		names = append(names, r.Name)
	}
	o.rules = newSheetSelect(s, names, 0, nil)
	o.country = newSheetSelect(s, o.countries(), 0, nil)
	o.from = newSheetSelect(s, []string{"A fused spur off an existing circuit", "Its own way at the board"}, 0, func(int) { o.rename() })
	o.earth = newSheetSelect(s, []string{earthingName(network.EarthingUnknown), "TN-S", "TN-C-S", "TT"}, 0, func(int) { o.rename() })
	o.loop = newSheetEntry(s, "", "not known yet, in Ω")
	o.here = newSheetEntry(s, "", "not measured yet, in Ω")
	o.title = newSheetEntry(s, "", "garden, address or client")
	o.scale = newSheetEntry(s, "1:50", "1:50")
	o.loopName, o.hereName = widget.NewLabel(""), widget.NewLabel("")
	o.rename()
	o.problem = wrapped("")
	o.problem.Importance = widget.DangerImportance
	o.problem.Hide()
	for _, e := range []*sheetEntry{o.title, o.loop, o.here, o.scale} {
		e.OnChanged = func(string) { o.problem.Hide() } // it is about what stood there before
	}
	part := func(text string) *widget.Label {
		l := widget.NewLabel(text)
		l.TextStyle.Bold = true
		return l
	}
	row := func(name fyne.CanvasObject, o fyne.CanvasObject) fyne.CanvasObject {
		if part, ok := o.(interface{ object() fyne.CanvasObject }); ok {
			o = part.object()
		}
		return container.New(captioned{long}, name, o)
	}
	text := func(t string) fyne.CanvasObject { return widget.NewLabel(t) }
	return container.NewVBox(
		row(part("Title"), o.title),
		part("1. Which rule set judges it?"), row(text("Rule set"), o.rules), row(text("Country"), o.country),
		part("2. Where does the power come from?"), row(text("Supply"), o.from), row(text("Earthing"), o.earth),
		row(o.loopName, o.loop), row(o.hereName, o.here),
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
	if o.from.SelectedIndex() == 0 {
		o.hereName.SetText("Zs at the spur")
	} else {
		o.hereName.SetText("Zs in the garden")
	}
}

// countries lists where the work may be, the first for not saying: the rule
// set alone does not tell, because notification differs within it.
func (o *opening) countries() []string {
	out := []string{"Not given yet", "England", "Wales", "Scotland", "Northern Ireland"}
	for _, r := range o.win.desk.Rules() {
		if r.Country != "United Kingdom" && !slices.Contains(out, r.Country) {
			out = append(out, r.Country)
		}
	}
	return out
}

// start reads the answers; a wrong one is told and the sheet stays.
func (o *opening) start() bool {
	w := o.win
	loop, err := maybeOhm(o.loop.Text)
	here, err2 := maybeOhm(o.here.Text)
	scale, err3 := panel.ParseScale(o.scale.Text)
	for _, e := range []struct {
		name  string
		err   error
		entry *sheetEntry
	}{{o.loopName.Text, err, o.loop}, {o.hereName.Text, err2, o.here}, {"Scale on paper", err3, o.scale}} {
		if e.err != nil {
			w.win.Canvas().Focus(e.entry)
			o.problem.SetText(e.name + ": " + e.err.Error())
			o.problem.Show()
			return false
		}
	}
	s := doc.New(w.desk.Rules()[o.rules.SelectedIndex()].Key)
	if o.country.SelectedIndex() > 0 {
		s.Country = o.country.Selected
	}
	if title := strings.TrimSpace(o.title.Text); title != "" {
		s.Title = title
	}
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
	w.showSteps(false)
	w.tabs.SelectIndex(0) // where the survey is entered
	return true
}

// maybeOhm reads a resistance, a bare number in ohms; nothing means not known.
func maybeOhm(text string) (q.Maybe[q.Ohm], error) {
	if text == "" {
		return q.Maybe[q.Ohm]{}, nil
	}
	v, err := q.ParseOhm(panel.WithUnit(text, "Ω"))
	return q.Some(v), err
}

// captioned puts a caption before an object, width wide.
type captioned struct{ width float32 }

const (
	long  = 140 // width of the captions of questions
	short = 60  // width of single words
)

func (l captioned) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width+o[1].MinSize().Width, max(o[0].MinSize().Height, o[1].MinSize().Height))
}

func (l captioned) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(l.width, size.Height))
	o[1].Move(fyne.NewPos(l.width, 0))
	o[1].Resize(fyne.NewSize(size.Width-l.width, size.Height))
}
