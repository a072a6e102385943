package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// CTL-06: a movement sensor that sees beyond the boundary, so that the street or
// the neighbour switches the lamps. One that is not aimed on the plan is a note.
// By geometry only: a sector about its aim, up to its range; walls in between
// are not looked at. Source: public guidance on light from homes (found); what is
// taken for a range that is not known is common practice.
var fieldRule = Rule{Code: "CTL-06", Title: "Movement sensor and boundary", Run: field}

var fieldSource = finding.Source{Standard: "public guidance on light from homes", Clause: "sensors triggered on one's own ground only", Evidence: finding.Found}

func field(c *Context, emit func(finding.Finding)) {
	taken := c.Rules.Site.SensorReach
	if taken.Value <= 0 {
		return
	}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Gear == nil || n.Gear.Kind != network.Sensor || n.Place == nil || n.Place.Seen == nil || c.Tree.Parent[i] < 0 {
			continue
		}
		reach := n.Gear.Range
		if reach <= 0 {
			reach = q.Metre(taken.Value)
		}
		lv := level(within(float64(reach), float64(n.Place.Seen.Distance)), finding.Decide)
		if lv != finding.Held && !n.Gear.Aimed {
			lv = finding.Note
		}
		if s := c.subject(i); c.Wants(lv == finding.Held, s.ID) {
			emit(fieldFinding(s, n, reach, taken, lv))
		}
	}
}

func fieldFinding(s finding.Subject, n *network.Node, reach q.Metre, taken Limit, lv finding.Level) finding.Finding {
	g, seen := n.Gear, n.Place.Seen
	f := finding.Finding{Code: "CTL-06", Level: lv, Subject: s, Also: also(seen.Subject), Source: fieldSource,
		Figure: seen.Distance.String(), Limit: "at least " + reach.String()}
	if g.Range <= 0 {
		f.Assumed = append(f.Assumed, "how far "+s.Label+" sees is not known: "+spanOf(taken)+" taken ("+taken.Source.String()+")")
	}
	if g.Aimed && g.Sector <= 0 {
		f.Assumed = append(f.Assumed, "the width of its field is not known: all round taken")
	}
	var w lines
	switch {
	case !g.Aimed:
		w.add("the plan does not say where %s looks: %s is the nearest boundary, %s away", s.Label, seen.Subject.Label, seen.Distance)
	case g.Sector > 0:
		w.add("within its field of %s° %s begins %s away", num(g.Sector, 0), seen.Subject.Label, seen.Distance)
	default:
		w.add("%s begins %s away", seen.Subject.Label, seen.Distance)
	}
	w.add("it sees %s far; walls and fences in between are not looked at", reach)
	f.Working = w.String()
	switch lv {
	case finding.Held:
		f.Text = s.Label + " does not see beyond " + seen.Subject.Label
		return f
	case finding.Note:
		f.Text = s.Label + " sees " + reach.String() + " far and stands " + seen.Distance.String() + " from " + seen.Subject.Label + ": where it looks is not on the plan"
		f.Remedies = []finding.Remedy{{Text: "enter its aim, so that only people on the own ground switch the lamps"}}
		return f
	}
	f.Text = s.Label + " sees beyond " + seen.Subject.Label + ", " + seen.Distance.String() + " away: street or neighbour will switch its lamps"
	f.Remedies = []finding.Remedy{{Text: "turn it away from the boundary"}, {Text: "mask its lens or turn its range down", Figure: "to less than " + seen.Distance.String()}}
	return f
}
