package output

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// DXF writes the plan as an ASCII drawing of release 12, the form that every
// drawing program reads: LINE, POLYLINE, CIRCLE and TEXT in metres on the plan, x
// right and y up as in the scheme, not millimetres on paper. Each kind has a layer
// of its own. The same scheme gives the same bytes. Group codes after the DXF
// reference of that release (from memory; the test reads the file back).
func DXF(w io.Writer, f *layout.Frame) error {
	scale := f.Scheme.Plan.Scale
	if scale <= 0 {
		scale = 50
	}
	d := &dxf{s: f.Scheme, mm: geom.Length(scale) * geom.Millimetre, seen: map[string]bool{}}
	d.ground()
	d.zones(float64(scale))
	d.runs(runSystems(f))
	d.points()
	d.dimensions()
	d.notes(f.Findings)
	var out bytes.Buffer
	d.head(&out)
	out.Write(d.body.Bytes())
	for _, g := range []string{"ENDSEC", "EOF"} {
		group(&out, 0, g)
	}
	_, err := w.Write(out.Bytes())
	return err
}

// dxf collects the entities and the layers that they are on.
type dxf struct {
	s      *doc.Scheme
	mm     geom.Length // on the ground for a millimetre on paper
	body   bytes.Buffer
	layers []string // in order of first use
	seen   map[string]bool
	extent geom.Rect
}

// Sizes in millimetres on paper at the scheme's own scale.
const (
	dxfCap    = 2 // height of capitals
	dxfRadius = 2 // of the circle about a point
)

// group writes one pair: the code, then the value.
func group(w *bytes.Buffer, code int, value string) {
	fmt.Fprintf(w, "%3d\r\n%s\r\n", code, value)
}

// inMetres writes a length exactly: a micrometre is the sixth decimal.
func inMetres(l geom.Length) string { return strconv.FormatFloat(l.Metres(), 'f', 6, 64) }

func (d *dxf) put(code int, value string) { group(&d.body, code, value) }

// at writes a place; code is 10 for the first of an entity, 11 for the second.
func (d *dxf) at(code int, p geom.Point) {
	d.extent = d.extent.Union(geom.Around(p))
	d.put(code, inMetres(p.X))
	d.put(code+10, inMetres(p.Y))
	d.put(code+20, inMetres(0))
}

// entity starts one on a layer.
func (d *dxf) entity(kind, layer string) {
	if !d.seen[layer] {
		d.seen[layer] = true
		d.layers = append(d.layers, layer)
	}
	d.put(0, kind)
	d.put(8, layer)
}

func (d *dxf) line(layer string, a, b geom.Point) {
	d.entity("LINE", layer)
	d.at(10, a)
	d.at(11, b)
}

// path writes a polyline, closed where it is an outline.
func (d *dxf) path(layer string, ps []geom.Point, closed bool) {
	if len(ps) < 2 {
		return
	}
	if len(ps) == 2 {
		d.line(layer, ps[0], ps[1])
		return
	}
	d.entity("POLYLINE", layer)
	d.put(66, "1")
	for _, code := range []int{10, 20, 30} { // unused, but asked for
		d.put(code, inMetres(0))
	}
	flags := "0"
	if closed {
		flags = "1"
	}
	d.put(70, flags)
	for _, p := range ps {
		d.entity("VERTEX", layer)
		d.at(10, p)
	}
	d.entity("SEQEND", layer)
}

func (d *dxf) circle(layer string, at geom.Point, radius geom.Length) {
	if radius <= 0 {
		return
	}
	d.entity("CIRCLE", layer)
	d.at(10, at)
	d.extent = d.extent.Union(geom.Around(at).Grow(radius))
	d.put(40, inMetres(radius))
}

// text letters a text that begins at a place, or has it in its middle; turn is in
// degrees anticlockwise.
func (d *dxf) text(layer, s string, at geom.Point, turn float64, middle bool) {
	if s = dxfText(s); s == "" {
		return
	}
	d.entity("TEXT", layer)
	d.at(10, at)
	d.put(40, inMetres(dxfCap*d.mm))
	d.put(1, s)
	d.put(50, strconv.FormatFloat(turn, 'f', 4, 64))
	if middle {
		d.put(72, "1")
		d.at(11, at)
	}
}

