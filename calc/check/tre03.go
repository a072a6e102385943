package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// TRE-03: slack left for a lamp in a tree. The trunk thickens and the limb
// moves. Counted over all cable from where it enters the tree. Source:
// tree-lighting practice, 0.6 to 0.9 m in a loose bundle.
var treeSlackRule = Rule{Code: "TRE-03", Title: "Slack at a lamp in a tree", Run: treeSlack}

func treeSlack(c *Context, emit func(finding.Finding)) {
	limit := c.Rules.Site.TreeSlack
	if limit.Value <= 0 {
		return
	}
	g := gather{c: c}
	for _, b := range c.ways() {
		if !inTree(&c.Net.Branches[b]) {
			continue
		}
		far := c.Far(b)
		if c.Net.Nodes[far].Kind != network.LampNode || c.Tree.Parent[far] != b {
			continue
		}
		slack := c.treeLength(far)
		s, lv := c.subject(far), level(within(limit.Value, float64(slack)), finding.Decide)
		if c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, -float64(slack), s, func() finding.Finding { return treeSlackFinding(s, c.runSubject(b), slack, limit, lv) })
		}
	}
	g.flush(emit)
}

// inTree reports whether part of a run hangs in a tree.
func inTree(br *network.Branch) bool {
	for i := range br.Legs {
		if br.Legs[i].Support == network.InTree {
			return true
		}
	}
	return false
}

// treeLength adds up the slack on the way to a node since it entered the tree.
func (c *Context) treeLength(node int) (sum q.Metre) {
	for b := c.Tree.Parent[node]; b >= 0 && inTree(&c.Net.Branches[b]); b = c.Tree.Parent[node] {
		sum += c.Net.Branches[b].Slack
		node = c.Tree.Up(c.Net, node)
	}
	return sum
}

func treeSlackFinding(s, run finding.Subject, slack q.Metre, limit Limit, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "TRE-03", Level: lv, Subject: s, Also: also(run), Source: limit.Source,
		Figure: span(slack), Limit: "at least " + spanOf(limit)}
	var w lines
	w.add("%s hangs in a tree, fed by %s", s.Label, run.Label)
	w.add("slack since the cable enters the tree: %s, at least %s", span(slack), spanOf(limit))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " has slack enough for the tree to grow"
		return f
	}
	f.Text = s.Label + " hangs in a tree with " + span(slack) + " of slack; " + spanOf(limit) + " let the tree grow"
	f.Remedies = []finding.Remedy{{Text: "give " + run.Label + " more slack, in a loose bundle near the lamp", Figure: span(q.Metre(limit.Value)-slack) + " more"}}
	return f
}
