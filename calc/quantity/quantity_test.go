package quantity

import "testing"

func TestConversions(t *testing.T) {
	for _, row := range []struct {
		what            string
		got, want, span float64
	}{
		{"0 °C", float64(Celsius(0)), 273.15, 0},
		{"70 °C and back", Celsius(70).Celsius(), 70, 1e-12},
		{"1 mm² in m²", float64(SquareMillimetres(1)), 1e-6, 0},
		{"12.1 Ω/km in Ω/m", float64(MilliohmPerMetre(12.1)), 0.0121, 1e-18},
	} {
		if d := row.got - row.want; d > row.span || d < -row.span {
			t.Errorf("%s: %g, want %g", row.what, row.got, row.want)
		}
	}
}

// A nominal size survives the way into SI and back exactly, so that tables
// can be searched by it.
func TestNominalSizes(t *testing.T) {
	for _, mm := range []float64{0.5, 0.75, 1, 1.25, 1.5, 2.5, 4, 6, 10, 16, 25, 35} {
		if got := SquareMillimetres(mm).SquareMillimetres(); got != mm {
			t.Errorf("%g mm² comes back as %g", mm, got)
		}
	}
}

func TestMaybe(t *testing.T) {
	var unknown Maybe[Ohm]
	if unknown.Known || unknown.Or(0.8) != 0.8 {
		t.Errorf("zero Maybe: %+v", unknown)
	}
	if m := Some[Ohm](0); !m.Known || m.Or(0.8) != 0 {
		t.Errorf("a known zero is not unknown: %+v", m)
	}
}
