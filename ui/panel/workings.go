package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
)

// Workings shows every check made of the selected entity, those that hold
// included, each with its figure, its limit and, a click away, the formula
// with the numbers in it and where the limit comes from.
type Workings struct {
	desk   Desk
	hint   *widget.Label
	list   *fyne.Container
	scroll *container.Scroll
	rows   []*findingRow
	id     doc.ID
	seq    uint64 // frame the list was made from, 0 for none
	open   map[findingKey]bool
	active bool // visible: only then is the working asked for
	// Tips shows the working of a row that is not open.
	Tips *Tips
}

func (p *Workings) seen(o fyne.CanvasObject) { bring(p.scroll, o) }
func (p *Workings) hints() *Tips             { return p.Tips }

// NewWorkings returns the panel with nothing selected.
func NewWorkings(desk Desk) *Workings {
	p := &Workings{desk: desk, hint: quiet(""), list: container.NewVBox(), open: map[findingKey]bool{}}
	p.scroll = container.NewVScroll(container.New(inset{}, container.NewVBox(p.hint, p.list)))
	p.refill()
	return p
}

// Object returns the panel for a container.
func (p *Workings) Object() fyne.CanvasObject { return p.scroll }

// SetActive says whether the panel can be seen. What cannot be seen is not
// worked out.
func (p *Workings) SetActive(on bool) {
	p.active = on
	p.refresh()
}

// SetFrame follows the desk. While something is being dragged the working
// stays as it was and is brought up to date at the end.
func (p *Workings) SetFrame(f *layout.Frame) {
	if !f.Preview {
		p.refresh()
	}
}

// SetSelection shows another entity.
func (p *Workings) SetSelection(ids []doc.ID) {
	id := doc.ID("")
	if len(ids) == 1 {
		id = ids[0]
	}
	if id != p.id {
		p.id, p.seq = id, 0
		p.open = map[findingKey]bool{}
		p.scroll.ScrollToTop()
		p.refresh()
	}
}

// Open shows the entity's working with that of one finding laid open.
func (p *Workings) Open(f finding.Finding) {
	p.open[keyOf(&f)] = true
	p.seq = 0
	p.refresh()
}

func (p *Workings) refresh() {
	if f := p.desk.Frame(); p.active && f.Seq != p.seq {
		p.seq = f.Seq
		p.refill()
	}
}

func (p *Workings) refill() {
	var found []finding.Finding
	hint := "Nothing is selected. Click a supply point, box, lamp, gear, source, run or zone on the plan, or go through them with [ and ], " +
		"to see every check made of it and how each figure was reached."
	if p.active && p.id != "" && doc.KindOf(p.desk.Frame().Scheme, p.id) != doc.NoKind {
		found = p.desk.Explain(p.id)
		hint = "Nothing is checked about this yet: it is not part of a circuit. Press R and draw a run from the supply point to it."
	}
	if len(found) > 0 {
		hint = "Checks of " + doc.TagOf(p.desk.Frame().Scheme, p.id) + " against " +
			rulesName(p.desk.Rules(), p.desk.Frame().Scheme.Rules) + ". Click one for its working."
	}
	if p.hint.Text != hint {
		p.hint.SetText(hint)
	}
	for len(p.rows) < len(found) {
		r := newFindingRow(p)
		p.rows = append(p.rows, r)
		p.list.Objects = append(p.list.Objects, r)
	}
	for i, r := range p.rows {
		if i >= len(found) {
			r.Hide()
			continue
		}
		r.set(&found[i], p.open[keyOf(&found[i])], 0)
		r.Show()
	}
	stand(p.list, p.scroll)
}

// pick lays a working open, or folds it.
func (p *Workings) pick(f finding.Finding) {
	key := keyOf(&f)
	p.open[key] = !p.open[key]
	p.refill()
}

// detail is the figure, the limit with its source, and the working.
func (p *Workings) detail(f finding.Finding) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	if line := figureLine(f.Figure, f.Limit); line != "" {
		l := widget.NewLabel(line)
		l.TextStyle.Bold = true
		l.Wrapping = fyne.TextWrapWord
		out = append(out, l)
	}
	if w := strings.TrimSpace(f.Working); w != "" {
		l := widget.NewLabel(w)
		l.TextStyle.Monospace = true
		l.Wrapping = fyne.TextWrapWord
		l.SizeName = captionSize
		l.Selectable = true
		out = append(out, l)
	}
	for _, a := range f.Assumed {
		out = append(out, quiet("Assumed: "+a))
	}
	if s := f.Source.String(); s != "" {
		out = append(out, quiet(fromLine(s)))
	}
	return out
}
