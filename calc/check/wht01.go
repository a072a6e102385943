package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// WHT-01: lamps of different white in one zone, which are seen together. A note
// up to the rule set's spread, a Decide above. Lamps whose colour temperature is
// not known are left out, and the working says so. Source: garden-lighting
// practice, 2700 to 3000 K and not mixed.
var whiteRule = Rule{Code: "WHT-01", Title: "Whites of one zone", Run: white}

func white(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Site.WhiteSpread
	if limit.Value <= 0 {
		return
	}
	g := gather{c: c}
	for z := range c.Net.Zones {
		zone := &c.Net.Zones[z]
		warm, cold := -1, -1
		for _, i := range zone.Lamps {
			k := c.Net.Nodes[i].White
			if k <= 0 || c.Net.Nodes[i].Tail {
				continue
			}
			if warm < 0 || k < c.Net.Nodes[warm].White {
				warm = i
			}
			if cold < 0 || k > c.Net.Nodes[cold].White {
				cold = i
			}
		}
		if warm < 0 {
			continue
		}
		spread := float64(c.Net.Nodes[cold].White - c.Net.Nodes[warm].White)
		s, lv := c.subject(cold), finding.Decide
		switch {
		case spread == 0:
			lv = finding.Held
		case within(spread, limit.Value):
			lv = finding.Note
		}
		if c.Wants(lv == finding.Held, s.ID) {
			g.take(zone.ID, lv, spread, s, func() finding.Finding { return whiteFinding(c, zone, warm, cold, limit, lv) })
		}
	}
	g.flush(emit)
}

func whiteFinding(c *Context, zone *network.LampZone, warm, cold int, limit Limit, lv finding.Level) finding.Finding {
	s := c.subject(cold)
	a, b := float64(c.Net.Nodes[warm].White), float64(c.Net.Nodes[cold].White)
	f := finding.Finding{Code: "WHT-01", Level: lv, Subject: s, Source: limit.Source,
		Figure: num(b-a, 0) + " K apart", Limit: "one white; at most " + num(limit.Value, 0) + " K"}
	var w lines
	for _, i := range zone.Lamps {
		n := &c.Net.Nodes[i]
		switch {
		case n.Tail:
		case n.White <= 0:
			w.add("%s: colour temperature not known, left out", n.Label)
		default:
			w.add("%s: %s K", n.Label, num(float64(n.White), 0))
			if float64(n.White) != b {
				f.Also = append(f.Also, c.subject(i))
			}
		}
	}
	w.add("from %s K to %s K: %s K apart", num(a, 0), num(b, 0), num(b-a, 0))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = "the lamps of " + zone.Title() + " are of one white"
		return f
	}
	f.Text = "the lamps of " + zone.Title() + " are of different whites, " + num(a, 0) + " K to " + num(b, 0) + " K"
	f.Remedies = []finding.Remedy{{Text: "choose one colour temperature for the zone"}, {Text: "switch the two whites in zones of their own"}}
	return f
}
