package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// CTL-03: a photocell that may see the light of its own lamps: it switches them
// off again and on again. Where the lamp's peak or flux and the cell's threshold are
// known, the light at the cell if the beam fell on it square:
//
//	E = I/d²,  I the peak; where it is not known Φ/(2π·(1 - cos(β/2))), without a beam Φ/π
//
// otherwise only the distance is judged. Source: inverse-square law; the
// distance is common practice, no source. Walls between are not looked at.
var cellRule = Rule{Code: "CTL-03", Title: "Photocell near its own lamps", Run: cell}

var squareSource = finding.Source{Standard: "inverse-square law, the beam taken as even and falling square on the cell", Evidence: finding.Derived}

// sight is one lamp as its photocell may see it.
type sight struct {
	lamp  int
	far   q.Metre
	lux   q.Lux
	known bool // lux and threshold are known
	over  bool
}

func cell(c *Context, emit func(finding.Finding)) {
	for i := range c.Net.Nodes {
		g := c.Net.Nodes[i].Gear
		if g == nil || g.Kind != network.Photocell {
			continue
		}
		var worst *sight
		var also []finding.Subject
		for _, k := range c.switched(i) {
			v := c.sight(i, k, g)
			if v.over {
				also = append(also, c.subject(k))
			}
			if worst == nil || v.over && !worst.over || v.over == worst.over && v.far < worst.far {
				worst = &v
			}
		}
		if worst == nil || !worst.over && c.Rules.Limits.CellDistance.Value <= 0 {
			continue
		}
		if c.Wants(!worst.over, c.subject(i).ID) {
			emit(cellFinding(c, i, g, worst, also))
		}
	}
}

// switched returns the lamps that gear switches: those of its zones, else all
// behind it.
func (c *Context) switched(gear int) []int {
	var out []int
	for _, z := range c.zonesOn(gear) {
		out = append(out, z.Lamps...)
	}
	if out != nil {
		return out
	}
	s := c.supplied()
	for i := range c.Net.Nodes {
		if n := &c.Net.Nodes[i]; n.Kind == network.LampNode && !n.Tail && s.first[i] >= 0 && s.beyond(i, gear) {
			out = append(out, i)
		}
	}
	return out
}

func (c *Context) sight(cell, lamp int, g *network.Gear) sight {
	a, b := &c.Net.Nodes[cell], &c.Net.Nodes[lamp]
	d := math.Sqrt(sq(a.East-b.East) + sq(a.North-b.North) + sq(a.Height-b.Height))
	v := sight{lamp: lamp, far: q.Metre(d)}
	if f := b.Fitting; f != nil && (f.Flux > 0 || f.Peak > 0) && g.Threshold.Known {
		v.known = true
		v.lux = q.Lux(intensity(f) / math.Max(d*d, 1e-4))
		v.over = float64(v.lux) >= float64(g.Threshold.Value)
		return v
	}
	limit := c.Rules.Limits.CellDistance.Value
	v.over = limit > 0 && d < limit*(1-1e-9)
	return v
}

func sq(m q.Metre) float64 { return float64(m) * float64(m) }

// intensity is the peak of a lamp where it is known, else the luminous intensity of
// an even beam, in candelas.
func intensity(f *network.Fitting) float64 {
	if f.Peak > 0 {
		return float64(f.Peak)
	}
	if f.Beam <= 0 || f.Beam > 360 {
		return float64(f.Flux) / math.Pi
	}
	return float64(f.Flux) / (2 * math.Pi * (1 - math.Cos(f.Beam/2*math.Pi/180)))
}

func cellFinding(c *Context, i int, g *network.Gear, v *sight, also []finding.Subject) finding.Finding {
	s, lamp, limit := c.subject(i), c.subject(v.lamp), c.Rules.Limits.CellDistance
	f := finding.Finding{Code: "CTL-03", Level: level(!v.over, finding.Decide), Subject: s, Source: limit.Source,
		Figure: v.far.String(), Limit: "at least " + q.Metre(limit.Value).String()}
	var w lines
	w.add("nearest lamp that %s switches: %s, %s away", s.Label, lamp.Label, v.far)
	if v.known {
		fit := c.Net.Nodes[v.lamp].Fitting
		f.Source, f.Figure, f.Limit = squareSource, v.lux.String(), "below "+g.Threshold.Value.String()
		from := "for " + fit.Flux.String() + " and a beam of " + num(fit.Beam, 0) + "°"
		if fit.Peak > 0 {
			from = "where it is brightest"
		}
		w.add("I = %s cd %s; E = I/d² = %s", num(intensity(fit), 0), from, v.lux)
		w.add("it switches on below %s", g.Threshold.Value)
		f.Assumed = append(f.Assumed, "the beam taken to fall on the cell: walls, shades and the aim of the lamp are not looked at")
	} else {
		w.add("flux or threshold not known, so the distance is judged: at least %s", q.Metre(limit.Value))
	}
	f.Working = w.String()
	f.Text = s.Label + " stands clear of the lamps that it switches"
	if v.over {
		for _, a := range also {
			if a != lamp {
				f.Also = append(f.Also, a)
			}
		}
		f.Also = append([]finding.Subject{lamp}, f.Also...)
		f.Text = s.Label + " may see the light of " + lamp.Label + " that it switches, " + v.far.String() + " away, and switch it off again"
		f.Remedies = []finding.Remedy{{Text: "move the cell round a corner or above the lamps, facing north"}, {Text: "shield it from the lamps"}, {Text: "use a time switch that knows the sunset"}}
	}
	return f
}
