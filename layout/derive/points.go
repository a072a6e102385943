package derive

import "duskwire/layout/doc"

// points numbers what runs can be joined to, lamps first, and says how they are
// joined. Numbers are those of one scheme; what is kept from scheme to scheme is
// found again by them only while keeps holds.
type points struct {
	scheme *doc.Scheme
	all    []doc.Entity
	from   [kinds]int // number of the first point of each kind
	ends   [][2]int   // per run: the points at its ends, -1 in the air
	joined [][]int    // per point: runs, in run order
}

// The kinds of points in the order of their numbers.
const (
	lamps = iota
	boxes
	gear
	sources
	supplies
	kinds
)

// pointsOf numbers the points of a scheme. How they are joined is taken over
// from the scheme before when it has the same points and runs.
func pointsOf(s *doc.Scheme, before *points) *points {
	n := s.Boxes.Len() + s.Lamps.Len() + s.Gear.Len() + s.Sources.Len() + s.Supplies.Len()
	p := &points{scheme: s, all: make([]doc.Entity, 0, n)}
	enter(p, lamps, s.Lamps)
	enter(p, boxes, s.Boxes)
	enter(p, gear, s.Gear)
	enter(p, sources, s.Sources)
	enter(p, supplies, s.Supplies)
	if p.keeps(before) && same(s.Runs.All(), before.scheme.Runs.All()) {
		p.ends, p.joined = before.ends, before.joined
		return p
	}
	p.join()
	return p
}

func enter[E doc.Entity](p *points, kind int, s doc.Set[E]) {
	p.from[kind] = len(p.all)
	for _, e := range s.All() {
		p.all = append(p.all, e)
	}
}

// keeps reports whether every number means a point of the same id as before.
func (p *points) keeps(before *points) bool {
	if before == nil || p.from != before.from || len(p.all) != len(before.all) {
		return false
	}
	for i, e := range p.all {
		if o := before.all[i]; e != o && e.Key() != o.Key() {
			return false
		}
	}
	return true
}

// join notes the ends of all runs.
func (p *points) join() {
	runs := p.scheme.Runs.All()
	p.ends = make([][2]int, len(runs))
	count := make([]int, len(p.all))
	inParts(len(runs), func(from, to int) {
		for i := from; i < to; i++ {
			p.ends[i] = [2]int{p.number(runs[i].From.On), p.number(runs[i].To.On)}
		}
	})
	for i := range runs {
		p.each(i, func(at int) { count[at]++ })
	}
	p.joined = make([][]int, len(p.all))
	room := make([]int, 2*len(runs))
	for at, n := range count {
		p.joined[at], room = room[:0:n], room[n:]
	}
	for i := range runs {
		p.each(i, func(at int) { p.joined[at] = append(p.joined[at], i) })
	}
}

// each calls f with the points that a run is joined to, once each.
func (p *points) each(run int, f func(at int)) {
	e := p.ends[run]
	if e[0] >= 0 {
		f(e[0])
	}
	if e[1] >= 0 && e[1] != e[0] {
		f(e[1])
	}
}

// number returns the number of a point, -1 for none.
func (p *points) number(id doc.ID) int {
	if id == "" {
		return -1
	}
	s := p.scheme
	if i, ok := s.Lamps.Index(id); ok {
		return p.from[lamps] + i
	}
	if i, ok := s.Boxes.Index(id); ok {
		return p.from[boxes] + i
	}
	if i, ok := s.Gear.Index(id); ok {
		return p.from[gear] + i
	}
	if i, ok := s.Sources.Index(id); ok {
		return p.from[sources] + i
	}
	if i, ok := s.Supplies.Index(id); ok {
		return p.from[supplies] + i
	}
	return -1
}

// point returns the point of a number, nil for -1.
func (p *points) point(number int) doc.Entity {
	if number < 0 {
		return nil
	}
	return p.all[number]
}

// runBefore returns the number that run i had in the scheme before, -1 when it
// was not there.
func (p *points) runBefore(i int, before *points) int {
	id := p.scheme.Runs.All()[i].ID
	if old := before.scheme.Runs.All(); i < len(old) && old[i].ID == id {
		return i
	}
	if k, ok := before.scheme.Runs.Index(id); ok {
		return k
	}
	return -1
}
