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
	s, err := sheetOf(f, rules, date)
	if err != nil {
		return err
	}
	return Picture(w, format, s)
}

// CircuitOf writes the one-line diagram of a frame's circuits as a picture, on
// the smallest paper of A4 to A0 that holds it, else on a sheet of its own size.
func CircuitOf(w io.Writer, format string, f *layout.Frame, rules, date string) error {
	s, err := sheetOf(f, rules, date)
	if err != nil {
		return err
	}
	s.Circuit = &scene.OneLineInput{Scheme: f.Scheme, Stock: f.Stock, Circuits: f.Circuits, Results: f.Results, Findings: f.Findings}
	return Picture(w, format, s)
}

// sheetOf returns the sheet of a frame.
func sheetOf(f *layout.Frame, rules, date string) (Sheet, error) {
	if date != "" {
		if _, err := time.Parse(time.DateOnly, date); err != nil {
			return Sheet{}, fmt.Errorf("date: found %q, expected year-month-day such as 2026-11-25", date)
		}
	}
	s := Sheet{
		Plan:  scene.Input{Scheme: f.Scheme, Stock: f.Stock, Lengths: f.Circuits.Lengths, Findings: f.Findings},
		Rules: rules, Date: date, Amendment: amendmentOf(f),
	}
	if f.Under != nil {
		s.Plan.Picture = f.Under.Picture
	}
	return s, nil
}

// amendmentOf returns of what time the values are that a frame was judged by, "" when
// there is no circuit to judge.
func amendmentOf(f *layout.Frame) string {
	for i := range f.Circuits.Circuits {
		if r := f.Circuits.Circuits[i].Input.Rules; r != nil {
			return r.Amendment
		}
	}
	return ""
}
