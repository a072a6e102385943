package cable

import (
	"fmt"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SeventyKey is the insulation key whose ambient factors apply to a cable that
// is rated from the 70 °C table, whatever its own insulation stands.
const SeventyKey = "70C thermoplastic"

// Method returns the reference method that follows from a support when the
// drawing names none: clipped and on a structure C, in the ground or a duct in
// it D, in a tree E; indoors 100 (above a ceiling, under insulation) for a cable
// that has that column and C for one that has not. Source: BS 7671 Table 4A2;
// the choices for trees and indoors are common practice, no source.
func Method(c *network.Cable, s network.Support) string {
	switch s {
	case network.Buried, network.InDuct:
		return "D"
	case network.InTree:
		return "E"
	case network.Indoors:
		if _, ok := c.Rating("100", false); ok {
			return "100"
		}
	}
	return "C"
}

// LegCapacity returns the corrected current-carrying capacity of one leg,
//
//	Iz = It · Ca · Cg · Ci · Cs · Cd · Cc
//
// in amperes. It is the tabulated value for two loaded conductors. Above ground
// Ca is the air factor; for method D it is the ground factor, with Cs for the
// soil and Cd = 1 unless the leg lies deeper than the table's reference, when
// the reduction is applied. Cc applies in the ground and only when the device
// is relied on for overload protection. Cf of a rewirable fuse is not included:
// it belongs to the device, see Tables.Rewirable. A conductor hotter than the
// accessories allow is rated from its 70 °C table and then takes the ambient
// factors of 70 °C insulation. A cable without armour that is not made for burial
// has the numbers of method D in a duct only: Table 4D2A has no column for the
// ground (BS 7671 522.8.10).
//
// Known is false when a table has no value, and Missing says which. Source:
// BS 7671 Appendix 4, 5.1 and 5.2; Tables 4B1 to 4B4, 4C1 to 4C3, 52.2.
func LegCapacity(c *network.Cable, leg network.Leg, site network.Site, t *Tables, overload bool) Capacity {
	method := leg.Method
	if method == "" {
		method = Method(c, leg.Support)
	}
	out := Capacity{Method: method}
	switch ground := leg.Support == network.Buried || (leg.Support == network.InDuct && leg.Depth > 0); {
	case ground && method != "D":
		out.Missing = fmt.Sprintf("method %s is for air, the leg is buried", method)
		return out
	case !ground && leg.Support != network.InDuct && method == "D":
		out.Missing = "method D is for the ground, the leg is not in it"
		return out
	case leg.Support == network.Buried && !c.Buriable:
		out.Missing = "method D: this cable has no rating in the ground, with a duct or without"
		if _, ok := c.Rating("D", limited(c, t)); ok {
			out.Missing = "method D without a duct: in the ground this cable is rated in a duct only"
		}
		return out
	}
	seventy := limited(c, t)
	rating, ok := c.Rating(method, seventy)
	if !ok {
		out.Missing = "method " + method
		if seventy {
			out.Missing += fmt.Sprintf(" at %v terminals", t.Terminals)
		}
		return out
	}
	out.Tabulated, out.Source = rating.Iz, rating.Source
	key := c.Insulation
	if seventy {
		key = SeventyKey
	}
	out.Applied, out.Missing = factors(key, leg, method == "D", site, t, overload)
	if out.Missing != "" {
		return out
	}
	iz := float64(rating.Iz)
	for _, a := range out.Applied {
		iz *= a.Value
	}
	out.Iz, out.Known = q.Ampere(iz), true
	return out
}

// limited reports whether the accessories force the 70 °C table on the cable.
func limited(c *network.Cable, t *Tables) bool {
	if c.Conductor <= t.Terminals+1e-9 {
		return false
	}
	if t.Terminals > 0 {
		return true
	}
	for _, r := range c.Ratings {
		if r.Seventy {
			return true
		}
	}
	return false
}

// factors returns the factors of a leg in the order of the design equation, or
// the name of the value that no table has.
func factors(key string, leg network.Leg, ground bool, site network.Site, t *Tables, overload bool) ([]Applied, string) {
	var list []Applied
	rows, at, what := t.Air, site.Air, "air"
	if ground {
		rows, at, what = t.Ground, site.Ground, "ground"
	}
	a, ok := ambient(rows, key, at, what)
	if !ok {
		return nil, fmt.Sprintf("Ca for %s at %s temperature %v", key, what, at)
	}
	list = append(list, a)
	if leg.Group > 1 {
		item := arrangement(leg.Support)
		a, ok = grouping(t.Grouping, item, leg.Group)
		if leg.Support == network.InDuct {
			a, ok = oneDuct(t.Grouping, leg.Group, a, ok)
		}
		if !ok {
			return nil, fmt.Sprintf("Cg for %d circuits %s", leg.Group, item)
		}
		list = append(list, a)
	}
	if leg.Insulated > 0 {
		if a, ok = insulation(t.Insulation, leg.Insulated); !ok {
			return nil, fmt.Sprintf("Ci for %v in thermal insulation", leg.Insulated)
		}
		list = append(list, a)
	}
	if !ground {
		return list, ""
	}
	duct := leg.Support == network.InDuct
	if a, ok = soil(t.Soil, site.Soil, duct); !ok {
		return nil, fmt.Sprintf("Cs for soil %v", site.Soil)
	}
	list = append(list, a)
	if a, ok = depth(t.Depth, leg.Depth, duct); !ok {
		return nil, fmt.Sprintf("Cd for %v deep", leg.Depth)
	}
	list = append(list, a)
	if overload {
		list = append(list, Applied{Symbol: "Cc", Value: t.Buried.Value, Source: t.Buried.Source,
			Note: "in the ground, overload protection claimed"})
	}
	return list, ""
}

// Governing returns the capacity of the leg that governs the run: the smallest
// corrected capacity, the first of equals. A leg whose capacity is not known
// governs before any other, since nothing is then proved. With no legs at all
// Known is false and Leg is -1. Source: BS 7671 Appendix 4, the most onerous
// section of a mixed route.
func Governing(c *network.Cable, legs []network.Leg, site network.Site, t *Tables, overload bool) Capacity {
	worst := Capacity{Leg: -1, Missing: "the legs of the run"}
	if c == nil {
		worst.Missing = "the cable"
		return worst
	}
	for i, leg := range legs {
		got := LegCapacity(c, leg, site, t, overload)
		got.Leg = i
		if !got.Known {
			return got
		}
		if worst.Leg < 0 || got.Iz < worst.Iz {
			worst = got
		}
	}
	return worst
}
