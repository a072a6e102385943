package check

import (
	"duskwire/calc/finding"
)

// raised is LUX-07: lamps whose beam is aimed above level and of which nothing says
// that a shield keeps the light down. One Note for all. A lamp whose table sends next
// to nothing above the horizontal as it is aimed counts as shielded. Source: dark-sky
// guidance on shielding, with the limit.
func raised(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	if r.Raised.Value <= 0 {
		return
	}
	var list []*LuxLamp
	worst := 0
	for i := range u.Lamps {
		l := &u.Lamps[i]
		if !within(l.Tilt, r.Raised.Value) && l.Flux > 0 && l.Upward > littleUpward {
			if len(list) > 0 && l.up() > list[worst].up() {
				worst = len(list)
			}
			list = append(list, l)
		}
	}
	if len(list) == 0 {
		return
	}
	w0 := list[worst]
	f := finding.Finding{Code: "LUX-07", Level: finding.Note, Subject: w0.Subject, Figure: count(len(list), "lamp", "lamps") + " aimed above level",
		Limit: "aimed level or below, or shielded", Source: r.Raised.Source,
		Text: w0.Label + " is aimed above level, and nothing says that a shield keeps its light down"}
	var w lines
	for k, l := range list {
		aimed := "as aimed"
		if l.Guessed {
			aimed = "not aimed, taken to look up"
		}
		w.add("%s: %s %% of %s above the horizontal, %s", l.Label, num(100*l.Upward, 0), l.Flux, aimed)
		if k != worst {
			f.Also = append(f.Also, l.Subject)
		}
	}
	w.add("whether a lamp has a shield the stock book does not hold; one whose table sends at most %s %% upward counts as shielded", num(100*littleUpward, 1))
	w.add("how much light of the whole goes upward LUX-03 compares")
	f.Working = w.String()
	f.Remedies = []finding.Remedy{
		{Text: "aim it level or below, light from above, or fit a louvre or hood and read its photometric file"},
		{Text: "aim it so that leaves or a wall take the whole beam"},
	}
	emit(f)
}
