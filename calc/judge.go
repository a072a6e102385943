package calc

import (
	"math"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// verdict is how one cable would do in the place of a run's: the check that is
// nearest to its limit, or furthest over it.
type verdict struct {
	code   finding.Code
	use    float64 // figure over limit; above 1 it fails
	figure float64
	limit  float64
	node   int // where, for drops and loops
}

func (v *verdict) take(o verdict) {
	if v.code == "" || o.use > v.use {
		*v = o
	}
}

// passes leaves no slack: a proposal has to hold when it is applied.
func (v verdict) passes() bool { return v.use <= 1 }

// judge returns the verdict on a cable for run b, everything else as it is.
func (p *proposer) judge(b int, cb *network.Cable) verdict {
	var v verdict
	far := p.c.Far(b)
	if p.c.InRing(b) {
		return p.judgeRing(b, cb)
	}
	grow, extra := p.growth(b, far, cb)
	p.judgeCapacity(b, far, cb, grow, &v)
	if math.IsInf(v.use, 1) {
		return v
	}
	p.judgeVolts(b, far, grow, extra, &v)
	if p.c.Net.Nodes[far].System == 0 {
		p.judgeLoop(b, far, cb, &v)
		for part := check.LineCore; part <= check.Armour; part++ {
			p.judgeEnergy(b, part, cb, &v)
		}
	}
	return v
}

// growth bounds what a cable does to the currents of its system and to the
// voltage at the far end of the run. Let x be the volts that the run would
// lose more at the present current. Lamps of constant power answer lower volts
// with more current, which costs volts again. All currents of the system stay
// within ρ times the present ones when at every lamp
//
//	U/(U - (ρ-1)·D - ρ·x) <= ρ
//
// with U its voltage and D what is lost up to it. With the lowest U and the
// largest D of the system that is a quadratic in ρ whose smaller root is taken:
//
//	ρ = [(U+D) - sqrt((U+D)² - 4·(D+x)·U)] / (2·(D+x))
//
// No root means that a collapse cannot be excluded, and ρ is +Inf. A thicker
// cable lets no current of that kind grow; filaments may by (U+|x|)/U, strips with
// resistors by (U-Uf+|x|)/(U-Uf). Derived
// here; a fixed-point argument (Brouwer) on the box of currents up to ρ.
// extra is x with its sign, in V.
func (p *proposer) growth(b, far int, cb *network.Cable) (grow, extra float64) {
	if !p.trusted {
		return 1, 0
	}
	c := p.c
	br := &c.Net.Branches[b]
	pl := &p.pools[c.Net.Nodes[far].System]
	per := p.traits(cb).drop - p.traits(br.Cable).drop
	l := float64(br.Length)
	if c.Driven(far) {
		return 1, per * float64(c.Flow(b)) * l // the current is given
	}
	// A hundredth on the cautious side covers what the bound leaves out: phase and
	// the source's own input.
	const margin = 0.01
	if per <= 0 {
		extra = per * float64(c.Flow(b)) * l
		if extra > 0 {
			extra = 0
		}
		extra *= 1 - margin
		if !math.IsInf(pl.lift, 1) {
			return 1 + 1.1*math.Abs(per)*float64(c.Flow(b))*l/pl.lift, extra
		}
		return 1, extra
	}
	extra = per * float64(c.Flow(b)) * l * (1 + margin)
	x := extra
	if pl.wound {
		x *= 1.7 // the losses behind a wound source grow too
	}
	if extra == 0 || math.IsInf(pl.low, 1) {
		return 1, extra
	}
	u, d := pl.low, pl.most
	root := (u+d)*(u+d) - 4*(d+x)*u
	if u <= d || root < 0 {
		return math.Inf(1), extra
	}
	return ((u + d) - math.Sqrt(root)) / (2 * (d + x)), extra
}

// judgeCapacity compares the corrected capacity with device and current.
func (p *proposer) judgeCapacity(b, far int, cb *network.Cable, grow float64, v *verdict) {
	capa, _ := p.rate.worst(cb, b)
	if capa == nil || !capa.Known {
		v.take(verdict{code: "CAP-03", use: math.Inf(1), node: -1})
		return
	}
	need := float64(p.c.Demand(b).Iz)
	if p.trusted && !math.IsInf(grow, 1) {
		need = math.Max(need, float64(p.c.Flow(b))*grow)
	}
	v.take(verdict{code: "CAP-02", use: need / float64(capa.Iz), figure: float64(capa.Iz), limit: need, node: -1})
}

// judgeVolts compares the drops and voltages beyond the run.
func (p *proposer) judgeVolts(b, far int, grow, extra float64, v *verdict) {
	if !p.trusted {
		return
	}
	c, f := p.c, &p.far[far]
	if c.Driven(far) {
		p.stringVolts(far, extra, v)
		return
	}
	pl := &p.pools[c.Net.Nodes[far].System]
	if math.IsInf(grow, 1) {
		v.take(verdict{code: "SOL-01", use: grow, node: far})
		return
	}
	// Volts lost more at the far end and at every lamp beyond, at most.
	loss := grow*extra + (grow-1)*math.Max(f.most, 0)
	if extra <= 0 {
		loss = extra + (grow-1)*f.most
		rise := -extra
		if pl.low > pl.most {
			rise *= pl.low / (pl.low - pl.most) * 1.02
		}
		if rise > f.high && f.high >= 0 {
			v.take(verdict{code: "VD-03", use: 1.01, figure: rise, limit: f.high, node: far})
		}
	} else if grow > pl.room {
		v.take(verdict{code: v.overCode(f), use: grow / pl.room, figure: grow, limit: pl.room, node: -1})
	}
	if f.drop.node >= 0 {
		v.take(p.dropVerdict(f.drop, loss))
	}
	if f.lamp.node >= 0 {
		v.take(p.lampVerdict(f.lamp, loss))
	}
}

// overCode names the drop check of the system when its room runs out.
func (v *verdict) overCode(f *beyond) finding.Code {
	if f.drop.code != "" {
		return f.drop.code
	}
	return "VD-01"
}

// dropVerdict is the drop at the tightest lamp with loss added.
func (p *proposer) dropVerdict(t tight, loss float64) verdict {
	ratio, _ := p.c.DropLimit(t.node)
	limit := ratio * float64(p.nominal(t.node))
	figure := float64(p.c.Drop(t.node)) + loss
	use := figure / limit
	if over := loss - t.slack; over > 0 {
		use = math.Max(use, 1+over/limit)
	}
	return verdict{code: t.code, use: use, figure: figure / float64(p.nominal(t.node)), limit: ratio, node: t.node}
}

// lampVerdict is the voltage at the lamp nearest its lower limit. Its use is
// the share of the volts it may lose from nominal, so that it can stand beside
// a drop.
func (p *proposer) lampVerdict(t tight, loss float64) verdict {
	low, _ := p.c.LampLimits(t.node)
	u, un := float64(p.c.Volts(t.node))-loss, float64(p.nominal(t.node))
	use := (un - u) / (un - float64(low))
	if un <= float64(low) {
		use = float64(low) / u
	}
	if over := loss - t.slack; over > 0 {
		use = math.Max(use, 1+over/float64(low))
	}
	return verdict{code: t.code, use: use, figure: u, limit: float64(low), node: t.node}
}

// judgeLoop compares the fault loop at the tightest point beyond.
func (p *proposer) judgeLoop(b, far int, cb *network.Cable, v *verdict) {
	c, f := p.c, &p.far[far]
	br := &c.Net.Branches[b]
	now, then := p.traits(br.Cable), p.traits(cb)
	if !now.path || !then.path {
		return // FLT-04, whatever the size
	}
	change := float64(then.hot-now.hot) * float64(br.Length)
	if t := f.loop; t.node >= 0 {
		limit, _ := c.LoopLimit(t.node)
		hot := float64(c.Loops[t.node].Hot) + change
		use := hot / float64(limit)
		if change > t.slack {
			use = math.Max(use, 1+1e-9)
		}
		v.take(verdict{code: t.code, use: use, figure: hot, limit: float64(limit), node: t.node})
	}
}

// judgeEnergy compares what the device lets through with what a part of the
// cable stands. The current at the near end does not depend on this run.
func (p *proposer) judgeEnergy(b int, part check.Part, cb *network.Cable, v *verdict) {
	c := p.c
	s := &p.traits(cb).stands[part]
	if !s.ok {
		return
	}
	e := s.energy
	code := [...]finding.Code{"ADI-01", "ADI-02", "ADI-03"}[part]
	if c.Spared(b, part, e) {
		return // beyond anything that could pass, so never what binds
	}
	if part == check.LineCore && e > 0 && c.OneDevice(b) {
		return // taken as protected where CAP-02 holds, which is judged by itself
	}
	st := c.Stress(b, part)
	if !st.Known {
		return
	}
	most := max(st.Near, st.Far)
	v.take(verdict{code: code, use: energyUse(most, e), figure: float64(e), limit: float64(most), node: -1})
}

// energyUse compares areas and not energies, so that it can stand beside the
// other checks.
func energyUse(most, e q.AmpereSquaredSecond) float64 {
	if e <= 0 {
		return math.Inf(1)
	}
	return math.Sqrt(float64(most) / float64(e))
}
