package calc

import (
	photometry "duskwire/calc/light" // light is a function here
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/calc/solve"
)

// Along is how many places of a strip the light is given at: its two ends and
// equal distances between, those of a light.Profile.
const Along = photometry.Along

// Glow is the light that the volts of a circuit leave one lamp.
type Glow struct {
	ID    string // of the lamp
	Known bool   // at every place of it
	// At has one place, of a strip that loses volts along its tracks Along of them,
	// from its near end to its far end.
	At []network.LightRange
	// Volts are those at the lamp, of a strip where they are lowest; not known where
	// there are no steady ones.
	Volts q.Maybe[q.Volt]
	Why   string // why the light is not known: "below 10.8 V"; "" where it is
}

// Glows returns the light of every lamp of a circuit that was evaluated: first of
// strips that lose volts along their tracks, in the order of its branches, then of
// the others in the order of its nodes. What the volts do not tell has bounds, see
// network.Load.Range. Where there is no steady voltage, and in a string that its
// driver cannot feed, a lamp is taken to be anything from out to full and drawn as
// out: drivers that cannot hold flicker or drop out, as below their own range.
func Glows(net *network.Net, r *Result) []Glow {
	var out []Glow
	if net == nil || len(r.Points)+1 != len(net.Nodes) {
		return nil
	}
	tails := map[string]bool{}
	for b := range net.Branches {
		br := &net.Branches[b]
		if br.Strip == nil || r.point(net, br.From) == nil || r.point(net, br.To) == nil {
			continue
		}
		near, far := r.point(net, br.From), r.point(net, br.To)
		if net.Nodes[br.From].Tail {
			near, far = far, near
		}
		if near.Trusted && far.Trusted {
			tails[br.ID] = true
			out = append(out, glowAlong(br.Strip, near, far))
		}
	}
	for i := range net.Nodes {
		n, p := &net.Nodes[i], r.point(net, i)
		if p != nil && n.Kind == network.LampNode && !n.Tail && !tails[n.ID] {
			out = append(out, r.glow(n, p))
		}
	}
	return out
}

// point returns the reading of a node, nil for the board.
func (r *Result) point(net *network.Net, node int) *Point {
	switch {
	case node == net.Root:
		return nil
	case node > net.Root:
		node--
	}
	return &r.Points[node]
}

// glow is the light of a lamp at one place.
func (r *Result) glow(n *network.Node, p *Point) Glow {
	g := Glow{ID: p.ID, At: []network.LightRange{{Most: 1, Drawn: 1}}}
	collapsed := r.Solution == nil || r.Solution.Status.State != solve.Converged
	switch {
	case p.Light.Known:
		g.Known, g.At[0] = true, network.LightRange{Least: p.Light.Value, Most: p.Light.Value, Drawn: p.Light.Value}
		g.Volts = q.Some(p.Voltage)
	case collapsed && n.Kind == network.LampNode:
		g.At[0].Drawn, g.Why = 0, "no steady voltage"
	case p.Drive > 0 && !n.Doubtful && !p.Trusted:
		g.At[0].Drawn, g.Why = 0, "its driver cannot feed the string"
	case !p.Trusted:
		g.Why = "its volts are not known for a flaw of the drawing"
	case len(n.Loads) == 0:
		g.Volts, g.Why = q.Some(p.Voltage), "not made for "+p.System
	default:
		g.Volts = q.Some(p.Voltage)
		g.At[0], _ = n.Loads[0].Range(p.Voltage)
		g.Why = outside(&n.Loads[0], p.Voltage)
	}
	return g
}

// glowAlong is the light of a strip from its near end to its far end.
func glowAlong(s *network.Strip, near, far *Point) Glow {
	g := Glow{ID: near.ID, Known: true, At: make([]network.LightRange, Along), Volts: q.Some(s.Least(near.Voltage, far.Voltage))}
	for k := range g.At {
		u := s.Volts(near.Voltage, far.Voltage, float64(k)/(Along-1))
		var ok bool
		if g.At[k], ok = s.Load.Range(u); !ok {
			g.Known, g.Why = false, outside(&s.Load, u)
		}
	}
	return g
}

// outside says why a driver's light is not known at a voltage.
func outside(l *network.Load, u q.Volt) string {
	if l.Law == network.Driven {
		return "not known at its current"
	}
	if l.Maximum > 0 && u > l.Maximum {
		return "above " + l.Maximum.String()
	}
	return "below " + l.Vouched().String()
}
