package doc

import "duskwire/layout/geom"

// What a new piece of ground starts with until somebody measures it. All of it
// can be changed under Properties.

// usualDig is how deep people dig or drive something into an area of the kind;
// kinds not named here are not dug. Sources: lawn, spiking with a fork or
// hollow tines 75 to 100 mm, the deeper taken (from memory); border, one spit,
// the blade of a digging spade, about 250 mm (gardening advice: "single
// digging is one spit deep"); dug bed, double digging, two spits, about 450 mm
// (the same, and why 450 mm is quoted for cables).
var usualDig = map[string]geom.Length{
	"lawn":    100 * geom.Millimetre,
	"border":  250 * geom.Millimetre,
	"dug bed": 450 * geom.Millimetre,
}

// usualHeight is how high areas and lines of the kind stand above ground:
// fence panels and garden walls about 1.8 m, a pergola so that one walks under
// it, a deck one joist up, a step one riser (common practice, no source). A
// building, which differs most, is left to be measured.
var usualHeight = map[string]geom.Length{
	"wall":    1800 * geom.Millimetre,
	"fence":   1800 * geom.Millimetre,
	"pergola": 2300 * geom.Millimetre,
	"step":    150 * geom.Millimetre,
	"deck":    150 * geom.Millimetre,
}

// Radii of trunk and crown of a small garden tree (common practice, no
// source). TRE-01 measures from the bark, so a trunk that was measured
// replaces it.
const (
	usualTrunk = 150 * geom.Millimetre
	usualCrown = 1500 * geom.Millimetre
)

// UsualArea returns a new area of the kind with its usual digging depth and
// height, without id and ring.
func UsualArea(kind string) Area {
	return Area{Kind: kind, DigDepth: usualDig[kind], Height: usualHeight[kind]}
}

// UsualLine returns a new line of the kind with its usual height, without id
// and path. Whose it is stays open.
func UsualLine(kind string) Line {
	return Line{Kind: kind, Height: usualHeight[kind]}
}

// UsualMark returns a new mark of the kind, without id and place. The height of
// a window stays 0, not said: rules that need it then assume one and say so.
func UsualMark(kind string) Mark {
	m := Mark{Kind: kind}
	if kind == "tree" {
		m.Radius, m.Crown = usualTrunk, usualCrown
	}
	return m
}

// HasHeight reports whether the height of areas and lines of the kind means
// something: what lies flat or in the ground has none.
func HasHeight(kind string) bool {
	switch kind {
	case "building", "deck", "wall", "fence", "step", "pergola":
		return true
	}
	return false
}

// usualUse is what ground of a kind is used for at night (common practice, no
// source).
var usualUse = map[string]string{"paving": "path", "gravel": "path", "deck": "patio", "drive": "drive", "step": "steps"}

// UseOf returns what ground of the kind is used for at night: as it was said,
// else what follows from the kind; "none" for what needs no light.
func UseOf(kind, said string) string {
	if said != "" {
		return said
	}
	if use := usualUse[kind]; use != "" {
		return use
	}
	return "none"
}
