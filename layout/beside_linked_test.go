package layout_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/layout/doc"
)

// TestLinksOn: where every run of the way is armoured beside a core, a reading taken
// with the links on, core and armour side by side, is no finding, and the expected
// figure and the limit are of the core alone. Both by the tables: cores 12.1 mΩ/m
// (IEC 60228, 1.5 mm²), the core c and armour a of a metre read c·a/(c + a).
func TestLinksOn(t *testing.T) {
	d := scenario(t, "4-gate.yaml")
	f := d.Frame()
	net := f.Circuits.Circuits[0].Input.Net
	row := enter(t, d, "L2", judge.R1R2, "2.41")
	c := row.Ask.(judge.Continuity)
	core, both := 0.0, 0.0
	for i := range net.Branches {
		br := &net.Branches[i]
		if br.ID == "" || !br.Armoured() || net.Nodes[br.To].System != 0 {
			continue
		}
		x, a := float64(br.Cable.EarthR20)*float64(br.Length), float64(br.Cable.ArmourR20)*float64(br.Length)
		core, both = core+x, both+x*a/(x+a)
	}
	if core == 0 || math.Abs(float64(c.Beside.Core)-core) > 1e-9 || math.Abs(float64(c.Beside.Both)-both) > 1e-9 {
		t.Fatalf("beside %+v, want %g and %g Ω", c.Beside, core, both)
	}
	linked := float64(c.Cold) - core + both
	enter(t, d, "L2", judge.R1R2, judge.Value{SI: math.Round(linked*100) / 100}.Text(judge.R1R2))
	if got := codes(d.Frame(), finding.Stop) + codes(d.Frame(), finding.Decide); strings.Contains(got, "TST") {
		t.Errorf("%.2f Ω, core and armour side by side, raises %s", linked, got)
	}
	j, _ := d.Tests().Judge(d.Tests().Row(doc.Asked{On: row.On, Test: judge.R1R2}))
	if j.Verdict != judge.Unjudged || !strings.Contains(j.Working, "core alone") {
		t.Errorf("%.2f Ω is %q: %s", linked, j.Verdict, j.Working)
	}
	enter(t, d, "L2", judge.R1R2, "0.2")
	if got := codes(d.Frame(), finding.Decide); !strings.Contains(got, "TST-02") {
		t.Errorf("0.2 Ω raises %q, want TST-02", got)
	}
}
