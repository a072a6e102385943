package layout

import (
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/layout/derive"
)

// whites compares the whites of every zone whose lamps hang on more than one
// circuit, in the order in which the circuits name them; a zone within one
// circuit is judged there.
func whites(circuits []derive.Circuit, rules *check.Rules) []finding.Finding {
	at := map[string]int{}
	var zones []check.ZoneWhites
	for i := range circuits {
		n := circuits[i].Input.Net
		for k := range n.Zones {
			z := &n.Zones[k]
			if !z.Apart {
				continue
			}
			if _, seen := at[z.ID]; !seen {
				at[z.ID] = len(zones)
				zones = append(zones, check.ZoneWhites{Title: z.Title()})
			}
			zones[at[z.ID]].Add(n, z)
		}
	}
	var out []finding.Finding
	for _, z := range zones {
		if f, ok := check.Whites(z, rules); ok {
			out = append(out, f)
		}
	}
	return out
}
