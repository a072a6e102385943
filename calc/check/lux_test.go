package check_test

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// lightRules are limits of round figures for these tests; the shipped ones are
// held to their sources in testdata/checks/lightlimits.yaml.
func lightRules() *check.Rules {
	src := finding.Source{Standard: "test", Clause: "of these tests", Evidence: finding.Practice}
	lim := func(v float64) check.Limit { return check.Limit{Value: v, Source: src} }
	return &check.Rules{Light: check.LightLimits{
		Uses:   []check.LightUseRow{{Use: "path", Average: 5, Least: 1, Uniformity: 0.2, Source: src, LeastSource: src, UniformitySource: src}},
		Spill:  []check.SpillRow{{Zone: "E3", Lux: 10, Source: src}, {Zone: "E3", After: true, Lux: 2, Source: src}, {Zone: "E0", Source: src}, {Zone: "E0", After: true, Source: src}},
		Upward: []check.UpwardRow{{Zone: "E3", Share: 0.05, Source: src}, {Zone: "E3", All: true, Share: 0.12, Source: src}},
		Seen:   lim(100), SeenHard: lim(300), SeenReach: lim(10), WarmSoft: lim(2700), WarmHard: lim(3000), HabitatLux: lim(0.2), CrownLux: lim(0.4),
	}}
}

func named(id string) finding.Subject { return finding.Subject{ID: id, Label: id} }

