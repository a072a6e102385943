package protect

import (
	"duskwire/calc/network"
)

// State is what the tracer found between a point and the main earth terminal.
type State int

const (
	// NotTraced marks what has no earth path to prove: beyond a source, or
	// reached by nothing.
	NotTraced State = iota
	// Whole marks a path that hangs together all the way.
	Whole
	// Unsurveyed marks a path that is whole as far as it is known: a cable on
	// the way was not chosen or surveyed.
	Unsurveyed
	// Parted marks a path with a break in it.
	Parted
)

// Gap is the place where an earth path breaks.
type Gap struct {
	Branch int    // run in which, or at an end of which, it breaks
	Node   int    // the end it breaks at; of a Bare run the far one
	Bare   bool   // the cable has no protective conductor at all
	Why    string // "the armour of R2 has no tag at B1"
}

// Joint is how an armour is joined to the earth terminal at one end.
type Joint struct {
	Joined bool
	How    string // "tag at B1", or why it is not joined
}

// JointAt returns how the armour of branch b is joined at one of its nodes. In
// a metal enclosure the gland itself makes contact with it. Elsewhere it takes
// a tag or an earthing nut, and in a plastic box a link to the others too.
// Source: BS 7671 411.3.1.1, 543.2.4 (from memory); trade practice.
func JointAt(n *network.Net, b, node int) Joint {
	at, name := n.Nodes[node].Label, branchName(n, b)
	box, gear := n.Nodes[node].Box, n.Nodes[node].Gear
	switch {
	case box != nil && box.Metal || gear != nil && gear.Metal:
		return Joint{true, "gland in the metal of " + at}
	case n.Branches[b].EndAt(node).Untagged:
		return Joint{false, "the armour of " + name + " has no tag at " + at}
	case box != nil && box.Unlinked:
		return Joint{false, "the armour of " + name + " is not linked in " + at}
	}
	return Joint{true, "tag at " + at}
}

// Earth is the earth path of every point of a net, traced over the conductors
// that really hang together: protective cores, and armours that are joined at
// both ends.
type Earth struct {
	net   *network.Net
	tree  *network.Tree
	state []State
	first []int // of a Parted node: the node nearest the supply beyond its gap
	joint []int // glands of armour in series on the way
}

// TraceEarth walks the mains part of a net from the main earth terminal
// outwards. A loop measured at the supply point proves the path up to there.
// The tree is enough: the mains have no rings (see network.RingAllowed).
func TraceEarth(n *network.Net, t *network.Tree) *Earth {
	e := &Earth{net: n, tree: t, state: make([]State, len(n.Nodes)), first: make([]int, len(n.Nodes)), joint: make([]int, len(n.Nodes))}
	for _, i := range t.Order {
		e.first[i] = -1
		up := t.Up(n, i)
		switch {
		case n.Nodes[i].System != 0:
		case up < 0:
			e.state[i] = Whole
		default:
			e.arrive(i, up, t.Parent[i])
		}
		if n.Nodes[i].Kind == network.SupplyNode && n.Supply.MeasuredZs.Known {
			e.state[i], e.first[i] = Whole, -1
		}
	}
	return e
}

// arrive takes the path over from the node ahead.
func (e *Earth) arrive(i, up, b int) {
	e.state[i], e.first[i], e.joint[i] = e.state[up], e.first[up], e.joint[up]
	if cb := e.net.Branches[b].Cable; cb != nil && cb.Earth == network.EarthArmour {
		e.joint[i] += 2
	}
	switch _, broken := gapIn(e.net, b, up, i); {
	case e.state[up] == Parted:
	case broken:
		e.state[i], e.first[i] = Parted, i
	case e.net.Branches[b].Cable == nil && e.net.Branches[b].Strip == nil:
		e.state[i] = Unsurveyed
	}
}

// gapIn returns the break in the protective conductor of a branch, if there is
// one, seen from the supply.
func gapIn(n *network.Net, b, near, far int) (Gap, bool) {
	br := &n.Branches[b]
	if br.Cable == nil {
		return Gap{}, false
	}
	switch br.Cable.Earth {
	case network.EarthCore:
		return Gap{}, false
	case network.EarthArmour:
		for _, node := range []int{near, far} {
			if j := JointAt(n, b, node); !j.Joined {
				return Gap{Branch: b, Node: node, Why: j.How}, true
			}
		}
		return Gap{}, false
	}
	return Gap{Branch: b, Node: far, Bare: true, Why: branchName(n, b) + " has no protective conductor"}, true
}

// At returns what was found between a node's earth terminal and the main one.
func (e *Earth) At(node int) State { return e.state[node] }

// Gap returns where the path from a node breaks, the break nearest the supply;
// ok is false when it does not.
func (e *Earth) Gap(node int) (g Gap, ok bool) {
	if e.state[node] != Parted {
		return Gap{}, false
	}
	i := e.first[node]
	return gapIn(e.net, e.tree.Parent[i], e.tree.Up(e.net, i), i)
}

// Armour is what the tracer found about the armour of one run.
type Armour struct {
	State     State // Whole when either end leads to the main earth terminal
	Near, Far Joint
	NearHolds bool // the near end leads to it
	FarHolds  bool
}

// ArmourOf returns the earthing of the armour of a branch of the tree. It is
// NotTraced where there is no armour or the branch is not on the mains.
func (e *Earth) ArmourOf(b int) Armour {
	br := &e.net.Branches[b]
	far := br.To
	if e.tree.Parent[far] != b {
		far = br.From
	}
	if !br.Armoured() || e.tree.Parent[far] != b || e.state[far] == NotTraced {
		return Armour{}
	}
	near := e.tree.Up(e.net, far)
	a := Armour{Near: JointAt(e.net, b, near), Far: JointAt(e.net, b, far), State: Parted}
	a.NearHolds = a.Near.Joined && e.state[near] != Parted
	a.FarHolds = a.Far.Joined && e.state[far] != Parted
	for _, end := range []struct {
		holds bool
		node  int
	}{{a.NearHolds, near}, {a.FarHolds, far}} {
		if end.holds && a.State != Whole {
			a.State = e.state[end.node]
		}
	}
	return a
}

// Joints returns how many glands of armour the current of a fault at a node
// passes on its way to the board, two for each armour that is the protective
// conductor.
func (e *Earth) Joints(node int) int { return e.joint[node] }

// climb calls visit for every branch from a node to the root; it stops at the
// input of a source.
func (e *Earth) climb(node int, visit func(b, near, far int)) {
	for b := e.tree.Parent[node]; b >= 0 && e.net.Nodes[node].System == 0; b = e.tree.Parent[node] {
		up := e.tree.Up(e.net, node)
		visit(b, up, node)
		node = up
	}
}

func branchName(n *network.Net, b int) string {
	if l := n.Branches[b].Label; l != "" {
		return l
	}
	return "the indoor leg"
}
