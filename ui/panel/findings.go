package panel

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	lay "duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// pageOfFindings is how many findings are listed before the list asks whether
// to go on: a screen of them is plenty to work through.
const pageOfFindings = 60

// Findings lists what was found, worst first. A click flies to the place and
// opens the finding: its limit and source, what was assumed, and the remedies.
type Findings struct {
	desk Desk
	// OnPick is called with the finding that was clicked.
	OnPick func(finding.Finding)
	// OnWorking is called when its working is asked for.
	OnWorking func(finding.Finding)
	// OnOverrule is called when someone wants to decide against it.
	OnOverrule func(finding.Finding)
	// OnEnter is called when someone wants to enter what it asks for.
	OnEnter func(finding.Finding)
	// OnCures is asked for the ways out of the finding that was opened, tried on
	// the scheme of the present frame; done takes them on the same goroutine. nil
	// leaves the advice of the rule.
	OnCures func(f finding.Finding, done func([]lay.Cure))
	// OnRefused is called when a remedy cannot be applied.
	OnRefused func(error)
	// Tips shows the working of a row that is not open.
	Tips *Tips
	// Later does something in a later turn of the loop; nil writes all rows at once.
	Later func(func())

	head   *findingHead
	none   *widget.Label
	list   *fyne.Container
	notes  *Button // folds the notes away below what is worse
	noted  fyne.CanvasObject
	worse  int  // findings above the fold; all of them without one
	opened bool // the notes were unfolded
	more   *Button
	scroll *container.Scroll
	box    *fyne.Container
	rows   []*findingRow
	shown  []finding.Finding
	open   findingKey
	cures  answer
	most   int

	written, listed int  // rows written, of those that are to be
	openAt          int  // of what is open, -1 without
	waits           bool // for a later turn, to go on
}

// findingKey tells a finding from the others of its frame and finds it again
// in the next.
type findingKey struct {
	code    finding.Code
	subject string
}

func keyOf(f *finding.Finding) findingKey { return findingKey{f.Code, f.Subject.ID} }

// NewFindings returns the panel, showing the desk's frame.
func NewFindings(desk Desk) *Findings {
	p := &Findings{desk: desk, head: newFindingHead(), none: quiet(""), list: container.NewVBox(), most: pageOfFindings}
	p.notes = newFoldHead(p.foldNotes)
	p.noted = p.notes.Object()
	p.more = NewButton("", func() {
		p.most += pageOfFindings
		p.refill()
	})
	p.more.Importance = widget.LowImportance
	p.scroll = container.NewVScroll(container.New(inset{}, container.NewVBox(p.none, p.list, p.more.Object())))
	p.scroll.OnScrolled = func(fyne.Position) { p.hints().Hide() } // its row has gone from under the pointer
	p.box = container.New(headed{}, p.head.box, p.scroll)
	p.SetFrame(desk.Frame())
	return p
}

// Object returns the panel for a container.
func (p *Findings) Object() fyne.CanvasObject { return p.box }

// SetHead says in the heading whether the findings listed are those of the frame,
// while its own are still to come.
func (p *Findings) SetHead(f *lay.Frame) {
	was := p.head.said
	p.head.set(f)
	if was != p.head.said {
		relay(p.box) // it may have another line
		canvas.Refresh(p.box)
	}
}

// SetFrame shows the findings of another frame.
func (p *Findings) SetFrame(f *lay.Frame) {
	p.SetHead(f)
	p.shown = f.Findings
	none := ""
	switch s := f.Scheme; {
	case len(f.Findings) > 0:
	case s.Lamps.Len()+s.Runs.Len()+s.Supplies.Len() == 0:
		none = "Nothing is drawn yet, so there is nothing to check. Press P and click where the garden takes its power; what the checks find then stands here."
	default:
		none = "Nothing found by the " + strconv.Itoa(len(check.All())) + " checks of " + rulesName(p.desk.Rules(), f.Scheme.Rules) +
			": what could be checked meets the limits set there. That is not a proof that the work is right. " +
			"Compare the survey with the plan, read the working of each figure, and measure what was built."
	}
	if p.none.Text != none {
		p.none.SetText(none)
	}
	if none == "" {
		p.none.Hide()
	} else {
		p.none.Show()
	}
	was := p.standing()
	p.refill()
	if !f.Preview {
		p.follow(was)
	}
}

// overruled returns how many findings somebody decided against; the other counts
// leave them out.
func overruled(fs []finding.Finding) int {
	n := 0
	for i := range fs {
		if fs[i].Overruled != nil {
			n++
		}
	}
	return n
}

// rulesName returns the name of the rule set a scheme is judged by: the first
// one when it names none that is known, as the desk does.
func rulesName(rules []*check.Rules, key string) string {
	for _, r := range rules {
		if r.Key == key {
			return r.Name
		}
	}
	if len(rules) > 0 {
		return rules[0].Name
	}
	return "no rule set"
}

// refill puts the findings into the rows, making new rows only when there are
// too few.
func (p *Findings) refill() {
	p.askCures()
	all := p.fold()
	n := min(all, p.most)
	for len(p.rows) < n {
		p.rows = append(p.rows, newFindingRow(p))
	}
	moved := p.stack()
	for _, r := range p.rows[n:] {
		if r.Visible() {
			r.Hide()
			moved = true
		}
	}
	if rest := all - n; rest > 0 {
		p.more.SetText("Show more (" + strconv.Itoa(rest) + ")")
		p.more.Show()
	} else {
		p.more.Hide()
	}
	p.written, p.listed, p.openAt = 0, n, -1
	for i := range p.shown {
		if keyOf(&p.shown[i]) == p.open {
			p.openAt = i
			break
		}
	}
	p.fill(moved)
}

