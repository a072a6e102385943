package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SUP-01: a cable fixed to a fence, which blows down; to a neighbour's fence or
// wall nothing may be fixed at all. Source: trade guidance, surface cables only
// on permanent structures.
var fenceRule = Rule{Code: "SUP-01", Title: "Fixed to a fence", Run: fence}

var fenceSource = finding.Source{Standard: "trade guidance for gardens", Clause: "surface cables only on permanent structures", Evidence: finding.Found}

// alongLeast is the length beside a fence from which a cable counts as fixed to
// it; a shorter one only meets it.
const alongLeast q.Metre = 0.3

func fence(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		s := c.runSubject(b)
		for k := range way.Beside {
			x := &way.Beside[k]
			if (x.Kind != network.BesideFence && x.Kind != network.BesideWall) || x.Length < alongLeast {
				continue
			}
			lv := finding.Held
			switch {
			case x.Owner == "neighbour":
				lv = finding.Stop
			case x.Kind == network.BesideFence:
				lv = finding.Decide
			}
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(x.Subject.ID, lv, float64(x.Length), s, func() finding.Finding { return fenceFinding(s, x, lv) })
			}
		}
	}
	g.flush(emit)
}

func fenceFinding(s finding.Subject, x *network.Beside, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "SUP-01", Level: lv, Subject: s, Also: also(x.Subject), Source: fenceSource, Figure: x.Length.String()}
	owner := map[string]string{"": "not known", "own": "the client", "neighbour": "the neighbour"}[x.Owner]
	what := "a fence"
	if x.Kind == network.BesideWall {
		what = "a wall"
	}
	var w lines
	w.add("leg %d of %s runs %s along %s, %s from it", x.Leg+1, s.Label, x.Length, x.Subject.Label, span(x.Distance))
	w.add("it is %s and belongs to: %s", what, owner)
	f.Working = w.String()
	switch lv {
	case finding.Stop:
		f.Text = s.Label + " is fixed to " + x.Subject.Label + ", which belongs to the neighbour"
		f.Remedies = []finding.Remedy{{Text: "carry it on posts or a wall of the client's own, or in the ground"}}
	case finding.Decide:
		f.Text = s.Label + " is fixed to " + x.Subject.Label + ": fences blow down"
		f.Remedies = []finding.Remedy{{Text: "carry it on a wall or on posts of its own, or in the ground"}}
		if x.Owner == "" {
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "find out whose fence it is"})
		}
	default:
		f.Text = s.Label + " is carried by " + x.Subject.Label
	}
	return f
}
