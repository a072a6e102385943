package output

import (
	"fmt"
	"io"
	"strings"

	"duskwire/layout"
)

// PlanRow is out of which coils the pieces of one cable are cut.
type PlanRow struct {
	PlanCable string `json:"plan_cable"`
	// Bought counts coils and what is bought at its own length; LeftOver is what
	// stays on coils that are bought. Both are null when nothing was planned.
	Bought   *float64  `json:"bought_m"`
	LeftOver *float64  `json:"left_over_m"`
	Price    *float64  `json:"price"` // null without a price list
	Least    bool      `json:"least"` // no other plan is better
	Drums    []DrumRow `json:"drums"`
}

// DrumRow is one coil, leftover or piece bought at its own length.
type DrumRow struct {
	Kind   string   `json:"drum_kind"`
	Length float64  `json:"drum_length_m"`
	Spare  float64  `json:"spare_m"`
	Cuts   []CutRow `json:"cuts"`
}

// CutRow is one cut from it.
type CutRow struct {
	Run string  `json:"cut_run"`
	Cut float64 `json:"cut_m"`
}

// drumKinds are the words of layout.DrumKind.
var drumKinds = [...]string{layout.Coil: "coil", layout.AtHand: "at hand", layout.ToLength: "to length"}

// plansOf turns the plans of a frame into rows.
func plansOf(plans []layout.CablePlan) []PlanRow {
	out := []PlanRow{}
	for _, p := range plans {
		row := PlanRow{PlanCable: p.Cable, Least: p.Proved, Drums: []DrumRow{}}
		if len(p.Drums) > 0 {
			bought, left := round(float64(p.Bought), 3), round(float64(p.Left), 3)
			row.Bought, row.LeftOver = &bought, &left
		}
		if p.Priced && len(p.Drums) > 0 {
			v := round(float64(p.Cost)/100, 2)
			row.Price = &v
		}
		for _, d := range p.Drums {
			drum := DrumRow{Kind: drumKinds[d.Kind], Length: round(float64(d.Length), 3), Spare: round(float64(d.Length-d.Cut()), 3)}
			for i, c := range d.Cuts {
				drum.Cuts = append(drum.Cuts, CutRow{d.Runs[i].Label, round(float64(c), 3)})
			}
			row.Drums = append(row.Drums, drum)
		}
		out = append(out, row)
	}
	return out
}

// text writes one plan: the sum, then a line a drum.
func (p PlanRow) text(w io.Writer) {
	if p.Bought == nil || p.LeftOver == nil {
		fmt.Fprintf(w, "\n%s: not planned, so what to buy is not known: too many pieces for the coils, or too long\n", p.PlanCable)
		return
	}
	fmt.Fprintf(w, "\n%s: buy %.1f m, %.1f m left over", p.PlanCable, *p.Bought, *p.LeftOver)
	if p.Price == nil {
		fmt.Fprint(w, "; no price known: least cable bought")
	} else {
		fmt.Fprintf(w, "; price %.2f", *p.Price)
	}
	if !p.Least {
		fmt.Fprint(w, " (a better plan may exist)")
	}
	fmt.Fprintln(w)
	for _, d := range p.Drums {
		cuts := make([]string, len(d.Cuts))
		for i, c := range d.Cuts {
			cuts[i] = fmt.Sprintf("%s %.1f", c.Run, c.Cut)
		}
		spare := fmt.Sprintf("leaves %.1f", d.Spare)
		if d.Kind == drumKinds[layout.ToLength] {
			spare = "exactly"
		}
		fmt.Fprintf(w, "  %-9s %5.1f m %s: %s\n", d.Kind, d.Length, spare, strings.Join(cuts, ", "))
	}
}
