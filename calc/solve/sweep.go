package solve

import (
	"math"
	"math/cmplx"

	"duskwire/calc/network"
)

const (
	// tolerance is the largest change of a voltage in the last sweep, as a
	// fraction of its nominal, at which a solve has converged.
	tolerance = 1e-9
	// floor is the fraction of nominal below which a voltage counts as gone.
	floor = 1e-6
	// patience is how many sweeps one attempt may take. Right at the collapse
	// point each sweep only halves the error, and 2⁻³⁰ is below tolerance.
	patience = 40
)

// cell is one node of the tree while it is being solved.
type cell struct {
	v       complex128 // voltage of the last sweep
	law     affine     // current into the node as it follows v, all beyond included
	z       complex128 // of the feeding cable, or the converter's regulation resistance
	up      int        // node on the supply side, -1 at the root
	branch  int        // that feeds the node
	source  *network.Converter
	nominal float64
	dc      bool
}

// sweeper holds a tree in the order of its cells; only nodes that are fed
// have an entry in order.
type sweeper struct {
	net    *network.Net
	order  []int
	cells  []cell
	mesh   *mesh // nil for a radial net
	driven []drivenOutput
	good   []complex128 // voltages of the last state that was a solution
	share  float64      // of every load, 0 to 1
	sweeps int
	limit  int // on sweeps
	worst  int
	change float64
}

// prepare lays out the cells and sets the voltages without load. A converter
// fed at its output gives nothing, so what is beyond it is left out.
func prepare(net *network.Net, t *network.Tree, z []complex128) *sweeper {
	s := &sweeper{
		net: net, order: make([]int, 0, len(t.Order)),
		cells: make([]cell, len(net.Nodes)), good: make([]complex128, len(net.Nodes)),
		worst: net.Root,
	}
	for _, i := range t.Order {
		c := &s.cells[i]
		c.up, c.branch = t.Up(net, i), t.Parent[i]
		sys := &net.Systems[net.Nodes[i].System]
		c.nominal, c.dc = float64(sys.Nominal), sys.Current == network.DC
		if c.up < 0 {
			c.v = complex(float64(net.Supply.Nominal), 0)
		} else {
			b := &net.Branches[c.branch]
			above := s.cells[c.up].v
			c.v, c.z, c.source = above, z[c.branch], b.Converter
			if b.Converter != nil {
				c.z = complex(float64(b.Converter.Resistance()), 0)
				c.v = complex(openVoltage(b.Converter, real(above), s.cells[c.up].nominal), 0)
				if b.To != i || b.Converter.Drive > 0 {
					c.v = 0 // of a string see drivenOutput
				}
			}
			if above == 0 || c.v == 0 {
				c.v = 0
				continue
			}
			if c.dc {
				c.z = complex(real(c.z), 0)
			}
		}
		s.order = append(s.order, i)
		s.good[i] = c.v
	}
	s.strings(t, z)
	return s
}

// backward gathers the laws of the currents from the ends to the root. It
// returns the node beyond which there is no steady state, or -1.
func (s *sweeper) backward() int {
	for _, i := range s.order {
		c := &s.cells[i]
		c.law = affine{}
		loads := s.net.Nodes[i].Loads
		for k := range loads {
			c.law = c.law.add(tangent(&loads[k], c.dc, c.v, s.share))
		}
	}
	for k := range s.driven {
		d := &s.driven[k]
		c := &s.cells[d.in]
		c.law = c.law.add(tangent(&d.load, c.dc, c.v, s.share))
	}
	for k := len(s.order) - 1; k >= 0; k-- {
		i := s.order[k]
		c := &s.cells[i]
		if s.mesh != nil {
			if p := s.mesh.led[i]; p != nil {
				if lost := p.gather(s); lost >= 0 {
					return lost
				}
			}
			if s.mesh.inside[i] {
				continue
			}
		}
		if c.up < 0 {
			continue
		}
		up := &s.cells[c.up]
		line := behind(c.z, c.law)
		if !(line.det > 0) {
			return i
		}
		if c.source == nil {
			up.law = up.law.add(line.ahead(c.law))
			continue
		}
		up.law = up.law.add(primary(c.source, up.dc, up.v, c.v, up.nominal, c.law, line, s.share))
	}
	return -1
}

// forward carries the voltages from the root to the ends and notes the
// largest change. It returns the first node whose voltage is gone, or -1.
func (s *sweeper) forward() int {
	most := 0.0
	for _, i := range s.order {
		c := &s.cells[i]
		v := s.voltage(i)
		if !(real(v) > floor*c.nominal) || math.IsInf(real(v), 0) || cmplx.IsNaN(v) {
			return i
		}
		if d := square(v-c.v) / (c.nominal * c.nominal); d > most {
			most, s.worst = d, i
		}
		c.v = v
		if s.mesh != nil && s.mesh.led[i] != nil {
			s.mesh.led[i].scatter(v, s.mesh.next)
		}
	}
	s.change = math.Sqrt(most)
	return -1
}

// voltage returns the voltage of a node from that of the node ahead of it.
func (s *sweeper) voltage(i int) complex128 {
	c := &s.cells[i]
	switch {
	case c.up < 0:
		return c.v
	case s.mesh != nil && s.mesh.inside[i]:
		return s.mesh.next[i]
	}
	ahead := s.cells[c.up].v
	if c.source != nil {
		ahead = complex(openVoltage(c.source, cmplx.Abs(ahead), s.cells[c.up].nominal), 0)
	}
	return behind(c.z, c.law).node(ahead)
}

// attempt sweeps at the present share until the voltages stand still. It
// starts from the voltages in the cells. lost is the node that has no steady
// state, or -1; ok says that a solution was found.
func (s *sweeper) attempt() (ok bool, lost int) {
	for n := 0; n < patience && s.sweeps < s.limit; n++ {
		s.sweeps++
		if lost = s.backward(); lost >= 0 {
			return false, lost
		}
		if lost = s.forward(); lost >= 0 {
			return false, lost
		}
		if s.change <= tolerance {
			return true, -1
		}
	}
	return false, -1
}

// keep remembers the present voltages as a solution.
func (s *sweeper) keep() {
	for _, i := range s.order {
		s.good[i] = s.cells[i].v
	}
}

// restore goes back to the last solution.
func (s *sweeper) restore() {
	for _, i := range s.order {
		s.cells[i].v = s.good[i]
	}
}
