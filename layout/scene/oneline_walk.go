package scene

import (
	"cmp"
	"math"
	"slices"

	"duskwire/layout/doc"
)

// Hit returns what lies at a place: a symbol within reach, else a run within
// reach, else what the text there belongs to; "" for nothing.
func (d *Diagram) Hit(at XY, reach float64) doc.ID {
	best, id := math.MaxFloat64, doc.ID("")
	for i := range d.Symbols {
		s := &d.Symbols[i]
		dx := max(0, math.Abs(at.X-s.At.X)-s.RX)
		dy := max(0, math.Abs(at.Y-s.At.Y)-s.RY)
		if far := math.Hypot(dx, dy); far <= min(reach, 1.5) && far < best && s.Entity != "" {
			best, id = far, s.Entity
		}
	}
	if id != "" {
		return id
	}
	best = reach
	for i := range d.Runs {
		r := &d.Runs[i]
		// The way into what a run feeds is its own; the line before it may be
		// shared with others, and is looked at second.
		n := len(r.Path)
		for k := 1; k < n; k++ {
			far := distance(at, r.Path[k-1], r.Path[k])
			if k < n-1 {
				far += 0.3
			}
			if far < best {
				best, id = far, r.Entity
			}
		}
	}
	if id != "" {
		return id
	}
	for i := range d.Runs {
		if r := &d.Runs[i]; covers(at, r.Low, r.High) {
			return r.Entity
		}
	}
	for i := range d.Symbols {
		if s := &d.Symbols[i]; covers(at, s.Low, s.High) {
			return s.Entity
		}
	}
	return ""
}

func covers(p, lo, hi XY) bool { return p.X >= lo.X && p.Y >= lo.Y && p.X <= hi.X && p.Y <= hi.Y }

// distance from p to the stretch from a to b.
func distance(p, a, b XY) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// Bounds returns what is drawn of an entity; ok is false when nothing is.
func (d *Diagram) Bounds(id doc.ID) (lo, hi XY, ok bool) {
	if s, is := d.Symbol(id); is {
		return s.Low, s.High, true
	}
	if r, is := d.RunOf(id); is {
		lo, hi = bounds(r.Path)
		if r.High.X > r.Low.X {
			lo, hi = XY{min(lo.X, r.Low.X), min(lo.Y, r.Low.Y)}, XY{max(hi.X, r.High.X), max(hi.Y, r.High.Y)}
		}
		return lo, hi, true
	}
	return lo, hi, false
}

// Way is a direction to step in along a circuit.
type Way int

const (
	WayBack  Way = iota // towards the supply
	WayOn               // away from it
	WayAbove            // to what the same thing feeds before
	WayBelow            // and after
)

// Step returns what comes next along the circuit: from a symbol the run that it
// feeds or is fed by, from a run the symbol at its end; above and below go from
// one thing to the next of those fed by the same. The same id when the circuit
// ends there, and the first symbol from "" or what is not drawn.
func (d *Diagram) Step(from doc.ID, way Way) doc.ID {
	if r, ok := d.RunOf(from); ok {
		return d.stepRun(from, r, way)
	}
	i, ok := d.symbol[from]
	if !ok {
		return d.first()
	}
	s := &d.Symbols[i]
	switch way {
	case WayBack:
		if s.Run != "" {
			return s.Run
		}
		return d.entityUp(s.Up, from)
	case WayOn:
		if len(s.Kids) > 0 {
			if k := &d.Symbols[s.Kids[0]]; k.Run != "" {
				return k.Run
			}
			return d.Symbols[s.Kids[0]].Entity
		}
		for k := range d.Runs {
			if r := &d.Runs[k]; r.Closes && (r.From == i || r.To == i) {
				return r.Entity
			}
		}
	default:
		if k := d.beside(i, way); k >= 0 && d.Symbols[k].Entity != "" {
			return d.Symbols[k].Entity
		}
	}
	return from
}

func (d *Diagram) stepRun(from doc.ID, r *DiagramRun, way Way) doc.ID {
	s := &d.Symbols[r.To]
	switch way {
	case WayBack:
		return d.entityUp(r.From, from)
	case WayOn:
		if s.Entity != "" && s.Entity != from {
			return s.Entity
		}
	default:
		if k := d.beside(r.To, way); k >= 0 && d.Symbols[k].Run != "" && !r.Closes {
			return d.Symbols[k].Run
		}
	}
	return from
}

// entityUp is the nearest symbol of an entity from i towards the supply.
func (d *Diagram) entityUp(i int, none doc.ID) doc.ID {
	for ; i >= 0; i = d.Symbols[i].Up {
		if s := &d.Symbols[i]; s.Entity != "" && !s.Part {
			return s.Entity
		}
	}
	return none
}

// first is the first supply point, else the first thing drawn.
func (d *Diagram) first() doc.ID {
	for i := range d.Symbols {
		if s := &d.Symbols[i]; s.Entity != "" {
			return s.Entity
		}
	}
	return ""
}

// beside returns the symbol above or below among those fed by the same, in the
// order of reading, so that none of them is stepped over; at either end the
// nearest in that direction. -1 for none.
func (d *Diagram) beside(i int, way Way) int {
	if k := d.sibling(i, way); k >= 0 {
		return k
	}
	s := &d.Symbols[i]
	best, far := -1, math.MaxFloat64
	for k := range d.Symbols {
		o := &d.Symbols[k]
		dy := o.At.Y - s.At.Y
		if way == WayAbove {
			dy = -dy
		}
		if k == i || o.Entity == "" || o.Part || dy <= 0.5 {
			continue
		}
		if f := math.Abs(dy) + 0.5*math.Abs(o.At.X-s.At.X); f < far {
			best, far = k, f
		}
	}
	return best
}

// sibling returns the one before or after i, from top to bottom and from left to
// right, among the symbols fed by the same; -1 for none.
func (d *Diagram) sibling(i int, way Way) int {
	up := d.Symbols[i].Up
	if up < 0 {
		return -1
	}
	row := make([]int, 0, len(d.Symbols[up].Kids))
	for _, k := range d.Symbols[up].Kids {
		if o := &d.Symbols[k]; k == i || o.Entity != "" && !o.Part {
			row = append(row, k)
		}
	}
	slices.SortFunc(row, func(a, b int) int {
		p, q := d.Symbols[a].At, d.Symbols[b].At
		return cmp.Or(cmp.Compare(p.Y, q.Y), cmp.Compare(p.X, q.X), cmp.Compare(a, b))
	})
	step := 1
	if way == WayAbove {
		step = -1
	}
	if at := slices.Index(row, i) + step; slices.Contains(row, i) && at >= 0 && at < len(row) {
		return row[at]
	}
	return -1
}
