package network

import (
	"math"
	"math/cmplx"
	"testing"

	"pgregory.net/rapid"
)

// Rated current I = P/(U·λ): trade notes, scenario 1 (12 W, pf 0.5: 0.104 A),
// scenario 4 (24 W, pf 0.9: 0.116 A), scenario 2 (50 W at 12 V: 4.17 A).
func TestRated(t *testing.T) {
	for _, row := range []struct {
		l         Load
		want, tol float64
	}{
		{Load{Power: 12, Nominal: 230, PowerFactor: 0.5}, 0.104, 0.0005},
		{Load{Power: 24, Nominal: 230, PowerFactor: 0.9}, 0.116, 0.0005},
		{Load{Power: 50, Nominal: 12, PowerFactor: 1}, 4.17, 0.005},
	} {
		if got := float64(row.l.Rated()); math.Abs(got-row.want) > row.tol {
			t.Errorf("%g W: %g A, want %g", float64(row.l.Power), got, row.want)
		}
	}
}

// The laws at 80 % of nominal, by hand: 10 W at 10 V, power factor 0.8, so
// 1.25 A rated and 10 W + j7.5 var.
func TestLoadCurrent(t *testing.T) {
	for _, row := range []struct {
		law   Law
		at    float64
		watts float64 // at that voltage
		amps  float64
	}{
		{ConstantPower, 10, 10, 1.25},
		{ConstantPower, 8, 10, 1.5625},
		{ConstantCurrent, 10, 10, 1.25},
		{ConstantCurrent, 8, 8, 1.25},
		{Resistive, 10, 10, 1.25},
		{Resistive, 8, 6.4, 1},
	} {
		l := Load{Law: row.law, Power: 10, Nominal: 10, PowerFactor: 0.8}
		for _, angle := range []float64{0, 0.3, -1.2} {
			v := cmplx.Rect(row.at, angle)
			i := l.Current(v)
			s := v * cmplx.Conj(i)
			if math.Abs(cmplx.Abs(i)-row.amps) > 1e-12 || math.Abs(real(s)-row.watts) > 1e-12 {
				t.Errorf("%v at %g V: %g A and %g W, want %g A and %g W", row.law, row.at, cmplx.Abs(i), real(s), row.amps, row.watts)
			}
			if math.Abs(imag(s)-0.75*real(s)) > 1e-12 {
				t.Errorf("%v at %g V: %g var for %g W, want lagging 0.75", row.law, row.at, imag(s), real(s))
			}
		}
	}
}

func TestLoadCurrentEdges(t *testing.T) {
	for _, law := range allLaws {
		if i := (Load{Law: law, Nominal: 12}).Current(12); i != 0 {
			t.Errorf("%v without power draws %v", law, i)
		}
	}
	dark := map[Law]complex128{ConstantPower: cmplx.Inf(), ConstantCurrent: 0.5, Resistive: 0, ResistorStrip: 0, Filament: 0}
	for law, want := range dark {
		if i := (Load{Law: law, Power: 6, Nominal: 12, PowerFactor: 1}).Current(0); i != want {
			t.Errorf("%v at 0 V draws %v, want %v", law, i, want)
		}
	}
}

// All laws agree at nominal voltage, at the rated current.
func TestLawsMeetAtNominal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := Load{Power: 7, Nominal: 230, Forward: 180, PowerFactor: rapid.Float64Range(0.1, 1).Draw(t, "pf")}
		v := cmplx.Rect(230, rapid.Float64Range(-3, 3).Draw(t, "angle"))
		for _, l.Law = range allLaws {
			if off := math.Abs(cmplx.Abs(l.Current(v)) - float64(l.Rated())); off > 1e-12 {
				t.Fatalf("%v is %g A off the rated current", l.Law, off)
			}
		}
	})
}

// r = rise·U2²/S, so that the no-load rise is used up at full load.
func TestConverterResistance(t *testing.T) {
	for _, row := range []struct {
		c    Converter
		want float64
	}{
		{Converter{Nominal: 12, Rated: 60, Rise: 0.06}, 0.144},
		{Converter{Nominal: 24, Rated: 100, Rise: 0.05}, 0.288},
		{Converter{Nominal: 12, Rated: 60, Rise: 0.06, Regulated: true}, 0},
		{Converter{Nominal: 12, Rise: 0.06}, 0},
	} {
		got := float64(row.c.Resistance())
		if math.Abs(got-row.want) > 1e-12 {
			t.Errorf("%+v: %g Ω, want %g", row.c, got, row.want)
		}
		full := float64(row.c.Rated) / float64(row.c.Nominal)
		if row.want > 0 && math.Abs(got*full-row.c.Rise*float64(row.c.Nominal)) > 1e-12 {
			t.Errorf("%+v: %g V at full load", row.c, got*full)
		}
	}
}

func TestCableRating(t *testing.T) {
	c := &Cable{Ratings: []Rating{{Method: "C", Iz: 27}, {Method: "C", Iz: 23, Seventy: true}, {Method: "D", Iz: 25}}}
	for _, row := range []struct {
		method  string
		seventy bool
		iz      float64
		ok      bool
	}{{"C", false, 27, true}, {"C", true, 23, true}, {"D", false, 25, true}, {"D", true, 0, false}, {"E", false, 0, false}} {
		if r, ok := c.Rating(row.method, row.seventy); ok != row.ok || float64(r.Iz) != row.iz {
			t.Errorf("method %s, 70 °C %v: %v %v", row.method, row.seventy, r.Iz, ok)
		}
	}
}

func TestDeviceParts(t *testing.T) {
	for _, row := range []struct {
		d              Device
		over, residual bool
	}{
		{Device{Kind: Breaker}, true, false},
		{Device{Kind: FuseBS1362}, true, false},
		{Device{Kind: ResidualRCD, Residual: 0.03}, false, true},
		{Device{Kind: RCBO, Residual: 0.03}, true, true},
	} {
		if row.d.Overcurrent() != row.over || row.d.ResidualPart() != row.residual {
			t.Errorf("%+v: %v %v", row.d, row.d.Overcurrent(), row.d.ResidualPart())
		}
	}
}

func TestNames(t *testing.T) {
	for got, want := range map[string]string{
		TNS.String(): "TN-S", TNCS.String(): "TN-C-S", TT.String(): "TT", EarthingUnknown.String(): "unknown",
		AC.String(): "AC", DC.String(): "DC", ClassII.String(): "II", ClassUnknown.String(): "unknown",
		ConstantPower.String(): "constant power", ConstantCurrent.String(): "constant current", Resistive.String(): "resistive",
		ResistorStrip.String(): "resistor strip", Filament.String(): "filament",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
