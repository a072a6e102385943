package derive

import (
	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// Reference conditions taken where the survey is silent: BS 7671 Appendix 4,
// headings of the rating tables (air 30 °C, ground 20 °C, soil 2.5 K·m/W);
// cold tests at 20 °C, the temperature of the resistance tables.
const (
	referenceAir    = 30
	referenceGround = 20
	referenceSoil   = q.KelvinMetrePerWatt(2.5)
	referenceTest   = 20
)

// site is what every circuit of the scheme depends on besides its own parts.
type site struct {
	survey  doc.Survey
	country string
	rules   *check.Rules
	stock   *doc.Stock
}

// deriver is the state of one derivation.
type deriver struct {
	scheme    *doc.Scheme
	stock     *doc.Stock
	rules     *check.Rules
	at        map[doc.ID]doc.Entity // points that a run can be joined to
	joined    map[doc.ID][]*doc.Run // runs at each point, in run order
	lampStock map[string]doc.LampStock
	measured  map[doc.ID]*measured
	ground    *ground
	laid      map[doc.ID]*laid            // ways of the runs
	stood     map[doc.ID]stood            // places of what stands on circuits
	before    map[doc.ID]stood            // those of the scheme before
	fittings  map[string]*network.Fitting // by stock key
	sheath    map[doc.ID][]*doc.Run       // runs by the run whose cable they lie in, itself first
}

// Scheme derives the circuits of a scheme. A circuit of prev whose parts are
// all unchanged is taken over as it is, so that its Input.Net is the same
// pointer and its evaluation can be reused; the result never depends on prev
// otherwise. prev may be nil.
func Scheme(s *doc.Scheme, stock *doc.Stock, rules *check.Rules, prev *Circuits) *Circuits {
	d := &deriver{scheme: s, stock: stock, rules: rules}
	d.index()
	out := &Circuits{site: site{s.Survey, s.Country, rules, stock}}
	if prev != nil && prev.site != out.site {
		prev = nil
	}
	d.measureAll(out, prev)
	d.stood = make(map[doc.ID]stood, len(d.at))
	if prev != nil {
		d.before = prev.stood
	}
	out.ground, out.laid, out.stood = d.ground, d.laid, d.stood
	reached := map[doc.ID]bool{}
	for _, sp := range s.Supplies.All() {
		w := d.walkFrom(sp)
		d.survey(w)
		c := reuse(prev, sp.ID, w)
		if c == nil {
			c = d.build(sp, w)
		}
		for _, st := range w.steps {
			if st.entity != nil {
				reached[st.entity.Key()] = true
			}
			if st.run != nil {
				reached[st.run.ID] = true
			}
		}
		for _, list := range [][]crossing{w.loops, w.rings, w.joined, w.bare} {
			for _, x := range list {
				reached[x.run.ID] = true
			}
		}
		d.behindBare(w, reached)
		out.Circuits = append(out.Circuits, *c)
	}
	out.Loose = calc.Input{Rules: rules, Catalog: stock.Cables, Net: &network.Net{Faults: d.loose(reached)}}
	return out
}

// index makes the look-up maps of the scheme.
func (d *deriver) index() {
	s := d.scheme
	n := s.Boxes.Len() + s.Lamps.Len() + s.Gear.Len() + s.Sources.Len() + s.Supplies.Len()
	d.at = make(map[doc.ID]doc.Entity, n)
	fill(d.at, s.Supplies)
	fill(d.at, s.Boxes)
	fill(d.at, s.Lamps)
	fill(d.at, s.Gear)
	fill(d.at, s.Sources)
	d.joined = make(map[doc.ID][]*doc.Run, n)
	for _, r := range s.Runs.All() {
		d.joined[r.From.On] = append(d.joined[r.From.On], r)
		if r.To.On != r.From.On {
			d.joined[r.To.On] = append(d.joined[r.To.On], r)
		}
	}
	d.sheath = sheaths(s)
	d.lampStock = make(map[string]doc.LampStock, len(d.stock.Lamps))
	for _, l := range d.stock.Lamps {
		if _, twice := d.lampStock[l.Key]; !twice {
			d.lampStock[l.Key] = l
		}
	}
}

func fill[E doc.Entity](at map[doc.ID]doc.Entity, s doc.Set[E]) {
	for _, e := range s.All() {
		at[e.Key()] = e
	}
}

// measureAll measures every run, taking over what still holds.
func (d *deriver) measureAll(out, prev *Circuits) {
	runs := d.scheme.Runs.All()
	routes := make([]*route, len(runs))
	olds := make([]*measured, len(runs))
	for i, r := range runs {
		if prev != nil {
			olds[i] = prev.measured[r.ID]
		}
		routes[i] = d.routeOf(r, olds[i])
	}
	shared := groups(routes)
	d.measured = make(map[doc.ID]*measured, len(runs))
	out.Lengths = make([]Length, 0, len(runs))
	for i, r := range runs {
		m := olds[i]
		if m == nil || !m.current(routes[i], shared) {
			m = d.measure(routes[i], shared)
		}
		d.measured[r.ID] = m
		out.Lengths = append(out.Lengths, m.Length)
	}
	out.measured = d.measured
	d.ground = d.groundOf(prev)
	d.layAll(routes, prev)
}

// reuse returns the circuit of the supply point in prev if its walk is equal.
func reuse(prev *Circuits, id doc.ID, w *walk) *Circuit {
	if prev == nil {
		return nil
	}
	for i := range prev.Circuits {
		if c := &prev.Circuits[i]; c.Supply == id && w.equal(c.walk) {
			return c
		}
	}
	return nil
}

func subject(e doc.Entity) finding.Subject {
	if e == nil {
		return finding.Subject{Label: "in the air"}
	}
	return finding.Subject{ID: string(e.Key()), Label: e.Label()}
}
