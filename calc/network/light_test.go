package network

import (
	"math"
	"math/cmplx"
	"testing"

	q "duskwire/calc/quantity"
	"pgregory.net/rapid"
)

// Light over volts. Sources in the rows.
func TestLight(t *testing.T) {
	halogen := Load{Law: Filament, Power: 20, PowerFactor: 1, Nominal: 12}
	strip := Load{Law: ResistorStrip, Power: 5, PowerFactor: 1, Nominal: 12, Forward: 9.3}
	wide := Load{Law: ConstantPower, Power: 5, PowerFactor: 1, Nominal: 12, Minimum: 9, Maximum: 15, Dropout: 8}
	narrow := Load{Law: ConstantCurrent, Power: 5, PowerFactor: 1, Nominal: 12, Minimum: 10.8, Maximum: 13.2}
	bare := Load{Law: ConstantPower, Power: 5, PowerFactor: 1, Nominal: 12}
	unknown := math.NaN()
	for _, row := range []struct {
		l         Load
		at        q.Volt
		want, tol float64 // want NaN: not known
		source    string
	}{
		{halogen, 13, 1.31, 0.005, "trade notes 4 [S65]: 131 %"},
		{halogen, 12, 1, 0, "by definition"},
		{halogen, 11, 0.75, 0.007, "trade notes 4 [S65][S66]: 75 %"},
		{halogen, 10.5, 0.65, 0.02, "trade notes 4 [S66]: 65 %"},
		{halogen, 10, 0.54, 0.005, "trade notes 4 [S65]: 54 %; [S66] says 50 %"},
		{strip, 12, 1, 0, "by definition"},
		{strip, 11.4, 0.78, 0.005, "trade notes 4 (D)"},
		{strip, 11, 0.63, 0.005, "trade notes 4 (D)"},
		{strip, 10.8, 0.56, 0.005, "trade notes 4 (D)"},
		{strip, 9.3, 0, 1e-12, "forward voltage"},
		{strip, 5, 0, 0, "below the forward voltage"},
		{wide, 15, 1, 0, "trade notes 4 [S67]: same light 9-15 V"},
		{wide, 9, 1, 0, "trade notes 4 [S67]"},
		{wide, 8, 1, 0, "drop-out itself"},
		{wide, 7.99, 0, 0, "below the drop-out: off or flickering"},
		{wide, 15.1, unknown, 0, "above what the maker allows"},
		{narrow, 10.8, 1, 0, "lower limit"},
		{narrow, 10.7, unknown, 0, "below the maker's limit nothing is known"},
		{bare, 10.8, 1, 0, "nominal ± 10 % (from memory)"},
		{bare, 10.7, unknown, 0, "nothing known"},
		{Load{Law: Resistive, Nominal: 10}, 9, 0.81, 1e-12, "power, derived"},
		{Load{Law: Filament}, 9, unknown, 0, "no nominal voltage"},
		{halogen, q.Volt(math.NaN()), unknown, 0, "no voltage"},
	} {
		got, ok := row.l.Light(row.at)
		if ok == math.IsNaN(row.want) || (ok && math.Abs(got-row.want) > row.tol) {
			t.Errorf("%v at %v: %v %v, want %v (%s)", row.l.Law, row.at, got, ok, row.want, row.source)
		}
	}
}

// The strip's current is its light: same outside figures. The filament's
// exponent is from memory.
func TestStripAndFilamentCurrent(t *testing.T) {
	strip := Load{Law: ResistorStrip, Power: 12, PowerFactor: 1, Nominal: 12, Forward: 9.3}
	lamp := Load{Law: Filament, Power: 12, PowerFactor: 1, Nominal: 12}
	for _, row := range []struct {
		l             Load
		at, want, tol float64
	}{
		{strip, 11.4, 0.78, 0.005}, {strip, 11, 0.63, 0.005}, {strip, 10.8, 0.56, 0.005},
		{strip, 9.3, 0, 1e-12}, {strip, 3, 0, 0}, {strip, 0, 0, 0}, {strip, 13.2, 1.444, 0.001},
		{lamp, 12, 1, 1e-12}, {lamp, 10, math.Pow(10.0/12, 0.55), 1e-12}, {lamp, 0, 0, 0},
	} {
		for _, angle := range []float64{0, 0.4} {
			if got := cmplx.Abs(row.l.Current(cmplx.Rect(row.at, angle))); math.Abs(got-row.want) > row.tol {
				t.Errorf("%v at %g V: %g A, want %g", row.l.Law, row.at, got, row.want)
			}
		}
	}
}

// Steepness is the slope of the current, by a small step; and light never falls
// when the volts rise.
func TestSteepness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Load{Power: 5, Nominal: 12, Forward: 9.3, PowerFactor: rapid.Float64Range(0.3, 1).Draw(t, "pf")}
		u := rapid.Float64Range(9.5, 14).Draw(t, "volts")
		for _, l.Law = range allLaws {
			const step = 1e-6
			a, b := cmplx.Abs(l.Current(complex(u-step, 0))), cmplx.Abs(l.Current(complex(u+step, 0)))
			got := (b - a) / (a + b) / step * u
			if want := l.Steepness(u); math.Abs(got-want) > 1e-4*(1+math.Abs(want)) {
				t.Fatalf("%v at %g V: %g, want %g", l.Law, u, want, got)
			}
			low, lowKnown := l.Light(q.Volt(u))
			high, highKnown := l.Light(q.Volt(u + 0.1))
			if lowKnown && highKnown && high < low {
				t.Fatalf("%v: %g of the light at %g V, %g at %g V", l.Law, low, u, high, u+0.1)
			}
		}
	})
}

var allLaws = []Law{ConstantPower, ConstantCurrent, Resistive, ResistorStrip, Filament}

// Kinds of source, and the primary current: 50 W out of 80 %, 3 W of its own,
// power factor 0.9: 65.5/207 A (by hand).
func TestConverterKinds(t *testing.T) {
	c := Converter{Nominal: 12, Rated: 60, Rise: 0.3, Efficiency: 0.8, PowerFactor: 0.9, NoLoad: 3}
	if got := float64(c.Primary(50, 230)); math.Abs(got-65.5/207) > 1e-12 {
		t.Errorf("primary %g A", got)
	}
	if got := float64(c.Open()); math.Abs(got-15.6) > 1e-12 {
		t.Errorf("open %g V", got) // the 16 V class of small wound transformers, trade notes 4 [S76]
	}
	for want, c := range map[string]Converter{"wound": c, "electronic": {HighFreq: true}, "regulated": {Regulated: true, Nominal: 12, Rise: 0.3}} {
		if c.Kind().String() != want {
			t.Errorf("%v, want %s", c.Kind(), want)
		}
		if want == "regulated" && c.Open() != 12 {
			t.Errorf("a regulated source rises to %v", c.Open())
		}
	}
	if i := (Converter{}).Primary(5, 230); !math.IsNaN(float64(i)) {
		t.Errorf("without efficiency: %v", i)
	}
}
