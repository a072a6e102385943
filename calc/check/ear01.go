package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// EAR-01: class I lamps outdoors on a TN-C-S supply. If the supplier's neutral
// breaks, everything earthed rises above true earth, out there underfoot. It
// is argued among competent people; the electrician decides. Source: BS 7671
// 411.4.2 note (from memory).
var earthingRule = Rule{Code: "EAR-01", Title: "Class I lamp outdoors on TN-C-S", Run: earthing}

var earthingSource = finding.Source{Standard: "BS 7671:2018", Clause: "411.4.2 note", Evidence: finding.Memory}

func earthing(c *Context, emit func(finding.Finding)) {
	if c.Net.Supply.Earthing != network.TNCS {
		return
	}
	nodeFindings(c, emit, func(int) int { return 0 },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			return 1, n.Class != network.ClassI, n.Kind == network.LampNode && n.System == 0 && c.Tree.Parent[i] >= 0
		},
		func(i int) finding.Finding { return earthingFinding(c, i) })
}

func earthingFinding(c *Context, i int) finding.Finding {
	n, s := &c.Net.Nodes[i], c.subject(i)
	held := n.Class != network.ClassI
	f := finding.Finding{Code: "EAR-01", Level: level(held, finding.Decide), Subject: s, Source: earthingSource, Figure: "class " + n.Class.String()}
	var w lines
	w.add("supply: %s, the protective conductor is joined to the supplier's neutral", c.Net.Supply.Earthing)
	w.add("%s is class %s", s.Label, n.Class)
	if held {
		f.Text = s.Label + " has no metalwork on the supply's earth"
		w.add("nothing of it is joined to the supply's earth")
		f.Working = w.String()
		return f
	}
	w.add("if the supplier's neutral breaks, the metal of %s stands above true earth whatever the loop impedance", s.Label)
	f.Working = w.String()
	f.Text = s.Label + " is class I, outdoors, on a TN-C-S supply: decide the earthing"
	f.Remedies = []finding.Remedy{
		{Text: "use class II lamps, or 12 V from a separated source"},
		{Text: "give the garden an electrode of its own (TT) with a residual device, its armour kept apart from the house earth"},
	}
	return f
}
