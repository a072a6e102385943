// Package doc is the plan as a value: the immutable Scheme with its entities.
// A Scheme and everything it points to is never changed after it has been
// made; an edit makes a new Scheme that shares what stays the same. Nothing
// here is derived: lengths, circuits and findings are computed elsewhere.
package doc

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// ID names an entity for ever. New entities get a random UUID (see NewID);
// a hand-written file may use any short word.
type ID string

// Scheme is the whole document.
type Scheme struct {
	Title    string
	Author   string
	Rules    string // key of the rule set, "uk-18"
	Country  string // "England", "Wales", ...: decides which notification prompt is shown
	Survey   Survey
	Plan     Plan
	Supplies Set[*Supply]
	Boxes    Set[*Box]
	Lamps    Set[*Lamp]
	Gear     Set[*Gear]
	Sources  Set[*Source]
	Runs     Set[*Run]
	Zones    Set[*Zone]
	Areas    Set[*Area]
	Lines    Set[*Line]
	Marks    Set[*Mark]
	// Dimensions measure the plan and take no part in the circuit.
	Dimensions Set[*Dimension]
	// Decisions are the recorded overrules, oldest first.
	Decisions []Decision
	// Visits are the days of testing with what was read, oldest first.
	Visits []Visit
	// Issue is the design as it was handed to the site; nil before.
	Issue *Issue
	// Stock holds stock items that travel with this scheme; they come before
	// the shipped stock book.
	Stock Stock
	// StockText is the stock section of the file that Stock was read from, as
	// written back. A scheme with Stock needs it to be saved.
	StockText string
	// Lights are the fittings whose light comes from a photometric file.
	Lights []LightFile
	// Eyes are the points that somebody looks from at night.
	Eyes []Eye
	// Prices say how the user buys cable, List what is asked for the rest.
	Prices  []Price
	List    PriceList
	Running Running
}

// Survey holds the site conditions; unknown ones are taken from the rule
// set's reference conditions and reported as assumed.
type Survey struct {
	Air, Ground q.Maybe[q.Kelvin]
	Soil        q.Maybe[q.KelvinMetrePerWatt]
	Conductor   q.Maybe[q.Kelvin] // known: volt drop at this conductor temperature
	Test        q.Maybe[q.Kelvin] // ambient for expected cold readings
	Waste       q.Maybe[Ratio]    // known: replaces the cutting allowance of every cable
	// Maintenance is the factor for age and dirt of lamps, MaintenanceGround that of
	// lamps let into the ground; see Ages.
	Maintenance, MaintenanceGround q.Maybe[Ratio]
	LightZone                      string // environmental zone, one of LightZones; "" not said
	Curfew                         Off    // not set: that of the rule set; never dawn
}

// Factors for age and dirt where the survey says nothing: the usual default, and one
// for lamps let into the ground, which soil fastest (from memory; CIE 154 has the
// method).
const (
	UsualMaintenance  = 0.8
	GroundMaintenance = 0.7
)

// Ages returns the factors for age and dirt: of lamps, and of those let into the
// ground, which is not above the other one unless somebody says so.
func (s *Survey) Ages() (lamps, ground float64) {
	lamps = float64(s.Maintenance.Or(UsualMaintenance))
	return lamps, float64(s.MaintenanceGround.Or(Ratio(min(lamps, GroundMaintenance))))
}

// Ratio is a plain number such as 0.05 for 5 %.
type Ratio float64

// Plan holds how the drawing is laid out on paper.
type Plan struct {
	Scale int         // denominator: 50 for 1:50
	Grid  geom.Length // spacing of the snap grid
	// North is where north lies, degrees clockwise from up the sheet.
	North q.Maybe[float64]
	// Checked says that a known dimension was compared with the drawing.
	Checked bool
	// Underlay is the picture that the plan is drawn over.
	Underlay Underlay
}

// Place is where a point entity stands.
type Place struct {
	At     geom.Point
	Height geom.Length // above ground at that place
}

