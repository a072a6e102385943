package file

import (
	"math"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/network"
)

const goodSeries = `lamps:
  - {key: own-cc, name: Own deck light, kind: deck, current: DC, drive: 350 mA, voltage: 3.1 V, law: driven, class: III, ip: IP67, source: maker's sheet}
sources:
  - {key: own-driver, name: Own driver, input: 230 V, current: DC, kind: constant current, drive: 350 mA, least: 9 V, most: 42 V, efficiency: 84 %, power_factor: 0.9, class: II, ip: IP67, selv: true, source: maker's sheet}
`

// A lamp for constant current takes drive times its volts; a driver is rated at
// its current times the most of its volts.
func TestReadSeries(t *testing.T) {
	s, err := ReadStock("own.yaml", []byte(goodSeries), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	lamp, _ := s.Lamp("own-cc")
	if l := lamp.Load; l.Law != network.Driven || math.Abs(float64(l.Drive)-0.35) > 1e-12 || l.Nominal != 3.1 || l.Power < 1.0849 || l.Power > 1.0851 || l.PowerFactor != 1 {
		t.Errorf("lamp %+v", l)
	}
	d, _ := s.Converter("own-driver")
	if c := d.Converter; c.Kind() != network.DrivingKind || math.Abs(float64(c.Drive)-0.35) > 1e-12 || c.Least != 9 || c.Most != 42 || c.Nominal != 42 || !c.Regulated || c.Rated < 14.69 || c.Rated > 14.71 {
		t.Errorf("driver %+v", c)
	}
	for _, row := range []struct{ old, text, want string }{
		{"drive: 350 mA, voltage", "voltage", "drive: found nothing"},
		{"law: driven", "law: driven, power: 1 W", "power: found"},
		{"law: driven", "law: driven, minimum: 2 V", "minimum: found"},
		{"law: driven", "law: constant power, power: 1 W, power_factor: 1", "no drive current for the law constant power"},
		{"kind: deck, current: DC", "kind: deck, current: any", "DC for a driven lamp"},
		{"law: driven", "law: driven, forward: 3 V", "no forward voltage for the law driven"},
		{"drive: 350 mA, least", "least", "drive: found nothing"},
		{"most: 42 V, ", "", "most: found nothing"},
		{"least: 9 V", "least: 43 V", "a voltage not above the most of 42 V"},
		{"least: 9 V", "least: 9 V, output: 12 V", "output: found"},
		{"least: 9 V", "least: 9 V, regulated: true", "regulated: found"},
		{"least: 9 V", "least: 9 V, rated: 20 VA", "not more than drive times most"},
		{"current: DC, kind: constant", "current: AC, kind: constant", "DC for a constant-current source"},
		{"kind: constant current", "kind: regulated, regulated: true, output: 12 V, rated: 20 VA", "only sources of the kind constant current have it"},
		{"least: 9 V", "least: 9 V, rise: 5 %", "no rise for a source that holds its output"},
		{"drive: 350 mA, least", "drive: 350 V, least", "found \"350 V\", expected a current"},
		{"drive: 350 mA, least", "drive: NaN A, least", "drive"},
	} {
		if !strings.Contains(goodSeries, row.old) {
			t.Fatalf("no %q", row.old)
		}
		_, err := ReadStock("own.yaml", []byte(strings.Replace(goodSeries, row.old, row.text, 1)), assets.FS)
		checkLine(t, err, row.want)
	}
}
