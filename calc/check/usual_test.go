package check_test

import (
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// A digging depth that nobody gave is named as assumed, and what is known of a
// sensor and a hole is named too.
func TestTakenIsNamed(t *testing.T) {
	for _, row := range []struct {
		code finding.Code
		net  string
		want string
		set  func(p *plot)
	}{
		{"DIG-01", siteMains, "digging depth", func(p *plot) {
			st := &p.route.Stretches[0]
			st.Ground, st.Dig, st.Usual, p.leg.Depth = "dug bed", 0.45, true, 0.3
		}},
		{"DIG-02", siteMains, "digging depth", func(p *plot) {
			st := &p.route.Stretches[0]
			st.Ground, st.Dig, st.Usual, p.leg.Depth = "dug bed", 0.45, true, 0.5
		}},
		{"CTL-06", siteGear, "10 m taken", func(p *plot) { g := p.gear(); g.Gear.Aimed, g.Place.Seen = true, aside("N1", 3) }},
		{"IPX-03", siteLow, "200 mm across", func(p *plot) { p.lamp.Form, p.lamp.Height = "recessed", 0 }},
		{"SRC-02", siteElectronic, "2 m taken", func(*plot) {}},
	} {
		p := newPlot(row.net)
		row.set(p)
		fs := found(calc.Evaluate(p.in), row.code)
		if len(fs) != 1 || !strings.Contains(strings.Join(fs[0].Assumed, "; "), row.want) {
			t.Errorf("%s: %+v, want %q among what was assumed", row.code, fs, row.want)
		}
	}
	p := newPlot(siteElectronic) // the maker's own figure replaces what is usual
	p.longest(30)
	if fs := found(calc.Evaluate(p.in), "SRC-02"); len(fs) != 1 || strings.Contains(fs[0].Text, "commonly") {
		t.Errorf("SRC-02 with the maker's figure: %+v", fs)
	}
}

const siteElectronic = "spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; S1 = el60 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x1.5 8 D ; L1 = spike"

// TestGravel: by hand, π · 0.1² · 0.3 = 9.42 litres.
func TestGravel(t *testing.T) {
	p := newPlot(siteLow)
	p.lamp.Form, p.lamp.Height = "recessed", q.Metre(0)
	if fs := found(calc.Evaluate(p.in), "IPX-03"); len(fs) != 1 || !strings.Contains(fs[0].Working, "= 9.4 litres") {
		t.Errorf("%+v", fs)
	}
	p.in.Rules.Site = check.SiteLimits{}
	if fs := found(calc.Evaluate(p.in), "IPX-03"); len(fs) != 0 {
		t.Errorf("a rule set without the limit: %+v", fs)
	}
}
