package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// Part is a conductor of a cable that has to stand fault current.
type Part int

const (
	LineCore Part = iota
	EarthConductor
	Armour
)

var partCodes = [...]finding.Code{"ADI-01", "ADI-02", "ADI-03"}
var partNames = [...]string{"line core", "protective core", "armour"}

// Withstand returns k²S² of a part of a cable; ok is false when the cable has
// no such part carrying fault current. A k that the rule set does not hold
// gives 0: nothing is proved.
func (c *Context) Withstand(cb *network.Cable, p Part) (e q.AmpereSquaredSecond, k float64, area q.SquareMetre, src finding.Source, ok bool) {
	name := protect.CorePart
	area = cb.Size
	switch {
	case p == EarthConductor && cb.Earth == network.EarthCore:
		area = cb.EarthSize
	case p == Armour && cb.Earth == network.EarthArmour:
		area, name = cb.ArmourArea, protect.ArmourPart
	case p != LineCore:
		return 0, 0, 0, src, false
	}
	k, src, found := protect.K(name, cb.Insulation, &c.Rules.Protect)
	if !found {
		return 0, 0, area, src, true
	}
	return protect.Withstand(area, k), k, area, src, true
}

// Stress is the energy that a fault puts into a part of a run.
type Stress struct {
	Near       q.AmpereSquaredSecond // bound at the near end, where the current is largest
	NearI      q.Ampere
	NearKnown  bool // NearI follows from the survey
	NearSource finding.Source
	Far        q.AmpereSquaredSecond // at the far end
	FarI       q.Ampere
	FarTimed   bool // Far is I² times the device's time at that current, not a bound
	FarSource  finding.Source
	Known      bool // some bound could be found
}

// Stress returns what a fault behind the overcurrent device ahead of a run
// lets through. The largest current flows at the near end, cold, with Cmax;
// the smallest at the far end, hot, with Cmin. Let-through is bounded by the
// tables and never invented; see protect.LetThrough.
func (c *Context) Stress(b int, p Part) Stress {
	far, near := c.Far(b), c.Near(b)
	z := c.Zone(far)
	if z.Over == nil {
		return Stress{}
	}
	if p != LineCore && c.Net.Supply.Earthing == network.TT {
		return c.earthStress(near, far, z)
	}
	var s Stress
	t, uo := &c.Rules.Protect, c.Net.Supply.Nominal
	s.NearI, s.NearKnown = c.largest(near, p)
	at := s.NearI
	if !s.NearKnown {
		at = assumed(z.Over)
		s.NearI = at
	}
	s.Near, s.NearSource, s.Known = protect.LetThrough(*z.Over, at, uo, t)
	if i, known := c.smallest(far, p); known {
		s.FarI = i
		c.passedFar(z, &s)
	}
	return s
}

// passedFar fills in what passes at the far end at the current FarI.
func (c *Context) passedFar(z *Zone, s *Stress) {
	t, uo, i := &c.Rules.Protect, c.Net.Supply.Nominal, s.FarI
	if e, src, ok := protect.LetThrough(*z.Over, i, uo, t); ok {
		s.Far, s.FarSource, s.Known = e, src, true
	}
	// A fuse that takes longer than it should has a tabulated time at this
	// current; in a breaker's instantaneous band there is only a bound.
	if d, src, ok := protect.FaultTime(*z.Over, i, uo, t); ok && z.Time.Known && d > z.Time.Value {
		s.Far, s.FarSource, s.FarTimed = q.AmpereSquaredSecond(float64(i)*float64(i)*float64(d)), src, true
	}
}

// Spared reports whether a withstand of e is beyond all that the device ahead
// of a run could let through, so that Stress need not be worked out.
func (c *Context) Spared(b int, p Part, e q.AmpereSquaredSecond) bool {
	z := c.Zone(c.Far(b))
	if p != LineCore && c.Net.Supply.Earthing == network.TT {
		return false
	}
	return z.Ceiling.Known && z.Ceiling.Value <= e
}

