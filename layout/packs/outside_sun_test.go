package packs

import (
	"math"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout/internal/outside"
)

// TestOutsideSun holds sunset, dusk and the hours of the sun to almanac values,
// nights without a sunset and days without a sunrise among them.
func TestOutsideSun(t *testing.T) {
	outside.Each(t, "sun", func(in *outside.Input) float64 {
		day := light.Date{Year: int(in.Num("year")), Month: int(in.Num("month")), Day: int(in.Num("day"))}
		lat, long := in.Num("latitude"), in.Num("longitude")
		pick := map[string]func(light.SunDay) float64{
			"sunset": func(s light.SunDay) float64 { return s.Day.Down }, "sunrise": func(s light.SunDay) float64 { return s.Day.Up },
			"civil dusk": func(s light.SunDay) float64 { return s.Dusk.Down }, "civil dawn": func(s light.SunDay) float64 { return s.Dusk.Up },
		}[in.Text("event")]
		s := light.SunOn(day, lat, long)
		switch in.Text("event") {
		case "hours of sun":
			return s.Day.Hours()
		case "hours of civil light":
			return s.Dusk.Hours()
		}
		// The almanac's day is of universal time, ours is about noon at the place.
		for shift := -1; shift <= 1; shift++ {
			at := pick(light.SunOn(light.Date{Year: day.Year, Month: day.Month, Day: day.Day + shift}, lat, long)) + 24*float64(shift)
			if at >= 0 && at < 24 {
				return at * 60
			}
		}
		return math.NaN()
	})
}