// Supply is the supply point: where the garden takes its power.
type Supply struct {
	ID    ID
	Tag   string
	Place Place
	Spur  bool // fused connection unit on an existing circuit; otherwise its own way

	Nominal      q.Volt
	Earthing     network.Earthing
	Ze           q.Maybe[q.Ohm]
	Electrode    q.Maybe[q.Ohm]
	MeasuredZs   q.Maybe[q.Ohm]
	FaultCurrent q.Maybe[q.Ampere]
	ExistingLoad q.Maybe[q.Ampere]
	Leakage      q.Maybe[q.Ampere]
	// OtherCircuits are further circuits behind the same RCD, and Shares what
	// else would go off with it, "freezer"; "" not said.
	OtherCircuits q.Maybe[q.Count]
	Shares        string
	// Switched says that the spur unit has a two-pole switch.
	Switched bool

	Upstream string // stock key of the device at the board, "b16-rcbo-30a"
	Residual string // stock key of a separate RCD ahead of it, "" for none
	Fuse     string // stock key of the spur unit's fuse, "" for none
	Indoor   Indoor
	Lock     bool // see Locked
}

// Indoor is the cable from the board to the supply point.
type Indoor struct {
	Cable  string // stock key; "" when unknown
	Length q.Maybe[q.Metre]
	Method string // reference method, "100", "C" ...
}

// Box is a junction box.
type Box struct {
	ID    ID
	Tag   string
	Place Place
	Stock string
	Fill  string // one of BoxFills; "" not said
	// Hidden says that it lies below ground or paving without a hatch.
	Hidden     bool
	TopEntries int  // entries in the top
	Open       int  // entries neither used nor blanked
	Unlinked   bool // armours not linked with each other in a plastic box
	Lock       bool // see Locked
}

// Lamp is a luminaire as placed.
type Lamp struct {
	ID    ID
	Tag   string
	Place Place
	Stock string
	Zone  ID // "" for none
	// Aim is where the beam points on the plan, in degrees clockwise from up the
	// sheet; Tilt is how far it points above the horizon, 90 straight up, -90
	// straight down. Both 0 says that the lamp is not aimed yet. Spin turns the
	// lamp about the axis of its beam, clockwise as seen from behind it.
	Aim, Tilt, Spin float64
	Lock            bool // see Locked
	// Length of a strip cut to length; unknown takes the stock item's.
	Length q.Maybe[q.Metre]
}

// Gear is an isolator, fused unit, receiver, photocell, switch or RCD.
type Gear struct {
	ID    ID
	Tag   string
	Place Place
	Stock string
	// Aim is where a movement sensor looks on the plan, in degrees clockwise from
	// up the sheet; 0 says that it is not aimed yet, 360 that it looks straight up.
	Aim  float64
	Lock bool // see Locked
}

// Source is a 12 V or 24 V transformer or driver.
type Source struct {
	ID    ID
	Tag   string
	Place Place
	Stock string
	Lock  bool // see Locked
}

// Side says which side of a source, or which end of a strip, a run is joined to.
type Side int

const (
	AnySide Side = iota // not a source
	Primary
	Secondary
	FarEnd // of a strip lamp; its near end is AnySide
)

// End is one end of a run: on an entity, or in the air at a point.
type End struct {
	On   ID
	Side Side       // when On is a source or a strip
	At   geom.Point // when On is ""
	// Tail is the length left for terminating; unknown takes the rule of
	// thumb for what stands there.
	Tail q.Maybe[q.Metre]
	// Gland of the armour, one of Glands; "" not said: outdoors a sealed one.
	Gland string
	// Untagged says that the armour has no earth tag or nut here. One is
	// fitted by design.
	Untagged bool
}

// Leg is one stretch of a run, from the end of the leg before it.
type Leg struct {
	To      geom.Point // ignored for the last leg, which ends at Run.To
	Support network.Support
	Depth   geom.Length // below ground, for buried and ducted legs
	// Height above ground, for legs that are clipped or on a structure.
	Height geom.Length
	Method string // reference method; "" follows from the support
	Group  int    // circuits touching; 0 means alone
	// NoTape says that nothing marks the cable above it. Marker tape or covers
	// are laid by design.
	NoTape bool
	Sleeve bool // in conduit of its own where the leg needs it
	// Hole is the fall of the hole where the leg passes a wall, one of Holes;
	// "" when nobody said.
	Hole string
}

