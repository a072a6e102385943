package network

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Near is a thing of the plan and how far off it is, in metres along the
// ground.
type Near struct {
	Subject  finding.Subject
	Distance q.Metre
	Owner    string // "own", "neighbour", "" not known: of fences, walls, boundaries
}

// Eye is a seat or a window that the beam of a lamp may reach.
type Eye struct {
	Near
	Window bool
	Off    float64 // angle between the beam's axis and the line to the eye, degrees
	Half   float64 // angle from the axis at which the beam ends on that side, degrees
	Height q.Metre // of the eye above ground
	// Assumed says that the height of a window was not drawn.
	Assumed bool
}

// Place is what the plan says about where a node stands. It is never changed
// once made; circuits share it. A node without one was not drawn.
type Place struct {
	Ground string // kind of the area drawn last over the place, "lawn"; "" for none
	Area   finding.Subject
	// Low says that the plan marks the ground as a low place where water stands.
	Low     bool
	InWater bool  // over water and not above its surface
	Water   *Near // edge of the nearest water, nil for none within 30 m
	// Metals is the metalwork within 5 m, the nearest first.
	Metals []Near
	// The nearest boundary and window within 30 m; nil for none.
	Boundary, Window *Near
	Mown             *Near // edge of the nearest lawn within 1 m, 0 on it; nil for none
	// Seen is the nearest place of a boundary in the field of a movement sensor,
	// of one that is not aimed the nearest of all, within 30 m; nil for none.
	Seen *Near
	// Eyes are the seats and windows within 30 m of a lamp whose aim and beam
	// are known.
	Eyes []Eye
}

// Stretch is a piece of one leg over one kind of ground.
type Stretch struct {
	Leg    int    // index in Branch.Legs
	Ground string // kind of the area drawn last, "" for none
	Area   finding.Subject
	Length q.Metre // on the plan
	Dig    q.Metre // foreseeable digging there; 0 for none
	// Usual says that nobody gave Dig: what is usual for the kind of ground was taken.
	Usual bool
}

// CrossingKind says what a leg meets.
type CrossingKind int

const (
	// CrossService is a buried service under a dug leg.
	CrossService CrossingKind = iota
	// CrossRun is another run that is dug in too.
	CrossRun
	// CrossWall is a wall, or the outside of a building, that a leg passes.
	CrossWall
)

// Crossing is a place where a leg meets something.
type Crossing struct {
	Kind     CrossingKind
	Leg      int
	Subject  finding.Subject
	Distance q.Metre // 0 where it crosses; else how near a service is passed
	Depth    q.Metre // of the other run
	Mains    bool    // the other run's cable is one for mains
	House    bool    // the wall is that of a building
}

// Roots is a tree near a leg that has to be dug.
type Roots struct {
	Leg     int
	Subject finding.Subject
	Bark    q.Metre // from the leg to the bark; to the centre when the girth is unknown
	Girth   q.Metre // of the trunk, 2π·radius; 0 unknown
	// Length is how much of the leg lies where roots ask for digging by hand.
	Length q.Metre
}

// BesideKind says what a leg runs along.
type BesideKind int

const (
	BesideFence BesideKind = iota
	BesideWall
	BesideMown  // a lawn or its edge
	BesidePosts // a fence whose posts are dug in beside a leg in the ground
)

// Beside is a fence, wall or lawn that a leg runs along.
type Beside struct {
	Kind     BesideKind
	Leg      int
	Subject  finding.Subject
	Owner    string  // "own", "neighbour", "" not known
	Length   q.Metre // of the leg, within reach
	Distance q.Metre // the least; 0 on the lawn
}

// Route is what the plan says about the way of a run. It is never changed once
// made; circuits share it. All lists follow the run from its start as drawn.
type Route struct {
	Stretches []Stretch
	Crossings []Crossing
	Roots     []Roots
	Beside    []Beside
}
