package check_test

import (
	"strings"
	"testing"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// lateRules are limits of round figures for what burns after curfew and for every
// lamp; the shipped ones are held in testdata/checks/lightlimits.yaml.
func lateRules() *check.Rules {
	r := lightRules()
	src := r.Light.Seen.Source
	r.Light.Curfew, r.Light.CurfewSource = q.Some(23.0), src
	r.Light.Raised = check.Limit{Value: 90, Source: src}
	r.Light.Courtesy = check.Limit{Value: 0.1, Source: src}
	r.Light.Bright = []check.BrightRow{{Zone: "E3", Candela: 10000, Source: src}, {Zone: "E3", After: true, Candela: 1000, Source: src}, {Zone: "E0", After: true, Source: src}}
	r.Light.Uses[0].Upright, r.Light.Uses[0].UprightSource = 2, src
	return r
}

// late returns the findings in short, as lux does.
func late(u check.LuxFacts, skip ...string) string {
	u.Maintenance, u.Curfew = 0.8, "23:00"
	var out []string
	for _, f := range check.Lux(&u, lateRules()) {
		s := string(f.Code) + " " + f.Level.String() + " " + f.Subject.ID
		for _, a := range f.Also {
			s += "+" + a.ID
		}
		if !strings.Contains(strings.Join(skip, " "), string(f.Code)) {
			out = append(out, s)
		}
	}
	return strings.Join(out, "; ")
}

// TestLateRules: before curfew all lamps count, after it those that burn then; just
// inside, on and just outside each limit.
func TestLateRules(t *testing.T) {
	l1 := []check.LuxShare{{Subject: named("L1"), Lux: 3}}
	view := func(whose string, rest, after q.Lux) check.LuxView {
		v := check.LuxView{Subject: named("V"), Window: whose != "", Whose: whose, Lux: rest, Rest: rest, Late: after, Points: 2, From: l1}
		if after > 0 {
			v.LateFrom = l1
		}
		return v
	}
	seen := func(zone string, v ...check.LuxView) check.LuxFacts { return check.LuxFacts{Zone: zone, Views: v} }
	cd := func(all, after q.Candela) check.LuxFacts {
		v := view("neighbour", 0, 0)
		v.Bright = []check.LuxGlance{{Subject: named("L1"), Toward: all, Distance: 5}}
		if after > 0 {
			v.BrightLate = []check.LuxGlance{{Subject: named("L2"), Toward: after, Distance: 6}}
		}
		return seen("E3", v)
	}
	lamp := func(id string, white q.Kelvin) check.LuxLamp {
		return check.LuxLamp{Subject: named(id), Flux: 100, White: white}
	}
	lamps := func(list ...check.LuxLamp) check.LuxFacts { return check.LuxFacts{Lamps: list} }
	raised := func(tilt, up float64) check.LuxFacts {
		l := lamp("L1", 2700)
		l.Tilt, l.Upward = tilt, up
		return lamps(l, lamp("L2", 2700))
	}
	burns := func(off string, after bool) check.LuxFacts {
		l := lamp("L1", 2700)
		l.Off, l.After, l.Watts = off, after, q.Some(q.Watt(5))
		return lamps(l, lamp("L2", 2700))
	}
	faces := func(upright q.Lux, points int) check.LuxFacts {
		return check.LuxFacts{Uses: []check.LuxUse{{Subject: named("A1"), Use: "path", Average: 5, Least: 1, Points: 9, Upright: upright, Faces: points, FaceHeight: 1.5}}}
	}
	e0 := cd(0, 1.1)
	e0.Zone = "E0"
	told := check.LuxFacts{Lamps: []check.LuxLamp{lamp("L1", 4000), lamp("L2", 2800)},
		Habitats: []check.LuxHabitat{{Subject: named("W"), From: []check.LuxWhite{{LuxShare: check.LuxShare{Subject: named("L1"), Lux: 1}, White: 4000}}}}}
	for _, c := range []struct {
		name string
		u    check.LuxFacts
		skip string
		want string
	}{
		{"all lamps over, none after", seen("E3", view("neighbour", 10.1, 0)), "", "LUX-02 Decide V+L1"},
		{"within before, out after", seen("E3", view("", 10, 0)), "", ""},
		{"on the limit after", seen("E3", view("", 10, 2)), "", ""},
		{"over the limit after", seen("E3", view("", 10, 2.1)), "", "LUX-02 Note V+L1"},

		{"courtesy, on it", seen("E3", view("neighbour", 5, 0.1)), "", ""},
		{"courtesy, above it", seen("E3", view("neighbour", 5, 0.11)), "", "LUX-10 Note V+L1"},
		{"courtesy, own window", seen("E3", view("own", 5, 0.5)), "", ""},
		{"courtesy, the limit of the zone told instead", seen("E3", view("neighbour", 5, 2.1)), "", "LUX-02 Note V+L1"},
		{"courtesy, told before curfew", seen("E3", view("neighbour", 11, 0.5)), "", "LUX-02 Decide V+L1"},
		{"courtesy is for windows", seen("E3", view("", 5, 0.5)), "", ""},

		{"candela on the limit", cd(10000, 1000), "", ""},
		{"candela above it", cd(10001, 0), "", "LUX-09 Decide V+L1"},
		{"candela after curfew", cd(10000, 1001), "", "LUX-09 Note V+L2"},
		{"none allowed", e0, "", "LUX-09 Note V+L2"},

		{"warm", lamps(lamp("L1", 2700)), "", ""},
		{"less warm", lamps(lamp("L1", 2700), lamp("L2", 2701), lamp("L3", 3000)), "", "LUX-06 Note L3+L2"},
		{"cold", lamps(lamp("L1", 3001), lamp("L2", 2800)), "", "LUX-06 Decide L1; LUX-06 Note L2"},
		{"white not known", lamps(lamp("L1", 0), lamp("L2", 2800)), "", "LUX-06 Note L2+L1"},
		{"told where animals live", told, "", "LUX-05 Decide L1+W; LUX-06 Note L2"},

		{"aimed up", raised(90.1, 0.4), "LUX-03", "LUX-07 Note L1"},
		{"aimed level", raised(90, 0.4), "LUX-03", ""},
		{"aimed up, shielded", raised(120, 0.005), "LUX-03", ""},

		{"burns on", burns("01:00", true), "", "LUX-08 Note L1"},
		{"nobody said", burns("", true), "", "LUX-08 Note L1"},
		{"out by curfew", burns("22:30", false), "", ""},

		{"faces on the target", faces(2, 4), "", ""},
		{"faces dark", faces(1.99, 4), "", "LUX-01 Note A1"},
		{"faces not looked at", faces(0, 0), "", ""},
	} {
		if got := late(c.u, c.skip); got != c.want {
			t.Errorf("%s: found %q, expected %q", c.name, got, c.want)
		}
	}
}

// TestCurfewKnown: LUX-08 is silent where nobody said a curfew; midnight is one, and so
// is that of the survey alone, with a source of its own.
func TestCurfewKnown(t *testing.T) {
	for _, c := range []struct {
		name string
		rule q.Maybe[float64]
		said bool
		want bool
	}{
		{"none", q.Maybe[float64]{}, false, false}, {"midnight", q.Some(0.0), false, true}, {"of the survey", q.Maybe[float64]{}, true, true},
	} {
		r := lateRules()
		r.Light.Curfew = c.rule
		if !c.rule.Known {
			r.Light.CurfewSource = finding.Source{}
		}
		u := check.LuxFacts{Maintenance: 0.8, Curfew: "00:00", CurfewSaid: c.said, Lamps: []check.LuxLamp{{Subject: named("L1"), Flux: 100, White: 2700, After: true}}}
		fs := check.Lux(&u, r)
		if len(fs) > 0 != c.want || c.want && (fs[0].Code != "LUX-08" || fs[0].Source.Evidence == "") {
			t.Errorf("%s: found %+v", c.name, fs)
		}
	}
}

// TestLateWords: what burns after curfew is said with its hour, its lamps and that
// nobody said when they go out; watts that are not known are named.
func TestLateWords(t *testing.T) {
	u := check.LuxFacts{Zone: "E3", Maintenance: 0.8, Curfew: "23:00"}
	u.Lamps = []check.LuxLamp{{Subject: named("L1"), Flux: 400, White: 2700, After: true, Watts: q.Some(q.Watt(5))}, {Subject: named("L2"), Flux: 60, White: 2700, After: true, Off: "01:00"}, {Subject: named("L3"), Flux: 60, White: 2700, Off: "22:00"}}
	u.Views = []check.LuxView{{Subject: named("V"), Window: true, Whose: "neighbour", Lux: 9, Rest: 9, Late: 3, Points: 2, LateWhere: "there", LateFrom: []check.LuxShare{{Subject: named("L2"), Lux: 3}}}}
	var load, spill finding.Finding
	for _, f := range check.Lux(&u, lateRules()) {
		switch f.Code {
		case "LUX-08":
			load = f
		case "LUX-02":
			spill = f
		}
	}
	if load.Figure != "2 lamps, 5 W without 1 lamp whose watts are not known" || !strings.Contains(load.Text, "2 of 3 lamps burn after curfew at 23:00; of 1 lamp nobody said") {
		t.Errorf("found %q, %q", load.Figure, load.Text)
	}
	for _, part := range []string{"after curfew 3 lx, there; most of it by L2 3 lx", "2 of 3 lamps burn after curfew", "of 1 lamp nobody said when the zone goes out: taken to burn", "curfew 23:00"} {
		if !strings.Contains(spill.Working, part) {
			t.Errorf("LUX-02: working lacks %q:\n%s", part, spill.Working)
		}
	}
	if spill.Figure != "3 lx upright" {
		t.Errorf("LUX-02: figure %q, expected that of after curfew", spill.Figure)
	}
}
