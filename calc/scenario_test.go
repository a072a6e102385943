package calc_test

import (
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/calc/internal/testnet"
	q "duskwire/calc/quantity"
)

func input(text string) calc.Input {
	return calc.Input{Net: testnet.Net(text), Rules: testnet.Rules(), Catalog: testnet.Shared(), Country: "England"}
}

func point(t *testing.T, r *calc.Result, id string) calc.Point {
	t.Helper()
	for _, p := range r.Points {
		if p.ID == id {
			return p
		}
	}
	t.Fatalf("no point %s", id)
	return calc.Point{}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if d := got - want; d > tol || d < -tol {
		t.Errorf("%s = %v, want %v ± %v", what, got, want, tol)
	}
}

// levels returns the worst level of each code.
func levels(r *calc.Result) map[finding.Code]finding.Level {
	out := map[finding.Code]finding.Level{}
	for _, f := range r.Findings {
		out[f.Code] = max(out[f.Code], f.Level)
	}
	return out
}

// The scenarios are trade notes section 9, 1 to 4, as nets. Lengths are the
// needed ones given there. Whole files of them are tested with the plan.
const (
	terrace = `spur TN-C-S ze=0.30 zs=0.60
	board b16-rcbo-30
	fuse fuse-3
	R1 SP1 L1 swa-3x1.5 8.505 D; R2 L1 L2 swa-3x1.5 1.575 C; R3 L2 L3 swa-3x1.5 1.575 C; R4 L3 L4 swa-3x1.5 1.575 C
	L1 = brick; L2 = brick; L3 = brick; L4 = brick`

	cottage = `way TT ra=180 pfc=900
	board %s
	R1 SP1 L1 swa-3x1.5 15 D; R2 L1 L2 swa-3x1.5 3 D; R3 L2 L3 swa-3x1.5 3 D
	indoor te-1.5 0 C
	L1 = post; L2 = post; L3 = post`

	gate = `way TN-C-S ze=0.35
	board %s
	indoor te-2.5 0 C
	R1 SP1 L1 %s 92.5 D; R2 L1 L2 %s 7.5 D
	L1 = pillar; L2 = pillar`
)

// border is scenario 2: ten spikes of one kind on one chain.
func border(cable, lamp string) calc.Input {
	var s strings.Builder
	s.WriteString("spur TN-C-S ze=0.3 zs=0.6\nboard b16-rcbo-30\nfuse fuse-3\nS1 = dc100\nR1 SP1 S1 swa-3x1.5 1 C\nR2 S1+ L1 " + cable + " 5 D\n")
	for i := 1; i <= 10; i++ {
		l := "L" + string(rune('0'+i))
		if i == 10 {
			l = "L10"
		}
		s.WriteString(l + " = " + lamp + "\n")
		if i > 1 {
			prev := "L" + string(rune('0'+i-1))
			s.WriteString("R" + l + " " + prev + " " + l + " " + cable + " 3 D\n")
		}
	}
	in := input(s.String())
	in.Net.Site.Conductor = q.Some(q.Celsius(20)) // the notes count at 20 °C
	return in
}

func TestTerraceRaisesNoFalseAlarm(t *testing.T) {
	in := input(terrace)
	r := calc.Evaluate(in)
	for _, f := range r.Findings {
		if f.Level > finding.Note {
			t.Errorf("%v %s: %s", f.Level, f.Code, f.Text)
		}
	}
	// 12 W / (230 × 0.5) = 0.104 A; Zs hot = 0.60 + 13.2 × 24.2 × 1.28/1000 =
	// 1.01 Ω; R1+R2 cold 0.32 Ω.
	near(t, "current", float64(r.Runs[0].Current), 0.1043, 0.0005)
	p := point(t, r, "L4")
	near(t, "Zs", float64(p.Loop.Hot), 1.01, 0.005)
	near(t, "R1+R2 cold", float64(p.Loop.R1R2Cold), 0.32, 0.002)
	near(t, "limit", float64(p.Limit.Value), 15.6, 1e-9)
	// The notes take the drop without phase: 0.104 A × 13.2 m × 31 mV = 0.04 V.
	// At power factor 0.5 only half of that lowers the volts, and the current
	// falls along the chain: below.
	if p.Drop <= 0 || p.Drop > 0.04 {
		t.Errorf("drop %v", p.Drop)
	}
	if lv := levels(r)["NTF-01"]; lv != finding.Note {
		t.Errorf("NTF-01 %v", lv)
	}
}

