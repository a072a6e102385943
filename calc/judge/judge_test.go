package judge_test

import (
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/judge"
	q "duskwire/calc/quantity"

	"pgregory.net/rapid"
)

var cold = judge.Day{Temperature: q.Celsius(20), Said: true}

func at(celsius float64) judge.Day {
	return judge.Day{Temperature: q.Celsius(celsius), Said: true}
}

// far lamp of the terrace wall: 13.23 m of 1.5 mm², 24.2 mΩ/m, R1+R2 0.32 Ω at 20 °C
// (trade notes, scenario 1); the box on the way and three lamps.
func terrace() judge.Continuity {
	return judge.Continuity{Cold: 0.320, Joints: 4, PerMetre: 0.0242, Most: q.Some(q.Ohm(11.88)), Line: 12.48,
		Before: judge.Before{Label: "L3", Via: "R4", Off: q.Some(q.Ohm(0.01))}}
}

// far pillar of the gate: 100 m, R1+R2 cold 2.42 Ω, Zs cold 2.77 Ω behind Ze 0.35 Ω;
// B6 allows 7.28 Ω, B16 2.73 Ω (trade notes, scenario 4; 80 % of them cold).
func gate(limit float64) judge.Loop {
	return judge.Loop{Fixed: 0.35, Cold: 2.77, Joints: 2, Line: q.Some(q.Ohm(0.8 * limit)), Device: "the breaker"}
}

func within(l judge.Loop, start, r1r2 float64) judge.Loop {
	l.Start, l.R1R2 = q.Some(q.Ohm(start)), q.Some(q.Ohm(r1r2))
	return l
}

// armoured is the bollard run of scenario 6: 45 m of which the armour, 11.2 mΩ/m, is
// the way back.
func armoured() judge.Continuity {
	return judge.Continuity{Cold: 45 * (0.0121 + 0.0112), Armour: 45 * 0.0112, Joints: 5}
}

// linked is 1 Ω of line and 1 Ω of core with an armour of 1 Ω beside it.
func linked(most q.Ohm) judge.Continuity {
	return judge.Continuity{Cold: 2, Most: q.Some(most), Line: most + 0.35, Beside: judge.Beside{}.Add(1, 1)}
}

// loopLinked is a loop of 2 Ω, near enough within 0.15 + 0.15 × 2 = 0.45 Ω, that
// with an armour of 0.7 Ω beside a core of as much is 0.35 Ω lower.
func loopLinked(beside bool) judge.Loop {
	l := judge.Loop{Fixed: 0.35, Cold: 2, Line: q.Some(q.Ohm(5)), Device: "the breaker"}
	if beside {
		l.Beside = judge.Beside{}.Add(0.7, 0.7) // 0.35 Ω less
	}
	return l
}

func earth(change func(*judge.Insulation)) judge.Insulation {
	i := judge.Insulation{At: 500, Least: 1e6, Between: "live and earth", Connected: "lamps L1 to L4", Halfway: "B2"}
	if change != nil {
		change(&i)
	}
	return i
}

// dim is lamp 4 of the dim border: expected 10.77 V, its maker asks for 10.8 V
// (scenario 2); lamp 3 before it is expected at 10.89 V.
func dim(expect float64, before func(*judge.LampVolts)) judge.LampVolts {
	l := judge.LampVolts{Expect: q.Some(q.Volt(expect)), Low: 10.8, High: 13.2, Source: "S1"}
	if before != nil {
		before(&l)
	}
	return l
}

func read(label string, read, expect float64, amps q.Ampere) func(*judge.LampVolts) {
	return func(l *judge.LampVolts) {
		l.Before.Label, l.Before.Via, l.Before.Flow = label, "R4", amps
		l.Before.Read, l.Before.Expect = q.Some(q.Volt(read)), q.Some(q.Volt(expect))
	}
}

func source(off float64) func(*judge.LampVolts) {
	return func(l *judge.LampVolts) { l.Start = q.Some(q.Volt(off)) }
}

