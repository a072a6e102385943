package light

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Laws of the sun: over a year it is up somewhat more than half of the time,
// because of refraction and its size; dusk comes after sunset; what moves west by
// a degree sees the sun four minutes later; north and south mirror the seasons.
func TestSunLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-60, 60).Draw(t, "latitude")
		long := rapid.Float64Range(-170, 170).Draw(t, "longitude")
		d := Date{rapid.IntRange(1990, 2040).Draw(t, "year"), 1, rapid.IntRange(1, 365).Draw(t, "day")}
		s := SunOn(d, lat, long)
		if s.Day.Always || s.Day.Never || s.Day.Up >= s.Noon || s.Day.Down <= s.Noon || s.Day.Hours() <= 0 || s.Day.Hours() >= 24 {
			t.Fatalf("%+v", s)
		}
		if !s.Dusk.Always && (s.Dusk.Down <= s.Day.Down || s.Dusk.Up >= s.Day.Up) {
			t.Fatalf("dusk before sunset: %+v", s)
		}
		west := SunOn(d, lat, long-1)
		if got := (west.Day.Down - s.Day.Down) * 60; math.Abs(got-4) > 0.1 {
			t.Fatalf("a degree west sunset moves by %.2f min", got)
		}
	})
}

// TestSunYear: hours that follow from the definition.
func TestSunYear(t *testing.T) {
	uk := Clock{Summer: true}
	for _, c := range []struct {
		what      string
		lat, long float64
		clock     Clock
		off       Off
		low, high float64
	}{
		// At the equator the sun is down 12 h less the 50′ at both ends, 1/15 h a degree: (12 - 0.111) · 365.
		{"equator, dawn", 0, 0, Clock{}, Off{Dawn: true}, 4339.4 - 3, 4339.4 + 3},
		// There the sun sets at 18 h and half of those 50′ on the mean of the year.
		{"equator, 22 h", 0, 0, Clock{}, Off{Hour: 22}, 1439.7 - 3, 1439.7 + 3},
		{"beyond the circle, dawn (a broad band: no figure from outside)", 78.2, 15.6, Clock{Ahead: 1}, Off{Dawn: true}, 3800, 4400},
		{"off before any sunset", 50, 0, Clock{}, Off{Hour: 12.6}, 0, 0},
	} {
		y := SunYearOf(2026, c.lat, c.long)
		if got := y.Burning(c.clock, c.off); got < c.low || got > c.high {
			t.Errorf("%s: %.1f h, want %.1f to %.1f", c.what, got, c.low, c.high)
		}
	}
	y := SunYearOf(2026, 51.5, -1.25)
	winter, summer := y.Burning(Clock{}, Off{Hour: 23.5}), y.Burning(uk, Off{Hour: 23.5})
	if got := winter - summer; math.Abs(got-210) > 1e-6 { // 29 March to 25 October 2026 are 210 evenings
		t.Errorf("summer time takes %.3f h off, want 210", got)
	}
	n := y.Nights()
	if dawn := y.Burning(uk, Off{Dawn: true}); math.Abs(dawn-n.SunDown) > 1e-9 || n.Dark >= n.SunDown {
		t.Errorf("to dawn %.1f h, sun down %.1f h, dark %.1f h", dawn, n.SunDown, n.Dark)
	}
	if y := SunYearOf(2026, 90, 0); math.Abs(y.Nights().SunDown-8760/2) > 24*10 {
		t.Errorf("at the pole the sun is down %.0f h", y.Nights().SunDown)
	}
}
