package cable

import (
	"sort"

	"duskwire/calc/network"
)

// Family returns the cables of the catalogue that could take the place of c:
// those of its family, smallest conductor first, equal sizes in catalogue
// order. c itself is among them when the catalogue has it.
func Family(c *network.Cable, catalog []*network.Cable) []*network.Cable {
	var out []*network.Cable
	for _, other := range catalog {
		if other.Family == c.Family {
			out = append(out, other)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Size < out[j].Size })
	return out
}

// Larger returns the next larger size of the family of c, or nil.
func Larger(c *network.Cable, catalog []*network.Cable) *network.Cable {
	for _, other := range Family(c, catalog) {
		if other.Size > c.Size {
			return other
		}
	}
	return nil
}
