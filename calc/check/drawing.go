package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// drawn is how one kind of flaw of the drawing is reported.
type drawn struct {
	kind  network.FaultKind
	code  finding.Code
	level finding.Level
	title string
	text  string // when the fault carries no detail
}

// flaws are the codes CIR-01 to CIR-10. That a lamp must be connected and a
// run must end somewhere needs no standard.
var flaws = []drawn{
	{network.LooseLamp, "CIR-01", finding.Stop, "Lamp connected to no supply", "the lamp is connected to no supply"},
	{network.LooseOther, "CIR-02", finding.Stop, "Box, gear or source connected to no supply", "connected to no supply"},
	{network.OpenEnd, "CIR-03", finding.Stop, "Run that ends in the air", "the run ends in the air"},
	{network.LoopClosed, "CIR-04", finding.Stop, "Run that closes a loop", "the run closes a loop; it is left out of the figures"},
	{network.WrongVoltage, "CIR-05", finding.Stop, "Lamp, source or cable on the wrong voltage", "not made for the voltage of this circuit"},
	{network.NoSupply, "CIR-06", finding.Stop, "No supply point", "the drawing has no supply point"},
	{network.SecondSupply, "CIR-07", finding.Stop, "Two supply points joined", "two supply points are joined"},
	{network.NoCable, "CIR-08", finding.Stop, "No cable chosen", "no cable is chosen for this run"},
	{network.NothingBeyond, "CIR-09", finding.Note, "Feeds no lamp", "feeds no lamp"},
	{network.ScaleUnchecked, "CIR-10", finding.Note, "Scale of the plan not checked", "the scale of the plan was not checked against a known dimension, so every length rests on it"},
}

// drawingRules returns one rule for each kind of flaw.
func drawingRules() []Rule {
	out := make([]Rule, 0, len(flaws))
	for _, d := range flaws {
		out = append(out, Rule{Code: d.code, Title: d.title, Run: func(c *Context, emit func(finding.Finding)) {
			for _, f := range c.Net.Faults {
				if f.Kind == d.kind {
					emit(d.report(f))
				}
			}
			if d.kind == network.LoopClosed {
				closedLoops(c, d, emit)
			}
		}})
	}
	return out
}

// Flaw returns the finding about one flaw of the drawing. An unknown kind is
// our bug and panics.
func Flaw(f network.Fault) finding.Finding {
	for _, d := range flaws {
		if d.kind == f.Kind {
			return d.report(f)
		}
	}
	panic("check: unknown kind of flaw")
}

func (d drawn) report(f network.Fault) finding.Finding {
	text := f.Detail
	if text == "" {
		text = d.text
		if f.Subject.Label != "" {
			text = f.Subject.Label + ": " + text
		}
	}
	return finding.Finding{
		Code: d.code, Level: d.level, Subject: f.Subject, Also: f.Also, Text: text,
		Source:  finding.Source{Evidence: finding.Practice},
		Working: "read from the drawing: " + text, Remedies: redraw(f.Kind),
	}
}

// redraw says what to do on the plan about a flaw.
func redraw(k network.FaultKind) []finding.Remedy {
	text := ""
	switch k {
	case network.LooseLamp, network.LooseOther:
		text = "draw a run to it from the supply point, a box or another lamp, or delete it"
	case network.OpenEnd:
		text = "draw the run again so that it ends on a lamp, a box, gear or a source, or delete it"
	case network.LoopClosed:
		text = "delete one of the runs of the loop"
	case network.WrongVoltage:
		text = "choose a fitting or cable for this voltage, or feed it from another source"
	case network.NoSupply:
		text = "place the supply point"
	case network.SecondSupply:
		text = "feed each part from one supply point only"
	case network.NoCable:
		text = "choose a cable for the run"
	default:
		return nil
	}
	return []finding.Remedy{{Text: text}}
}

// closedLoops reports branches that the tree left out and no fault names.
func closedLoops(c *Context, d drawn, emit func(finding.Finding)) {
	for _, b := range c.Tree.Closed {
		if c.Closing(b) {
			continue // CIR-11
		}
		s := c.runSubject(b)
		known := false
		for _, f := range c.Net.Faults {
			known = known || (f.Kind == network.LoopClosed && f.Subject.ID == s.ID)
		}
		if !known {
			emit(d.report(network.Fault{Kind: d.kind, Subject: s}))
		}
	}
}
