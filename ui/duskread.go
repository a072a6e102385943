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
}

const (
	mostLamps = 3     // named in the reading
	faintPart = 0.005 // what a lamp gives less than is not named
)

func newDuskRead(w *Window) *duskRead {
	r := &duskRead{window: w, lux: widget.NewLabel(""), what: small("")}
	r.lux.TextStyle.Bold = true
	r.lux.Truncation, r.what.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	text := container.New(readRows{}, r.lux, r.what)
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
		r.at, r.inside = at, inside
		r.update()
	}
}

// update writes the reading anew.
func (r *duskRead) update() {
	lux, what := "Working out the light …", upperFirst(layout.NightCaveat)
	if shot := r.window.plan.Night(); shot != nil {
		n := shot.Night
		lux = "Point at the ground to read lux"
		if r.inside {
			lux = probeWords(n.Probe(r.at))
		}
		if a := assumedWords(n.Assumed); a != "" {
			what += ". " + a // ahead of what a narrow plan cuts off
		}
		what += fmt.Sprintf(". Photopic, direct light only, ×%g for age and dirt", n.Maintenance)
	}
	if r.lux.Text != lux {
		r.lux.SetText(lux)
	}
	if r.what.Text != what {
		r.what.SetText(what)
	}
}

// probeWords is a reading in one line.
func probeWords(p layout.Probe) string {
	lux := luxWords(float64(p.Lux)) + " on the ground"
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
			names = append(names, fmt.Sprintf(share, s.Lamp.Tag, 100*s.Part))
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
		return "1 thing assumed: rest the pointer here to read it"
	}
	return fmt.Sprintf("%d things assumed: rest the pointer here to read them", len(list))
}

// tip lists everything that was assumed.
func (r *duskRead) tip() panel.Tip {
	shot := r.window.plan.Night()
	if shot == nil {
		return panel.Tip{}
	}
	t := panel.Tip{Head: upperFirst(layout.NightCaveat), Working: "Nothing was assumed", Source: "E = MF · I(C, γ) · cos / d², summed over the lamps at the volts found for each; light reflected by the ground is not in it"}
	if list := shot.Night.Assumed; len(list) > 0 {
		t.Working = "Assumed\n" + strings.Join(list, "\n")
	}
	return t
}

// readRows sets the two lines close under each other.
type readRows struct{}

// readTuck is what a line takes less than its words ask for.
const readTuck = 12

// MinSize implements fyne.Layout.
func (readRows) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(0, o[0].MinSize().Height+o[1].MinSize().Height-2*readTuck)
}

// Layout implements fyne.Layout.
func (readRows) Layout(o []fyne.CanvasObject, size fyne.Size) {
	y := float32(-readTuck / 2)
	for _, l := range o {
		m := l.MinSize()
		l.Move(fyne.NewPos(0, y))
		l.Resize(fyne.NewSize(size.Width, m.Height))
		y += m.Height - readTuck
	}
}

// footing lays its object along the foot, and asks for no room.
type footing struct{}

// MinSize implements fyne.Layout.
func (footing) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout implements fyne.Layout.
func (footing) Layout(o []fyne.CanvasObject, size fyne.Size) {
	high := min(o[0].MinSize().Height, size.Height)
	o[0].Move(fyne.NewPos(0, size.Height-high))
	o[0].Resize(fyne.NewSize(size.Width, high))
}
