package layout_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// dimBorder is scenario 2 with lamps of another law.
func dimBorder(t *testing.T, change func(*doc.LampStock)) *layout.Frame {
	t.Helper()
	d := scenario(t, "2-dim-end.yaml")
	s := *d.Frame().Scheme
	s.Stock.Lamps = append([]doc.LampStock(nil), s.Stock.Lamps...)
	change(&s.Stock.Lamps[0])
	return frameFrom(t, &s)
}

func frameFrom(t *testing.T, s *doc.Scheme) *layout.Frame {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, "").Frame()
}

func nightOf(t *testing.T, f *layout.Frame) *layout.Night {
	t.Helper()
	n, err := layout.NightOf(f)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestNightDimEnd: along the border of scenario 2 the light falls with the volts, by
// the law of each kind of lamp.
func TestNightDimEnd(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*doc.LampStock)
		light  func(volts float64) float64
		// last is the light at the end by hand, 0 for none; source says whose.
		last, tolerance float64
		source          string
	}{
		{"filament", func(l *doc.LampStock) { l.Load.Law, l.Load.Power = network.Filament, 5 },
			func(u float64) float64 { return math.Pow(u/12, 3.4) }, 0, 0, "trade notes 4 [S65]: light about V^3.4"},
		{"resistor strip", func(l *doc.LampStock) { l.Load.Law, l.Load.Forward = network.ResistorStrip, 9.3 },
			func(u float64) float64 { return (u - 9.3) / 2.7 }, 0, 0, "trade notes 4 (D): in proportion to U - Uf"},
		{"resistive", func(l *doc.LampStock) { l.Load.Law = network.Resistive },
			func(u float64) float64 { return u * u / 144 }, 0, 0, "power, derived"},
		{"wide driver", func(l *doc.LampStock) { l.Load.Minimum, l.Load.Dropout = 9, 8 },
			func(float64) float64 { return 1 }, 1, 0, "trade notes 4 [S67]: same light 9-15 V"},
		{"driver that has dropped out", func(l *doc.LampStock) { l.Load.Minimum, l.Load.Dropout = 0, 10.5 },
			func(u float64) float64 { return map[bool]float64{true: 1}[u >= 10.5] }, 0, 0, "below its drop-out a driver is off"},
		{"driver of which nothing is known below 10.8 V", func(*doc.LampStock) {},
			func(u float64) float64 {
				if u >= 10.8 {
					return 1
				}
				return math.Pow(u/12, 3.4)
			}, 0.56, 0.005, "trade notes 9, scenario 2: halogen-type light 56 % at the end"},
	} {
		f := dimBorder(t, c.change)
		n := nightOf(t, f)
		dim := 0
		for i, l := range n.Lamps {
			u := float64(point(t, f, l.Tag).Voltage)
			got, want := n.Scene.Lamp(i).Share, c.light(u)
			if math.Abs(got-want) > 1e-9 {
				t.Errorf("%s: %s at %.2f V gives %.4f of its light, expected %.4f (%s)", c.name, l.Tag, u, got, want, c.source)
			}
			if got < 0.9 {
				dim++
			}
		}
		if last := n.Scene.Lamp(9).Share; c.last > 0 && math.Abs(last-c.last) > c.tolerance {
			t.Errorf("%s: the last lamp gives %.4f, expected %g (%s)", c.name, last, c.last, c.source)
		}
		if c.last != 1 && dim < 4 {
			t.Errorf("%s: %d lamps are dim, expected 4 or more: nothing was compared", c.name, dim)
		}
	}
}

