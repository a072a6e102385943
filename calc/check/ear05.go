package check

import (
	"strconv"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
)

// EAR-05: armour is the only protective conductor, so that every gland on the
// way is a joint in the earth path. Glands that stand wet corrode and lose it;
// many run a core as well. Source: common practice, no source.
var jointsRule = Rule{Code: "EAR-05", Title: "Glands in series in the earth path", Run: joints}

func joints(c *Context, emit func(finding.Finding)) {
	e := c.earth()
	nodeFindings(c, emit, func(i int) int { return c.group(i) },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			end := n.Kind == network.LampNode && !n.Tail || n.Kind == network.PrimaryNode
			whole := e.At(i) == protect.Whole || e.At(i) == protect.Unsurveyed
			if !end || !whole {
				return 0, false, false
			}
			k := e.Joints(i)
			return float64(k), k == 0, true
		},
		func(i int) finding.Finding { return jointsFinding(c, i) })
}

func jointsFinding(c *Context, i int) finding.Finding {
	k, s := c.earth().Joints(i), c.subject(i)
	f := finding.Finding{Code: "EAR-05", Level: level(k == 0, finding.Note), Subject: s,
		Figure: strconv.Itoa(k) + " glands", Source: finding.Source{Evidence: finding.Practice}}
	var w lines
	pathWorking(c, &w, i)
	w.add("two glands for each armour on the way: %d", k)
	f.Working = w.String()
	if k == 0 {
		f.Text = "a core is the protective conductor all the way to " + s.Label
		return f
	}
	f.Text = "armour is the only protective conductor to " + s.Label + ": " + strconv.Itoa(k) + " gland joints in series"
	f.Remedies = []finding.Remedy{{Text: "a cable with a core more gives a protective conductor without glands in it"}}
	return f
}
