package packs

import (
	"duskwire/calc"
	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// test puts the test pack together.
func test(d *draft) string {
	d.cover([]string{
		"Expected figures are what a meter should read when everything is as drawn. A reading far from them points to a bad joint, a wrong cable or a wrong length, even where it meets the limit.",
		"This pack is not a certificate. The quantities for the form that applies are gathered on one page, for copying by the person who signs.",
	})
	d.list("Dead tests", false, d.deadTests)
	d.list("Live tests", false, d.liveTests)
	d.list("Volts at extra-low voltage", false, d.voltsMap)
	d.list("Quantities for the form", false, d.formPage)
	d.list("As built", true, d.asBuilt)
	d.list("Notes for the user", false, d.userNotes)
	return "Test pack"
}

// testTemperature is that of the conductors at the dead tests, and whether the
// survey gives it.
func (b *book) testTemperature() (t q.Kelvin, said bool) {
	if s := b.scheme.Survey.Test; s.Known {
		return s.Value, true
	}
	return q.Celsius(20), false
}

// circuitsIn calls f for every circuit.
func (b *book) circuitsIn(f func(i int, net *network.Net, res *calc.Result)) {
	for i := range b.Frame.Circuits.Circuits {
		f(i, b.Frame.Circuits.Circuits[i].Input.Net, b.Frame.Results[i])
	}
}

// sortedPoints returns the points of a circuit that a test picks, in the order
// of their labels.
func sortedPoints(res *calc.Result, pick func(*calc.Point) bool) (out []*calc.Point) {
	for i := range res.Points {
		if pick(&res.Points[i]) {
			out = append(out, &res.Points[i])
		}
	}
	sortBy(out, func(a, b *calc.Point) bool { return finding.LessLabel(a.Label, b.Label) })
	return out
}

// deadTests are continuity, insulation and polarity, in the order of BS 7671
// 643.2 to 643.6.
func (b *book) deadTests(f *flow) {
	t, said := b.testTemperature()
	s := "Resistances are for conductors at " + t.String()
	if !said {
		s += ", taken because the survey gives no temperature"
	}
	f.para(s + ". About 0.4 % more a kelvin. Zero the leads. Joints add 0.01 Ω to 0.02 Ω each (common practice, no source).")
	if b.anyRead() {
		f.para("A reading is judged by the temperature of its own day, with the leads taken off where they were not zeroed.")
	}
	b.visits(f)
	b.continuity(f)
	b.armourTable(f)
	b.insulation(f)
	b.polarity(f)
	b.pointing(f, judge.R1R2, judge.Armour, judge.InsulationLive, judge.InsulationEarth, judge.InsulationLow, judge.InsulationMains, judge.Polarity)
}

// continuity lists R1+R2 at every point of the mains.
func (b *book) continuity(f *flow) {
	f.head("1. Continuity of protective conductors: R1+R2 from the supply point")
	if b.coreBesideArmour() {
		f.small("Where a core is the protective conductor the figures are of the core alone: take the armour links off for this reading and put them back after it. With the links on it reads lower, core and armour side by side.")
	}
	t := &table{high: 5.6, columns: []column{{head: "Point"}, {head: "What", grow: 1}, {head: "At 20 °C", unit: "Ω", anchor: scene.Right, least: 16}, {head: "Expected", unit: "Ω", anchor: scene.Right}, {head: "Measured", unit: "Ω", least: 20}, {head: "Judged", least: 15}, {head: "Remark", least: 24}}}
	seen := twice{}
	b.circuitsIn(func(_ int, net *network.Net, res *calc.Result) {
		t.band("Circuit " + net.Label)
		for _, p := range sortedPoints(res, func(p *calc.Point) bool { return p.Loop.Applies && p.Kind != network.SupplyNode }) {
			cold, want := "no path", "no path"
			if p.Loop.Broken < 0 {
				cold = ohms(p.Loop.R1R2Cold)
			}
			if p.R1R2Test.Known {
				want = ohms(p.R1R2Test.Value)
			}
			e, _ := doc.Find(b.scheme, doc.ID(p.ID))
			what := ""
			if e != nil {
				what = b.whatIs(e)
			}
			note := ""
			if want == "no path" {
				note = "no protective conductor: see findings"
			}
			part := seen.part(p.ID)
			if note == "" {
				note = b.remark(doc.ID(p.ID), judge.R1R2, part)
			}
			got, verdict := b.read(doc.ID(p.ID), judge.R1R2, part)
			t.add(p.Label, what, cold, want, got, verdict, note)
		}
	})
	f.table(t)
	f.findings("Findings about the protective path", b.about(codes("EAR-", "FLT-04")))
}

// coreBesideArmour reports whether a run has an armour beside a protective core.
func (b *book) coreBesideArmour() (yes bool) {
	b.circuitsIn(func(_ int, net *network.Net, _ *calc.Result) {
		for i := range net.Branches {
			br := &net.Branches[i]
			yes = yes || br.ID != "" && br.Armoured() && br.Cable.Earth == network.EarthCore
		}
	})
	return yes
}

// armourTable lists every armour end to end.
func (b *book) armourTable(f *flow) {
	temp, _ := b.testTemperature()
	t := &table{high: 5.6, columns: []column{{head: "Run"}, {head: "From"}, {head: "To"}, {head: "Cable", grow: 1}, {head: "Length", unit: "m", anchor: scene.Right}, {head: "Expected", unit: "Ω", anchor: scene.Right}, {head: "Measured", unit: "Ω", least: 20}, {head: "Judged", least: 15}}}
	for i, r := range b.scheme.Runs.All() {
		br := b.branchOf(r.ID)
		if br == nil || !br.Armoured() || r.With != "" {
			continue
		}
		l := b.length(i)
		// Largest resistance of the standard at 20 °C, with the cutting waste as
		// in all expected figures, at the temperature of the test.
		ohm := float64(br.Cable.ArmourR20) * float64(br.Length) * cable.SteelAt(temp)
		want := digits(ohm, 2)
		if br.Cable.ArmourR20 <= 0 {
			want = "not known"
		}
		got, verdict := b.read(r.ID, judge.Armour, "")
		t.add(l.Tag, l.From, l.To, br.Cable.Name, digits(float64(br.Length), 1), want, got, verdict)
	}
	if len(t.rows) == 0 {
		return
	}
	f.head("2. Continuity of armour, end to end")
	f.table(t)
	f.small("Maximum resistance of the armour by its standard; a good length reads less. Gland to gland with the links off.")
}

// insulation says with which voltage what is tested, and what to disconnect.
func (b *book) insulation(f *flow) {
	f.room(60)
	f.head("3. Insulation resistance")
	f.small("BS 7671 Table 64: up to 500 V, test at 500 V, at least 1 MΩ; SELV and PELV, test at 250 V, at least 0.5 MΩ. Where electronics cannot be disconnected: 250 V, live conductors joined, to earth, at least 1 MΩ (643.3.2, from memory). " +
		"New garden cable in order reads over 200 MΩ; below 2 MΩ look for the cause (from memory).")
	t := &table{high: 5.6, columns: []column{{head: "Part", grow: 1}, {head: "Between"}, {head: "Test", unit: "V", anchor: scene.Right}, {head: "At least", unit: "MΩ", anchor: scene.Right, least: 15}, {head: "Measured", unit: "MΩ", least: 20}, {head: "Judged", least: 15}, {head: "Disconnect first", grow: 1.4}}}
	row := func(id string, test judge.Test, part, between, volts, least, off string) {
		got, verdict := b.read(doc.ID(id), test, "")
		t.add(part, between, volts, least, got, verdict, off)
	}
	b.circuitsIn(func(i int, net *network.Net, res *calc.Result) {
		off := layout.Electronics(net, 0)
		id := string(b.Frame.Circuits.Circuits[i].Supply)
		row(id, judge.InsulationLive, "Circuit "+net.Label, "L to N", "500", "1.0", off)
		row(id, judge.InsulationEarth, "Circuit "+net.Label, "L and N to E", "500", "1.0", off)
		row(id, judge.InsulationLow, "the same, electronics left in", "L and N to E", "250", "1.0", "nothing; L and N joined")
		for s := 1; s < len(net.Systems); s++ {
			if sys := &net.Systems[s]; float64(sys.Nominal) <= b.extraLow() {
				src := sourceOf(net, s)
				row(src, judge.InsulationEarth, sys.Label, "both cores to E", "250", "0.5", layout.Electronics(net, s)+"; the source")
				row(src, judge.InsulationMains, sys.Label, "cores to mains", "500", "1.0", "source in place, by its maker's word")
			}
		}
	})
	f.table(t)
}

// sourceOf is the id of the source that feeds a system, "" for none.
func sourceOf(net *network.Net, system int) string {
	for i := range net.Nodes {
		if n := &net.Nodes[i]; n.System == system && n.Kind == network.SecondaryNode {
			return n.ID
		}
	}
	return ""
}

// remark is what was remarked on a reading.
func (b *book) remark(on doc.ID, t judge.Test, part string) string {
	if r := b.tests().at[doc.Asked{On: on, Test: t, Part: part}]; r != nil && r.Taken.Reading != nil {
		return r.Taken.Remark
	}
	return ""
}

func (b *book) polarity(f *flow) {
	f.head("4. Polarity, by a dead test")
	for _, s := range []string{
		"Every switch, fuse and protective device is in the line conductor; two-pole switches open both.",
		"Line at the line terminal of every lamp and source; centre contact of lampholders is line.",
		"Sleeves and colours as on the box sheets.",
	} {
		f.tick(s)
	}
	if b.anyDirect() {
		f.tick("+ and − at every lamp for direct current: as marked on the source.")
	}
	b.polarityRead(f)
}

// polarityRead says of which points the polarity was read.
func (b *book) polarityRead(f *flow) {
	said := map[string][]string{}
	for _, r := range b.tests().Of(judge.Polarity) {
		if r.Taken.Reading != nil {
			said[r.Taken.Value.Word] = append(said[r.Taken.Value.Word], r.Label)
		} else {
			said[""] = append(said[""], r.Label)
		}
	}
	words := judge.Polarity.Words()
	if len(said[words[0]])+len(said[words[1]]) == 0 {
		return
	}
	for _, w := range []struct{ word, says string }{{words[0], "Read as right"}, {words[1], "Read as reversed"}, {"", "Not measured"}} {
		if list := said[w.word]; len(list) > 0 {
			f.item(w.says + ": " + runsOf(unique(list)) + ".")
		}
	}
}

func (b *book) anyDirect() (yes bool) {
	b.circuitsIn(func(_ int, net *network.Net, _ *calc.Result) {
		for s := 1; s < len(net.Systems); s++ {
			yes = yes || net.Systems[s].Current == network.DC
		}
	})
	return yes
}
