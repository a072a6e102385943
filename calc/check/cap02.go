package check

import (
	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// CAP-02: In <= Iz, the device against the corrected capacity of every run
// behind it. Where a fixed load cannot overload the cable (see Omitted) it is
// for the electrician to decide. Source: BS 7671 433.1.1 (ii) and (iii), 433.3.1.
var deviceCableRule = Rule{Code: "CAP-02", Title: "Device within the capacity of the cable", Run: deviceCable}

// Conventional operating current of a BS 1362 fuse and what 433.1.1 allows it
// to be: I2 = 1.9·In must not exceed 1.45·Iz. BS 1362 is not in the list of
// devices for which In <= Iz alone is enough.
const (
	plugFuseI2 = 1.9
	cableI2    = 1.45
)

// Demand is the capacity that a run must have.
type Demand struct {
	Iz     q.Ampere // required; 0 when no device is known
	Rating q.Ampere // In of the device, or rated current of the source
	Factor float64  // Iz/Rating
	Name   string   // label of the device or source
	Soft   bool     // from the rating of a source: its own protection is the maker's business
}

// Demand returns what a run must carry continuously because of the device or
// source ahead of it:
//
//	EN 60898, EN 61009, BS 88-3   Iz >= In
//	BS 1362                       Iz >= 1.9/1.45·In   (I2 <= 1.45·Iz)
//	BS 3036                       Iz >= In/0.725
//	source                        Iz >= S/U2
//
// Source: BS 7671 433.1.1, 433.1.202; the BS 1362 form is derived from the
// fuse's conventional current of 1.9·In (found in a fuse maker's sheet).
func (c *Context) Demand(b int) Demand {
	far := c.Far(b)
	if c.Net.Nodes[far].System != 0 {
		return c.sourceDemand(far)
	}
	d := c.Zone(far).Over
	if d == nil {
		return Demand{}
	}
	factor := 1.0
	switch d.Kind {
	case network.FuseBS1362:
		factor = plugFuseI2 / cableI2
	case network.FuseBS3036:
		if cf := c.Rules.Cable.Rewirable.Value; cf > 0 {
			factor = 1 / cf
		}
	}
	return Demand{Iz: q.Ampere(float64(d.Rating) * factor), Rating: d.Rating, Factor: factor, Name: d.Label}
}

// sourceDemand is the rated output current of the source that feeds a node.
func (c *Context) sourceDemand(node int) Demand {
	for b := c.Tree.Parent[node]; b >= 0; b = c.Tree.Parent[node] {
		br := &c.Net.Branches[b]
		if cv := br.Converter; cv != nil {
			if cv.Nominal <= 0 {
				return Demand{}
			}
			in := q.Ampere(float64(cv.Rated) / float64(cv.Nominal))
			return Demand{Iz: in, Rating: in, Factor: 1, Name: br.Label, Soft: true}
		}
		node = c.Tree.Up(c.Net, node)
	}
	return Demand{}
}

// Overload reports whether the device ahead of a branch is relied on for
// overload protection, so that Cc applies to buried legs.
func (c *Context) Overload(b int) bool {
	far := c.Far(b)
	return far >= 0 && c.Net.Nodes[far].System == 0
}

// carried is the design current of a run; 0 when the solve is no answer.
func (c *Context) carried(b int) q.Ampere {
	if !c.Trusted() {
		return 0
	}
	return c.Flow(b)
}

// deviceCable reports the worst run behind each device or source.
func deviceCable(c *Context, emit func(finding.Finding)) {
	runFindings(c, emit,
		func(b int) (float64, bool) {
			if !c.Capacity[b].Known {
				return 0, true
			}
			by, held := overCapacity(c, b)
			if !held && c.shortfall(b) == finding.Stop {
				by += 1e6 // a stop is never hidden behind a decision of the same device
			}
			return by, held
		},
		func(b int) finding.Finding { return capacityFinding(c, b) })
}

// shortfall is the level of a run that carries less than is asked for: a
// decision where only a source's rating asks for more, or where overload
// protection may be left out, else a stop.
func (c *Context) shortfall(b int) finding.Level {
	switch {
	case c.Demand(b).Soft && within(float64(c.carried(b)), float64(c.Capacity[b].Iz)):
		return finding.Decide
	case !c.Demand(b).Soft && c.Omitted(b).Allowed:
		return finding.Decide
	}
	return finding.Stop
}

// overCapacity returns by what factor a run falls short.
func overCapacity(c *Context, b int) (by float64, held bool) {
	iz, need := float64(c.Capacity[b].Iz), float64(max(c.Demand(b).Iz, c.carried(b)))
	if iz <= 0 {
		return 1e9, need <= 0
	}
	return need / iz, within(need, iz)
}

func capacityFinding(c *Context, b int) finding.Finding {
	capa, d, ib := c.Capacity[b], c.Demand(b), c.carried(b)
	if !capa.Known {
		return unproved("CAP-02", c.runSubject(b), "capacity not known: "+capa.Missing)
	}
	_, held := overCapacity(c, b)
	lv := c.shortfall(b)
	s := c.runSubject(b)
	f := finding.Finding{Code: "CAP-02", Level: level(held, lv), Subject: s, Source: overloadSource,
		Figure: capa.Iz.String(), Limit: "at least " + max(d.Iz, ib).String(), Assumed: c.Net.Assumed}
	w := capacityWorking(c.Net.Branches[b].Cable, capa)
	switch {
	case d.Soft:
		w.add("required: %s, the rated output of %s", d.Iz, d.Name)
	case d.Factor > 1:
		w.add("required: %s × %s = %s, from %s", d.Rating, num(d.Factor, 3), d.Iz, d.Name)
		w.add("  (BS 1362: I2 = 1.9·In ≤ 1.45·Iz, so Iz ≥ 1.31·In; BS 3036: Iz ≥ In/Cf)")
	case d.Iz > 0:
		w.add("required: In = %s, %s", d.Iz, d.Name)
	}
	if c.Trusted() {
		w.add("design current Ib = %s", ib)
	}
	w.add("Iz %s against %s: %s", capa.Iz, max(d.Iz, ib), map[bool]string{true: "meets the limit", false: "falls short"}[held])
	f.Text = s.Label + " carries " + capa.Iz.String() + " where " + max(d.Iz, ib).String() + " is required"
	if !held && !d.Soft && lv == finding.Decide {
		o := c.Omitted(b)
		f.Text += "; its fixed load of " + o.Ib.String() + " does not overload it"
		w.add("fixed load %s within %s (Cc left out), short circuit held: overload protection may be left out (%s)", o.Ib, o.Iz, omittedSource)
	}
	f.Working = w.String()
	if !held {
		f.Remedies = capacityRemedies(c, b, max(d.Iz, ib))
	}
	return f
}

// capacityWorking writes Iz = It·Ca·… with the numbers in it.
func capacityWorking(cb *network.Cable, capa cable.Capacity) lines {
	var w lines
	formula, numbers := "Iz = It", capa.Tabulated.String()
	for _, a := range capa.Applied {
		formula += " · " + a.Symbol
		numbers += " × " + num(a.Value, 3)
	}
	w.add("%s, leg %d of %s, method %s", formula, capa.Leg+1, cb.Name, capa.Method)
	w.add("It = %s (%s)", capa.Tabulated, capa.Source)
	for _, a := range capa.Applied {
		line := "  " + a.Symbol + " = " + num(a.Value, 3)
		if a.Note != "" {
			line += ": " + a.Note
		}
		if src := a.Source.String(); src != "" {
			line += " (" + src + ")"
		}
		w = append(w, line)
	}
	w.add("Iz = %s = %s", numbers, capa.Iz)
	return w
}

// capacityRemedies offers the smallest size that carries enough, and the way
// out that fixed lighting has.
func capacityRemedies(c *Context, b int, need q.Ampere) []finding.Remedy {
	br := &c.Net.Branches[b]
	var out []finding.Remedy
	for _, cb := range cable.Family(br.Cable, c.Catalog) {
		capa := cable.Governing(cb, br.Legs, c.Net.Site, &c.Rules.Cable, c.Overload(b))
		if cb.Size > br.Cable.Size && capa.Known && within(float64(need), float64(capa.Iz)) {
			out = append(out, swap(br, cb, capa.Iz.String()))
			break
		}
	}
	if c.Net.Nodes[c.Far(b)].System != 0 {
		return append(out, finding.Remedy{Text: "ask the maker whether the source limits its output to what this cable carries"})
	}
	return append(out,
		finding.Remedy{Text: "use a fuse or breaker of a smaller rating ahead of this run"},
		finding.Remedy{Text: "fixed lighting that cannot overload its cable may do without overload protection (BS 7671 433.3.1); short-circuit protection is still required"})
}

// swap is the remedy of giving a run another cable.
func swap(br *network.Branch, cb *network.Cable, figure string) finding.Remedy {
	r := finding.Remedy{Text: "use " + cb.Name + " for " + br.Label, Figure: figure}
	if br.ID != "" {
		r.Action = &finding.Action{Kind: "cable", ID: br.ID, Value: cb.Key}
	}
	return r
}
