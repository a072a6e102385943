package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// WHT-01: lamps of different white in one zone, which are seen together. A note
// up to the rule set's spread, a Decide above. Lamps whose colour temperature is
// not known are left out, and the working says so. A zone with lamps in more than
// one circuit is judged as a whole by Whites. Source: garden-lighting
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
		if zone.Apart {
			continue
		}
		whites := ZoneWhites{Title: zone.Title()}
		whites.Add(c.Net, zone)
		warm, cold := whites.ends()
		if warm < 0 {
			continue
		}
		spread, s, lv := whites.spread(warm, cold), whites.Lamps[cold].Subject, whites.level(limit)
		if c.Wants(lv == finding.Held, s.ID) {
			g.take(zone.ID, lv, spread, s, func() finding.Finding { return whites.finding(limit) })
		}
	}
	g.flush(emit)
}

// ZoneWhites are the lamps of one zone with their colour temperatures.
type ZoneWhites struct {
	Title string
	Lamps []WhiteLamp
}

// WhiteLamp is one of them; 0 K is not known.
type WhiteLamp struct {
	finding.Subject
	White q.Kelvin
}

// Add takes in the lamps of a zone of one circuit.
func (z *ZoneWhites) Add(n *network.Net, zone *network.LampZone) {
	for _, i := range zone.Lamps {
		if node := &n.Nodes[i]; !node.Tail {
			z.Lamps = append(z.Lamps, WhiteLamp{finding.Subject{ID: node.ID, Label: node.Label}, node.White})
		}
	}
}

// Whites judges a zone whose lamps hang on several circuits: WHT-01 over the
// whole scheme. ok is false when there is nothing to report.
func Whites(z ZoneWhites, rules *Rules) (f finding.Finding, ok bool) {
	limit := rules.Site.WhiteSpread
	if warm, _ := z.ends(); warm < 0 || limit.Value <= 0 || z.level(limit) == finding.Held {
		return f, false
	}
	return z.finding(limit), true
}

// ends are the warmest and the coldest lamp, the first of equal ones; -1 when no
// colour temperature is known.
func (z *ZoneWhites) ends() (warm, cold int) {
	warm, cold = -1, -1
	for i, l := range z.Lamps {
		if l.White <= 0 {
			continue
		}
		if warm < 0 || l.White < z.Lamps[warm].White {
			warm = i
		}
		if cold < 0 || l.White > z.Lamps[cold].White {
			cold = i
		}
	}
	return warm, cold
}

func (z *ZoneWhites) spread(warm, cold int) float64 {
	return float64(z.Lamps[cold].White - z.Lamps[warm].White)
}

func (z *ZoneWhites) level(limit Limit) finding.Level {
	switch spread := z.spread(z.ends()); {
	case spread == 0:
		return finding.Held
	case within(spread, limit.Value):
		return finding.Note
	}
	return finding.Decide
}

func (z *ZoneWhites) finding(limit Limit) finding.Finding {
	warm, cold := z.ends()
	lv := z.level(limit)
	s := z.Lamps[cold].Subject
	a, b := float64(z.Lamps[warm].White), float64(z.Lamps[cold].White)
	f := finding.Finding{Code: "WHT-01", Level: lv, Subject: s, Source: limit.Source,
		Figure: num(b-a, 0) + " K apart", Limit: "one white; at most " + num(limit.Value, 0) + " K"}
	var w lines
	for _, l := range z.Lamps {
		if l.White <= 0 {
			w.add("%s: colour temperature not known, left out", l.Label)
			continue
		}
		w.add("%s: %s K", l.Label, num(float64(l.White), 0))
		if float64(l.White) != b {
			f.Also = append(f.Also, l.Subject)
		}
	}
	w.add("from %s K to %s K: %s K apart", num(a, 0), num(b, 0), num(b-a, 0))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = "the lamps of " + z.Title + " are of one white"
		return f
	}
	f.Text = "the lamps of " + z.Title + " are of different whites, " + num(a, 0) + " K to " + num(b, 0) + " K"
	f.Remedies = []finding.Remedy{{Text: "choose one colour temperature for the zone"}, {Text: "switch the two whites in zones of their own"}}
	return f
}
