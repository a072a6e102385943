package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// INR-01: the inrush of what is switched on together against the breaker ahead,
// and wound transformers against a fuse. Two estimates:
//
//	by the makers' figures   Σ Ipeak <= k·m·In,  k = sqrt(10 ms / t), at least 1
//	by a trade guide         LED fittings of about 10 W: 15 on B10, 22 on B16, 30 on C10
//
// m is the lower end of the breaker's instantaneous band. k is derived: a pulse
// of t gives the energy of a half-wave at m·In; with t unknown it is 1, which is
// pessimistic. When one estimate fails it is told; when both do, or the only one
// there is, the electrician decides. Other ratings follow the guide by current.
var inrushRule = Rule{Code: "INR-01", Title: "Inrush of what is switched on together", Run: inrush}

var inrushSource = finding.Source{Standard: "EN 60898-1", Clause: "instantaneous band, lower end; pulse by equal energy", Evidence: finding.Derived}

// halfWave is half a period of 50 Hz.
const halfWave q.Second = 0.010

// surge is what is switched on together behind one device.
type surge struct {
	control int // gear that does it, -1: the circuit's own switch or the device
	nodes   []int
	peak    q.Ampere     // of those that say it
	longest q.Second     // pulse; 0 unknown
	silent  int          // that do not say their peak
	loads   int          // LED lamps, drivers
	wound   q.VoltAmpere // of transformers
}

func inrush(c *Context, emit func(finding.Finding)) {
	if c.Rules.Limits.InrushSmall.Value <= 0 {
		return
	}
	take, flush := single(emit)
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.System != 0 || c.supplied().on[i].points == 0 {
			continue
		}
		for k := range n.Devices {
			if d := &n.Devices[k]; d.Overcurrent() {
				c.surgeFindings(i, d, take)
			}
		}
	}
	flush()
}

// surges groups what lies behind node i by the gear that switches it.
func (c *Context) surges(i int) []surge {
	s := c.supplied()
	var keys []int
	var out []surge
	for _, k := range c.Tree.Order {
		n := &c.Net.Nodes[k]
		lamp := n.Kind == network.LampNode && driven(n) && !n.Tail
		if n.System != 0 || !s.beyond(k, i) || !lamp && (n.Kind != network.PrimaryNode || s.on[k].points == 0) {
			continue
		}
		at := -1
		for j, key := range keys {
			if key == s.control[k] {
				at = j
			}
		}
		if at < 0 {
			at = len(keys)
			keys, out = append(keys, s.control[k]), append(out, surge{control: s.control[k]})
		}
		out[at].take(c, k)
	}
	return out
}

func (s *surge) take(c *Context, k int) {
	n := &c.Net.Nodes[k]
	s.nodes = append(s.nodes, k)
	if cv := c.converter(k); cv != nil && cv.Kind() == network.Wound {
		s.wound += cv.Rated
	} else {
		s.loads++
	}
	switch f := n.Fitting; {
	case f == nil || f.Inrush <= 0:
		s.silent++
	case f.InrushTime <= 0:
		s.peak, s.longest = s.peak+f.Inrush, halfWave
	default:
		s.peak, s.longest = s.peak+f.Inrush, max(s.longest, f.InrushTime)
	}
}

// converter returns what a source at its input node is made of, nil for a lamp.
func (c *Context) converter(k int) *network.Converter {
	for _, b := range c.Tree.Kids[k] {
		if cv := c.Net.Branches[b].Converter; cv != nil {
			return cv
		}
	}
	return nil
}

func (c *Context) surgeFindings(i int, d *network.Device, emit func(finding.Finding)) {
	for _, g := range c.surges(i) {
		f := c.surgeFinding(i, d, &g)
		if c.Wants(f.Level == finding.Held, f.Subject.ID) {
			f.Also = c.surging(&g, f.Subject)
			emit(f)
		}
	}
}

func (c *Context) surgeFinding(i int, d *network.Device, g *surge) finding.Finding {
	f := finding.Finding{Code: "INR-01", Level: finding.Held, Subject: c.subject(i), Source: inrushSource}
	by := "with the circuit"
	if g.control >= 0 {
		by = "by " + c.subject(g.control).Label
	}
	var w lines
	w.add("switched on together %s, behind %s: %d LED lamps and drivers, %s of wound transformers", by, d.Label, g.loads, g.wound)
	if d.Curve == "" {
		c.woundOnFuse(d, g, &f, &w)
	} else {
		c.surgeOnBreaker(d, g, &f, &w)
	}
	f.Working = w.String()
	return f
}

// surging names what is switched on together, besides what the finding is about.
func (c *Context) surging(g *surge, about finding.Subject) []finding.Subject {
	var out []finding.Subject
	for _, k := range g.nodes {
		if s := c.subject(k); s != about {
			out = append(out, s)
		}
	}
	return out
}

