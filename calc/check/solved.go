package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/solve"
)

// SOL-01: the lamps ask for more than the cables can carry. The maximum power
// theorem bounds what a line can deliver, P <= U²/(4R); beyond it there is no
// steady voltage.
var collapseRule = Rule{Code: "SOL-01", Title: "Voltage collapse", Run: func(c *Context, emit func(finding.Finding)) {
	unsolved(c, solve.Collapsed, "SOL-01", "there is no steady voltage: the lamps ask for more power than the cables can carry, worst at ", emit)
}}

// SOL-02: the solver gave up while still moving.
var unfinishedRule = Rule{Code: "SOL-02", Title: "Voltages not found", Run: func(c *Context, emit func(finding.Finding)) {
	unsolved(c, solve.Unfinished, "SOL-02", "the voltages were still moving when the sweeps ran out, worst at ", emit)
}}

func unsolved(c *Context, state solve.State, code finding.Code, text string, emit func(finding.Finding)) {
	if c.Solution == nil || c.Solution.Status.State != state {
		return
	}
	st := c.Solution.Status
	var w lines
	w.add("%d sweeps over the circuit from the supply outwards and back", st.Sweeps)
	w.add("largest change of voltage in the last sweep: %s %% of nominal", num(st.Residual*100, 4))
	if state == solve.Collapsed {
		w.add("share of every load that the cables could still carry: %s %%", num(st.Carried*100, 1))
		for _, b := range c.trail(st.Worst) {
			br := &c.Net.Branches[b]
			if br.Cable != nil {
				w.add("%s: %s of %s", br.Label, br.Length, br.Cable.Name)
			}
		}
	}
	s := c.subject(st.Worst)
	emit(finding.Finding{
		Code: code, Level: finding.Stop, Subject: s, Text: text + s.Label,
		Source:  finding.Source{Standard: "maximum power transfer, P ≤ U²/(4R)", Evidence: finding.Derived},
		Working: w.String(),
		Assumed: []string{"no volts, drops or currents are given for this circuit until it has a steady state"},
		Remedies: []finding.Remedy{
			{Text: "use thicker cable on the way to " + s.Label},
			{Text: "move the source nearer its lamps, split the group, or use a higher voltage"},
		},
	})
}
