package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// SUP-04: the hole where a cable enters a house. One that falls inwards leads
// rain along the cable into what it feeds: a Stop on the mains, a Decide at
// extra-low voltage. Where nobody said how it falls, a note reminds. Source:
// aerial installers' practice; the angle is common practice, no source.
var holeRule = Rule{Code: "SUP-04", Title: "Hole through a wall", Run: hole}

var holeSource = finding.Source{Standard: "aerial installers' practice", Clause: "drill uphill from outside", Evidence: finding.Found}

func hole(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		br := &c.Net.Branches[b]
		way := br.Route
		s, low := c.runSubject(b), c.extraLow(c.Far(b))
		for k := range br.Legs {
			leg := &br.Legs[k]
			x := houseWall(way, k)
			lv := finding.Held
			switch {
			case leg.Hole == "in" && low:
				lv = finding.Decide
			case leg.Hole == "in":
				lv = finding.Stop
			case leg.Hole == "" && x == nil:
				continue
			case leg.Hole == "":
				lv = finding.Note
			}
			if c.Wants(lv == finding.Held, s.ID) {
				g.take("", lv, 0, s, func() finding.Finding { return holeFinding(s, k, leg, x, lv) })
			}
		}
	}
	g.flush(emit)
}

// houseWall returns where a leg passes the wall of a building, nil for nowhere.
func houseWall(way *network.Route, leg int) *network.Crossing {
	for i := range way.Crossings {
		if x := &way.Crossings[i]; x.Kind == network.CrossWall && x.Leg == leg && x.House {
			return x
		}
	}
	return nil
}

func holeFinding(s finding.Subject, k int, leg *network.Leg, x *network.Crossing, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "SUP-04", Level: lv, Subject: s, Source: holeSource}
	wall := "a wall"
	if x != nil {
		f.Also, wall = also(x.Subject), "the wall of "+x.Subject.Label
	}
	var w lines
	w.add("leg %d of %s passes %s", k+1, s.Label, wall)
	w.add("fall of the hole: %s", map[string]string{"": "not said", "out": "to the outside", "in": "to the inside"}[leg.Hole])
	w.add("usual: 5 to 10 degrees to the outside, a drip loop before it (about 150 mm of cable), then sealed")
	f.Working = w.String()
	switch lv {
	case finding.Held:
		f.Text = "the hole of " + s.Label + " falls to the outside"
	case finding.Note:
		f.Text = s.Label + " passes " + wall + ": let the hole fall to the outside and leave a drip loop before it"
	default:
		f.Text = "the hole of " + s.Label + " through " + wall + " falls to the inside and leads water in"
		f.Remedies = []finding.Remedy{{Text: "drill it again, 5 to 10 degrees uphill from outside, with a drip loop"}}
	}
	return f
}
