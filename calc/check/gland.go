package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// glanded calls visit for every armoured end of the circuit that is finished
// with a gland: not in the air, and not in a joint that is cast in compound. A
// cable that several runs share counts once.
func (c *Context) glanded(visit func(b, node int, e network.End)) {
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if c.Far(b) < 0 || !br.Armoured() || br.Existing {
			continue
		}
		for _, node := range []int{br.From, br.To} {
			n := &c.Net.Nodes[node]
			if n.Kind != network.OpenNode && !br.EndAt(node).Shared && (n.Box == nil || !n.Box.Burial) {
				visit(b, node, br.EndAt(node))
			}
		}
	}
}

// sunk reports whether a gland at the node lies below ground or in water with
// nothing cast around it.
func (c *Context) sunk(node int) bool {
	n := &c.Net.Nodes[node]
	if n.Box != nil {
		return n.Box.Height < 0 && !n.Box.Encapsulated()
	}
	return n.Height < 0 || n.Place != nil && n.Place.InWater
}

// glandOf returns the size of gland that a cable takes: what the data sheets of
// its make-up name, else the smallest size whose range holds its diameter. ok
// is false when the tables have none.
func (c *Context) glandOf(cb *network.Cable) (size string, src finding.Source, ok bool) {
	if cb.Gland != "" {
		return cb.Gland, cb.GlandFrom, true
	}
	for _, r := range c.Rules.Glands {
		if cb.Diameter > 0 && cb.Diameter >= r.Least && cb.Diameter <= r.Most {
			return r.Size, r.Source, true
		}
	}
	return "", finding.Source{}, false
}
