package scene

import "duskwire/layout/doc"

// system is the voltage system that a run belongs to.
type system uint8

const (
	unknown system = iota // joined to nothing that tells
	mains
	extra // extra-low
)

// Flags of a group of joined runs.
const (
	hasSupply = 1 << iota
	hasOutput // the secondary of a source
	hasMains  // a lamp for mains
	hasExtra  // a lamp for extra-low voltage
	hasCable  // a cable that may carry mains
)

// systems returns the system of each run, in run order. Runs that meet at a
// point belong together (union-find); the two sides of a source are two
// points. What a group touches decides: supply, source output, lamps, cable.
func (b *builder) systems() []system {
	runs := b.in.Scheme.Runs.All()
	g := groups{parent: make([]int32, len(runs)), flags: make([]uint8, len(runs)),
		first: make(map[doc.ID]int32, len(runs)+8), output: map[doc.ID]int32{}}
	for i, r := range runs {
		g.parent[i] = int32(i)
		if c, ok := b.stock.stock.Cable(r.Cable); ok && c.Mains {
			g.flags[i] = hasCable
		}
		b.touch(&g, int32(i), r.From, true)
		b.touch(&g, int32(i), r.To, false)
	}
	out := make([]system, len(runs))
	for i := range runs {
		f := g.flags[g.root(int32(i))]
		switch {
		case f&hasSupply != 0:
			out[i] = mains
		case f&hasOutput != 0:
			out[i] = extra
		case f&hasMains != 0:
			out[i] = mains
		case f&hasExtra != 0:
			out[i] = extra
		case f&hasCable != 0:
			out[i] = mains
		}
	}
	return out
}

// touch joins run i to whatever stands at its end. At a source whose side is
// not told, a run drawn away from it is taken to leave by the output.
func (b *builder) touch(g *groups, i int32, e doc.End, from bool) {
	if e.On == "" {
		return
	}
	s := b.in.Scheme
	table := g.first
	if _, ok := s.Sources.Get(e.On); ok {
		if e.Side == doc.Secondary || e.Side == doc.AnySide && from {
			table = g.output
			g.flags[g.root(i)] |= hasOutput
		}
	} else if l, ok := s.Lamps.Get(e.On); ok {
		if k := b.stock.lamps[l.Stock]; k != nil && k.Load.Nominal > 0 {
			if k.Load.Nominal <= extraLow {
				g.flags[g.root(i)] |= hasExtra
			} else {
				g.flags[g.root(i)] |= hasMains
			}
		}
	} else if _, ok := s.Supplies.Get(e.On); ok {
		g.flags[g.root(i)] |= hasSupply
	}
	if j, ok := table[e.On]; ok {
		g.join(i, j)
	} else {
		table[e.On] = i
	}
}

// groups is a union-find over run numbers.
type groups struct {
	parent        []int32
	flags         []uint8 // of the root
	first, output map[doc.ID]int32
}

func (g *groups) root(i int32) int32 {
	for g.parent[i] != i {
		g.parent[i] = g.parent[g.parent[i]]
		i = g.parent[i]
	}
	return i
}

func (g *groups) join(i, j int32) {
	i, j = g.root(i), g.root(j)
	if i == j {
		return
	}
	g.parent[i] = j
	g.flags[j] |= g.flags[i]
}
