package derive

import (
	"sync"

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
	*points
	stock     *doc.Stock
	rules     *check.Rules
	lampStock map[string]*lampItem
	measured  []*measured // per run
	ground    *ground
	changed   *changes                    // of the ground, against the scheme before
	laid      []*laid                     // per run: its way
	stood     []stood                     // per point: where it stands
	before    *Circuits                   // of the scheme before, nil for none
	kept      bool                        // points have the numbers they had before
	fit       sync.Mutex                  // over fittings: circuits are built side by side
	fittings  map[string]*network.Fitting // of sources, by stock key
	zoned     map[doc.ID]int              // lamps by zone; nil until asked for
	sheath    map[doc.ID][]*doc.Run       // runs by the run whose cable they lie in, itself first
	cables    map[string]*network.Cable   // of the stock book, by key
}

// reached marks the points and runs that belong to some circuit.
type reached struct{ points, runs []bool }

// Scheme derives the circuits of a scheme. A circuit of prev whose parts are
// all unchanged is taken over as it is, so that its Input.Net is the same
// pointer and its evaluation can be reused; the result never depends on prev
// otherwise. prev may be nil.
func Scheme(s *doc.Scheme, stock *doc.Stock, rules *check.Rules, prev *Circuits) *Circuits {
	out := &Circuits{site: site{s.Survey, s.Country, rules, stock}}
	if prev != nil && prev.site != out.site {
		prev = nil
	}
	d := &deriver{stock: stock, rules: rules, before: prev}
	d.index(s)
	d.measureAll(out)
	d.stood = make([]stood, len(d.all))
	out.points, out.ground, out.laid, out.stood = d.points, d.ground, d.laid, d.stood
	seen := reached{make([]bool, len(d.all)), make([]bool, s.Runs.Len())}
	walks := make([]*walk, s.Supplies.Len())
	beside(len(d.all), d.standAll, func() {
		for i, sp := range s.Supplies.All() {
			walks[i] = d.walkFrom(d.from[supplies]+i, sp)
		}
	})
	for i, sp := range s.Supplies.All() {
		w := walks[i]
		d.survey(w)
		old, same := reuse(prev, sp.ID, w)
		c := old
		if !same {
			c = d.build(sp, w, old)
		}
		for _, n := range w.points {
			if n >= 0 {
				seen.points[n] = true
			}
		}
		for _, n := range w.used {
			seen.runs[n] = true
		}
		d.behindBare(w, seen)
		out.Circuits = append(out.Circuits, *c)
	}
	out.Loose = calc.Input{Rules: rules, Catalog: stock.Cables, Net: &network.Net{Faults: d.loose(seen)}}
	return out
}

// index makes the look-up maps of the scheme.
func (d *deriver) index(s *doc.Scheme) {
	var old *points
	if d.before != nil {
		old = d.before.points
	}
	d.points = pointsOf(s, old)
	d.kept = d.keeps(old)
	d.sheath = sheaths(s)
	d.cables = make(map[string]*network.Cable, len(d.stock.Cables))
	for _, c := range d.stock.Cables {
		if d.cables[c.Key] == nil {
			d.cables[c.Key] = c
		}
	}
	d.lampStock = make(map[string]*lampItem, len(d.stock.Lamps))
	items := make([]lampItem, len(d.stock.Lamps))
	for i := range d.stock.Lamps {
		l := &d.stock.Lamps[i]
		if d.lampStock[l.Key] == nil {
			items[i] = lampItem{l, lampFitting(l)}
			d.lampStock[l.Key] = &items[i]
		}
	}
}

// measureAll measures every run, taking over what still holds.
func (d *deriver) measureAll(out *Circuits) {
	runs := d.scheme.Runs.All()
	routes := make([]*route, len(runs))
	olds := make([]int, len(runs)) // number before, -1 for none
	last := func(i int) *measured {
		if olds[i] < 0 {
			return nil
		}
		return d.before.measured[olds[i]]
	}
	var before *census
	if d.before != nil {
		before = d.before.shared
	}
	d.takeGround()
	d.laid = make([]*laid, len(runs))
	inParts(len(runs), func(from, to int) {
		for i := from; i < to; i++ {
			olds[i] = -1
			if d.before != nil {
				olds[i] = d.runBefore(i, d.before.points)
			}
			routes[i] = d.routeOf(i, runs[i], last(i))
			d.lay(i, routes[i], olds[i])
		}
	})
	d.measured = make([]*measured, len(runs))
	out.measured, out.Lengths = d.measured, make([]Length, len(runs))
	measure := func() {
		out.shared = censusOf(routes, before)
		for i := range runs {
			m := last(i)
			if m == nil || m.route != routes[i] || out.shared.differs(routes[i], before) && !m.current(routes[i], out.shared) {
				m = d.measure(routes[i], out.shared)
			}
			d.measured[i] = m
			out.Lengths[i] = m.Length
		}
	}
	// Lengths ask nothing of the ground, and the ground nothing of lengths.
	beside(len(runs), measure, func() { d.layAll(routes, olds) })
}

// reuse returns the circuit that the supply point had in prev, nil for none, and
// whether it is the circuit of the walk still.
func reuse(prev *Circuits, id doc.ID, w *walk) (c *Circuit, same bool) {
	if prev == nil {
		return nil, false
	}
	for i := range prev.Circuits {
		if c := &prev.Circuits[i]; c.Supply == id {
			return c, w.equal(c.walk)
		}
	}
	return nil, false
}

// cable returns the cable of the stock book with a key.
func (d *deriver) cable(key string) (*network.Cable, bool) {
	c, ok := d.cables[key]
	return c, ok
}

// lampItem is a lamp of the stock book with what the supply has to know of it.
type lampItem struct {
	*doc.LampStock
	fitting network.Fitting
}

// unknownLamp is what is known of a lamp that the stock book does not have.
func unknownLamp() *lampItem { return &lampItem{LampStock: &doc.LampStock{}} }

// lampItem returns the item of a lamp.
func (d *deriver) lampItem(key string) (item *lampItem, ok bool) {
	if item = d.lampStock[key]; item == nil {
		return unknownLamp(), false
	}
	return item, true
}

func subject(e doc.Entity) finding.Subject {
	if e == nil {
		return finding.Subject{Label: "in the air"}
	}
	return finding.Subject{ID: string(e.Key()), Label: e.Label()}
}
