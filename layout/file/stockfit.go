package file

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// What the supply has to know of stock items: leakage, inrush, dimming and the
// ratings of gear. All of it may be left out and is then unknown.

// answer reads true or false; a missing one is not said.
func answer(o *object, key string) network.Answer {
	switch n := o.get(key); {
	case !n.present():
		return network.Unsaid
	case n.flag():
		return network.Yes
	}
	return network.No
}

// lampFitting reads what a lamp asks of its supply beside its load.
func lampFitting(o *object, l *doc.LampStock) {
	l.Inrush = value(o, "inrush", q.ParseAmpere)
	l.InrushTime = value(o, "inrush_time", q.ParseSecond)
	l.Dimmable = answer(o, "dimmable")
	l.Lampholder = answer(o, "lampholder")
	l.Metal = answer(o, "metal")
	between(o, "inrush", l.Inrush, 1e-3, 1e4, " A")
	between(o, "inrush_time", l.InrushTime, 1e-6, 1, " s")
}

// lampBeam checks what is said of a beam besides its angle, which only a beam that
// can be aimed has.
func lampBeam(o *object, l *doc.LampStock) {
	between(o, "beam_across", l.Across, 1, 169.9, " deg")
	between(o, "peak", l.Peak, 1e-3, 1e8, " cd")
	for _, key := range []string{"beam_across", "peak"} {
		if n := o.get(key); n.present() && !l.Modelled() {
			n.fail(n.found(), "a beam from 1 deg to below 170 deg beside it")
		}
	}
}

// sourceFitting reads the same of a source; sourceKind reads its inrush.
func sourceFitting(o *object, s *doc.SourceStock) {
	s.Leakage = value(o, "leakage", q.ParseAmpere)
	s.Dimmable = answer(o, "dimmable")
	between(o, "leakage", s.Leakage, 0, 10, " A")
}

// gearControl reads the ratings of gear. An isolator isolates without saying so.
func gearControl(o *object, kind string) network.Gear {
	g := network.Gear{
		Kind:      kind,
		Rating:    maybe(o, "rating", q.ParseAmpere),
		LEDWatts:  maybe(o, "led_watts", q.ParseWatt),
		LEDLamps:  maybe(o, "led_lamps", q.ParseCount),
		DimMin:    maybe(o, "dim_min", q.ParseWatt),
		DimMax:    maybe(o, "dim_max", q.ParseWatt),
		Standby:   maybe(o, "standby", q.ParseWatt),
		Threshold: maybe(o, "threshold", q.ParseLux),
		Range:     value(o, "range", q.ParseMetre),
		Sector:    o.angle("sector"),
		Metal:     o.flagOr("metal"),
		Switching: o.flagOr("switching") || kind == network.Isolator,
	}
	between(o, "rating", g.Rating.Value, 0.01, 1e4, " A")
	between(o, "led_watts", g.LEDWatts.Value, 0.1, 1e5, " W")
	between(o, "led_lamps", g.LEDLamps.Value, 1, 1e4, "")
	between(o, "dim_min", g.DimMin.Value, 0, 1e5, " W")
	between(o, "dim_max", g.DimMax.Value, 0.1, 1e5, " W")
	between(o, "standby", g.Standby.Value, 0, 1000, " W")
	between(o, "range", g.Range, 0.1, 100, " m")
	between(o, "sector", g.Sector, 1, 360, " deg")
	between(o, "threshold", g.Threshold.Value, 0.1, 1e5, " lx")
	if n := o.get("dim_max"); n.present() && g.DimMin.Known && g.DimMax.Value < g.DimMin.Value {
		n.fail(n.found(), "a load not below the least load "+g.DimMin.Value.String())
	}
	return g
}
