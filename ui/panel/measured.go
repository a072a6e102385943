package panel

import (
	"errors"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	fynelayout "fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/judge"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// TestDesk is what the readings need of the desk.
type TestDesk interface {
	Frame() *layout.Frame
	Commit(edit.Operation) error
	Tests() *layout.Tests
}

// Measured is where readings are typed in: one test at a time, a row a point, with
// what it should read, what was read and what that comes to. Return and Tab go down
// the column. It is filled while it can be seen.
type Measured struct {
	// OnPick is called with the thing of the row gone to; fly asks to bring it into
	// view.
	OnPick func(id doc.ID, fly bool)
	// OnLeave gives the keyboard back to the plan.
	OnLeave func()
	// Today is the date of a new day of testing.
	Today func() string
	// Tips shows the working of a judgement.
	Tips *Tips

	desk  TestDesk
	test  judge.Test
	asked []judge.Test // those of the list of tests
	rows  []layout.TestRow
	tests *layout.Tests
	at    int // row that is typed into, -1 for none

	pick         *Pick
	what, wanted *widget.Label
	field        *Field
	list         *measuredList
	count, none  *widget.Label
	day          *form
	dayOn        *subject
	dayHead      *Button
	dayScroll    *container.Scroll
	dayOpen      bool // the day stands in the place of the readings
	box, entry   *fyne.Container
	active       bool
	moving       bool // the choice of row comes from the program
}

const noTests = "Nothing is fed from a supply point yet, so there is nothing to measure."

// NewMeasured returns the panel.
func NewMeasured(desk TestDesk, forms Desk) *Measured {
	p := &Measured{desk: desk, at: -1, test: judge.R1R2, what: heading(""), wanted: quiet(""), count: quiet(""), none: quiet(noTests)}
	p.what.Truncation, p.wanted.SizeName = fyne.TextTruncateEllipsis, captionSize
	p.count.SizeName = captionSize
	p.pick = NewPick()
	p.pick.onRune = p.typed
	p.field = NewField("", p.commit)
	p.field.onKey = p.key
	p.field.OnSubmitted = func(string) { p.enter(1) }
	p.list = newMeasuredList(p)
	p.dayOn = &subject{desk: forms, frame: desk.Frame(),
		seen:  func(o fyne.CanvasObject) { bring(p.dayScroll, o) },
		wheel: func(e *fyne.ScrollEvent) { p.dayScroll.Scrolled(e) }}
	p.day = p.dayForm()
	p.entry = container.NewVBox(container.New(snug{}, p.what, p.wanted), p.field.Object())
	p.dayHead = newFoldHead(func() { p.showDay(!p.dayOpen) })
	p.dayScroll = container.NewVScroll(container.New(inset{}, p.day.box))
	p.dayScroll.Hide()
	head := container.NewVBox(p.pick.Object(), p.dayHead.Object(), p.entry, widget.NewSeparator())
	middle := container.NewStack(container.NewVBox(p.none), p.dayScroll, p.list, p.list.ring)
	p.box = container.New(fynelayout.NewBorderLayout(head, p.count, nil, nil), head, middle, p.count) // in the order of Tab
	return p
}

// Object returns the panel for a container.
func (p *Measured) Object() fyne.CanvasObject { return p.box }

// SetActive says whether the panel can be seen.
func (p *Measured) SetActive(on bool) {
	if p.active && !on {
		p.field.Flush()
	}
	p.active = on
	if on {
		p.SetFrame(p.desk.Frame())
	}
}

// SetFrame shows the readings of another frame, while the panel can be seen.
func (p *Measured) SetFrame(f *layout.Frame) {
	if !p.active {
		return
	}
	p.tests = p.desk.Tests()
	p.dayOn.frame = f
	p.fillPick()
	p.fillRows()
}

// SetTest shows another test.
func (p *Measured) SetTest(t judge.Test) {
	p.field.Flush()
	p.test, p.at = t, -1
	if p.active {
		p.fillPick()
		p.fillRows()
		p.list.ScrollToTop()
	}
}

// SetSelection goes to the row of what is selected on the plan.
func (p *Measured) SetSelection(ids []doc.ID) {
	if !p.active || len(ids) != 1 || p.at >= 0 && p.at < len(p.rows) && p.rows[p.at].On == ids[0] {
		return
	}
	for i := range p.rows {
		if p.rows[i].On == ids[0] {
			p.field.Flush()
			p.goTo(i, false, false)
			return
		}
	}
}

// Show opens the panel at a thing: at its row, of the first test that has one when
// the present test has none.
func (p *Measured) Show(id doc.ID) {
	if !p.active {
		return
	}
	for _, t := range append([]judge.Test{p.test}, p.asked...) {
		for _, r := range p.tests.Of(t) {
			if r.On == id {
				if t != p.test {
					p.SetTest(t)
				}
				p.SetSelection([]doc.ID{id})
				return
			}
		}
	}
}

// fillPick lists the tests that the scheme asks, with how many were read.
func (p *Measured) fillPick() {
	p.asked = p.asked[:0]
	var names []string
	at := -1
	for _, t := range judge.Tests {
		rows := p.tests.Of(t)
		if len(rows) == 0 {
			continue
		}
		read := 0
		for i := range rows {
			if rows[i].Taken.Reading != nil {
				read++
			}
		}
		if t == p.test {
			at = len(names)
		}
		p.asked = append(p.asked, t)
		names = append(names, t.String()+": "+strconv.Itoa(read)+" of "+strconv.Itoa(len(rows))+" read")
	}
	if at < 0 && len(p.asked) > 0 {
		at, p.test, p.at = 0, p.asked[0], -1
	}
	p.pick.OnChanged = nil
	if !same(names, p.pick.Options) {
		p.pick.SetOptions(names)
	}
	if at >= 0 && p.pick.SelectedIndex() != at {
		p.pick.SetSelectedIndex(at)
	}
	p.pick.OnChanged = func(string) {
		if i := p.pick.SelectedIndex(); i >= 0 && i < len(p.asked) && p.asked[i] != p.test {
			p.SetTest(p.asked[i])
		}
	}
}

// fillRows shows the rows of the test.
func (p *Measured) fillRows() {
	p.rows = p.tests.Of(p.test)
	p.at = min(p.at, len(p.rows)-1)
	if p.at < 0 && len(p.rows) > 0 {
		p.at = 0
	}
	showFold(p.dayHead, p.dayName(), p.dayOpen)
	if p.dayOpen {
		p.day.show()
		p.none.Hide()
		p.list.Hide()
		p.entry.Hide()
		return
	}
	if len(p.rows) == 0 {
		p.none.Show()
		p.list.Hide()
		p.entry.Hide()
		p.count.SetText("")
		return
	}
	p.none.Hide()
	p.list.Show()
	p.entry.Show()
	p.count.SetText(p.summary())
	p.showEntry(false)
	p.list.Refresh()
	p.mark()
}

// summary counts what the readings of the test come to.
func (p *Measured) summary() string {
	n := map[judge.Verdict]int{}
	read := 0
	for i := range p.rows {
		if j, ok := p.tests.Judge(&p.rows[i]); ok {
			read++
			n[j.Verdict]++
		}
	}
	if read == 0 {
		return "Nothing read yet. Type what the meter shows; >299 and OL are readings too."
	}
	s := strconv.Itoa(read) + " of " + strconv.Itoa(len(p.rows)) + " read"
	for _, v := range []judge.Verdict{judge.Outside, judge.Far, judge.Pass, judge.Unjudged} {
		if n[v] > 0 {
			s += ", " + strconv.Itoa(n[v]) + " " + v.String()
		}
	}
	return s
}

// showEntry shows the row that is typed into; fresh forgets what was typed.
func (p *Measured) showEntry(fresh bool) {
	r := &p.rows[p.at]
	what := r.Label + "  ·  " + r.Title()
	if p.what.Text != what {
		p.what.SetText(what)
	}
	wanted := wantedOf(p.tests, r)
	if p.wanted.Text != wanted {
		p.wanted.SetText(wanted)
	}
	p.field.SetUnit(p.test.Unit())
	hint := "not measured"
	if words := p.test.Words(); len(words) > 0 {
		hint = words[0] + " or " + words[1]
	} else {
		hint += ", in " + p.test.Unit()
	}
	if p.field.PlaceHolder != hint {
		p.field.SetPlaceHolder(hint)
	}
	shown := ""
	if r.Taken.Reading != nil {
		shown = r.Taken.Value.Text(r.Test)
	}
	if fresh {
		p.field.Reset(shown)
	} else {
		p.field.SetShown(shown)
	}
}

// wantedOf is what a row should read and must not pass.
func wantedOf(t *layout.Tests, r *layout.TestRow) string {
	want, limit := t.Expected(r), r.Ask.Limit()
	switch {
	case want == "" && limit == "":
		return "nothing follows from the drawing"
	case want == "":
		return limit
	case limit == "" || limit == want:
		return "expected " + want
	}
	return "expected " + want + "; " + limit
}

// commit writes down what was typed: nothing says that it was not measured.
func (p *Measured) commit(text string) error {
	if p.at < 0 || p.at >= len(p.rows) {
		return errors.New("there is nothing to measure here")
	}
	r := p.rows[p.at]
	if text == "" {
		return p.desk.Commit(edit.ClearReading{Visit: r.Taken.Visit, Asked: r.Asked})
	}
	v, err := judge.ParseTyped(r.Test, text)
	if err != nil {
		return err
	}
	s := p.desk.Frame().Scheme
	visit := max(0, len(s.Visits)-1)
	e := doc.Reading{Asked: r.Asked, Value: v}
	if r.Taken.Reading != nil && r.Taken.Visit == visit {
		e.Remark = r.Taken.Remark
	}
	return p.desk.Commit(edit.SetReading{Visit: visit, New: p.newDay(), Reading: e})
}

// newDay is the head of a day of testing that begins now.
func (p *Measured) newDay() doc.Visit {
	s := p.desk.Frame().Scheme
	v := doc.Visit{By: s.Author} // its temperature nobody has read yet
	if p.Today != nil {
		v.On = p.Today()
	}
	if n := len(s.Visits); n > 0 {
		v.By, v.Instrument, v.Leads = s.Visits[n-1].By, s.Visits[n-1].Instrument, s.Visits[n-1].Leads
	}
	return v
}

// enter commits and goes some rows down; what is refused stays. It reports whether
// there was a row to go to.
func (p *Measured) enter(by int) bool {
	p.field.Flush()
	if p.field.Reason() != "" {
		return true
	}
	to := p.at + by
	if to < 0 || to >= len(p.rows) {
		return false
	}
	p.goTo(to, true, false)
	return true
}

// key goes along the column with the keys of the field.
func (p *Measured) key(e *fyne.KeyEvent) bool {
	switch e.Name {
	case fyne.KeyEscape: // what was typed goes first, the keyboard with the next one
		if p.field.Text != p.field.shown || p.OnLeave == nil {
			return false
		}
		p.OnLeave()
	case fyne.KeyDown:
		p.enter(1)
	case fyne.KeyUp:
		p.enter(-1)
	case fyne.KeyTab:
		by := 1
		if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok && d.CurrentKeyModifiers()&fyne.KeyModifierShift != 0 {
			by = -1
		}
		if c := fyne.CurrentApp().Driver().CanvasForObject(p.field); !p.enter(by) && c != nil {
			if by > 0 {
				c.FocusNext()
			} else {
				c.FocusPrevious()
			}
		}
	default:
		return false
	}
	return true
}

// goTo makes a row the one that is typed into.
func (p *Measured) goTo(i int, tell, fly bool) {
	p.at = i
	p.showEntry(true)
	if p.field.Text != "" { // typing replaces it
		p.field.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	p.mark()
	if tell && p.OnPick != nil {
		p.OnPick(p.rows[i].On, fly)
	}
}

// typed takes what is typed at the list of tests or of rows as the reading: a test is
// chosen and the meter read, with no click between.
func (p *Measured) typed(r rune) bool {
	app := fyne.CurrentApp()
	if r == '?' || r == ' ' || p.dayOpen || p.at < 0 || p.at >= len(p.rows) || app == nil {
		return false
	}
	c := app.Driver().CanvasForObject(p.field)
	if c == nil {
		return false
	}
	c.Focus(p.field)
	if p.field.Text != "" {
		p.field.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	p.field.TypedRune(r)
	return true
}

// mark shows in the list which row is typed into.
func (p *Measured) mark() {
	p.moving = true
	p.list.Select(p.at)
	p.moving = false
}

// Focus gives the keyboard to the field.
func (p *Measured) Focus(c fyne.Canvas) {
	if len(p.rows) > 0 && !p.dayOpen {
		c.Focus(p.field)
	}
}

// Field is where readings are typed; for tests.
func (p *Measured) Field() *Field { return p.field }

// Row is what a row says, a line each; for tests and the trace.
func (p *Measured) Row(i int) (head, says string) {
	r := &p.rows[i]
	return headOf(r), saysOf(p.tests, r)
}

// Rows is how many there are.
func (p *Measured) Rows() int { return len(p.rows) }

// Flush commits what was typed.
func (p *Measured) Flush() {
	if p.active {
		p.field.Flush()
		if p.dayOpen {
			p.day.flush()
		}
	}
}
