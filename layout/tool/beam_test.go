package tool

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// beamed returns a scheme with one lamp of a fitting, aimed.
func beamed(item doc.LampStock, aim, tilt, spin, height float64) (*doc.Scheme, *doc.Stock) {
	s := *doc.New("uk-18")
	l := &doc.Lamp{ID: "L1", Tag: "L1", Stock: item.Key, Aim: aim, Tilt: tilt, Spin: spin,
		Place: doc.Place{At: geom.Pt(3, -2), Height: geom.Metres(height)}}
	s.Lamps = s.Lamps.With(l)
	return &s, &doc.Stock{Lamps: []doc.LampStock{item}}
}

// outlineOf returns the first line of the outline from the foot of the lamp: u the
// way it is aimed, v to the left of it, metres.
func outlineOf(t *testing.T, item doc.LampStock, aim, tilt, spin, height float64) (u, v []float64) {
	t.Helper()
	s, stock := beamed(item, aim, tilt, spin, height)
	m, ok := AimMarkOf(s, stock, "L1", reach)
	if !ok {
		t.Fatal("no mark")
	}
	sa, ca := math.Sincos(aim * math.Pi / 180)
	for _, p := range m.Outline[0] {
		x, y := p.X.Metres()-3, p.Y.Metres()+2
		u, v = append(u, x*sa+y*ca), append(v, -x*ca+y*sa)
	}
	return u, v
}

// TestBeamOutline compares the outline on the ground with closed forms (derived). A
// cone of half angle β whose axis leans θ from straight down meets level ground, h
// below, from h·tan(θ-β) to h·tan(θ+β) along the aim. Where θ+β < 90° that is an
// ellipse with the semi-axes
//
//	a = h·sinβ·cosβ/(cos²θ-sin²β),  b = h·sinβ/√(cos²θ-sin²β)
//
// at 90° a parabola, beyond it a branch of a hyperbola:
//
//	u·sinθ + h·cosθ = cosβ·√(u²+v²+h²)
//
// cut off 25 m from the lamp.
func TestBeamOutline(t *testing.T) {
	const most = 25.0
	for _, c := range []struct{ beam, tilt, h float64 }{
		{24, -90, 2}, {36, -60, 3}, {24, -45, 2.5}, {60, -70, 1}, {40, -20.5, 1},
		{40, -20, 1}, {40, -15, 1}, {60, -10, 2}, {10, -2, 0.5},
	} {
		name := fmt.Sprintf("beam %g°, tilt %g°, %g m up", c.beam, c.tilt, c.h)
		u, v := outlineOf(t, doc.LampStock{Key: "a", Beam: c.beam}, 37, c.tilt, 0, c.h)
		theta, beta := (90+c.tilt)*math.Pi/180, c.beam/2*math.Pi/180
		cut := 0
		low, high, side := math.Inf(1), math.Inf(-1), 0.0
		for i := range u {
			far := math.Hypot(u[i], v[i])
			if math.Abs(far-most) < 1e-4 {
				cut++
				continue
			}
			if far > most+1e-4 {
				t.Errorf("%s: a corner %.3f m away", name, far)
			}
			left := u[i]*math.Sin(theta) + c.h*math.Cos(theta)
			right := math.Cos(beta) * math.Sqrt(u[i]*u[i]+v[i]*v[i]+c.h*c.h)
			if math.Abs(left-right) > 1e-5*right {
				t.Errorf("%s: corner %d at %.4f, %.4f is not on the cone: %.6f and %.6f", name, i, u[i], v[i], left, right)
			}
			low, high, side = math.Min(low, u[i]), math.Max(high, u[i]), math.Max(side, math.Abs(v[i]))
		}
		if want := c.h * math.Tan(theta-beta); math.Abs(low-want) > 1e-5 {
			t.Errorf("%s: begins %.5f m along the aim, want %.5f", name, low, want)
		}
		d := sq(math.Cos(theta)) - sq(math.Sin(beta))
		if far := c.h * math.Tan(theta+beta); theta+beta < math.Pi/2-1e-9 && far < most {
			a, b := c.h*math.Sin(beta)*math.Cos(beta)/d, c.h*math.Sin(beta)/math.Sqrt(d)
			// The corners lie at equal angles round the axis, not at the ends of the small
			// axis: it lies between them.
			if math.Abs((high-low)/2-a) > 1e-5*a || side > b*(1+1e-5) || side < 0.98*b || cut > 0 {
				t.Errorf("%s: semi-axes %.5f and %.5f, %d cut off; want %.5f and %.5f, none", name, (high-low)/2, side, cut, a, b)
			}
		} else if cut == 0 {
			t.Errorf("%s: nothing cut off of what has no end", name)
		}
	}
}

func sq(x float64) float64 { return x * x }

