package cable

import (
	"math"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Factors from 20 °C. Source: (234.5 + t)/254.5 of IEC 60228 Annex B, worked
// out by hand to four digits.
func TestResistance(t *testing.T) {
	for _, tt := range []struct{ celsius, factor float64 }{
		{20, 1}, {30, 1.0393}, {60, 1.1572}, {70, 1.1965}, {80, 1.2358}, {90, 1.2750},
	} {
		got := float64(Resistance(q.MilliohmPerMetre(10), q.Celsius(tt.celsius))) / 10e-3
		if math.Abs(got-tt.factor) > 0.00005 {
			t.Errorf("at %v °C: factor %.5f, want %.4f", tt.celsius, got, tt.factor)
		}
	}
}

// Volt drop of published examples. Sources: a forum thread on a summerhouse
// supply (21.74 A, 40 m, 12 mV/A/m -> 10.44 V; 6 mm² at 7.9 -> 6.87 V), one on
// the supply of a garage (32 A, 30 m, 11 and 7.3 -> about 10.5 and 7 V), one on
// sizing for 5 kW (5000/230 A, 18 m, 4.4 -> 1.72 V); Basic Electrical
// Installation Work, house extension (6000/230 A, 18 m, 4.4 -> 2.07 V).
func TestWorkedDrop(t *testing.T) {
	for _, tt := range []struct{ amps, metres, mv, volts, tol float64 }{
		{5000.0 / 230, 40, 12, 10.435, 0.001},
		{5000.0 / 230, 40, 7.9, 6.870, 0.001},
		{32, 30, 11, 10.56, 0.001},
		{32, 30, 7.3, 7.008, 0.001},
		{5000.0 / 230, 18, 4.4, 1.7217, 0.0001},
		{6000.0 / 230, 18, 4.4, 2.066, 0.001},
	} {
		c := &network.Cable{Drop: q.MilliohmPerMetre(tt.mv), R20: q.MilliohmPerMetre(1)}
		got := tt.amps * tt.metres * float64(LoopPerMetre(c, network.Site{}))
		if math.Abs(got-tt.volts) > tt.tol {
			t.Errorf("%.2f A over %v m at %v mV/A/m: %.4f V, want %v", tt.amps, tt.metres, tt.mv, got, tt.volts)
		}
	}
}

// With the conductor temperature known the drop follows from the resistance of
// both conductors and no longer from the table.
func TestLoopAtKnownTemperature(t *testing.T) {
	c := armoured()
	s := network.Site{Conductor: q.Some(q.Celsius(20))}
	if got := LoopPerMetre(c, s); math.Abs(float64(got)-2*7.41e-3) > 1e-12 {
		t.Errorf("at 20 °C: %v, want twice R20", got)
	}
	s.Conductor = q.Some(q.Celsius(90))
	if got := float64(LoopPerMetre(c, s)); math.Abs(got-2*7.41e-3*1.2750) > 1e-6 {
		t.Errorf("at 90 °C: %v mΩ/m", got*1e3)
	}
	if got := LoopPerMetre(c, network.Site{}); got != c.Drop {
		t.Errorf("unknown temperature: %v, want the table's %v", got, c.Drop)
	}
}

func TestHot(t *testing.T) {
	if got := Hot("70C thermoplastic", tables()); got.Core != 1.20 || got.Armour != 1.18 {
		t.Errorf("70 °C: %+v", got)
	}
	if got := Hot("no such insulation", tables()); got.Core != 1.28 {
		t.Errorf("unknown insulation: %+v, want the largest multiplier", got)
	}
}

func TestFamily(t *testing.T) {
	size := func(key, family string, mm float64) *network.Cable {
		return &network.Cable{Key: key, Family: family, Size: q.SquareMillimetres(mm)}
	}
	four, one, two := size("a-4", "a", 4), size("a-1.5", "a", 1.5), size("a-2.5", "a", 2.5)
	catalog := []*network.Cable{four, size("b-6", "b", 6), one, two}
	got := Family(two, catalog)
	if len(got) != 3 || got[0] != one || got[1] != two || got[2] != four {
		t.Errorf("family = %v", got)
	}
	if Larger(one, catalog) != two || Larger(four, catalog) != nil {
		t.Error("Larger does not return the next size, or nil after the last")
	}
}
