package file

import (
	"io/fs"
	"strconv"
	"strings"
	"unicode/utf8"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Stock reads the stock book: every file in the folder stock of the assets, in
// the order of the file names. What a cable can carry is looked up in the
// folder tables; the files only say how a cable is made.
func Stock(fsys fs.FS) (doc.Stock, error) {
	set, err := loadTables(fsys)
	if err != nil {
		return doc.Stock{}, err
	}
	book := &stockBook{tables: set}
	var gear []node
	err = eachYAML(fsys, "stock", func(top node) {
		o := top.object()
		gear = append(gear, book.read(o)...)
		o.done()
	})
	if err != nil {
		return doc.Stock{}, err
	}
	if err := book.settleGear(gear, doc.Stock{}); err != nil {
		return doc.Stock{}, err
	}
	return book.Stock, nil
}

// ReadStock reads a stock file of the user's own. It has the form of the
// shipped files; its cables name the constructions of fsys, its gear may name
// the devices of the file and of the shipped stock book.
func ReadStock(name string, data []byte, fsys fs.FS) (doc.Stock, error) {
	shipped, err := Stock(fsys)
	if err != nil {
		return doc.Stock{}, err
	}
	set, err := loadTables(fsys)
	if err != nil {
		return doc.Stock{}, err
	}
	top, err := parseYAML(name, data)
	if err != nil {
		return doc.Stock{}, err
	}
	o := top.object()
	book := &stockBook{tables: set}
	gear := book.read(o)
	o.done()
	if err := top.log.first(); err != nil {
		return doc.Stock{}, err
	}
	if err := book.settleGear(gear, shipped); err != nil {
		return doc.Stock{}, err
	}
	return book.Stock, nil
}

// stockBook is a stock book while it is read.
type stockBook struct {
	doc.Stock
	tables *tableSet
	keys   map[string]bool
}

// read reads the lists of one file and returns the nodes of the device keys
// that gear names, to be checked when all devices are known.
func (b *stockBook) read(o *object) (gear []node) {
	for _, n := range o.list("cables") {
		b.item(n, "cable", func(i *object, key, name, _ string) {
			b.Cables = append(b.Cables, b.cable(i, key, name))
		})
	}
	for _, n := range o.list("lamps") {
		b.item(n, "lamp", func(i *object, key, name, source string) {
			b.Lamps = append(b.Lamps, lampStock(i, key, name, source))
		})
	}
	for _, n := range o.list("boxes") {
		b.item(n, "box", func(i *object, key, name, source string) {
			b.Boxes = append(b.Boxes, boxStock(i, key, name, source))
		})
	}
	for _, n := range o.list("sources") {
		b.item(n, "source", func(i *object, key, name, source string) {
			b.Sources = append(b.Sources, sourceStock(i, key, name, source))
		})
	}
	for _, n := range o.list("devices") {
		b.item(n, "device", func(i *object, key, name, source string) {
			b.Devices = append(b.Devices, deviceStock(i, key, name, source))
		})
	}
	for _, n := range o.list("gear") {
		b.item(n, "gear", func(i *object, key, name, source string) {
			g := gearStock(i, key, name, source)
			for _, d := range i.list("devices") {
				g.Devices = append(g.Devices, d.text())
				gear = append(gear, d)
			}
			b.Gear = append(b.Gear, g)
		})
	}
	return gear
}

// item reads what every stock item has and hands the rest to its reader. Keys
// are unique over all kinds, so that a scheme that names one cannot mean
// another.
func (b *stockBook) item(n node, what string, read func(o *object, key, name, source string)) {
	o := n.within(what).object()
	if o.y == nil {
		return
	}
	key := o.needText("key")
	o.name(what + " " + key)
	if b.keys == nil {
		b.keys = map[string]bool{}
	}
	if b.keys[key] && key != "" {
		o.get("key").fail("the key "+key+" a second time", "a key of its own")
	}
	b.keys[key] = true
	o.label("key")
	read(o, key, o.label("name"), o.label("source"))
	o.done()
}

// label returns a short text of one line that must be there: it is printed in
// lists and on the plan.
func (o *object) label(key string) string {
	const most = 200
	s := o.needText(key)
	if !o.has(key) || s == "" {
		return s
	}
	switch n := o.get(key); {
	case utf8.RuneCountInString(s) > most:
		n.fail(n.found(), "at most "+strconv.Itoa(most)+" letters")
	case oneLine(s) != s:
		n.fail(n.found(), "a text of one line without control characters")
	}
	return s
}

// settleGear checks the devices that gear names and returns the first problem.
func (b *stockBook) settleGear(gear []node, shipped doc.Stock) error {
	all := shipped.Over(b.Stock)
	var keys []string
	for _, d := range all.Devices {
		keys = append(keys, d.Key)
	}
	for _, n := range gear {
		key := n.text()
		if _, ok := all.Device(key); !ok {
			n.failHint(n.found(), "a device of the stock book", nearest(key, keys))
		}
		if err := n.log.first(); err != nil {
			return err
		}
	}
	return nil
}

// earthWords name the protective conductor of a cable, in the order of
// network.EarthPath.
var earthWords = []string{"none", "core", "armour"}

// cable reads one cable and takes its values from the tables.
func (b *stockBook) cable(o *object, key, name string) *network.Cable {
	c := &network.Cable{
		Key: key, Name: name,
		Family:    o.needText("family"),
		Cores:     o.need("cores", "the number of cores").whole(1, 61),
		Size:      needAbove(o, "size", q.ParseSquareMetre),
		EarthSize: value(o, "earth_size", q.ParseSquareMetre),
		Earth:     network.EarthPath(o.need("earth", oneOf(earthWords)).word(earthWords)),
		Waste:     o.need("waste", "a percentage such as 5 %").ratio(),
		Diameter:  value(o, "diameter", q.ParseMetre),
	}
	between(o, "waste", c.Waste, 0, 1, "")
	between(o, "diameter", c.Diameter, 0, 1, " m")
	made := o.need("construction", "a construction of the tables")
	word, ok := made.scalar("a construction of the tables")
	if !ok || len(o.log.list) > 0 {
		return c
	}
	var names []string
	for _, t := range b.tables.list {
		rows, _ := t.rows.([]*construction)
		for _, row := range rows {
			if row.key == word {
				row.fill(o, c)
				return c
			}
			names = append(names, row.key)
		}
	}
	made.failHint(made.found(), "a construction of the tables", nearest(word, names))
	return c
}

// Words of lamps.
var (
	lampKinds    = []string{"wall", "spike", "bollard", "pillar", "recessed", "step", "deck", "pond", "strip", "festoon"}
	lawWords     = []string{"constant power", "constant current", "resistive", "resistor strip", "filament", "driven"}
	classWords   = []string{"I", "II", "III"}
	currentWords = []string{"AC", "DC", "any"}
)

func lampStock(o *object, key, name, source string) doc.LampStock {
	current := o.need("current", oneOf(currentWords)).word(currentWords)
	l := doc.LampStock{
		Key: key, Name: name, Source: source,
		Kind:        lampKinds[o.need("kind", oneOf(lampKinds)).word(lampKinds)],
		AnyCurrent:  current == 2,
		Class:       classOf(o),
		IP:          ingress(o),
		Flux:        value(o, "flux", q.ParseLumen),
		Beam:        o.angle("beam"),
		Across:      o.angle("beam_across"),
		Peak:        value(o, "peak", q.ParseCandela),
		LampFlux:    value(o, "lamp_flux", q.ParseLumen),
		Height:      o.length("height"),
		Slack:       value(o, "slack", q.ParseMetre),
		Leakage:     value(o, "leakage", q.ParseAmpere),
		Temperature: q.Kelvin(withUnit(o.get("temperature"), "K", "a colour temperature such as 3000 K")),
		Load: network.Load{
			Law:     network.Law(o.need("law", oneOf(lawWords)).word(lawWords)),
			Nominal: needAbove(o, "voltage", q.ParseVolt),
			Minimum: value(o, "minimum", q.ParseVolt),
			Maximum: value(o, "maximum", q.ParseVolt),
		},
	}
	if current == 1 {
		l.Current = network.DC
	}
	lampPower(o, &l)
	between(o, "power", l.Load.Power, 1e-3, 1e5, " W")
	between(o, "voltage", l.Load.Nominal, 1, 1000, " V")
	between(o, "minimum", l.Load.Minimum, 0, 1000, " V")
	between(o, "maximum", l.Load.Maximum, 0, 1000, " V")
	between(o, "flux", l.Flux, 0, 1e7, " lm")
	between(o, "beam", l.Beam, 0, 360, " deg")
	between(o, "lamp_flux", l.LampFlux, 1e-3, 1e7, " lm")
	lampBeam(o, &l)
	between(o, "slack", l.Slack, 0, 1000, " m")
	between(o, "leakage", l.Leakage, 0, 10, " A")
	between(o, "temperature", l.Temperature, 500, 1e5, " K")
	standing(o, l.Height)
	lampLaw(o, &l)
	lampFitting(o, &l)
	if n := o.get("minimum"); n.present() && l.Load.Minimum > l.Load.Nominal {
		n.fail(n.found(), "a voltage not above the nominal "+l.Load.Nominal.String())
	}
	if n := o.get("maximum"); n.present() && l.Load.Maximum < l.Load.Nominal {
		n.fail(n.found(), "a voltage not below the nominal "+l.Load.Nominal.String())
	}
	return l
}

// standing reports a usual height that nothing placed by it could have.
func standing(o *object, h geom.Length) { between(o, "height", h.Metres(), -10, 100, " m") }

func boxStock(o *object, key, name, source string) doc.BoxStock {
	b := doc.BoxStock{
		Key: key, Name: name, Source: source,
		IP:      ingress(o),
		Entries: o.need("entries", "the number of entries").whole(1, 100),
		Side:    value(o, "side", q.ParseMetre),
		Metal:   o.flagOr("metal"),
		Buried:  o.flagOr("buried"),
		Height:  o.length("height"),
		Filling: withUnit(o.get("filling"), "ml", "a volume such as 250 ml") / 1e6,
	}
	between(o, "filling", b.Filling*1e6, 1, 1e5, " ml")
	between(o, "side", b.Side, 0.02, 2, " m")
	standing(o, b.Height)
	return b
}

func sourceStock(o *object, key, name, source string) doc.SourceStock {
	currents := currentWords[:2]
	s := doc.SourceStock{
		Key: key, Name: name, Source: source,
		Input:  needAbove(o, "input", q.ParseVolt),
		Class:  classOf(o),
		IP:     ingress(o),
		Height: o.length("height"),
		Converter: network.Converter{
			Current:     network.Current(o.need("current", oneOf(currents)).word(currents)),
			Rise:        o.get("rise").ratio(),
			Efficiency:  above(o.get("efficiency"), o.need("efficiency", "a percentage such as 85 %").ratio()),
			PowerFactor: o.need("power_factor", "a number from 0.1 to 1").number(0.1, 1),
			NoLoad:      value(o, "no_load", q.ParseWatt),
			MinimumLoad: value(o, "minimum_load", q.ParseWatt),
			Longest:     value(o, "longest_lead", q.ParseMetre),
			SELV:        o.need("selv", "true or false").flag(),
		},
	}
	sourceOutput(o, &s.Converter)
	sourceFitting(o, &s)
	c := s.Converter
	between(o, "input", s.Input, 1, 1000, " V")
	between(o, "output", c.Nominal, 1, 1000, " V")
	between(o, "rated", c.Rated, 0.1, 1e6, " VA")
	between(o, "no_load", c.NoLoad, 0, 1e4, " W")
	between(o, "minimum_load", c.MinimumLoad, 0, 1e6, " W")
	between(o, "longest_lead", c.Longest, 0.01, 1e4, " m")
	standing(o, s.Height)
	if n := o.get("efficiency"); n.present() && (c.Efficiency < 0.01 || c.Efficiency > 1) {
		n.fail(n.found(), "from 1 % to 100 %")
	}
	if n := o.get("rise"); n.present() && (c.Regulated || c.Rise < 0 || c.Rise > 1) {
		n.fail(n.found(), "no rise for a source that holds its output, else 0 % to 100 %")
	}
	return s
}

// gearKinds are the kinds of control and isolating gear.
var gearKinds = []string{"isolator", "fused unit", "receiver", "photocell", "time switch", "sensor", "dimmer", "residual device"}

func gearStock(o *object, key, name, source string) doc.GearStock {
	g := doc.GearStock{
		Key: key, Name: name, Source: source,
		Kind:   gearKinds[o.need("kind", oneOf(gearKinds)).word(gearKinds)],
		IP:     ingress(o),
		Height: o.length("height"),
	}
	g.Control = gearControl(o, g.Kind)
	standing(o, g.Height)
	return g
}

// residualTypes are the types of residual current devices.
var residualTypes = []string{"AC", "A", "F", "B"}

func deviceStock(o *object, key, name, source string) doc.DeviceStock {
	d := network.Device{
		Kind:      network.DeviceKind(o.need("kind", oneOf(deviceWords)).word(deviceWords)),
		Label:     name,
		Rating:    needAbove(o, "rating", q.ParseAmpere),
		Breaking:  value(o, "breaking", q.ParseAmpere),
		Switching: o.flagOr("switching"),
	}
	if d.Kind == network.Breaker || d.Kind == network.RCBO {
		d.Curve = curve(o)
	}
	if d.Kind == network.ResidualRCD || d.Kind == network.RCBO {
		d.Residual = needAbove(o, "residual", q.ParseAmpere)
		d.Type = residualTypes[o.need("type", oneOf(residualTypes)).word(residualTypes)]
		d.Delayed = o.flagOr("delayed")
	}
	between(o, "rating", d.Rating, 0.1, 1e4, " A")
	between(o, "breaking", d.Breaking, 0, 1e6, " A")
	between(o, "residual", d.Residual, 1e-3, 100, " A")
	return doc.DeviceStock{Key: key, Name: name, Source: source, Device: d}
}

func classOf(o *object) network.Class {
	return network.ClassI + network.Class(o.need("class", oneOf(classWords)).word(classWords))
}

// flagOr returns a flag that is false when missing.
func (o *object) flagOr(key string) bool {
	n := o.get(key)
	return n.present() && n.flag()
}

// ingress reads an IP code such as IP65 or IPX8 (IEC 60529).
func ingress(o *object) string {
	const wanted = "an IP code such as IP65"
	n := o.need("ip", wanted)
	s, ok := n.scalar(wanted)
	if !ok {
		return ""
	}
	digits, cut := strings.CutPrefix(s, "IP")
	if !cut || len(digits) != 2 || !strings.Contains("X0123456", digits[:1]) || !strings.Contains("X0123456789", digits[1:]) {
		n.fail(n.found(), wanted)
		return ""
	}
	return s
}
