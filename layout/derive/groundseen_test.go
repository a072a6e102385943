package derive

import (
	"math"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestInSector: by hand. The boundary runs from (-10, 5) to (10, 5), the sensor
// stands at the origin.
func TestInSector(t *testing.T) {
	for _, row := range []struct {
		name      string
		aim, half float64
		want      float64 // below 0: not seen
	}{
		{"straight at it", 360, 45, 5},
		{"past the corner", 90, 20, -1},
		{"to its end", 90, 26.56505119, math.Hypot(10, 5)}, // atan(5/10) = 26.57° from the right
		{"its ray strikes", 60, 30, 5 / math.Cos(30*math.Pi/180)},
		{"away from it", 180, 80, -1},
		{"all round", 180, 180, 5},
		{"a wide field astride the back", 180, 150, 5 / math.Cos(30*math.Pi/180)},
	} {
		got, ok := inSector(-10, 5, 10, 5, row.aim, row.half)
		if ok != (row.want >= 0) || ok && math.Abs(got-row.want) > 1e-6 {
			t.Errorf("%s: %g %v, want %g", row.name, got, ok, row.want)
		}
	}
	if d, ok := inSector(0, 0, 1, 0, 90, 10); !ok || d != 0 {
		t.Errorf("on the boundary: %g %v", d, ok)
	}
}

// TestInSectorSampled compares with the least over many points of the segment.
func TestInSectorSampled(t *testing.T) {
	for k := range 400 {
		f := float64(k)
		ax, ay, bx, by := 9*math.Sin(f), 9*math.Cos(1.7*f), 9*math.Sin(2.3*f+1), 9*math.Cos(3.1*f)
		aim, half := math.Mod(37*f, 360), 5+math.Mod(13*f, 175)
		want := math.Inf(1)
		for s := range 20001 {
			u := float64(s) / 20000
			x, y := ax+u*(bx-ax), ay+u*(by-ay)
			off := math.Abs(math.Atan2(x, y)*180/math.Pi - aim)
			if off = math.Mod(off, 360); math.Min(off, 360-off) <= half {
				want = math.Min(want, math.Hypot(x, y))
			}
		}
		got, ok := inSector(ax, ay, bx, by, aim, half)
		if math.IsInf(want, 1) {
			if ok { // a corner thinner than a sample may be seen
				continue
			}
		} else if !ok || got > want+1e-9 || got < want-0.05 {
			t.Errorf("%d: %g %v, sampled %g", k, got, ok, want)
		}
	}
}

// TestPlaceOfGear: what a sensor sees and the lawn beside a box, from the plan.
func TestPlaceOfGear(t *testing.T) {
	s := plot(doc.Leg{Support: network.Clipped})
	s.Lines = doc.NewSet(line("N1", "boundary", "", geom.Pt(-20, 4), geom.Pt(20, 4)))
	s.Areas = doc.NewSet(rect("A1", "lawn", 0.2, -5, 5, 5))
	g := newGroundOf(s)
	for _, row := range []struct {
		aim, sector, want float64
	}{{0, 90, 4}, {360, 90, 4}, {180, 90, -1}, {180, 0, 4}, {90, 90, 4 * math.Sqrt2}} {
		seen := g.seen(&doc.Gear{Place: place(0, 0, 2), Aim: row.aim}, row.sector)
		if (seen != nil) != (row.want >= 0) || seen != nil && math.Abs(float64(seen.Distance)-row.want) > 1e-9 {
			t.Errorf("aim %g of %g°: %v, want %g", row.aim, row.sector, seen, row.want)
		}
	}
	if p := g.place(place(0, 0, 0)); p.Mown == nil || p.Mown.Distance != 0.2 {
		t.Errorf("beside the lawn: %v", p.Mown)
	}
	if p := g.place(place(-0.81, 0, 0)); p.Mown != nil {
		t.Errorf("further than 1 m: %v", p.Mown)
	}
}

// newGroundOf makes the ground of a scheme ready.
func newGroundOf(s *doc.Scheme) *ground {
	g := &ground{areas: s.Areas.All(), lines: s.Lines.All(), marks: s.Marks.All()}
	for _, a := range g.areas {
		g.bounds = append(g.bounds, geom.Around(a.Ring...))
	}
	for _, l := range g.lines {
		g.ways = append(g.ways, geom.Around(l.Path...))
	}
	return g
}

// TestUsualDigging: a bed is dug whether or not somebody wrote down how deep;
// two spits of a double-dug bed are 450 mm (gardening advice).
func TestUsualDigging(t *testing.T) {
	s := plot(dugLeg(0.3))
	bed := rect("A1", "dug bed", 2, -1, 8, 1)
	s.Areas = doc.NewSet(bed)
	st := routeOf(t, s, "R1").Stretches
	if len(st) != 3 || st[1].Dig != 0.45 || !st[1].Usual || st[0].Usual {
		t.Errorf("not given: %+v", st)
	}
	given := *bed
	given.DigDepth = geom.Metres(0.2)
	s.Areas = doc.NewSet(&given)
	if st = routeOf(t, s, "R1").Stretches; st[1].Dig != 0.2 || st[1].Usual {
		t.Errorf("given: %+v", st)
	}
}