func TestBorderGoesDim(t *testing.T) {
	for _, row := range []struct {
		cable, lamp string
		volts       float64
	}{
		{"elv-2x1.5", "spike-c", 10.13}, {"elv-2x1.5", "spike", 9.79},
		{"elv-2x2.5", "spike-c", 10.86}, {"elv-2x2.5", "spike", 10.75},
		{"elv-2x4", "spike-c", 11.29},
	} {
		r := calc.Evaluate(border(row.cable, row.lamp))
		near(t, row.cable+" "+row.lamp, float64(point(t, r, "L10").Voltage), row.volts, 0.006)
	}
	r := calc.Evaluate(border("elv-2x1.5", "spike-c"))
	near(t, "fourth lamp", float64(point(t, r, "L4").Voltage), 10.77, 0.006)
	for _, f := range r.Findings {
		if f.Code != "VD-03" {
			continue
		}
		// Lamps 4 to 10 are under 10.8 V: L10 is the worst, six are listed.
		if f.Subject.ID != "L10" || len(f.Also) != 6 || f.Also[0].ID != "L4" {
			t.Errorf("VD-03 about %v with %v", f.Subject, f.Also)
		}
	}
	near(t, "constant power current", float64(calc.Evaluate(border("elv-2x1.5", "spike")).Runs[1].Current), 4.8, 0.05)
	want := map[finding.Code]finding.Level{"VD-02": finding.Decide, "VD-03": finding.Stop}
	for code, lv := range want {
		if got := levels(r)[code]; got != lv {
			t.Errorf("%s %v, want %v", code, got, lv)
		}
	}
}

func TestCottageOnItsRod(t *testing.T) {
	r := calc.Evaluate(input(strings.Replace(cottage, "%s", "rcd-100-s b6", 1)))
	got := levels(r)
	for code, want := range map[finding.Code]finding.Level{
		"RCD-01": finding.Stop, "FLT-06": finding.Note, "FLT-05": finding.Held, "FLT-07": finding.Held, "FLT-01": finding.Held, "VD-01": finding.Held,
	} {
		if got[code] != want {
			t.Errorf("%s %v, want %v", code, got[code], want)
		}
	}
	r = calc.Evaluate(input(strings.Replace(cottage, "%s", "b6-rcbo-30", 1)))
	for code, lv := range levels(r) {
		if lv == finding.Stop {
			t.Errorf("with the RCBO still %s", code)
		}
	}
	// 180 × 0.1 = 18 V and 180 × 0.03 = 5.4 V: both within 50 V.
	near(t, "limit of 30 mA", float64(point(t, r, "L3").Limit.Value), 1667, 0.5)
}

func TestGateIsFarAway(t *testing.T) {
	build := func(device, cable string) *calc.Result {
		text := strings.Replace(gate, "%s", device, 1)
		return calc.Evaluate(input(strings.ReplaceAll(text, "%s", cable)))
	}
	r := build("b6-rcbo-30", "swa-3x1.5")
	p := point(t, r, "L2")
	near(t, "R1+R2 cold", float64(p.Loop.R1R2Cold), 2.42, 0.005)
	near(t, "Zs hot", float64(p.Loop.Hot), 3.45, 0.005)
	near(t, "Zs cold", float64(p.Loop.Cold), 2.77, 0.005)
	for _, row := range []struct {
		device, cable string
		want          finding.Level
	}{
		{"b6-rcbo-30", "swa-3x1.5", finding.Held}, {"b10-rcbo-30", "swa-3x1.5", finding.Held},
		{"b16-rcbo-30", "swa-3x1.5", finding.Stop}, {"c10-rcbo-30", "swa-3x1.5", finding.Stop},
		{"b16-rcbo-30", "swa-3x2.5", finding.Held}, {"c10-rcbo-30", "swa-3x2.5", finding.Stop},
	} {
		if got := levels(build(row.device, row.cable))["FLT-01"]; got != row.want {
			t.Errorf("%s on %s: %v, want %v", row.cable, row.device, got, row.want)
		}
	}
	if lv := levels(r)["EAR-01"]; lv != finding.Decide {
		t.Errorf("EAR-01 %v", lv)
	}
	near(t, "2.5 mm² Zs", float64(point(t, build("b16-rcbo-30", "swa-3x2.5"), "L2").Loop.Hot), 2.25, 0.005)
	// The proposal for the long run is that 2.5 mm².
	if pr := build("b16-rcbo-30", "swa-3x1.5").Runs[0].Proposal; pr.Cable == nil || pr.Cable.Key != "swa-3x2.5" || pr.Binds != "FLT-01" {
		t.Errorf("proposal %+v", pr)
	}
}