// TestJudgements: just inside, on and just outside. Sources stand beside the limits
// in the code: BS 7671 Table 64 (found), 643.8 for residual devices and 643.7.3
// (from memory), ± 0.2 V and the contact resistances common practice.
func TestJudgements(t *testing.T) {
	for _, c := range []struct {
		name  string
		ask   judge.Ask
		test  judge.Test
		reads string
		day   judge.Day
		want  judge.Verdict
		says  string // in the text, the points or the working
	}{
		{"terrace as expected", terrace(), judge.R1R2, "0.33 Ω", cold, judge.Pass, "0.32 Ω expected"},
		{"cold day, On-Site Guide I2: 0.94 at 5 °C", terrace(), judge.R1R2, "0.30 Ω", at(5), judge.Pass, "0.941"},
		{"one contact", terrace(), judge.R1R2, "0.62 Ω", cold, judge.Far, "about one poor contact"},
		{"and where", terrace(), judge.R1R2, "0.62 Ω", cold, judge.Far, "R4 or its ends add 0.29 Ω"},
		{"leads taken off", terrace(), judge.R1R2, "0.62 Ω", judge.Day{Temperature: q.Celsius(20), Said: true, Leads: q.Some(q.Ohm(0.28))}, judge.Pass, "less the leads"},
		{"thinner cable, 1.0 for 1.5 mm²: 36.2/24.2 = 1.50 (IEC 60228)", judge.Continuity{Cold: 1.21, PerMetre: 0.0242}, judge.R1R2, "1.81 Ω", cold, judge.Far, "next thinner size"},
		{"longer", judge.Continuity{Cold: 2.42, PerMetre: 0.0242}, judge.R1R2, "2.9 Ω", cold, judge.Far, "20 m more cable"},
		{"off as much before", judge.Continuity{Cold: 0.32, Before: judge.Before{Label: "L1", Via: "R2", Off: q.Some(q.Ohm(0.4))}}, judge.R1R2, "0.75 Ω", cold, judge.Far, "look nearer the supply"},
		{"too low", terrace(), judge.R1R2, "0.12 Ω", cold, judge.Far, "parallel path"},
		{"leads touch", terrace(), judge.R1R2, "0 Ω", cold, judge.Far, "the leads touch"},
		{"open", terrace(), judge.R1R2, "OL", cold, judge.Outside, "the break is in R4"},
		{"more than the loop allows", judge.Continuity{Cold: 2.42, Most: q.Some(q.Ohm(1.83)), Line: 2.18}, judge.R1R2, "2.42 Ω", cold, judge.Outside, "2.18 Ω allowed of a cold loop"},
		{"on the line", judge.Continuity{Cold: 1.83, Most: q.Some(q.Ohm(1.83)), Line: 2.18}, judge.R1R2, "1.83 Ω", cold, judge.Pass, ""},
		{"plastic boxes without links, scenario 6", armoured(), judge.R1R2, "OL", cold, judge.Outside, "tag or gland"},
		{"armour that reads well", armoured(), judge.R1R2, "0.95 Ω", cold, judge.Pass, ""},
		{"armour and metalwork", armoured(), judge.R1R2, "0.5 Ω", cold, judge.Far, "armour reads less"},
		// Core 1 Ω beside an armour of 1 Ω is ½ Ω: 2 Ω of core alone reads 1.5 Ω (parallel
		// resistors); near enough from 0.85 × 1.5 − 0.05 = 1.225 Ω.
		{"links on", linked(9), judge.R1R2, "1.5 Ω", cold, judge.Unjudged, "take the links off"},
		{"links on, lowest", linked(9), judge.R1R2, "1.23 Ω", cold, judge.Unjudged, "down to 1.50 Ω"},
		{"lower than links explain", linked(9), judge.R1R2, "1.22 Ω", cold, judge.Far, "down to 1.50 Ω"},
		{"low without armour", judge.Continuity{Cold: 2}, judge.R1R2, "1.5 Ω", cold, judge.Far, "parallel path"},
		{"links on save no limit", linked(1.4), judge.R1R2, "1.5 Ω", cold, judge.Outside, "allowed of a cold loop"},
		{"links off, as expected", linked(9), judge.R1R2, "1.95 Ω", cold, judge.Pass, "2.00 Ω expected"},
		{"loop with links on", loopLinked(true), judge.Zs, "1.4 Ω", cold, judge.Pass, "side by side"},
		{"loop without armour", loopLinked(false), judge.Zs, "1.4 Ω", cold, judge.Far, "parallel path"},
		{"loop lower than links explain", loopLinked(true), judge.Zs, "1.15 Ω", cold, judge.Far, "near enough from 1.20 Ω"},
		{"no path drawn", judge.Continuity{Gap: "no tag"}, judge.R1R2, "0.5 Ω", cold, judge.Far, "not drawn"},
		{"no path drawn, none found", judge.Continuity{Gap: "no tag"}, judge.R1R2, "OL", cold, judge.Outside, "no continuity"},

		{"armour good", judge.ArmourEnd{At20: 0.5, From: "B1", To: "B2"}, judge.Armour, "0.42 Ω", cold, judge.Pass, ""},
		{"armour high", judge.ArmourEnd{At20: 0.5, From: "B1", To: "B2"}, judge.Armour, "0.9 Ω", cold, judge.Far, "at B1 or B2"},
		{"armour open", judge.ArmourEnd{At20: 0.5, From: "B1", To: "B2"}, judge.Armour, "OL", cold, judge.Outside, "gland without grip"},
		{"links on", judge.ArmourEnd{At20: 0.5, From: "B1", To: "B2"}, judge.Armour, "0.05 Ω", cold, judge.Far, "links are still on"},
		{"not in the tables", judge.ArmourEnd{}, judge.Armour, "0.05 Ω", cold, judge.Unjudged, "no resistance"},

		{"over range", earth(nil), judge.InsulationEarth, ">299 MΩ", cold, judge.Pass, "more than 299"},
		{"OL", earth(nil), judge.InsulationEarth, "OL", cold, judge.Pass, "over the range"},
		{"on the limit", earth(nil), judge.InsulationEarth, "1 MΩ", cold, judge.Far, "meets its limit"},
		{"just below", earth(nil), judge.InsulationEarth, "0.99 MΩ", cold, judge.Outside, "apart at B2"},
		{"zero is a reading", earth(nil), judge.InsulationEarth, "0 MΩ", cold, judge.Outside, "a nail"},
		{"bound below the limit", earth(nil), judge.InsulationEarth, ">0.9 MΩ", cold, judge.Unjudged, "another range"},
		{"below two", earth(nil), judge.InsulationEarth, "1.9 MΩ", cold, judge.Far, "damp"},
		{"two and more", earth(nil), judge.InsulationEarth, "2 MΩ", cold, judge.Pass, "new cable reads over 200"},
		{"electronics", earth(func(i *judge.Insulation) { i.LowReads = q.Some(q.Ohm(250e6)) }), judge.InsulationEarth, "0.2 MΩ", cold, judge.Outside, "electronics with a filter"},
		{"one core", earth(func(i *judge.Insulation) { i.LiveReads = q.Some(q.Ohm(250e6)) }), judge.InsulationEarth, "0.2 MΩ", cold, judge.Outside, "one core to earth"},
		{"flooded", earth(func(i *judge.Insulation) { i.LiveReads = q.Some(q.Ohm(1e5)) }), judge.InsulationEarth, "0.2 MΩ", cold, judge.Outside, "water in a box"},
		{"lamp left in", earth(func(i *judge.Insulation) { i.Live, i.EarthReads = true, q.Some(q.Ohm(250e6)) }), judge.InsulationLive, "0.05 MΩ", cold, judge.Outside, "left in"},
		{"SELV, on its limit", earth(func(i *judge.Insulation) { i.At, i.Least = 250, 0.5e6 }), judge.InsulationEarth, "0.5 MΩ", cold, judge.Far, ""},

		{"reversed", judge.PolarityAt{}, judge.Polarity, "reversed", cold, judge.Outside, "the box before"},
		{"reversed from before", judge.PolarityAt{Before: "L1"}, judge.Polarity, "reversed", cold, judge.Outside, "L1 already"},
		{"right", judge.PolarityAt{}, judge.Polarity, "right", cold, judge.Pass, ""},

		{"gate on B6", gate(7.28), judge.Zs, "2.8 Ω", cold, judge.Pass, "2.77 Ω expected"},
		{"gate on B16", gate(2.73), judge.Zs, "2.77 Ω", cold, judge.Outside, "2.18 Ω"},
		{"on the line", gate(2.77 / 0.8), judge.Zs, "2.77 Ω", cold, judge.Pass, ""},
		{"parallel path", within(gate(7.28), 0.35, 2.42), judge.Zs, "1.9 Ω", cold, judge.Far, "parallel path"},
		{"less than at the supply", within(gate(7.28), 0.35, 2.42), judge.Zs, "0.3 Ω", cold, judge.Far, "loop at the supply itself"},
		{"gives way under current", within(gate(7.28), 0.35, 2.42), judge.Zs, "3.9 Ω", cold, judge.Far, "gives way under current"},
		{"open", gate(7.28), judge.Zs, "OL", cold, judge.Outside, "open on the way"},
		{"cottage on TT, 180.5 Ω of 1667", judge.Loop{Fixed: 180, Cold: 180.5, Line: q.Some(q.Ohm(1667)), TT: true}, judge.Zs, "181 Ω", cold, judge.Pass, ""},

		{"Ze of PME above 0.35", judge.Outer{Declared: 0.35, Surveyed: q.Some(q.Ohm(0.3))}, judge.Ze, "0.36 Ω", cold, judge.Far, "ask the distributor"},
		{"Ze as surveyed", judge.Outer{Declared: 0.35, Surveyed: q.Some(q.Ohm(0.3))}, judge.Ze, "0.35 Ω", cold, judge.Pass, "survey"},
		{"no earth", judge.Outer{}, judge.Ze, "OL", cold, judge.Outside, "not connected"},
		{"rod above the guide", judge.Outer{Electrode: true, Declared: 200, Surveyed: q.Some(q.Ohm(180))}, judge.Electrode, "201 Ω", cold, judge.Far, "add a rod"},
		{"breaks 6 kA", judge.Fault{Breaking: 6000, Device: "B6"}, judge.FaultCurrent, "6 kA", cold, judge.Pass, ""},
		{"more than it breaks", judge.Fault{Breaking: 6000, Device: "B6"}, judge.FaultCurrent, "6.1 kA", cold, judge.Outside, "B6 breaks"},
		{"mains low", judge.MainsVolts{Nominal: 230}, judge.Volts, "216 V", cold, judge.Outside, "216 to 253"},
		{"mains", judge.MainsVolts{Nominal: 230}, judge.Volts, "253 V", cold, judge.Pass, ""},
		{"leak", judge.Clamp{Most: q.Some(q.Ampere(0.009)), Device: "RCD"}, judge.Leakage, "9.1 mA", cold, judge.Outside, "zones"},
		{"leak within", judge.Clamp{Most: q.Some(q.Ampere(0.009))}, judge.Leakage, "9 mA", cold, judge.Pass, ""},

		{"300 ms", judge.Residual{Test: judge.RCDTime, Rated: 0.03}, judge.RCDTime, "300 ms", cold, judge.Pass, ""},
		{"301 ms", judge.Residual{Test: judge.RCDTime, Rated: 0.03}, judge.RCDTime, "301 ms", cold, judge.Outside, "stuck"},
		{"never", judge.Residual{Test: judge.RCDTime, Rated: 0.03}, judge.RCDTime, ">300 ms", cold, judge.Outside, "does not trip"},
		{"delayed too soon", judge.Residual{Test: judge.RCDTime, Rated: 0.1, Delayed: true}, judge.RCDTime, "120 ms", cold, judge.Outside, "not a delayed device"},
		{"delayed", judge.Residual{Test: judge.RCDTime, Rated: 0.1, Delayed: true}, judge.RCDTime, "130 ms", cold, judge.Pass, ""},
		{"ramp", judge.Residual{Test: judge.RCDCurrent, Rated: 0.03}, judge.RCDCurrent, "22 mA", cold, judge.Pass, ""},
		{"ramp at half", judge.Residual{Test: judge.RCDCurrent, Rated: 0.03}, judge.RCDCurrent, "15 mA", cold, judge.Outside, "too early"},
		{"ramp over", judge.Residual{Test: judge.RCDCurrent, Rated: 0.03}, judge.RCDCurrent, "30.5 mA", cold, judge.Outside, "does not trip"},
		{"leaks into the ramp", judge.Residual{Test: judge.RCDCurrent, Rated: 0.03, Leaks: q.Some(q.Ampere(0.009))}, judge.RCDCurrent, "12 mA", cold, judge.Outside, "9.0 mA adds"},
		{"half", judge.Residual{Test: judge.RCDHalf, Rated: 0.03}, judge.RCDHalf, "trips", cold, judge.Outside, "half"},
		{"button", judge.Residual{Test: judge.RCDButton, Rated: 0.03}, judge.RCDButton, "fails", cold, judge.Outside, "exchange"},

		{"dim end as expected", dim(10.77, nil), judge.Volts, "10.77 V", cold, judge.Outside, "10.80 V to 13.20 V"},
		{"source in the middle, 11.62 V", dim(11.62, nil), judge.Volts, "11.42 V", cold, judge.Pass, ""},
		{"0.2 V and a bit", dim(11.62, nil), judge.Volts, "11.41 V", cold, judge.Far, "poor joint"},
		{"low on one lamp of a string", dim(11.62, read("L3", 11.70, 11.74, 2)), judge.Volts, "11.10 V", cold, judge.Far, "R4 loses 0.48 V too much, about 0.24 Ω"},
		{"low from before", dim(11.62, read("L3", 11.2, 11.74, 2)), judge.Volts, "11.10 V", cold, judge.Far, "look nearer the source"},
		{"low from the source", dim(11.62, source(-0.5)), judge.Volts, "11.10 V", cold, judge.Far, "S1 itself reads too little"},
		{"not all on", dim(11.62, source(0.1)), judge.Volts, "12.0 V", cold, judge.Far, "not every lamp"},
		{"over the lamp", dim(12, nil), judge.Volts, "13.3 V", cold, judge.Outside, "maker allows"},
		{"dead", dim(11.62, nil), judge.Volts, "0 V", cold, judge.Outside, "open conductor"},
		{"plus and minus", judge.LampVolts{Expect: q.Some(q.Volt(11.6)), DC: true}, judge.Volts, "-11.6 V", cold, judge.Outside, "reversed"},
		{"across a driven lamp, 10 %", judge.LampVolts{Expect: q.Some(q.Volt(9)), Across: true}, judge.Volts, "8.2 V", cold, judge.Pass, ""},
	} {
		v, err := judge.Parse(c.test, c.reads)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		j := c.ask.Judge(v, c.day)
		all := strings.Join(append([]string{j.Text, j.Working}, j.Points...), "\n")
		if j.Verdict != c.want || !strings.Contains(all, c.says) {
			t.Errorf("%s: %s is %q, want %q with %q in\n%s", c.name, c.reads, j.Verdict, c.want, c.says, all)
		}
		if j.Text == "" || j.Verdict >= judge.Far && len(j.Points) == 0 && c.test != judge.Volts {
			t.Errorf("%s: text %q, points %q", c.name, j.Text, j.Points)
		}
		if j.Verdict == judge.Outside && j.Level <= finding.Note {
			t.Errorf("%s: outside its limit at level %v", c.name, j.Level)
		}
		for _, word := range []string{"safe", "compliant", "certified"} {
			if strings.Contains(strings.ToLower(all), word) {
				t.Errorf("%s says %q", c.name, word)
			}
		}
	}
}