// TestOvalOutline: a beam of two angles ends 10° from the axis upright and 30° across
// it; a quarter of spin changes them. That of a file is its own and comes before that
// of the stock book.
func TestOvalOutline(t *testing.T) {
	oval := doc.LampStock{Key: "a", Beam: 20, Across: 60}
	filed := doc.LampStock{Key: "a", Beam: 36, Filed: &doc.FiledLight{Edge: light.EdgeOf(20, 60)}}
	unsaid := doc.LampStock{Key: "a", Filed: filed.Filed}
	// A strip whose file has its long side on X is turned by a quarter.
	turned := doc.LampStock{Key: "a", Length: 1, Filed: &doc.FiledLight{Edge: light.EdgeOf(60, 20), Opening: light.Opening{X: 1}}}
	tan := func(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }
	for name, item := range map[string]doc.LampStock{"stock book": oval, "file": filed, "file alone": unsaid, "strip": turned} {
		for spin, half := range map[float64][2]float64{0: {10, 30}, 90: {30, 10}, 180: {10, 30}} {
			u, v := outlineOf(t, item, 120, -50, spin, 2)
			// Quarters of the outline: two corners lie in the upright plane through the aim,
			// two level with the axis, which lands 2·tan 40° along the aim and 2/cos 40° away.
			low, high, side := math.Inf(1), math.Inf(-1), 0.0
			for i := 0; i < outlineCorners; i += outlineCorners / 4 {
				if math.Abs(v[i]) < 1e-5 {
					low, high = math.Min(low, u[i]), math.Max(high, u[i])
				} else {
					side = math.Abs(v[i])
				}
			}
			wantSide := 2 / math.Cos(40*math.Pi/180) * tan(half[1])
			if math.Abs(low-2*tan(40-half[0])) > 1e-4 || math.Abs(high-2*tan(40+half[0])) > 1e-4 || math.Abs(side-wantSide) > 1e-4 {
				t.Errorf("%s, spin %g°: %.4f to %.4f m along, %.4f m aside, want %.4f to %.4f and %.4f", name, spin, low, high, side, 2*tan(40-half[0]), 2*tan(40+half[0]), wantSide)
			}
		}
	}
}

// TestRimOfUplight: a beam that goes up shows its rim 2 m along the cone, and its two
// level sides; straight up the rim is a circle of 2·sinβ.
func TestRimOfUplight(t *testing.T) {
	s, stock := beamed(doc.LampStock{Key: "a", Kind: "spike", Beam: 40}, 0, 90, 0, 0.2)
	m, _ := AimMarkOf(s, stock, "L1", reach)
	for _, p := range m.Outline[0] {
		if r := math.Hypot(p.X.Metres()-3, p.Y.Metres()+2); math.Abs(r-2*math.Sin(20*math.Pi/180)) > 1e-5 {
			t.Errorf("rim %.5f m from the lamp, want %.5f", r, 2*math.Sin(20*math.Pi/180))
		}
	}
	s, stock = beamed(doc.LampStock{Key: "a", Kind: "spike", Beam: 40}, 90, 30, 0, 0.2)
	m, _ = AimMarkOf(s, stock, "L1", reach)
	if len(m.Outline) != 2 || len(m.Outline[1]) != 3 {
		t.Fatalf("outline %v, want a rim and two sides", m.Outline)
	}
	for _, k := range []int{0, 2} { // level sides: 2·cosβ·cos 30° along the aim, 2·sinβ aside
		p := m.Outline[1][k]
		x, y := p.X.Metres()-3, p.Y.Metres()+2
		if math.Abs(x-2*math.Cos(20*math.Pi/180)*math.Cos(30*math.Pi/180)) > 1e-5 || math.Abs(math.Abs(y)-2*math.Sin(20*math.Pi/180)) > 1e-5 {
			t.Errorf("side ends at %.4f, %.4f", x, y)
		}
	}
}

// TestBeamOfFile: a lamp whose beam is known from its file alone has a handle and is
// turned by keys; one whose file has no beam has none, whatever the stock book says.
func TestBeamOfFile(t *testing.T) {
	known := &doc.FiledLight{Edge: light.EdgeOf(24, 0)}
	for _, c := range []struct {
		name  string
		item  doc.LampStock
		aimed bool
	}{
		{"stock book", doc.LampStock{Key: "a", Beam: 36}, true},
		{"nothing known", doc.LampStock{Key: "a"}, false},
		{"file alone", doc.LampStock{Key: "a", Filed: known}, true},
		{"both", doc.LampStock{Key: "a", Beam: 36, Filed: known}, true},
		{"file without a beam", doc.LampStock{Key: "a", Beam: 36, Filed: &doc.FiledLight{Edge: &light.Edge{}}}, false},
	} {
		s, stock := beamed(c.item, 90, -45, 0, 2)
		m, ok := AimMarkOf(s, stock, "L1", reach)
		if ok != c.aimed {
			t.Errorf("%s: a handle %v, want %v", c.name, ok, c.aimed)
		}
		w := &World{Scheme: s, Stock: stock, Selection: []doc.ID{"L1"}}
		v := selecting{}.aimKey(Event{Kind: Key, Key: KeyLeft}, w)
		if op, is := v.Commit.(edit.AimLamp); is != c.aimed || c.aimed && op.Aim != 85 || !c.aimed && !strings.Contains(v.Refused, "beam") {
			t.Errorf("%s: by keys %+v", c.name, v)
		}
		if !ok {
			continue
		}
		h, hit := pickAim(w, Event{At: m.Handle, Reach: reach})
		if !hit || !h.Aim {
			t.Errorf("%s: the handle cannot be picked", c.name)
		}
		next := newAiming(&Defaults{}, w, h, reach).Handle(Event{Kind: Move, At: geom.Pt(3, 1)}, w)
		if op, is := next.Preview.(edit.AimLamp); !is || math.Mod(op.Aim, 360) != 0 || math.Abs(op.Tilt+90-math.Atan2(3, 2)*180/math.Pi) > 0.1 {
			t.Errorf("%s: dragged 3 m up the sheet %+v", c.name, next.Preview)
		}
	}
}
