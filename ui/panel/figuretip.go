package panel

import (
	"strings"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// FigureTips says how the figures in drawings are reached: along the runs of the
// plan, in the circuit view, in the view for digging and on the side of a run. It
// says what the properties say of the same figure, and computes nothing.
type FigureTips struct{ on subject }

// NewFigureTips returns the tips of the desk's present frame.
func NewFigureTips(desk Desk) *FigureTips { return &FigureTips{on: subject{desk: desk}} }

// DrawnFigure is a text of a drawing that the pointer rests on.
type DrawnFigure struct {
	ID    doc.ID // what the text is about
	Part  string // the part of the text under the pointer, "229.7 V"; "" for the line of a run
	Whole string // all of it
	Look  scene.Look
	Side  bool   // it stands on the side of a run,
	Run   doc.ID // this one
}

// Of returns the working behind a figure, an empty tip for words that are no
// figure and while a gesture goes on.
func (p *FigureTips) Of(d DrawnFigure) Tip {
	p.on.frame = p.on.desk.Frame()
	if p.on.frame == nil || p.on.frame.Preview {
		return Tip{}
	}
	for _, text := range append([]string{d.Part}, strings.Split(d.Whole, scene.PartSign)...) {
		if tip := p.figure(d, text); !tip.Empty() {
			return tip.of(p.on.frame)
		}
	}
	return Tip{}
}

// workedOut is said of figures that a worker has yet to find.
const workedOut = "being worked out"

// behind reports whether the figures of a frame are of before its last edit.
func behind(f *layout.Frame) bool { return f.Behind && !f.Preview }

// of returns the tip of a figure of the frame: the working of a figure of before the
// last edit would explain what is not drawn any more.
func (t Tip) of(f *layout.Frame) Tip {
	if t.Empty() || !behind(f) {
		return t
	}
	return Tip{Head: capital(workedOut), Working: "This figure is of before the last edit.\nThat of what is drawn now comes in a moment."}
}

// figure is the tip of one figure as it is written.
func (p *FigureTips) figure(d DrawnFigure, text string) Tip {
	p.on.id = d.ID
	kind := doc.KindOf(p.on.frame.Scheme, d.ID)
	switch {
	case kind == doc.RunKind:
		return p.run(d, text)
	case !kind.Joinable():
		return Tip{}
	case d.Side && amperes(text): // read at its end, they are of the run
		p.on.id = d.Run
		return p.run(d, text)
	}
	return p.point(d, text)
}

func volts(text string) bool { return strings.HasSuffix(text, " V") || strings.HasSuffix(text, " mV") }
func amperes(text string) bool {
	return strings.HasSuffix(text, " A") || strings.HasSuffix(text, " mA")
}

// noReading is what drawings write where there is no figure.
const noReading = "no reading"

// run is the tip of a figure of a run.
func (p *FigureTips) run(d DrawnFigure, text string) Tip {
	on := &p.on
	l, measured := on.length()
	r, have := on.result()
	switch {
	case text == noReading:
		return whyNothing(have)
	case have && (amperes(text) || text == "" && d.Look == scene.LookAmperes):
		return whyCurrent(on, r)
	case have && (volts(text) || text == "" && d.Look == scene.LookVolts):
		other := Tip{Head: "Voltage along " + doc.TagOf(on.scheme(), on.id), Working: strings.TrimSpace(text + " from the end nearer the supply to the other"), Source: solved}
		return on.why("", other, "VD-01", "VD-02", "VD-03")
	case text == "" && d.Look == scene.LookDig:
		return on.why("depth ", Tip{}, digCodes...)
	case measured && d.Look != scene.LookDig && text == l.Cut.String():
		return lengthTip(l)
	}
	return p.depth(text)
}

// depth is the tip of how deep a leg lies: of the check that looks at it.
func (p *FigureTips) depth(text string) Tip {
	if !strings.HasSuffix(text, " mm") && !strings.HasSuffix(text, " m") {
		return Tip{}
	}
	words := strings.Fields(text)
	if len(words) < 2 {
		return Tip{}
	}
	return p.on.why("depth "+strings.Join(words[len(words)-2:], " "), Tip{}, digCodes...)
}

// digCodes are the checks of how deep a run lies.
var digCodes = []finding.Code{"DIG-01", "DIG-02", "DIG-06"}

// point is the tip of a figure at a point; of the two points of a source it is the
// one that reads so. Where the plan shows volts or amperes, the name of a point
// stands for those.
func (p *FigureTips) point(d DrawnFigure, text string) Tip {
	text = strings.TrimPrefix(text, "→ ")
	var name string
	var says func(calc.Point) string
	switch {
	case text == noReading:
		_, have := p.on.point(0)
		return whyNothing(have)
	case volts(text):
		name, says = "Voltage", func(c calc.Point) string { return c.Voltage.String() }
	case amperes(text):
		name, says = "Current", func(c calc.Point) string { return c.Current.String() }
	case d.Look == scene.LookVolts:
		name, says = "Voltage", func(calc.Point) string { return text }
	case d.Look == scene.LookAmperes:
		name, says = "Current", func(calc.Point) string { return text }
	default:
		return Tip{}
	}
	for n := 0; ; n++ {
		c, ok := p.on.point(n)
		if !ok {
			return Tip{}
		}
		if says(c) == text {
			return whyPoint[name](&p.on, c)
		}
	}
}

// whyNothing says why there is no reading.
func whyNothing(have bool) Tip {
	if have {
		return Tip{Head: "No reading", Working: "The circuit has no steady state, so that no figure would be an answer."}
	}
	return Tip{Head: "No reading", Working: "Joined to no supply point, so there is nothing to compute yet."}
}
