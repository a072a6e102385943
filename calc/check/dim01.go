package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// DIM-01: a dimmed zone with lamps, sources or gear that do not dim. Lamp,
// source and dimmer have to match. Source: maker's data; a public study of
// dimming small LED lamps found most pairings to fail (found).
var dimmableRule = Rule{Code: "DIM-01", Title: "Dimmed zone that does not dim", Run: dimmable}

func dimmable(c *Context, emit func(finding.Finding)) {
	for k := range c.Net.Zones {
		z := &c.Net.Zones[k]
		if !z.Dimmed {
			continue
		}
		f := dimmableFinding(c, z)
		if c.Wants(f.Level == finding.Held, z.ID) {
			emit(f)
		}
	}
}

// unfit sorts what a dimmed zone is made of.
type unfit struct {
	no, open []finding.Subject
}

func (u *unfit) take(a network.Answer, s finding.Subject) {
	switch a {
	case network.No:
		u.no = append(u.no, s)
	case network.Unsaid:
		u.open = append(u.open, s)
	}
}

// dims judges the lamps of a zone, and the sources between them and the gear.
func (c *Context) dims(z *network.LampZone) unfit {
	var u unfit
	s := c.supplied()
	met := make([]bool, len(c.Net.Systems))
	for _, i := range z.Lamps {
		n := &c.Net.Nodes[i]
		u.take(answered(n), c.subject(i))
		p := s.primary[n.System]
		if p < 0 || met[n.System] {
			continue
		}
		met[n.System] = true
		if z.Control < 0 || z.Control != p && s.beyond(p, z.Control) {
			u.take(answered(&c.Net.Nodes[p]), c.subject(p))
		}
	}
	if z.Control >= 0 {
		if g := c.Net.Nodes[z.Control].Gear; g == nil || !g.Dims() {
			u.take(network.Unsaid, c.subject(z.Control))
		}
	}
	return u
}

func answered(n *network.Node) network.Answer {
	if n.Fitting == nil {
		return network.Unsaid
	}
	return n.Fitting.Dimmable
}

func dimmableFinding(c *Context, z *network.LampZone) finding.Finding {
	u := c.dims(z)
	f := finding.Finding{Code: "DIM-01", Level: finding.Held, Subject: zoneSubject(z), Source: makerSource, Also: append(u.no, u.open...),
		Text: "all of " + z.Title() + " is made to be dimmed"}
	var w lines
	w.add("zone %s is dimmed: %d lamps", z.Title(), len(z.Lamps))
	if z.Control < 0 {
		w.add("what dims it is not named, or not in this circuit: sources are taken to be behind it")
	}
	w.add("known not to dim: %d%s", len(u.no), listed(u.no))
	w.add("not known to dim: %d%s", len(u.open), listed(u.open))
	switch {
	case len(u.no) > 0:
		f.Level = finding.Stop
		f.Text = u.no[0].Label + others(len(u.no)-1) + " of the dimmed zone " + z.Title() + " not made to be dimmed"
	case len(u.open) > 0:
		f.Level = finding.Decide
		f.Text = "whether " + u.open[0].Label + others(len(u.open)-1) + " of the dimmed zone " + z.Title() + " can be dimmed is not known"
	}
	if f.Level > finding.Held {
		f.Remedies = []finding.Remedy{{Text: "use lamps, source and dimmer that their makers name for each other"}, {Text: "switch the zone without dimming"}}
	}
	f.Working = w.String()
	return f
}

// listed writes labels, the first ten of them.
func listed(ss []finding.Subject) string {
	out := ""
	for k, s := range ss {
		if k == 10 {
			return out + " …"
		}
		if k == 0 {
			out = ": "
		} else {
			out += ", "
		}
		out += s.Label
	}
	return out
}
