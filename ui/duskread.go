package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/geom"
	"duskwire/ui/panel"
)

// duskRead is the reading of the night picture along the foot of the plan: the lux
// on the ground at the pointer, the three lamps that give most of it, and what the
// figures are and are not. It follows the pointer of the mouse and that of the
// arrow keys alike.
type duskRead struct {
	window *Window
	box    *fyne.Container
	lux    *widget.Label
	what   *widget.Label
	words  *panel.Hinted
	at     geom.Point
	inside bool
	read   bool     // at is a point that was read
	now    *reading // made last
	made   int      // readings, for tests
	apart  int      // lamps from which readings are made in a worker
	ask    func(take func() (work, done func()))
	asked  bool
	rows   readRows
}

// readApart is how many lamps a night has from which readings are made in a worker.
// With 1,000 among walls and trees one takes half a millisecond, with 10,000 twenty
// (BenchmarkReading).
const readApart = 2000

// reading is the light at a point of a night.
type reading struct {
	at     geom.Point
	of     *layout.Night
	ground layout.Probe
	up     layout.ProbeUpright
}

func readingOf(n *layout.Night, at geom.Point) *reading {
	return &reading{at, n, n.Probe(at), n.Upright(at)}
}

// here returns the reading of a night where the pointer was last; it is made once. With
// many lamps it is that of a moment ago, or nil before there is one, until a worker has
// made the next.
func (r *duskRead) here(n *layout.Night) *reading {
	switch {
	case r.stands(n):
	case n.Scene.Len() < r.apart:
		r.now = readingOf(n, r.at)
		r.made++
	default:
		if !r.asked {
			r.asked = true
			r.ask(r.take)
		}
		if r.now != nil && r.now.of != n {
			return nil
		}
	}
	return r.now
}

// stands reports whether what was read last is still what is asked for.
func (r *duskRead) stands(n *layout.Night) bool {
	return r.now != nil && r.now.at == r.at && r.now.of == n
}

// take is the reading that a worker makes, of the place and the night of then.
func (r *duskRead) take() (work, done func()) {
	shot := r.window.plan.Night()
	if shot == nil || r.stands(shot.Night) {
		r.asked = false
		return nil, nil
	}
	n, at := shot.Night, r.at
	var got *reading
	return func() { got = readingOf(n, at) }, func() {
		if r.asked = false; r.window.plan.Night() != nil {
			r.now = got
			r.made++
			r.update() // and asks for another where the pointer has gone on
		}
	}
}

const (
	mostLamps = 3     // named in the reading
	faintPart = 0.005 // what a lamp gives less than is not named
)

func newDuskRead(w *Window) *duskRead {
	r := &duskRead{window: w, lux: widget.NewLabel(""), what: small(""), apart: readApart}
	r.ask = w.paced("light at the pointer", picturesEvery, 0)
	r.lux.TextStyle.Bold = true
	r.lux.Wrapping, r.what.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	text := container.New(&r.rows, r.lux, r.what)
	r.words = panel.NewHinted(container.NewStack(panel.NewBackdrop(theme.ColorNameMenuBackground), text), func() *panel.Tips { return w.tips }, r.tip)
	r.box = container.New(footing{}, r.words)
	r.box.Hide()
	r.update()
	return r
}

// height is what the reading covers of the plan.
func (r *duskRead) height() float32 { return r.words.MinSize().Height }

// point follows the pointer on the plan.
func (r *duskRead) point(at geom.Point, inside bool) {
	if r.at != at || r.inside != inside {
		if r.inside = inside; inside {
			r.at, r.read = at, true // stays for the tip when the pointer has gone there
		}
		r.update()
	}
}

// update writes the reading anew.
func (r *duskRead) update() {
	lux, what := "Working out the light …", upperFirst(layout.NightCaveat)
	if shot := r.window.plan.Night(); shot != nil {
		n := shot.Night
		lux = "Point at the ground to read lux"
		what = curfewWords(shot) + what
		if r.inside {
			lux = "Working out the light here …"
			if at := r.here(n); at != nil {
				lux = withUpright(probeWords(at.ground), at.up)
				if what = doubtWords(at.ground) + what; at.ground.Near != "" {
					what = at.ground.Near + ". " + what
				}
			}
		}
		if a := assumedWords(n.Assumed); a != "" {
			what += ". " + a // ahead of what a narrow plan cuts off
		}
		what += ". Photopic, direct light only, ×" + n.AgesShort() + " for age and dirt"
	}
	if r.lux.Text != lux {
		r.lux.SetText(lux)
	}
	if r.what.Text != what {
		r.what.SetText(what)
	}
	if r.rows.grown([]fyne.CanvasObject{r.lux, r.what}) && r.box.Visible() {
		r.box.Refresh()
		r.window.plan.SetFoot(r.height())
	}
}

