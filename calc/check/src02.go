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

var electronicSource = finding.Source{Standard: "trade habit; the maker's sheet decides", Evidence: finding.Memory}

func electronic(c *Context, emit func(finding.Finding)) {
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.Converter == nil || br.Converter.Kind() != network.Electronic || c.Far(b) < 0 {
			continue
		}
		longest, end := c.reachOf(b)
		s := c.runSubject(b)
		f := finding.Finding{Code: "SRC-02", Level: finding.Note, Subject: s,
			Figure: longest.String(), Source: electronicSource,
			Text: s.Label + " is an electronic source: high frequency on up to " + longest.String() + " of cable",
		}
		if usual := c.Rules.Limits.ElectronicLead; usual.Value > 0 && br.Converter.Longest <= 0 {
			f.Limit, f.Source = "about "+q.Metre(usual.Value).String(), usual.Source
			f.Text += ", where makers commonly allow about " + q.Metre(usual.Value).String()
			f.Assumed = append(f.Assumed, "the longest cable that its maker allows is not known: "+q.Metre(usual.Value).String()+" taken")
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
