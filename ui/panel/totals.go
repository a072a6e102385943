package panel

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Status is the bar along the bottom with scale, pointer and the running totals
// of the scheme, and the line of help below the plan.
type Status struct {
	scale, at *widget.Label
	hint      *widget.Label
	totals    *widget.Label
	levels    [3]*widget.Label // Stop, Decide, Note
	icons     [3]*Icon
	sums      *Hinted
	counts    [3]*Hinted
	frame     *layout.Frame
	narrow    bool
	full      string    // the totals in full words
	briefs    []string  // the same with ever less, see brief
	scaled    string    // scale of the view, "1:50"
	said      [2]string // the help, and the same in short
	// Explain gives the checks of an entity, for the working of the totals; nil
	// leaves them out. Tips shows it.
	Explain func(doc.ID) []finding.Finding
	Tips    *Tips
	box     *fyne.Container
	help    *fyne.Container
}

// NewStatus returns the bar for a frame.
func NewStatus(f *layout.Frame) *Status {
	s := &Status{scale: plain(), at: plain(), hint: plain(), totals: plain(), frame: f}
	tips := func() *Tips { return s.Tips }
	s.hint.Wrapping, s.hint.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	s.hint.Importance = widget.LowImportance
	s.totals.Truncation, s.totals.Alignment = fyne.TextTruncateEllipsis, fyne.TextAlignTrailing
	right := container.NewHBox()
	for i, l := range []finding.Level{finding.Stop, finding.Decide, finding.Note} {
		s.icons[i], s.levels[i] = NewIcon(Mark(l)), plain()
		s.counts[i] = NewHinted(container.NewHBox(s.icons[i], s.levels[i]), tips, func() Tip { return levelTips[l] })
		right.Add(s.counts[i])
	}
	s.sums = NewHinted(container.New(fitted{s}, s.totals), tips, func() Tip { return totalsTip(s.frame, s.full, s.Explain) })
	left := container.NewHBox(container.New(scaleRoom{s}, s.scale), container.New(fixed{116}, s.at))
	s.box = container.NewStack(NewBackdrop(theme.ColorNameHeaderBackground), container.NewBorder(widget.NewSeparator(), nil, left, right, s.sums))
	s.help = container.New(helpLines{s}, NewBackdrop(theme.ColorNameHeaderBackground), s.hint)
	s.SetFrame(f)
	return s
}

func plain() *widget.Label { return widget.NewLabel("") }

// Object returns the bar for a container.
func (s *Status) Object() fyne.CanvasObject { return s.box }

// First returns what the keyboard comes to first.
func (s *Status) First() fyne.Focusable { return s.sums }

// Help returns the line of help, which goes right below the plan.
func (s *Status) Help() fyne.CanvasObject { return s.help }

// SetFrame shows the totals of another frame.
func (s *Status) SetFrame(f *layout.Frame) {
	s.frame = f
	t := f.Totals
	lamps, load, cable := strconv.Itoa(t.Lamps)+plural(t.Lamps, " lamp", " lamps"), t.Load.String()+standby(t), t.Cable.String()+" cable"
	text := strings.Join([]string{lamps, load, cable}, between)
	if t.DropAt != "" {
		text += "  ·  worst drop " + q.Percent(t.WorstDrop) + " at " + t.DropAt
	}
	if t.LoopAt != "" {
		ahead := between + "tightest loop "
		if t.DropAt != "" {
			ahead = ", tightest loop " // nearest its limit; the bar is full on a small screen
		}
		text += ahead + t.WorstLoop.String() + " at " + t.LoopAt
	}
	s.full, s.briefs = text, brief(text, t, lamps, load, cable)
	if behind(f) { // ahead of what is cut off, and of what stands still meanwhile
		s.full = totalsBehind + s.full
		for i := range s.briefs {
			s.briefs[i] = totalsBehind + s.briefs[i]
		}
	}
	s.fit(s.totals.Size().Width)
	s.count()
}

