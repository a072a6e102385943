package calc

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// cover is the cautious share for what the bounds leave out: the phase of the
// currents, and that a source draws a little more for what its cables lose.
const cover = 0.01

// farthest is the most that is stated, in m: no garden run is longer, and that
// far out checks would turn that are not looked at here.
const farthest = 1000

// run returns the headroom of a run.
func (r *roomer) run(b int) Headroom {
	c := r.c
	far := c.Far(b)
	if far < 0 {
		return Headroom{}
	}
	h := r.amps[far]
	if !c.Trusted() || !c.Ours(b) || c.InRing(b) {
		return h // in a ring the current moves with the length
	}
	if c.Driven(far) {
		return r.leadIn(b, r.runInString(b, far))
	}
	metres, most := math.Inf(1), math.Inf(1)
	if per := c.PerMetre(b) * float64(c.Flow(b)); per > 0 {
		x, binds, sure := r.volts(b, far, per)
		if x < math.Inf(1) {
			metres, h.MetresBinds = x/per, binds
		}
		if sure < math.Inf(1) {
			most = sure / per
		}
	}
	if t := r.p.far[far].loop; t.node >= 0 {
		if hot, ok := c.HotPerMetre(c.Net.Branches[b].Cable); ok && hot > 0 {
			left := math.Max(t.slack, 0) / float64(hot)
			most = math.Min(most, left)
			if left < metres {
				metres, h.MetresBinds = left, t.code
			}
		}
	}
	if t, each := r.lead[c.Near(b)].stray, c.Rules.Limits.LeakageCable.Value; t.node >= 0 && each > 0 && c.Net.Nodes[far].System == 0 {
		left := t.slack / each
		most = math.Min(most, left)
		if left < metres {
			metres, h.MetresBinds = left, t.code
		}
	}
	if t, each := r.faulted(b, far); t.node >= 0 && each > 0 && t.slack/each < metres {
		metres, h.MetresBinds = t.slack/each, t.code
	}
	if left, ok := c.LeadLeft(b); ok {
		most = math.Min(most, float64(left))
		if float64(left) < metres {
			metres, h.MetresBinds = float64(left), "SRC-07"
		}
	}
	if metres > farthest {
		h.MetresBinds = ""
		return h
	}
	if !math.IsInf(metres, 1) {
		h.Metres = q.Some(q.Metre(metres))
	}
	if !math.IsInf(most, 1) {
		h.Most = q.Some(q.Metre(math.Max(most, metres)))
	}
	return h
}

// leadIn lowers the headroom of a run in a string to what the maker of its
// driver allows.
func (r *roomer) leadIn(b int, h Headroom) Headroom {
	left, ok := r.c.LeadLeft(b)
	if ok && (!h.Metres.Known || left < h.Metres.Value) {
		h.Metres, h.MetresBinds = q.Some(left), "SRC-07"
	}
	if ok && (!h.Most.Known || left < h.Most.Value) {
		h.Most = q.Some(left)
	}
	return h
}

