// Package network describes one electrical circuit as nodes and branches:
// the supply, the cables with their legs, the protective devices, the
// extra-low-voltage sources and the lamps with the law each one obeys. It
// knows nothing of the drawing; ids and labels are carried along so that a
// finding can name what it is about.
//
// Invariants: a Net is never modified after it is built. Branches point away
// from the root (From is nearer the supply). Node and branch order is the
// order of output.
package network

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Earthing is the type of system earthing of the supply.
type Earthing int

const (
	// EarthingUnknown means the survey has not said.
	EarthingUnknown Earthing = iota
	TNS
	TNCS
	TT
)

// String returns the standard's name of the earthing type.
func (e Earthing) String() string {
	switch e {
	case TNS:
		return "TN-S"
	case TNCS:
		return "TN-C-S"
	case TT:
		return "TT"
	}
	return "unknown"
}

// Current says whether a system is alternating or direct.
type Current int

const (
	AC Current = iota
	DC
)

// String returns "AC" or "DC".
func (c Current) String() string {
	if c == DC {
		return "DC"
	}
	return "AC"
}

// SupplyKind says how the garden takes its power.
type SupplyKind int

const (
	// Spur is a fused connection unit on an existing circuit.
	Spur SupplyKind = iota
	// OwnWay is a new circuit from a way of its own at the board.
	OwnWay
)

// Supply is what the survey found at the place where the garden takes its
// power. Unknown values stay unknown and are reported as such.
type Supply struct {
	Nominal       q.Volt
	Earthing      Earthing
	Kind          SupplyKind
	Ze            q.Maybe[q.Ohm]    // external loop at the board; TN systems
	Electrode     q.Maybe[q.Ohm]    // RA of the local electrode; TT systems
	MeasuredZs    q.Maybe[q.Ohm]    // loop measured cold at the supply point itself
	FaultCurrent  q.Maybe[q.Ampere] // prospective fault current at the board
	ExistingLoad  q.Maybe[q.Ampere] // other load already on the circuit
	LeakageAmpere q.Maybe[q.Ampere] // standing leakage already on the RCD
	OtherCircuits q.Maybe[q.Count]  // further circuits behind the same RCD
	Shares        string            // what else would go off with it, "freezer"; "" not said
	Switched      bool              // the spur unit is known to have a two-pole switch
}

// Site holds the conditions that cables are rated for.
type Site struct {
	Air    q.Kelvin             // ambient air, table reference 30 °C
	Ground q.Kelvin             // ground, table reference 20 °C
	Soil   q.KelvinMetrePerWatt // soil resistivity, table reference 2.5 K·m/W
	// Conductor, when known, replaces the tabulated conductor temperature in
	// volt drop (not in fault loops, which always take the hot value).
	Conductor q.Maybe[q.Kelvin]
	// Test is the conductor temperature on the day of the dead tests.
	Test q.Kelvin
}

// NodeKind says what stands at a node.
type NodeKind int

const (
	BoardNode     NodeKind = iota // the consumer unit, root of the net
	SupplyNode                    // the supply point: spur unit or outgoing way
	BoxNode                       // junction box
	GearNode                      // isolator, fused unit, receiver, switch
	LampNode                      // lamp
	PrimaryNode                   // input side of a source
	SecondaryNode                 // output side of a source
	OpenNode                      // end of a run in the air
)

// Class is the protection class of equipment (IEC 61140).
type Class int

const (
	ClassUnknown Class = iota
	ClassI
	ClassII
	ClassIII
)

// String returns "I", "II", "III" or "unknown".
func (c Class) String() string {
	return [...]string{"unknown", "I", "II", "III"}[c]
}

// System is one voltage system of the net: the mains (index 0) or the output
// of one source.
type System struct {
	Label   string // "230 V mains", "S1 12 V DC"
	Nominal q.Volt
	Current Current
	SELV    bool // separated extra-low voltage: no earth-fault loop to prove
	// Drive is the current of a constant-current source's output, which is a
	// String; 0 where the source gives volts.
	Drive q.Ampere
}

