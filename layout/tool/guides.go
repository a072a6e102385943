package tool

import (
	"cmp"
	"slices"

	"duskwire/layout/geom"
)

const (
	// beyond is how far past its end an edge still catches in line with it, in
	// reaches.
	beyond = 10
	// mostLines bounds the lines whose crossings are looked at.
	mostLines = 8
)

// collect finds the spots in reach of a place, and the lines.
func (f *finder) collect(at geom.Point, turned bool) {
	f.found, f.lines = f.found[:0], nil
	list := placesOf(f.w)
	off := f.w.Snaps.Off()
	// Closer to the wall than that it could not be told from the wall itself.
	along := !f.w.Snaps.NoAlong && !turned && (f.e.Keyed || 5*off > 3*f.rulers)
	wide := max(f.spots+f.spots/2, f.rulers)
	if along {
		wide = max(wide, f.rulers+off)
	}
	if !f.w.Snaps.NoExtension && !turned {
		wide = max(wide, beyond*f.e.Reach+f.rulers)
	}
	list.cells.Near(geom.Around(at).Grow(wide), func(i int) {
		p := &list.list[i]
		if f.leave[p.on] {
			return
		}
		switch p.what {
		case aThing:
			if f.how.points {
				f.add(p.a, geom.RankPoint, p)
			}
		case aCorner:
			if !f.w.Snaps.NoCorner {
				f.add(p.a, geom.RankVertex, p)
			}
		case anEdge:
			f.edge(at, p, along, turned)
		}
	})
	f.tracks(at, turned)
	slices.SortStableFunc(f.lines, func(a, b line) int { return cmp.Compare(a.off, b.off) })
	if len(f.lines) > mostLines {
		f.lines = f.lines[:mostLines]
	}
	for i, l := range f.lines {
		for _, o := range f.lines[:i] {
			if turned && l.rank != geom.RankAngle && o.rank != geom.RankAngle {
				continue
			}
			if l.on != "" && l.on == o.on && l.rank == geom.RankEdge && o.rank == geom.RankEdge {
				continue // a corner, which has its own say
			}
			if q, ok := geom.Meet(l.Ruler, o.Ruler); ok && f.reaches(l, q) && f.reaches(o, q) {
				f.found = append(f.found, candidate{snapped{at: q, rank: geom.RankCross}, []line{o, l}})
			}
		}
	}
	if !turned {
		f.feet()
	}
}

func (f *finder) add(at geom.Point, rank geom.Rank, p *catcher) {
	f.found = append(f.found, candidate{snapped: snapped{at, rank, p.on, p.n}})
}

// line adds a line that is in reach of a place.
func (f *finder) line(at geom.Point, l line) {
	if l.foot, l.off = l.Foot(at); l.off <= f.rulers {
		f.lines = append(f.lines, l)
	}
}

// edge adds an edge, the lines beside it and the line beyond its ends.
func (f *finder) edge(at geom.Point, p *catcher, along, turned bool) {
	r := geom.Ruler{A: p.a, B: p.b}
	if !f.w.Snaps.NoEdge || !f.w.Snaps.NoFoot {
		f.line(at, line{Ruler: r, rank: geom.RankEdge, on: p.on, edge: p.n})
	}
	if along && p.wall {
		for _, d := range []geom.Length{f.w.Snaps.Off(), -f.w.Snaps.Off()} {
			if b, ok := r.Beside(d); ok {
				f.line(at, line{Ruler: b, rank: geom.RankAlong, on: p.on, edge: p.n})
			}
		}
	}
	if f.w.Snaps.NoExtension || turned {
		return
	}
	l := line{Ruler: geom.Ruler{A: p.a, B: p.b, Endless: true}, rank: geom.RankExtension, on: p.on, edge: p.n}
	foot, d := l.Foot(at)
	t, ok := l.Part(foot)
	if !ok || d > f.rulers {
		return
	}
	if l.start = p.b; t < 0 {
		l.start = p.a
	}
	if f.reaches(l, foot) {
		f.line(at, l)
	}
}

// reaches reports whether a line in line with an edge is one at q: beyond the
// end that it starts from, and not too far. Other lines reach wherever they go.
func (f *finder) reaches(l line, q geom.Point) bool {
	if l.rank != geom.RankExtension {
		return true
	}
	t, _ := l.Part(q)
	past := t > 1 && l.start == l.B || t < 0 && l.start == l.A
	return past && (l.on == "" || geom.Distance(l.start, q) <= beyond*f.e.Reach)
}

// tracks adds the lines that start from the last vertex and from the corner
// visited last. With Shift there is only the ray.
func (f *finder) tracks(at geom.Point, turned bool) {
	from := f.how.from
	if turned {
		to := geom.ToAngle(*from, at, f.how.step, 0)
		if to != *from {
			f.line(at, line{Ruler: geom.Ruler{A: *from, B: to, Endless: true}, rank: geom.RankAngle, start: *from, word: "the round angle"})
		}
		return
	}
	if b := f.how.before; b != nil && from != nil && *b != *from && !f.w.Snaps.NoExtension {
		l := line{Ruler: geom.Ruler{A: *b, B: *from, Endless: true}, rank: geom.RankExtension, start: *from, word: "in line with the last leg"}
		if foot, _ := l.Foot(at); f.reaches(l, foot) {
			f.line(at, l)
		}
	}
	if f.w.Snaps.NoTrack {
		return
	}
	if from != nil {
		f.track(at, *from, "the last point")
	}
	if v := f.w.visited; v != nil && (from == nil || *v != *from) {
		f.track(at, *v, "the corner visited")
	}
}

func (f *finder) track(at, from geom.Point, name string) {
	level := geom.Ruler{A: from, B: from.Add(geom.Point{X: geom.Metre}), Endless: true}
	upright := geom.Ruler{A: from, B: from.Add(geom.Point{Y: geom.Metre}), Endless: true}
	f.line(at, line{Ruler: level, rank: geom.RankTrack, start: from, word: "level with " + name})
	f.line(at, line{Ruler: upright, rank: geom.RankTrack, start: from, word: "upright from " + name})
}

// feet adds the feet of the last vertex on the edges, and takes the edges off
// the lines when they were only wanted for that. The foot of a vertex on an
// edge that it ends is no place to go.
func (f *finder) feet() {
	from := f.how.from
	if from != nil && !f.w.Snaps.NoFoot {
		for _, l := range f.lines {
			if l.rank != geom.RankEdge {
				continue
			}
			if t, ok := l.Part(*from); !ok || t < 0 || t > 1 {
				continue
			}
			q, d := l.Foot(*from)
			if d > f.e.Reach/4 {
				l.rank, l.start = geom.RankFoot, *from
				f.found = append(f.found, candidate{snapped{q, geom.RankFoot, l.on, l.edge}, []line{l}})
			}
		}
	}
	if f.w.Snaps.NoEdge {
		f.lines = slices.DeleteFunc(f.lines, func(l line) bool { return l.rank == geom.RankEdge })
	}
}