// lux returns the findings in short: code, level, subject and what else is named.
func lux(u check.LuxFacts) string {
	if u.Maintenance == 0 {
		u.Maintenance = 0.8
	}
	var out []string
	for _, f := range check.Lux(&u, lightRules()) {
		s := fmt.Sprintf("%s %s %s", f.Code, f.Level, f.Subject.ID)
		for _, a := range f.Also {
			s += "+" + a.ID
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

// TestLightRules: just inside, on and just outside each limit.
func TestLightRules(t *testing.T) {
	use := func(id string, average, least q.Lux) check.LuxUse {
		return check.LuxUse{Subject: named(id), Use: "path", Kind: "gravel", Average: average, Least: least, Points: 100, Step: 0.25}
	}
	lit := func(u check.LuxUse, bright q.Lux) check.LuxUse {
		u.Bright = bright
		return u
	}
	uses := func(list ...check.LuxUse) check.LuxFacts { return check.LuxFacts{Uses: list} }
	from := []check.LuxShare{{Subject: named("L1"), Lux: 3}}
	view := func(window bool, whose string, lux q.Lux) check.LuxView {
		return check.LuxView{Subject: named("V"), Window: window, Whose: whose, Lux: lux, Rest: lux, Late: lux, Points: 2, From: from, LateFrom: from}
	}
	seen := func(zone string, v ...check.LuxView) check.LuxFacts { return check.LuxFacts{Zone: zone, Views: v} }
	lamp := func(id string, flux q.Lumen, up float64) check.LuxLamp {
		return check.LuxLamp{Subject: named(id), Flux: flux, Upward: up, White: 2700}
	}
	dim := func(id string, flux q.Lumen, up float64) check.LuxLamp {
		l := lamp(id, flux, up)
		l.Dim = q.Some(q.Lumen(0))
		return l
	}
	lamps := func(zone string, list ...check.LuxLamp) check.LuxFacts {
		return check.LuxFacts{Zone: zone, Lamps: list}
	}
	glance := func(id string, cd q.Candela) check.LuxGlance {
		return check.LuxGlance{Subject: named(id), Toward: cd, Distance: 3}
	}
	eyes := func(list ...check.LuxGlance) check.LuxFacts {
		return check.LuxFacts{Eyes: []check.LuxEye{{Subject: named("M1"), Height: 1.2, From: list}}}
	}
	white := func(crown bool, lux q.Lux, k q.Kelvin) check.LuxFacts {
		return check.LuxFacts{Habitats: []check.LuxHabitat{{Subject: named("W"), Crown: crown,
			From: []check.LuxWhite{{LuxShare: check.LuxShare{Subject: named("L1"), Lux: lux}, White: k}}}}}
	}
	beamed := view(true, "neighbour", 30)
	beamed.Rest, beamed.Late, beamed.Beams = 1.9, 1.9, []finding.Subject{named("L9")}
	for _, c := range []struct {
		name string
		u    check.LuxFacts
		want string
	}{
		{"on every target", uses(use("A1", 5, 1)), ""},
		{"average short", uses(use("A1", 4.99, 1)), "LUX-01 Note A1"},
		{"darkest place short", uses(use("A1", 5, 0.99)), "LUX-01 Note A1"},
		{"uneven", uses(use("A1", 10, 1.9)), "LUX-01 Note A1"},
		{"even enough", uses(use("A1", 10, 2)), ""},
		{"even enough unless a lamp is at full", uses(lit(use("A1", 10, 2), 10.5)), "LUX-01 Note A1"},
		{"the worst speaks for its use", uses(use("A1", 4, 2), use("A2", 1, 1), use("A3", 6, 2)), "LUX-01 Note A2+A1"},
		{"a use without a row", uses(check.LuxUse{Subject: named("A1"), Use: "patio", Points: 9}), ""},

		{"boundary on the limit before curfew", seen("E3", view(false, "", 10)), "LUX-02 Note V+L1"},
		{"boundary above it", seen("E3", view(false, "", 10.1)), "LUX-02 Decide V+L1"},
		{"boundary on the limit after curfew", seen("E3", view(false, "", 2)), ""},
		{"boundary above that", seen("E3", view(false, "", 2.1)), "LUX-02 Note V+L1"},
		{"the neighbour's window", seen("E3", view(true, "neighbour", 10.1)), "LUX-02 Decide V+L1"},
		{"nobody said whose window", seen("E3", view(true, "", 10.1)), "LUX-02 Note V+L1"},
		{"own window", seen("E3", view(true, "own", 99)), ""},
		{"zone not said", seen("", view(false, "", 99)), "LUX-02 Note V+L1"},
		{"zone not said and dark", seen("", view(false, "", 0)), ""},
		{"nothing allowed, nothing there", seen("E0", view(false, "", 0.009)), ""},
		{"nothing allowed", seen("E0", view(false, "", 0.01)), "LUX-02 Decide V+L1"},
		{"a beam that GLR-01 reports is left out", seen("E3", beamed), ""},

		{"one lamp on its limit", lamps("E3", lamp("L1", 100, 0.05)), ""},
		{"one lamp above", lamps("E3", lamp("L1", 100, 0.051)), "LUX-03 Note L1"},
		{"three lamps are judged one by one", lamps("E3", lamp("L1", 1000, 0.04), lamp("L2", 10, 0.06), lamp("L3", 100, 0)), "LUX-03 Note L2+L1"},
		{"four make an installation", lamps("E3", lamp("L1", 1000, 0.04), lamp("L2", 10, 1), lamp("L3", 100, 0), lamp("L4", 100, 0)), ""},
		{"four above", lamps("E3", lamp("L1", 100, 0.49), lamp("L2", 100, 0), lamp("L3", 100, 0), lamp("L4", 100, 0)), "LUX-03 Note L1"},
		{"upward, zone not said", lamps("", lamp("L1", 100, 0.4)), "LUX-03 Note L1"},
		{"four, one that may be dark shines down: the rest counts", lamps("E3", lamp("L1", 100, 0.5), lamp("L2", 100, 0), dim("L3", 300, 0), lamp("L4", 10, 0)), "LUX-03 Note L1"},
		{"four, the same one known", lamps("E3", lamp("L1", 100, 0.5), lamp("L2", 100, 0), lamp("L3", 300, 0), lamp("L4", 10, 0)), ""},
		{"four, one that may be full shines up", lamps("E3", dim("L1", 100, 1), lamp("L2", 100, 0), lamp("L3", 300, 0), lamp("L4", 10, 0)), "LUX-03 Note L1"},
		{"hardly upward, zone not said", lamps("", lamp("L1", 100, 0.004)), ""},

		{"on the candela", eyes(glance("L1", 100)), ""},
		{"above the candela", eyes(glance("L1", 101), glance("L2", 60)), "LUX-04 Note M1+L1"},

		{"warm", white(false, 1, 2700), ""},
		{"less warm", white(false, 1, 3000), "LUX-05 Note L1+W"},
		{"cold", white(false, 1, 3001), "LUX-05 Decide L1+W"},
		{"cold but not there", white(false, 0.19, 4000), ""},
		{"at a crown more is asked", white(true, 0.39, 4000), ""},
		{"cold at a crown", white(true, 0.4, 4000), "LUX-05 Decide L1+W"},
		{"white not known", white(false, 1, 0), "LUX-05 Note L1+W"},
	} {
		if got := lux(c.u); got != c.want {
			t.Errorf("%s: found %q, expected %q", c.name, got, c.want)
		}
	}
}

// TestLightWords: every figure of light says what it is, where its limit comes
// from, how many points and whose light.
func TestLightWords(t *testing.T) {
	u := check.LuxFacts{Zone: "E3", Maintenance: 0.7, Assumed: []string{"L1: not aimed"}}
	u.Uses = []check.LuxUse{{Subject: named("A1"), Use: "path", Kind: "gravel", Average: 1, Least: 0.5, Most: 3, Points: 77, Step: 0.25}}
	u.Views = []check.LuxView{{Subject: named("V"), Lux: 12, Rest: 12, Points: 40, Where: "up there", From: []check.LuxShare{{Subject: named("L1"), Lux: 8}}}}
	fs := check.Lux(&u, lightRules())
	if len(fs) != 2 {
		t.Fatalf("%d findings, expected 2", len(fs))
	}
	for _, f := range fs {
		for _, part := range []string{"maintained: × 0.7", "photopic", "computed, not measured"} {
			if !strings.Contains(f.Working, part) {
				t.Errorf("%s: working lacks %q:\n%s", f.Code, part, f.Working)
			}
		}
		if f.Source.Evidence == "" || f.Figure == "" || f.Limit == "" || len(f.Remedies) == 0 || len(f.Assumed) != 1 {
			t.Errorf("%s: %+v", f.Code, f)
		}
	}
	if !strings.Contains(fs[1].Working, "77 points") || !strings.Contains(fs[0].Working, "L1 8 lx") {
		t.Errorf("points or lamps are not told:\n%s\n%s", fs[0].Working, fs[1].Working)
	}
}

// TestUpwardWords: LUX-03 writes what it counted, so that the lamps add up to the sum,
// and how it took what is not known; LUX-06 is about white and says nothing of it.
func TestUpwardWords(t *testing.T) {
	lamp := func(id string, flux q.Lumen, up float64) check.LuxLamp {
		return check.LuxLamp{Subject: named(id), Flux: flux, Upward: up, White: 2800}
	}
	u := check.LuxFacts{Zone: "E3", Maintenance: 0.8, Assumed: []string{"L1: not aimed"}, AtMost: []string{"most"}, AtLeast: []string{"least"}, AtWorst: []string{"worst"},
		Lamps: []check.LuxLamp{lamp("L1", 100, 0.5), lamp("L2", 100, 0), lamp("L3", 300, 0), lamp("L4", 1000, 0.1)}}
	u.Lamps[2].Dim, u.Lamps[3].Dim = q.Some(q.Lumen(0)), q.Some(q.Lumen(200))
	// 50 of 100 lm, 100 lm down, L3 at its least, 0; L4 sends 10 % up, less than the
	// 50 of 200 lm without it, so that it too counts at its least: 70 of 400 lm.
	said := 0
	for _, f := range check.Lux(&u, lightRules()) {
		got := strings.Join(f.Assumed, "; ")
		switch f.Code {
		case "LUX-03":
			said++
			if got != "worst; L1: not aimed" || f.Figure != "17.5 % upward" || f.Subject.ID != "L1" {
				t.Errorf("LUX-03: %s at %s, assumed %q", f.Figure, f.Subject.ID, got)
			}
			for _, part := range []string{"L1: 50 % of 100 lm upward as aimed\n", "L3: 0 % of 0 lm upward as aimed; its light is not known, 0 lm to 300 lm\n",
				"L4: 10 % of 200 lm upward as aimed; its light is not known, 200 lm to 1000 lm\n", "70 lm of 400 lm upward: 17.5 %"} {
				if !strings.Contains(f.Working, part) {
					t.Errorf("LUX-03: working lacks %q:\n%s", part, f.Working)
				}
			}
		case "LUX-06":
			said++
			if got != "" {
				t.Errorf("LUX-06: assumed %q", got)
			}
		}
	}
	if said != 2 {
		t.Errorf("%d of LUX-03 and LUX-06, expected both", said)
	}
}

// TestNoLightLimits: a rule set without limits of light asks for nothing.
func TestNoLightLimits(t *testing.T) {
	u := check.LuxFacts{Uses: []check.LuxUse{{Use: "path", Points: 1}}, Views: []check.LuxView{{Lux: 99, Rest: 99}},
		Lamps: []check.LuxLamp{{Flux: 1, Upward: 1}}, Eyes: []check.LuxEye{{From: []check.LuxGlance{{Toward: 999}}}}}
	if fs := check.Lux(&u, &check.Rules{}); len(fs) != 0 {
		t.Errorf("found %v", fs)
	}
}
