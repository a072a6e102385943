package file

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// lampLaw reads what only some laws of a lamp have: the drop-out of a driver,
// the forward voltage of a resistor strip, length and tracks of a strip.
func lampLaw(o *object, l *doc.LampStock) {
	load := &l.Load
	load.Dropout = value(o, "dropout", q.ParseVolt)
	load.Forward = value(o, "forward", q.ParseVolt)
	l.Length = value(o, "length", q.ParseMetre)
	l.Tracks = value(o, "tracks", q.ParseOhmPerMetre)
	between(o, "dropout", load.Dropout, 0.1, 1000, " V")
	between(o, "length", l.Length, 0.01, 1000, " m")
	between(o, "tracks", l.Tracks, 1e-4, 100, " ohm/m")
	driver := load.Law == network.ConstantPower || load.Law == network.ConstantCurrent
	switch n := o.get("dropout"); {
	case !n.present():
	case !driver:
		n.fail(n.found(), "no drop-out voltage for the law "+load.Law.String())
	case load.Dropout > load.Nominal:
		n.fail(n.found(), "a voltage not above the nominal "+load.Nominal.String())
	}
	switch n := o.get("forward"); {
	case load.Law == network.ResistorStrip && !n.present():
		o.need("forward", "the forward voltage of the diodes in series, such as 9.3 V")
	case !n.present():
	case load.Law != network.ResistorStrip:
		n.fail(n.found(), "no forward voltage for the law "+load.Law.String())
	case load.Forward <= 0 || load.Forward >= load.Nominal*0.99:
		n.fail(n.found(), "a voltage above 0 V and below the nominal "+load.Nominal.String())
	}
	for _, key := range []string{"length", "tracks"} {
		if n := o.get(key); n.present() && l.Kind != "strip" {
			n.fail(n.found(), "nothing: only lamps of the kind strip have it")
		}
	}
	if n := o.get("tracks"); n.present() && l.Length == 0 {
		n.fail(n.found(), "the length of the strip besides")
	}
}

// converterKinds name how a source makes its output, in the order of
// network.ConverterKind.
var converterKinds = []string{"wound", "electronic", "regulated"}

// sourceKind reads how a source is made and what it draws when switched on.
// Without the field kind, regulated says whether it is a driver or wound.
func sourceKind(o *object, c *network.Converter) {
	c.Inrush = value(o, "inrush", q.ParseAmpere)
	c.InrushTime = value(o, "inrush_time", q.ParseSecond)
	between(o, "inrush", c.Inrush, 1e-3, 1e4, " A")
	between(o, "inrush_time", c.InrushTime, 1e-6, 1, " s")
	n := o.get("kind")
	if !n.present() {
		return
	}
	kind := network.ConverterKind(n.word(converterKinds))
	c.HighFreq = kind == network.Electronic
	if c.Regulated != (kind == network.RegulatedKind) {
		n.fail(n.found(), map[bool]string{true: "regulated, as the field regulated says", false: "wound or electronic, as the field regulated says"}[c.Regulated])
	}
}
