package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// DIG-07: a cable in the ground under a building, where nobody digs again: it can
// be neither reached nor drawn out unless it lies in a duct. Up to half a metre
// is taken for the way through the footing. For extra-low voltage it is a Note.
// Source: common practice, no source.
var underRule = Rule{Code: "DIG-07", Title: "Under a building", Run: under}

// underLeast is how long a stretch under a building is no longer the way in.
const underLeast q.Metre = 0.5

func under(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		way := c.Net.Branches[b].Route
		br, s := &c.Net.Branches[b], c.runSubject(b)
		for k := range way.Stretches {
			st := &way.Stretches[k]
			leg := &br.Legs[st.Leg]
			if st.Ground != "building" || !leg.Dug() || st.Length <= underLeast {
				continue
			}
			lv := finding.Decide
			if c.extraLow(c.Far(b)) {
				lv = finding.Note
			}
			lv = level(leg.Support == network.InDuct, lv)
			if c.Wants(lv == finding.Held, s.ID) {
				g.take(st.Area.ID, lv, float64(st.Length), s, func() finding.Finding { return underFinding(s, st, lv) })
			}
		}
	}
	g.flush(emit)
}

func underFinding(s finding.Subject, st *network.Stretch, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "DIG-07", Level: lv, Subject: s, Also: also(st.Area), Source: finding.Source{Evidence: finding.Practice},
		Figure: st.Length.String() + " in the ground under it", Limit: "in a duct, or at most " + span(underLeast)}
	var w lines
	w.add("leg %d of %s runs %s in the ground under %s", st.Leg+1, s.Label, st.Length, st.Area.Label)
	if lv == finding.Held {
		w.add("it lies in a duct and can be drawn out")
		f.Working, f.Text = w.String(), s.Label+" lies in a duct under "+st.Area.Label
		return f
	}
	w.add("nobody digs there again: it can be neither looked at nor replaced")
	f.Working, f.Text = w.String(), s.Label+" is buried under "+st.Area.Label
	f.Remedies = []finding.Remedy{
		{Text: "take the run round the building"},
		{Text: "lay it in a duct from side to side", Figure: st.Length.String() + " of duct"},
		{Text: "if it runs indoors there, say so at the leg"},
	}
	return f
}