// surgeOnBreaker makes both estimates.
func (c *Context) surgeOnBreaker(d *network.Device, g *surge, f *finding.Finding, w *lines) {
	m := c.leastMultiple(d.Curve)
	data := g.silent == 0 && m > 0
	fits := true
	if data {
		k := 1.0
		if g.longest > 0 && g.longest < halfWave {
			k = math.Sqrt(float64(halfWave / g.longest))
		}
		hold := q.Ampere(k * m * float64(d.Rating))
		fits = within(float64(g.peak), float64(hold))
		f.Figure, f.Limit = g.peak.String(), hold.String()
		w.add("by the makers' peaks: Σ Ipeak = %s, k·m·In = %s · %s · %s = %s: %s", g.peak, num(k, 2), num(m, 1), d.Rating, hold, meets(fits))
	} else {
		w.add("by the makers' peaks: %d of %d do not say theirs, so there is no sum", g.silent, len(g.nodes))
	}
	most := c.guideNumber(d)
	guide := g.loads <= most
	w.add("by the trade guide: %d of at most %d fittings of about 10 W on this breaker (%s): %s", g.loads, most, c.Rules.Limits.InrushSmall.Source, meets(guide))
	if !data {
		f.Figure, f.Limit, f.Source = num(float64(g.loads), 0)+" fittings", num(float64(most), 0)+" fittings", c.Rules.Limits.InrushSmall.Source
	}
	f.Text = "inrush behind " + d.Label + ": within what it holds by the estimate"
	switch {
	case fits && guide:
		return
	case !guide && (!data || !fits):
		f.Level = finding.Decide
		f.Text = num(float64(g.loads), 0) + " LED lamps and drivers switched on together may trip " + d.Label
	case !fits:
		f.Level = finding.Note
		f.Text = "the peaks switched on together behind " + d.Label + " add up to " + f.Figure + ", over " + f.Limit + " by a careful estimate; by number the trade guide allows them"
	default:
		f.Level = finding.Note
		f.Text = num(float64(g.loads), 0) + " LED lamps and drivers switched on together behind " + d.Label + ", more than the " + num(float64(most), 0) + " of the trade guide; their peaks add up to less than it holds"
	}
	f.Remedies = []finding.Remedy{{Text: "ask the makers how many may hang on this breaker"},
		{Text: "split them into zones that are switched one after the other"},
		{Text: "use a breaker of type C: its loop limit is half that of type B, and FLT-01 is checked again", Tried: true},
		{Text: "fit an inrush limiter, or gear that switches at the zero crossing"}}
}

// woundOnFuse compares wound transformers with what a cartridge fuse carries on;
// LED drivers' short pulses hardly warm it.
func (c *Context) woundOnFuse(d *network.Device, g *surge, f *finding.Finding, w *lines) {
	limit := c.Rules.Limits.WoundOnFuse
	most := q.VoltAmpere(limit.Value * float64(d.Rating) / 3)
	held := limit.Value <= 0 || within(float64(g.wound), float64(most))
	w.add("a fuse goes by energy: 30 A for 0.1 ms is 0.09 A²s, far below what melts a 3 A fuse (derived)")
	w.add("wound transformers: %s of at most %s on %s: %s", g.wound, most, d.Label, meets(held))
	f.Figure, f.Limit, f.Source = g.wound.String(), most.String(), limit.Source
	f.Text = "inrush behind " + d.Label + ": within what is usual"
	if !held {
		f.Level = finding.Decide
		f.Text = g.wound.String() + " of wound transformers switched on together may open " + d.Label
		f.Remedies = []finding.Remedy{{Text: "split them over two zones or spurs"}, {Text: "use regulated drivers, or transformers with a soft start"},
			{Text: "use the next larger fuse, if cable and loop allow it", Tried: true}}
	}
}

// leastMultiple is the lower end of a curve's instantaneous band, 0 unknown.
func (c *Context) leastMultiple(curve string) float64 {
	for _, m := range c.Rules.Protect.Multiples {
		if m.Curve == curve {
			return m.Least
		}
	}
	return 0
}

// guideNumber is the trade guide's number for a breaker: given for B10, B16 and
// C10, in between and beyond by current; type D is taken as type C.
func (c *Context) guideNumber(d *network.Device) int {
	l, in := &c.Rules.Limits, float64(d.Rating)
	small, large := l.InrushSmall.Value, l.InrushLarge.Value
	n := small * in / 10
	if in > 10 && large > 0 {
		n = large * in / 16
		if in < 16 {
			n = small + (large-small)*(in-10)/6
		}
	}
	if d.Curve != "B" && l.InrushTypeC.Value > 0 {
		n *= l.InrushTypeC.Value / small
	}
	return int(math.Floor(n * (1 + 1e-9)))
}
