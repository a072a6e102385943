package output

import (
	"fmt"
	"io"
	"time"

	"duskwire/layout"
	"duskwire/layout/scene"
)

// PictureOf writes the plan of a frame as a picture. date is printed as it
// stands and must be empty or of the form 2026-11-25; the writer never asks
// the clock, so the same scheme gives the same bytes.
func PictureOf(w io.Writer, format string, f *layout.Frame, rules, date string) error {
	if date != "" {
		if _, err := time.Parse(time.DateOnly, date); err != nil {
			return fmt.Errorf("date: found %q, expected year-month-day such as 2026-11-25", date)
		}
	}
	s := Sheet{
		Plan:  scene.Input{Scheme: f.Scheme, Stock: f.Stock, Lengths: f.Circuits.Lengths, Findings: f.Findings},
		Rules: rules, Date: date,
	}
	if f.Under != nil {
		s.Plan.Picture = f.Under.Picture
	}
	return Picture(w, format, s)
}
