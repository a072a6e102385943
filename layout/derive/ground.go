package derive

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// How far facts of the ground reach. Rules have nearer limits of their own.
const (
	metalReach = 5 * geom.Metre
	mownReach  = 1 * geom.Metre
	farReach   = 30 * geom.Metre // water, boundaries, windows, seats
	treeReach  = 10 * geom.Metre // a tree whose girth is not known
)

// ground is the ground of a scheme made ready for questions. It is kept from
// scheme to scheme while areas, lines and marks are the same values.
type ground struct {
	areas  []*doc.Area
	lines  []*doc.Line
	marks  []*doc.Mark
	bounds []geom.Rect // of the areas
	ways   []geom.Rect // of the lines
}

// groundOf returns the ground of the scheme, the old one if it still holds.
func (d *deriver) groundOf(prev *Circuits) *ground {
	s := d.scheme
	if prev != nil && prev.ground != nil {
		g := prev.ground
		if same(g.areas, s.Areas.All()) && same(g.lines, s.Lines.All()) && same(g.marks, s.Marks.All()) {
			return g
		}
	}
	g := &ground{areas: s.Areas.All(), lines: s.Lines.All(), marks: s.Marks.All()}
	for _, a := range g.areas {
		g.bounds = append(g.bounds, geom.Around(a.Ring...))
	}
	for _, l := range g.lines {
		g.ways = append(g.ways, geom.Around(l.Path...))
	}
	return g
}

// takeGround makes the ground ready and says where it has changed.
func (d *deriver) takeGround() {
	d.ground, d.changed = d.groundOf(d.before), &changes{}
	var old *ground
	if d.before != nil {
		old = d.before.ground
	}
	if old != d.ground {
		d.changed = d.ground.changesOf(old, d.rules)
	}
}

// same reports whether two lists hold the same values, which are immutable.
func same[E comparable](a, b []E) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// at returns the area drawn last over a place, nil for none.
func (g *ground) at(p geom.Point) *doc.Area {
	for i := len(g.areas) - 1; i >= 0; i-- {
		if g.bounds[i].Contains(p) && geom.Inside(p, g.areas[i].Ring) {
			return g.areas[i]
		}
	}
	return nil
}

// reach returns a rule set's distance as a plan length.
func reach(l float64) geom.Length { return geom.Metres(l) }

func metres(l geom.Length) q.Metre { return q.Metre(l.Metres()) }

// named returns a piece of ground as a finding names it: the label with the
// name that people gave it.
func named(id doc.ID, tag, name string) finding.Subject {
	if name != "" {
		tag += " (" + name + ")"
	}
	return finding.Subject{ID: string(id), Label: tag}
}

func areaSubject(a *doc.Area) finding.Subject { return named(a.ID, a.Tag, a.Name) }
func lineSubject(l *doc.Line) finding.Subject { return named(l.ID, l.Tag, l.Name) }
func markSubject(m *doc.Mark) finding.Subject { return named(m.ID, m.Tag, m.Name) }

// survey gives every step the facts of the ground where it stands. They are part
// of the walk, as are those about the way of a run, so a circuit is built again when they change.
func (d *deriver) survey(w *walk) {
	for i, n := range w.points {
		if n >= 0 {
			w.steps[i].place = d.stood[n].facts
		}
	}
}

// equipment fills in what the plan and the stock book say of a node's place and
// its fitness for it.
func (d *deriver) equipment(node *network.Node, st *step) {
	node.Place = st.place
	switch e := st.entity.(type) {
	case *doc.Box:
		item, _ := d.stock.Box(e.Stock)
		node.IP = item.IP
	case *doc.Gear:
		item, _ := d.stock.GearItem(e.Stock)
		node.IP = item.IP
	case *doc.Source:
		item, _ := d.stock.Converter(e.Stock)
		node.IP = item.IP
	case *doc.Lamp:
		item, _ := d.lampItem(e.Stock)
		node.IP, node.Form, node.White = item.IP, item.Kind, item.Temperature
	}
}
