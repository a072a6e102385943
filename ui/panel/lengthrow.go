package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/derive"
)

var (
	_ fyne.Tappable     = (*lengthRow)(nil)
	_ desktop.Hoverable = (*lengthRow)(nil)
)

// lengthRow is one run of the cut list: the piece with its ends and its cut
// length, the parts the length is made of, and the cable.
type lengthRow struct {
	widget.BaseWidget
	of                      *Lengths
	at                      widget.ListItemID
	piece, cut, parts, name *widget.Label
}

func newLengthRow(of *Lengths) *lengthRow {
	r := &lengthRow{of: of, at: -1, piece: heading(""), cut: heading(""), parts: quiet(""), name: quiet("")}
	r.piece.Truncation = fyne.TextTruncateEllipsis
	for _, l := range []*widget.Label{r.parts, r.name} {
		l.Wrapping, l.Truncation, l.SizeName = fyne.TextWrapOff, fyne.TextTruncateEllipsis, theme.SizeNameCaptionText
	}
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements fyne.Widget.
func (r *lengthRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(tight3{}, container.NewBorder(nil, nil, nil, r.cut, r.piece), r.parts, r.name))
}

func (r *lengthRow) fill(at widget.ListItemID, l *derive.Length) {
	r.at = at
	r.piece.SetText(l.Tag + "   " + l.From + " → " + l.To)
	r.cut.SetText("cut " + l.Cut.String())
	r.parts.SetText("plan " + l.Plan.String() + " + rises " + l.Rises.String() +
		" + tails " + l.Tails.String() + " + slack " + l.Slack.String())
	name := l.Name
	if name == "" {
		name = "no cable chosen"
	}
	r.name.SetText(name)
}

// Tapped implements fyne.Tappable.
func (r *lengthRow) Tapped(*fyne.PointEvent) { r.of.list.Select(r.at) }

// MouseIn implements desktop.Hoverable.
func (r *lengthRow) MouseIn(*desktop.MouseEvent) { r.of.tip(r.at) }

// MouseMoved implements desktop.Hoverable.
func (r *lengthRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (r *lengthRow) MouseOut() { r.of.Tips.Off(r) }

// tip shows how the length of a row is reached.
func (p *Lengths) tip(i widget.ListItemID) {
	if r := p.rows[i]; r != nil && i < len(p.shown) {
		l := p.shown[i]
		p.Tips.Over(r, func() Tip { return lengthTip(l) })
	}
}

// lengthList is the cut list, with a ring while it has the focus; the tip goes
// along with the arrow keys, and Return picks as a click does.
type lengthList struct {
	widget.List
	of   *Lengths
	ring Ring
	near nearRow
}

func newLengthList(p *Lengths) *lengthList {
	l := &lengthList{of: p, ring: NewRing()}
	l.Length = func() int { return len(p.shown) }
	l.CreateItem = func() fyne.CanvasObject { return newLengthRow(p) }
	l.UpdateItem = func(i widget.ListItemID, o fyne.CanvasObject) {
		if row := o.(*lengthRow); i < len(p.shown) {
			if p.rows[row.at] == row {
				delete(p.rows, row.at)
			}
			p.rows[i] = row
			row.fill(i, &p.shown[i])
		}
	}
	l.OnSelected = func(i widget.ListItemID) {
		l.near.at = i
		if i < len(p.shown) && p.OnPick != nil {
			p.OnPick(p.shown[i].Run)
		}
		l.Unselect(i)
	}
	l.OnHighlighted = p.tip
	l.ExtendBaseWidget(l)
	return l
}

// FocusGained implements fyne.Focusable.
func (l *lengthList) FocusGained() {
	l.List.FocusGained()
	l.ring.Show()
}

// FocusLost implements fyne.Focusable.
func (l *lengthList) FocusLost() {
	l.List.FocusLost()
	l.ring.Hide()
	l.of.Tips.Hide()
}

// TypedKey implements fyne.Focusable.
func (l *lengthList) TypedKey(e *fyne.KeyEvent) {
	if PassKey(l, e) {
		return
	}
	if e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		e = &fyne.KeyEvent{Name: fyne.KeySpace}
	}
	if l.near.key(&l.List, e.Name, l.of.rowHeight()) {
		return
	}
	l.List.TypedKey(e)
}

// TypedRune implements fyne.Focusable.
func (l *lengthList) TypedRune(r rune) { PassRune(l, r) }
