package network

import (
	"math"
	"testing"

	q "duskwire/calc/quantity"
)

// TestLightRange: what is known has no range; below what it is vouched for a driver
// lies between out and full and is drawn as a filament, above its maximum it may have
// failed or give more. The drawn figures are those of a seller's table for filaments.
func TestLightRange(t *testing.T) {
	narrow := Load{Law: ConstantCurrent, Power: 5, PowerFactor: 1, Nominal: 12, Minimum: 10.8, Maximum: 13.2}
	for _, row := range []struct {
		l      Load
		at     q.Volt
		want   LightRange
		known  bool
		source string
	}{
		{narrow, 12, Full, true, "within its range"},
		{narrow, 10.8, Full, true, "its lower limit"},
		{narrow, 10, LightRange{0, 1, 0.54}, false, "trade notes 4 [S65]: a filament 54 % at 10 V"},
		{narrow, 10.13, LightRange{0, 1, 0.56}, false, "trade notes 9, scenario 2: halogen-type light 56 %"},
		{narrow, 0, LightRange{0, 1, 0}, false, "no volts"},
		{narrow, 13.3, LightRange{0, 1.42, 1}, false, "derived: (13.3/12)^3.4"},
		{Load{Law: ConstantPower, Nominal: 12, Maximum: 11}, 11.5, LightRange{0, 1, 1}, false, "above its maximum"},
		{Load{Law: Filament, Nominal: 12}, 10, LightRange{0.54, 0.54, 0.54}, true, "trade notes 4 [S65]"},
		{Load{Law: ConstantPower, Nominal: 12, Dropout: 8}, 7, LightRange{}, true, "below its drop-out it is out"},
		{Load{Law: Driven, Nominal: 3}, 3, LightRange{0, 1, 1}, false, "follows the current"},
		{narrow, q.Volt(math.NaN()), LightRange{0, 1, 1}, false, "no voltage"},
	} {
		got, known := row.l.Range(row.at)
		off := math.Max(math.Abs(got.Least-row.want.Least), math.Max(math.Abs(got.Most-row.want.Most), math.Abs(got.Drawn-row.want.Drawn)))
		if known != row.known || !(off <= 0.005) {
			t.Errorf("%v at %v: %+v %v, want %+v (%s)", row.l.Law, row.at, got, known, row.want, row.source)
		}
	}
}
