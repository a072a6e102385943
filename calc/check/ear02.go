package check

import (
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/protect"
)

// EAR-02: the way from the metal of a class I lamp, a metal source case or a
// metal box to the main earth terminal is broken at an armour that is not
// joined. The figure of the loop may be good all the same; without the joint
// there is no loop. Source: BS 7671 411.3.1.1 (from memory).
var earthPathRule = Rule{Code: "EAR-02", Title: "Earth path of exposed metal", Run: earthPath}

var earthedSource = finding.Source{Standard: "BS 7671:2018", Clause: "411.3.1.1", Evidence: finding.Memory}

func earthPath(c *Context, emit func(finding.Finding)) {
	for _, k := range c.cuts() {
		if len(k.metal) == 0 {
			continue
		}
		emit(brokenPath(c, k, k.metal[0]))
		for _, i := range k.metal[1:] {
			if c.Asked(c.subject(i).ID) {
				emit(brokenPath(c, k, i))
			}
		}
	}
	if c.Explain == "" {
		return
	}
	for _, p := range c.earth().Parts() {
		if p.Kind != protect.ArmourPiece && c.Asked(c.subject(p.Node).ID) {
			explainPath(c, p, emit)
		}
	}
}

// brokenPath is the finding about one break, told from node i beyond it.
func brokenPath(c *Context, k *cut, i int) finding.Finding {
	at := c.subject(k.gap.Node)
	f := finding.Finding{Code: "EAR-02", Level: finding.Stop, Subject: c.subject(i), Source: earthedSource}
	if at.ID != f.Subject.ID {
		f.Also = append(f.Also, at)
	}
	f.Also = append(append(f.Also, c.runSubject(k.gap.Branch)), c.subjects(without(k.metal, i))...)
	var w lines
	pathWorking(c, &w, i)
	if steps := c.earth().Path(i); len(steps) > 0 && !strings.Contains(steps[len(steps)-1], k.gap.Why) {
		w.add("  and nearer the supply: %s", k.gap.Why)
	}
	w.add("no earth: %s", list(c.subjects(k.metal)))
	counts := c.fittingsOf()
	counts.working(&w)
	f.Working = w.String()
	have := " have"
	if len(k.metal) == 1 {
		have = " has"
	}
	f.Text = list(c.subjects(k.metal)) + have + " no earth: " + k.gap.Why + ", and the path breaks there"
	f.Remedies = append([]finding.Remedy{counts.tagging()}, coreInstead(c, k.gap.Branch)...)
	return f
}

// explainPath shows the whole path of metal that is earthed, or why that is
// not settled here.
func explainPath(c *Context, p protect.Part, emit func(finding.Finding)) {
	s := c.subject(p.Node)
	switch p.State {
	case protect.Whole:
		var w lines
		pathWorking(c, &w, p.Node)
		emit(finding.Finding{Code: "EAR-02", Level: finding.Held, Subject: s, Source: earthedSource,
			Text: "the metal of " + s.Label + " has a path to the main earth terminal", Working: w.String()})
	case protect.Unsurveyed:
		var w lines
		pathWorking(c, &w, p.Node)
		f := unproved("EAR-02", s, "a cable on the earth path of "+s.Label+" is not known")
		f.Working = w.String()
		emit(f)
	case protect.Parted:
		if g, _ := c.earth().Gap(p.Node); g.Bare {
			var w lines
			pathWorking(c, &w, p.Node)
			f := unproved("EAR-02", s, g.Why+", see FLT-04")
			f.Working = w.String()
			emit(f)
		}
	}
}