// TestTolerance: of the same ask a reading nearer to what is expected is never
// judged worse, on either side. Law, random.
func TestTolerance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := judge.Continuity{Cold: q.Ohm(rapid.Float64Range(0.05, 5).Draw(t, "cold")), Joints: rapid.IntRange(0, 20).Draw(t, "joints")}
		d := at(rapid.Float64Range(-5, 35).Draw(t, "celsius"))
		want := float64(c.At(d))
		off := rapid.Float64Range(0, 3).Draw(t, "off")
		for _, side := range []float64{-1, 1} {
			a := c.Judge(judge.Value{SI: max(0, want+side*off)}, d).Verdict
			b := c.Judge(judge.Value{SI: max(0, want+side*off/2)}, d).Verdict
			if b > a {
				t.Fatalf("%g Ω off is %q, %g Ω %q", off/2, b, off, a)
			}
		}
		if v := c.Judge(judge.Value{SI: want}, d).Verdict; v != judge.Pass {
			t.Fatalf("what is expected is %q", v)
		}
	})
}

// TestParse: texts of a test sheet, and what is written reads back the same.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		test judge.Test
		text string
		si   float64
		b    judge.Bound
		back string
	}{
		{judge.R1R2, "0.34 Ω", 0.34, judge.Exact, "0.34 Ω"},
		{judge.R1R2, "340mohm", 0.34, judge.Exact, "0.34 Ω"},
		{judge.R1R2, "0.34 \u2126", 0.34, judge.Exact, "0.34 Ω"},
		{judge.InsulationEarth, ">299 MΩ", 299e6, judge.Above, ">299 MΩ"},
		{judge.InsulationEarth, "> 1 GΩ", 1e9, judge.Above, ">1000 MΩ"},
		{judge.InsulationEarth, "<0.01 MΩ", 1e4, judge.Below, "<0.01 MΩ"},
		{judge.InsulationEarth, "OL", 0, judge.Open, "OL"},
		{judge.RCDTime, "28.4 ms", 0.0284, judge.Exact, "28.4 ms"},
		{judge.FaultCurrent, "1050 A", 1050, judge.Exact, "1.05 kA"},
		{judge.Volts, "-11.6 V", -11.6, judge.Exact, "-11.6 V"},
	} {
		v, err := judge.Parse(c.test, c.text)
		if err != nil || v.SI != c.si || v.Bound != c.b || v.Text(c.test) != c.back {
			t.Errorf("%s: %+v, %v, written %q", c.text, v, err, v.Text(c.test))
		}
	}
	for _, bad := range []struct {
		test judge.Test
		text string
	}{
		{judge.R1R2, "0.34"}, {judge.R1R2, "0.34 V"}, {judge.R1R2, "-1 Ω"}, {judge.R1R2, ""}, {judge.R1R2, ">"}, {judge.R1R2, "ol"},
		{judge.Polarity, "1"}, {judge.Polarity, "r"}, {judge.R1R2, "1e400 Ω"}, {judge.R1R2, "NaN Ω"}, {judge.R1R2, "><1 Ω"},
	} {
		if v, err := judge.Parse(bad.test, bad.text); err == nil {
			t.Errorf("%q is taken as %+v", bad.text, v)
		}
	}
	for text, want := range map[string]string{"0.34": "0.34 Ω", ">19.9": ">19.9 Ω", "ol": "OL", "<0.01": "<0.01 Ω"} {
		if v, err := judge.ParseTyped(judge.R1R2, text); err != nil || v.Text(judge.R1R2) != want {
			t.Errorf("typed %q is %q, %v", text, v.Text(judge.R1R2), err)
		}
	}
	if v, _ := judge.ParseTyped(judge.Polarity, "Rev"); v.Word != "reversed" {
		t.Errorf("typed Rev is %q", v.Word)
	}
	if v, err := judge.ParseTyped(judge.Polarity, "r"); err == nil {
		t.Errorf("typed r is taken as %q, it may be right or reversed", v.Word)
	}
	rapid.Check(t, func(t *rapid.T) {
		test := judge.Tests[rapid.IntRange(0, len(judge.Tests)-1).Draw(t, "test")]
		if len(test.Words()) > 0 {
			t.Skip()
		}
		text := rapid.SampledFrom([]string{"", ">", "<"}).Draw(t, "bound") + rapid.StringMatching(`[0-9]{1,5}(\.[0-9]{1,4})?`).Draw(t, "number") + " " + test.Unit()
		v, err := judge.Parse(test, text)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := judge.Parse(test, v.Text(test)); err != nil || back != v {
			t.Fatalf("%q is %+v, written %q, read back %+v, %v", text, v, v.Text(test), back, err)
		}
	})
}

