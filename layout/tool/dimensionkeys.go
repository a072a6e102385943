package tool

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const (
	anchorHint = "J measures from the next thing or corner, Shift+J from the one before; the arrows move this end; , and . go to the next handle, Esc lets go"
	lineHint   = "The arrows move the dimension line; , and . go to the next handle, Esc lets go"
)

// dimensionLine is the handle of a dimension that moves its line, after those of
// what it measures between.
const dimensionLine = dimensionTo + 1

// handlesOf returns where the handles of a dimension are.
func handlesOf(s *doc.Scheme, d *doc.Dimension) []geom.Point {
	sh := doc.ShapeOf(s, d)
	return []geom.Point{dimensionFrom: sh.From, dimensionTo: sh.To, dimensionLine: geom.Around(sh.A, sh.B).Centre()}
}

// moveHandle moves the chosen handle of a dimension by an arrow.
func (t selecting) moveHandle(e Event, w *World, d *doc.Dimension, at geom.Point) Verdict {
	by := arrow(e, w)
	t.from = nil
	if t.corner.index == dimensionLine {
		c := *d
		sh := doc.ShapeOf(w.Scheme, d)
		c.Offset = doc.OffsetAt(d.Kind, sh.From, sh.To, sh.A.Add(by))
		if c.Offset == d.Offset {
			return t.refuse(w, "The line stands square off what it measures; the other arrows move it")
		}
		return t.dimensioned(w, &c)
	}
	to := doc.Anchor{At: at.Add(by)}
	if c := nearestSpot(w, to.At, by, func(*catcher) bool { return true }); c != nil {
		to = c.anchor()
	}
	return t.measure(w, d, to)
}

// measureNext measures from the next thing or corner.
func (t selecting) measureNext(w *World, d *doc.Dimension, at geom.Point, by int) Verdict {
	if t.corner.index == dimensionLine {
		return t.refuse(w, "The line is on nothing; choose an end of what it measures with , or .")
	}
	if t.from == nil {
		t.from = &at
	}
	was, other := d.From, d.To
	if t.corner.index == dimensionTo {
		was, other = other, was
	}
	far := doc.AnchorPoint(w.Scheme, other)
	next := spotAfter(w, *t.from, by, func(c *catcher) bool { return c.a != far }, func(c *catcher) bool { return c.anchor() == was })
	if next == nil {
		return t.refuse(w, "There is nothing else to measure from")
	}
	return t.measure(w, d, next.anchor())
}

// measure takes the chosen end of what a dimension measures to an anchor.
func (t selecting) measure(w *World, d *doc.Dimension, to doc.Anchor) Verdict {
	c := *d
	other := d.To
	if t.corner.index == dimensionFrom {
		c.From = to
	} else {
		c.To, other = to, d.From
	}
	if doc.AnchorPoint(w.Scheme, to) == doc.AnchorPoint(w.Scheme, other) {
		return t.refuse(w, "A dimension measures between two places")
	}
	return t.dimensioned(w, &c)
}

// dimensioned changes the dimension whose handle is chosen.
func (t selecting) dimensioned(w *World, d *doc.Dimension) Verdict {
	at := handlesOf(w.Scheme, d)[t.corner.index]
	return Verdict{Next: t, Hint: t.cornerHint(w), Used: true, Overlay: Overlay{Corner: &at}, Commit: edit.SetDimension{Dimension: d}}
}

// refuse says why the chosen handle stays where it is.
func (t selecting) refuse(w *World, why string) Verdict {
	v := t.marked(Verdict{Next: t, Hint: selectHint, Used: true}, w)
	v.Refused = why
	return v
}

// anchor returns the anchor of a dimension on a thing or corner.
func (c *catcher) anchor() doc.Anchor { return doc.Anchor{On: c.on, Corner: c.n} }