// TestNightUnsure: lamps 4 to 10 of scenario 2 lie below what their driver is vouched
// for. They are drawn as filaments, said to be, and lie between out and full.
func TestNightUnsure(t *testing.T) {
	n := nightOf(t, dimBorder(t, func(*doc.LampStock) {}))
	if len(n.Unsure) != 7 {
		t.Fatalf("%d lamps are unsure, expected L4 to L10", len(n.Unsure))
	}
	for i := range n.Unsure {
		u := &n.Unsure[i]
		if n.Lamps[u.Index] != u.Lamp || u.Least != 0 || u.Most != 1 || u.Drawn != n.Scene.Lamp(u.Index).Share {
			t.Errorf("%+v", u)
		}
		if n.Least.Lamp(u.Index).Share != 0 || n.Most.Lamp(u.Index).Share != 1 {
			t.Errorf("%s: between %g and %g", u.Lamp.Tag, n.Least.Lamp(u.Index).Share, n.Most.Lamp(u.Index).Share)
		}
	}
	if n.Doubt(n.Lamps[2]) != nil || n.Least.Lamp(2).Share != 1 {
		t.Error("L3 stands at 10.9 V and is not sure")
	}
	if got, want := n.Doubt(n.Lamps[9]).Words(), "light not known at 10.13 V, below 10.8 V; drawn at 56 %"; got != want {
		t.Errorf("found %q, expected %q", got, want)
	}
	if got, want := n.Assumed[0], "L4 to L10: light not known at 10.13 V to 10.77 V, below 10.8 V; drawn at 56 % to 69 % as a filament would be, may be anything from out to full"; got != want {
		t.Errorf("found %q, expected %q", got, want)
	}
	p := n.Probe(geom.Pt(32, 0.5))
	if !(p.Least < p.Lux && p.Lux < p.Most) || p.Least != n.Least.At(light.Vec{X: 32, Y: 0.5}, light.Up) {
		t.Errorf("probe of %v lies between %v and %v", p.Lux, p.Least, p.Most)
	}
	if p.From[0].Doubt == nil || p.From[0].Lamp.Tag != "L10" || len(p.Doubts) == 0 {
		t.Errorf("the probe does not say that L10 is not known: %+v", p.From)
	}
	if p := n.Probe(geom.Pt(5, 0.5)); p.From[0].Doubt != nil || p.Least > p.Lux {
		t.Errorf("L1 is known: %+v", p)
	}
}

// TestUnsureAfterCurfew: of a lamp that is out by curfew nothing is unsure.
func TestUnsureAfterCurfew(t *testing.T) {
	f := dimBorder(t, func(*doc.LampStock) {})
	s := *f.Scheme
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Number: 1, Off: doc.Off{Set: true, Minute: 22 * 60}})
	s.Lamps = s.Lamps.Map(func(l *doc.Lamp) *doc.Lamp {
		c := *l
		if l.Tag == "L10" {
			c.Zone = "Z1"
		}
		return &c
	})
	f = frameFrom(t, &s)
	late, err := nightOf(t, f).AfterCurfew(f)
	if err != nil {
		t.Fatal(err)
	}
	if len(late.Unsure) != 6 || late.Doubt(late.Lamps[9]) != nil || late.Most.Lamp(9).Share != 0 || late.Most.Lamp(8).Share != 1 || late.Least.Lamp(8).Share != 0 {
		t.Errorf("after curfew: %d unsure, L10 between %g and %g", len(late.Unsure), late.Least.Lamp(9).Share, late.Most.Lamp(9).Share)
	}
	if got := strings.Join(late.Assumed, "\n"); !strings.HasPrefix(got, "L4 to L9: light not known") || strings.Contains(got, "L10: light") || !strings.Contains(got, "L1 to L9: nobody said when they go out") {
		t.Errorf("after curfew assumed %q", got)
	}
	s.Lamps = s.Lamps.Map(func(l *doc.Lamp) *doc.Lamp { // all are said when they go out, by and by
		c := *l
		if c.Zone = "Z2"; l.Tag == "L10" {
			c.Zone = "Z1"
		}
		return &c
	})
	s.Zones = s.Zones.With(&doc.Zone{ID: "Z2", Number: 2, Off: doc.Off{Set: true, Minute: 60}})
	f = frameFrom(t, &s)
	if late, err = nightOf(t, f).AfterCurfew(f); err != nil || !strings.HasPrefix(strings.Join(late.Assumed, "\n"), "L4 to L9: light not known") {
		t.Errorf("with every hour said: %v, assumed %q", err, late.Assumed)
	}
}

