package check

import "duskwire/calc/finding"

// TRE-04: how a cable is held in a tree. What goes round or into the bark kills
// the limb. A note for the site and for every year after. Source:
// tree-lighting practice.
var treeFixRule = Rule{Code: "TRE-04", Title: "Fixings in a tree", Run: treeFix}

var treeFixSource = finding.Source{Standard: "tree-lighting practice", Clause: "stand-offs or straps let out yearly, no staples, no wraps", Evidence: finding.Found}

func treeFix(c *Context, emit func(finding.Finding)) {
	g := gather{c: c}
	for _, b := range c.ways() {
		if !inTree(&c.Net.Branches[b]) {
			continue
		}
		s := c.runSubject(b)
		g.take("", finding.Note, 0, s, func() finding.Finding {
			return finding.Finding{Code: "TRE-04", Level: finding.Note, Subject: s, Source: treeFixSource,
				Text:    s.Label + " hangs in a tree: stainless stand-offs or a strap with its date on, no staples and nothing wound round; let it out every year",
				Working: "read from the drawing: a leg of " + s.Label + " is carried by a tree\nnext year's visit: let the fixings out"}
		})
	}
	g.flush(emit)
}
