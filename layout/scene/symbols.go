package scene

import (
	"sort"
	"strings"
)

// paint says what fills a shape of a symbol.
type paint uint8

const (
	hollow paint = iota
	paper        // covers the lines below
	solid        // ink
)

// shape is one stroke or patch of a symbol, relative to its place.
type shape struct {
	kind  Kind
	pts   []XY
	size  float64 // radius of a circle
	width float64 // 0: medium
	fill  paint
}

// symbol is a point symbol and the half size of its box.
type symbol struct {
	rx, ry float64 // the foot of a lamp reaches ry down, not up
	shapes []shape
}

// Radius of the lamp symbol in millimetres: smaller at extra-low voltage, so
// that the two differ without colour.
const (
	lampRadius  = 1.8
	smallRadius = 1.4
)

// symbols holds every point symbol by name. The lamp (circle with a diagonal
// cross), the fuse, the switch contact, the transformer (two circles) and the
// converter (divided square) follow IEC 60617 (from memory); the feet that
// tell the kinds of lamp apart and the rest are ours.
var symbols = makeSymbols()

func makeSymbols() map[string]symbol {
	m := map[string]symbol{}
	for _, kind := range append([]string{"other"}, lampKinds...) {
		m["lamp "+kind] = lampSymbol(kind, lampRadius)
		m["small lamp "+kind] = lampSymbol(kind, smallRadius)
	}
	for name, s := range gearSymbols() {
		m["gear "+name] = s
	}
	m["box"] = symbol{1.15, 1.15, []shape{box(1.15, 1.15), dot(0, 0, 0.5)}}
	m["buried box"] = symbol{1.15, 2.2, []shape{box(1.15, 1.15), dot(0, 0, 0.5),
		strokes(-1.15, 1.65, 1.15, 1.65, -0.6, 2.15, 0.6, 2.15)}}
	m["spur"] = symbol{3.6, 1.4, []shape{{kind: Polygon, pts: corners(2.8, 1.3), width: bold, fill: paper},
		{kind: Segments, pts: []XY{{-3.6, 0}, {3.6, 0}}, width: medium}}}
	m["supply"] = symbol{2.8, 1.6, []shape{{kind: Polygon, pts: corners(2.8, 1.6), width: bold, fill: paper},
		{kind: Polygon, pts: []XY{{-2.8, 1.6}, {2.8, -1.6}, {2.8, 1.6}}, fill: solid}}}
	m["transformer"] = symbol{1.5, 2.5, []shape{{kind: Circle, pts: []XY{{0, -0.95}}, size: 1.5, fill: paper},
		{kind: Circle, pts: []XY{{0, 0.95}}, size: 1.5, fill: paper}, {kind: Circle, pts: []XY{{0, -0.95}}, size: 1.5}}}
	m["driver"] = symbol{2, 2, []shape{box(2, 2), strokes(-2, 2, 2, -2),
		polyline(-1.5, -0.85, -1.25, -1.15, -0.95, -1.1, -0.75, -0.8, -0.45, -0.75, -0.2, -1.05),
		strokes(0.25, 0.8, 1.45, 0.8, 0.25, 1.25, 1.45, 1.25)}}
	return m
}

// lampKinds are the kinds of lamp with a foot of their own.
var lampKinds = []string{"wall", "spike", "bollard", "recessed", "pond", "step", "deck", "festoon", "strip"}

func lampSymbol(kind string, r float64) symbol {
	d := r * 0.7071
	s := symbol{r, r, []shape{{kind: Circle, pts: []XY{{0, 0}}, size: r, fill: paper},
		strokes(-d, -d, d, d, -d, d, d, -d)}}
	foot := func(below float64, sh shape) { s.ry = r + below; s.shapes = append(s.shapes, sh) }
	switch kind {
	case "wall":
		foot(0.6, shape{kind: Segments, pts: []XY{{-r, r + 0.4}, {r, r + 0.4}}, width: heavy})
	case "spike":
		foot(1.1, polyline(-0.5, r, 0, r+1.05, 0.5, r))
	case "bollard":
		foot(0.95, strokes(0, r, 0, r+0.85, -0.9, r+0.85, 0.9, r+0.85))
	case "recessed", "deck":
		q := r + 0.45
		s.rx, s.ry = q, q
		s.shapes = append([]shape{box(q, q)}, s.shapes...)
	case "pond":
		foot(0.9, polyline(-r, r+0.8, -r*0.5, r+0.4, 0, r+0.8, r*0.5, r+0.4, r, r+0.8))
	case "step":
		foot(1, polyline(-r, r+0.4, 0, r+0.4, 0, r+0.95, r, r+0.95))
	case "festoon", "strip":
		s.rx = r + 1.1
		s.shapes = append(s.shapes, strokes(-r-1.1, 0, -r, 0, r, 0, r+1.1, 0))
	}
	return s
}