// curfewWords says what of the lamps is looked at: after curfew what still burns,
// before it nothing unless that differs.
func curfewWords(shot *layout.DuskShot) string {
	if shot.AfterCurfew {
		return "After curfew: " + shot.Late.Words() + ". "
	}
	if shot.Late.Burn < shot.Late.Lamps {
		return "Before curfew, all lamps on. "
	}
	return ""
}

// probeWords is a reading in one line.
func probeWords(p layout.Probe) string {
	lux := luxWords(float64(p.Lux)) + " on the ground" + newWords(p)
	if len(p.From) > 0 && luxWords(float64(p.Lux)) == luxWords(0) {
		return lux // a share of nothing that can be read says nothing
	}
	var names []string
	rest := 0.0
	for i, s := range p.From {
		if i < mostLamps && s.Part >= faintPart {
			share := "%s %.0f %%"
			if i == 0 {
				share = "%s gives %.0f %% of it" // of the light here, not of its own output
			}
			names = append(names, fmt.Sprintf(share, shortTag(s.Lamp.Tag), 100*s.Part))
		} else {
			rest += s.Part
		}
	}
	switch {
	case len(names) == 0:
		return lux + ": no lamp shines here"
	case rest >= faintPart:
		names = append(names, fmt.Sprintf("others %.0f %%", 100*rest))
	}
	return lux + ": " + strings.Join(names, ", ")
}

// shortTag shortens a name that a person gave at length; the tip has it whole.
func shortTag(tag string) string { return panel.Briefly(tag, 24) }

// sharesInFull is what each lamp gives of a reading, for the tip.
func sharesInFull(p layout.Probe) string {
	var out []string
	for _, s := range p.From {
		if s.Part >= faintPart && len(out) < 8 {
			out = append(out, fmt.Sprintf("%s %.0f %%", s.Lamp.Tag, 100*s.Part))
		}
	}
	return strings.Join(out, ", ")
}

// doubtWords says of the lamps that shine here which nobody knows the light of, how the
// first is drawn, and between what the reading lies; "" where all are known.
func doubtWords(p layout.Probe) string {
	if len(p.Doubts) == 0 || luxWords(float64(p.Least)) == luxWords(float64(p.Most)) {
		return ""
	}
	first := p.Doubts[0]
	for _, s := range p.From { // the one that gives most
		if s.Doubt != nil {
			first = s.Doubt
			break
		}
	}
	words := shortTag(first.Lamp.Tag) + " " + first.Words()
	if n := len(p.Doubts) - 1; n > 0 {
		words += fmt.Sprintf(", %d more like it", n)
	}
	return words + ": here " + luxWords(float64(p.Least)) + " to " + luxWords(float64(p.Most)) + ". "
}

// newWords is the light with all lamps new and clean, "" where there is none to read.
func newWords(p layout.Probe) string {
	if luxWords(float64(p.New)) == luxWords(0) {
		return ""
	}
	return " (" + luxWords(float64(p.New)) + " when new)"
}

// withUpright adds the light on upright surfaces to a reading, before the lamps, which
// a narrow plan may cut off; nothing where there is none to read.
func withUpright(reading string, p layout.ProbeUpright) string {
	if luxWords(float64(p.Lux)) == luxWords(0) {
		return reading
	}
	lux, lamps, _ := strings.Cut(reading, ": ")
	lux += fmt.Sprintf(", upright %s to %.0f°", luxWords(float64(p.Lux)), p.Facing)
	if lamps != "" {
		lux += ": " + lamps
	}
	return lux
}

