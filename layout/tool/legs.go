package tool

import (
	"duskwire/calc/network"
	"duskwire/layout/edit"
)

// legRune turns the leg under the pointer with the keys 1 to 6, of a run that
// alone is selected; with the pointer elsewhere all its legs.
func (t selecting) legRune(e Event, w *World) (v Verdict, ok bool) {
	i := int(e.Rune - '1')
	if i < 0 || i >= len(edit.Supports) || len(w.Selection) != 1 {
		return v, false
	}
	r, ok := w.Scheme.Runs.Get(w.Selection[0])
	if !ok {
		return v, false
	}
	leg := -1
	if h := Pick(w.Scheme, e.At, e.Reach); h.ID == r.ID && h.Leg != NoVertex {
		leg = h.Leg
	}
	return Verdict{Commit: TurnLeg(t.set, w, leg, network.Support(i)), Hint: selectHint, Used: true}, true
}

// TurnLeg returns the operation that turns a leg of the selected run, or all
// with -1, into another support, at the depth and height that new legs get.
func TurnLeg(d *Defaults, w *World, leg int, to network.Support) edit.TurnLeg {
	return edit.TurnLeg{Run: w.Selection[0], Leg: leg, Support: to, Depth: d.Depth, Height: d.Height}
}
