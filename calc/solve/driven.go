package solve

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// drivenOutput is the output of a constant-current source. Its current is given,
// so that its volts follow from the far end inwards without any sweep,
//
//	U(node) = Uf of its lamp + I·R of the next cable + U(next node)
//
// and on the mains side it is a load of constant power, (U·I)/η + P0, whatever
// the volts there. Where the way forks there is no answer: the string is left out
// of the figures, and its lamps are counted at the power they are made for.
// Whether the source can give the volts found is for the checks to say.
type drivenOutput struct {
	network.String
	in   int // node of the source's input
	load network.Load
	out  float64 // watts given to the string
	lost float64 // of them in cables
}

// strings finds the outputs that are fed and works their volts out; s.order must
// be complete.
func (s *sweeper) strings(t *network.Tree, z []complex128) {
	for _, str := range network.Strings(s.net, t) {
		d := drivenOutput{String: str, in: t.Up(s.net, str.Head)}
		if s.cells[d.in].v == 0 {
			continue
		}
		cv := s.net.Branches[d.Source].Converter
		i := float64(cv.Drive)
		for _, n := range d.Lamps {
			d.out += i * volts(&s.net.Nodes[n])
		}
		for _, b := range d.Chain {
			d.lost += i * i * real(z[b])
		}
		d.out += d.lost
		d.load = network.Load{Law: network.ConstantPower, PowerFactor: cv.PowerFactor,
			Power: q.Watt(primaryPower(cv, d.out, 1)), Nominal: s.net.Systems[s.net.Nodes[d.in].System].Nominal}
		s.driven = append(s.driven, d)
	}
}

// volts are what the lamps of a node of a string take at its current.
func volts(n *network.Node) float64 {
	u := 0.0
	for k := range n.Loads {
		u += float64(n.Loads[k].Nominal)
	}
	return u
}

// fill enters the volts and currents of the strings into a solution. Nodes that
// hang on a string without carrying its current stand at the volts ahead of them.
func (s *sweeper) fill(t *network.Tree, z []complex128, sol *Solution) {
	if len(s.driven) == 0 {
		return
	}
	carries := make([]bool, len(s.net.Branches))
	lit := make([]bool, len(s.net.Systems))
	for k := range s.driven {
		d := &s.driven[k]
		i := float64(s.net.Branches[d.Source].Converter.Drive)
		sol.Output[d.Source] = complex(i, 0)
		share := q.Watt(s.share)
		for _, n := range d.Lamps {
			sol.Power[n] = share * q.Watt(i*volts(&s.net.Nodes[n]))
			sol.Used += sol.Power[n]
		}
		sol.Lost += share * q.Watt(float64(d.load.Power)-d.out+d.lost)
		if d.Lights() {
			lit[d.System] = true
			sol.Voltage[d.Head] = complex(d.out/i, 0)
		}
		for _, b := range d.Chain {
			carries[b] = true
		}
	}
	for _, n := range t.Order {
		b := t.Parent[n]
		if !lit[s.net.Nodes[n].System] || s.net.Branches[b].Converter != nil {
			continue
		}
		up := t.Up(s.net, n)
		sol.Voltage[n], sol.Drop[n] = sol.Voltage[up], sol.Drop[up]
		if carries[b] {
			i := float64(s.net.Systems[s.net.Nodes[n].System].Drive)
			fall := i * real(z[b])
			sol.Current[b] = complex(i, 0)
			sol.Drop[n] += q.Volt(fall)
			sol.Voltage[n] -= complex(volts(&s.net.Nodes[up])+fall, 0)
		}
	}
}