// totalsBehind stands before the totals while a worker finds those of the last edit.
const totalsBehind = workedOut + ": "

// between parts the totals.
const between = "  ·  "

// brief returns the totals with fewer words and then without what matters least:
// worst drop and loop are the last to go.
func brief(full string, t layout.Totals, lamps, load, cable string) []string {
	short := strings.NewReplacer(" cable", "", " or more standby", "+", " standby", "", "worst ", "", "tightest ", "")
	out := []string{short.Replace(full)}
	if t.DropAt == "" && t.LoopAt == "" {
		return append(out, short.Replace(load+between+cable))
	}
	for _, gone := range []string{lamps + between, cable + between, load + between} {
		full = strings.Replace(full, gone, "", 1)
		out = append(out, short.Replace(full))
	}
	return append(out, strings.NewReplacer(" at "+t.DropAt, "", " at "+t.LoopAt, "").Replace(out[len(out)-1]))
}

// count writes how many findings there are; in a narrow window their marks say
// which.
func (s *Status) count() {
	t := s.frame.Totals
	for i, c := range []struct {
		n    int
		name string
	}{{t.Stop, " Stop"}, {t.Decide, " Decide"}, {t.Note, plural(t.Note, " Note", " Notes")}} {
		text := strconv.Itoa(c.n)
		if !s.narrow {
			text += c.name
		}
		write(s.levels[i], text)
	}
}

func write(l *widget.Label, text string) {
	if l.Text != text {
		l.SetText(text)
	}
}

// standby adds what gear takes around the clock to the load.
func standby(t layout.Totals) string {
	switch {
	case t.Standby > 0 && t.Unsaid > 0:
		return " + " + t.Standby.String() + " or more standby"
	case t.Standby > 0:
		return " + " + t.Standby.String() + " standby"
	}
	return ""
}

// fit shows the totals in full, or as much as there is room for.
func (s *Status) fit(width float32) {
	text := s.full
	for _, less := range s.briefs {
		need := fyne.MeasureText(text, theme.Size(theme.SizeNameText), fyne.TextStyle{}).Width + 2*theme.Size(theme.SizeNameInnerPadding)
		if width <= 0 || need <= width {
			break
		}
		text = less
	}
	write(s.totals, text)
}

// fitted lets the totals know how much room they have.
type fitted struct{ s *Status }

func (l fitted) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

func (l fitted) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(size)
	l.s.fit(size.Width)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// SetScale shows the scale of the view by its denominator, 50 for 1:50.
func (s *Status) SetScale(denominator float64) {
	digits := 0
	if denominator < 10 {
		digits = 1
	}
	s.scaled = "1:" + strconv.FormatFloat(denominator, 'f', digits, 64)
	s.putScale()
}

func (s *Status) putScale() {
	switch {
	case s.narrow || s.scaled == "":
		write(s.scale, s.scaled)
	default:
		write(s.scale, "view "+s.scaled)
	}
}

// scaleRoom is the room of the scale, so that its figures do not push their
// neighbours about.
type scaleRoom struct{ of *Status }

// MinSize implements fyne.Layout.
func (l scaleRoom) MinSize(o []fyne.CanvasObject) fyne.Size {
	if l.of.narrow {
		return fixed{60}.MinSize(o)
	}
	return fixed{84}.MinSize(o)
}

// Layout implements fyne.Layout.
func (scaleRoom) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// SetPointer shows where the pointer is on the plan, when it is over it.
func (s *Status) SetPointer(at geom.Point, inside bool) {
	text := ""
	if inside {
		text = strconv.FormatFloat(at.X.Metres(), 'f', 2, 64) + ", " + strconv.FormatFloat(at.Y.Metres(), 'f', 2, 64) + " m"
	}
	if s.at.Text != text {
		s.at.SetText(text)
	}
}

// SetHint shows one line of help, or why something was refused.
func (s *Status) SetHint(text string, refused bool) { s.SetHelp(text, text, refused) }

