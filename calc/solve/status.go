// Package solve finds the voltages and currents of a circuit. Tree solves a
// radial net by backward and forward sweeps with complex phasors, Solve one
// with closed loops too; a voltage collapse is a result with a name, never a
// hang.
package solve

import q "duskwire/calc/quantity"

// State says how a solve ended.
type State int

const (
	Converged State = iota
	// Collapsed: the lamps ask for more power than the cables can carry; there
	// is no steady state. Figures are of the largest share of the loads that
	// has one (Status.Carried) and must not be shown as an answer.
	Collapsed
	// Unfinished: the sweep limit was reached while still moving.
	Unfinished
)

// String returns the state in a word.
func (s State) String() string {
	return [...]string{"converged", "voltage collapse", "unfinished"}[s]
}

// Status is the outcome of a solve with the node that was worst.
type Status struct {
	State    State
	Sweeps   int
	Worst    int     // node with the largest change in the last sweep, or the lowest one at the point of collapse
	Residual float64 // largest voltage change of the last sweep, as a fraction of its nominal
	// Carried is the share of every load that the figures belong to: 1 when
	// converged; after a collapse the largest share that has a steady state.
	Carried float64
}

// Solution holds the result per node and per branch, in the order of the net.
type Solution struct {
	Voltage []complex128 // node to neutral, V; DC systems have no imaginary part
	Current []complex128 // through the branch away from the supply, A; in a loop it may be against that; of a closing branch: from From to To; of a converter: its primary current
	Output  []complex128 // of a converter: its secondary current; 0 for cables
	Drop    []q.Volt     // per node: volts lost since the start of its own system (board or source), |U0|-|U|
	Power   []q.Watt     // per node: active power taken by its loads
	Status  Status
	// Balance of active power: Supplied = Used + Lost within the tolerance.
	Supplied, Used, Lost q.Watt
}
