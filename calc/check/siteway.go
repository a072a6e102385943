package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// span writes a short length as people say it: millimetres below a metre.
func span(m q.Metre) string {
	if math.Abs(float64(m)) < 1 {
		return num(float64(m)*1e3, 0) + " mm"
	}
	return m.String()
}

// spanOf writes the value of a limit that is a length.
func spanOf(l Limit) string { return span(q.Metre(l.Value)) }

// ways returns the branches that are runs with a way on the plan and whose
// laying is ours to prove.
func (c *Context) ways() []int {
	c.prepare()
	if p := c.plan; p.ways == nil {
		p.ways = make([]int, 0, len(c.Net.Branches))
		for b := range c.Net.Branches {
			if br := &c.Net.Branches[b]; br.Route != nil && br.ID != "" && c.Ours(b) {
				p.ways = append(p.ways, b)
			}
		}
	}
	return c.plan.ways
}

// extraLow reports whether a node stands on extra-low voltage, behind a source
// of at most 50 V.
func (c *Context) extraLow(node int) bool {
	n := &c.Net.Nodes[node]
	limit := c.Rules.Site.ExtraLow.Value
	if limit <= 0 {
		limit = 50
	}
	return n.System != 0 && within(float64(c.Net.Systems[n.System].Nominal), limit)
}

// guarded reports whether something harder than its sheath is about the cable.
func guarded(br *network.Branch, l *network.Leg) bool {
	return br.Armoured() || l.Sleeve || l.Support == network.InDuct
}

// hidden are kinds of ground under which nobody digs.
func hidden(ground string) bool { return ground == "building" || ground == "water" }

// worked are kinds of ground that are dug over or driven on.
func worked(ground string) bool {
	return ground == "border" || ground == "dug bed" || ground == "drive"
}

// over names the ground of a stretch in a sentence.
func over(st *network.Stretch) string {
	if st.Ground == "" {
		return "ground that nobody drew"
	}
	return st.Ground + " " + st.Area.Label
}

// also returns the area of a stretch as a further subject.
func also(s finding.Subject) []finding.Subject {
	if s.ID == "" && s.Label == "" {
		return nil
	}
	return []finding.Subject{s}
}

// short are stretches too short to lay anything differently: where a run ends
// on the edge of a bed, or a rounding.
const short q.Metre = 0.01
