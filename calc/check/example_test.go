package check_test

import (
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// heavy gives the one lamp of a net a load of constant current at 230 V.
func heavy(in calc.Input, watts q.Watt) calc.Input {
	n := &in.Net.Nodes[len(in.Net.Nodes)-1]
	n.Loads = []network.Load{{Law: network.ConstantCurrent, Power: watts, PowerFactor: 1, Nominal: 230}}
	return in
}

// "determining the csa of the cpc", 5 kW, In 25 A, Ca 0.94, Cg 0.80, Ci
// 0.51: It must be 65.18 A; 10 mm² (64 A) falls just short, the reply says
// 16 mm². Drop at 4.4 mV: 1.72 V. Source: published worked example, public
// forum thread of that title (found).
func TestWorkedExampleTableValue(t *testing.T) {
	build := func(cable string) *calc.Result {
		in := heavy(input("way TN-S ze=0.2 ; board b25 ; indoor te-16 0.01 C ; R1 SP1 L1 "+cable+" 18 C ; L1 = flood"), 5000)
		in.Net.Site.Air = q.Celsius(35)
		leg := &in.Net.Branches[1].Legs[0]
		leg.Support, leg.Group, leg.Insulated = network.Indoors, 2, 0.3
		return calc.Evaluate(in)
	}
	r := build("te-10")
	near(t, "Ib", float64(run(t, r, "R1").Current), 21.739, 0.001)
	near(t, "drop", float64(point(t, r, "L1").Drop), 1.7217, 0.02) // and the stub of the house leg
	near(t, "In/(Ca·Cg·Ci)", 25*64/float64(run(t, r, "R1").Capacity.Iz), 65.185, 0.001)
	f := one(t, r, "CAP-02")
	// The load of the example is of a fixed size, which leaves overload
	// protection to decide (433.3.1); what the cable lacks is said all the same.
	if f.Level != finding.Decide || f.Subject.ID != "R1" || f.Figure != "24.545 A" || f.Limit != "at least 25 A" {
		t.Errorf("10 mm²: %v %v, %s of %s", f.Level, f.Subject, f.Figure, f.Limit)
	}
	for _, want := range []string{"64 A × 0.94 × 0.8 × 0.51", "25 A", "24.545 A"} {
		if !strings.Contains(f.Working, want) {
			t.Errorf("working lacks %q:\n%s", want, f.Working)
		}
	}
	if len(f.Remedies) == 0 || f.Remedies[0].Action == nil || f.Remedies[0].Action.Value != "te-16" {
		t.Errorf("remedies %v, want te-16 first", f.Remedies)
	}
	if lv := levelOf(build("te-16"), "CAP-02"); lv != finding.Held {
		t.Errorf("16 mm²: %v", lv)
	}
}

// summerhouse, 21.74 A over 40 m of 4 mm² at 12 mV: 10.44 V, over the
// lighting limit of 6.9 V; 6 mm² at 7.9 mV: 6.87 V, just within. Source:
// published worked example, public forum thread "Summerhouse electric supply"
// (found).
func TestWorkedExampleDrop(t *testing.T) {
	build := func(cable string) *calc.Result {
		return calc.Evaluate(heavy(input("way TN-S ze=0.2 ; board b25 ; indoor te-16 0 C ; R1 SP1 L1 "+cable+" 40 C ; L1 = flood"), 5000))
	}
	r := build("swa-2x4")
	near(t, "drop 4 mm²", float64(point(t, r, "L1").Drop), 10.435, 0.001)
	f := one(t, r, "VD-01")
	if f.Level != finding.Stop || f.Figure != "4.54 %" || f.Limit != "3 %" {
		t.Errorf("%v %s of %s", f.Level, f.Figure, f.Limit)
	}
	for _, want := range []string{"12 × 21.739 × 40 = 10.435 V", "6.9 V"} {
		if !strings.Contains(f.Working, want) {
			t.Errorf("working lacks %q:\n%s", want, f.Working)
		}
	}
	if a := f.Remedies[0].Action; a == nil || a.Value != "swa-2x6" || a.ID != "R1" {
		t.Errorf("remedy %+v, want swa-2x6 for R1", f.Remedies[0])
	}
	if f.Remedies[0].Figure != "2.99 % at L1" {
		t.Errorf("figure of the remedy %q", f.Remedies[0].Figure)
	}
	r = build("swa-2x6")
	near(t, "drop 6 mm²", float64(point(t, r, "L1").Drop), 6.870, 0.001)
	if lv := levelOf(r, "VD-01"); lv != finding.Held {
		t.Errorf("6 mm²: %v", lv)
	}
}

// The long-run allowance: 0.005 % per metre beyond 100 m, at most 0.5 %.
// Source: BS 7671 Appendix 4, 6.4 note (from memory).
func TestLongRunAllowance(t *testing.T) {
	for _, row := range []struct {
		metres string
		want   float64
	}{{"100", 0.03}, {"101", 0.03005}, {"150", 0.0325}, {"200", 0.035}, {"400", 0.035}} {
		in := input("way TN-S ze=0.2 ; board b6 ; indoor te-16 0 C ; R1 SP1 L1 swa-2x16 " + row.metres + " C ; L1 = post")
		in.Rules.Limits.LightingDrop.Value = 0.03
		r := calc.Evaluate(in)
		ex := calc.Explain(in, r, "L1")
		for _, f := range ex {
			if f.Code == "VD-01" && f.Limit != q.Percent(row.want) {
				t.Errorf("%s m: limit %s, want %s", row.metres, f.Limit, q.Percent(row.want))
			}
		}
		if len(ex) == 0 {
			t.Error("nothing explained")
		}
	}
}

// Largest loops as the tables print them. Sources: BS 7671 Table 41.3 (derived,
// 218.5/Ia), BS 1362 3 A 15.6 Ω (found), 13 A 2.30 Ω (from
// memory).
func TestPointLimits(t *testing.T) {
	for _, row := range []struct {
		net   string
		print string
		want  float64
	}{
		{"way TN-S ze=0.2 ; board b6 ; indoor te-2.5 1 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "7.28", 7.2833},
		{"way TN-S ze=0.2 ; board b10 ; indoor te-2.5 1 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "4.37", 4.37},
		{"way TN-S ze=0.2 ; board b16 ; indoor te-2.5 1 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "2.73", 2.73125},
		{"way TN-S ze=0.2 ; board b32 ; indoor te-6 1 C ; R1 SP1 L1 swa-3x6 5 C ; L1 = post", "1.37", 1.365625},
		{"way TN-S ze=0.2 ; board c6 ; indoor te-2.5 1 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "3.64", 3.641667},
		{"way TN-S ze=0.2 ; board c10 ; indoor te-2.5 1 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "2.19", 2.185},
		{"spur TN-S zs=0.5 ; board b32 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "15.6", 15.6},
		{"spur TN-S zs=0.5 ; board b32 ; fuse fuse-13 ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "2.30", 2.30},
		{"way TT ra=50 ; board b6-rcbo-30 ; indoor te-2.5 1 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "1667", 50 / 0.03},
	} {
		p := point(t, calc.Evaluate(input(row.net)), "L1")
		if !p.Limit.Known {
			t.Errorf("%s: no limit", row.net)
			continue
		}
		near(t, row.net+" (prints "+row.print+")", float64(p.Limit.Value), row.want, 1e-4)
	}
}

// LEN-01: trade scenario 4, 100.0 m from a 100 m drum; and around 2 % of it.
func TestDrums(t *testing.T) {
	limits := input(clean).Rules.Limits
	for _, row := range []struct {
		drum, cut q.Metre
		want      int
	}{{100, 100, 1}, {100, 97.9, 0}, {100, 98, 0}, {100, 98.1, 1}, {50, 49, 0}, {50, 49.5, 1}, {100, 103, 1}, {0, 5, 0}} {
		got := check.Drums([]check.DrumUse{{Cable: "Armoured", Drum: row.drum, Cut: row.cut, Runs: []finding.Subject{{ID: "R1", Label: "R1"}, {ID: "R2", Label: "R2"}}}}, limits)
		if len(got) != row.want {
			t.Errorf("%v from %v: %d notes, want %d", row.cut, row.drum, len(got), row.want)
		}
		for _, f := range got {
			if f.Level != finding.Note || f.Subject.ID != "R1" || len(f.Also) != 1 || !strings.Contains(f.Working, row.cut.String()) {
				t.Errorf("note %+v", f)
			}
		}
	}
}
