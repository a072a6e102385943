package protect

import (
	"math"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// selective are the rows that selectivity needs. Sources: EN 60898-1 Table 2
// (3, 5, 10 · In) and Table 7 (1.13, 1.45 · In); BS 1362 (1.6, 1.9 · In; limits
// of time at 30, 50 and 100 A for 13 A and at 9, 20 and 30 A for 3 A).
func selective() *Tables {
	t := tables()
	for i, least := range []float64{3, 5, 10} {
		t.Multiples[i].Least = least
	}
	t.Conventional = []Conventional{
		{network.Breaker, 1.13, 1.45, 3600, t.Multiples[0].Source},
		{network.FuseBS1362, 1.6, 1.9, 1800, t.Multiples[0].Source},
	}
	at := func(in, i q.Ampere, least, longest q.Second) Point {
		return Point{network.FuseBS1362, in, i, least, longest, t.Multiples[0].Source}
	}
	t.Points = []Point{
		at(3, 9, 0.02, 80), at(3, 20, 0, 0.1), at(3, 30, 0, 0.03),
		at(13, 30, 1, 400), at(13, 50, 0.1, 20), at(13, 100, 0.01, 0.2),
	}
	return t
}

// B32: 96 A, B16: 48 A as the trade reference prints them; C10 50 A, D6 60 A.
func TestInstantFrom(t *testing.T) {
	for _, tt := range []struct {
		d    network.Device
		want float64
	}{
		{breaker("B", 32), 96}, {breaker("B", 16), 48}, {rcbo("C", 10), 50}, {breaker("D", 6), 60},
		{bs1362(13), 0}, {breaker("K", 6), 0},
	} {
		got, _, ok := InstantFrom(tt.d, selective())
		if ok != (tt.want > 0) || math.Abs(float64(got)-tt.want) > 1e-9 {
			t.Errorf("%+v: %v %v, want %v", tt.d, got, ok, tt.want)
		}
	}
	if _, _, ok := InstantFrom(breaker("B", 16), tables()); ok {
		t.Error("a rule set without the lower end gives one")
	}
}

func TestLongRun(t *testing.T) {
	for _, tt := range []struct {
		d            network.Device
		holds, opens float64
	}{
		{breaker("B", 16), 18.08, 23.2}, {rcbo("B", 6), 6.78, 8.7}, {bs1362(13), 20.8, 24.7}, {bs1362(3), 4.8, 5.7},
	} {
		holds, opens, _, ok := LongRun(tt.d, selective())
		if !ok || math.Abs(float64(holds)-tt.holds) > 1e-9 || math.Abs(float64(opens)-tt.opens) > 1e-9 {
			t.Errorf("%+v: %v %v %v", tt.d, holds, opens, ok)
		}
	}
	if _, _, _, ok := LongRun(network.Device{Kind: network.FuseBS3036, Rating: 5}, selective()); ok {
		t.Error("BS 3036 has no row")
	}
}

func TestLimits(t *testing.T) {
	for _, tt := range []struct {
		in, i          q.Ampere
		least, longest q.Second
		ok             bool
	}{
		{13, 50, 0.1, 20, true}, {13, 48, 0.1, 400, true}, {13, 29, 1, 0, true}, {13, 100, 0.01, 0.2, true},
		{13, 101, 0, 0.2, true}, {3, 8, 0.02, 0, true}, {3, 20, 0, 0.1, true}, {3, 48, 0, 0.03, true}, {5, 48, 0, 0, false},
	} {
		least, longest, _, ok := Limits(bs1362(tt.in), tt.i, selective())
		if least != tt.least || longest != tt.longest || ok != tt.ok {
			t.Errorf("%v A link at %v: %v to %v %v, want %v to %v %v", tt.in, tt.i, least, longest, ok, tt.least, tt.longest, tt.ok)
		}
	}
}

// Type S ahead and three times the current: BS 7671 536.4.1.4.
func TestResidualApart(t *testing.T) {
	for _, tt := range []struct {
		ahead, behind network.Device
		want          bool
	}{
		{rcd(0.1, true), rcd(0.03, false), true},
		{rcd(0.09, true), rcd(0.03, false), true},
		{rcd(0.089, true), rcd(0.03, false), false},
		{rcd(0.1, false), rcd(0.03, false), false},
		{rcd(0.03, false), rcd(0.03, false), false},
		{rcd(0.3, true), rcd(0.1, true), true},
	} {
		if got := ResidualApart(tt.ahead, tt.behind, 3); got != tt.want {
			t.Errorf("%v delayed %v ahead of %v: %v", tt.ahead.Residual, tt.ahead.Delayed, tt.behind.Residual, got)
		}
	}
}
