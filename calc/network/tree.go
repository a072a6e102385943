package network

// Tree is a net put in order from the supply outwards.
type Tree struct {
	Order  []int   // node indices, parents before children
	Parent []int   // branch that feeds each node, -1 for the root and unreached nodes
	Kids   [][]int // branches that leave each node, in branch order
	Closed []int   // branches that close a loop; left out of the tree
	Loose  []int   // nodes not reached from the root
}

// BuildTree walks the net from its root, breadth first in branch order. A
// branch whose far node is already reached closes a loop and is listed in
// Closed; it takes no part in the tree. The result is the same for the same
// net.
func BuildTree(n *Net) *Tree {
	t := &Tree{Parent: make([]int, len(n.Nodes)), Kids: make([][]int, len(n.Nodes))}
	for i := range t.Parent {
		t.Parent[i] = -1
	}
	touching := touchingOf(n)
	reached := make([]bool, len(n.Nodes))
	used := make([]bool, len(n.Branches))
	closed := make([]bool, len(n.Branches))
	if len(n.Nodes) > 0 {
		reached[n.Root] = true
		t.Order = append(make([]int, 0, len(n.Nodes)), n.Root)
	}
	kids := make([]int, 0, len(n.Branches)) // of all nodes, one after the other
	for head := 0; head < len(t.Order); head++ {
		at, first := t.Order[head], len(kids)
		for _, bi := range touching[at] {
			b := &n.Branches[bi]
			far := b.To
			if far == at {
				far = b.From
			}
			switch {
			case used[bi] || closed[bi]:
			case reached[far]:
				closed[bi] = true
			default:
				used[bi], reached[far] = true, true
				t.Parent[far] = bi
				kids = append(kids, bi)
				t.Order = append(t.Order, far)
			}
		}
		if len(kids) > first {
			t.Kids[at] = kids[first:len(kids):len(kids)]
		}
	}
	for i, c := range closed {
		if c {
			t.Closed = append(t.Closed, i)
		}
	}
	for i, r := range reached {
		if !r {
			t.Loose = append(t.Loose, i)
		}
	}
	return t
}

// touchingOf returns the branches at each node, in branch order.
func touchingOf(n *Net) [][]int {
	count := make([]int32, len(n.Nodes))
	each := func(f func(node, branch int)) {
		for i := range n.Branches {
			b := &n.Branches[i]
			f(b.From, i)
			if b.To != b.From {
				f(b.To, i)
			}
		}
	}
	each(func(node, _ int) { count[node]++ })
	out, room := make([][]int, len(n.Nodes)), make([]int, 2*len(n.Branches))
	for i, k := range count {
		out[i], room = room[:0:k], room[k:]
	}
	each(func(node, branch int) { out[node] = append(out[node], branch) })
	return out
}

// Up returns the node on the supply side of node i, or -1 at the root.
func (t *Tree) Up(n *Net, i int) int {
	b := t.Parent[i]
	if b < 0 {
		return -1
	}
	if n.Branches[b].To == i {
		return n.Branches[b].From
	}
	return n.Branches[b].To
}