// longest text of release 12, in bytes.
const longest = 255

// dxfText makes any text fit for a TEXT: plain ASCII on one line, other signs and
// those that steer the lettering (backslash, caret, double per cent) as \U+XXXX.
func dxfText(s string) string {
	var b strings.Builder
	percent := false
	for _, r := range plain(s) {
		out := string(r)
		switch {
		case r > 0xFFFF:
			out = "?" // four digits cannot say it
		case r < ' ' || r > '~' || r == '\\' || r == '^' || r == '%' && percent:
			out = fmt.Sprintf(`\U+%04X`, r)
		}
		percent = r == '%'
		if b.Len()+len(out) > longest {
			break
		}
		b.WriteString(out)
	}
	return b.String()
}

// dxfLayer makes a name of a layer as release 12 allows them: capitals, digits
// and dashes, 31 at most.
func dxfLayer(words ...string) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z' || r >= '0' && r <= '9':
			return r
		}
		return '-'
	}, strings.Join(words, "-"))
	return name[:min(len(name), 31)]
}

// ground draws areas, lines and marks with their names.
func (d *dxf) ground() {
	for _, a := range d.s.Areas.All() {
		if len(a.Ring) < 3 {
			continue
		}
		d.path(dxfLayer("AREA", a.Kind), a.Ring, true)
		d.text("TEXT-GROUND", named(a.Name, a.Kind), within(a.Ring), 0, true)
	}
	for _, l := range d.s.Lines.All() {
		d.path(dxfLayer("LINE", l.Kind), l.Path, false)
		if len(l.Path) > 0 {
			d.text("TEXT-GROUND", named(l.Name, l.Kind), l.Path[0].Add(geom.Point{X: d.mm, Y: d.mm}), 0, false)
		}
	}
	for _, m := range d.s.Marks.All() {
		layer := dxfLayer("MARK", m.Kind)
		radius := m.Radius
		if radius <= 0 {
			radius = dxfRadius * d.mm
		}
		d.circle(layer, m.Place.At, radius)
		d.circle(layer+"-CROWN", m.Place.At, m.Crown)
		d.text("TEXT-GROUND", named(m.Name, m.Kind), m.Place.At.Add(geom.Point{X: radius + d.mm}), 0, false)
	}
}

func named(name, kind string) string {
	if plain(name) == "" {
		return kind
	}
	return name
}

// within returns the centre of gravity of a ring, or its first corner when that
// lies outside.
func within(ring []geom.Point) geom.Point {
	var area, x, y float64
	for i, p := range ring {
		p, q := p.Sub(ring[0]), ring[(i+1)%len(ring)].Sub(ring[0]) // from a corner, so that far places cost no digits
		cross := float64(p.X)*float64(q.Y) - float64(q.X)*float64(p.Y)
		area, x, y = area+cross, x+cross*float64(p.X+q.X), y+cross*float64(p.Y+q.Y)
	}
	if area == 0 {
		return ring[0]
	}
	c := ring[0].Add(geom.Point{X: geom.Length(math.Round(x / (3 * area))), Y: geom.Length(math.Round(y / (3 * area)))})
	if !geom.Inside(c, ring) {
		return ring[0]
	}
	return c
}

// Layers of the runs.
const (
	layerMains = "RUN-MAINS"
	layerLow   = "RUN-EXTRA-LOW"
	layerUnfed = "RUN-UNFED" // no supply point reaches it
)

// extraLow is the highest nominal voltage that counts as extra-low, volts: the
// a.c. limit of BS 7671 Part 2 (from memory).
const extraLow = 50

// runSystems returns the layer of each run that a supply point reaches.
func runSystems(f *layout.Frame) map[doc.ID]string {
	out := map[doc.ID]string{}
	if f.Circuits == nil {
		return out
	}
	for i := range f.Circuits.Circuits {
		c := &f.Circuits.Circuits[i]
		net := c.Input.Net
		for id, n := range c.Branch { // a map from a map: no order to keep
			out[id] = layerMains
			if net.Systems[net.Nodes[net.Branches[n].To].System].Nominal <= extraLow {
				out[id] = layerLow
			}
		}
	}
	return out
}