// volts returns how many volts more a run may lose at its present current
// before a check turns, and the volts by which one has certainly turned; per is
// what a metre of it loses.
//
// Let x be those volts, I the current of the run and D and U what is lost at
// most and left at least in the system. Where lamps of constant power answer
// with more current, all currents beyond the run stay within ρ times the
// present ones, and the others within σ (the argument of proposer.growth, for
// the two groups apart; U and D as in sysRoom):
//
//	U/(U - (ρ-1)·D - ρ·x) = ρ      beyond: lose ρ·x + (ρ-1)·D more at most
//	e = (ρ-1)·I·R                  R: Ω from the start of the system to the run
//	U/(U - (σ-1)·D - e) = σ        beside: lose e + (σ-1)·D more at most
//
// The upper bound is the same without any growth: no such current falls when
// the volts do. Where some do (resistive lamps, wound sources) there is none.
// Derived here.
func (r *roomer) volts(b, far int, per float64) (x float64, binds finding.Code, sure float64) {
	c, at := r.c, &r.spot[far]
	all := at.all()
	if all.node < 0 && at.grow.node < 0 {
		return math.Inf(1), "", math.Inf(1)
	}
	sys := c.Net.Nodes[far].System
	s := &r.sys[sys]
	sure = math.Inf(1)
	if all.node >= 0 && c.Net.Nodes[all.node].System == sys && math.IsInf(r.p.pools[sys].lift, 1) && !r.p.pools[sys].wound {
		sure = r.surely(at, sys, per)
	}
	if all.slack <= 0 {
		return 0, all.code, sure
	}
	i, amps := float64(c.Flow(b)), s.amps
	amps.take(s.input)
	holds := func(x float64) (bool, finding.Code) {
		y := x * (1 + cover)
		rho := s.grown(y, true)
		if t := r.left(at, sys, x/per); rho*y+(rho-1)*at.most > t.slack {
			return false, t.code
		}
		if rho-1 > at.grow.slack {
			return false, at.grow.code
		}
		// Currents that fall with the volts: by their share of U/steepness at most.
		lift := r.p.pools[sys].lift
		fall := i * (rho*y + (rho-1)*at.most) / lift
		if fall > s.spare.slack {
			return false, s.spare.code
		}
		if rho == 1 {
			return true, ""
		}
		e := (rho - 1) * i * r.spot[c.Near(b)].ohm
		sigma := s.grown(e, false)
		switch {
		case e+(sigma-1)*s.most > s.volts.slack:
			return false, s.volts.code
		case fall+math.Max(s.flow-i, 0)*(e+(sigma-1)*s.most)/lift > s.spare.slack:
			return false, s.spare.code
		case sigma-1 > s.grow.slack:
			return false, s.grow.code
		case (rho-1)*i+(sigma-1)*math.Max(s.flow-i, 0) > amps.slack:
			return false, amps.code
		}
		return true, ""
	}
	top := math.Min(all.slack+r.c.Rules.Limits.LongRunMost.Value*float64(r.p.nominal(far)), s.low)
	x, binds = largest(top, holds)
	if binds == "" {
		binds = all.code
	}
	return x, binds, sure
}

// faulted is the Ω that a longer run leaves at its far end and beyond while the
// short circuits there stay proved, and the Ω of a metre of it: of the line
// cores cold or, on TN, of the loop hot, whichever is more.
func (r *roomer) faulted(b, far int) (tight, float64) {
	t := r.spot[far].end
	t.take(r.spot[far].fault)
	cb := r.c.Net.Branches[b].Cable
	if math.IsInf(t.slack, 1) || cb == nil {
		return nothing, 0
	}
	each := 2 * float64(cb.R20)
	if e := r.c.Net.Supply.Earthing; e == network.TNS || e == network.TNCS {
		if hot, ok := r.c.HotPerMetre(cb); ok {
			each = math.Max(each, float64(hot))
		}
	}
	return t, each
}

// left is the least of the volts left beyond a run that is some metres longer.
func (r *roomer) left(at *spot, sys int, more float64) tight {
	t := at.drop
	if t.node >= 0 && sys == 0 {
		un := float64(r.c.Net.Systems[sys].Nominal)
		// The gain is least at the shortest or at the longest way.
		t.slack += un * math.Min(r.allowance(at.shortest, more), r.allowance(at.longest, more))
	}
	t.take(at.lamp)
	return t
}

// allowance is what the limit of the drop gains when a way becomes longer, as a
// share of the nominal voltage; see check.Context.DropLimit.
func (r *roomer) allowance(way, more float64) float64 {
	l := &r.c.Rules.Limits
	at := func(m float64) float64 {
		return math.Min(math.Max(m-l.LongRunFrom.Value, 0)*l.LongRunPer.Value, l.LongRunMost.Value)
	}
	return at(way+more) - at(way)
}

