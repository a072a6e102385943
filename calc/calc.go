// Package calc evaluates one circuit: Evaluate takes the net, the rule set
// and the catalogue and returns every figure and finding. It is pure: no I/O,
// no clock, no state; the same input gives the same result, byte for byte.
package calc

import (
	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
)

// Input is one circuit to be proved.
type Input struct {
	Net     *network.Net
	Rules   *check.Rules
	Catalog []*network.Cable // cables that may be proposed
	Country string           // "England", ...: which notification prompt applies
}

// Point is the reading expected at one node.
type Point struct {
	ID, Label string
	Kind      network.NodeKind
	System    string // label of the voltage system
	Nominal   q.Volt
	Voltage   q.Volt
	Drop      q.Volt
	DropRatio float64  // Drop over nominal
	Current   q.Ampere // through the node: its load and all beyond it
	Loop      protect.Loop
	Limit     q.Maybe[q.Ohm] // largest loop allowed by the device; 80 % of it where the loop was measured cold
	Device    string         // label of that device
	Trusted   bool           // false when the solve did not converge
	// Light of a lamp at Voltage as a share of that at nominal voltage (see
	// network.Load.Light). Darkest is the light at the darkest place of a strip,
	// the same at both its ends.
	Light, Darkest q.Maybe[float64]
	// R1R2Test is R1+R2 from the supply point at the temperature of the test
	// (Site.Test): what the continuity test should read.
	R1R2Test q.Maybe[q.Ohm]
	// LoopTest is what a loop tester should read at that temperature.
	LoopTest q.Maybe[q.Ohm]
	// Expected is the voltage with every conductor as warm as its current makes
	// it; Voltage is the proof, with the temperature of the tables.
	Expected q.Maybe[q.Volt]
	// Drive is the current of the string that the point hangs on, 0 elsewhere. In
	// a string Voltage is at a lamp that across it, else that between the cores.
	Drive q.Ampere
}

// Run is the result for one cable run.
type Run struct {
	ID, Label string
	Cable     *network.Cable
	Length    q.Metre // electrical length
	Current   q.Ampere
	Capacity  cable.Capacity
	Proposal  Proposal
	Trusted   bool // false when the solve did not converge: Current is no answer
	// Operating is the temperature that the conductors reach with Current.
	Operating q.Maybe[q.Kelvin]
}

// Proposal is the smallest cable of the run's family that passes, the rest of
// the circuit staying as it is.
type Proposal struct {
	Cable *network.Cable // nil when no size passes
	Binds finding.Code   // the check that the next smaller size would fail, or that no size meets
	Why   string         // one sentence with the figure
}

// Result is everything known about one circuit.
type Result struct {
	Label    string
	Tree     *network.Tree
	Solution *solve.Solution
	Loops    []protect.Loop
	Capacity []cable.Capacity
	Points   []Point // in node order, board excepted
	Runs     []Run   // in branch order, cables with an id only
	Strings  []String
	Findings []finding.Finding
	Totals   Totals
}

// Totals are the sums shown along the bottom of the window.
type Totals struct {
	Lamps     int // a strip is one
	Load      q.Watt
	Supplied  q.Watt
	Standby   q.Watt  // of gear, as far as it is known; not in Load
	Unsaid    int     // control gear that does not say what it takes when off
	WorstDrop float64 // largest Drop/nominal at a lamp
	WorstAt   string  // label of that lamp
	WorstLoop float64 // largest Hot/Limit over the points with both
	LoopAt    string
	LoopOhm   q.Ohm
}
