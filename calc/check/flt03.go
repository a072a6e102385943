package check

import (
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// FLT-03: a part of the fault loop is not known, so nothing is proved. Source:
// BS 7671 411.3.2, 411.4.4, 411.5.3: disconnection has to be shown.
var loopUnknownRule = Rule{Code: "FLT-03", Title: "Fault loop not known", Run: loopUnknown}

var disconnectSource = finding.Source{Standard: "BS 7671:2018", Clause: "411.3.2", Evidence: finding.Memory}

// gap is what is not known at one point, with the points beyond that lack the
// same.
type gap struct {
	at      finding.Subject
	missing []string
	also    []finding.Subject
}

func loopUnknown(c *Context, emit func(finding.Finding)) {
	var gaps []gap
	if c.plan.supply >= 0 && c.Net.Supply.Earthing == network.EarthingUnknown {
		gaps = append(gaps, gap{at: c.supplySubject(), missing: []string{"the earthing arrangement (TN-S, TN-C-S or TT)"}})
	}
	// One finding for each point where something more is missing, nearest the
	// supply first, so that code and subject name a finding.
	seen := map[string]int{}
	for _, i := range c.Tree.Order {
		l := &c.Loops[i]
		if !l.Applies || l.Known || l.Broken >= 0 || c.Tree.Parent[i] < 0 {
			continue
		}
		s := c.subject(i)
		if k, ok := seen[l.Missing]; ok {
			gaps[k].also = append(gaps[k].also, s)
			continue
		}
		k := 0
		for k < len(gaps) && gaps[k].at != s {
			k++
		}
		if k == len(gaps) {
			gaps = append(gaps, gap{at: s})
		}
		gaps[k].missing = append(gaps[k].missing, l.Missing)
		seen[l.Missing] = k
	}
	for _, g := range gaps {
		emit(unknownFinding(g.at, strings.Join(g.missing, "; and "), g.also))
	}
}

func unknownFinding(s finding.Subject, missing string, also []finding.Subject) finding.Finding {
	var w lines
	w.add("Zs = loop at the supply point + (R1+R2) of the runs")
	w.add("not known: %s", missing)
	w.add("so no loop can be compared with what the device allows")
	cure := "measure it and enter it at the supply point"
	if strings.HasPrefix(missing, "the cable") {
		cure = "enter the cable and its length, or a loop measured at the supply point"
	}
	if strings.Contains(missing, "not separated") {
		cure = "use a separated source (SELV), which needs no loop (SRC-03)"
	}
	return finding.Finding{Code: "FLT-03", Level: finding.Stop, Subject: s, Also: also,
		Text:   "the fault loop is not known: missing is " + missing,
		Source: disconnectSource, Working: w.String(),
		Remedies: []finding.Remedy{{Text: cure}},
	}
}
