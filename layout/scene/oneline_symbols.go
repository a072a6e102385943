package scene

import "duskwire/calc/network"

// lineSymbols are the symbols that only diagrams have, drawn for a line from
// left to right. Breaker, isolator, fuse, residual device and transformer follow
// IEC 60617 (from memory): a contact with a cross at its fixed end, with a bar,
// a rectangle on the line, a contact with a ring about the conductor, two
// rings. The bar of the board and the circle of an open end are ours.
var lineSymbols = map[string]symbol{
	"line board":    {0.6, 4, []shape{{kind: Polygon, pts: corners(0.35, 4), fill: solid}}},
	"line open":     {0.9, 0.9, []shape{{kind: Circle, pts: []XY{{0, 0}}, size: 0.9, fill: paper}}},
	"line breaker":  {3, 2.4, append(contact(), cross(1.6)...)},
	"line isolator": {3, 2.4, append(contact(), strokes(1.6, -0.9, 1.6, 0.9))},
	"line fuse":     {3, 1.2, []shape{box(2.2, 1.1), strokes(-3, 0, 3, 0)}},
	"line rcd":      {3, 2.6, append(contact(), toroid()...)},
	"line rcbo":     {3, 2.6, append(append(contact(), cross(1.6)...), toroid()...)},
	"line transformer": {3, 1.9, []shape{{kind: Circle, pts: []XY{{-1.1, 0}}, size: 1.9, fill: paper},
		{kind: Circle, pts: []XY{{1.1, 0}}, size: 1.9, fill: paper}, {kind: Circle, pts: []XY{{-1.1, 0}}, size: 1.9}}},
	"line residual device": {3, 2.6, append(contact(), toroid()...)},
	"line run":             {0, 0, nil}, // its line is drawn as the line that feeds it
}

// contact is an open contact in a line.
func contact() []shape {
	return []shape{strokes(-3, 0, -1.6, 0, 1.6, 0, 3, 0, -1.6, 0, 1.5, -2.1)}
}

func cross(x float64) []shape {
	return []shape{strokes(x-0.7, -0.7, x+0.7, 0.7, x-0.7, 0.7, x+0.7, -0.7)}
}

// toroid is the current transformer of a residual device with its line to the
// contact.
func toroid() []shape {
	return []shape{{kind: Circle, pts: []XY{{-2.2, 0}}, size: 0.8}, strokes(-2.2, -0.8, -2.2, -2.4, -2.2, -2.4, 0, -2.4, 0, -2.4, 0, -1.2)}
}

// deviceSymbol returns the symbol of a protective device.
func deviceSymbol(d network.Device) string {
	switch d.Kind {
	case network.ResidualRCD:
		return "line rcd"
	case network.RCBO:
		return "line rcbo"
	case network.Breaker:
		if d.ResidualPart() {
			return "line rcbo"
		}
		return "line breaker"
	}
	return "line fuse"
}

// lineSymbol returns a symbol of a diagram: its own, or one of the plan.
func lineSymbol(name string) symbol {
	if s, ok := lineSymbols[name]; ok {
		return s
	}
	return symbols[name]
}
