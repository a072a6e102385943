package check_test

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// 435.1: a breaker that protects the cable against overload and breaks the
// fault current is taken to spare its line conductors; 1.5 mm² of k = 115 stands
// 29756 A²s, and the class 3 bound of a B10 of 6 kA is 35000 A²s.
func TestLineCoreByOneDevice(t *testing.T) {
	const net = "way TN-S ze=0.25 ; board b10 ; indoor te-1.5 6 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick"
	for _, row := range []struct {
		name   string
		change func(in *calc.Input)
		want   finding.Level
	}{
		{"protected against overload too", func(*calc.Input) {}, finding.Held},
		{"breaking capacity not known", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Breaking = 0 }, finding.Decide},
		{"more current than it breaks", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Breaking = 1000 }, finding.Decide},
		{"fault current not known", func(in *calc.Input) { in.Net.Supply.Ze = q.Maybe[q.Ohm]{} }, finding.Decide},
		{"more than the cable carries", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Rating = 32 }, finding.Decide},
		{"type D", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Curve = "D" }, finding.Decide},
	} {
		in := input(net)
		row.change(&in)
		r := calc.Evaluate(in)
		if got := levelOf(r, "ADI-01"); got != row.want {
			t.Errorf("%s: %v, want %v: %v", row.name, got, row.want, found(r, "ADI-01"))
		}
	}
	in := input(net)
	r := calc.Evaluate(in)
	told := false
	for _, f := range calc.Explain(in, r, "SP1") {
		if f.Code == "ADI-01" {
			told = f.Level == finding.Held && strings.Contains(f.Working, "435.1") && !strings.Contains(f.Working, "exceeds")
		}
	}
	if !told {
		t.Error("the working does not say by which rule the line core holds")
	}
}

// One finding for each reason: glands to change are not counted with those that
// lie below ground, whatever their kind.
func TestGlandsBySort(t *testing.T) {
	in := input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 B1 swa-3x1.5 9 C from:BW ; R2 B1 L1 swa-3x1.5 3 C ; B1 = h=-0.3 ; L1 = brick")
	var got []finding.Finding
	for _, f := range calc.Evaluate(in).Findings {
		if f.Code == "GLD-01" {
			got = append(got, f)
		}
	}
	if len(got) != 1 || strings.Count(got[0].Text, "gland of") != 2 {
		t.Fatalf("one run, two reasons: %v", got)
	}
	for _, rem := range got[0].Remedies {
		if strings.HasPrefix(rem.Text, "use CW") && rem.Figure != "1 gland" {
			t.Errorf("glands to change: %v, want 1", rem.Figure)
		}
	}
}

// Watts are compared with watts.
func TestLeastLoadInWatts(t *testing.T) {
	in := input("spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x2.5 5 C ; S1 = ac60 ; L1 = spike")
	cv := *in.Net.Branches[1].Converter
	cv.MinimumLoad = 20
	in.Net.Branches[1].Converter = &cv
	if f := one(t, calc.Evaluate(in), "SRC-01"); !strings.HasSuffix(f.Figure, " W") || !strings.Contains(f.Text, " W; it needs 20 W") {
		t.Errorf("least load: %q, %q", f.Figure, f.Text)
	}
}

// A source is one box: its output asks for no degree of protection of its own.
func TestSourceOnce(t *testing.T) {
	p := newPlot(siteLow)
	p.src.IP, p.src.Height = "IP20", 0.02
	for i := range p.in.Net.Nodes {
		if n := &p.in.Net.Nodes[i]; n.Kind == network.SecondaryNode {
			n.IP, n.Height = "IP20", 0.02
		}
	}
	f := one(t, calc.Evaluate(p.in), "IPX-01")
	if f.Limit != "IP67" || strings.Contains(f.Text, "IP44") {
		t.Errorf("%q: %q", f.Limit, f.Text)
	}
}

// The same way out is told once.
func TestRemediesOnce(t *testing.T) {
	p := newPlot(siteMains)
	p.leg.Depth = 0.32
	p.route.Stretches = []network.Stretch{
		{Ground: "dug bed", Area: area("A1"), Length: 4, Dig: 0.3}, {Ground: "lawn", Area: area("A2"), Length: 4, Dig: 0.1},
	}
	f := one(t, calc.Evaluate(p.in), "DIG-01")
	seen := map[string]bool{}
	for _, rem := range f.Remedies {
		if seen[rem.Text+rem.Figure] {
			t.Errorf("told twice: %s", rem.Text)
		}
		seen[rem.Text+rem.Figure] = true
	}
	if len(f.Remedies) != 4 {
		t.Errorf("%d remedies: %v", len(f.Remedies), f.Remedies)
	}
}

// One zone behind a spur unit with a switch is switched there.
func TestZoneOnSpurSwitch(t *testing.T) {
	const net = "spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 5 C ; R2 L1 L2 swa-3x1.5 5 C ; L1 = brick ; L2 = brick ; zone Z1 L1"
	for _, row := range []struct {
		name     string
		net      string
		switched bool
		want     finding.Level
	}{
		{"one zone, a switch", net, true, finding.Held},
		{"one zone, no switch said", net, false, finding.Note},
		{"two zones on one switch", net + " ; zone Z2 L2", true, finding.Note},
	} {
		in := input(row.net)
		in.Net.Supply.Switched = row.switched
		if got := levelOf(calc.Evaluate(in), "CTL-04"); got != row.want {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		}
	}
}

