package edit

import (
	"cmp"
	"math"
	"slices"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Spread says along what things are distributed.
type Spread int

const (
	SpreadX     Spread = iota // from the leftmost to the rightmost
	SpreadY                   // from the lowest to the highest
	SpreadChain               // along the line through them in the order of the cable
	SpreadRow                 // on the straight line from the first to the last
	SpreadArc                 // on the arc through the first, the middle one and the last
)

// Spreads are all of them in words.
var Spreads = []string{"across", "up and down", "along the chain", "in a straight row", "on an arc"}

// Distribute puts the middles of things at equal spacing; the two outermost,
// or the first and the last, stay. The chain goes through the things in the
// order in which runs join them, where runs join them all one after the other,
// else in the order given. Spacing above 0 is kept instead: then only the first
// stays. It is refused for an arc that it would take once round.
type Distribute struct {
	IDs     []doc.ID
	How     Spread
	Spacing geom.Length
}

// Name implements Operation.
func (o Distribute) Name() string { return "Distribute " + Spreads[o.How] }

func (o Distribute) title(s *doc.Scheme) string {
	return "Distribute " + countedThings(s, o.IDs) + " " + Spreads[o.How]
}

// Apply implements Operation.
func (o Distribute) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	least := 3
	if o.Spacing > 0 && o.How != SpreadArc {
		least = 2
	}
	ts, err := things(s, o.IDs, least, "distribute")
	if err != nil {
		return nil, err
	}
	ts = o.order(s, ts)
	at, err := o.places(ts)
	if err != nil {
		return nil, err
	}
	by := map[doc.ID]geom.Point{}
	for i, t := range ts {
		by[t.id] = at[i].Sub(t.box.Centre())
	}
	return shiftEach(s, movers(ts, by), "distribute", by)
}

func (o Distribute) order(s *doc.Scheme, ts []thing) []thing {
	ts = slices.Clone(ts)
	switch o.How {
	case SpreadX:
		slices.SortStableFunc(ts, func(a, b thing) int { return cmp.Compare(a.box.Centre().X, b.box.Centre().X) })
	case SpreadY:
		slices.SortStableFunc(ts, func(a, b thing) int { return cmp.Compare(a.box.Centre().Y, b.box.Centre().Y) })
	default:
		if c := chain(s, ts); c != nil {
			return c
		}
	}
	return ts
}

// chain returns the things in the order of the runs that join them one after
// the other, starting at the end that comes first in ts; nil when they form no
// such chain.
func chain(s *doc.Scheme, ts []thing) []thing {
	at := map[doc.ID]int{}
	for i, t := range ts {
		at[t.id] = i
	}
	next := make([][]int, len(ts))
	for _, r := range s.Runs.All() {
		i, ok1 := at[r.From.On]
		j, ok2 := at[r.To.On]
		if ok1 && ok2 && !slices.Contains(next[i], j) {
			next[i], next[j] = append(next[i], j), append(next[j], i)
		}
	}
	i := slices.IndexFunc(next, func(n []int) bool { return len(n) == 1 })
	if i < 0 {
		return nil
	}
	var out []thing
	for before := -1; ; {
		out = append(out, ts[i])
		if len(next[i]) > 2 {
			return nil
		}
		j := slices.IndexFunc(next[i], func(n int) bool { return n != before })
		if j < 0 {
			break
		}
		before, i = i, next[i][j]
	}
	if len(out) != len(ts) {
		return nil
	}
	return out
}

// places returns where the middles go.
func (o Distribute) places(ts []thing) ([]geom.Point, error) {
	n := len(ts)
	centres := make([]geom.Point, n)
	for i, t := range ts {
		centres[i] = t.box.Centre()
	}
	first, last := centres[0], centres[n-1]
	switch o.How {
	case SpreadX, SpreadY:
		return o.onAxis(centres)
	case SpreadArc:
		return onArc(first, centres[n/2], last, n, o.Spacing)
	case SpreadRow:
		centres = []geom.Point{first, last}
	}
	out := make([]geom.Point, n)
	total := float64(geom.PathLength(centres))
	if total == 0 {
		return nil, refuse("they all stand at one place, which gives no line to distribute along")
	}
	for i := range out {
		d := total * float64(i) / float64(n-1)
		if o.Spacing > 0 {
			d = float64(o.Spacing) * float64(i)
		}
		out[i] = alongPath(centres, d)
	}
	if o.Spacing <= 0 {
		out[n-1] = last
	}
	return out, nil
}

func (o Distribute) onAxis(centres []geom.Point) ([]geom.Point, error) {
	out := slices.Clone(centres)
	n := len(out)
	of := func(p *geom.Point) *geom.Length {
		if o.How == SpreadX {
			return &p.X
		}
		return &p.Y
	}
	low, high := *of(&centres[0]), *of(&centres[n-1])
	for i := range out {
		to := low + geom.Length(math.Round(float64(high-low)*float64(i)/float64(n-1)))
		if o.Spacing > 0 {
			to = low + o.Spacing*geom.Length(i)
		}
		*of(&out[i]) = to
	}
	return out, nil
}

// alongPath returns the point at a distance along a polyline; beyond its end
// the last stretch goes on straight.
func alongPath(path []geom.Point, d float64) geom.Point {
	for i := 1; i < len(path); i++ {
		l := float64(geom.Distance(path[i-1], path[i]))
		if l > 0 && (d <= l || i == len(path)-1) {
			return between(path[i-1], path[i], d/l)
		}
		d -= l
	}
	return path[len(path)-1]
}

// between returns a + t·(b-a), rounded to the micrometre.
func between(a, b geom.Point, t float64) geom.Point {
	return geom.Point{
		X: a.X + geom.Length(math.Round(t*float64(b.X-a.X))),
		Y: a.Y + geom.Length(math.Round(t*float64(b.Y-a.Y))),
	}
}

// onArc returns n places at equal angles on the circle through three points,
// from the first over the second to the third; with a spacing at that distance
// along the arc from the first on.
func onArc(a, via, b geom.Point, n int, spacing geom.Length) ([]geom.Point, error) {
	c, ok := geom.Through(a, via, b)
	if !ok {
		return nil, refuse("first, middle and last stand on one line, which gives no arc")
	}
	step := c.Sweep / float64(n-1)
	if spacing > 0 {
		step = math.Copysign(c.Degrees(spacing), c.Sweep)
		if math.Abs(step)*float64(n-1) >= 360 {
			return nil, refuse("%d things %s apart go more than once round the arc", n, doc.Written(spacing))
		}
	}
	out := make([]geom.Point, n)
	for i := range out {
		out[i] = c.At(step * float64(i))
	}
	out[0] = a
	if spacing <= 0 {
		out[n-1] = b
	}
	return out, nil
}
