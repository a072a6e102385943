package scene

import (
	"strconv"

	"duskwire/layout/doc"
)

// points draws the symbols of everything that stands at one place.
func (b *builder) points() {
	s := b.in.Scheme
	b.unsure = b.doubts()
	b.stripLines()
	for _, e := range s.Boxes.All() {
		b.point(e.ID, e.Tag, e.Place, b.boxName(e), nil)
	}
	for _, e := range s.Lamps.All() {
		var zone *doc.Zone
		if e.Zone != "" && !b.in.NoZones && b.dig == nil {
			zone, _ = s.Zones.Get(e.Zone)
		}
		b.point(e.ID, e.Tag, e.Place, b.lampName(e), zone)
	}
	for _, e := range s.Gear.All() {
		b.point(e.ID, e.Tag, e.Place, b.gearName(e), nil)
	}
	for _, e := range s.Sources.All() {
		b.point(e.ID, e.Tag, e.Place, b.sourceName(e), nil)
	}
	for _, e := range s.Supplies.All() {
		b.point(e.ID, e.Tag, e.Place, supplyName(e), nil)
	}
}

func supplyName(e *doc.Supply) string {
	if e.Spur {
		return "spur"
	}
	return "supply"
}

func (b *builder) boxName(e *doc.Box) string {
	if k, ok := b.stock.stock.Box(e.Stock); ok && k.Buried {
		return "buried box"
	}
	return "box"
}

func (b *builder) lampName(e *doc.Lamp) string {
	k := b.stock.lamps[e.Stock]
	if k == nil {
		return "lamp other"
	}
	return LampSymbol(k)
}

// LampSymbol returns the name of the symbol of a lamp, for Symbol.
func LampSymbol(k *doc.LampStock) string {
	if n := k.Load.Nominal; n > 0 && n <= extraLow {
		return symbolName("small lamp ", k.Kind)
	}
	return symbolName("lamp ", k.Kind)
}

func (b *builder) gearName(e *doc.Gear) string {
	k, _ := b.stock.stock.GearItem(e.Stock)
	return symbolName("gear ", k.Kind)
}

// sourceName draws a regulated source as a converter and a wound one as two
// circles.
func (b *builder) sourceName(e *doc.Source) string {
	if k, ok := b.stock.stock.Converter(e.Stock); ok && k.Converter.Regulated {
		return "driver"
	}
	return "transformer"
}

// point draws one symbol, with the ring of its zone, and notes its tag.
func (b *builder) point(id doc.ID, label string, place doc.Place, name string, zone *doc.Zone) {
	at := b.at(place.At)
	if !b.sees(at) || b.in.skips(id) {
		return
	}
	s := symbols[name]
	rx, ry := s.rx, s.ry
	t := tag{entity: string(id), at: at, text: label}
	if zone != nil {
		c := b.pal.zone(zone.Colour)
		r := max(rx, ry, lampRadius) + 0.5
		rx = r + zoneReach(zone.Number)
		ry = rx
		b.drawZone(string(id), at, zone.Number, r, c)
		t.zone, t.colour = "/"+strconv.Itoa(zone.Number), c
	}
	for i := range s.shapes {
		sh := &s.shapes[i]
		b.add(sh.item(string(id), at, b.pal, b.pts(len(sh.pts))))
	}
	if b.unsure[string(id)] {
		b.doubt(string(id), at, max(rx, ry, lampRadius))
		rx += doubtOff
		ry = max(ry, rx)
	}
	b.free.box(at.X-rx, at.Y-rx, at.X+rx, at.Y+ry, hurtSymbol)
	t.rx, t.up, t.down = rx, min(rx, ry), ry
	if rx > ry { // flat symbols
		t.up = ry
	}
	b.tags = append(b.tags, t)
	b.standAt(string(id), at, max(rx, ry))
}
