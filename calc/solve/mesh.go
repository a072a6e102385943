package solve

import (
	"container/heap"
	"slices"

	"duskwire/calc/network"
)

// short is the least impedance (Ω) that a cable of a loop is given, so that a
// cable of no length has an admittance. It is that of a twentieth of a
// millimetre of 1.5 mm² cable: 20 A lose 20 µV in it, and the last digit of
// 230 V stands for 30 nA.
const short = 1e-6

// mesh is what closed loops add to a tree. Each part is a set of nodes that
// hang together by loops; it is fed at its head, the node nearest the supply.
// Seen from the head a part is one more straight-line law, so the sweeps of the
// tree go on around it.
type mesh struct {
	parts  []*part
	led    []*part      // per node: the part that it heads, nil for none
	inside []bool       // per node: belongs to a part that another node heads
	next   []complex128 // per node inside: voltage found by its part
	closed []tie        // the closing branches, with global node numbers
}

// tie is a cable of a part between two of its nodes, by their place in the
// part. at is its branch, out the block of row from and column to, in the
// block of row to and column from.
type tie struct {
	from, to, at int
	out, in      int
	y            complex128
}

// part is solved by nodal analysis: for every node but the head the currents
// into its cables and its own law add up to nothing,
//
//	Σ y·(v - v_other) + a + p·v + q·v̄ = 0
//
// a linear system in blocks, each a real-linear map of a complex number. It is
// solved by block elimination, nodes with the fewest neighbours first, so that
// a ring costs a time in proportion to its nodes.
type part struct {
	nodes  []int // net's numbers; nodes[0] is the head
	ties   []tie
	pivots []pivot
	diag   []linear // per node; of an eliminated node the inverse
	rhs    []complex128
	off    []linear // blocks off the diagonal
	v      []complex128
}

// pivot is one step of the elimination: a node and those it is still linked to.
type pivot struct {
	node  int
	links []link
	fill  []int // per pair of links: the block that couples them
}

// link leads from one node to another: out is the block of the first's row, in
// that of the other's row.
type link struct{ node, out, in int }

// newMesh lays out the loops of a net, nil when there is none. Cells must be
// prepared: a loop that nothing feeds carries nothing.
func newMesh(s *sweeper, t *network.Tree, z []complex128) *mesh {
	rings := network.FindRings(s.net, t, func(b int) bool { return s.cells[s.net.Branches[b].From].v != 0 })
	if len(rings.Closed) == 0 {
		return nil
	}
	n := len(s.net.Nodes)
	m := &mesh{led: make([]*part, n), inside: make([]bool, n), next: make([]complex128, n)}
	place := make([]int, n)
	for _, i := range s.order {
		head := rings.Head[i]
		if head == i {
			continue
		}
		p := m.led[head]
		if p == nil {
			p = &part{nodes: []int{head}}
			m.led[head] = p
			m.parts = append(m.parts, p)
		}
		place[i], m.inside[i] = len(p.nodes), true
		p.nodes = append(p.nodes, i)
		c := &s.cells[i]
		p.ties = append(p.ties, tie{from: place[c.up], to: place[i], at: c.branch})
	}
	for _, b := range rings.Closed {
		br := &s.net.Branches[b]
		p := m.led[rings.Head[br.From]]
		p.ties = append(p.ties, tie{from: place[br.From], to: place[br.To], at: b})
		m.closed = append(m.closed, tie{from: br.From, to: br.To, at: b})
	}
	for _, p := range m.parts {
		p.arrange()
	}
	m.fit(s, z)
	return m
}

// fit gives the ties the admittances of z.
func (m *mesh) fit(s *sweeper, z []complex128) {
	of := func(branch, end int) complex128 {
		if s.cells[end].dc {
			return admittance(complex(real(z[branch]), 0))
		}
		return admittance(z[branch])
	}
	for k := range m.closed {
		m.closed[k].y = of(m.closed[k].at, m.closed[k].from)
	}
	for _, p := range m.parts {
		for k := range p.ties {
			p.ties[k].y = of(p.ties[k].at, p.nodes[p.ties[k].from])
		}
	}
}

// admittance returns 1/z, z being at least short.
func admittance(z complex128) complex128 {
	if square(z) < short*short {
		return 1 / short
	}
	return 1 / z
}

// queue holds node numbers by degree, the least first; an entry whose degree
// is no longer true is passed over.
type queue [][2]int