// SetHelp is SetHint with a shorter text for where the first has no room.
func (s *Status) SetHelp(text, short string, refused bool) {
	importance := widget.LowImportance
	if refused {
		importance = widget.DangerImportance
	}
	if s.said == [2]string{text, short} && s.hint.Importance == importance {
		return
	}
	s.hint.Importance, s.said = importance, [2]string{text, short}
	s.hint.Refresh()
	s.fitHelp()
}

// fitHelp shows the help in full, or the shorter one when that has no room. Where that
// has none either the words reach up over the foot of the plan: they are never cut off.
func (s *Status) fitHelp() {
	room := s.help.Size()
	if room.Height <= 0 {
		write(s.hint, s.said[0])
		return
	}
	need := s.sayIn(s.said[0], room.Width)
	if need > room.Height+2*helpTuck && s.said[1] != s.said[0] {
		need = s.sayIn(s.said[1], room.Width)
	}
	up, high := float32(helpTuck)/2, room.Height+helpTuck
	if need > room.Height+2*helpTuck {
		up, high = need-room.Height-helpTuck/2, need
	}
	s.hint.Move(fyne.NewPos(0, -up))
	s.hint.Resize(fyne.NewSize(room.Width, high))
	ground := s.help.Objects[0]
	if up <= helpTuck {
		up = 0
	}
	ground.Move(fyne.NewPos(0, -up))
	ground.Resize(fyne.NewSize(room.Width, room.Height+up))
}

// sayIn writes the help in a width and returns how high it is then.
func (s *Status) sayIn(text string, width float32) float32 {
	if unkept(s.hint.Text) != text {
		s.hint.SetText(text)
	}
	if s.hint.Size().Width != width {
		s.hint.Resize(fyne.NewSize(width, s.hint.Size().Height))
	}
	keepUnits(s.hint, width)
	return s.hint.MinSize().Height
}

// Hint returns the line of help, as it is where there is room.
func (s *Status) Hint() string { return s.said[0] }

// Totals returns the line of totals shown.
func (s *Status) Totals() string { return s.full }

// fixed gives its one object a width, so that a changing text does not push
// its neighbours about.
type fixed struct{ width float32 }

func (l fixed) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, o[0].MinSize().Height)
}

func (l fixed) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// levelTips say what the levels ask for.
var levelTips = map[finding.Level]Tip{
	finding.Stop:   {Head: "Stop: do not build it like this", Working: "It is mended on the plan, or overruled with a reason that is recorded.\nCtrl+J goes from finding to finding."},
	finding.Decide: {Head: "Decide: a person has to", Working: "Decide, and record why.\nCtrl+J goes from finding to finding."},
	finding.Note:   {Head: "Note: worth knowing", Working: "Nothing has to be done about it.\nCtrl+J goes from finding to finding."},
}

// helpLines gives the line of help a height that does not depend on what it says,
// so that the plan does not jump when the help changes: two lines, three in a
// narrow window.
type helpLines struct{ of *Status }

func (l helpLines) lines() float32 {
	if l.of.narrow {
		return 3
	}
	return 2
}

// SetNarrow says whether the window is narrow.
func (s *Status) SetNarrow(narrow bool) {
	if s.narrow == narrow {
		return
	}
	s.narrow = narrow
	s.count()
	s.putScale()
	s.box.Refresh()
}

// MinSize implements fyne.Layout.
func (l helpLines) MinSize(o []fyne.CanvasObject) fyne.Size {
	line := fyne.MeasureText("Ag", theme.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).Height
	return fyne.NewSize(0, l.lines()*line+2*theme.Size(theme.SizeNameInnerPadding)-helpTuck)
}

// helpTuck is what the help leaves out of its own padding.
const helpTuck = 4

// Layout implements fyne.Layout.
func (l helpLines) Layout([]fyne.CanvasObject, fyne.Size) { l.of.fitHelp() }
