package calc

import (
	"math"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// String is the reading of one string of constant current: what its driver has
// to give.
type String struct {
	ID, Label string // of the driver
	System    string // label of its output, as of the points on it
	Drive     q.Ampere
	Lamps     int
	// Volts are what the string takes at Drive, with the temperature of the tables,
	// and Cables what of it is lost in cables; not known where the string forks or
	// has no lamp. Expected are the volts with every conductor as warm as its
	// current makes it.
	Volts, Cables, Expected q.Maybe[q.Volt]
	Least, Most             q.Volt // the range within which the driver holds Drive
	// State is "within", "above" or "below" the range, "forks" or "no lamps".
	State string
}

// stringReadings returns the readings of the strings of a circuit, in the order of the
// tree.
func stringReadings(c *check.Context) []String {
	var out []String
	for k := range c.Strings() {
		s := &c.Strings()[k]
		br := &c.Net.Branches[s.Source]
		r := String{ID: br.ID, Label: br.Label, System: c.Net.Systems[s.System].Label, Drive: br.Converter.Drive, Lamps: len(s.Lamps), Least: br.Converter.Least, Most: br.Converter.Most}
		switch {
		case len(s.Forks) > 0:
			r.State = "forks"
		case len(s.Lamps) == 0:
			r.State = "no lamps"
		default:
			r.State = [...]string{"below", "within", "above"}[c.Fits(s)+1]
			r.Volts = q.Some(c.Volts(s.Head))
			r.Cables = q.Some(s.Volts(c.Net, func(b int) float64 { return c.PerMetre(b) * float64(c.Net.Branches[b].Length) }) - lampVolts(c, s))
			r.Expected = warmString(c, s)
		}
		out = append(out, r)
	}
	return out
}

func lampVolts(c *check.Context, s *network.String) q.Volt {
	var u q.Volt
	for _, i := range s.Lamps {
		u += c.Across(i)
	}
	return u
}

// warmString is the volts of a string with its conductors at their operating
// temperature.
func warmString(c *check.Context, s *network.String) q.Maybe[q.Volt] {
	u := lampVolts(c, s)
	for _, b := range s.Chain {
		v, ok := c.ExpectedDrop(b)
		if !ok {
			return q.Maybe[q.Volt]{}
		}
		u += v
	}
	return q.Some(u)
}

// driven turns the reading at a node of a string into what a meter shows there:
// at a lamp the volts across it, elsewhere those between the two cores. A string
// that its driver cannot feed has no reading, and no light that is known.
func (p *Point) driven(c *check.Context, i int, warm float64) {
	n := &c.Net.Nodes[i]
	p.Drive = c.Net.Systems[n.System].Drive
	p.Trusted = p.Trusted && c.StringHolds(i)
	p.Expected, p.Light, p.DropRatio = q.Maybe[q.Volt]{}, q.Maybe[float64]{}, 0
	start := c.Volts(i)
	for k := range c.Strings() {
		if s := &c.Strings()[k]; s.System == n.System {
			start = c.Volts(s.Head)
			if v := warmString(c, s); v.Known && p.Trusted && !math.IsNaN(warm) {
				// What lamps ahead take does not warm up: only the cables differ.
				ahead := start - c.Volts(i) - c.Drop(i)
				p.Expected = q.Some(v.Value - ahead - q.Volt(warm))
			}
		}
	}
	if start > 0 {
		p.DropRatio = float64(p.Drop / start)
	}
	if n.Kind == network.LampNode && len(n.Loads) > 0 {
		p.Voltage, p.Nominal = c.Across(i), c.Across(i)
		if p.Trusted {
			p.Expected = q.Some(p.Voltage)
			p.Light.Value, p.Light.Known = n.Loads[0].DrivenLight(p.Drive)
		}
	}
}

// stringVolts judges a cable within a string: its loss counts towards the range
// of the driver.
func (p *proposer) stringVolts(far int, extra float64, v *verdict) {
	c := p.c
	for k := range c.Strings() {
		s := &c.Strings()[k]
		if s.System != c.Net.Nodes[far].System || !s.Lights() {
			continue
		}
		cv, u := c.Net.Branches[s.Source].Converter, float64(c.Volts(s.Head))+extra
		v.take(verdict{code: stringCode, use: u / float64(cv.Most), figure: u, limit: float64(cv.Most), node: s.Head})
		if u < float64(cv.Least) {
			v.take(verdict{code: stringCode, use: math.Max(float64(cv.Least)/u, 1+lastBit), figure: u, limit: float64(cv.Least), node: s.Head})
		}
	}
}

// stringCode is the check of a string's volts.
const stringCode finding.Code = "SRC-04"

// stringRoom is the volts that the driver of a node's string has left; ok is
// false where the string is no answer now.
func (r *roomer) stringRoom(i int) (left float64, ok bool) {
	c := r.c
	for k := range c.Strings() {
		s := &c.Strings()[k]
		if s.System == c.Net.Nodes[i].System && s.Lights() && c.Fits(s) == 0 {
			cv := c.Net.Branches[s.Source].Converter
			most := math.Min(float64(cv.Most), float64(cv.Rated)/float64(cv.Drive))
			return math.Max(most-float64(c.Volts(s.Head)), 0), true
		}
	}
	return 0, false
}

// moreInString is the headroom of a point of a string: its current is given, and
// each lamp more takes its volts.
func (r *roomer) moreInString(i int) Headroom {
	m := r.median[r.c.Net.Nodes[i].System]
	left, ok := r.stringRoom(i)
	if !ok || m.Current <= 0 || m.Power <= 0 {
		return Headroom{}
	}
	n := math.Floor(left*float64(m.Current)/float64(m.Power) + 1e-9)
	return Headroom{Lamps: q.Some(q.Count(n)), LampsBinds: stringCode}
}

// runInString is the metres that a run of a string may be longer.
func (r *roomer) runInString(b, far int) Headroom {
	h := r.amps[far]
	per := r.c.PerMetre(b) * float64(r.c.Flow(b))
	if left, ok := r.stringRoom(far); ok && per > 0 && left/per <= farthest {
		h.Metres, h.Most, h.MetresBinds = q.Some(q.Metre(left/per)), q.Some(q.Metre(left/per)), stringCode
	}
	return h
}
