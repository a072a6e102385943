package tool

import (
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// lowVoltage is the limit of extra-low voltage between conductors in
// alternating current, 50 V (IEC 61140, common definition; from memory). A
// lamp made for less than that belongs on the output of a source.
const lowVoltage q.Volt = 50

// system is what is known of the voltage at an entity.
type system int

const (
	unknown system = iota
	mains
	low
)

// systemOf tells which system an entity is on: what it is by itself, else
// what the circuit of the current frame says of it.
func systemOf(w *World, id doc.ID, side doc.Side) system {
	s := w.Scheme
	if _, ok := s.Supplies.Get(id); ok {
		return mains
	}
	if _, ok := s.Sources.Get(id); ok {
		switch side {
		case doc.Primary:
			return mains
		case doc.Secondary:
			return low
		}
		return unknown
	}
	if lamp, ok := s.Lamps.Get(id); ok && w.Stock != nil {
		if item, ok := w.Stock.Lamp(lamp.Stock); ok && item.Load.Nominal > 0 {
			if item.Load.Nominal < lowVoltage {
				return low
			}
			return mains
		}
	}
	return circuitSystem(w, id)
}

func circuitSystem(w *World, id doc.ID) system {
	if w.Circuit == nil {
		return unknown
	}
	for i := range w.Circuit.Circuits {
		c := &w.Circuit.Circuits[i]
		node, ok := c.Node[id]
		if !ok || c.Input.Net == nil || node >= len(c.Input.Net.Nodes) {
			continue
		}
		if c.Input.Net.Nodes[node].System == 0 {
			return mains
		}
		return low
	}
	return unknown
}

// sideOf returns the side of a source that a run joins when its other end is
// on a thing of the system: mains things feed the primary. Of an unknown one
// the secondary is taken, unless the run is drawn towards a source that
// nothing feeds yet.
func sideOf(w *World, source doc.ID, other system, towards bool) doc.Side {
	switch {
	case other == mains:
		return doc.Primary
	case other == low:
		return doc.Secondary
	case towards && !fed(w.Scheme, source):
		return doc.Primary
	}
	return doc.Secondary
}

// fed reports whether a run is joined to the primary side of a source.
func fed(s *doc.Scheme, source doc.ID) bool {
	for _, r := range s.Runs.All() {
		for _, e := range []doc.End{r.From, r.To} {
			if e.On == source && e.Side == doc.Primary {
				return true
			}
		}
	}
	return false
}

// ends returns both ends of a run drawn from one place to another, with the
// sides of sources chosen.
func ends(w *World, from, to snapped) (a, b doc.End) {
	a, b = bare(from), bare(to)
	_, aSource := w.Scheme.Sources.Get(a.On)
	_, bSource := w.Scheme.Sources.Get(b.On)
	switch {
	case aSource && bSource:
		// From the output of one to the input of the next; the finding about
		// the voltage then says what is wrong with it.
		a.Side, b.Side = doc.Secondary, doc.Primary
	case aSource:
		a.Side = sideOf(w, a.On, systemOf(w, b.On, b.Side), false)
	case bSource:
		b.Side = sideOf(w, b.On, systemOf(w, a.On, a.Side), true)
	}
	return a, b
}

// bare returns the end of a run at a snapped place, without a side.
func bare(s snapped) doc.End {
	if s.rank == geom.RankPoint {
		return doc.End{On: s.on}
	}
	return doc.End{At: s.at}
}

// endOn returns the end of a run that is joined at a place, as the start of a new run
// or its end would be, while its other end stays as it is.
func endOn(w *World, s snapped, other doc.End, start bool) doc.End {
	e := bare(s)
	if _, ok := w.Scheme.Sources.Get(e.On); !ok {
		return e
	}
	if _, both := w.Scheme.Sources.Get(other.On); both {
		e.Side = doc.Primary
		if start {
			e.Side = doc.Secondary
		}
		return e
	}
	e.Side = sideOf(w, e.On, systemOf(w, other.On, other.Side), !start)
	return e
}
