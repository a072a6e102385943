package panel

import (
	"strings"

	"duskwire/calc"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// explained keeps the checks of one entity while its figures are looked at.
type explained struct {
	seq  uint64
	id   doc.ID
	list []finding.Finding
}

// explain returns every check made of the subject, worked out once a frame.
func (s *subject) explain() []finding.Finding {
	if s.checks.seq != s.frame.Seq || s.checks.id != s.id {
		s.checks = explained{s.frame.Seq, s.id, s.desk.Explain(s.id)}
	}
	return s.checks.list
}

// why is the tip of a figure: the working of the first of the checks that comes
// to it, and else what is said here.
func (s *subject) why(figure string, otherwise Tip, codes ...finding.Code) Tip {
	return whyIn(s.explain(), figure, otherwise, codes...)
}

// whyIn looks in a list of checks for the working that comes to a figure.
func whyIn(list []finding.Finding, figure string, otherwise Tip, codes ...finding.Code) Tip {
	for _, code := range codes {
		for i := range list {
			f := &list[i]
			if f.Code == code && f.Working != "" && strings.Contains(f.Figure+"\n"+f.Working, figure) {
				return tipOf(f)
			}
		}
	}
	return otherwise
}

// solved is where figures of the solved circuit come from.
const solved = "From the circuit as it was solved with the tables of the stock book"

// whyPoint are the tips of the figures at a point, by their captions.
var whyPoint = map[string]func(*subject, calc.Point) Tip{
	"Voltage": func(s *subject, p calc.Point) Tip {
		other := Tip{Head: "Voltage there", Working: p.Nominal.String() + " - " + p.Drop.String() + " = " + p.Voltage.String(), Source: solved}
		if p.Drive > 0 {
			other = Tip{Head: "Voltage in the string", Working: "the string carries " + milliamps(p.Drive) + "; its volts follow from its lamps and cables", Source: solved}
		}
		return s.why(p.Voltage.String(), other, "VD-01", "VD-02", "VD-03")
	},
	"Volt drop": func(s *subject, p calc.Point) Tip {
		other := Tip{Head: "Volt drop", Working: "drop = Σ mΩ/m × A × m, cable by cable\nshare = " + p.Drop.String() + " / " + p.Nominal.String() + " = " + q.Percent(p.DropRatio), Source: solved}
		return s.why(q.Percent(p.DropRatio), other, "VD-01", "VD-02")
	},
	"Current": func(s *subject, p calc.Point) Tip {
		other := Tip{Head: "Current through this point", Working: "its own load and all that is beyond it: " + p.Current.String(), Source: solved}
		return s.why(p.Current.String(), other, "CAP-01")
	},
	"Fault loop":      whyLoop,
	"Largest allowed": whyLoop,
	"Meter, cold": func(s *subject, p calc.Point) Tip {
		return Tip{Head: "What a tester should read with everything at 20 °C",
			Working: "Zs cold = loop at the supply point + R1+R2\n" + p.Loop.StartCold.String() + " + " + p.Loop.R1R2Cold.String() + " = " + p.Loop.Cold.String(), Source: solved}
	},
	"R1+R2, cold": func(s *subject, p calc.Point) Tip {
		return Tip{Head: "Line and protective conductor from the supply point to here",
			Working: "R1+R2 = Σ (R1+R2) per metre at 20 °C × m = " + p.Loop.R1R2Cold.String(), Source: solved}
	},
}

// whyLoop is the tip of the fault loop and of what it may be.
func whyLoop(s *subject, p calc.Point) Tip {
	other := Tip{Head: "Fault loop not known", Working: p.Loop.Missing}
	if p.Loop.Known {
		other = Tip{Head: "Fault loop, hot", Working: "Zs = loop at the supply point + R1+R2 hot\n" +
			p.Loop.Start.String() + " + " + p.Loop.R1R2Hot.String() + " = " + p.Loop.Hot.String(), Source: solved}
		return s.why(p.Loop.Hot.String(), other, "FLT-01", "FLT-02", "FLT-05")
	}
	return other
}

// whyRoom says what a figure of the room that is left means.
func whyRoom(what string) Tip {
	return Tip{Head: "Room left: " + lower(what),
		Working: "found by adding to what is drawn until a check turns,\nwith everything else as it is; it errs to the short side", Source: "Derived from the checks of the rule set"}
}

// whyCurrent and whyCapacity are the tips of the figures of a run.
func whyCurrent(s *subject, r calc.Run) Tip {
	other := Tip{Head: "Current in this run", Working: "everything that it feeds: " + r.Current.String(), Source: solved}
	return s.why(r.Current.String(), other, "CAP-02", "VD-01", "VD-02", "ELV-01")
}

func whyCapacity(s *subject, r calc.Run) Tip {
	if !r.Capacity.Known {
		return Tip{Head: "Capacity not known", Working: r.Capacity.Missing}
	}
	other := Tip{Head: "Current-carrying capacity as laid", Working: "Iz = It × factors of the worst leg = " + r.Capacity.Iz.String(), Source: "Tables of the stock book"}
	return s.why(r.Capacity.Iz.String(), other, "CAP-02", "ELV-01")
}

// lengthSource is where the parts of a length come from.
const lengthSource = "Plan and heights as drawn; tails, slack and waste as entered, else the usual allowances (common practice, no source)"

// lengthTip is how the length of a run is reached.
func lengthTip(l derive.Length) Tip {
	return Tip{Head: l.Tag + "  ·  needed " + l.Needed.String() + ", cut " + l.Cut.String(),
		Working: "needed = (plan + rises + tails + slack) × (1 + waste)\n= (" + l.Plan.String() + " + " + l.Rises.String() + " + " + l.Tails.String() + " + " + l.Slack.String() +
			") × (1 + " + q.Percent(l.Waste) + ")\n= " + l.Needed.String() + "\ncut: that, rounded up to 0.5 m, or as entered: " + l.Cut.String(), Source: lengthSource}
}

// totalsTip says how the totals of the bottom line are reached.
func totalsTip(f *layout.Frame, full string, explain func(doc.ID) []finding.Finding) Tip {
	t := f.Totals
	lines := []string{
		"load: what the lamps take, circuit by circuit: " + t.Load.String(),
		"cable: cut lengths of " + count(len(f.Circuits.Lengths), "run", "runs") + ": " + t.Cable.String(),
	}
	if t.DropAt != "" {
		lines = append(lines, "worst drop: the largest share of the nominal voltage at a lamp")
		if e := doc.WithTag(f.Scheme, t.DropAt); e != nil && explain != nil {
			if w := whyIn(explain(e.Key()), q.Percent(t.WorstDrop), Tip{}, "VD-01", "VD-02").Working; w != "" {
				lines = append(lines, w)
			}
		}
	}
	if t.LoopAt != "" {
		lines = append(lines, "tightest loop: nearest its limit: "+t.WorstLoop.String()+" at "+t.LoopAt)
	}
	rest := ""
	if t.DropAt != "" {
		rest = "under Working of " + t.DropAt
	}
	return Tip{Head: full, Working: strings.Join(lines, "\n"), Rest: rest}.of(f)
}

// lower makes a caption read on after a colon.
func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

func count(n int, one, many string) string { return q.Count(n).String() + " " + plural(n, one, many) }