func gearSymbols() map[string]symbol {
	arrow := polyline(-1.3, -1.2, 0.2, 0.3)
	return map[string]symbol{
		"other": {1.7, 1.7, []shape{box(1.7, 1.7), strokes(-0.8, 0, 0.8, 0)}},
		"isolator": {2, 1.7, []shape{box(2, 1.7), strokes(-2, 0.5, -0.9, 0.5, 1, 0.5, 2, 0.5, -0.9, 0.5, 0.8, -0.9),
			strokes(0.65, 0.15, 1.35, 0.85, 0.65, 0.85, 1.35, 0.15)}},
		"fused unit": {2.4, 1.1, []shape{box(2.4, 1.1), strokes(-2.4, 0, 2.4, 0)}},
		"receiver": {1.8, 1.8, []shape{{kind: Circle, pts: []XY{{0, 0}}, size: 1.8, fill: paper},
			strokes(0, 1.1, 0, -1, -0.8, -1, 0, -0.1, 0.8, -1, 0, -0.1)}},
		"photocell": {1.8, 1.8, []shape{box(1.8, 1.8), arrow, strokes(0.2, 0.3, -0.45, 0.15, 0.2, 0.3, 0.05, -0.35),
			polyline(-0.3, -1.4, 1.1, 0), strokes(1.1, 0, 0.45, -0.15, 1.1, 0, 0.95, -0.65), strokes(-0.8, 1.2, 1.3, 1.2)}},
		"time switch": {1.8, 1.8, []shape{{kind: Circle, pts: []XY{{0, 0}}, size: 1.8, fill: paper},
			strokes(0, 0, 0, -1.25, 0, 0, 0.85, 0.5)}},
		"sensor": {1.8, 1.8, []shape{box(1.8, 1.8), polyline(-1.1, 0.2, -0.75, 0.9, -0.2, 1.1),
			polyline(-1.1, -0.9, -0.1, -0.6, 0.8, 0.3, 1.1, 1.1), dot(-1.1, 1.1, 0.35)}},
		"dimmer": {1.8, 1.8, []shape{{kind: Circle, pts: []XY{{0, 0}}, size: 1.8, fill: paper},
			strokes(-1, 1, 1, -1, 1, -1, 0.3, -0.85, 1, -1, 0.85, -0.3)}},
		"residual device": {1.8, 1.8, []shape{box(1.8, 1.8), {kind: Circle, pts: []XY{{0, 0}}, size: 0.8},
			strokes(0, -1.8, 0, 1.8)}},
	}
}

func corners(rx, ry float64) []XY { return []XY{{-rx, -ry}, {rx, -ry}, {rx, ry}, {-rx, ry}} }

func box(rx, ry float64) shape { return shape{kind: Polygon, pts: corners(rx, ry), fill: paper} }

func dot(x, y, r float64) shape {
	return shape{kind: Circle, pts: []XY{{x, y}}, size: r, width: fine, fill: solid}
}

func pairs(v []float64) []XY {
	out := make([]XY, len(v)/2)
	for i := range out {
		out[i] = XY{v[2*i], v[2*i+1]}
	}
	return out
}

// strokes makes segments of x, y, x, y quadruples.
func strokes(v ...float64) shape { return shape{kind: Segments, pts: pairs(v)} }

// polyline makes one stroke through the points.
func polyline(v ...float64) shape { return shape{kind: Polyline, pts: pairs(v)} }

// SymbolNames returns the names of all point symbols in order.
func SymbolNames() []string {
	out := make([]string, 0, len(symbols))
	for n := range symbols {
		out = append(out, n)
	}
	sort.Strings(out)
	return out
}

// Symbol returns the items of one point symbol at a place, for trays and
// legends; nil for an unknown name.
func Symbol(name string, at XY, pal *Palette) []Item {
	s, ok := symbols[name]
	if !ok {
		return nil
	}
	var out []Item
	for _, sh := range s.shapes {
		ps := make([]XY, len(sh.pts))
		out = append(out, sh.item("", at, pal, ps))
	}
	return out
}

// item places the shape; ps has room for its points.
func (sh *shape) item(entity string, at XY, pal *Palette, ps []XY) Item {
	for i, p := range sh.pts {
		ps[i] = XY{at.X + p.X, at.Y + p.Y}
	}
	st := Style{Stroke: pal.Ink, Width: sh.width}
	if st.Width == 0 {
		st.Width = medium
	}
	switch sh.fill {
	case paper:
		st.Fill = pal.Paper
	case solid:
		st.Fill = pal.Ink
	}
	return Item{Kind: sh.kind, Layer: LayerPoints, Entity: entity, Points: ps, Size: sh.size, Style: st}
}

// symbolName returns the catalogue name for a kind, "other" when it has none.
func symbolName(prefix, kind string) string {
	if name := prefix + kind; symbols[name].shapes != nil {
		return name
	}
	return prefix + "other"
}

// symbolWords turns a catalogue name into words for a legend.
func symbolWords(name string) string {
	switch name {
	case "spur":
		return "Supply, fused spur"
	case "supply":
		return "Supply, own way"
	case "box":
		return "Junction box"
	case "buried box":
		return "Junction box, buried"
	case "transformer":
		return "Transformer, ELV"
	case "driver":
		return "Driver, ELV"
	}
	if k, ok := strings.CutPrefix(name, "small lamp "); ok {
		return lampWords(k) + ", ELV"
	}
	if k, ok := strings.CutPrefix(name, "lamp "); ok {
		return lampWords(k) + ", mains"
	}
	k := strings.TrimPrefix(name, "gear ")
	if k == "other" {
		return "Control gear"
	}
	return sentence(k)
}

func lampWords(kind string) string {
	if kind == "other" {
		return "Lamp"
	}
	return "Lamp, " + kind
}