// TestNightCollapse: without a steady voltage lamps are drawn as out, and may be
// anything up to full; one that hangs on no circuit counts as full; above its range a
// driver is drawn full and may have failed.
func TestNightCollapse(t *testing.T) {
	n := nightOf(t, dimBorder(t, func(l *doc.LampStock) { l.Load.Law, l.Load.Power = network.ConstantPower, 50 }))
	if len(n.Unsure) != 10 || n.Scene.Lamp(9).Share != 0 || n.Most.Lamp(9).Share != 1 || n.Unsure[9].Why != "no steady voltage" {
		t.Errorf("collapsed: %+v", n.Unsure)
	}
	n = nightOf(t, dimBorder(t, func(l *doc.LampStock) { l.Load.Maximum = 11 }))
	if u := n.Unsure[0]; u.Lamp.Tag != "L1" || u.Drawn != 1 || u.Least != 0 || u.Most != 1 || u.Why != "above 11 V" {
		t.Errorf("above its range: %+v", u)
	}
	d := scenario(t, "2-dim-end.yaml")
	s := *d.Frame().Scheme
	s.Runs = doc.NewSet(s.Runs.All()[:5]...)
	n = nightOf(t, frameFrom(t, &s))
	if n.Scene.Lamp(9).Share != 1 || n.Doubt(n.Lamps[9]) != nil || !strings.Contains(strings.Join(n.Assumed, "\n"), "L5 to L10: hangs on no circuit") {
		t.Errorf("on no circuit: %g, %q", n.Scene.Lamp(9).Share, n.Assumed)
	}
}

// TestLuxNeverFlatters: where the light of lamps is not known, targets are judged by
// the least that they may give, limits by the most, and the findings say so.
func TestLuxNeverFlatters(t *testing.T) {
	f := dimBorder(t, func(*doc.LampStock) {})
	s := *f.Scheme
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "gravel", Ring: square(32, 0.5, 0.02)})
	s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "window", Owner: "neighbour", Place: doc.Place{At: geom.Pt(32, 3), Height: 500 * geom.Millimetre}})
	f = frameFrom(t, &s)
	n := nightOf(t, f)
	at := light.Vec{X: 32, Y: 0.5}
	low := figureOf(t, &s, "LUX-01")
	want := n.Least.At(at, light.Up)
	if drawn := n.Scene.At(at, light.Up); want > drawn/2 || drawn < 50 {
		t.Fatalf("%v at least, %v drawn: nothing to compare", want, drawn)
	}
	if !strings.HasPrefix(low, lux2(want)+" average, ") || !strings.Contains(low, " at worst") {
		t.Errorf("LUX-01: found %q, expected %s", low, lux2(want))
	}
	window := light.Vec{X: 32, Y: 3, Z: 0.5}
	best := q.Lux(0)
	for k := range 16 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 16)
		best = max(best, n.Most.At(window, light.Vec{X: cos, Y: sin}))
	}
	if got := figureOf(t, &s, "LUX-02"); !strings.HasPrefix(got, lux2(best)+" upright") {
		t.Errorf("LUX-02: found %q, expected %s", got, lux2(best))
	}
	for code, words := range map[finding.Code]string{"LUX-01": "taken as out, since", "LUX-02": "taken as full, since", "LUX-03": "taken as out or as full, whichever"} {
		if fs := litBy(t, &s, code); len(fs) == 0 || !strings.Contains(fs[0].Assumed[0], words) {
			t.Errorf("%s does not say %q: %+v", code, words, fs)
		}
	}
}

// lux2 writes lux as findings do.
func lux2(v q.Lux) string {
	digits := 2
	if v >= 10 {
		digits = 1
	}
	if v >= 100 {
		digits = 0
	}
	s := strconv.FormatFloat(float64(v), 'f', digits, 64)
	if digits > 0 {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s + " lx"
}
