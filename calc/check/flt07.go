package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// FLT-07: the time in which a fault to earth is disconnected, 0.4 s on TN and
// 0.2 s on TT; for a way of its own above 32 A 5 s and 1 s. On TN it says the same as FLT-01 and speaks up only where the
// tables hold no largest loop for the device. Source: BS 7671 411.3.2.2, Table
// 41.1.
var timeRule = Rule{Code: "FLT-07", Title: "Disconnection time", Run: disconnection}

func disconnection(c *Context, emit func(finding.Finding)) {
	tt := c.Net.Supply.Earthing == network.TT
	if !tt && !c.tn() {
		return
	}
	nodeFindings(c, emit, func(i int) int { return c.Zone(i).Guard },
		func(i int) (float64, bool, bool) {
			if !c.proved(i) || c.Loops[i].Hot <= 0 {
				return 0, false, false
			}
			z := c.Zone(i)
			if tt {
				if _, held := c.touch(i); !held {
					return 0, false, false // FLT-05 says it
				}
			} else if z.Loop.Known {
				if c.Explain == "" || !within(float64(c.Loops[i].Hot), float64(z.Loop.Value)) {
					return 0, false, false // FLT-01 and FLT-02 say it
				}
			} else if z.Over == nil {
				return 0, false, false // CAP-01 says it
			}
			d := protect.Disconnects(c.Loops[i], c.Net.Supply, &c.Rules.Protect)
			return float64(c.Loops[i].Hot), d.Meets, d.Known
		},
		func(i int) finding.Finding { return timeFinding(c, i) })
}

// circuitOf names the kind of circuit that a time is for.
func circuitOf(limit q.Second, c *Context) string {
	if short, _, ok := protect.Final(c.Net.Supply.Earthing, &c.Rules.Protect); ok && limit > short {
		return "a circuit of fixed equipment above 32 A"
	}
	return "a final circuit"
}

func timeFinding(c *Context, i int) finding.Finding {
	d := protect.Disconnects(c.Loops[i], c.Net.Supply, &c.Rules.Protect)
	s, l, t := c.subject(i), &c.Loops[i], &c.Rules.Protect
	f := finding.Finding{Code: "FLT-07", Level: level(d.Meets, finding.Stop), Subject: s, Source: d.Source, Limit: d.Limit.String()}
	var w lines
	w.add("If = Uo · Cmin / Zs = %s × %s / %s = %s", num(float64(c.Net.Supply.Nominal), 1), num(t.Cmin, 2), l.Hot, d.Current)
	if d.Opens {
		part := "overcurrent part"
		if d.By.Residual {
			part = "residual part"
		}
		f.Figure = d.By.Time.String()
		w.add("%s (%s) takes at most %s at that current (%s)", d.By.Device.Label, part, d.By.Time, d.By.Source)
		w.add("%s against %s for %s: %s", d.By.Time, d.Limit, circuitOf(d.Limit, c), meets(d.Meets))
		f.Text = "a fault at " + s.Label + " is disconnected within " + f.Figure + " by " + d.By.Device.Label
	} else {
		w.add("the tables give no time for any device ahead at that current: longer than %s has to be expected", d.Limit)
		f.Text = "no device ahead of " + s.Label + " is known to disconnect a fault of " + d.Current.String() + " within " + d.Limit.String()
	}
	f.Working = w.String()
	if !d.Meets {
		f.Remedies = []finding.Remedy{{Text: "fit a device whose time at " + d.Current.String() + " is known, or a 30 mA RCBO for this circuit"}}
	}
	return f
}
