package output

import (
	"io"

	"duskwire/layout"
)

// ZonesOf writes the plan of a frame with the zones hatched: a light area about
// the lamps that are switched together, which also a black-and-white print tells
// apart. Otherwise it is as PictureOf.
func ZonesOf(w io.Writer, format string, f *layout.Frame, rules, date string) error {
	s, err := sheetOf(f, rules, date)
	if err != nil {
		return err
	}
	s.Plan.Hatch.All = true
	return Picture(w, format, s)
}
