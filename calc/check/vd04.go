package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// VD-04: a part of the drop ahead of the supply point is not known, so the
// figures of VD-01 leave it out. Source: BS 7671 Appendix 4, 6.4: the limit
// runs from the origin of the installation.
var upstreamDropRule = Rule{Code: "VD-04", Title: "Drop ahead of the supply point not known", Run: upstreamDrop}

func upstreamDrop(c *Context, emit func(finding.Finding)) {
	i := c.plan.supply
	if i < 0 {
		return
	}
	s := &c.Net.Supply
	var missing []string
	if b := c.Tree.Parent[i]; b >= 0 && c.Net.Branches[b].Cable == nil {
		missing = append(missing, "the cable and the length of the indoor leg")
	}
	if s.Kind == network.Spur && !s.ExistingLoad.Known {
		missing = append(missing, "the other load on the existing circuit")
	}
	if len(missing) == 0 {
		return
	}
	var w lines
	w.add("drop at a lamp = drop from the board to %s + drop from there", c.supplySubject().Label)
	text, besides := "", ""
	for k, m := range missing {
		if k > 0 {
			text += " and "
		}
		text += m
		w.add("not known, taken as nothing: %s", m)
	}
	if s.Kind == network.Spur && !s.ExistingLoad.Known {
		besides = "; so the load of the device at the board is not proved either"
		w.add("Ib of the device at the board holds the garden alone")
	}
	remedies := []finding.Remedy{{Text: "find out on site: " + text}}
	if at, left, ok := c.dropLeft(); ok {
		w.add("left ahead of it until VD-01 turns at %s: %s", c.subject(at).Label, left)
		remedies[0].Figure = "up to " + left.String() + " may be lost there before VD-01 turns at " + c.subject(at).Label
	}
	emit(finding.Finding{Code: "VD-04", Remedies: remedies, Level: finding.Note, Subject: c.supplySubject(),
		Text:    "not known, so left out of the volt drop: " + text + besides,
		Source:  c.Rules.Limits.LightingDrop.Source,
		Working: w.String(),
		Assumed: []string{text + ": taken as nothing"},
	})
}

// dropLeft returns the mains consumer with the least volts left of its drop, and
// those volts; ok is false where the volts are no answer.
func (c *Context) dropLeft() (at int, left q.Volt, ok bool) {
	if !c.Trusted() {
		return 0, 0, false
	}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.System != 0 || !Consumer(n) || c.Tree.Parent[i] < 0 || n.Doubtful {
			continue
		}
		ratio, _ := c.DropLimit(i)
		if v := q.Volt(ratio)*c.Net.Systems[0].Nominal - c.Drop(i); ratio > 0 && (!ok || v < left) {
			at, left, ok = i, v, true
		}
	}
	return at, max(left, 0), ok
}