// surely is the volts by which the tightest consumer beyond has turned.
func (r *roomer) surely(at *spot, sys int, per float64) float64 {
	sure := math.Inf(1)
	if t := at.drop; t.node >= 0 {
		sure = math.Max(t.slack, 0)
		if un := float64(r.c.Net.Systems[sys].Nominal); sys == 0 {
			most := sure + un*r.c.Rules.Limits.LongRunMost.Value
			sure += un * r.allowance(r.spot[t.node].way, most/per)
		}
	}
	if t := at.lamp; t.node >= 0 {
		sure = math.Min(sure, math.Max(t.slack, 0))
	}
	return sure
}

// grown is the smaller root of the two equations of volts; 1 when no current
// grows as volts fall, +Inf when a collapse cannot be excluded. extra grows
// with the currents or does not.
func (s *sysRoom) grown(extra float64, with bool) float64 {
	if !s.power || extra <= 0 || math.IsInf(s.low, 1) {
		return 1
	}
	u, d := s.low, s.most
	sum, a := u+d, d
	if with {
		a += extra
	} else {
		sum -= extra
	}
	root := sum*sum - 4*a*u
	if sum <= 0 || root < 0 || u <= d {
		return math.Inf(1)
	}
	// Written so that it holds for a = 0 too.
	return math.Max(1, 2*u/(sum+math.Sqrt(root)))
}

// largest is the largest figure up to most for which holds is true, and what
// is not true just above it; "" when all of it holds.
func largest(most float64, holds func(float64) (bool, finding.Code)) (float64, finding.Code) {
	ok, why := holds(most)
	if ok {
		return most, ""
	}
	low, high := 0.0, most
	for range 30 {
		mid := (low + high) / 2
		if ok, code := holds(mid); ok {
			low = mid
		} else {
			high, why = mid, code
		}
	}
	return low, why
}

// reach works out what limits more current at a node from what limits it at
// the node ahead.
func (r *roomer) reach(i int) {
	c := r.c
	l := &r.lead[i]
	*l = lead{perOhm: nothing, volts: nothing, amps: nothing, stray: nothing}
	b := c.Tree.Parent[i]
	if b < 0 {
		l.amps.take(r.carry(i))
		r.leaking(i)
		return
	}
	up := c.Tree.Up(c.Net, i)
	if cv := c.Net.Branches[b].Converter; cv != nil {
		r.spot[i].ohm = float64(cv.Resistance())
		l.amps.take(r.carry(i))
		in := r.across(up, cv)
		l.amps.take(in)
		r.sys[c.Net.Nodes[i].System].input = in
	} else {
		*l = r.lead[up]
		r.spot[i].ohm = r.spot[up].ohm + c.PerMetre(b)*float64(c.Net.Branches[b].Length)
		l.amps.take(r.carry(i))
		r.leaking(i)
	}
	own := r.spot[i].all()
	if own.node < 0 || r.spot[i].ohm <= 0 {
		return
	}
	l.volts.take(own)
	l.perOhm.take(tight{math.Max(own.slack, 0) / r.spot[i].ohm, own.node, own.code})
}

// leaking takes in what the residual devices of a node leave for lamps.
func (r *roomer) leaking(i int) {
	for k := range r.leaks {
		l, at := &r.leaks[k], &r.lead[i]
		if l.Node == i && l.More.Known && (!at.leak.Known || l.More.Value < at.leak.Value) {
			at.leak = l.More
		}
		if l.Node == i { // what was there before is not known: the garden alone turns it
			at.stray.take(tight{math.Max(float64(l.Limit-l.Sum), 0), i, "LEK-01"})
		}
	}
}

// across carries the amperes left at the input of a source to its output.
func (r *roomer) across(in int, cv *network.Converter) tight {
	h := r.more(in)
	u2 := float64(cv.Open())
	if !h.Amperes.Known || u2 <= 0 || cv.Efficiency <= 0 || cv.PowerFactor <= 0 {
		return nothing
	}
	p := float64(h.Amperes.Value) * float64(r.c.Volts(in)) * cv.PowerFactor * cv.Efficiency
	return tight{p / u2 * (1 - cover), in, h.AmperesBinds}
}