// placeWords is the reading at the last point read in full.
func placeWords(r *reading) string {
	at, p, up := r.at, r.ground, r.up
	s := fmt.Sprintf("At %.2f m, %.2f m: %s on the ground", at.X.Metres(), at.Y.Metres(), luxWords(float64(p.Lux))) + newWords(p)
	if p.Near != "" {
		s += "\n" + p.Near
	}
	if from := sharesInFull(p); from != "" && luxWords(float64(p.Lux)) != luxWords(0) {
		s += "\nFrom " + from
	}
	s += fmt.Sprintf("\nUpright, %g m up: at most %s facing %.0f° clockwise from up the sheet", up.Height, luxWords(float64(up.Lux)), up.Facing)
	for i, side := range []string{"up the sheet", "right", "down", "left"} {
		if i == 0 {
			s += "\n"
		} else {
			s += ", "
		}
		s += "facing " + side + " " + luxWords(float64(up.Sides[i]))
	}
	return s
}

// luxWords writes lux with as many digits as they are worth.
func luxWords(lux float64) string {
	switch {
	case lux >= 99.5:
		return fmt.Sprintf("%.3g lx", float64(int(lux+0.5)))
	case lux >= 9.95:
		return fmt.Sprintf("%.0f lx", lux)
	case lux >= 0.995:
		return fmt.Sprintf("%.1f lx", lux)
	}
	return fmt.Sprintf("%.2f lx", lux)
}

// assumedWords says how much was taken for unknown; the tip says what.
func assumedWords(list []string) string {
	switch len(list) {
	case 0:
		return ""
	case 1:
		return "1 thing assumed (rest here to read)"
	}
	return fmt.Sprintf("%d things assumed (rest here to read)", len(list))
}

// tip lists everything that was assumed.
func (r *duskRead) tip() panel.Tip {
	shot := r.window.plan.Night()
	if shot == nil {
		return panel.Tip{}
	}
	t := panel.Tip{Head: upperFirst(layout.NightCaveat), Working: "Nothing was assumed", Source: "E = MF · I(C, γ) · cos / d², summed over the lamps at the volts found for each; light reflected by the ground is not in it",
		Rest: "on the night sheets of the client pack"}
	if list := shot.Night.Assumed; len(list) > 0 {
		t.Working = "Assumed\n" + strings.Join(list, "\n")
	}
	t.Working = "×" + shot.Night.Ages() + " for age and dirt\n" + t.Working
	if r.read {
		if at := r.here(shot.Night); at != nil {
			t.Working = placeWords(at) + "\n" + t.Working
		}
	}
	return t
}

// readRows sets the two readings close under each other, in as many lines as they need.
// It grows while the pointer goes about and does not shrink until it has another width,
// so that the foot of the plan does not jump.
type readRows struct{ width, high float32 }

// readTuck is what a line takes less than its words ask for.
const readTuck = 12

// grown reports whether the readings need more height than they had at their width.
func (l *readRows) grown(o []fyne.CanvasObject) bool {
	if l.width <= 0 {
		return false
	}
	high := float32(-2 * readTuck)
	for _, c := range o {
		if c.Size().Width != l.width {
			c.Resize(fyne.NewSize(l.width, c.MinSize().Height)) // words know their lines once they have a width
		}
		high += c.MinSize().Height
	}
	if high <= l.high {
		return false
	}
	l.high = high
	return true
}

// MinSize implements fyne.Layout.
func (l *readRows) MinSize(o []fyne.CanvasObject) fyne.Size {
	if l.width <= 0 {
		return fyne.NewSize(0, o[0].MinSize().Height+o[1].MinSize().Height-2*readTuck)
	}
	return fyne.NewSize(0, l.high)
}

// Layout implements fyne.Layout.
func (l *readRows) Layout(o []fyne.CanvasObject, size fyne.Size) {
	if l.width != size.Width {
		l.width, l.high = size.Width, 0
	}
	l.grown(o)
	y := float32(-readTuck / 2)
	for _, c := range o {
		m := c.MinSize()
		c.Move(fyne.NewPos(0, y))
		c.Resize(fyne.NewSize(size.Width, m.Height))
		y += m.Height - readTuck
	}
}

// footing lays its object along the foot, and asks for no room.
type footing struct{}

// MinSize implements fyne.Layout.
func (footing) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout implements fyne.Layout.
func (footing) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(size.Width, o[0].Size().Height)) // words know their lines once they have a width
	high := min(o[0].MinSize().Height, size.Height)
	o[0].Move(fyne.NewPos(0, size.Height-high))
	o[0].Resize(fyne.NewSize(size.Width, high))
}
