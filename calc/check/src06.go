package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// SRC-06: the kind of wiring against the kind of source. Lamps made for constant
// current hang in series on a driver of that kind, in one chain: side by side
// they would share the current as their volts happen to fall, and one takes most
// of it. Lamps made for a voltage hang side by side on a source that holds it.
// Source: trade habit.
var wiringRule = Rule{Code: "SRC-06", Title: "Constant current in series, constant voltage side by side", Run: wiring}

func wiring(c *Context, emit func(finding.Finding)) {
	take, flush := single(emit)
	for k := range c.Strings() {
		s := &c.plan.driven[k]
		br := &c.Net.Branches[s.Source]
		if c.Wants(len(s.Forks) == 0, br.ID) {
			take(forkFinding(c, s))
		}
	}
	nodeFindings(c, take, func(i int) int { return c.Net.Nodes[i].System },
		func(i int) (float64, bool, bool) {
			n := &c.Net.Nodes[i]
			if n.Kind != network.LampNode || n.Tail || c.Tree.Parent[i] < 0 || n.Fitting == nil {
				return 0, false, false
			}
			made := n.Fitting.Drive > 0
			return 1, made == c.Driven(i), made || c.Driven(i)
		},
		func(i int) finding.Finding { return wrongKind(c, i) })
	flush()
}

// forkFinding is about a string as it is drawn.
func forkFinding(c *Context, s *network.String) finding.Finding {
	at, held := c.runSubject(s.Source), len(s.Forks) == 0
	f := finding.Finding{Code: "SRC-06", Level: level(held, finding.Stop), Subject: at, Source: seriesSource,
		Figure: count(len(s.Forks), "fork", "forks"), Limit: "one chain", Text: "the lamps of " + at.Label + " hang in one chain"}
	var w lines
	w.add("%s gives constant current, %s; its lamps are in series, drawn as one chain", at.Label, c.Net.Branches[s.Source].Converter.Drive)
	w.add("from lamp to lamp the cable brings the current in one core; its other core is the way back from the last lamp")
	for _, i := range s.Forks {
		w.add("at %s more than one way on has lamps", c.subject(i).Label)
		if o := c.subject(i); o != at {
			f.Also = append(f.Also, o)
		}
	}
	if !held {
		f.Text = "the string of " + at.Label + " forks at " + c.subject(s.Forks[0]).Label + ": lamps side by side share its current unevenly; its volts are left out of the figures"
		f.Remedies = []finding.Remedy{
			{Text: "run one chain from lamp to lamp"},
			{Text: "feed each branch from a driver of its own"},
		}
	}
	f.Working = w.String()
	return f
}

// wrongKind is about a lamp on the other kind of source.
func wrongKind(c *Context, i int) finding.Finding {
	n, s := &c.Net.Nodes[i], c.subject(i)
	sys, made, on := &c.Net.Systems[n.System], n.Fitting.Drive, c.Driven(i)
	f := finding.Finding{Code: "SRC-06", Level: level((made > 0) == on, finding.Stop), Subject: s, Source: seriesSource}
	kind := "made for a voltage"
	if made > 0 {
		kind = "made for constant current, " + made.String()
	}
	var w lines
	w.add("%s is %s", s.Label, kind)
	w.add("it hangs on %s, %s", sys.Label, map[bool]string{true: "which holds its current", false: "which holds its volts"}[on])
	f.Text = s.Label + " is " + kind + " and hangs on a source of that kind"
	switch {
	case made > 0 && !on:
		f.Figure, f.Limit = "on "+sys.Label, "on a constant-current driver of "+made.String()
		f.Text = s.Label + " is " + kind + ", and hangs on volts (" + sys.Label + "): nothing limits its current; it is left out of the figures"
		f.Remedies = []finding.Remedy{{Text: "feed it from a constant-current driver", Figure: made.String()}, {Text: "use a lamp made for " + sys.Nominal.String()}}
	case made == 0 && on:
		f.Figure, f.Limit = "on "+sys.Label, "on a source that holds its volts"
		f.Text = s.Label + " is made for a voltage and hangs on a constant-current driver (" + sys.Label + "): it is left out of the figures"
		f.Remedies = []finding.Remedy{{Text: "feed it from a source for its voltage"}, {Text: "use a lamp made for constant current", Figure: sys.Drive.String()}}
	}
	f.Working = w.String()
	return f
}
