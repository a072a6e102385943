package packs

import (
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/scene"
)

// drums adds the pages that say which piece comes off which coil, when the
// frame has such a plan.
func (d *draft) drums() {
	if len(d.Frame.Drums) > 0 {
		d.list("Drum plan", false, d.drumPlan)
	}
}

// drumPlan lists the coils of every cable with what is cut from them.
func (b *book) drumPlan(f *flow) {
	f.para("Cut the pieces of a coil in the order given, longest first. Length of a coil and marks of a tape are not exact: with less than " +
		digits(b.Rules.Limits.SpareOnDrum.Value*100, 0) + " % left there is nothing spare.")
	for i := range b.Frame.Drums {
		p := &b.Frame.Drums[i]
		f.head(p.Name)
		if len(p.Drums) == 0 {
			f.para("No plan was made: more pieces than are bought for a garden.")
			continue
		}
		t := &table{high: 5.2, columns: []column{{head: "No."}, {head: "From", least: 34}, {head: "Pieces: run, metres", grow: 1}, {head: "Cut", unit: "m", anchor: scene.Right, least: 13}, {head: "Left", unit: "m", anchor: scene.Right, least: 13}, {head: "Note", grow: 0.2}, {head: "Done", least: 11}}}
		for k, c := range p.Drums {
			t.rows = append(t.rows, row{tick: true, cells: append([]string{whole(k + 1)}, b.drumCells(c)...)})
		}
		f.table(t)
		f.small(drumSum(p))
	}
}

func (b *book) drumCells(c layout.DrumCut) []string {
	from := map[layout.DrumKind]string{layout.Coil: "coil of ", layout.AtHand: "left over, ", layout.ToLength: "by the metre, "}[c.Kind] + number(c.Length) + " m"
	var pieces []string
	for i, r := range c.Runs {
		pieces = append(pieces, r.Label+" "+number(c.Cuts[i]))
	}
	left, note := float64(c.Length-c.Cut()), ""
	if c.Kind == layout.ToLength {
		return []string{from, strings.Join(pieces, ", "), number(c.Cut()), "–", "", ""}
	}
	if left < b.Rules.Limits.SpareOnDrum.Value*float64(c.Length)-1e-9 {
		note = "nothing spare"
	}
	return []string{from, strings.Join(pieces, ", "), number(c.Cut()), digits(left, 1), note, ""}
}

// drumSum is what is bought of one cable.
func drumSum(p *layout.CablePlan) string {
	s := "To buy: " + bought(p) + "; " + number(p.Left) + " m stay on coils."
	if p.Priced {
		s += " Cost " + digits(float64(p.Cost)/100, 2) + " by your own prices."
	} else {
		s += " Planned for the least cable, since prices are not known."
	}
	if !p.Proved {
		s += " A better plan has not been ruled out."
	}
	return s
}

// bought lists the coils of a plan, "2 × 50 m, 7.5 m by the metre".
func bought(p *layout.CablePlan) string {
	var parts []string
	var sizes []q.Metre
	n := map[q.Metre]int{}
	loose := q.Metre(0)
	for _, d := range p.Drums {
		switch d.Kind {
		case layout.Coil:
			if n[d.Length] == 0 {
				sizes = append(sizes, d.Length)
			}
			n[d.Length]++
		case layout.ToLength:
			loose += d.Length
		}
	}
	for _, l := range sizes {
		parts = append(parts, whole(n[l])+" × "+number(l)+" m")
	}
	if loose > 0 {
		parts = append(parts, number(loose)+" m by the metre")
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, ", ")
}

// number writes metres without needless zeros.
func number(m q.Metre) string { return strings.TrimSuffix(m.String(), " m") }