// Node is one electrical point.
type Node struct {
	ID      string // entity of the plan; "" for the board
	Label   string // "L7"
	Kind    NodeKind
	System  int // index in Net.Systems
	Loads   []Load
	Devices []Device // act on everything beyond this node, upstream first
	Class   Class    // of the equipment at the node
	// Doubtful says that the node is fed through a flaw of the drawing which a
	// CIR finding stops: volts and currents computed here are no answer.
	Doubtful bool
	Tail     bool     // far end of a strip: the lamp is counted at its near end
	Place    *Place   // nil when the node was not drawn
	IP       string   // of the equipment at the node; "" unknown
	Form     string   // kind of lamp, "spike"; "" unknown
	White    q.Kelvin // colour temperature of the lamp; 0 unknown
	Height   q.Metre  // above ground
	Box      *Box     // of a BoxNode; nil when nothing is known about it
	// East and North of the plan's origin.
	East, North q.Metre
	Fitting     *Fitting // of a lamp or of the input side of a source; nil when nothing is known
	Gear        *Gear    // of a GearNode; nil when nothing is known
}

// Support says how one leg of a run is carried.
type Support int

const (
	Clipped Support = iota
	Buried
	InDuct
	OnStructure
	InTree
	Indoors
)

// Leg is a stretch of cable with one support and one installation method.
type Leg struct {
	Support Support
	Method  string // reference method of the ratings table: "C", "D", "100" ...
	Length  q.Metre
	Depth   q.Metre
	Group   int // circuits touching along this leg, itself included; 0 and 1 mean alone
	// Insulated is the length surrounded by thermal insulation (indoor legs).
	Insulated q.Metre
	Height    q.Metre // above ground, of legs that are not dug in
	NoTape    bool    // dug in without marker tape or covers above
	Sleeve    bool    // in a sleeve of its own: conduit over a short stretch
	// Hole is the fall of the hole where the leg passes a wall: "out", "in", or
	// "" when nobody said.
	Hole string
	// Rise marks the vertical steps of the run, which are not drawn. Loose is how
	// much of its length nothing holds: below ground, and up at a lamp that stands in
	// the ground.
	Rise  bool
	Loose q.Metre
}

// Dug reports whether the leg lies in the ground. A duct of no depth lies on
// it.
func (l *Leg) Dug() bool { return l.Support == Buried || l.Support == InDuct && l.Depth > 0 }

// Branch joins two nodes by a cable, or by the source when Converter is set.
type Branch struct {
	ID        string // run or source of the plan; "" for the indoor leg
	Label     string // "R3"
	From, To  int
	Cable     *Cable // nil for a converter
	Legs      []Leg
	Length    q.Metre // electrical length: installed length with its allowances
	Converter *Converter
	Strip     *Strip  // the branch is a strip between its own two ends; Cable is nil
	Route     *Route  // nil when the way was not drawn
	Slack     q.Metre // of Length, what is left as a coil
	// FromEnd and ToEnd say how the cable is finished.
	FromEnd, ToEnd End
	// Existing marks wiring that was there before: it adds drop and loop
	// impedance, but its own adequacy is not ours to prove.
	Existing bool
	// Sheath are the other runs whose cores lie in the same cable.
	Sheath []finding.Subject
}

// FaultKind says what is wrong with the drawing as a circuit.
type FaultKind int

const (
	LooseLamp      FaultKind = iota // connected to no supply
	LooseOther                      // box, gear or source connected to no supply
	OpenEnd                         // a run that ends in the air
	LoopClosed                      // a run that closes a loop
	WrongVoltage                    // lamp or source on a system it is not made for
	NoSupply                        // the drawing has no supply point
	SecondSupply                    // two supply points joined
	NoCable                         // run without a cable chosen
	NothingBeyond                   // run or box that feeds no lamp
	ScaleUnchecked                  // plan scale not confirmed by a check dimension
)

// Fault is one flaw of the drawing found while the net was derived.
type Fault struct {
	Kind    FaultKind
	Subject finding.Subject
	Also    []finding.Subject
	Detail  string // "12 V lamp on a 230 V circuit"
}

// Net is one circuit: everything reached from one supply point.
type Net struct {
	Label    string
	Supply   Supply
	Site     Site
	Systems  []System
	Nodes    []Node
	Branches []Branch
	Root     int
	Faults   []Fault
	Zones    []LampZone // of the lamps of this circuit, in the order of the plan
	// Assumed lists what the survey left open and what was taken instead, one
	// sentence each; findings that rest on it repeat it.
	Assumed []string
}
