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
	touching := make([][]int, len(n.Nodes))
	for i := range n.Branches {
		b := &n.Branches[i]
		touching[b.From] = append(touching[b.From], i)
		if b.To != b.From {
			touching[b.To] = append(touching[b.To], i)
		}
	}
	reached := make([]bool, len(n.Nodes))
	used := make([]bool, len(n.Branches))
	closed := make([]bool, len(n.Branches))
	if len(n.Nodes) > 0 {
		reached[n.Root] = true
		t.Order = append(t.Order, n.Root)
	}
	for head := 0; head < len(t.Order); head++ {
		at := t.Order[head]
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
				t.Kids[at] = append(t.Kids[at], bi)
				t.Order = append(t.Order, far)
			}
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
