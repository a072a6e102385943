package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// IPX-03: drainage beneath a lamp let into the ground. IP67 is for a short while
// under water, so water has to run off: a note with the gravel that takes,
//
//	V = π · (d/2)² · h
//
// with d the width and h the depth of the hole (m); in a low place, where water
// stands, the electrician decides. Source: installers' advice, hole 250 to 300 mm
// deep in clay, gravel or a drain pipe beneath; the width is common practice.
var drainRule = Rule{Code: "IPX-03", Title: "Drainage beneath a lamp in the ground", Run: drain}

func drain(c *Context, emit func(finding.Finding)) {
	site := &c.Rules.Site
	if site.DrainDepth.Value <= 0 || site.DrainWidth.Value <= 0 {
		return
	}
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || n.Tail || n.Place == nil || n.Place.InWater || c.Tree.Parent[i] < 0 || n.Form != "recessed" || c.indoors(i) {
			continue
		}
		lv := finding.Note
		switch {
		case !within(float64(n.Height), site.GroundLevel.Value) || n.Place.Ground == "deck":
			lv = finding.Held // in a wall, or open beneath
		case n.Place.Low:
			lv = finding.Decide
		}
		if s := c.subject(i); c.Wants(lv == finding.Held, s.ID) {
			g.take("", lv, -float64(n.Height), s, func() finding.Finding { return drainFinding(s, n, site, lv) })
		}
	}
	g.flush(emit)
}

func drainFinding(s finding.Subject, n *network.Node, site *SiteLimits, lv finding.Level) finding.Finding {
	f := finding.Finding{Code: "IPX-03", Level: lv, Subject: s, Source: site.DrainDepth.Source, Figure: span(n.Height) + " above ground"}
	d, h := site.DrainWidth.Value, site.DrainDepth.Value
	litres := math.Pi * d * d / 4 * h * 1e3
	var w lines
	w.add("%s is let in, %s above ground; in the ground up to %s", s.Label, span(n.Height), spanOf(site.GroundLevel))
	if lv == finding.Held {
		w.add("nothing holds water beneath it")
		f.Working, f.Text = w.String(), s.Label+" needs no drainage of its own"
		return f
	}
	w.add("V = π · (d/2)² · h = π · (%s/2)² · %s = %s litres of gravel", spanOf(site.DrainWidth), spanOf(site.DrainDepth), num(litres, 1))
	w.add("ground that drains: a hole of 450 to 600 mm, half filled, is dry within two hours (found)")
	f.Assumed = []string{"hole " + spanOf(site.DrainWidth) + " across (" + site.DrainWidth.Source.String() + ")"}
	f.Text = s.Label + " is let into the ground: lay " + spanOf(site.DrainDepth) + " of gravel beneath, about " + num(litres, 1) + " litres, or a drain pipe in a slab"
	f.Remedies = []finding.Remedy{{Text: "dig the hole deeper and fill it with gravel", Figure: "about " + num(litres, 1) + " litres"}}
	if lv == finding.Decide {
		w.add("the plan marks the ground there as low: water stands")
		f.Text = s.Label + " is let into ground where water stands; it is made for a short while under water only"
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "lead the water off by a pipe, or choose a place that is not low"},
			finding.Remedy{Text: "use a lamp made for lasting immersion, IPX8"})
	}
	f.Working = w.String()
	return f
}
