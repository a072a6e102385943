package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// DIG-02: a cable that lies below the digging depth, but so little that the
// next spit reaches it. For extra-low voltage without a duct it is a Note.
// Source: common practice, no source.
var spadeRule = Rule{Code: "DIG-02", Title: "Within reach of the spade", Run: spade}

func spade(c *Context, emit func(finding.Finding)) {
	clear := c.Rules.Site.DigClear
	if clear.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		br, s := &c.Net.Branches[b], c.runSubject(b)
		low := c.extraLow(c.Far(b))
		for k := range way.Stretches {
			st := &way.Stretches[k]
			leg := &br.Legs[st.Leg]
			gap := leg.Depth - st.Dig
			if !leg.Dug() || st.Dig <= 0 || hidden(st.Ground) || st.Length < short || gap < 0 || low && guarded(br, leg) {
				continue
			}
			lv := finding.Decide
			if low {
				lv = finding.Note
			}
			lv = level(within(clear.Value, float64(gap)), lv)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(st.Area.ID, lv, -float64(gap), s, func() finding.Finding { return spadeFinding(s, leg, st, clear, lv) })
			}
		}
	}
	g.flush(emit)
}

func spadeFinding(s finding.Subject, leg *network.Leg, st *network.Stretch, clear Limit, lv finding.Level) finding.Finding {
	gap := leg.Depth - st.Dig
	f := finding.Finding{Code: "DIG-02", Level: lv, Subject: s, Also: also(st.Area), Source: clear.Source,
		Figure: span(gap), Limit: "at least " + spanOf(clear)}
	var w lines
	w.add("leg %d of %s, %s through %s", st.Leg+1, s.Label, st.Length, over(st))
	w.add("depth %s less digging %s = %s, at least %s", span(leg.Depth), span(st.Dig), span(gap), spanOf(clear))
	f.Working, f.Assumed = w.String(), usualDig(st)
	if lv == finding.Held {
		f.Text = s.Label + " keeps clear of the digging in " + over(st)
		return f
	}
	f.Text = s.Label + " lies only " + span(gap) + " below the digging in " + over(st)
	f.Remedies = []finding.Remedy{
		{Text: "lay it deeper", Figure: span(q.Metre(clear.Value)-gap) + " more over " + st.Length.String()},
		{Text: "put covers over it and record why"},
	}
	return f
}
