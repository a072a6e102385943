package ui

import (
	"context"
	"io"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/output"
)

// saveNight asks for a place and writes the night picture there, with the plan and the
// lines of lux over it: after curfew when that is what is looked at.
func (w *Window) saveNight() {
	w.settle()
	as := output.Dusk{Contours: true, AfterCurfew: w.dusk.after}
	w.exportSlow("night", []string{".png"}, func(ctx context.Context, report Report, out io.Writer, _ string, f *layout.Frame, _ *check.Rules, _ string) error {
		report(-1, "working out the light")
		_, err := output.DuskOf(ctx, out, f, as)
		return err
	})
}

// saveStanding does so with what is seen from an eye point: the one looked from, or
// the first of the scheme.
func (w *Window) saveStanding() {
	w.settle()
	as := output.Dusk{AfterCurfew: w.dusk.after}
	eye, shown := w.standing.eye, w.standing.on
	if !shown {
		if eyes := w.desk.Frame().Scheme.Eyes; len(eyes) > 0 {
			eye = eyes[0]
		} else {
			eye = layout.UsualEye(w.desk.Frame().Scheme)
		}
	}
	w.exportSlow("view", []string{".png"}, func(ctx context.Context, report Report, out io.Writer, _ string, f *layout.Frame, _ *check.Rules, _ string) error {
		report(-1, "working out the light")
		_, err := output.StandingOf(ctx, out, f, eye, as)
		return err
	})
}
