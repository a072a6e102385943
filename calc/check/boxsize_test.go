package check_test

import (
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/finding"
)

// BOX-08, trade notes 3.5: 2 cables 85 to 100 mm square, 3 or 4 110 to 125 mm, 5
// or 6 150 mm or more (common practice). Beyond six nothing is known.
func TestBoxSize(t *testing.T) {
	for _, row := range []struct {
		side   string
		cables int
		want   finding.Level
		remedy string
	}{
		{"0.085", 2, finding.Held, ""}, {"0.084", 2, finding.Decide, "at least 85 mm square"},
		{"0.085", 3, finding.Decide, "at least 110 mm square"}, {"0.1", 2, finding.Held, ""}, {"0.109", 3, finding.Decide, "at least 110 mm square"},
		{"0.11", 3, finding.Held, ""}, {"0.11", 4, finding.Held, ""}, {"0.125", 5, finding.Decide, "at least 150 mm square"},
		{"0.149", 5, finding.Decide, "at least 150 mm square"}, {"0.15", 5, finding.Held, ""}, {"0.15", 6, finding.Held, ""},
		{"0.15", 7, finding.Decide, "2 cables or more"}, {"0.2", 7, finding.Decide, "2 cables or more"}, {"0", 9, finding.Held, ""},
	} {
		in := input(way + boxed("entries=12,side="+row.side, "brick", row.cables-1))
		r := calc.Evaluate(in)
		if got := levelOf(r, "BOX-08"); got != row.want {
			t.Errorf("%d cables in %s m: %v, want %v", row.cables, row.side, got, row.want)
		}
		if row.want > finding.Held {
			if f := one(t, r, "BOX-08"); len(f.Remedies) == 0 || f.Remedies[0].Figure != row.remedy {
				t.Errorf("%d cables in %s m: %+v", row.cables, row.side, f.Remedies)
			}
		}
	}
}

// Connectors, trade notes 3.5 (derived there): one in, one out and a lamp on one
// circuit take L, N and CPC of three ways each and the armour link: 4 connectors.
func TestConnectors(t *testing.T) {
	for _, row := range []struct{ net, want string }{
		{way + boxed("entries=4,side=0.11", "brick", 2), "L 3-way, N 3-way, protective conductor 3-way, armour link 3-way: 4"},
		{way + boxed("entries=4,side=0.12,metal", "brick", 2), "L 3-way, N 3-way, protective conductor 3-way: 3"},
		{strings.ReplaceAll(way+boxed("entries=4,side=0.11", "brick", 2), "swa-3x1.5", "swa-2x1.5"), "L 3-way, N 3-way, armour link 3-way: 3"},
		{"spur TN-S zs=0.6 load=2 ; board b32-rcbo-30 ; indoor te-2.5 9 C ; fuse fuse-3 ; S1 = dc60 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ B1 elv-2x2.5 5 C ; R3 B1 L1 elv-2x2.5 5 C ; B1 = entries=4,side=0.085 ; L1 = spike", "+ 2-way, - 2-way: 2"},
	} {
		in := input(row.net)
		found := false
		for _, f := range calc.Explain(in, calc.Evaluate(in), "B1") {
			found = found || f.Code == "BOX-08" && strings.Contains(f.Working, "connectors for this circuit: "+row.want+"\n") ||
				strings.HasSuffix(f.Working, "connectors for this circuit: "+row.want)
		}
		if !found {
			t.Errorf("no working says %q", row.want)
		}
	}
}
