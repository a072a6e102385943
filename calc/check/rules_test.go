package check_test

import (
	"slices"
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/internal/testnet"
	"duskwire/calc/network"
)

func TestAllHasEveryCodeOnce(t *testing.T) {
	seen := map[finding.Code]bool{}
	for _, r := range slices.Concat(check.All(), []check.Rule{check.DrumRule, check.PictureRule}, check.LightRules, check.MeasuredRules, check.LuxRules) {
		if r.Title == "" || seen[r.Code] {
			t.Errorf("rule %q: title %q, seen %v", r.Code, r.Title, seen[r.Code])
		}
		seen[r.Code] = true
	}
	for _, c := range strings.Fields(`CIR-01 CIR-02 CIR-03 CIR-04 CIR-05 CIR-06 CIR-07 CIR-08 CIR-09 CIR-10 CIR-11 SOL-01 SOL-02
		CAP-01 CAP-02 CAP-03 CAP-04 VD-01 VD-02 VD-03 VD-04 FLT-01 FLT-02 FLT-03 FLT-04 FLT-05 FLT-06 FLT-07 FLT-08 RCD-01
		ADI-01 ADI-02 ADI-03 SEL-01 SEL-02 BRK-01 SRC-01 SRC-02 SRC-04 SRC-05 SRC-06 SRC-07 EAR-01 EAR-02 EAR-03 EAR-04 EAR-05 EAR-06
		BOX-01 BOX-02 BOX-03 BOX-04 BOX-05 BOX-06 BOX-07 BOX-08 BOX-09 GLD-01 GLD-02 NTF-01 RCD-02 RCD-03 RCD-04 LEK-01 INR-01 INR-02 CTL-01 CTL-02 CTL-03 CTL-04 CTL-05 CTL-06
		DIM-01 DIM-02 ISO-01 LHD-01 ELV-01 SRC-03 PRT-01 LBL-01 NEU-01 LEN-01 PIC-01 LIT-01 LIT-02 LIT-03
		DIG-01 DIG-02 DIG-03 DIG-04 DIG-05 DIG-06 DIG-07 TRE-01 TRE-02 TRE-03 TRE-04 SRV-01 SRV-02 PND-01 PND-02 PND-03
		SUP-01 SUP-02 SUP-03 SUP-04 SUP-05 SUP-06 UVX-01 IPX-01 IPX-02 IPX-03 HOT-01 GLR-01 WHT-01 TST-01 TST-02 TST-03
		LUX-01 LUX-02 LUX-03 LUX-04 LUX-05 LUX-06 LUX-07 LUX-08 LUX-09 LUX-10`) {
		if !seen[finding.Code(c)] {
			t.Errorf("no rule %s", c)
		}
		delete(seen, finding.Code(c))
	}
	if len(seen) > 0 {
		t.Errorf("codes that nobody asked for: %v", seen)
	}
}

// Every kind of flaw has its code and is reported as drawn, also for a net
// that has nothing but flaws.
func TestDrawingFlaws(t *testing.T) {
	want := []struct {
		kind network.FaultKind
		code finding.Code
		lv   finding.Level
	}{
		{network.LooseLamp, "CIR-01", finding.Stop}, {network.LooseOther, "CIR-02", finding.Stop}, {network.OpenEnd, "CIR-03", finding.Stop},
		{network.LoopClosed, "CIR-04", finding.Stop}, {network.WrongVoltage, "CIR-05", finding.Stop}, {network.NoSupply, "CIR-06", finding.Stop},
		{network.SecondSupply, "CIR-07", finding.Stop}, {network.NoCable, "CIR-08", finding.Stop}, {network.NothingBeyond, "CIR-09", finding.Note},
		{network.ScaleUnchecked, "CIR-10", finding.Note},
	}
	for _, w := range want {
		s := finding.Subject{ID: "x", Label: "X1"}
		net := &network.Net{Faults: []network.Fault{{Kind: w.kind, Subject: s, Detail: "as drawn"}}}
		r := calc.Evaluate(calc.Input{Net: net, Rules: testnet.Rules()})
		if len(r.Findings) != 1 {
			t.Fatalf("%s: %d findings", w.code, len(r.Findings))
		}
		f := r.Findings[0]
		if f.Code != w.code || f.Level != w.lv || f.Subject != s || f.Text != "as drawn" || f.Working == "" {
			t.Errorf("%s: %+v", w.code, f)
		}
		if got := check.Flaw(net.Faults[0]); got.Code != w.code {
			t.Errorf("Flaw gives %s, want %s", got.Code, w.code)
		}
	}
}

