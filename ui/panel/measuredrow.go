package panel

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/layout"
)

var (
	_ fyne.Tappable     = (*measuredRow)(nil)
	_ desktop.Hoverable = (*measuredRow)(nil)
)

// unread is the sign of what was not measured: a broken ring.
var unread = NewDrawing("unread", `<circle fill="none" stroke="#000000" stroke-width="2" stroke-dasharray="3 3" cx="12" cy="12" r="8"/>`, ColourQuiet)

// verdictMark is the sign of a verdict, that of the finding it may bring.
func verdictMark(v judge.Verdict) fyne.Resource {
	return Mark(map[judge.Verdict]finding.Level{judge.Unjudged: finding.Note, judge.Pass: finding.Held, judge.Far: finding.Decide, judge.Outside: finding.Stop}[v])
}

// measuredRow is one reading: sign, point and figure, what was expected and what it
// comes to in words.
type measuredRow struct {
	widget.BaseWidget
	of         *Measured
	at         widget.ListItemID
	mark       *Icon
	head, want *widget.Label
	says       *widget.Label
}

func newMeasuredRow(of *Measured) *measuredRow {
	r := &measuredRow{of: of, at: -1, mark: NewIcon(unread), head: heading(""), want: quiet(""), says: quiet("")}
	r.head.Truncation = fyne.TextTruncateEllipsis
	r.want.Wrapping, r.want.SizeName = fyne.TextWrapOff, theme.SizeNameCaptionText
	r.says.Wrapping, r.says.Truncation, r.says.SizeName = fyne.TextWrapOff, fyne.TextTruncateEllipsis, theme.SizeNameCaptionText
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements fyne.Widget.
func (r *measuredRow) CreateRenderer() fyne.WidgetRenderer {
	words := container.New(tight3{}, container.NewBorder(nil, nil, nil, r.want, r.head), r.says)
	return widget.NewSimpleRenderer(container.NewBorder(nil, nil, container.NewCenter(r.mark), nil, words))
}

func (r *measuredRow) fill(at widget.ListItemID, row *layout.TestRow) {
	r.at = at
	j, ok := r.of.tests.Judge(row)
	sign := fyne.Resource(unread)
	if ok {
		sign = verdictMark(j.Verdict)
	}
	r.mark.SetResource(sign)
	set(r.head, headOf(row))
	want := r.of.tests.Expected(row)
	if want == "" {
		want = row.Ask.Limit()
	} else {
		want = "expected " + want
	}
	set(r.want, want)
	set(r.says, saysOf(r.of.tests, row))
}

func set(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

// headOf names the point with what was read.
func headOf(r *layout.TestRow) string {
	s := r.Label
	if r.Of != "" {
		s += ", " + r.Of
	}
	if r.Taken.Reading == nil {
		return s
	}
	return s + "   " + r.Taken.Value.Text(r.Test)
}

// saysOf is what a reading comes to and points to.
func saysOf(t *layout.Tests, r *layout.TestRow) string {
	j, ok := t.Judge(r)
	if !ok {
		return "not measured"
	}
	s := j.Verdict.String()
	if len(j.Points) > 0 {
		return s + ": " + j.Points[0]
	}
	return s
}

// Tapped implements fyne.Tappable.
func (r *measuredRow) Tapped(*fyne.PointEvent) { r.of.list.Select(r.at) }

// MouseIn implements desktop.Hoverable.
func (r *measuredRow) MouseIn(*desktop.MouseEvent) {
	if p := r.of; r.at >= 0 && r.at < len(p.rows) {
		row := p.rows[r.at]
		p.Tips.Over(r, func() Tip { return measuredTip(p.tests, &row) })
	}
}

// MouseMoved implements desktop.Hoverable.
func (r *measuredRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *measuredRow) MouseOut() { r.of.Tips.Off(r) }

// measuredTip is how a reading was judged, and all that it points to.
func measuredTip(t *layout.Tests, r *layout.TestRow) Tip {
	j, ok := t.Judge(r)
	if !ok {
		return Tip{Head: r.Label + "  ·  " + r.Title(), Working: wantedOf(t, r)}
	}
	tip := Tip{Head: r.Label + "  ·  " + j.Verdict.String() + ": " + j.Text, Working: j.Working + strings.Join(j.Points, "\n")}
	if s := j.Source.String(); s != "" {
		tip.Source = fromLine(s)
	}
	return tip
}

// measuredList is the list of readings, with a ring while it has the keyboard.
type measuredList struct {
	widget.List
	of   *Measured
	ring Ring
}

func newMeasuredList(p *Measured) *measuredList {
	l := &measuredList{of: p, ring: NewRing()}
	l.Length = func() int { return len(p.rows) }
	l.CreateItem = func() fyne.CanvasObject { return newMeasuredRow(p) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if i < len(p.rows) {
			o.(*measuredRow).fill(i, &p.rows[i])
		}
	}
	l.OnSelected = func(i widget.ListItemID) {
		if p.moving || i >= len(p.rows) {
			return
		}
		p.field.Flush()
		p.goTo(i, true, true)
		if app := fyne.CurrentApp(); app != nil {
			if c := app.Driver().CanvasForObject(l); c != nil {
				c.Focus(p.field) // a click is where one types next
			}
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained implements fyne.Focusable: the arrows go on from the row that is typed
// into, not from wherever they were.
func (l *measuredList) FocusGained() {
	l.List.FocusGained()
	l.ring.Show()
	l.Highlight(max(l.of.at, 0))
}

// FocusLost implements fyne.Focusable.
func (l *measuredList) FocusLost() {
	l.List.FocusLost()
	l.ring.Hide()
	l.of.Tips.Hide()
}

// TypedKey implements fyne.Focusable.
func (l *measuredList) TypedKey(e *fyne.KeyEvent) {
	if PassKey(l, e) {
		return
	}
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		e = &fyne.KeyEvent{Name: fyne.KeySpace}
		fallthrough
	case fyne.KeySpace: // of the row that is typed into already the toolkit tells nothing
		l.UnselectAll()
	}
	l.List.TypedKey(e)
}

// TypedRune implements fyne.Focusable.
func (l *measuredList) TypedRune(r rune) {
	if !l.of.typed(r) {
		PassRune(l, r)
	}
}
