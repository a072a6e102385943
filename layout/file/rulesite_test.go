package file

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/check"
)

// TestShippedSiteLimits: the shipped limits of the ground are the figures of
// the trade notes, sections 2a to 2f, and of reference 10, section 702.
func TestShippedSiteLimits(t *testing.T) {
	s := shippedRules(t).Site
	for _, c := range []struct {
		name string
		got  check.Limit
		want float64
	}{
		{"depth_least: 450 mm, the least of 450, 500, 600", s.DepthLeast, 0.45}, {"depth_advised: under 500 mm is usually inadvisable", s.DepthAdvised, 0.5},
		{"depth_worked: 600 mm in beds and drives", s.DepthWorked, 0.6}, {"dig_clear: within 100 mm", s.DigClear, 0.1}, {"low_depth: 150 mm, 6 in", s.LowDepth, 0.15},
		{"root_clear: nothing dug within 1 m", s.RootClear, 1}, {"hand_dig: four girths", s.HandDig, 4}, {"tree_slack: 0.9 m", s.TreeSlack, 0.9},
		{"service_clear: 0.5 m", s.ServiceClear, 0.5}, {"pond_zone: 2.0 m", s.PondZone, 2}, {"pond_height: 2.5 m", s.PondHeight, 2.5},
		{"pond_volts: 12 V", s.PondVolts, 12}, {"pond_volts_dc: 30 V", s.PondDirect, 30}, {"fence_reach", s.FenceReach, 0.15}, {"post_reach", s.PostReach, 0.2}, {"post_depth: fence-post holes about 600 mm", s.PostDepth, 0.6},
		{"low_support: 300 mm beside a mown edge", s.LowSupport, 0.3}, {"mown_reach: within 200 mm", s.MownReach, 0.2},
		{"ip_outdoor: IP44 sheltered", s.OutdoorIP, 44}, {"ip_ground: IP67 at ground level", s.GroundIP, 67}, {"ip_water: IPX8", s.WaterIP, 68},
		{"ground_level", s.GroundLevel, 0.05}, {"seat_reach: 5 m", s.SeatReach, 5}, {"window_reach", s.WindowReach, 20},
		{"white_spread: 2700 to 3000 K", s.WhiteSpread, 300}, {"movable_slack: 0.5 to 1.0 m", s.MovableSlack, 0.5}, {"extra_low: 50 V", s.ExtraLow, 50},
	} {
		if math.Abs(c.got.Value-c.want) > 1e-9 {
			t.Errorf("%s: got %v, want %v", c.name, c.got.Value, c.want)
		}
		if c.got.Source.Evidence == "" {
			t.Errorf("%s has no source", c.name)
		}
	}
}

// TestEditionsOfOtherSources: the edition of the rule set is that of its own
// standard; a limit from elsewhere does not bear it.
func TestEditionsOfOtherSources(t *testing.T) {
	r := shippedRules(t)
	for _, group := range []any{r.Limits, r.Site} {
		v := reflect.ValueOf(group)
		for i := range v.NumField() {
			l, ok := v.Field(i).Interface().(check.Limit)
			if ok && !strings.HasPrefix(l.Source.Standard, "BS 7671") && strings.Contains(l.Source.Edition, "18th") {
				t.Errorf("%s: %s", v.Type().Field(i).Name, l.Source)
			}
		}
	}
}

// TestShippedSupports: On-Site Guide Table D1 as reference 11 prints it, in mm.
func TestShippedSupports(t *testing.T) {
	rows := shippedRules(t).Supports
	want := []struct {
		upTo, along, upright float64
		armoured             bool
	}{
		{9, 250, 400, false}, {15, 300, 400, false}, {20, 350, 450, false}, {40, 400, 550, false},
		{15, 350, 450, true}, {20, 400, 550, true}, {40, 450, 600, true},
	}
	if len(rows) != len(want) {
		t.Fatalf("%d rows, want %d", len(rows), len(want))
	}
	for i, w := range want {
		r := rows[i]
		mm := func(v, want float64) bool { return math.Abs(v*1e3-want) < 1e-6 }
		if !mm(float64(r.UpTo), w.upTo) || !mm(float64(r.Along), w.along) || !mm(float64(r.Upright), w.upright) || r.Armoured != w.armoured || r.Source.Evidence == "" {
			t.Errorf("row %d: %+v, want %+v", i, r, w)
		}
	}
}

// TestSiteLimitsOfAnOwnRuleSet: without the section nothing is asked for; what
// does not fit is refused in one line.
func TestSiteLimitsOfAnOwnRuleSet(t *testing.T) {
	shipped, err := assets.FS.ReadFile("rules/uk-18.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(shipped)
	from := strings.Index(text, "\nsite:")
	r, err := ReadRules("own.yaml", []byte(text[:from]+"\n"), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	if r.Site != (check.SiteLimits{}) {
		t.Errorf("limits out of nothing: %+v", r.Site)
	}
	for _, c := range []struct{ old, bad, want string }{
		{"value: IP44", "value: 44", "an IP code of two digits"}, {"value: IP44", "value: IPX4", "an IP code of two digits"},
		{"value: 450 mm", "value: -450 mm", "site.depth_least.value"}, {"value: 450 mm", "value: 450", "site.depth_least.value"},
		{"depth_least:", "deepth:", "the unknown field \"deepth\""}, {"value: 300 K", "value: 300", "site.white_spread.value"},
	} {
		_, err := ReadRules("own.yaml", []byte(text[:from]+strings.Replace(text[from:], c.old, c.bad, 1)), assets.FS)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.bad, err, c.want)
		}
	}
}
