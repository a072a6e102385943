package cable

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Applied is one factor as it was applied to a leg.
type Applied struct {
	Symbol string // "Ca", "Cg", "Ci", "Cs", "Cc"
	Value  float64
	Source finding.Source
	Note   string // "ground 20 °C", "2 circuits touching"
}

// Capacity is the corrected capacity of the leg that governs a run.
type Capacity struct {
	Iz        q.Ampere // corrected
	Tabulated q.Ampere
	Method    string
	Leg       int // index of the governing leg; -1 when the run has none
	Applied   []Applied
	Source    finding.Source // of the tabulated rating
	// Known is false when the table has no value for a method; Iz is then 0
	// and the run cannot be proved.
	Known bool
	// Missing says which method had no value.
	Missing string
}
