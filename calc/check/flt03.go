package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// FLT-03: a part of the fault loop is not known, so nothing is proved. Source:
// BS 7671 411.3.2, 411.4.4, 411.5.3: disconnection has to be shown.
var loopUnknownRule = Rule{Code: "FLT-03", Title: "Fault loop not known", Run: loopUnknown}

var disconnectSource = finding.Source{Standard: "BS 7671:2018", Clause: "411.3.2", Evidence: finding.Memory}

func loopUnknown(c *Context, emit func(finding.Finding)) {
	if c.plan.supply >= 0 && c.Net.Supply.Earthing == network.EarthingUnknown {
		emit(unknownFinding(c, c.supplySubject(), "the earthing arrangement (TN-S, TN-C-S or TT)", nil))
	}
	// One finding for each thing missing, at the point nearest the supply.
	var missing []string
	var at [][]int
	for _, i := range c.Tree.Order {
		l := &c.Loops[i]
		if !l.Applies || l.Known || l.Broken >= 0 || c.Tree.Parent[i] < 0 {
			continue
		}
		k := 0
		for k < len(missing) && missing[k] != l.Missing {
			k++
		}
		if k == len(missing) {
			missing, at = append(missing, l.Missing), append(at, nil)
		}
		at[k] = append(at[k], i)
	}
	for k, m := range missing {
		var also []finding.Subject
		for _, i := range at[k][1:] {
			also = append(also, c.subject(i))
		}
		emit(unknownFinding(c, c.subject(at[k][0]), m, also))
	}
}

func unknownFinding(c *Context, s finding.Subject, missing string, also []finding.Subject) finding.Finding {
	var w lines
	w.add("Zs = loop at the supply point + (R1+R2) of the runs")
	w.add("not known: %s", missing)
	w.add("so no loop can be compared with what the device allows")
	return finding.Finding{Code: "FLT-03", Level: finding.Stop, Subject: s, Also: also,
		Text:   "the fault loop is not known: missing is " + missing,
		Source: disconnectSource, Working: w.String(),
		Remedies: []finding.Remedy{{Text: "measure it and enter it at the supply point"}},
	}
}