// OneDevice reports whether the breaker ahead of a run is current limiting, of
// type B or C, and is known to break the fault current where it stands. Where it
// also protects a cable against overload (CAP-02), the line conductors may be
// taken as protected against fault current. Source: BS 7671 435.1 (from memory).
func (c *Context) OneDevice(b int) bool {
	z := c.Zone(c.Far(b))
	if z.Over == nil || z.Over.Kind != network.Breaker && z.Over.Kind != network.RCBO || z.Over.Curve != "B" && z.Over.Curve != "C" {
		return false
	}
	ik, known := c.largest(z.OverAt, LineCore)
	return known && z.Over.Breaking > 0 && within(float64(ik), float64(z.Over.Breaking))
}

// assumedHeld reports whether 435.1 spares the line core of a run the proof.
func (c *Context) assumedHeld(b int, p Part) bool {
	if p != LineCore || !c.Capacity[b].Known {
		return false
	}
	_, carries := overCapacity(c, b)
	return carries && c.OneDevice(b)
}

// earthStress is the energy of a fault to earth on TT, which the residual
// device clears.
func (c *Context) earthStress(near, far int, z *Zone) Stress {
	l := &c.Loops[near]
	if z.Residual == nil || !l.Known || l.Cold <= 0 || !c.Loops[far].Known {
		return Stress{}
	}
	t, uo := &c.Rules.Protect, float64(c.Net.Supply.Nominal)
	at := func(i q.Ampere) (q.AmpereSquaredSecond, finding.Source, bool) {
		s, src, ok := protect.ResidualTimeAt(*z.Residual, i, t)
		return q.AmpereSquaredSecond(float64(i) * float64(i) * float64(s)), src, ok
	}
	out := Stress{NearKnown: true, NearI: q.Ampere(uo * t.Cmax / float64(l.Cold)), FarI: q.Ampere(uo * t.Cmin / float64(c.Loops[far].Hot))}
	out.Near, out.NearSource, out.Known = at(out.NearI)
	out.Far, out.FarSource, out.FarTimed = at(out.FarI)
	return out
}

// largest is the prospective current at a node with the cables cold: line to
// neutral and, where the loop is known, line to earth.
func (c *Context) largest(node int, p Part) (q.Ampere, bool) {
	u := float64(c.Net.Supply.Nominal) * c.Rules.Protect.Cmax
	i := 0.0
	if l := &c.Loops[node]; l.Known && l.Cold > 0 && c.tn() {
		i = u / float64(l.Cold)
	}
	if z := c.plan.short[node]; !math.IsNaN(z) && z > 0 && (p == LineCore || i == 0) {
		i = math.Max(i, u/z)
	}
	return q.Ampere(i), i > 0
}

// smallest is the fault current at a node with the cables hot.
func (c *Context) smallest(node int, p Part) (q.Ampere, bool) {
	l := &c.Loops[node]
	if !l.Known || l.Hot <= 0 || !c.tn() {
		return 0, false
	}
	return q.Ampere(float64(c.Net.Supply.Nominal) * c.Rules.Protect.Cmin / float64(l.Hot)), true
}

// energyFindings judges one part of every run.
func energyFindings(c *Context, p Part, emit func(finding.Finding)) {
	told := func(f finding.Finding) {
		if f.Code != "" {
			emit(f)
		}
	}
	runFindings(c, told,
		func(b int) (float64, bool) {
			if c.Net.Nodes[c.Far(b)].System != 0 {
				return 0, true
			}
			e, _, _, _, ok := c.Withstand(c.Net.Branches[b].Cable, p)
			if !ok {
				return 0, true
			}
			if c.Spared(b, p, e) {
				return 0, true
			}
			s := c.Stress(b, p)
			if !s.Known {
				return 0, true // FLT-01, FLT-03 or CAP-01 say why
			}
			most := float64(max(s.Near, s.Far))
			if e <= 0 {
				return 1e9, false
			}
			return most / float64(e), within(most, float64(e)) || c.assumedHeld(b, p)
		},
		func(b int) finding.Finding { return energyFinding(c, b, p) })
}

