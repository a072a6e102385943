package check_test

import (
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Fuse behind a breaker. From the trade reference: 3 A behind B32 both may open
// from 96 A, 13 A behind B16 from 48 A; 230 V · 1.1 / 0.3 Ω = 843.3 A at most at
// the point of the unit. A 13 A link opens from 24.7 A, a B16 holds 18.08 A: on
// overload the breaker goes first; behind B32 (36.16 A) it does not.
func TestFuseBehindBreaker(t *testing.T) {
	for _, row := range []struct {
		name, net string
		want      finding.Level
		figure    string
		says      []string
	}{
		{"3 A behind B32", "spur TN-S zs=0.3 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick",
			finding.Note, "96 A to 843 A", []string{"96 A", "may open with it or instead"}},
		{"13 A behind B16", "spur TN-S zs=0.3 ; board b16-rcbo-30 ; fuse fuse-13 ; R1 SP1 L1 swa-3x2.5 20 D ; L1 = brick",
			finding.Note, "48 A to 843 A", []string{"on overload B16 RCBO opens first", "opens from 24.7 A", "holds up to 18.08 A"}},
		{"13 A behind B32", "spur TN-S zs=0.3 ; board b32-rcbo-30 ; fuse fuse-13 ; R1 SP1 L1 swa-3x2.5 20 D ; L1 = brick",
			finding.Note, "96 A to 843 A", []string{"may take up to 20 s"}},
		{"largest current below the band", "spur TN-S zs=2.7 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick",
			finding.Held, "", nil},
		{"below the band, but overload", "spur TN-S zs=2.7 ; board b32-rcbo-30 ; fuse fuse-13 ; R1 SP1 L1 swa-3x2.5 20 D ; L1 = brick",
			finding.Held, "", nil},
		{"current not known", "way TT ra=50 ; board b32-rcbo-30 ; indoor te-6 1 C ; R1 SP1 G1 swa-3x6 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = fuse-3 ; L1 = brick",
			finding.Note, "", []string{"of 96 A or more, B32 RCBO may"}},
		{"nothing in series", clean, finding.Held, "", nil},
	} {
		r := calc.Evaluate(input(row.net))
		if got := levelOf(r, "SEL-01"); got != row.want {
			t.Errorf("%s: %v, want %v: %v", row.name, got, row.want, found(r, "SEL-01"))
			continue
		}
		if row.want == finding.Held {
			continue
		}
		f := one(t, r, "SEL-01")
		if f.Figure != row.figure {
			t.Errorf("%s: figure %q, want %q", row.name, f.Figure, row.figure)
		}
		for _, w := range row.says {
			if !strings.Contains(f.Text+"\n"+f.Working, w) {
				t.Errorf("%s lacks %q: %s\n%s", row.name, w, f.Text, f.Working)
			}
		}
	}
}

// The band's lower end just above and at the largest current.
func TestBandEdge(t *testing.T) {
	net := "spur TN-S zs=0.3 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick"
	const most = 230 * 1.1 / 0.3
	for _, row := range []struct {
		from float64
		want finding.Level
	}{{most * 1.001, finding.Held}, {most * 0.999, finding.Note}} {
		in := input(net)
		in.Rules.Protect.Multiples[0].Least = row.from / 32
		if got := levelOf(calc.Evaluate(in), "SEL-01"); got != row.want {
			t.Errorf("band from %v A of %v A: %v, want %v", row.from, most, got, row.want)
		}
	}
}

// Residual devices in series: type S ahead and 3 : 1. Source: BS 7671
// 536.4.1.4 (from memory).
func TestResidualInSeries(t *testing.T) {
	for _, row := range []struct {
		name, net, subject string
		want               finding.Level
	}{
		{"100 mA delayed ahead of 30 mA", delayed, "", finding.Held},
		{"30 mA ahead of 30 mA at the board", "way TN-S ze=0.3 ; board rcd-30 b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick", "SP1", finding.Decide},
		{"30 mA in the garden", "way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = rcd-30 ; L1 = brick", "G1", finding.Decide},
		{"30 mA in the garden behind 100 mA delayed", "way TN-S ze=0.3 ; board rcd-100-s b6 ; indoor te-2.5 5 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = rcd-30 ; L1 = brick", "", finding.Held},
		{"one alone", clean, "", finding.Held},
	} {
		r := calc.Evaluate(input(row.net))
		if got := levelOf(r, "SEL-02"); got != row.want {
			t.Errorf("%s: %v, want %v", row.name, got, row.want)
		} else if got > finding.Held {
			if f := one(t, r, "SEL-02"); f.Subject.ID != row.subject || len(f.Remedies) != 2 {
				t.Errorf("%s: about %v with %d remedies", row.name, f.Subject, len(f.Remedies))
			}
		}
	}
	in := input(delayed)
	in.Rules.Limits.ResidualRatio.Value = 0
	in.Net.Nodes[0].Devices[0].Delayed = false
	if got := levelOf(calc.Evaluate(in), "SEL-02"); got != finding.Held {
		t.Errorf("a rule set that does not ask: %v", got)
	}
}

// Overload protection left out: 25 A device, Iz 20.3 A. Each row takes away one
// of the conditions of 433.3.1 and 434.
func TestOverloadOmitted(t *testing.T) {
	net := "way TN-S ze=0.3 ; board b25 ; indoor te-16 0 C ; R1 SP1 L1 te-2.5 18 C ; L1 = flood"
	source := "spur TN-S zs=0.3 ; board b32-rcbo-30 ; fuse fuse-13 ; R1 SP1 S1 flex-3x1 18 C ; R2 S1+ L1 elv-2x6 1 C ; S1 = dc100 ; L1 = spike"
	for _, row := range []struct {
		name, net string
		change    func(in *calc.Input)
		want      finding.Level
		explain   string
	}{
		{"fixed load of 2.2 A", net, warm, finding.Decide, "may do without overload protection"},
		{"a lamp in a holder", strings.Replace(net, "flood", "globe", 1), warm, finding.Stop, "L1 takes a lamp"},
		{"more load than the cable carries", net, func(in *calc.Input) { warm(in); *in = heavy(*in, 5800) }, finding.Stop, "itself more than the cable carries"},
		{"no proof of the short circuit", net, func(in *calc.Input) { warm(in); in.Rules.Protect.K[0].K = 1 }, finding.Stop, "ADI-01"},
		{"a source within the cable at its rating", source, func(*calc.Input) {}, finding.Decide, "may do without overload protection"},
		{"a source larger than the cable", source, func(in *calc.Input) {
			big := *in.Net.Branches[1].Converter
			big.Rated = 2100
			in.Net.Branches[1].Converter = &big
		}, finding.Stop, "itself more"},
	} {
		in := input(row.net)
		row.change(&in)
		r := calc.Evaluate(in)
		if got := levelOf(r, "CAP-02"); got != row.want {
			t.Errorf("%s: CAP-02 %v, want %v: %v", row.name, got, row.want, found(r, "CAP-02"))
		}
		if len(found(r, "CAP-04")) != 0 {
			t.Errorf("%s: CAP-04 speaks up by itself", row.name)
		}
		told := ""
		for _, f := range calc.Explain(in, r, "R1") {
			if f.Code == "CAP-04" {
				told = f.Text + f.Working
			}
		}
		if !strings.Contains(told, row.explain) {
			t.Errorf("%s: explained by %q, want %q in it", row.name, told, row.explain)
		}
	}
}

// warm puts the run into 35 °C air beside another: 27 A · 0.94 · 0.80.
func warm(in *calc.Input) {
	in.Net.Site.Air = q.Celsius(35)
	leg := &in.Net.Branches[1].Legs[0]
	leg.Support, leg.Group = network.Indoors, 2
}

// R1+R2 on the day of the test: copper by (234.5 + t)/254.5, armour by steel's
// own coefficient. 20 m of 1.5 mm²: 24.2 mΩ/m with a core, at 5 °C times
// 239.5/254.5; 2-core with armour 12.1 and 1.1 · 10.2 mΩ/m.
func TestTestDayReading(t *testing.T) {
	for _, row := range []struct {
		cable   string
		celsius float64
		want    float64
	}{
		{"swa-3x1.5", 20, 0.484}, {"swa-3x1.5", 5, 0.484 * 239.5 / 254.5}, {"swa-3x1.5", 25, 0.484 * 259.5 / 254.5},
		{"swa-2x1.5", 5, 20 * (12.1*239.5/254.5 + 1.1*10.2*(1-0.0045*15)) / 1e3},
	} {
		in := input("spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 " + row.cable + " 20 D ; L1 = brick")
		in.Net.Site.Test = q.Celsius(row.celsius)
		p := point(t, calc.Evaluate(in), "L1")
		if !p.R1R2Test.Known {
			t.Fatalf("%s: not known", row.cable)
		}
		near(t, row.cable, float64(p.R1R2Test.Value), row.want, 1e-9)
	}
}

// The expected voltage lies above the proof and below the start: 20 °C wire has
// less resistance than the table's. 500 W over 30 m of 1.5 mm² clipped in 30 °C
// air: It 21 A (70 °C terminals), Ib 2.17 A, t1 = 70 - (1 - Ib²/It²)·40.
func TestExpectedVoltage(t *testing.T) {
	in := input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-16 0 C ; R1 SP1 L1 swa-3x1.5 30 C ; L1 = flood")
	in.Net.Site.Air = q.Celsius(30)
	r := calc.Evaluate(in)
	p, x := point(t, r, "L1"), run(t, r, "R1")
	ib := float64(x.Current)
	t1 := 70 - (1-ib*ib/441)*40
	near(t, "conductor °C", x.Operating.Value.Celsius(), t1, 1e-6)
	near(t, "expected drop", 230-float64(p.Expected.Value), float64(p.Drop)*(230+t1)/320, 1e-9)
	if !(p.Expected.Value > p.Voltage) || p.Expected.Value >= 230 {
		t.Errorf("expected %v beside the proof %v", p.Expected.Value, p.Voltage)
	}
}
