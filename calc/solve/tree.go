package solve

import (
	"fmt"
	"math/cmplx"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Tree returns the voltages and currents of a radial net. z holds the loop
// impedance of each branch in Ω (both conductors, hot; ignored for
// converters). The root stands at Supply.Nominal; a source's output is the
// reference of its own system, so phases do not cross a source.
//
// Method: backward and forward sweeps over the tree. Going back, each node
// passes on its current as a straight-line law of its voltage, I = a + p·v +
// q·v̄, drawn as the tangent of its loads at the last voltages; going forth,
// the voltages follow. That is Newton's method on the whole net, done in
// linear time because the net is a tree: away from the collapse point the
// error squares with every sweep (3 to 5 are usual). A load that cannot be
// reached at once is approached in steps from no load, see search.
//
// Valid range: Re z >= 0; loads and converters within the ranges their types
// state (power factor and efficiency in (0, 1], nominal voltages above 0).
// Two nodes with direct current: P up to U²/(4R), exact to 1e-6 of the load.
// Lamps are followed by their law at any voltage: whether a lamp still works
// at the voltage found is for the checks to say. On direct current power
// factors count as 1 and only the real part of z is used.
//
// The output of a constant-current source is worked out by itself, see
// drivenOutput.
//
// Branches in t.Closed carry no current. Nodes that are not fed, or fed
// through the output of a source, have voltage 0 and take no power. A net that
// has no steady state ends as Collapsed with the figures of the last load that
// has one. len(z) must be the number of branches.
func Tree(net *network.Net, t *network.Tree, z []complex128) *Solution {
	s := Solver{net: net, tree: t}
	return s.run(z, sweepLimit, false)
}

// Solve returns the voltages and currents of any net, radial or with closed
// loops: without closed branches it is Tree, with them each set of loops is
// solved as one by nodal analysis within the sweeps (see part), which is still
// Newton's method on the whole net. What Tree says of its arguments, its valid
// range and a collapse holds; a cable of a loop has at least 1 µΩ.
//
// A branch in t.Closed carries Current from its From to its To. Those that
// cannot be a ring (see network.FindRings) carry none.
func Solve(net *network.Net, t *network.Tree, z []complex128) *Solution {
	return NewSolver(net, t).Solve(z)
}

// Solver solves one net for several sets of impedances; the order in which its
// loops are eliminated is found once. It is for one goroutine at a time.
type Solver struct {
	net  *network.Net
	tree *network.Tree
	mesh *mesh
}

// NewSolver returns a solver of a net, which must not change while it is used.
func NewSolver(net *network.Net, t *network.Tree) *Solver { return &Solver{net: net, tree: t} }

// Solve returns what the function Solve returns for the impedances z.
func (sv *Solver) Solve(z []complex128) *Solution { return sv.run(z, sweepLimit, true) }

func (sv *Solver) run(z []complex128, limit int, loops bool) *Solution {
	net, t := sv.net, sv.tree
	if len(z) != len(net.Branches) {
		panic(fmt.Sprintf("solve: %d impedances for %d branches", len(z), len(net.Branches)))
	}
	sol := &Solution{
		Voltage: make([]complex128, len(net.Nodes)),
		Current: make([]complex128, len(net.Branches)),
		Output:  make([]complex128, len(net.Branches)),
		Drop:    make([]q.Volt, len(net.Nodes)),
		Power:   make([]q.Watt, len(net.Nodes)),
	}
	if len(t.Order) == 0 {
		sol.Status.Carried = 1
		return sol
	}
	s := prepare(net, t, z)
	s.limit = limit
	if loops && len(t.Closed) > 0 {
		if sv.mesh == nil {
			sv.mesh = newMesh(s, t, z)
		} else {
			sv.mesh.fit(s, z)
		}
		s.mesh = sv.mesh
	}
	sol.Status = s.search()
	s.loads(sol)
	s.branches(sol)
	s.drops(sol)
	s.fill(t, z, sol)
	return sol
}

// loads fills in what each node's lamps take; the cells' law.a becomes the
// node's own current.
func (s *sweeper) loads(sol *Solution) {
	for _, i := range s.order {
		c := &s.cells[i]
		sol.Voltage[i] = c.v
		var sum complex128
		loads := s.net.Nodes[i].Loads
		for k := range loads {
			sum += current(&loads[k], c.dc, c.v, s.share)
		}
		c.law.a = sum
		p := real(c.v * conj(sum))
		sol.Power[i] = q.Watt(p)
		sol.Used += q.Watt(p)
	}
	for k := range s.driven {
		d := &s.driven[k]
		c := &s.cells[d.in]
		sol.Current[d.Source] = current(&d.load, c.dc, c.v, s.share)
		c.law.a += sol.Current[d.Source]
	}
}

// branches adds the currents up from the ends to the root, so that they
// balance at every node, and the power that is lost on the way.
func (s *sweeper) branches(sol *Solution) {
	if s.mesh != nil {
		s.mesh.currents(s, sol)
	}
	for k := len(s.order) - 1; k > 0; k-- {
		c := &s.cells[s.order[k]]
		up := &s.cells[c.up]
		i := c.law.a
		lost := square(i) * real(c.z)
		if c.source != nil {
			sol.Output[c.branch] = i
			output := real(c.v * conj(i))
			taken := primaryPower(c.source, output, s.share)
			i, lost = perVolt(c.source, up.dc, up.v)*complex(taken, 0), taken-output
		}
		sol.Current[c.branch] = i
		sol.Lost += q.Watt(lost)
		up.law.a += i
	}
	root := &s.cells[s.order[0]]
	sol.Supplied = q.Watt(real(root.v * conj(root.law.a)))
}

// lossOf returns the power lost in an admittance y by a current of i.
func lossOf(i, y complex128) q.Watt { return q.Watt(square(i) * real(1/y)) }

// drops fills in the volts lost since the start of each node's system.
func (s *sweeper) drops(sol *Solution) {
	for _, i := range s.order {
		c := &s.cells[i]
		if c.up < 0 || c.source != nil {
			c.nominal = cmplx.Abs(c.v) // from here on: the volts at the start
			continue
		}
		c.nominal = s.cells[c.up].nominal
		sol.Drop[i] = q.Volt(c.nominal - cmplx.Abs(c.v))
	}
}
