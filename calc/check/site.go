package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// SiteLimits are the limits of the ground: depths, distances, heights. A limit
// of 0 is one that the rule set does not have; its rule then says nothing.
// Lengths in metres, voltages in volts, IP codes as the number after IP.
type SiteLimits struct {
	DepthLeast   Limit // 0.45 m anywhere
	DepthAdvised Limit // 0.50 m anywhere, below it a Note
	DepthWorked  Limit // 0.60 m in beds and under drives
	DigClear     Limit // 0.10 m kept below where people dig
	LowDepth     Limit // 0.15 m for extra-low voltage
	RootClear    Limit // 1.0 m from the bark that nothing is dug
	HandDig      Limit // 4 girths from the bark that is dug by hand
	TreeSlack    Limit // 0.9 m left at a lamp in a tree
	ServiceClear Limit // 0.5 m about a buried service
	PondZone     Limit // 2.0 m from the edge of water
	PondHeight   Limit // 2.5 m up
	PondVolts    Limit // 12 V alternating in water
	PondDirect   Limit // 30 V direct in water
	FenceReach   Limit // 0.15 m at which a leg counts as fixed to a fence
	PostReach    Limit // 0.20 m from a fence line that a post hole takes
	PostDepth    Limit // 0.60 m that a post hole goes down
	LowSupport   Limit // 0.30 m above a mown edge
	MownReach    Limit // 0.20 m beside a mown edge
	OutdoorIP    Limit // 44
	GroundIP     Limit // 67
	WaterIP      Limit // 68
	GroundLevel  Limit // 0.05 m above ground that still counts as in it
	SeatReach    Limit // 5 m from a lamp to a seat
	WindowReach  Limit // 20 m from a lamp to a window
	WhiteSpread  Limit // 300 K between lamps of a zone
	MovableSlack Limit // 0.5 m at a lamp on a spike
	// DrainDepth and DrainWidth are of the hole beneath a lamp in the ground.
	DrainDepth    Limit // 0.3 m
	DrainWidth    Limit // 0.2 m
	FestoonHeight Limit // 2.4 m under a festoon
	SensorReach   Limit // 10 m taken for a sensor that does not say how far it sees
	ExtraLow      Limit // 50 V, above it the rules for cables in the ground hold
}

// SupportRow is the greatest distance between supports of a cable up to a
// diameter.
type SupportRow struct {
	UpTo     q.Metre // overall diameter
	Armoured bool
	Along    q.Metre // horizontal
	Upright  q.Metre
	Source   finding.Source
}
