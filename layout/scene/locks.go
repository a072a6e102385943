package scene

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// locks draws a small padlock at everything that is locked, on a screen only: it
// says what can be edited, which is of no use to who digs. It comes before the tags,
// so that they keep clear of it.
func (b *builder) locks() {
	if !b.in.Screen {
		return
	}
	doc.Each(b.in.Scheme, func(e doc.Entity, k doc.Kind) {
		if k == doc.ZoneKind || !doc.Locked(e) || b.in.skips(e.Key()) {
			return
		}
		at, ok := b.lockPlace(e)
		if !ok || !b.sees(at) {
			return
		}
		b.free.box(at.X-lockWide, at.Y-lockHigh, at.X+lockWide, at.Y+lockHigh, hurtSymbol)
		for _, it := range Padlock(at, b.pal) {
			it.Entity = string(e.Key())
			b.add(it)
		}
	})
}

// Half the width and height of the padlock in millimetres.
const lockWide, lockHigh = 1.0, 1.25

// lockPlace is where the padlock of a thing is: lower left of a symbol, on the
// middle edge of what is drawn as a path.
func (b *builder) lockPlace(e doc.Entity) (at XY, ok bool) {
	name, zone := "", false
	switch e := e.(type) {
	case *doc.Supply:
		name = supplyName(e)
	case *doc.Box:
		name = b.boxName(e)
	case *doc.Lamp:
		name, zone = b.lampName(e), e.Zone != "" && !b.in.NoZones && b.dig == nil
	case *doc.Gear:
		name = b.gearName(e)
	case *doc.Source:
		name = b.sourceName(e)
	case *doc.Mark:
		p := b.at(e.Place.At)
		return XY{p.X - 1.6, p.Y + 1.8}, true
	case *doc.Dimension:
		return b.at(doc.ShapeOf(b.in.Scheme, e).A), true
	case *doc.Run:
		return b.edgeMiddle(doc.RunPath(b.in.Scheme, e), false)
	case *doc.Line:
		return b.edgeMiddle(e.Path, false)
	case *doc.Area:
		return b.edgeMiddle(e.Ring, true)
	}
	place, ok := doc.PlaceOf(e)
	if !ok {
		return at, false
	}
	s := symbols[name]
	rx, ry := s.rx, s.ry
	if zone {
		rx = max(rx, ry, lampRadius) + 0.9
		ry = rx
	}
	p := b.at(place.At)
	const tuck = 0.75 // a corner lies further out than a side
	return XY{p.X - rx*tuck - lockWide, p.Y + ry*tuck + lockHigh}, true
}

// Padlock returns the mark of what is locked, about a place.
func Padlock(at XY, pal *Palette) []Item {
	shackle := []XY{{-0.5, 0}, {-0.5, -0.6}, {-0.32, -0.95}, {0, -1.08}, {0.32, -0.95}, {0.5, -0.6}, {0.5, 0}}
	body := []XY{{-0.85, -0.2}, {0.85, -0.2}, {0.85, 1.05}, {-0.85, 1.05}}
	for _, ps := range [][]XY{shackle, body} {
		for i, p := range ps {
			ps[i] = XY{at.X + p.X, at.Y + p.Y}
		}
	}
	return []Item{
		{Kind: Polygon, Layer: LayerPoints, Points: shackle, Style: Style{Stroke: pal.Paper, Width: 0.8, Fill: pal.Paper}},
		{Kind: Polygon, Layer: LayerPoints, Points: body, Style: Style{Stroke: pal.Paper, Width: 0.5, Fill: pal.Ink}},
		{Kind: Polyline, Layer: LayerPoints, Points: shackle, Style: Style{Stroke: pal.Ink, Width: 0.3}},
	}
}

// edgeMiddle returns the middle of the middle edge of a path.
func (b *builder) edgeMiddle(path []geom.Point, closed bool) (at XY, ok bool) {
	n := len(path) - 1
	if closed {
		n++
	}
	if n < 1 {
		return at, false
	}
	m := (n - 1) / 2
	p, q := b.at(path[m]), b.at(path[(m+1)%len(path)])
	return XY{(p.X + q.X) / 2, (p.Y + q.Y) / 2}, true
}
