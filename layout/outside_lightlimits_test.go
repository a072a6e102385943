package layout

import (
	"math"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout/file"
	"duskwire/layout/internal/outside"
)

// TestOutsideBlackBody holds the radiation functions to printed tables.
func TestOutsideBlackBody(t *testing.T) {
	outside.Each(t, "blackbody", func(in *outside.Input) float64 { return light.RadiatedBelow(in.Num("product") * 1e-6) })
}

// TestOutsideLightLimits holds the shipped targets and limits of light to where
// they come from.
func TestOutsideLightLimits(t *testing.T) {
	_, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	l := rules[0].Light
	outside.Each(t, "lightlimits", func(in *outside.Input) float64 {
		want := in.Text("want")
		if in.Has("use") {
			use := in.Text("use")
			for _, row := range l.Uses {
				if row.Use == use {
					return map[string]float64{"average": float64(row.Average), "least": float64(row.Least), "uniformity": row.Uniformity, "upright": float64(row.Upright)}[want]
				}
			}
		}
		if !in.Has("zone") {
			if v, ok := map[string]float64{"curfew": l.Curfew.Value, "courtesy": l.Courtesy.Value, "warm soft": l.WarmSoft.Value, "warm hard": l.WarmHard.Value}[want]; ok {
				return v
			}
			return math.NaN()
		}
		zone := in.Text("zone")
		for _, row := range l.Spill {
			if row.Zone == zone && (row.After && want == "after" || !row.After && want == "before") {
				return float64(row.Lux)
			}
		}
		for _, row := range l.Bright {
			if row.Zone == zone && (row.After && want == "source after" || !row.After && want == "source before") {
				return float64(row.Candela)
			}
		}
		for _, row := range l.Upward {
			if row.Zone == zone && (row.All && want == "all" || !row.All && want == "lamp") {
				return 100 * row.Share
			}
		}
		return math.NaN()
	})
}
