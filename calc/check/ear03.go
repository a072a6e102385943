package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
)

// EAR-03: the armour of a mains cable is an exposed-conductive-part and must
// be earthed. One end is enough where a core is the protective conductor; that
// the other end was left without a tag is told as a Note. Where the armour is
// that conductor, EAR-02 and EAR-04 speak of the end. Source: BS 7671
// 411.3.1.1 (from memory); that one end does is trade practice.
var armourEarthRule = Rule{Code: "EAR-03", Title: "Armour earthed", Run: armourEarth}

func armourEarth(c *Context, emit func(finding.Finding)) {
	var floating, single []int
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if c.Far(b) < 0 || br.Existing {
			continue
		}
		if br.FromEnd.Shared && br.ToEnd.Shared && !c.Asked(br.ID) {
			continue // the armour is that of the cable it shares
		}
		a := c.earth().ArmourOf(b)
		switch {
		case a.State == protect.NotTraced:
			continue
		case a.State == protect.Parted && beyondBare(c, b):
			// FLT-04 says so.
		case a.State == protect.Parted:
			floating = append(floating, b)
			continue
		case br.Cable.Earth == network.EarthCore && (!a.Near.Joined || !c.openEnd(b) && !a.Far.Joined):
			single = append(single, b)
			continue
		}
		if c.Asked(c.runSubject(b).ID) && a.State != protect.Parted {
			emit(armourFinding(c, []int{b}, b, finding.Held))
		}
	}
	for _, g := range []struct {
		runs []int
		lv   finding.Level
	}{{floating, finding.Stop}, {single, finding.Note}} {
		for k, b := range g.runs {
			if k == 0 || c.Asked(c.runSubject(b).ID) {
				emit(armourFinding(c, g.runs, b, g.lv))
			}
		}
	}
}

// openEnd reports whether the branch ends in the air.
func (c *Context) openEnd(b int) bool { return c.Net.Nodes[c.Far(b)].Kind == network.OpenNode }

// beyondBare reports whether what parts a run from earth is a cable without
// any protective conductor.
func beyondBare(c *Context, b int) bool {
	g, ok := c.earth().Gap(c.Near(b))
	return ok && g.Bare
}

// armourFinding is about the armour of run b, one of several alike.
func armourFinding(c *Context, runs []int, b int, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "EAR-03", Level: lv, Subject: c.runSubject(b), Source: earthedSource}
	var w lines
	for _, r := range runs {
		a := c.earth().ArmourOf(r)
		w.add("%s", c.runSubject(r).Label)
		w.add("  %s: %s", c.subject(c.Near(r)).Label, ending(a.Near, a.NearHolds))
		w.add("  %s: %s", c.subject(c.Far(r)).Label, ending(a.Far, a.FarHolds))
		if r != b {
			f.Also = append(f.Also, c.runSubject(r))
		}
	}
	names := []finding.Subject{f.Subject}
	names = append(names, f.Also...)
	counts := c.fittingsOf()
	switch lv {
	case finding.Stop:
		f.Text = "the armour of " + list(names) + " is not earthed at either end"
		counts.working(&w)
		f.Remedies = []finding.Remedy{counts.tagging()}
	case finding.Note:
		f.Text = "the armour of " + list(names) + " is earthed at one end only"
		w.add("one end is enough where a core is the protective conductor")
	default:
		f.Text = "the armour of " + f.Subject.Label + " is earthed"
	}
	f.Working = w.String()
	return f
}

// ending tells how one end of an armour is earthed.
func ending(j protect.Joint, holds bool) string {
	switch {
	case !j.Joined:
		return j.How
	case !holds:
		return j.How + ", but nothing there leads to the main earth terminal"
	}
	return j.How + ", earthed"
}
