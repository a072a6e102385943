package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// SRC-07: the cable behind a source against the longest that its maker allows:
// long leads disturb radio and make a switching output unsteady. Silent where
// the maker's figure is not in the stock item; of electronic ones SRC-02 speaks
// then. Source: the maker's data.
var longOutputRule = Rule{Code: "SRC-07", Title: "Cable behind a source within its maker's limit", Run: longOutput}

func longOutput(c *Context, emit func(finding.Finding)) {
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.Converter == nil || br.Converter.Longest <= 0 || c.Far(b) < 0 {
			continue
		}
		longest, end := c.reachOf(b)
		most := br.Converter.Longest
		lv := level(within(float64(longest), float64(most)), finding.Decide)
		s := c.runSubject(b)
		if !c.Wants(lv == finding.Held, s.ID) {
			continue
		}
		f := finding.Finding{Code: "SRC-07", Level: lv, Subject: s, Source: makerSource, Figure: longest.String(), Limit: "at most " + most.String(),
			Text: "the cable behind " + s.Label + " is within what its maker allows"}
		var w lines
		w.add("longest way from %s: %s to %s", s.Label, longest, c.subject(end).Label)
		w.add("its maker allows %s: %s", most, meets(lv == finding.Held))
		f.Working = w.String()
		if lv != finding.Held {
			f.Text = s.Label + " has " + longest.String() + " of cable behind it; its maker allows " + most.String()
			f.Remedies = []finding.Remedy{{Text: "place it nearer its lamps", Figure: (longest - most).String() + " nearer"}, {Text: "use a source that allows longer cables"}}
		}
		emit(f)
	}
}

// reachOf returns the longest way behind a source and the node at its end.
func (c *Context) reachOf(b int) (longest q.Metre, end int) {
	far := c.Far(b)
	end = far
	for i := range c.Net.Nodes {
		if c.Net.Nodes[i].System == c.Net.Nodes[far].System && c.Tree.Parent[i] >= 0 && c.plan.path[i] > longest {
			longest, end = c.plan.path[i], i
		}
	}
	return longest, end
}

// LeadLeft returns how much longer a run may be before the cable behind its
// source is longer than the maker allows, 0 when it is already; ok is false
// where no maker's limit is known.
func (c *Context) LeadLeft(b int) (left q.Metre, ok bool) {
	far := c.Far(b)
	if far < 0 || c.Net.Nodes[far].System == 0 {
		return 0, false
	}
	source := c.feed(far)
	if source < 0 || c.Net.Branches[source].Converter.Longest <= 0 {
		return 0, false
	}
	return max(c.Net.Branches[source].Converter.Longest-c.deepest(far), 0), true
}

// deepest is the longest way from the start of its system to a node or to what
// lies beyond it on the same system.
func (c *Context) deepest(node int) q.Metre {
	long := c.plan.path[node]
	for todo := []int{node}; len(todo) > 0; {
		i := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		long = max(long, c.plan.path[i])
		for _, b := range c.Tree.Kids[i] {
			if c.Net.Branches[b].Converter == nil {
				todo = append(todo, c.Far(b))
			}
		}
	}
	return long
}
