package check

import (
	"duskwire/calc/cable"
	"duskwire/calc/finding"
)

// FLT-04: a run without protective conductor on the way to a mains point. The
// conductor is run to every point even where today's lamp is class II. Source:
// BS 7671 411.3.1.1, 412.2.3.2.
var protectivePathRule = Rule{Code: "FLT-04", Title: "No protective conductor on the path", Run: protectivePath}

func protectivePath(c *Context, emit func(finding.Finding)) {
	var runs []int
	var beyond [][]int
	for _, i := range c.Tree.Order {
		l := &c.Loops[i]
		if !l.Applies || l.Broken < 0 || l.Gap != "" { // an armour not joined is EAR-02 to 04
			continue
		}
		k := 0
		for k < len(runs) && runs[k] != l.Broken {
			k++
		}
		if k == len(runs) {
			runs, beyond = append(runs, l.Broken), append(beyond, nil)
		}
		beyond[k] = append(beyond[k], i)
	}
	for k, b := range runs {
		br := &c.Net.Branches[b]
		f := finding.Finding{Code: "FLT-04", Level: finding.Stop, Subject: c.runSubject(b),
			Source: finding.Source{Standard: "BS 7671:2018", Clause: "411.3.1.1", Evidence: finding.Memory}}
		for _, i := range beyond[k] {
			f.Also = append(f.Also, c.subject(i))
		}
		name := "its cable"
		if br.Cable != nil {
			name = br.Cable.Name
		}
		var w lines
		w.add("path of a fault to earth, from %s back to the supply:", c.subject(beyond[k][0]).Label)
		for _, t := range c.trail(beyond[k][0]) {
			has := "broken here: no protective core and no armour"
			if cb := c.Net.Branches[t].Cable; cb == nil {
				has = "cable not known"
			} else if _, ok := c.HotPerMetre(cb); ok {
				has = "has one"
			}
			w.add("  %s: %s", c.runSubject(t).Label, has)
		}
		f.Working = w.String()
		f.Text = c.runSubject(b).Label + " (" + name + ") has no protective conductor; a fault beyond it finds no path back"
		f.Remedies = append(earthedCable(c, b), finding.Remedy{Text: "use a cable with a protective core or armour"})
		emit(f)
	}
}

// earthedCable offers the smallest catalogue cable not thinner than the
// present one that has a protective conductor and a rating for the legs.
func earthedCable(c *Context, b int) []finding.Remedy {
	br := &c.Net.Branches[b]
	best := -1
	for i, cb := range c.Catalog {
		_, ok := c.HotPerMetre(cb)
		if !ok || !cb.Mains || (br.Cable != nil && cb.Size < br.Cable.Size) {
			continue
		}
		rated := cable.Governing(cb, br.Legs, c.Net.Site, &c.Rules.Cable, c.Overload(b)).Known
		if rated && (best < 0 || cb.Size < c.Catalog[best].Size) {
			best = i
		}
	}
	if best < 0 {
		return nil
	}
	return []finding.Remedy{swap(br, c.Catalog[best], "")}
}
