package calc

import (
	"math"
	"sync"

	"duskwire/calc/check"
	"duskwire/calc/network"
)

// shorts is by how many ohms the fault loops at a node may change while the
// short circuits of all runs beyond it stay proved; node is the far end of the
// run that turns first.
type shorts struct{ more, less tight }

// weakens tells of a run beyond b whose short circuit is not proved any more
// when b has another cable: a thicker one lets a larger current through to it, a
// thinner one a current that its device clears more slowly. "" for none. The
// cable itself is not to blame, and the maker's figure may settle it, so that a
// proposal says it and stands.
func (p *proposer) weakens(b int, cb *network.Cable) string {
	c := p.c
	now := c.Net.Branches[b].Cable
	far := c.Far(b)
	if now == nil || cb == now || far < 0 || c.Net.Nodes[far].System != 0 || c.InRing(b) {
		return ""
	}
	list := p.shorts.of(c)
	change := 2 * float64(cb.R20-now.R20)
	old, ok := c.HotPerMetre(now)
	if hot, has := c.HotPerMetre(cb); ok && has {
		if d := float64(hot - old); math.Abs(d) > math.Abs(change) {
			change = d
		}
	}
	change *= float64(c.Net.Branches[b].Length)
	t, ohm := &list[far].more, change
	if change < 0 {
		t, ohm = &list[far].less, -change
	}
	if ohm <= t.slack {
		return ""
	}
	label := c.Net.Branches[c.Tree.Parent[t.node]].Label
	return "; beyond it the short circuit of " + label + " may then not be proved any more (" + string(t.code) + ")"
}

// shortsOf is the shorts of every node, worked out when one is asked for.
type shortsOf struct {
	once sync.Once
	list []shorts
}

func (s *shortsOf) of(c *check.Context) []shorts {
	s.once.Do(func() { s.list = shortRooms(c) })
	return s.list
}

// shortRooms works shorts out from the far ends inwards.
func shortRooms(c *check.Context) []shorts {
	out := make([]shorts, len(c.Net.Nodes))
	for i := range out {
		out[i] = shorts{nothing, nothing}
	}
	for k := len(c.Tree.Order) - 1; k > 0; k-- {
		i := c.Tree.Order[k]
		to, from, room := &out[c.Tree.Up(c.Net, i)], &out[i], c.ShortRoom(c.Tree.Parent[i])
		to.more.take(from.more)
		to.more.take(tight{room.Near, i, room.NearCode})
		to.more.take(tight{room.Far, i, room.FarCode})
		to.less.take(from.less)
		to.less.take(tight{room.Less, i, room.LessCode})
	}
	return out
}