// runs draws the ways of the cables in plan: rises are not in their length.
func (d *dxf) runs(layers map[doc.ID]string) {
	for _, r := range d.s.Runs.All() {
		layer := layers[r.ID]
		if layer == "" {
			layer = layerUnfed
		}
		path := doc.RunPath(d.s, r)
		d.path(layer, path, false)
		a, b := path[0], path[1]
		at := geom.Point{X: a.X + (b.X-a.X)/2, Y: a.Y + (b.Y-a.Y)/2}
		d.text("TEXT-RUN", r.Tag, at.Add(geom.Point{Y: d.mm}), 0, true)
	}
}

// zones draws the hatched area about the lamps of each zone, outline and hatch on
// layers of their own, so that either can be switched off.
func (d *dxf) zones(scale float64) {
	for _, z := range d.s.Zones.All() {
		layer := dxfLayer("ZONE", strconv.Itoa(z.Number))
		hatch, outline := scene.ZoneStrokes(d.s, z, scale)
		for _, p := range outline {
			d.line(layer, p[0], p[1])
		}
		for _, p := range hatch {
			d.line(layer+"-HATCH", p[0], p[1])
		}
	}
}

// points draws what stands at one place: a circle about the place, and in it a
// sign of the kind, so that kinds differ in black and white too.
func (d *dxf) points() {
	for _, e := range d.s.Supplies.All() {
		d.point("SUPPLY-POINT", e.Tag, e.Place.At, 90, 210, 330)
	}
	for _, e := range d.s.Boxes.All() {
		d.point("BOX", e.Tag, e.Place.At, 45, 135, 225, 315)
	}
	for _, e := range d.s.Lamps.All() {
		d.point("LAMP", e.Tag, e.Place.At)
		d.chord("LAMP", e.Place.At, 45)
		d.chord("LAMP", e.Place.At, 135)
	}
	for _, e := range d.s.Gear.All() {
		d.point("GEAR", e.Tag, e.Place.At)
		d.chord("GEAR", e.Place.At, 45)
	}
	for _, e := range d.s.Sources.All() {
		d.point("SOURCE", e.Tag, e.Place.At)
		d.circle("SOURCE", e.Place.At, d.mm)
	}
}

// point draws the circle, the corners of the sign by their angles, and the tag.
func (d *dxf) point(layer, tag string, at geom.Point, corners ...float64) {
	d.circle(layer, at, dxfRadius*d.mm)
	rim := geom.Arc{Centre: at, Radius: float64(dxfRadius * d.mm)}
	ps := make([]geom.Point, len(corners))
	for i, a := range corners {
		ps[i] = rim.At(a)
	}
	d.path(layer, ps, true)
	d.text("TEXT-TAG", tag, at.Add(geom.Point{X: 3 * d.mm, Y: -d.mm}), 0, false)
}

// chord draws a stroke across the circle.
func (d *dxf) chord(layer string, at geom.Point, angle float64) {
	rim := geom.Arc{Centre: at, Radius: float64(dxfRadius * d.mm)}
	d.line(layer, rim.At(angle), rim.At(angle+180))
}

// dimensions draws each as lines with its figure.
func (d *dxf) dimensions() {
	for _, e := range d.s.Dimensions.All() {
		sh := doc.ShapeOf(d.s, e)
		d.line("DIMENSION", sh.A, sh.B)
		for _, x := range [][2]geom.Point{{sh.From, sh.A}, {sh.To, sh.B}} {
			if x[0] != x[1] {
				d.line("DIMENSION", x[0], x[1])
			}
		}
		turn := math.Atan2(float64(sh.B.Y-sh.A.Y), float64(sh.B.X-sh.A.X)) * 180 / math.Pi
		if turn > 90 || turn <= -90 { // to be read from below or from the right
			turn -= math.Copysign(180, turn)
		}
		up := geom.Arc{Centre: geom.Point{X: sh.A.X + (sh.B.X-sh.A.X)/2, Y: sh.A.Y + (sh.B.Y-sh.A.Y)/2}, Radius: float64(d.mm)}
		d.text("TEXT-DIMENSION", sh.Read(), up.At(turn+90), turn, true)
	}
}
