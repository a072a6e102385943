package output

import (
	"fmt"
	"io"
	"math"

	"duskwire/calc/light"
	"duskwire/layout"
)

// LuxDoubt is a lamp whose light at its volts nobody knows and that may give some at
// the point: how it was drawn, and between what its light lies, in per cent of that at
// nominal volts.
type LuxDoubt struct {
	ID    string   `json:"id"`
	Tag   string   `json:"tag"`
	Volts *float64 `json:"volts"` // null where there are no steady ones
	Why   string   `json:"why"`
	Drawn float64  `json:"drawn_percent"`
	Least float64  `json:"least_percent"`
	Most  float64  `json:"most_percent"`

	words string
}

// doubt enters between what the light at the point lies.
func (r *LuxReport) doubt(n *layout.Night, at light.Vec, round func(float64) float64) {
	least, most, doubts := n.Bounds(at, light.Up, n.Scene.At(at, light.Up))
	r.Least, r.Most, r.Doubts = round(float64(least)), round(float64(most)), []LuxDoubt{}
	for _, u := range doubts {
		percent := func(v float64) float64 { return math.Round(1e4*v) / 100 }
		d := LuxDoubt{ID: string(u.Lamp.ID), Tag: u.Lamp.Tag, Why: u.Why, Drawn: percent(u.Drawn), Least: percent(u.Least), Most: percent(u.Most), words: u.Words()}
		if u.Volts.Known {
			v := math.Round(float64(u.Volts.Value)*1e3) / 1e3
			d.Volts = &v
		}
		r.Doubts = append(r.Doubts, d)
	}
}

// doubtText writes that for reading.
func (r *LuxReport) doubtText(w io.Writer) {
	for _, d := range r.Doubts {
		fmt.Fprintf(w, "  %s: %s\n", d.Tag, d.words)
	}
	if len(r.Doubts) > 0 {
		fmt.Fprintf(w, "  so that here may be %s to %s\n", luxText(r.Least), luxText(r.Most))
	}
}

func luxText(v float64) string { return fmt.Sprintf("%.2f lx", v) }
