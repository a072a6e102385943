package cable

import (
	"math"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"

	"pgregory.net/rapid"
)

// rated is a capacity of It with one factor each.
func rated(method string, it q.Ampere, factors ...Applied) Capacity {
	return Capacity{Known: true, Method: method, Tabulated: it, Applied: factors}
}

// By hand from t1 = tp - (Ca²C² - Ib²/It²)(tp - t0) and Ct = (230 + t1)/(230 +
// tp), BS 7671 Appendix 4, 6.1. A 70 °C cable at half its rating in 30 °C air:
// 70 - 0.75·40 = 40 °C, Ct = 270/300 = 0.9.
func TestOperatingTemp(t *testing.T) {
	pvc := &network.Cable{Conductor: q.Celsius(70), Insulation: SeventyKey}
	f := func(symbol string, v float64) Applied { return Applied{Symbol: symbol, Value: v} }
	for _, tt := range []struct {
		name string
		c    *network.Cable
		capa Capacity
		ib   q.Ampere
		t1   float64
		ct   float64
		ok   bool
	}{
		{"half load in air", pvc, rated("C", 20), 10, 40, 0.9, true},
		{"no load in air", pvc, rated("C", 20), 0, 30, 260.0 / 300, true},
		{"full load", pvc, rated("C", 20), 20, 70, 1, true},
		{"above full load", pvc, rated("C", 20), 20.1, 0, 0, false},
		{"no load at 40 °C", pvc, rated("C", 20, f("Ca", 0.87)), 0, 70 - 0.7569*40, (300 - 0.7569*40) / 300, true},
		{"full load at 40 °C", pvc, rated("C", 20, f("Ca", 0.87)), 17.4, 70, 1, true},
		{"grouped, full load", pvc, rated("C", 20, f("Ca", 1), f("Cg", 0.8)), 16, 70, 1, true},
		{"ground, half load", pvc, rated("D", 20), 10, 70 - 0.75*50, (300 - 0.75*50) / 300, true},
		{"moist ground gives no cold", pvc, rated("D", 20, f("Cs", 1.5)), 0, 20, 250.0 / 300, true},
		{"moist ground, all of it used", pvc, rated("D", 20, f("Cs", 1.5)), 30, 70, 1, true},
		{"Cc is no heat", pvc, rated("D", 20, f("Cc", 0.9)), 0, 20, 250.0 / 300, true},
		{"90 °C cable on 70 °C terminals, full", armoured(), rated("C", 28), 28, 70, 300.0 / 320, true},
		{"capacity not known", pvc, Capacity{}, 1, 0, 0, false},
		{"no cable", nil, rated("C", 20), 1, 0, 0, false},
	} {
		got, ok := OperatingTemp(tt.c, tt.capa, tt.ib, tables())
		if ok != tt.ok || (ok && math.Abs(got.Celsius()-tt.t1) > 1e-6) {
			t.Errorf("%s: %v %v, want %v °C %v", tt.name, got.Celsius(), ok, tt.t1, tt.ok)
			continue
		}
		if ok && math.Abs(Ct(tt.c, got)-tt.ct) > 1e-9 {
			t.Errorf("%s: Ct = %v, want %v", tt.name, Ct(tt.c, got), tt.ct)
		}
	}
}

// On-Site Guide Table I2, printed to two digits; armour by the coefficient of
// steel, 1.18 at 60 °C and 1.27 at 80 °C as the multipliers have it.
func TestTestTemperature(t *testing.T) {
	for _, tt := range []struct{ celsius, want float64 }{{5, 0.94}, {10, 0.96}, {15, 0.98}, {20, 1}, {25, 1.02}} {
		if got := CopperAt(q.Celsius(tt.celsius)); math.Abs(got-tt.want) > 0.005 {
			t.Errorf("copper at %v °C: %.4f, printed %v", tt.celsius, got, tt.want)
		}
	}
	for _, tt := range []struct{ celsius, want float64 }{{20, 1}, {60, 1.18}, {80, 1.27}} {
		if got := SteelAt(q.Celsius(tt.celsius)); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("steel at %v °C: %v, want %v", tt.celsius, got, tt.want)
		}
	}
}

// Laws: more current is never cooler, and within the capacity a conductor is
// never hotter than its table and never colder than its surroundings.
func TestOperatingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		leg := network.Leg{
			Support: rapid.SampledFrom([]network.Support{network.Clipped, network.Buried, network.InDuct}).Draw(t, "support"),
			Depth:   0.5, Group: rapid.IntRange(1, 2).Draw(t, "group"),
		}
		here := site(rapid.Float64Range(25, 35).Draw(t, "air"), rapid.Float64Range(10, 25).Draw(t, "ground"), rapid.SampledFrom([]float64{0.5, 1, 2.5, 3}).Draw(t, "soil"))
		capa := LegCapacity(armoured(), leg, here, tables(), false)
		if !capa.Known {
			t.Skip("no rating")
		}
		a := q.Ampere(rapid.Float64Range(0, float64(capa.Iz)).Draw(t, "amps"))
		b := q.Ampere(rapid.Float64Range(0, float64(a)).Draw(t, "fewer"))
		hot, ok := OperatingTemp(armoured(), capa, a, tables())
		cool, okCool := OperatingTemp(armoured(), capa, b, tables())
		if !ok || !okCool || cool > hot {
			t.Fatalf("%v at %v, %v at %v", cool, b, hot, a)
		}
		around := here.Air
		if capa.Method == "D" {
			around = here.Ground
		}
		// A factor printed to two digits, and rows taken for the hotter
		// temperature, move the cold end by less than 4 K.
		if hot.Celsius() > 70+1e-6 || cool < around-4 {
			t.Fatalf("%v to %v in %v", cool, hot, around)
		}
	})
}
