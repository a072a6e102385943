package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// GLR-01: a beam into the eyes of who sits there, or into a window. By geometry
// only: the angle between the axis of the beam and the line to the eye, against
// that at which the beam ends on that side: half of the beam of the stock book, or
// where a photometric file has half of the peak. Leaves and walls in between are not looked at. Silent for a
// lamp that is not aimed or whose beam is not known. Source: common practice,
// no source; guidance on light from homes asks for beams kept off windows.
var glareRule = Rule{Code: "GLR-01", Title: "Beam into a seat or window", Run: glare}

func glare(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || n.Tail || n.Place == nil || len(n.Place.Eyes) == 0 {
			continue
		}
		s := c.subject(i)
		for k := range n.Place.Eyes {
			e := &n.Place.Eyes[k]
			if e.Half <= 0 {
				continue
			}
			limit := c.Rules.Site.SeatReach
			if e.Window {
				limit = c.Rules.Site.WindowReach
			}
			lit := within(float64(e.Distance), limit.Value) && within(e.Off, e.Half)
			lv := level(!lit, finding.Decide)
			if c.Wants(!lit, s.ID) {
				g.take(e.Subject.ID, lv, -e.Off, s, func() finding.Finding { return glareFinding(s, e, limit, lv) })
			}
		}
	}
	g.flush(emit)
}

func glareFinding(s finding.Subject, e *network.Eye, limit Limit, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "GLR-01", Level: lv, Subject: s, Also: also(e.Subject), Source: limit.Source,
		Figure: num(e.Off, 0) + "° off the axis", Limit: "more than " + num(e.Half, 0) + "° within " + spanOf(limit)}
	if e.Assumed {
		f.Assumed = []string{"height of " + e.Subject.Label + " not drawn: " + span(e.Height) + " taken"}
	}
	what := "the eyes of who sits at "
	if e.Window {
		what = "window "
	}
	var w lines
	w.add("%s is %s away, eyes at %s", e.Subject.Label, e.Distance, span(e.Height))
	w.add("%s° between the axis of the beam and the line there; half of the beam is %s°", num(e.Off, 1), num(e.Half, 1))
	w.add("looked at within %s; walls and leaves are not", spanOf(limit))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " does not shine into " + what + e.Subject.Label
		return f
	}
	f.Text = s.Label + " shines into " + what + e.Subject.Label + ", " + e.Distance.String() + " away"
	f.Remedies = []finding.Remedy{
		{Text: "turn or tilt it away", Figure: "by more than " + num(e.Half-e.Off, 0) + "°"},
		{Text: "use a narrower beam or a shield"},
	}
	return f
}
