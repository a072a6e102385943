package network

import (
	"math"

	q "duskwire/calc/quantity"
)

// String is what hangs on the output of one constant-current source.
//
// On the plan it is a chain: from the source to the first lamp, from lamp to
// lamp, and no run back. The cables have two cores: one is cut by the lamps, the
// other is the way back, joined to the first behind the last lamp. So every
// cable of the chain carries the one current both ways, and the volts between
// its cores fall from lamp to lamp by what the lamp takes and the cable loses:
//
//	U = Σ Uf + I·Σ R
//
// with Uf the volts across a lamp and R the loop resistance of a cable. Trade
// habit: constant-current lamps in series, polarity marked.
type String struct {
	Source int   // branch of the source
	Head   int   // its output node
	System int   // of the output
	Lamps  []int // nodes of the lamps, in the order of the current; Driven ones only
	// Chain are the branches that carry the current, from the source to the last
	// lamp. Where the way forks it is nil: lamps side by side share the current as
	// their volts happen to fall, and there is no answer.
	Chain []int
	Forks []int // nodes beyond which more than one way has lamps
}

// Lights reports whether something hangs on the source that it can light.
func (s *String) Lights() bool { return len(s.Lamps) > 0 && len(s.Forks) == 0 }

// Strings returns the outputs of all constant-current sources that are fed, in
// the order of the tree.
func Strings(n *Net, t *Tree) []String {
	var out []String
	var feeds []int // per node: lamps of its own system at and beyond it
	for _, i := range t.Order {
		b := t.Parent[i]
		if b < 0 || n.Branches[b].To != i || n.Branches[b].Converter == nil || n.Branches[b].Converter.Drive <= 0 {
			continue
		}
		if feeds == nil {
			feeds = counted(n, t)
		}
		s := String{Source: b, Head: i, System: n.Nodes[i].System}
		s.follow(n, t, feeds)
		out = append(out, s)
	}
	return out
}

// counted counts, per node, the Driven lamps of its system at and beyond it.
func counted(n *Net, t *Tree) []int {
	feeds := make([]int, len(n.Nodes))
	for k := len(t.Order) - 1; k >= 0; k-- {
		i := t.Order[k]
		if takesDrive(&n.Nodes[i]) {
			feeds[i]++
		}
		if b := t.Parent[i]; b >= 0 && n.Branches[b].Converter == nil {
			feeds[t.Up(n, i)] += feeds[i]
		}
	}
	return feeds
}

func takesDrive(n *Node) bool {
	return n.Kind == LampNode && len(n.Loads) > 0 && n.Loads[0].Law == Driven
}

// follow walks from the head along what has lamps.
func (s *String) follow(n *Net, t *Tree, feeds []int) {
	ahead := []int{s.Head}
	for len(ahead) > 0 {
		i := ahead[0]
		ahead = ahead[1:]
		if takesDrive(&n.Nodes[i]) {
			s.Lamps = append(s.Lamps, i)
		}
		ways := 0
		for _, b := range t.Kids[i] {
			far := n.Branches[b].To
			if far == i {
				far = n.Branches[b].From
			}
			if n.Branches[b].Converter != nil || feeds[far] == 0 {
				continue
			}
			ways++
			s.Chain = append(s.Chain, b)
			ahead = append(ahead, far)
		}
		if ways > 1 {
			s.Forks = append(s.Forks, i)
		}
	}
	if len(s.Forks) > 0 {
		s.Chain = nil
	}
}

// Volts returns the volts at the output that the string needs, given the loop
// resistance of each branch of the net in Ω.
func (s *String) Volts(n *Net, ohms func(branch int) float64) q.Volt {
	u := 0.0
	for _, i := range s.Lamps {
		for _, l := range n.Nodes[i].Loads {
			u += float64(l.Nominal)
		}
	}
	for _, b := range s.Chain {
		u += float64(n.Branches[s.Source].Converter.Drive) * ohms(b)
	}
	return q.Volt(u)
}

// DrivenLight returns the light of a Driven lamp at the current i as a share of that
// at the current it is made for: in proportion to it, a good approximation from
// about half the current up (from memory). ok is false above the lamp's own
// current beyond the last bit, where nothing is vouched for.
func (l Load) DrivenLight(i q.Ampere) (share float64, ok bool) {
	if l.Law != Driven || l.Drive <= 0 || math.IsNaN(float64(i)) {
		return 0, false
	}
	return float64(i / l.Drive), i >= 0 && float64(i) <= float64(l.Drive)*(1+1e-9)
}
