package check

import (
	"math"

	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// CAP-04: overload protection left out where the load cannot overload its
// cable. It only speaks when the working of a run is asked for whose device is
// larger than the cable carries; CAP-02 is then a decision and not a stop.
// Source: BS 7671 433.3.1 (ii); short-circuit protection by 434.
var overloadOmittedRule = Rule{Code: "CAP-04", Title: "Overload protection left out", Run: overloadOmitted}

var omittedSource = finding.Source{Standard: "BS 7671:2018", Clause: "433.3.1 (ii), Appendix 4 5.2", Evidence: finding.Found}

// Omission says whether a run may do without overload protection.
type Omission struct {
	Allowed bool
	Why     string   // what stands against it, when not allowed
	Iz      q.Ampere // capacity with Cc and Cf left out
	Ib      q.Ampere // the most that the fixed load draws
}

// Omitted judges whether overload protection of a run may be left out: all that
// is known behind it is fixed lighting that cannot draw more than its design
// current, the cable carries that current without Cc, and the device ahead
// still protects it against a short circuit. A lamp in a holder may be replaced
// by a larger one, so resistive and filament lamps do not count as fixed; a
// source counts with its whole rating.
func (c *Context) Omitted(b int) Omission {
	far := c.Far(b)
	if far < 0 || c.Net.Branches[b].Cable == nil || c.Net.Nodes[far].System != 0 || c.Zone(far).Over == nil {
		return Omission{Why: "no overcurrent device on the mains ahead"}
	}
	if !c.Trusted() {
		return Omission{Why: "the design current is not known"}
	}
	if c.InRing(b) {
		return Omission{Why: "the run lies on a ring"}
	}
	br := &c.Net.Branches[b]
	capa := cable.Governing(br.Cable, br.Legs, c.Net.Site, &c.Rules.Cable, false)
	o := Omission{Iz: capa.Iz, Ib: c.Flow(b)}
	extra, loose := c.fixedLoad(far)
	o.Ib += extra
	switch {
	case loose != "":
		o.Why = loose + " takes a lamp that may be replaced by a larger one"
	case !capa.Known:
		o.Why = "the capacity is not known: " + capa.Missing
	case !within(float64(o.Ib), float64(o.Iz)):
		o.Why = "the load of " + o.Ib.String() + " is itself more than the cable carries"
	case !c.shortHeld(b):
		o.Why = "it is not proved that the line core stands a short circuit (ADI-01)"
	default:
		o.Allowed = true
	}
	return o
}

// fixedLoad walks what hangs on a node: what its sources could draw beyond what
// they draw now, and the label of the first load that is not fixed.
func (c *Context) fixedLoad(node int) (extra q.Ampere, loose string) {
	for _, l := range c.Net.Nodes[node].Loads {
		if l.Law == network.Resistive || l.Law == network.Filament {
			return 0, c.subject(node).Label
		}
	}
	for _, b := range c.Tree.Kids[node] {
		if cv := c.Net.Branches[b].Converter; cv != nil {
			extra += c.spareInput(b, cv)
			continue
		}
		more, found := c.fixedLoad(c.Far(b))
		if found != "" {
			return 0, found
		}
		extra += more
	}
	return extra, ""
}

// spareInput is the primary current of a source at its rating, less the present
// one: S/(η·λ·U), the output taken as all active power.
func (c *Context) spareInput(b int, cv *network.Converter) q.Ampere {
	in := c.Near(b)
	u := float64(c.Volts(in))
	if u <= 0 || cv.Efficiency <= 0 || cv.PowerFactor <= 0 {
		return q.Ampere(math.Inf(1))
	}
	full := (float64(cv.Rated)/cv.Efficiency + float64(cv.NoLoad)) / (cv.PowerFactor * u)
	return q.Ampere(math.Max(0, full-float64(c.Flow(b))))
}

// shortHeld reports whether ADI-01 holds for a run.
func (c *Context) shortHeld(b int) bool {
	e, _, _, _, ok := c.Withstand(c.Net.Branches[b].Cable, LineCore)
	if !ok || e <= 0 {
		return false
	}
	if c.Spared(b, LineCore, e) {
		return true
	}
	s := c.Stress(b, LineCore)
	return s.Known && within(float64(max(s.Near, s.Far)), float64(e))
}

func overloadOmitted(c *Context, emit func(finding.Finding)) {
	if c.Explain == "" {
		return
	}
	for b := range c.Net.Branches {
		if !c.Ours(b) || !c.Asked(c.runSubject(b).ID) || !c.Capacity[b].Known || c.Net.Nodes[c.Far(b)].System != 0 {
			continue
		}
		if _, held := overCapacity(c, b); held {
			continue
		}
		emit(omittedFinding(c, b))
	}
}

func omittedFinding(c *Context, b int) finding.Finding {
	o, s, d := c.Omitted(b), c.runSubject(b), c.Demand(b)
	f := finding.Finding{Code: "CAP-04", Level: level(o.Allowed, finding.Note), Subject: s, Source: omittedSource}
	var w lines
	w.add("Ib ≤ Iz without Cc and Cf, fixed load, k² · S² ≥ I² · t")
	if !o.Allowed {
		w.add("not so: %s", o.Why)
		f.Text = "not proved: overload protection of " + s.Label + " may not be left out: " + o.Why
		f.Working = w.String()
		return f
	}
	f.Figure, f.Limit = o.Ib.String(), o.Iz.String()
	w.add("Ib = %s, sources taken at their rating; Iz = %s, Cc left out", o.Ib, o.Iz)
	w.add("the line core stands what %s lets through (ADI-01)", d.Name)
	f.Working = w.String()
	f.Text = s.Label + " may do without overload protection: its fixed load of " + o.Ib.String() + " is within " + o.Iz.String() + ", and " + d.Name + " protects it against a short circuit"
	return f
}