// FuzzParse: nothing makes the reader fall over, and what it takes is a value of the
// test.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"0.34 Ω", ">299 MΩ", "OL", "right", "-1e9 V", "<"} {
		f.Add(1, s)
	}
	f.Fuzz(func(t *testing.T, n int, s string) {
		test := judge.Tests[(n%len(judge.Tests)+len(judge.Tests))%len(judge.Tests)]
		for _, read := range []func(judge.Test, string) (judge.Value, error){judge.Parse, judge.ParseTyped} {
			if v, err := read(test, s); err == nil && v.Wrong(test) != "" {
				t.Fatalf("%q is taken as %+v", s, v)
			}
		}
	})
}

// TestDay: what is expected follows the temperature of the day, copper by
// (234.5 + t)/254.5 (On-Site Guide Table I2: 0.94 at 5 °C, 1.02 at 25 °C), steel by
// 1 + 0.0045·(t - 20) (IEC 60287-1-1 Table 1); what was measured as it is does not.
func TestDay(t *testing.T) {
	for _, c := range []struct {
		what          string
		ask           judge.Ask
		celsius, want float64
	}{
		{"2.42 Ω of copper", judge.Continuity{Cold: 2.42}, 5, 2.42 * 239.5 / 254.5},
		{"2.42 Ω of copper", judge.Continuity{Cold: 2.42}, 25, 2.42 * 259.5 / 254.5},
		{"copper and 0.50 Ω of armour", armoured(), 5, 45*0.0121*239.5/254.5 + 45*0.0112*(1-15*0.0045)},
		{"Ze 0.35 Ω and 2.42 Ω of copper", judge.Loop{Fixed: 0.35, Cold: 2.77}, 5, 0.35 + 2.42*239.5/254.5},
	} {
		v, err := judge.Parse(judge.R1R2, c.ask.Expected(at(c.celsius)))
		if err != nil || v.SI < c.want-0.006 || v.SI > c.want+0.006 {
			t.Errorf("%s at %g °C: %s, want %.3f Ω", c.what, c.celsius, c.ask.Expected(at(c.celsius)), c.want)
		}
	}
}

