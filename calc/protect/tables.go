// Package protect proves automatic disconnection: what current opens a device
// in time, what loop the circuit offers at each point, how long the fault
// lasts and whether the conductors stand it.
package protect

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Tables are the protection tables of one rule set.
type Tables struct {
	Cmin, Cmax   float64 // voltage factors, 0.95 and 1.10
	CminSource   finding.Source
	Multiples    []Multiple     // breaker curves: B 5, C 10, D 20 times In
	Fuses        []FuseRow      // tabulated maximum loop impedance of fuses
	Nominal      q.Volt         // Uo that the rows of Fuses are printed for
	Times        []Time         // disconnection times of final circuits
	Residual     []ResidualTime // residual device trip times
	Energy       []EnergyRow    // class 3 let-through limits of breakers
	Conventional []Conventional // what a device holds and opens at in the long run
	Points       []Point        // time-current limits where a source has them
	K            []KRow         // adiabatic constants
	Touch        q.Volt         // 50 V
	TouchSource  finding.Source
	Cold         float64 // 0.8: measured cold loop against the tabulated one
	ColdSource   finding.Source
	Armour       float64 // 1.1: multiplier on armour resistance in a loop
	ArmourSource finding.Source
	Electrode    q.Ohm // 200 Ω stability guide
	ElectSource  finding.Source
}

// Multiple is the instantaneous band of a breaker, in multiples of its rating.
type Multiple struct {
	Curve string
	Times float64 // upper end: from here on it opens within Time
	// Least is the lower end: below it a breaker does not open at once. 0 when
	// the rule set does not say.
	Least float64
	// Time is the longest operating time at or above that current, 0.1 s.
	Time   q.Second
	Source finding.Source
}

// FuseRow is the tabulated maximum loop impedance of one fuse.
type FuseRow struct {
	Kind   network.DeviceKind
	Rating q.Ampere
	Time   q.Second
	Zs     q.Ohm
	Source finding.Source
}

// Time is the longest disconnection time of a final circuit, and of a larger one.
type Time struct {
	Earthing network.Earthing
	Final    q.Second
	Source   finding.Source
	// Above is the rating up to which Final holds for a circuit of fixed
	// equipment alone; beyond it Larger does. 0 when the table has no such row.
	Above        q.Ampere
	Larger       q.Second
	LargerSource finding.Source
}

// ResidualTime is the longest trip time at a multiple of IΔn.
type ResidualTime struct {
	Delayed  bool
	Multiple float64
	Longest  q.Second
	Source   finding.Source
}

// EnergyRow is the let-through limit of an energy-limiting breaker.
type EnergyRow struct {
	Curve    string
	UpTo     q.Ampere // largest In the row is for
	Breaking q.Ampere // Icn; 0 for any
	// Within is the largest prospective current that the row speaks of; 0 when
	// that is Icn.
	Within q.Ampere
	Energy q.AmpereSquaredSecond
	Source finding.Source
}

// KRow is one adiabatic constant in A·s^½/mm².
type KRow struct {
	Part   string // "core", "armour"
	Key    string // insulation key
	K      float64
	Source finding.Source
}

// Conventional holds the currents that a kind of device carries and opens at
// within its conventional time, in multiples of the rating.
type Conventional struct {
	Kind         network.DeviceKind // Breaker stands for RCBO too
	Holds, Opens float64
	Time         q.Second
	Source       finding.Source
}

// Point is one time-current limit of a device: at the current it takes no less
// than Least and no more than Longest.
type Point struct {
	Kind    network.DeviceKind
	Rating  q.Ampere
	Current q.Ampere
	Least   q.Second // 0 when the source gives none
	Longest q.Second
	Source  finding.Source
}
