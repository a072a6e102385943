package check

import "duskwire/calc/finding"

// FLT-01: the fault loop at every point against the overcurrent device ahead
// of it; beyond a spur unit that is its fuse. Zs <= Uo·Cmin/Ia. Source: BS 7671
// 411.4.4, Tables 41.2 to 41.4.
var loopRule = Rule{Code: "FLT-01", Title: "Fault loop against the device", Run: loopAtPoints}

func loopAtPoints(c *Context, emit func(finding.Finding)) {
	if !c.tn() {
		return
	}
	nodeFindings(c, emit, func(i int) int { return c.Zone(i).Guard },
		func(i int) (float64, bool, bool) {
			z := c.Zone(i)
			if !c.proved(i) || c.apart(i) || !z.Loop.Known {
				return 0, false, false
			}
			hot, limit := float64(c.Loops[i].Hot), float64(z.Loop.Value)
			return hot / limit, within(hot, limit), true
		},
		func(i int) finding.Finding { return loopFinding(c, i) })
	runLoops(c, emit)
}

func loopFinding(c *Context, i int) finding.Finding {
	z, l, s := c.Zone(i), &c.Loops[i], c.subject(i)
	held := within(float64(l.Hot), float64(z.Loop.Value))
	f := finding.Finding{Code: "FLT-01", Level: level(held, finding.Stop), Subject: s,
		Figure: l.Hot.String(), Limit: z.Loop.Value.String(), Source: z.LoopSource}
	w := loopWorking(c, i)
	limitWorking(c, &w, z)
	w.add("%s against %s: %s", l.Hot, z.Loop.Value, meets(held))
	f.Working = w.String()
	f.Text = "fault loop " + l.Hot.String() + " at " + s.Label + "; " + z.Over.Label + " opens in time up to " + z.Loop.Value.String()
	if l.Measured {
		f.Assumed = []string{"the loop at the supply point is as measured cold, not raised to operating temperature"}
	}
	if !held {
		f.Remedies = loopRemedies(c, i, z)
	}
	return f
}

// runLoops explains a run: the loop at its far end.
func runLoops(c *Context, emit func(finding.Finding)) {
	if c.Explain == "" {
		return
	}
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		far := c.Far(b)
		if !c.Asked(br.ID) || br.Converter != nil || far < 0 || !c.proved(far) || c.apart(far) || !c.Zone(far).Loop.Known {
			continue
		}
		f := loopFinding(c, far)
		f.Also = []finding.Subject{c.runSubject(b)}
		if f.Level == finding.Held {
			f.Subject, f.Also[0] = f.Also[0], f.Subject
		}
		emit(f)
	}
}