func (h queue) Len() int { return len(h) }
func (h queue) Less(i, j int) bool {
	return h[i][0] < h[j][0] || (h[i][0] == h[j][0] && h[i][1] < h[j][1])
}
func (h queue) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *queue) Push(x any)   { *h = append(*h, x.([2]int)) }
func (h *queue) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// arrange finds the order of elimination and the blocks that it needs.
func (p *part) arrange() {
	n := len(p.nodes)
	p.diag, p.rhs, p.v = make([]linear, n), make([]complex128, n), make([]complex128, n)
	links := make([][]link, n)
	join := func(a, b int) link {
		for _, l := range links[a] {
			if l.node == b {
				return l
			}
		}
		at := len(p.off)
		p.off = append(p.off, linear{}, linear{})
		links[a] = append(links[a], link{b, at, at + 1})
		links[b] = append(links[b], link{a, at + 1, at})
		return link{b, at, at + 1}
	}
	for k := range p.ties {
		t := &p.ties[k]
		l := join(t.from, t.to)
		t.out, t.in = l.out, l.in
	}
	var h queue
	for k := 1; k < n; k++ {
		h = append(h, [2]int{len(links[k]), k})
	}
	heap.Init(&h)
	done := make([]bool, n)
	for h.Len() > 0 {
		x := heap.Pop(&h).([2]int)
		k := x[1]
		if done[k] || x[0] != len(links[k]) {
			continue
		}
		done[k] = true
		pv := pivot{node: k, links: links[k], fill: make([]int, len(links[k])*len(links[k]))}
		for i, a := range pv.links {
			links[a.node] = slices.DeleteFunc(links[a.node], func(l link) bool { return l.node == k })
			for j, b := range pv.links[:i] {
				l := join(a.node, b.node)
				pv.fill[i*len(pv.links)+j], pv.fill[j*len(pv.links)+i] = l.out, l.in
			}
		}
		for _, a := range pv.links {
			if a.node != 0 {
				heap.Push(&h, [2]int{len(links[a.node]), a.node})
			}
		}
		p.pivots = append(p.pivots, pv)
	}
}

// gather eliminates the nodes of the part and adds what is left to the law of
// its head. It returns the node that has no steady state, or -1.
func (p *part) gather(s *sweeper) int {
	clear(p.off)
	p.diag[0], p.rhs[0] = linear{}, 0
	for k, i := range p.nodes[1:] {
		law := &s.cells[i].law
		p.diag[k+1], p.rhs[k+1] = linear{law.p, law.q}, law.a
	}
	for _, t := range p.ties {
		p.diag[t.from].p += t.y
		p.diag[t.to].p += t.y
		p.off[t.out].p -= t.y
		p.off[t.in].p -= t.y
	}
	for k := range p.pivots {
		pv := &p.pivots[k]
		inv, ok := p.diag[pv.node].inverse()
		if !ok {
			return p.nodes[pv.node]
		}
		p.diag[pv.node] = inv
		for i, a := range pv.links {
			f := p.off[a.in].after(inv)
			p.rhs[a.node] -= f.of(p.rhs[pv.node])
			for j, b := range pv.links {
				w := f.after(p.off[b.out])
				into := &p.diag[a.node]
				if i != j {
					into = &p.off[pv.fill[i*len(pv.links)+j]]
				}
				into.p -= w.p
				into.q -= w.q
			}
		}
	}
	head := &s.cells[p.nodes[0]].law
	*head = head.add(affine{p.rhs[0], p.diag[0].p, p.diag[0].q})
	return -1
}

// scatter finds the voltages of the part from that of its head.
func (p *part) scatter(head complex128, next []complex128) {
	p.v[0] = head
	for k := len(p.pivots) - 1; k >= 0; k-- {
		pv := &p.pivots[k]
		sum := p.rhs[pv.node]
		for _, a := range pv.links {
			sum += p.off[a.out].of(p.v[a.node])
		}
		p.v[pv.node] = -p.diag[pv.node].of(sum)
		next[p.nodes[pv.node]] = p.v[pv.node]
	}
}

// currents fills in what the closing branches carry and takes it from the
// currents of their ends, so that the tree's own currents balance.
func (m *mesh) currents(s *sweeper, sol *Solution) {
	for _, t := range m.closed {
		from, to := &s.cells[t.from], &s.cells[t.to]
		i := (from.v - to.v) * t.y
		sol.Current[t.at] = i
		sol.Lost += lossOf(i, t.y)
		from.law.a += i
		to.law.a -= i
	}
}
