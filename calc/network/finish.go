package network

import q "duskwire/calc/quantity"

// End is how one end of a cable is finished. The zero value is the design
// default: outdoors, a sealed gland and an earth tag on the armour.
type End struct {
	Gland    string  // "BW", "CW", "E1W"; "" not said
	Untagged bool    // no earth tag or nut on the armour at this end
	Support  Support // of the leg next to the end
	// Shared says that the run has its cores in the cable of another: the gland
	// and tag are that one's and count there.
	Shared bool
}

// Sealed is the gland taken where the plan does not say: it seals on the outer
// sheath. Source: BS 6121, BS EN 62444 (from memory).
const Sealed = "CW"

// Type returns the gland of the end, Sealed where the plan does not say.
func (e End) Type() string {
	if e.Gland == "" {
		return Sealed
	}
	return e.Gland
}

// Armoured reports whether the branch is a cable with metal armour.
func (b *Branch) Armoured() bool { return b.Cable != nil && b.Cable.ArmourArea > 0 }

// EndAt returns how the branch is finished at a node. Of a branch that leads
// back to its own node that is the From end.
func (b *Branch) EndAt(node int) End {
	if b.From == node {
		return b.FromEnd
	}
	return b.ToEnd
}

// Fill is what a box is filled with.
type Fill int

const (
	FillUnknown Fill = iota
	FillNone
	FillGel
	FillResin
)

// String returns the word of the file, "" when unknown.
func (f Fill) String() string { return [...]string{"", "none", "gel", "resin"}[f] }

// Box is what the plan knows about a junction box.
type Box struct {
	Name       string // "Junction box 85 mm"
	IP         string
	Entries    int     // 0 not known
	Side       q.Metre // of a square box; 0 not known
	Cables     int     // that end in it, whatever circuit they belong to
	Metal      bool
	Burial     bool // made for burial
	Fill       Fill
	Hidden     bool    // below ground or paving without a hatch
	Indoors    bool    // every cable arrives indoors
	TopEntries int     // entries in the top
	Open       int     // entries neither used nor blanked
	Unlinked   bool    // armours not linked with each other nor with the earth terminal
	Height     q.Metre // above ground
}

// Encapsulated reports whether the joints lie in a compound.
func (b *Box) Encapsulated() bool { return b.Fill == FillGel || b.Fill == FillResin }
