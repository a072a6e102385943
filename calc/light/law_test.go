package light

import (
	"math"
	"testing"

	q "duskwire/calc/quantity"

	"pgregory.net/rapid"
)

// TestTrig: the quick functions against the library's.
func TestTrig(t *testing.T) {
	for i := -100000; i <= 100000; i++ {
		x := float64(i) / 100000
		if d := math.Abs(acos(x) - math.Acos(x)); d > 3e-8 {
			t.Fatalf("acos %g is off by %g", x, d)
		}
	}
	for i := 0; i < 36000; i++ {
		a := float64(i) / 100 * degree
		s, c := math.Sincos(a)
		if d := math.Abs(atan2(s, c) - a); d > 1e-7 && math.Abs(d-2*math.Pi) > 1e-7 {
			t.Fatalf("atan2 at %g° is off by %g", a/degree, d)
		}
	}
}

// anyTable is a distribution without symmetry.
func anyTable(t *rapid.T) *Distribution {
	c := []float64{0, 40, 90, 170, 200, 310, 360}
	gamma := []float64{0, 5, 20, 45, 90, 130, 180}
	cd := make([]float64, len(c)*len(gamma))
	for i := range cd {
		cd[i] = rapid.Float64Range(0, 1000).Draw(t, "cd")
	}
	copy(cd[len(cd)-len(gamma):], cd[:len(gamma)])
	return newDistribution(c, gamma, cd)
}

func anyVec(t *rapid.T, what string) Vec {
	f := rapid.Float64Range(-5, 5)
	return Vec{f.Draw(t, what+" x"), f.Draw(t, what+" y"), f.Draw(t, what+" z")}
}

func one(t *rapid.T, l Lamp) *Scene {
	s, err := NewScene([]Lamp{l}, nil, 1)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestTurnedTogether: a lamp, its opening, point and normal turned about the
// upright through any point and moved give the same illuminance.
func TestTurnedTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(-math.Pi, math.Pi)
		l := Lamp{Dist: anyTable(t), Share: 1, At: anyVec(t, "lamp"), Bearing: angle.Draw(t, "bearing"), Tilt: angle.Draw(t, "tilt"), Spin: angle.Draw(t, "spin"),
			Opening: Opening{X: rapid.Float64Range(0, 1).Draw(t, "size")}}
		p, n := anyVec(t, "point"), anyVec(t, "normal")
		if p.Sub(l.At).Len() < 1e-6 {
			t.Skip("the direction of a point in the lamp is nothing but rounding")
		}
		by, move := angle.Draw(t, "by"), anyVec(t, "move")
		turn := func(v Vec) Vec {
			s, c := math.Sincos(by)
			return Vec{c*v.X - s*v.Y, s*v.X + c*v.Y, v.Z}
		}
		m := l
		m.At, m.Bearing = turn(l.At).Add(move), l.Bearing+by
		a, b := float64(one(t, l).At(p, n)), float64(one(t, m).At(turn(p).Add(move), turn(n)))
		if math.Abs(a-b) > 2e-6*(a+1) {
			t.Fatalf("%g lx, turned together %g lx", a, b)
		}
	})
}

// TestSpinOfRound: spin does nothing to a rotational lamp, and tilt 0 is the
// cos³ formula.
func TestSpinOfRound(t *testing.T) {
	d, _ := Beam(500, 36)
	rapid.Check(t, func(t *rapid.T) {
		l := Lamp{Dist: d, Share: 1, At: Vec{0, 0, 3}, Tilt: rapid.Float64Range(0, 3).Draw(t, "tilt"), Bearing: 1}
		p := anyVec(t, "point")
		a := one(t, l).At(p, Up)
		l.Spin = rapid.Float64Range(-3, 3).Draw(t, "spin")
		if b := one(t, l).At(p, Up); math.Abs(float64(a-b)) > 1e-6*(1+float64(a)) {
			t.Fatalf("%v, spun %v", a, b)
		}
		l.Tilt = 0
		p.Z = 0
		gamma := math.Atan(math.Hypot(p.X, p.Y) / 3)
		want := float64(d.Intensity(0, gamma*perRad)) * math.Pow(math.Cos(gamma), 3) / 9
		if got := float64(one(t, l).At(p, Up)); math.Abs(got-want) > 1e-6*(1+want) {
			t.Fatalf("%g, by cos³ %g", got, want)
		}
	})
}

// TestAim: the axis points at what was aimed at, and the frame is a rotation.
func TestAim(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from, to := anyVec(t, "from"), anyVec(t, "to")
		l := Lamp{At: from, Spin: rapid.Float64Range(-3, 3).Draw(t, "spin")}
		l.Bearing, l.Tilt = AimAt(from, to)
		if d := to.Sub(from); d.Len() > 1e-6 && l.Axis().Sub(d.Unit()).Len() > 1e-7 {
			t.Fatalf("aimed along %v, expected %v", l.Axis(), d.Unit())
		}
		r := l.frame()
		e := anyVec(t, "e")
		if r.from(r.to(e)).Sub(e).Len() > 1e-12*(1+e.Len()) {
			t.Fatal("frame is no rotation")
		}
	})
}

// gather sums the illuminance on the inside of a sphere of radius r round at.
func gather(s *Scene, at Vec, r float64, half bool) float64 {
	sum := 0.0
	const step = 1.0
	for g := step / 2; g < 180; g += step {
		if half && g > 90 {
			break
		}
		belt := math.Cos((g-step/2)*degree) - math.Cos((g+step/2)*degree)
		sg, cg := math.Sincos(g * degree)
		for c := 1.0; c < 360; c += 2 {
			sc, cc := math.Sincos(c * degree)
			e := Vec{sg * cc, sg * sc, -cg}
			sum += float64(s.At(at.Add(e.Mul(r)), e.Mul(-1))) * belt * 2 * degree * r * r
		}
	}
	return sum
}