// Run is one cable between two points.
type Run struct {
	ID       ID
	Tag      string
	Cable    string // stock key; "" when not chosen
	From, To End
	Legs     []Leg   // at least one
	Slack    q.Metre // extra left on purpose, a coil at a movable lamp
	Waste    q.Maybe[Ratio]
	// Cut is the as-cut length once it was measured; unknown until then.
	Cut q.Maybe[q.Metre]
	// With is the run in whose cable this one has its cores; "" for a cable of
	// its own.
	With ID
	Lock bool // see Locked
}

// Zone is a set of lamps switched together.
type Zone struct {
	ID     ID
	Tag    string
	Name   string
	Number int
	Colour string // key of the palette
	// Control is the gear that switches the zone, "" not said.
	Control ID
	Dimmed  bool
	Off     Off  // when its lamps go out; not set: nobody said
	Lock    bool // see Locked
}

// Area is a piece of ground: building, paving, lawn, water ...
type Area struct {
	ID       ID
	Tag      string
	Kind     string // one of AreaKinds
	Name     string
	Ring     []geom.Point
	DigDepth geom.Length // foreseeable digging; 0 for none
	Height   geom.Length // of a building or deck
	Low      bool        // a hollow: water stands here after rain
	Use      string      // one of LightUses; "" follows from the kind, see UseOf
	Lock     bool        // see Locked
}

// Line is a wall, fence, boundary or buried service.
type Line struct {
	ID     ID
	Tag    string
	Kind   string // one of LineKinds
	Name   string
	Path   []geom.Point
	Height geom.Length
	Owner  string // "own", "neighbour", ""
	Use    string // as of an Area
	Lock   bool   // see Locked
}

// Mark is a point of the ground: tree, window, seat, metalwork, door.
type Mark struct {
	ID     ID
	Tag    string
	Kind   string // one of MarkKinds
	Name   string
	Place  Place
	Radius geom.Length // trunk of a tree, reach of a seat
	Crown  geom.Length // crown radius of a tree
	// The crown reaches from CrownBase to CrownTop above ground and lets CrownPass
	// of the light through. A top of 0 is not said.
	CrownBase, CrownTop geom.Length
	CrownPass           q.Maybe[Ratio]
	Owner               string // of a window: one of LineOwners, "" not said
	Lock                bool   // see Locked
}

// Decision is a recorded overrule of one finding.
type Decision struct {
	Code    string // finding code
	Subject ID     // entity the finding is about; "" for the whole scheme
	By, On  string
	Reason  string
}

// Kinds of ground that a file may hold.
var (
	AreaKinds = []string{"building", "paving", "lawn", "border", "dug bed", "deck", "gravel", "drive", "water"}
	LineKinds = []string{"wall", "fence", "boundary", "buried service", "step", "pergola"}
	MarkKinds = []string{"tree", "window", "seat", "metalwork", "door"}
)

// BoxFills are what a box may be filled with; unknown is "".
var BoxFills = []string{"none", "gel", "resin"}

// Holes are the falls a hole through a wall may have.
var Holes = []string{"out", "in"}

// Glands are the types of gland for armour (BS 6121, BS EN 62444): without an
// outer seal, with one, and with one on the inner bedding too.
var Glands = []string{"BW", "CW", "E1W"}

// LineOwners are whose a wall or fence may be; unknown is "".
var LineOwners = []string{"own", "neighbour"}

// LightUses are what ground may be used for at night; none asks for no light.
var LightUses = []string{"path", "steps", "patio", "entrance", "drive", "none"}

// LightZones are the environmental zones of CIE 150, from the darkest.
var LightZones = []string{"E0", "E1", "E2", "E3", "E4"}

// ZoneColours are the keys of the zone palette.
var ZoneColours = []string{"amber", "blue", "green", "violet", "red", "grey"}
