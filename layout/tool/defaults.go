package tool

import (
	"unicode"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Defaults are the choices that the next thing drawn gets: stock keys, how a
// run is carried, and what a new supply point looks like. The tray and the
// properties panel set them; the tools hold a pointer and read them when a
// gesture starts.
type Defaults struct {
	Lamp, Box, Gear, Source string // stock keys
	// Cable is the stock key of a new run; LowCable that of a run on the
	// output of a source, "" for the same.
	Cable, LowCable string
	Support         network.Support
	Depth           geom.Length // of buried and ducted legs
	Height          geom.Length // of clipped legs and legs on a structure
	// Supply is the pattern of a new supply point; its id, tag and place are
	// filled in.
	Supply doc.Supply
	Ground Ground
	// Series is how the next row or arc of lamps is spaced.
	Series Series
	// NewID makes the ids of new entities; nil means doc.NewID. It is called
	// once an entity, when its gesture starts, so that a preview and what is
	// committed are the same entity.
	NewID func() doc.ID
}

// NewDefaults returns the choices that a new window starts with; keys are of
// the shipped stock book. What only a survey can tell stays unknown.
func NewDefaults() *Defaults {
	return &Defaults{
		Lamp: "brick-3w", Box: "box-85", Gear: "isolator-20", Source: "src-12dc-60",
		Cable: "swa-3x1.5", LowCable: "elv-2x2.5",
		Support: network.Buried, Depth: 600 * geom.Millimetre,
		Height: 300 * geom.Millimetre,
		Supply: doc.Supply{
			Nominal: 230, Spur: true, Fuse: "fuse-3",
			Place: doc.Place{Height: 450 * geom.Millimetre},
		},
		Ground: NewGround(),
	}
}

func (d *Defaults) id() doc.ID {
	if d.NewID != nil {
		return d.NewID()
	}
	return doc.NewID()
}

// leg returns a new leg that ends at a point and is carried as the defaults say.
func (d *Defaults) leg(to geom.Point) doc.Leg {
	l := doc.Leg{To: to, Support: d.Support}
	switch d.Support {
	case network.Buried, network.InDuct:
		l.Depth = d.Depth
	default:
		l.Height = d.Height
	}
	return l
}

// Names of the tools, as the tray shows them.
const (
	NameSelect    = "Select"
	NameRun       = "Run"
	NameSupply    = "Supply point"
	NameBox       = "Box"
	NameLamp      = "Lamp"
	NameGear      = "Gear"
	NameSource    = "Source"
	NameArea      = "Area"
	NameLine      = "Line"
	NameMark      = "Mark"
	NameDimension = "Dimension"
	NameRow       = "Row of lamps"
	NameArc       = "Arc of lamps"
	NameEye       = "Eye point"

	// Of the picture under the plan; in the menu Picture, not in the tray.
	NameScale       = "Scale picture"
	NameMovePicture = "Move picture"
)

// All returns a new tool of every kind, in the order of the tray.
func All(d *Defaults) []Tool {
	return []Tool{
		NewSelect(d), NewRun(d), NewSupply(d), NewBox(d), NewLamp(d), NewGear(d), NewSource(d),
		NewArea(d), NewLine(d), NewMark(d), NewDimension(d),
		NewRow(d), NewArc(d), NewEye(d),
		NewScale(d), NewMovePicture(d),
	}
}

// ByName returns a new tool with the name in the tray, or nil.
func ByName(d *Defaults, name string) Tool {
	for _, t := range All(d) {
		if t.Name() == name {
			return t
		}
	}
	return nil
}

// Letter returns the key that takes the tool with the name in hand, 0 for none.
func Letter(name string) rune {
	return map[string]rune{
		NameSelect: 'v', NameRun: 'r', NameSupply: 'p', NameBox: 'b',
		NameLamp: 'l', NameGear: 'g', NameSource: 's',
		NameArea: 'a', NameLine: 'w', NameMark: 't', NameDimension: 'd',
		NameRow: 'n', NameArc: 'c', NameEye: 'e',
		NameScale: 'u', NameMovePicture: 'm',
	}[name]
}

// ByLetter returns a new tool for the letter in either case, or nil.
func ByLetter(d *Defaults, letter rune) Tool {
	for _, t := range All(d) {
		if Letter(t.Name()) == unicode.ToLower(letter) {
			return t
		}
	}
	return nil
}
