package check_test

import (
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// A supply point at the board has an indoor leg of no length: no cable is
// there that a fault could harm. With a metre of it the bound of 35,000 A²s
// (class 3, from memory) is over (115 × 1.5)² = 29,756 A²s.
func TestIndoorLegOfNoLengthIsNotJudged(t *testing.T) {
	for metres, want := range map[string]finding.Level{"0": finding.Held, "1": finding.Decide} {
		r := calc.Evaluate(input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 " + metres + " C ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick"))
		if got := levelOf(r, "ADI-02"); got != want {
			t.Errorf("%s m: ADI-02 %v, want %v", metres, got, want)
		}
	}
}

// A spur whose device at the board nobody named: the loop at its unit is then
// compared with nothing (BS 7671 411.4.4 asks for it), so something has to
// say so, whether the indoor leg is known or not.
func TestSpurNeedsTheDeviceAtTheBoard(t *testing.T) {
	for _, text := range []string{
		"spur TN-S ze=0.3 load=2 ; board rcd-30 ; indoor te-2.5 15 C ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick",
		"spur TN-S zs=0.6 load=2 ; board rcd-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick",
		"spur TT ra=90 pfc=900 load=2 ; board rcd-30 ; indoor te-2.5 15 C ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick",
	} {
		if f := one(t, calc.Evaluate(input(text)), "CAP-01"); f.Level != finding.Stop || f.Subject.ID != "SP1" {
			t.Errorf("%s: %v about %v", text, f.Level, f.Subject)
		}
	}
}

// The prospective current was measured at the board and only the cable from
// there is not known: no more can flow at the spur, 900 A of the 6 kA that the
// fuse breaks.
func TestBreakingBehindAnUnknownCable(t *testing.T) {
	in := input("spur TN-S ze=0.3 pfc=900 load=2 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick")
	r := calc.Evaluate(in)
	if got := levelOf(r, "BRK-01"); got != finding.Held {
		t.Errorf("BRK-01 %v: %v", got, found(r, "BRK-01"))
	}
	for _, f := range calc.Explain(in, r, "SP1") {
		if f.Code == "BRK-01" && strings.Contains(f.Text, "fuse") {
			if f.Figure != q.Ampere(900).String() || len(f.Assumed) == 0 {
				t.Errorf("figure %s, assumed %v", f.Figure, f.Assumed)
			}
			return
		}
	}
	t.Error("no working for the fuse")
}

// A loop measured cold is compared with 80 % of the limit (BS 7671 Appendix 3,
// found); the reading and the totals have to say the same as FLT-02: 218.5 /
// 160 × 0.8 = 1.0925 Ω.
func TestMeasuredLimitIsTheSameEverywhere(t *testing.T) {
	r := calc.Evaluate(input("spur TN-S zs=1.2 load=2 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick"))
	f, p := one(t, r, "FLT-02"), point(t, r, "SP1")
	near(t, "limit", float64(p.Limit.Value), 1.0925, 1e-6)
	if f.Limit != p.Limit.Value.String() {
		t.Errorf("finding says %s, reading %s", f.Limit, p.Limit.Value)
	}
	near(t, "share", r.Totals.WorstLoop, 1.2/1.0925, 1e-6)
	// Computed loops keep the whole limit.
	near(t, "computed", float64(point(t, calc.Evaluate(input(spurByZe)), "SP1").Limit.Value), 1.365625, 1e-6)
}

// What FLT-02 proposes fits how the garden is fed.
func TestSupplyLoopRemedies(t *testing.T) {
	own := one(t, calc.Evaluate(input("way TN-S zs=1.2 ; board b32-rcbo-30 ; indoor te-6 9 C ; R1 SP1 L1 swa-3x6 20 D ; L1 = brick")), "FLT-02")
	for _, r := range own.Remedies {
		if strings.Contains(r.Text, "existing circuit") || strings.Contains(r.Text, "way of its own") {
			t.Errorf("an own way is told to %q", r.Text)
		}
	}
	if len(own.Remedies) == 0 {
		t.Error("no remedy")
	}
}

// A leg whose method follows from its support gets a cable with an earth
// proposed, as one with a method written down does.
func TestEarthedCableForPlainLegs(t *testing.T) {
	in := input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 elv-2x2.5 5 D ; L1 = brick")
	in.Net.Branches[1].Legs[0].Method = ""
	f := one(t, calc.Evaluate(in), "FLT-04")
	if a := f.Remedies[0].Action; a == nil || a.Value != "swa-2x2.5" {
		t.Errorf("remedies %v, want swa-2x2.5 first", f.Remedies)
	}
}

// Not knowing the other load of the circuit leaves the load of its device open
// too, not only the drop.
func TestOtherLoadNotKnown(t *testing.T) {
	for text, want := range map[string]bool{spur: true, "spur TN-S zs=0.6 load=2 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick": false} {
		if f := one(t, calc.Evaluate(input(text)), "VD-04"); strings.Contains(f.Text, "load of the device at the board is not proved") != want {
			t.Errorf("%s: %s", text, f.Text)
		}
	}
}

// A size that still leaves the drop over its limit is not offered as if it
// were the way out. 500 W draw about 2.3 A; the largest flex of the stock, 2.5
// mm², loses 19 mV/A/m: 5.3 V over 120 m and 17 V over 400 m, of 6.9 V.
func TestThickerCableThatIsNotEnough(t *testing.T) {
	for metres, want := range map[string]bool{"200": true, "60": false} {
		text := "spur TN-S zs=0.6 load=0 ; board b32-rcbo-30 ; indoor te-2.5 1 C ; fuse fuse-3 ; R1 SP1 B1 flex-3x0.75 " + metres + " C ; R2 B1 L1 flex-3x0.75 " + metres + " C ; L1 = flood"
		f := one(t, calc.Evaluate(input(text)), "VD-01")
		if told := strings.Contains(f.Remedies[0].Text, "not enough"); told != want {
			t.Errorf("%s m: %v", metres, f.Remedies)
		}
	}
}

// The device at the board of a spur protects somebody's existing cables: a
// larger one is no remedy for the garden.
func TestFullCircuitIsNotGivenALargerDevice(t *testing.T) {
	f := one(t, calc.Evaluate(input("spur TN-S zs=0.6 load=31 ; board b32-rcbo-30 ; indoor te-2.5 2 C ; fuse fuse-13 ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = flood")), "CAP-01")
	for _, r := range f.Remedies {
		if strings.Contains(r.Text, "larger device") {
			t.Errorf("remedy %q", r.Text)
		}
	}
}

// A decision is kept by code and subject: two devices at the supply point that
// both fall short are one finding, which names both.
func TestOneFindingForOneDecision(t *testing.T) {
	in := input("spur TN-S ze=0.3 pfc=9000 load=31 ; board b32-rcbo-30 ; indoor te-2.5 0.1 C ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 5 C ; R2 L1 L2 swa-3x1.5 5 C ; L1 = flood ; L2 = flood")
	r := calc.Evaluate(in)
	for code, words := range map[finding.Code][]string{"CAP-01": {"B32 RCBO", "3 A fuse"}, "BRK-01": {"B32 RCBO", "3 A fuse"}} {
		f := one(t, r, code)
		for _, w := range words {
			if !strings.Contains(f.Text, w) || !strings.Contains(f.Working, w) {
				t.Errorf("%s does not name %s: %s", code, w, f.Text)
			}
		}
	}
}

// The indoor leg of an own way is part of the new circuit: measuring the loop
// at its end does not prove a cable that nobody named.
func TestOwnWayNeedsItsIndoorLeg(t *testing.T) {
	for text, want := range map[string]finding.Level{
		"way TN-S zs=0.6 pfc=500 ; board b6-rcbo-30 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick":                     finding.Stop,
		"way TN-S zs=0.6 pfc=500 ; board b6-rcbo-30 ; indoor te-2.5 9 C ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick": finding.Held,
		spur: finding.Held,
	} {
		if got := levelOf(calc.Evaluate(input(text)), "CAP-03"); got != want {
			t.Errorf("%s: %v, want %v", text, got, want)
		}
	}
}
