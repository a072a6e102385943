package output

import (
	"fmt"
	"io"

	"duskwire/layout"
)

// Least and most pixels that a PNG of the plan may be wide.
const (
	LeastWide = 200
	MostWide  = 8000
)

// PlanPNG writes the plan of a frame as a PNG that many pixels wide; its height
// follows from the paper. Date as of PictureOf.
func PlanPNG(w io.Writer, f *layout.Frame, rules, date string, width int) error {
	if width < LeastWide || width > MostWide {
		return fmt.Errorf("width: found %d, expected %d to %d pixels", width, LeastWide, MostWide)
	}
	s, err := sheetOf(f, rules, date)
	if err != nil {
		return err
	}
	l, err := Page(s)
	if err != nil {
		return err
	}
	s.PixelsPerMM = float64(width) / l.Width
	return writePNG(w, l, s)
}
