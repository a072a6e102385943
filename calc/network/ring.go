package network

// Rings says which branches lie on a closed loop.
type Rings struct {
	// Closed are the branches that close a loop and may carry current: cables
	// between two different nodes fed by the same source (or both by the mains).
	Closed []int
	On     []bool // per branch: on a loop; nil when nothing is closed
	// Head is, per node, the node nearest the supply of the part that hangs
	// together by loops; a node on no loop is its own. nil when nothing is closed.
	Head []int
}

// FindRings sorts the closed branches of a tree out. A closing branch that is a
// converter, leads back to its own node, or joins what is fed by different
// sources cannot be a ring and is left out, as are those that keep (may be nil)
// does not want.
func FindRings(n *Net, t *Tree, keep func(branch int) bool) Rings {
	var r Rings
	if len(t.Closed) == 0 {
		return r
	}
	depth, feed := make([]int, len(n.Nodes)), make([]int, len(n.Nodes))
	for _, i := range t.Order {
		up := t.Up(n, i)
		switch {
		case up < 0:
			feed[i] = -1
		case n.Branches[t.Parent[i]].Converter != nil:
			depth[i], feed[i] = depth[up]+1, t.Parent[i]
		default:
			depth[i], feed[i] = depth[up]+1, feed[up]
		}
	}
	for _, b := range t.Closed {
		br := &n.Branches[b]
		if br.Converter == nil && br.From != br.To && feed[br.From] == feed[br.To] && (keep == nil || keep(b)) {
			r.Closed = append(r.Closed, b)
		}
	}
	if len(r.Closed) == 0 {
		return r
	}
	r.On = make([]bool, len(n.Branches))
	for _, b := range r.Closed {
		r.On[b] = true
		u, v := n.Branches[b].From, n.Branches[b].To
		for u != v {
			if depth[u] < depth[v] {
				u, v = v, u
			}
			r.On[t.Parent[u]] = true
			u = t.Up(n, u)
		}
	}
	r.Head = make([]int, len(n.Nodes))
	for i := range r.Head {
		r.Head[i] = i
	}
	for _, i := range t.Order {
		if b := t.Parent[i]; b >= 0 && r.On[b] {
			r.Head[i] = r.Head[t.Up(n, i)]
		}
	}
	return r
}

// RingAllowed reports whether a branch that closes a loop may be built as a ring:
// a cable within the output of one separated extra-low-voltage source. On the
// mains the program draws no rings.
func (n *Net) RingAllowed(b int) bool {
	br := &n.Branches[b]
	s := n.Nodes[br.From].System
	return br.Converter == nil && br.From != br.To && s != 0 && s == n.Nodes[br.To].System && n.Systems[s].SELV
}