// Readings at the edge of what a meter can say. A loop tester shows >1999 Ω where
// the earth is open: that is no reading that nothing can be said of. A fault current
// of nothing at all and an operating time of nothing are slips, and no pass. What
// is over the range is not printed as 0.0 mA. (Common practice, no source.)
func TestEdges(t *testing.T) {
	loop := func(b judge.Bound, v float64) judge.Judgement {
		return judge.Outer{Declared: 0.35}.Judge(judge.Value{Bound: b, SI: v}, at(20))
	}
	for _, c := range []struct {
		what string
		j    judge.Judgement
		want judge.Verdict
	}{
		{"Ze >1999 Ω", loop(judge.Above, 1999), judge.Far},
		{"Ze >0.2 Ω", loop(judge.Above, 0.2), judge.Unjudged},
		{"Ze <0.01 Ω", loop(judge.Below, 0.01), judge.Unjudged},
		{"electrode >1999 Ω", judge.Outer{Declared: 200, Electrode: true}.Judge(judge.Value{Bound: judge.Above, SI: 1999}, at(20)), judge.Far},
		{"0 kA", judge.Fault{Breaking: 6000, Device: "B16"}.Judge(judge.Value{}, at(20)), judge.Unjudged},
		{"<0.01 kA", judge.Fault{Breaking: 6000, Device: "B16"}.Judge(judge.Value{Bound: judge.Below, SI: 10}, at(20)), judge.Unjudged},
		{"0.34 kA", judge.Fault{Breaking: 6000, Device: "B16"}.Judge(judge.Value{SI: 340}, at(20)), judge.Pass},
		{"0 ms", judge.Residual{Test: judge.RCDTime, Rated: 0.03}.Judge(judge.Value{}, at(20)), judge.Unjudged},
		{"0.1 ms", judge.Residual{Test: judge.RCDTime, Rated: 0.03}.Judge(judge.Value{SI: 0.0001}, at(20)), judge.Pass},
		{"leakage OL", judge.Clamp{Most: q.Some(q.Ampere(0.009)), Device: "B16"}.Judge(judge.Value{Bound: judge.Open}, at(20)), judge.Outside},
		{"leakage OL, no device", judge.Clamp{}.Judge(judge.Value{Bound: judge.Open}, at(20)), judge.Unjudged},
		{"leakage 0 mA", judge.Clamp{Most: q.Some(q.Ampere(0.009)), Device: "B16"}.Judge(judge.Value{}, at(20)), judge.Pass},
	} {
		if c.j.Verdict != c.want || strings.HasPrefix(c.what, "leakage OL") && strings.Contains(c.j.Text+c.j.Figure, "0.0 mA") {
			t.Errorf("%s is %q, %q; want %q", c.what, c.j.Verdict, c.j.Text, c.want)
		}
	}
	// A pass without a limit says so.
	c := judge.Continuity{Cold: 0.3, Joints: 1}
	if j := c.Judge(judge.Value{SI: 0.3}, at(20)); j.Verdict != judge.Pass || !strings.Contains(j.Text, "no limit is known") {
		t.Errorf("R1+R2 without a limit: %q, %q", j.Verdict, j.Text)
	}
	c.Most, c.Line = q.Some(q.Ohm(2)), 2.4
	if j := c.Judge(judge.Value{SI: 0.3}, at(20)); j.Verdict != judge.Pass || strings.Contains(j.Text, "no limit") {
		t.Errorf("R1+R2 with a limit: %q, %q", j.Verdict, j.Text)
	}
}
