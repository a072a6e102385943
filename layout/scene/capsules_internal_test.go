package scene

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
)

// holds is the plain definition: no further than r from the segment.
func (p *capsule) holds(q XY) float64 {
	dx, dy := p.c.X-p.a.X, p.c.Y-p.a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = min(1, max(0, ((q.X-p.a.X)*dx+(q.Y-p.a.Y)*dy)/l))
	}
	return p.r - math.Hypot(q.X-p.a.X-t*dx, q.Y-p.a.Y-t*dy)
}

func depth(all []capsule, q XY) float64 {
	best := math.Inf(-1)
	for i := range all {
		best = max(best, all[i].holds(q))
	}
	return best
}

// capsules draws lamps and lets the code under test join them.
func capsules(t *rapid.T) []capsule {
	xy := rapid.Custom(func(t *rapid.T) XY {
		return XY{rapid.Float64Range(5, 75).Draw(t, "x"), rapid.Float64Range(5, 55).Draw(t, "y")}
	})
	return zoneCapsules(rapid.SliceOfN(xy, 1, 12).Draw(t, "lamps"), rapid.Float64Range(0, 40).Draw(t, "link"))
}

func sheet() *builder { return newBuilder(Input{Scheme: &doc.Scheme{}}, View{Denominator: 1}, 80, 60) }

// TestHatchCoversTheUnion: along every hatch line, what is drawn is what lies in
// one of the capsules, by their definition.
func TestHatchCoversTheUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all, b := capsules(t), sheet()
		r := rule{angle: rapid.SampledFrom([]float64{0, 15, 60, 90, -60}).Draw(t, "angle"), step: 1.9}
		sin, cos := math.Sincos(-r.angle * math.Pi / 180)
		org := b.anchor()
		type piece struct{ lo, hi float64 }
		rows := map[int][]piece{}
		ps := b.hatched(all, r)
		for i := 0; i < len(ps); i += 2 {
			p := capsule{ps[i], ps[i+1], 0}
			q := p.turned(org, sin, cos)
			n := q.a.Y / r.step
			if math.Abs(n-math.Round(n)) > 1e-6 || math.Abs(q.a.Y-q.c.Y) > 1e-6 {
				t.Fatalf("a stroke from %v to %v is on no line", ps[i], ps[i+1])
			}
			rows[int(math.Round(n))] = append(rows[int(math.Round(n))], piece{min(q.a.X, q.c.X), max(q.a.X, q.c.X)})
		}
		for range 200 {
			q := XY{rapid.Float64Range(0, 80).Draw(t, "qx"), 0}
			n := rapid.IntRange(-60, 60).Draw(t, "row")
			at := XY{org.X + q.X*cos - float64(n)*r.step*sin, org.Y + q.X*sin + float64(n)*r.step*cos}
			if at.X < 0 || at.Y < 0 || at.X > b.w || at.Y > b.h {
				continue
			}
			d := depth(all, at)
			if math.Abs(d) < 1e-6 {
				continue // on the edge
			}
			drawn := 0
			for _, p := range rows[n] {
				if q.X >= p.lo && q.X <= p.hi {
					drawn++
				}
			}
			if want := d > 0; drawn > 1 || (drawn == 1) != want {
				t.Fatalf("at %v, %.3f mm inside, %d strokes are drawn", at, d, drawn)
			}
		}
	})
}

// TestOutlineIsTheEdge: every stroke of the outline lies on the edge of the union,
// within the height of a chord, and going round it no edge is missing.
func TestOutlineIsTheEdge(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all, b := capsules(t), sheet()
		ps := b.outlined(all)
		dip := sagitta(zoneDisc) + 1e-6
		for i := 0; i < len(ps); i += 2 {
			m := XY{(ps[i].X + ps[i+1].X) / 2, (ps[i].Y + ps[i+1].Y) / 2}
			if d := depth(all, m); math.Abs(d) > dip {
				t.Fatalf("the stroke at %v lies %.3f mm from the edge", m, d)
			}
		}
		// A ray from a lamp leaves the union somewhere: there must be a stroke.
		from := all[0].a
		sin, cos := math.Sincos(rapid.Float64Range(0, 2*math.Pi).Draw(t, "way"))
		edge := XY{}
		for s := 0.0; ; s += 0.01 {
			edge = XY{from.X + s*cos, from.Y + s*sin}
			if depth(all, edge) < 0 {
				break
			}
		}
		if edge.X < 1 || edge.Y < 1 || edge.X > b.w-1 || edge.Y > b.h-1 {
			return
		}
		for i := 0; i < len(ps); i += 2 {
			p := capsule{ps[i], ps[i+1], 0.15}
			if p.holds(edge) >= 0 {
				return
			}
		}
		t.Fatalf("no stroke at the edge at %v", edge)
	})
}

// TestZoneLinks: the tree joins what is near, not what is far.
func TestZoneLinks(t *testing.T) {
	lamps := []XY{{0, 0}, {10, 0}, {20, 0}, {60, 0}, {60, 9}}
	for _, c := range []struct {
		link  float64
		bands int
	}{{5, 0}, {9.5, 1}, {10, 3}, {39, 3}, {40, 4}} {
		n := 0
		for _, p := range zoneCapsules(lamps, c.link) {
			if p.a != p.c {
				n++
			}
		}
		if n != c.bands {
			t.Errorf("links up to %g mm: %d bands, expected %d", c.link, n, c.bands)
		}
	}
	twins := zoneCapsules([]XY{{20, 20}, {20, 20}}, 5)
	if len(twins) != 2 {
		t.Errorf("two lamps at one place make %d pieces, expected their discs alone", len(twins))
	}
	if two, one := sheet().outlined(twins), sheet().outlined(twins[:1]); len(one) == 0 || len(two) != len(one) {
		t.Errorf("two lamps at one place are outlined by %d points, one by %d", len(two), len(one))
	}
}
