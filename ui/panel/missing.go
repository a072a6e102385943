package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
)

// askedAt lists, for the findings that ask for what only a survey can tell, the
// captions in the form of the supply point where it is entered.
var askedAt = map[finding.Code][]string{
	"CAP-01": {"Device at the board", "Fuse of the spur"},
	"CAP-03": {"Cable", "Length", "Method"},
	"RCD-01": {"Separate RCD", "Device at the board"},
	"FLT-02": {"Device at the board"},
	"FLT-03": {"Earthing", "Ze at the board", "Electrode RA", "Cable", "Length"},
	"FLT-05": {"Electrode RA"},
	"FLT-06": {"Electrode RA"},
	"BRK-01": {"Fault current at the board", "Device at the board"},
	"VD-04":  {"Cable", "Length", "Load already on it"},
	"EAR-01": {"Earthing"},
	"RCD-02": {"Separate RCD", "Device at the board"},
	"RCD-03": {"Other circuits on the RCD", "What else goes off with it"},
	"LEK-01": {"Leakage already on it"},
	"ISO-01": {switchedCaption},
}

// schemeAsked is the same for what belongs to the whole scheme.
var schemeAsked = map[finding.Code][]string{"CIR-10": {checkedCaption}, "NTF-01": {countryCaption}}

// Captions that findings ask for.
const (
	countryCaption  = "Country"
	switchedCaption = "The spur unit has a two-pole switch"
	checkedCaption  = "A known dimension was checked"
)

// SupplyFor returns the supply point where what a finding asks for is entered,
// "" when that is somewhere else.
func SupplyFor(f *layout.Frame, found *finding.Finding) doc.ID {
	id := doc.ID(found.Subject.ID)
	if askedAt[found.Code] == nil {
		return ""
	}
	for _, c := range f.Circuits.Circuits {
		if c.Supply == id {
			return id
		}
		if _, on := c.Node[id]; on && found.Code != "CAP-03" {
			return c.Supply
		}
	}
	return ""
}

// SchemeAsks reports whether a finding asks for something of the whole scheme
// that is still open; it is entered in the form shown with nothing selected.
func SchemeAsks(s *doc.Scheme, code finding.Code) bool {
	switch code {
	case "NTF-01":
		return s.Country == ""
	case "CIR-10":
		return !s.Plan.Checked
	}
	return false
}

// Asked brings the row into view where what the finding asks for is entered,
// the first one left empty if there is one, and marks its caption.
func (p *Properties) Asked(code finding.Code) {
	p.unmark()
	if p.now == nil {
		return
	}
	if (code == "CIR-10" || code == "PIC-01") && p.on.scheme().Plan.Underlay.Present() {
		p.ShowPicture() // both are about it
		return
	}
	var wanted []string
	switch doc.KindOf(p.on.frame.Scheme, p.on.id) {
	case doc.SupplyKind:
		wanted = askedAt[code]
	case doc.NoKind:
		wanted = schemeAsked[code]
	}
	var first, empty row
	for _, r := range p.now.rows {
		name, blank := captioned(r)
		for _, want := range wanted {
			if name != want || !r.object().Visible() {
				continue
			}
			if first == nil || want == wanted[0] {
				first = r
			}
			if blank && empty == nil {
				empty = r
			}
		}
	}
	if empty == nil {
		empty = first
	}
	if empty == nil {
		return
	}
	if p.marked = captionLabel(empty); p.marked != nil {
		p.marked.TextStyle.Bold, p.marked.Importance = true, widget.HighImportance
		p.marked.Refresh()
	}
	p.reveal(empty.object())
}

// unmark takes the mark off the caption that has it.
func (p *Properties) unmark() {
	if p.marked != nil {
		p.marked.TextStyle.Bold, p.marked.Importance = false, widget.MediumImportance
		p.marked.Refresh()
		p.marked = nil
	}
}

// reveal scrolls as far as it takes to see a row of the form, with its heading.
func (p *Properties) reveal(o fyne.CanvasObject) {
	for _, r := range p.now.rows {
		if fold, ok := r.(*foldRow); ok && fold.holds(o) {
			fold.set(true)
		}
	}
	p.scroll.Refresh()
	const above = 40
	top, height := p.now.box.Position().Y+o.Position().Y, o.Size().Height
	for _, r := range p.now.rows {
		if fold, ok := r.(*foldRow); ok && fold.holds(o) {
			top += fold.box.Position().Y + fold.body.Position().Y
		}
	}
	if top < p.scroll.Offset.Y || top+height > p.scroll.Offset.Y+p.scroll.Size().Height {
		p.scroll.ScrollToOffset(fyne.NewPos(0, max(top-above, 0)))
	}
}

// captioned returns the caption of a row that holds a value, "" for others, and
// whether the value is still open.
func captioned(r row) (name string, blank bool) {
	switch r := r.(type) {
	case *textRow:
		blank = r.read() == ""
	case *choiceRow:
		key := r.read()
		blank = key == "" || key == "unknown"
	case *checkRow:
		return r.check.Text, !r.read()
	}
	if l := captionLabel(r); l != nil {
		name = l.Text
	}
	return name, blank
}

// captionLabel returns the label that names a row to type or choose in, nil for
// others.
func captionLabel(r row) *widget.Label {
	var l *widget.Label
	switch r := r.(type) {
	case *textRow:
		l, _ = r.box.Objects[0].(*widget.Label)
	case *choiceRow:
		l, _ = r.box.Objects[0].(*widget.Label)
	}
	return l
}