// TestClosed: a closed sphere, or hemisphere under a lamp that sends nothing up,
// collects the flux of the lamp within 0.5 % whatever its aim.
func TestClosed(t *testing.T) {
	at := Vec{1, 2, 3}
	for _, name := range []string{"synthetic_same_full_0-360.ies", "synthetic_isotropic_isym1_comma.ldt", "synthetic_typeB_cosV_cos3H.ies", "synthetic_lambert_typeC_1deg.ies"} {
		d := sample(t, name).Dist
		l := Lamp{At: at, Dist: d, Share: 1, Bearing: 0.7, Tilt: 1.1, Spin: 0.4}
		flux := float64(d.Flux())
		near(t, name+" in a sphere", gather(scene(t, []Lamp{l}), at, 2, false), flux, 0.005*flux)
		l.Tilt = 0
		if d.DownwardShare() > 0.999 {
			near(t, name+" in a hemisphere", gather(scene(t, []Lamp{l}), at, 2, true), flux, 0.005*flux)
		}
	}
	// A small spot, its centre off the middle of the sphere.
	l := spot(t)
	l.At = Vec{0.3, 0, 0}
	near(t, "spot off the middle", gather(scene(t, []Lamp{l}), Vec{}, 2, false), 500, 2.5)
}

// TestUpward: a lamp aimed down sends nothing up, aimed up all, level half.
func TestUpward(t *testing.T) {
	d, _ := Beam(500, 24)
	for _, c := range []struct{ tilt, want float64 }{{0, 0}, {math.Pi, 1}, {math.Pi / 2, 0.5}} {
		l := Lamp{Dist: d, Tilt: c.tilt, Bearing: 0.3}
		near(t, "upward", l.UpwardShare(), c.want, 0.006)
	}
	l := spot(t)
	near(t, "toward the target", float64(l.Toward(Vec{2, 0, -3})), 2576.054, 0.001*2576)
}

// TestMaintained: factor and share multiply, and bad figures are refused.
func TestMaintained(t *testing.T) {
	l := isotropic(t, 100, Vec{0, 0, 2})
	l.Share = 0.5
	s, err := NewScene([]Lamp{l}, nil, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "maintained", float64(s.At(Vec{}, Up)), 10, 1e-9)
	for _, mf := range []float64{0, 1.1, math.NaN()} {
		if _, err := NewScene(nil, nil, mf); err == nil {
			t.Errorf("maintenance factor %g was taken", mf)
		}
	}
	l.Tilt = math.NaN()
	if _, err := NewScene([]Lamp{l}, nil, 1); err == nil {
		t.Error("a tilt that is no number was taken")
	}
	_ = q.Lux(0)
}

// TestBlocked: shadows by similar triangles. A lamp 3 m up behind a 1.5 m wall
// at x = 1 throws its shadow to x = 2.
func TestBlocked(t *testing.T) {
	l := isotropic(t, 100, Vec{0, 0, 3})
	wall := Blocker{Outline: []Spot{{1, -5}, {1, 5}}, Top: 1.5}
	house := Blocker{Outline: []Spot{{1, -5}, {1.2, -5}, {1.2, 5}, {1, 5}}, Closed: true, Top: 1.5}
	crown := Blocker{Outline: []Spot{{1, -1}, {2, -1}, {2, 1}, {1, 1}}, Closed: true, Base: 1.5, Top: 2.5, Pass: 0.3}
	free := scene(t, []Lamp{l})
	for _, c := range []struct {
		what string
		by   Blocker
		at   Vec
		pass float64
	}{
		{"before the wall", wall, Vec{0.99, 0, 0}, 1}, {"in its shadow", wall, Vec{1.99, 0, 0}, 0}, {"beyond the shadow", wall, Vec{2.01, 0, 0}, 1},
		{"past its end", wall, Vec{1.5, 12, 0}, 1}, {"over it", wall, Vec{1.5, 0, 2}, 1},
		{"behind the house", house, Vec{1.5, 0, 0}, 0}, {"beyond its shadow", house, Vec{2.41, 0, 0}, 1}, {"in its shadow, far edge", house, Vec{2.39, 0, 0}, 0},
		{"on its face", house, Vec{1, 0, 1}, 1}, {"on its roof", house, Vec{1.1, 0, 1.5}, 1},
		{"through the crown", crown, Vec{3, 0, 0}, 0.3}, {"under the crown, steep", crown, Vec{1, 0, 0}, 1}, {"above the crown", crown, Vec{3, 0, 2.6}, 1},
		{"just under the crown", crown, Vec{2.4, 0, 0}, 0.3},
	} {
		want := c.pass * float64(free.At(c.at, Up))
		near(t, c.what, float64(scene(t, []Lamp{l}, c.by).At(c.at, Up)), want, 1e-9)
	}
	// A lamp above its own roof shines down through nothing.
	down := isotropic(t, 100, Vec{1.1, 0, 3})
	near(t, "upright ray into a prism", float64(scene(t, []Lamp{down}, house).At(Vec{1.1, 0, 0}, Up)), 0, 0)
	if _, err := NewScene(nil, []Blocker{{Outline: []Spot{{0, 0}}}}, 1); err == nil {
		t.Error("a wall of one corner was taken")
	}
}
