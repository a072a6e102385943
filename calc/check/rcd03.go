package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// RCD-03: what else goes off when a fault in the garden trips the residual
// device at the board. Damp makes gardens trip; circuits are to be divided so
// that this is of little consequence. Source: BS 7671 314.1, 531.3.2 (from
// memory); the number of circuits is common practice, no source.
var sharedResidualRule = Rule{Code: "RCD-03", Title: "Residual device shared with the house", Run: sharedResidual}

var dividedSource = finding.Source{Standard: "BS 7671:2018", Clause: "314.1, 531.3.2; the number is common practice", Evidence: finding.Memory}

func sharedResidual(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Limits.SharedCircuits
	if limit.Value <= 0 || len(c.Net.Nodes) == 0 {
		return
	}
	take, flush := single(emit)
	board := &c.Net.Nodes[c.Net.Root]
	for k := range board.Devices {
		d := &board.Devices[k]
		if !d.ResidualPart() || d.Delayed {
			continue // a delayed one leaves the fault to those behind it
		}
		f := sharedFinding(c, d)
		if c.Wants(f.Level == finding.Held, f.Subject.ID) {
			take(f)
		}
	}
	flush()
}

// sharers returns how many circuits beside the garden go off with a device at
// the board; known is false when the survey does not say. A device with an
// overcurrent part has one circuit: the garden's own, or the one of the spur.
func sharers(s *network.Supply, d *network.Device) (n float64, known bool) {
	if s.Kind == network.Spur {
		n = 1
	}
	if d.Overcurrent() {
		return n, true
	}
	return n + float64(s.OtherCircuits.Value), s.OtherCircuits.Known
}

func sharedFinding(c *Context, d *network.Device) finding.Finding {
	s, limit := &c.Net.Supply, c.Rules.Limits.SharedCircuits
	n, known := sharers(s, d)
	f := finding.Finding{Code: "RCD-03", Level: finding.Held, Subject: c.supplySubject(), Source: dividedSource,
		Limit: "at most " + num(limit.Value, 0), Text: d.Label + " serves the garden alone"}
	var w lines
	w.add("%s is at the board and has no delay: a fault in the garden opens it", d.Label)
	if s.Kind == network.Spur {
		w.add("the garden is a spur, so the circuit it is taken from goes off as well")
	}
	switch {
	case !known:
		w.add("further circuits behind it: the survey does not say")
	case !d.Overcurrent():
		w.add("further circuits behind it: %s", s.OtherCircuits.Value)
	}
	if known {
		f.Figure = count(int(n), "other circuit", "other circuits")
	}
	own := []finding.Remedy{{Text: "give the garden an RCBO of its own, so that the house stays on when it trips"}}
	switch {
	case s.Shares != "" && (n > 0 || !known):
		w.add("among what goes off: %s", s.Shares)
		f.Level, f.Remedies = finding.Decide, own
		f.Text = "a fault in the garden takes " + s.Shares + " off with it: " + d.Label + " is shared"
	case known && n > limit.Value:
		f.Level, f.Remedies = finding.Decide, own
		f.Text = "a fault in the garden takes " + num(n, 0) + " other circuits off with it: " + d.Label + " is shared"
	case !known:
		f.Level = finding.Note
		f.Text = "how many other circuits " + d.Label + " takes off with a fault in the garden is not known"
		f.Remedies = []finding.Remedy{{Text: "enter the number of other circuits at the supply point"}}
	case n > 0:
		f.Level, f.Remedies = finding.Note, own
		f.Text = "a fault in the garden takes the circuit of the spur off with it: " + d.Label + " is shared"
		if s.Kind != network.Spur {
			f.Text = "a fault in the garden takes another circuit off with it: " + d.Label + " is shared"
		}
	default:
		w.add("nothing else hangs on it: meets the limit")
	}
	f.Working = w.String()
	return f
}
