package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SRC-02: an electronic source gives some tens of kilohertz. Its cables are to
// be kept short, a 50 Hz meter reads it wrongly, and below its least load it
// does not start. Source: trade habit, from memory; the maker's sheet decides.
var electronicRule = Rule{Code: "SRC-02", Title: "Electronic source at high frequency", Run: electronic}

// shortOutput is the length of output cable that makers of electronic
// transformers commonly allow. From memory.
const shortOutput q.Metre = 2

func electronic(c *Context, emit func(finding.Finding)) {
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.Converter == nil || br.Converter.Kind() != network.Electronic || c.Far(b) < 0 {
			continue
		}
		far, longest := c.Far(b), q.Metre(0)
		end := far
		for i := range c.Net.Nodes {
			if c.Net.Nodes[i].System == c.Net.Nodes[far].System && c.Tree.Parent[i] >= 0 && c.plan.path[i] > longest {
				longest, end = c.plan.path[i], i
			}
		}
		s := c.runSubject(b)
		f := finding.Finding{Code: "SRC-02", Level: finding.Note, Subject: s,
			Figure: longest.String(), Limit: "about " + shortOutput.String(),
			Source: finding.Source{Standard: "trade habit; the maker's sheet decides", Evidence: finding.Memory},
			Text:   s.Label + " is an electronic source: high frequency on up to " + longest.String() + " of cable, where makers commonly allow about " + shortOutput.String(),
		}
		var w lines
		w.add("longest way from %s: %s to %s", s.Label, longest, c.subject(end).Label)
		w.add("drops are computed with resistance only; at some tens of kilohertz the inductance of the cable takes volts as well")
		w.add("a meter for 50 Hz does not read such an output rightly")
		if m := br.Converter.MinimumLoad; m > 0 {
			w.add("below %s it may not start or may flicker (SRC-01)", m)
		} else {
			f.Assumed = append(f.Assumed, "its least load is not known: none was taken")
		}
		f.Working = w.String()
		f.Remedies = []finding.Remedy{{Text: "use a wound transformer or a regulated driver where the cables are longer"}}
		emit(f)
	}
}

// feed returns the branch of the source that feeds a node, -1 on the mains.
func (c *Context) feed(node int) int {
	for b := c.Tree.Parent[node]; b >= 0; b = c.Tree.Parent[node] {
		if c.Net.Branches[b].Converter != nil {
			return b
		}
		node = c.Tree.Up(c.Net, node)
	}
	return -1
}
