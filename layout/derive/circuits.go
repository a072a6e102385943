// Package derive turns the drawing into circuits: measured lengths, nodes,
// branches and the maps between entities and nodes. It computes nothing
// electrical.
package derive

import (
	"duskwire/calc"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// Circuits is everything derived from one scheme.
type Circuits struct {
	Circuits []Circuit
	// Lengths has one entry for every run, in run order.
	Lengths []Length
	// Loose holds the flaws of the drawing that belong to no circuit: lamps
	// joined to no supply, runs that end in the air, a missing supply point.
	// Its net has no nodes, only faults.
	Loose calc.Input

	points   *points
	shared   *census
	measured []*measured // per run
	ground   *ground
	laid     []*laid // per run
	stood    []stood // per point
	site     site
}

// Circuit is one supply point with all it feeds.
type Circuit struct {
	Supply doc.ID
	Input  calc.Input
	// Node of each entity reached; of a source its primary node, of a strip its
	// near end. Output has the secondary node of each source and the far end of
	// each strip.
	Node   map[doc.ID]int
	Output map[doc.ID]int
	Branch map[doc.ID]int // of each run

	walk *walk
}

// Length is the measured length of one run, piece by piece.
type Length struct {
	Run      doc.ID
	Tag      string
	From, To string // tags of what stands at the ends, "in the air" for none
	Cable    string // stock key
	Name     string // name of the cable
	Plan     q.Metre
	Rises    q.Metre
	Tails    q.Metre
	Slack    q.Metre
	Waste    float64
	Needed   q.Metre // (plan + rises + tails + slack)·(1 + waste), unrounded
	Cut      q.Metre // Needed rounded up to 0.5 m, or as cut
}

// Legs returns the legs of a run by its number in run order as they were
// measured: those that are drawn, then one for the rises if there are any. The
// caller does not change them.
func (c *Circuits) Legs(run int) []network.Leg { return c.measured[run].Legs }

// Tail returns the length left for terminating at an end, on is what stands
// there: what the run says, else the rule of thumb.
func Tail(e doc.End, on doc.Entity) q.Metre { return tail(e, on) }
