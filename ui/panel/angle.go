package panel

import (
	"math"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/edit"
)

// angle adds a field for an angle in degrees.
func (f *form) angle(name string, read func() float64, set func(float64) edit.Operation) *line {
	return f.number(name, "°", func() string { return degrees(read()) }, func(s string) error {
		v, err := parseDegrees(s)
		if err != nil {
			return err
		}
		return f.on.desk.Commit(set(v))
	})
}

// north adds the field for where north lies; empty means that nobody said, and
// then no arrow is printed.
func (f *form) north(read func() q.Maybe[float64], set func(q.Maybe[float64]) edit.Operation) *line {
	return f.field("North", "not known, from up the sheet", "°", func() string {
		if m := read(); m.Known {
			return degrees(m.Value)
		}
		return ""
	}, func(s string) error {
		var m q.Maybe[float64]
		if s != "" {
			v, err := parseDegrees(s)
			if err != nil {
				return err
			}
			m = q.Some(v)
		}
		return f.on.desk.Commit(set(m))
	})
}

// degrees writes an angle: "45°".
func degrees(v float64) string { return strconv.FormatFloat(v, 'g', 5, 64) + "°" }

// parseDegrees reads an angle of at most one turn either way: "45°", "45 deg" or "45".
func parseDegrees(s string) (float64, error) {
	text := strings.TrimSpace(s)
	for _, unit := range []string{"°", "degrees", "deg"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, unit))
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > 360 {
		return 0, &q.Error{Found: s, Kind: "angle from -360° to 360°", Units: []string{"°"}}
	}
	return v, nil
}
