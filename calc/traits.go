package calc

import (
	"duskwire/calc/check"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// traits is what the proposer asks of a cable over and over, whatever the run:
// the tables are searched once.
type traits struct {
	cable  *network.Cable
	drop   float64 // loop resistance for the drop, Ω/m
	hot    q.OhmPerMetre
	path   bool // hot is known: the cable has a protective conductor
	stands [check.Armour + 1]stands
}

// stands is the energy that a part of a cable withstands; ok is false for a
// part that it has not.
type stands struct {
	energy q.AmpereSquaredSecond
	ok     bool
}

// traits returns those of a cable.
func (p *proposer) traits(cb *network.Cable) *traits {
	for _, t := range p.cables { // few, so a list
		if t.cable == cb {
			return t
		}
	}
	t := &traits{cable: cb, drop: p.perMetre(cb)}
	t.hot, t.path = p.c.HotPerMetre(cb)
	for part := check.LineCore; part <= check.Armour; part++ {
		s := &t.stands[part]
		s.energy, _, _, _, s.ok = p.c.Withstand(cb, part)
	}
	p.cables = append(p.cables, t)
	return t
}
