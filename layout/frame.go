// Package layout joins the plan to the calculation: the Desk keeps the scheme
// and its history, derives the circuits that an edit touched, evaluates them
// and publishes one immutable Frame.
package layout

import (
	"duskwire/calc"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// Frame is one published state of everything. It is immutable; board and
// panels compare it with the last one and redraw the least.
type Frame struct {
	Seq      uint64
	Scheme   *doc.Scheme
	Stock    *doc.Stock // shipped stock under the scheme's own
	Circuits *derive.Circuits
	Results  []*calc.Result // one per circuit
	Drums    []CablePlan    // out of which coils the cut list comes
	Findings []finding.Finding
	Totals   Totals
	Preview  bool // a gesture is on; the scheme is not committed
	// Behind says that circuits and all that follows from them are of an earlier move
	// of the gesture, or of the scheme before a large edit; a worker has yet to find
	// those of this one.
	Behind bool
	// LightBehind says that the findings of light are of an earlier scheme and that
	// a worker has yet to find those of this one.
	LightBehind bool
	// DrumsBehind says that plans of long cut lists are of an earlier cut list, or
	// empty, and that a worker has yet to plan those of this one.
	DrumsBehind bool
	Unsaved     bool   // differs from the file
	Undo        string // name of the step undo would take back, "" for none
	Redo        string
	Path        string  // file, "" for none
	Under       *Under  // picture under the plan as it was read; nil without one, or before
	Lights      *Lights // photometric files as they were read; nil without any, or before

	of     *doc.Scheme    // that the circuits were derived from: Scheme, unless Behind
	worked []*calc.Worked // one per circuit, that Results come from
}

// Totals are the running totals of the whole scheme.
type Totals struct {
	Lamps     int
	Load      q.Watt
	Standby   q.Watt  // of control gear, as far as it is known; not in Load
	Unsaid    int     // control gear whose standby is not known
	Cable     q.Metre // sum of cut lengths
	WorstDrop float64
	DropAt    string
	WorstLoop q.Ohm
	LoopAt    string
	Stop      int
	Decide    int
	Note      int
}
