package network

import q "duskwire/calc/quantity"

// Answer is a yes or no that nobody may have given yet.
type Answer int

const (
	Unsaid Answer = iota
	Yes
	No
)

// String returns the word of the file, "" when nobody has said.
func (a Answer) String() string { return [...]string{"", "yes", "no"}[a] }

// Fitting is what the supply has to know of a lamp or a source beside its
// load. Lamps of one stock item share one value.
type Fitting struct {
	Leakage    q.Ampere // standing leakage to earth on the mains; 0 unknown
	Inrush     q.Ampere // peak of the current when it is switched on; 0 unknown
	InrushTime q.Second // how long that stays above half of the peak; 0 unknown
	Dimmable   Answer
	Lampholder Answer    // takes a lamp in a holder of the bayonet or screw kind
	Metal      Answer    // of the body
	Flux       q.Lumen   // 0 unknown
	Beam       float64   // degrees; 0 unknown
	Peak       q.Candela // greatest intensity; 0 unknown
	Drive      q.Ampere  // current that a lamp for constant current is made for; 0 for one that takes volts
}

// Kinds of gear that switch what is behind them by themselves or by radio.
const (
	Isolator   = "isolator"
	FusedUnit  = "fused unit"
	Receiver   = "receiver"
	Photocell  = "photocell"
	TimeSwitch = "time switch"
	Sensor     = "sensor"
	Dimmer     = "dimmer"
)

// Gear is what the plan knows about control and isolating gear. What the maker
// has not said is unknown.
type Gear struct {
	Kind      string
	Rating    q.Maybe[q.Ampere] // for resistive load
	LEDWatts  q.Maybe[q.Watt]   // most LED load
	LEDLamps  q.Maybe[q.Count]  // most LED lamps or drivers
	DimMin    q.Maybe[q.Watt]   // least and most load of a dimmer
	DimMax    q.Maybe[q.Watt]
	Standby   q.Maybe[q.Watt]
	Threshold q.Maybe[q.Lux] // a photocell switches on below it
	Range     q.Metre        // that a movement sensor sees; 0 unknown
	Sector    float64        // degrees of its field; 0 unknown
	Aimed     bool           // the plan says where it looks
	Metal     bool           // metal enclosure
	Switching bool           // opens all live conductors: usable for isolation
}

// Controls reports whether the gear switches lamps in use, and not only for
// isolation.
func (g *Gear) Controls() bool {
	switch g.Kind {
	case Receiver, Photocell, TimeSwitch, Sensor, Dimmer:
		return true
	}
	return false
}

// Dims reports whether the gear is known to dim.
func (g *Gear) Dims() bool { return g.Kind == Dimmer || g.DimMin.Known || g.DimMax.Known }

// LampZone is a set of lamps of one circuit that are switched together.
type LampZone struct {
	ID, Label string
	Name      string
	Lamps     []int // nodes, in node order
	Named     bool  // the plan says what switches it
	Apart     bool  // further lamps of the zone hang on other circuits, or on none
	Control   int   // node of the gear that switches it; -1 none, or not in this circuit
	Dimmed    bool
}

// Title returns the name of the zone, or its label when it has none.
func (z *LampZone) Title() string {
	if z.Name == "" {
		return z.Label
	}
	return z.Name
}