// Presence rules: they have no figure to be inside of, only a yes or no.
func TestPresence(t *testing.T) {
	for _, row := range []struct {
		name, net string
		code      finding.Code
		want      finding.Level
		subject   string
	}{
		{"no residual device", "way TN-S ze=0.3 ; board b6 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "RCD-01", finding.Stop, "L1"},
		{"100 mA only", "way TN-S ze=0.3 ; board rcd-100-s b6 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "RCD-01", finding.Stop, "L1"},
		{"separate 30 mA", "way TN-S ze=0.3 ; board rcd-30 b6 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "RCD-01", finding.Held, ""},
		{"30 mA in the garden", "way TN-S ze=0.3 ; board b6 ; indoor te-2.5 5 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = rcd-30 ; L1 = brick", "RCD-01", finding.Held, ""},
		{"30 mA behind the lamp", "way TN-S ze=0.3 ; board b6 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; R2 L1 G1 swa-3x1.5 5 C ; R3 G1 L2 swa-3x1.5 5 C ; G1 = rcd-30 ; L1 = brick ; L2 = brick", "RCD-01", finding.Stop, "L1"},
		{"only a source", "way TN-S ze=0.3 ; board b6 ; indoor te-2.5 5 C ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x2.5 5 C ; S1 = dc60 ; L1 = spike", "RCD-01", finding.Decide, "S1"},
		{"12 V cable on the mains", "way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 B1 elv-2x2.5 5 C ; R2 B1 L1 swa-3x1.5 5 C ; L1 = brick", "FLT-04", finding.Stop, "R1"},
		{"armour is a path", "way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-2x1.5 5 C ; L1 = brick", "FLT-04", finding.Held, ""},
		{"12 V needs no path", lowVolt, "FLT-04", finding.Held, ""},
		{"Ze unknown", "way TN-S ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "FLT-03", finding.Stop, "SP1"},
		{"earthing unknown", "way unknown ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "FLT-03", finding.Stop, "SP1"},
		{"RA unknown", "way TT ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "FLT-03", finding.Stop, "SP1"},
		{"measured at the spur", spur, "FLT-03", finding.Held, ""},
		{"source not separated", "spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x2.5 5 C ; S1 = felv ; L1 = spike", "FLT-03", finding.Stop, "S1"},
		{"TT without residual device", "way TT ra=100 pfc=900 ; board b6 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "FLT-05", finding.Stop, "L1"},
		{"fuse without a row", "spur TN-S ze=0.1 zs=0.2 ; board odd ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "FLT-07", finding.Stop, "SP1"},
		{"flat twin in the ground", "way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 te-1.5 5 D ; L1 = brick", "CAP-03", finding.Stop, "R1"},
		{"no device at all", "way TN-S ze=0.3 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "CAP-01", finding.Stop, "SP1"},
		{"class I on TN-C-S", "way TN-C-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "EAR-01", finding.Decide, "L1"},
		{"class I on TN-S", "way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = post", "EAR-01", finding.Held, ""},
		{"class II on TN-C-S", "way TN-C-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "EAR-01", finding.Held, ""},
		{"12 V lamp on TN-C-S", "spur TN-C-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; S1 = dc60 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x1.5 8 D ; L1 = spike", "EAR-01", finding.Held, ""},
		{"indoor leg unknown", spur, "VD-04", finding.Note, "SP1"},
		{"all known", "spur TN-S zs=0.6 load=2 ; board b32-rcbo-30 ; indoor te-2.5 9 C ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick", "VD-04", finding.Held, ""},
		{"fault current unknown on TT", "way TT ra=100 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "BRK-01", finding.Decide, "SP1"},
		{"collapse", "spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-13 ; S1 = dc60 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x1.5 300 D ; L1 = spike", "SOL-01", finding.Stop, "L1"},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := calc.Evaluate(input(row.net))
			if got := levelOf(r, row.code); got != row.want {
				t.Fatalf("%s is %v, want %v: %v", row.code, got, row.want, found(r, row.code))
			}
			if row.want != finding.Held {
				f := one(t, r, row.code)
				if f.Subject.ID != row.subject {
					t.Errorf("subject %s, want %s", f.Subject.ID, row.subject)
				}
				if !strings.Contains(f.Working, "\n") {
					t.Errorf("working of one line: %s", f.Working)
				}
			}
		})
	}
}

// When there is no steady voltage nothing else speaks about volts or amperes.
func TestCollapseSilencesVolts(t *testing.T) {
	r := calc.Evaluate(input("spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-13 ; S1 = dc60 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x1.5 300 D ; L1 = spike"))
	for _, f := range r.Findings {
		switch f.Code {
		case "VD-01", "VD-02", "VD-03", "CAP-01", "SRC-01":
			t.Errorf("%s after a collapse: %s", f.Code, f.Text)
		}
	}
	for _, p := range r.Points {
		if p.Trusted {
			t.Errorf("%s is trusted", p.Label)
		}
	}
	if p := run(t, r, "R2").Proposal; p.Cable != nil || p.Binds != "SOL-01" {
		t.Errorf("proposal %+v", p)
	}
}

// The prompt follows country and kind of supply. Source: trade notes, section
// 7 (Part P England 2013, found; the others found).
func TestNotification(t *testing.T) {
	for _, row := range []struct{ country, net, want string }{
		{"England", spur, "not notifiable"}, {"England", clean, "notifiable to building control"},
		{"Wales", spur, "Welsh list"}, {"Scotland", clean, "warrant"}, {"Northern Ireland", spur, "no statutory"}, {"", spur, "not given"},
	} {
		in := input(row.net)
		in.Country = row.country
		f := one(t, calc.Evaluate(in), "NTF-01")
		if f.Level != finding.Note || !strings.Contains(f.Text, row.want) {
			t.Errorf("%q: %s", row.country, f.Text)
		}
		form := "minor works"
		if row.net == clean {
			form = "new circuit"
		}
		if !strings.Contains(f.Text, form) {
			t.Errorf("%q lacks %q", f.Text, form)
		}
	}
}

// One finding for each system or device, the worst first and the others with
// it; never one for each lamp.
func TestOneFindingForManyLamps(t *testing.T) {
	r := calc.Evaluate(input(`way TN-C-S ze=0.3 ; board c10 ; indoor te-2.5 5 C
		R1 SP1 L1 swa-3x1.5 60 D ; R2 L1 L2 swa-3x1.5 10 C ; R3 L2 L3 swa-3x1.5 10 C ; R4 L3 L4 swa-3x1.5 10 C
		L1 = flood ; L2 = flood ; L3 = post ; L4 = post`))
	for _, code := range []finding.Code{"VD-01", "FLT-01", "RCD-01", "EAR-01"} {
		f := one(t, r, code)
		want := map[finding.Code]string{"VD-01": "L4", "FLT-01": "L4", "RCD-01": "L1", "EAR-01": "L3"}[code]
		if f.Subject.ID != want {
			t.Errorf("%s is about %s, want %s", code, f.Subject.ID, want)
		}
		if len(f.Also) == 0 {
			t.Errorf("%s lists no others", code)
		}
	}
}
