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

// lampPower reads what a lamp draws. One that is driven in series says the
// current it is made for, and its volts are those across it at that current.
func lampPower(o *object, l *doc.LampStock) {
	load := &l.Load
	if load.Law != network.Driven {
		load.Power = needAbove(o, "power", q.ParseWatt)
		load.PowerFactor = o.need("power_factor", "a number from 0.1 to 1").number(0.1, 1)
		if n := o.get("drive"); n.present() {
			n.fail(n.found(), "no drive current for the law "+load.Law.String())
		}
		return
	}
	load.Drive = needAbove(o, "drive", q.ParseAmpere)
	between(o, "drive", load.Drive, 1e-3, 100, " A")
	load.PowerFactor, load.Power = 1, q.Watt(float64(load.Drive)*float64(load.Nominal))
	for _, key := range []string{"power", "power_factor", "minimum", "maximum", "length", "tracks"} {
		if n := o.get(key); n.present() {
			n.fail(n.found(), "nothing: of a driven lamp drive and voltage say it")
		}
	}
	if n := o.get("current"); n.present() && (l.AnyCurrent || l.Current != network.DC) {
		n.fail(n.found(), "DC for a driven lamp")
	}
}

// converterKinds name how a source makes its output, in the order of
// network.ConverterKind.
var converterKinds = []string{"wound", "electronic", "regulated", "constant current"}

// sourceOutput reads what a source gives, how it is made and what it draws when
// switched on.
func sourceOutput(o *object, c *network.Converter) {
	c.Inrush = value(o, "inrush", q.ParseAmpere)
	c.InrushTime = value(o, "inrush_time", q.ParseSecond)
	between(o, "inrush", c.Inrush, 1e-3, 1e4, " A")
	between(o, "inrush_time", c.InrushTime, 1e-6, 1, " s")
	n, kind := o.get("kind"), network.ConverterKind(-1)
	if n.present() {
		kind = network.ConverterKind(n.word(converterKinds))
	}
	if kind == network.DrivingKind {
		drivenOutput(o, c)
		return
	}
	for _, key := range []string{"drive", "least", "most"} {
		if f := o.get(key); f.present() {
			f.fail(f.found(), "nothing: only sources of the kind constant current have it")
		}
	}
	c.Nominal = needAbove(o, "output", q.ParseVolt)
	c.Rated = needAbove(o, "rated", q.ParseVoltAmpere)
	c.Regulated = o.need("regulated", "true or false").flag()
	if !n.present() {
		return // regulated says whether it is a driver or wound
	}
	c.HighFreq = kind == network.Electronic
	if c.Regulated != (kind == network.RegulatedKind) {
		n.fail(n.found(), map[bool]string{true: "regulated, as the field regulated says", false: "wound or electronic, as the field regulated says"}[c.Regulated])
	}
}

// drivenOutput reads a constant-current source: its current and the volts
// between which it holds it. Rated is what it gives at the most of them, unless
// the maker says less.
func drivenOutput(o *object, c *network.Converter) {
	c.Regulated = true
	c.Drive = needAbove(o, "drive", q.ParseAmpere)
	c.Least = value(o, "least", q.ParseVolt)
	c.Most = needAbove(o, "most", q.ParseVolt)
	c.Nominal, c.Rated = c.Most, q.VoltAmpere(float64(c.Drive)*float64(c.Most))
	between(o, "drive", c.Drive, 1e-3, 100, " A")
	between(o, "least", c.Least, 0, 1000, " V")
	between(o, "most", c.Most, 1, 1000, " V")
	if n := o.get("least"); n.present() && c.Least > c.Most {
		n.fail(n.found(), "a voltage not above the most of "+c.Most.String())
	}
	if n := o.get("rated"); n.present() {
		if v := above(n, value(o, "rated", q.ParseVoltAmpere)); v > c.Rated*(1+1e-9) {
			n.fail(n.found(), "not more than drive times most, "+c.Rated.String())
		} else {
			c.Rated = v
		}
	}
	for _, key := range []string{"output", "regulated"} {
		if n := o.get(key); n.present() {
			n.fail(n.found(), "nothing: of a constant-current source drive, least and most say it")
		}
	}
	if n := o.get("current"); n.present() && c.Current != network.DC {
		n.fail(n.found(), "DC for a constant-current source")
	}
}