// Where a path is broken twice, text and working name the same break.
func TestBreaksNamed(t *testing.T) {
	in := input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 B1 swa-2x1.5 9 C ; R2 B1 L1 swa-2x1.5 3 C from:untagged ; B1 = unlinked ; L1 = post")
	f := one(t, calc.Evaluate(in), "EAR-02")
	why := strings.SplitN(f.Text, ": ", 2)[1]
	why = strings.TrimSuffix(why, ", and the path breaks there")
	if !strings.Contains(f.Working, why) {
		t.Errorf("text %q, working:\n%s", f.Text, f.Working)
	}
}

// What is shared is counted in words that agree with their number.
func TestOtherCircuitsCounted(t *testing.T) {
	in := input("spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick")
	in.Rules.Limits.SharedCircuits.Value = 1
	if f := one(t, calc.Evaluate(in), "RCD-03"); f.Figure != "1 other circuit" {
		t.Errorf("%q", f.Figure)
	}
}

// A fault current has no use for milliamperes: 253 V / 0.35 Ω = 722.857 A.
func TestFaultCurrentsRead(t *testing.T) {
	in := input("way TN-S ze=0.35 ; board b10 ; indoor te-1.5 6 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick")
	for _, f := range calc.Explain(in, calc.Evaluate(in), "SP1") {
		switch f.Code {
		case "ADI-01", "ADI-02", "BRK-01":
			if !strings.Contains(f.Working, "= 723 A") || strings.Contains(f.Working+f.Text+f.Figure, "722.857") {
				t.Errorf("%s: %s\n%s", f.Code, f.Text, f.Working)
			}
		}
	}
}

// A figure below a least value falls short; it exceeds nothing.
func TestLeastValuesFallShort(t *testing.T) {
	dim := input(dimmed)
	node(&dim, "G1").Gear.DimMin = q.Some(q.Watt(5000))
	if f := one(t, calc.Evaluate(dim), "DIM-02"); !strings.Contains(f.Working, "5000 W: falls short") {
		t.Errorf("DIM-02: %s", f.Working)
	}
	in := input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; R2 SP1 L2 swa-3x1.5 5 C ; L1 = brick ; L2 = brick")
	for b := range in.Net.Branches {
		switch br := &in.Net.Branches[b]; br.ID {
		case "R1":
			br.Sheath = []finding.Subject{{ID: "R2", Label: "R2"}}
		case "R2":
			br.Sheath = []finding.Subject{{ID: "R1", Label: "R1"}}
		}
	}
	f := one(t, calc.Evaluate(in), "NEU-01")
	if !strings.Contains(f.Working, "3 of at least 4: falls short") {
		t.Errorf("NEU-01: %s", f.Working)
	}
	for _, rem := range f.Remedies {
		if rem.Text == "feed both from one device" {
			t.Error("NEU-01: both are behind one device already")
		}
	}
}

// What is missing behind a source that is not separated is not to be measured.
func TestUnseparatedLoopRemedy(t *testing.T) {
	in := input("spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x2.5 5 C ; S1 = felv ; L1 = spike")
	f := one(t, calc.Evaluate(in), "FLT-03")
	if len(f.Remedies) != 1 || !strings.Contains(f.Remedies[0].Text, "separated source") {
		t.Errorf("%v", f.Remedies)
	}
}

// What a thicker cable would save is promised only where the currents stay or
// fall: a filament lamp draws more on more volts.
func TestNoPromiseForFilaments(t *testing.T) {
	for lamp, promised := range map[string]bool{"spike": true, "spike-c": true, "halogen": false} {
		figures := 0
		r := calc.Evaluate(input("spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-13 ; S1 = dc100 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x1.5 60 C ; L1 = " + lamp))
		for _, f := range r.Findings {
			if f.Code != "VD-02" && f.Code != "VD-03" {
				continue
			}
			for _, rem := range f.Remedies {
				if rem.Figure != "" {
					figures++
				}
			}
		}
		if (figures > 0) != promised {
			t.Errorf("%s: %d remedies with a figure, want some: %v", lamp, figures, promised)
		}
	}
}

// VD-04 says how much may be lost ahead until VD-01 turns: less than the 3 % of
// 230 V.
func TestDropAheadHasAFigure(t *testing.T) {
	in := input(spur)
	f := one(t, calc.Evaluate(in), "VD-04")
	if len(f.Remedies) != 1 || !strings.Contains(f.Remedies[0].Figure, "before VD-01 turns") {
		t.Fatalf("%+v", f.Remedies)
	}
	var volts float64
	if _, err := fmt.Sscanf(f.Remedies[0].Figure, "up to %g V", &volts); err != nil || volts <= 0 || volts > 6.9 {
		t.Errorf("%q of the 6.9 V that 3 %% of 230 V are", f.Remedies[0].Figure)
	}
}
