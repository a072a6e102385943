package check

import (
	"duskwire/calc/finding"
)

// EAR-04: the protective conductor does not arrive at a class II lamp or
// source, because an armour that should carry it is not joined. It has to be
// run to every point all the same: tomorrow's lamp may be class I. Source:
// BS 7671 411.3.1.1, 412.2.3.2 (from memory). A cable without any protective
// conductor is FLT-04.
var carriedRule = Rule{Code: "EAR-04", Title: "Protective conductor carried to class II points", Run: carried}

var carriedSource = finding.Source{Standard: "BS 7671:2018", Clause: "411.3.1.1, 412.2.3.2", Evidence: finding.Memory}

func carried(c *Context, emit func(finding.Finding)) {
	for _, k := range c.cuts() {
		nodes := k.other
		if len(nodes) == 0 && len(k.metal) == 0 {
			nodes = k.rest
		}
		for n, i := range nodes {
			if n == 0 || c.Asked(c.subject(i).ID) {
				emit(carriedFinding(c, k, nodes, i))
			}
		}
	}
}

func carriedFinding(c *Context, k *cut, nodes []int, i int) finding.Finding {
	at := c.subject(k.gap.Node)
	f := finding.Finding{Code: "EAR-04", Level: finding.Decide, Subject: c.subject(i), Source: carriedSource}
	if at.ID != f.Subject.ID {
		f.Also = append(f.Also, at)
	}
	f.Also = append(append(f.Also, c.runSubject(k.gap.Branch)), c.subjects(without(nodes, i))...)
	var w lines
	pathWorking(c, &w, i)
	w.add("beyond the break, without exposed metal: %s", list(c.subjects(nodes)))
	counts := c.fittingsOf()
	counts.working(&w)
	f.Working = w.String()
	f.Text = "the protective conductor does not reach " + list(c.subjects(nodes)) + ": " + k.gap.Why +
		"; it has to be run there even to class II equipment"
	f.Remedies = append([]finding.Remedy{counts.tagging()}, coreInstead(c, k.gap.Branch)...)
	return f
}
