package protect

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Maximum loop of fuses. Source: BS 7671 Tables 41.2 and 41.4; for links
// without a row the next larger row, which the source has to say.
func TestMaxLoopFuse(t *testing.T) {
	for _, tt := range []struct {
		in     q.Ampere
		within q.Second
		want   q.Ohm
		own    bool
	}{
		{3, 0.4, 15.6, true}, {13, 0.4, 2.30, true}, {3, 5, 22.0, true}, {13, 5, 3.64, true},
		{1, 0.4, 15.6, false}, {5, 0.4, 2.30, false}, {7, 0.4, 2.30, false}, {10, 5, 3.64, false},
		{3, 1, 15.6, true}, // no row for 1 s: the shorter time is the cautious one
	} {
		got, src, ok := MaxLoop(bs1362(tt.in), tt.within, 230, tables())
		if !ok || math.Abs(float64(got-tt.want)) > 1e-12 {
			t.Errorf("%v within %v: %v %v, want %v", tt.in, tt.within, got, ok, tt.want)
		}
		if said := strings.Contains(src.Clause, "taken for"); said == tt.own {
			t.Errorf("%v: source %q", tt.in, src.Clause)
		}
		if !tt.own && src.Evidence != finding.Derived {
			t.Errorf("%v: evidence %q, want derived", tt.in, src.Evidence)
		}
	}
	for _, d := range []network.Device{bs1362(14), {Kind: network.FuseBS3036, Rating: 30}, rcd(0.03, false)} {
		if z, _, ok := MaxLoop(d, 0.4, 230, tables()); ok {
			t.Errorf("%+v: %v, want no value", d, z)
		}
	}
	if z, _, ok := MaxLoop(bs1362(3), 0.2, 230, tables()); ok {
		t.Errorf("3 A within 0.2 s: %v, want no value: nothing that short is tabulated", z)
	}
}

// A breaker has no point below the time of its instantaneous band.
func TestMaxLoopBreaker(t *testing.T) {
	if z, _, ok := MaxLoop(breaker("B", 16), 0.1, 230, tables()); !ok || math.Abs(float64(z)-2.73125) > 1e-12 {
		t.Errorf("B16 within 0.1 s: %v %v, want 218.5/80", z, ok)
	}
	if _, _, ok := MaxLoop(breaker("B", 16), 0.09, 230, tables()); ok {
		t.Error("B16 within 0.09 s: want no value")
	}
	if _, _, ok := MaxLoop(breaker("K", 16), 0.4, 230, tables()); ok {
		t.Error("unknown curve: want no value")
	}
}

// Trip currents. Sources: 5, 10 and 20 times In of EN 60898-1; 218.5/Zs for
// fuses (BS 1362: 14 A and 95 A at 0.4 s, 9.9 A and 60 A at 5 s, derived); 90 A
// at 0.4 s for a 15 A BS 3036 fuse is printed in Basic Electrical Installation
// Work.
func TestTripCurrent(t *testing.T) {
	for _, tt := range []struct {
		d         network.Device
		within    q.Second
		want, tol float64
	}{
		{breaker("B", 6), 0.4, 30, 1e-9},
		{breaker("C", 10), 0.4, 100, 1e-9},
		{breaker("D", 6), 0.4, 120, 1e-9},
		{bs1362(3), 0.4, 14.0, 0.05},
		{bs1362(13), 0.4, 95, 0.5},
		{bs1362(3), 5, 9.9, 0.05},
		{bs1362(13), 5, 60, 0.5},
		{network.Device{Kind: network.FuseBS3036, Rating: 15}, 0.4, 90, 0.5},
	} {
		got, _, ok := TripCurrent(tt.d, tt.within, 230, tables())
		if !ok || math.Abs(float64(got)-tt.want) > tt.tol {
			t.Errorf("%+v at %v: %v, want %v", tt.d, tt.within, got, tt.want)
		}
	}
}

// RA limits. Source: loop tester manual, table of RA for 50 V, from 10 mA to
// 1 A; the same numbers in BS 7671 Table 41.5.
func TestMaxLoopResidual(t *testing.T) {
	for _, tt := range []struct{ mA, ohm float64 }{
		{10, 5000}, {30, 1667}, {100, 500}, {300, 167}, {500, 100}, {1000, 50},
	} {
		got, _, ok := MaxLoopResidual(rcd(q.Ampere(tt.mA/1000), false), network.TT, 230, tables())
		if !ok || math.Round(float64(got)) != tt.ohm {
			t.Errorf("%v mA: %v, want %v Ω", tt.mA, got, tt.ohm)
		}
	}
	// TN: 218.5 V / (5 x 30 mA) = 1457 Ω (411.4.4); unknown takes the smaller.
	for _, e := range []network.Earthing{network.TNS, network.TNCS, network.EarthingUnknown} {
		got, _, _ := MaxLoopResidual(rcd(0.03, false), e, 230, tables())
		if math.Abs(float64(got)-1456.667) > 0.001 {
			t.Errorf("%v: %v, want 1456.667 Ω", e, got)
		}
	}
	if _, _, ok := MaxLoopResidual(breaker("B", 6), network.TT, 230, tables()); ok {
		t.Error("breaker without residual part: want no value")
	}
}

// Source: BS 7671 Table 41.1.
func TestFinal(t *testing.T) {
	for e, want := range map[network.Earthing]q.Second{network.TNS: 0.4, network.TNCS: 0.4, network.TT: 0.2} {
		if got, _, ok := Final(e, tables()); !ok || got != want {
			t.Errorf("%v: %v, want %v", e, got, want)
		}
	}
	if _, _, ok := Final(network.EarthingUnknown, tables()); ok {
		t.Error("unknown earthing: want no time")
	}
}
