package scene

import (
	"duskwire/layout/doc"
)

// draw makes the items, lines first.
func (d *oneLine) draw() {
	for i := range d.all {
		if e := &d.all[i]; len(e.path) > 1 {
			d.line(string(e.lineOf()), e.path, e.sys)
		}
	}
	for i := range d.rings {
		d.line(string(d.rings[i].run), d.rings[i].path, d.rings[i].sys)
	}
	for i := range d.all {
		d.dots(&d.all[i])
	}
	for i := range d.all {
		e := &d.all[i]
		for _, sh := range lineSymbol(e.name).shapes {
			d.put(sh.item(string(e.id), e.at, d.b.pal, make([]XY, len(sh.pts))))
		}
	}
	for _, h := range d.heads {
		d.text("", h.text, h.at, Left, capTag, true, d.b.pal.Ink)
	}
	for i := range d.all {
		d.letter(&d.all[i])
	}
	for i := range d.rings {
		r := &d.rings[i]
		d.text(string(r.run), r.text, r.at, Left, capLabel, false, d.b.runStyle(r.sys).Stroke)
		d.mark(string(r.run), XY{r.high.X - markRoom/2 + 0.2, r.at.Y - capLabel/2})
	}
}

// lineOf is the entity that the line to an element stands for: its run, else
// what it belongs to.
func (e *element) lineOf() doc.ID {
	if e.run != "" {
		return e.run
	}
	return e.id
}

func (d *oneLine) put(it Item) { d.out.List.Items = append(d.out.List.Items, it) }

func (d *oneLine) line(id string, path []XY, s system) {
	d.put(Item{Kind: Polyline, Layer: LayerRuns, Entity: id, Points: path, Style: d.b.runStyle(s)})
}

func (d *oneLine) text(id, s string, at XY, a Anchor, size float64, bold bool, c Colour) {
	if s != "" {
		d.put(Item{Kind: Text, Layer: LayerLabels, Entity: id, Text: s, Points: []XY{at}, Anchor: a, Size: size, Bold: bold, Style: Style{Fill: c}})
	}
}

// dots marks where lines part below an element (IEC 60617: a junction is a
// dot).
func (d *oneLine) dots(e *element) {
	if !e.bus() {
		return
	}
	last := 0.0
	var at []XY
	for _, k := range append(append([]int(nil), e.hangs...), e.branches...) {
		p := d.all[k].path
		last = max(last, p[1].Y)
		at = append(at, p[1:len(p)-1]...)
	}
	for _, p := range at {
		// A line that ends in a corner is no junction.
		if p.X == e.at.X && p.Y < last {
			d.put(Item{Kind: Circle, Layer: LayerRuns, Points: []XY{p}, Size: 0.55, Style: Style{Fill: d.b.runStyle(d.all[e.kids[0]].sys).Stroke}})
		}
	}
}

// letter writes the texts of an element and of its line, and its marks.
func (d *oneLine) letter(e *element) {
	id, ink, soft := string(e.id), d.b.pal.Ink, d.b.pal.Soft
	colour := d.b.runStyle(e.sys).Stroke
	if e.hung {
		x := e.at.X + e.rx + 1
		head := e.hangHead()
		d.text(id, head, XY{x, e.at.Y - 1.7}, Left, capTag, false, ink)
		over := e.lineOf()
		d.text(string(over), e.over, XY{x, e.at.Y + 1.1}, Left, capLabel, false, colour)
		d.text(string(over), e.under, XY{x, e.at.Y + 3.9}, Left, capLabel, false, colour)
		if e.run == "" || !e.none {
			d.mark(id, XY{x + TextWidth(head, capTag, false) + markRoom/2, e.at.Y - 2.6})
		}
		if e.run != "" {
			d.mark(string(e.run), XY{x + e.along() + markRoom/2, e.at.Y + 2.2})
		}
		top := e.at.Y - 0.8
		if e.none {
			top = e.at.Y - 3.8
		}
		e.linkLow, e.linkHigh = XY{x, top}, XY{x + e.along(), e.at.Y + 4.1}
		return
	}
	at, anchor := XY{e.at.X, e.at.Y + e.ry + 1.5 + capTag}, Middle
	if e.bus() {
		at.X, anchor = at.X+1.2, Left
	}
	if e.tag != "" {
		d.text(id, e.tag, at, anchor, capTag, true, ink)
		at.Y += lineGap
	}
	for _, l := range e.lines {
		d.text(id, l, at, anchor, capLabel, false, soft)
		at.Y += lineGap
	}
	if !e.part {
		d.mark(id, XY{e.at.X, e.at.Y - e.ry - 2.4})
	}
	d.linkText(e, colour)
}

// linkText writes along the last stretch of the line that feeds an element.
func (d *oneLine) linkText(e *element, colour Colour) {
	n := len(e.path)
	if n < 2 || e.over == "" && e.under == "" {
		return
	}
	id := string(e.lineOf())
	middle, y := (e.path[n-2].X+e.path[n-1].X)/2, e.at.Y
	w := e.along()
	x := middle - (w+markRoom)/2 + markRoom
	if e.run == "" || !d.marked(string(e.run)) {
		x = middle - w/2
	}
	d.text(id, e.over, XY{x, y - 1.1}, Left, capLabel, false, colour)
	d.text(id, e.under, XY{x, y + 1.1 + capLabel}, Left, capLabel, false, colour)
	if e.run != "" {
		d.mark(string(e.run), XY{x - markRoom/2 - 0.2, y - 2.5})
	}
	e.linkLow, e.linkHigh = XY{x, y - 1.1 - capLabel}, XY{x + w, y + 1.1 + capLabel + tail}
}

// marked reports whether an entity has a finding mark.
func (d *oneLine) marked(id string) bool {
	_, ok := d.b.worst[id]
	return ok
}

// mark draws the mark of the worst finding about an entity.
func (d *oneLine) mark(id string, at XY) {
	if !d.marked(id) || id == "" {
		return
	}
	for _, it := range Badge(d.b.worst[id], d.b.closed[id], at, d.b.pal) {
		it.Entity = id
		d.put(it)
	}
}

// enterLoose makes an element of every point and run that is in no circuit.
func (d *oneLine) enterLoose() {
	in := func(id doc.ID) bool { return false }
	if d.in.Circuits != nil {
		all := d.in.Circuits.Circuits
		in = func(id doc.ID) bool {
			for i := range all {
				_, node := all[i].Node[id]
				_, run := all[i].Branch[id]
				if node || run {
					return true
				}
			}
			return false
		}
	}
	doc.Each(d.in.Scheme, func(e doc.Entity, k doc.Kind) {
		if !k.Joinable() && k != doc.RunKind || in(e.Key()) {
			return
		}
		el := element{id: e.Key(), tag: fitted(e.Label(), 14), up: -1, next: -1}
		switch e := e.(type) {
		case *doc.Lamp:
			el.name = "lamp other"
		case *doc.Box:
			el.name = "box"
		case *doc.Gear:
			el.name = d.b.gearName(e)
		case *doc.Source:
			el.name = d.b.sourceName(e)
		case *doc.Supply:
			el.name = supplyName(e)
		case *doc.Run:
			el.name, el.run, el.sys = "line run", e.ID, unknown
		}
		d.all = append(d.all, el)
	})
}
