package protect

import (
	"duskwire/calc/network"
)

// Path returns the way of a fault current from the earth terminal of a node to
// the main earth terminal, one conductor a line, up to the first break:
//
//	core of R3 to B2
//	armour of R2 to B1: tag at B2, tag at B1
//	main earth terminal
//
// A parted path ends with "broken: " and the reason.
func (e *Earth) Path(node int) []string {
	if e.state[node] == NotTraced {
		return nil
	}
	var out []string
	done, at := false, node
	e.climb(node, func(b, near, far int) {
		if done {
			return
		}
		if g, broken := gapIn(e.net, b, near, far); broken && !e.proved(far) {
			out, done = append(out, "broken: "+g.Why), true
			return
		}
		if e.proved(far) && (e.net.Branches[b].Cable == nil || e.state[near] != Whole) {
			out, done = append(out, "the loop measured at "+e.net.Nodes[far].Label+" proves the rest of the way"), true
			return
		}
		out, at = append(out, e.hop(b, near, far)), near
	})
	if !done && at == e.net.Root {
		out = append(out, "main earth terminal")
	}
	return out
}

// proved reports whether a loop measured at the node proves its path.
func (e *Earth) proved(node int) bool {
	return e.net.Nodes[node].Kind == network.SupplyNode && e.net.Supply.MeasuredZs.Known
}

// hop tells one conductor in words.
func (e *Earth) hop(b, near, far int) string {
	br, to := &e.net.Branches[b], e.net.Nodes[near].Label
	switch {
	case br.Strip != nil:
		return "along " + branchName(e.net, b)
	case br.Cable == nil:
		return branchName(e.net, b) + " to " + to + ": cable not known"
	case br.Cable.Earth == network.EarthArmour:
		return "armour of " + branchName(e.net, b) + " to " + to + ": " +
			JointAt(e.net, b, far).How + ", " + JointAt(e.net, b, near).How
	}
	return "core of " + branchName(e.net, b) + " to " + to
}

// PartKind is a kind of exposed metal part.
type PartKind int

const (
	LampPart    PartKind = iota // class I lamp
	SourcePart                  // metal case of a source
	GearPart                    // metal enclosure of gear
	BoxPart                     // metal box
	ArmourPiece                 // armour of a run
)

// Part is one exposed metal part of the mains circuit.
type Part struct {
	Kind   PartKind
	Node   int // of lamp, source, box or gear; -1 for an armour
	Branch int // of an armour; -1 for the others
	State  State
}

// Parts returns every exposed metal part that the plan knows: class I lamps,
// sources with a metal case, metal boxes and gear in node order, then armours in branch
// order. Source of the list: BS 7671 Part 2, exposed-conductive-part (from
// memory).
func (e *Earth) Parts() []Part {
	var out []Part
	for i := range e.net.Nodes {
		if kind, metal := Exposed(&e.net.Nodes[i]); metal && e.state[i] != NotTraced {
			out = append(out, Part{kind, i, -1, e.state[i]})
		}
	}
	for b := range e.net.Branches {
		if a := e.ArmourOf(b); a.State != NotTraced {
			out = append(out, Part{ArmourPiece, -1, b, a.State})
		}
	}
	return out
}

// Exposed returns the kind of exposed metal that stands at a node; ok is false
// for none.
func Exposed(n *network.Node) (kind PartKind, ok bool) {
	switch {
	case n.Kind == network.LampNode:
		return LampPart, n.Class == network.ClassI && !n.Tail
	case n.Kind == network.PrimaryNode:
		return SourcePart, n.Class == network.ClassI
	case n.Kind == network.BoxNode:
		return BoxPart, n.Box != nil && n.Box.Metal
	case n.Kind == network.GearNode:
		return GearPart, n.Gear != nil && n.Gear.Metal
	}
	return 0, false
}
