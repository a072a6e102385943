package edit

import (
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// AddDimension adds a dimension line.
type AddDimension struct{ Dimension *doc.Dimension }

// Name implements Operation.
func (o AddDimension) Name() string { return "Draw dimension" }

// Apply implements Operation.
func (o AddDimension) Apply(s *doc.Scheme) (*doc.Scheme, error) { return add(s, o.Dimension) }

// SetDimension changes a dimension line: what it measures between, how, and
// where its line stands.
type SetDimension struct{ Dimension *doc.Dimension }

// Name implements Operation.
func (o SetDimension) Name() string { return "Change dimension" }

// Apply implements Operation.
func (o SetDimension) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Dimension) }

func (o SetDimension) title(s *doc.Scheme) string { return changeOf(s, o.Dimension) }

// tidyAnchors clears what is ignored in a dimension of our own.
func tidyAnchors(d *doc.Dimension) *doc.Dimension {
	for _, a := range []*doc.Anchor{&d.From, &d.To} {
		if a.On != "" {
			a.At = geom.Point{}
		} else {
			a.Corner = 0
		}
	}
	return d
}

// remeasured returns the scheme with its dimensions changed by f, which gets
// one anchor of a copy.
func remeasured(s *doc.Scheme, touches func(doc.Anchor) bool, f func(*doc.Anchor)) doc.Set[*doc.Dimension] {
	return s.Dimensions.Map(func(d *doc.Dimension) *doc.Dimension {
		if !touches(d.From) && !touches(d.To) {
			return d
		}
		c := *d
		for _, a := range []*doc.Anchor{&c.From, &c.To} {
			if touches(*a) {
				f(a)
			}
		}
		return &c
	})
}

// reanchored returns the dimensions of s for when the entity old is replaced
// by e, which makes scheme n: an anchor goes with its corner where that got
// another number, and stays in the air where its corner is no more.
func reanchored(s, n *doc.Scheme, e doc.Entity) doc.Set[*doc.Dimension] {
	if s.Dimensions.Len() == 0 {
		return s.Dimensions
	}
	old, _ := doc.Find(s, e.Key())
	on := func(a doc.Anchor) bool { return a.On == e.Key() }
	if old == nil || !slices.ContainsFunc(s.Dimensions.All(), func(d *doc.Dimension) bool { return on(d.From) || on(d.To) }) {
		return s.Dimensions
	}
	was, now := doc.Corners(s, old), doc.Corners(n, e)
	if len(was) == len(now) {
		return s.Dimensions
	}
	return remeasured(s, on, func(a *doc.Anchor) {
		if a.Corner >= len(was) {
			return
		}
		// The corners before it or those behind it have kept their order.
		at := was[a.Corner]
		for _, i := range []int{a.Corner, a.Corner + len(now) - len(was)} {
			if i >= 0 && i < len(now) && now[i] == at {
				a.Corner = i
				return
			}
		}
		if i := slices.Index(now, at); i >= 0 {
			a.Corner = i
			return
		}
		*a = doc.Anchor{At: at}
	})
}

// unanchored returns the dimensions of s without those that go; anchors on
// other things that go stay in the air where those stood.
func unanchored(s *doc.Scheme, gone map[doc.ID]bool) doc.Set[*doc.Dimension] {
	n := doc.Scheme{Dimensions: without(s.Dimensions, gone)}
	return remeasured(&n, func(a doc.Anchor) bool { return gone[a.On] }, func(a *doc.Anchor) {
		*a = doc.Anchor{At: doc.AnchorPoint(s, *a)}
	})
}

// moveDimension moves a copy of a dimension: what it measures between where
// that is its own, else, when none of the things it is on moves, its line.
func moveDimension(s *doc.Scheme, d *doc.Dimension, by geom.Point, moves map[doc.ID]bool) {
	if d.From.On != "" && d.To.On != "" && !moves[d.From.On] && !moves[d.To.On] {
		sh := doc.ShapeOf(s, d)
		d.Offset = doc.OffsetAt(d.Kind, sh.From, sh.To, sh.A.Add(by))
		return
	}
	for _, a := range []*doc.Anchor{&d.From, &d.To} {
		if a.On == "" {
			a.At = a.At.Add(by)
		}
	}
}