// energyFinding is the statement about one part of a run; nothing where the
// cable has no such part that carries fault current.
func energyFinding(c *Context, b int, p Part) finding.Finding {
	br := &c.Net.Branches[b]
	s := c.runSubject(b)
	e, k, area, src, ok := c.Withstand(br.Cable, p)
	if !ok || c.Net.Nodes[c.Far(b)].System != 0 {
		return finding.Finding{}
	}
	st := c.Stress(b, p)
	if !st.Known {
		return unproved(partCodes[p], s, "the fault current or the device is not known well enough to bound what "+s.Label+" has to stand")
	}
	held := e > 0 && (within(float64(max(st.Near, st.Far)), float64(e)) || c.assumedHeld(b, p))
	lv := finding.Decide
	if st.FarTimed && !within(float64(st.Far), float64(e)) {
		lv = finding.Stop
	}
	f := finding.Finding{Code: partCodes[p], Level: level(held, lv), Subject: s, Source: src,
		Figure: max(st.Near, st.Far).String(), Limit: e.String()}
	f.Working, f.Assumed = energyWorking(c, b, p, st, e, k, area)
	f.Text = partNames[p] + " of " + s.Label + " stands " + e.String() + "; up to " + max(st.Near, st.Far).String() + " may pass " + c.Zone(c.Far(b)).Over.Label
	if !held {
		f.Remedies = energyRemedies(c, b, p, max(st.Near, st.Far))
	}
	return f
}

// energyWorking writes k²S² and the energy at both ends.
func energyWorking(c *Context, b int, p Part, st Stress, e q.AmpereSquaredSecond, k float64, area q.SquareMetre) (string, []string) {
	var w lines
	var assumed []string
	t, uo := &c.Rules.Protect, num(float64(c.Net.Supply.Nominal), 1)
	z := c.Zone(c.Far(b))
	w.add("k² · S² ≥ I² · t, %s of %s", partNames[p], c.Net.Branches[b].Cable.Name)
	if k > 0 {
		w.add("k² · S² = %s² × %s² = %s", num(k, 1), num(area.SquareMillimetres(), 2), e)
	} else {
		w.add("the rule set has no k for %s", c.Net.Branches[b].Cable.Insulation)
	}
	if st.NearKnown {
		w.add("near end, cold: I = Uo · Cmax / Z = %s × %s / %s = %s", uo, num(t.Cmax, 2),
			q.Ohm(float64(c.Net.Supply.Nominal)*t.Cmax/float64(st.NearI)), faultAmps(st.NearI))
	} else {
		w.add("near end: fault current not known, %s taken", st.NearI)
		assumed = append(assumed, "prospective fault current not known: "+st.NearI.String()+" taken")
	}
	w.add("  I²t through %s at most %s (%s)", z.Over.Label, st.Near, st.NearSource)
	if st.FarI > 0 && st.Far > 0 {
		w.add("far end, hot: I = Uo · Cmin / Zs = %s × %s / %s = %s", uo, num(t.Cmin, 2),
			c.Loops[c.Far(b)].Hot, faultAmps(st.FarI))
		w.add("  I²t = %s (%s)", st.Far, st.FarSource)
	}
	held := within(float64(max(st.Near, st.Far)), float64(e)) && e > 0
	if !held && e > 0 && c.assumedHeld(b, p) {
		w.add("the bound is above that; but %s protects this cable against overload as well and breaks the fault current,", z.Over.Label)
		w.add("so its line conductors may be taken as protected (BS 7671:2018 435.1 (from memory)): meets the limit")
		return w.String(), assumed
	}
	w.add("%s against %s: %s", max(st.Near, st.Far), e, meets(held))
	if !held && (!st.FarTimed || within(float64(st.Far), float64(e))) {
		w.add("this is a bound from the tables; the maker's let-through figure for %s decides", z.Over.Label)
	}
	return w.String(), assumed
}

func energyRemedies(c *Context, b int, p Part, need q.AmpereSquaredSecond) []finding.Remedy {
	br := &c.Net.Branches[b]
	var out []finding.Remedy
	for _, cb := range c.family(br.Cable) {
		e, _, _, _, ok := c.Withstand(cb, p)
		if ok && cb.Size > br.Cable.Size && within(float64(need), float64(e)) {
			out = append(out, swap(br, cb, e.String()))
			break
		}
	}
	return append(out, finding.Remedy{Text: "ask the maker of " + c.Zone(c.Far(b)).Over.Label + " for its let-through energy at this current"})
}