func (p *Findings) seen(o fyne.CanvasObject) { bring(p.scroll, o) }
func (p *Findings) hints() *Tips             { return p.Tips }

// First returns what the keyboard comes to first: the open finding, else the
// first one that can be seen, nil without any.
func (p *Findings) First() fyne.Focusable {
	var first fyne.Focusable
	for _, r := range p.rows {
		seen := p.top(r)+r.Size().Height/2 > p.scroll.Offset.Y
		if r.Visible() && (first == nil && seen || r.open) {
			first = r
		}
	}
	if first == nil && p.noted.Visible() {
		return p.notes
	}
	return first
}

// pick opens the finding, or closes it, and tells the window.
func (p *Findings) pick(f finding.Finding) {
	if key := keyOf(&f); p.open == key {
		p.open = findingKey{}
	} else {
		p.open = key
	}
	p.opened = p.opened || p.folds() && f.Level == finding.Note
	p.refill()
	p.reveal()
	if p.OnPick != nil {
		p.OnPick(f)
	}
}

// Next opens the finding after the one that is open, and the first after the
// last, as a click would.
func (p *Findings) Next() {
	if len(p.shown) == 0 {
		return
	}
	at := 0
	for i := range p.shown {
		if keyOf(&p.shown[i]) == p.open {
			at = (i + 1) % len(p.shown)
		}
	}
	p.most = max(p.most, at+1)
	p.open = findingKey{}
	p.pick(p.shown[at])
}

// reveal scrolls so that the open finding can be read from its head on.
func (p *Findings) reveal() {
	for _, r := range p.rows {
		if !r.Visible() || !r.open {
			continue
		}
		top, height := p.top(r), r.MinSize().Height
		if top < p.scroll.Offset.Y || top+height > p.scroll.Offset.Y+p.scroll.Size().Height {
			p.scroll.ScrollToOffset(fyne.NewPos(0, top))
		}
		return
	}
}

// apply carries out a remedy as one undo step.
func (p *Findings) apply(r finding.Remedy) {
	op, ok := remedy(r.Action)
	if !ok {
		return
	}
	if err := p.desk.Commit(op); err != nil && p.OnRefused != nil {
		p.OnRefused(err)
	}
}

// withdraw takes a recorded decision back.
func (p *Findings) withdraw(f finding.Finding) {
	op := edit.Withdraw{Code: string(f.Code), Subject: doc.ID(f.Subject.ID)}
	if err := p.desk.Commit(op); err != nil && p.OnRefused != nil {
		p.OnRefused(err)
	}
}

// detail builds what an open finding shows below its sentence.
func (p *Findings) detail(f finding.Finding) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	say := func(text string) { out = append(out, quiet(text)) }
	if f.Figure != "" || f.Limit != "" {
		say(figureLine(f.Figure, f.Limit))
	}
	if s := f.Source.String(); s != "" {
		say(fromLine(s))
	}
	for _, a := range f.Assumed {
		say("Assumed: " + a)
	}
	if o := f.Overruled; o != nil {
		say("Overruled by " + o.By + " on " + o.On) // the row has the reason
	}
	out = append(out, p.waysOut(&f)...)
	buttons := container.New(&flow{}, p.button("Working", func() {
		if p.OnWorking != nil {
			p.OnWorking(f)
		}
	}))
	frame := p.desk.Frame()
	if at := SupplyFor(frame, &f); at != "" && f.Overruled == nil {
		buttons.Add(p.button("Enter at "+briefly(doc.TagOf(frame.Scheme, at)), func() {
			if p.OnEnter != nil {
				p.OnEnter(f)
			}
		}))
	}
	if want := schemeAsked[f.Code]; SchemeAsks(frame.Scheme, f.Code) && len(want) > 0 && want[0] == countryCaption {
		buttons.Add(p.button("Enter the country", func() {
			if p.OnEnter != nil {
				p.OnEnter(f)
			}
		}))
	}
	switch {
	case f.Overruled != nil:
		buttons.Add(p.button("Withdraw decision", func() { p.withdraw(f) }))
	case f.Level > finding.Note:
		name := "Overrule…"
		if f.Level == finding.Decide {
			name = "Decide…"
		}
		buttons.Add(p.button(name, func() {
			if p.OnOverrule != nil {
				p.OnOverrule(f)
			}
		}))
	}
	return append(out, buttons)
}

func (p *Findings) remedyLine(r finding.Remedy) fyne.CanvasObject {
	text := "→ " + capital(r.Text)
	if r.Figure != "" {
		text += ": " + r.Figure
	}
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	if _, ok := remedy(r.Action); !ok {
		return l
	}
	b := p.button("Apply", func() { p.apply(r) })
	return container.NewBorder(nil, nil, nil, container.NewVBox(b, layout.NewSpacer()), container.New(snug{}, l))
}

func (p *Findings) button(text string, tapped func()) fyne.CanvasObject {
	return NewButton(text, tapped).Object()
}

// fromLine says where a limit comes from.
func fromLine(source string) string {
	if strings.HasPrefix(source, "common practice") {
		return capital(source)
	}
	return "From " + source
}

func figureLine(figure, limit string) string {
	switch {
	case limit == "":
		return "Found " + figure
	case figure == "":
		return "Limit: " + limit
	}
	return "Found " + figure + "; limit: " + limit
}
