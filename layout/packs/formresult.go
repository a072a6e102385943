package packs

import (
	"strings"

	"duskwire/calc/judge"
	"duskwire/calc/network"
	"duskwire/layout"
	"duskwire/layout/doc"
)

// resultRows are the results that a form records, as far as they were entered: of
// a test with many points the least favourable, with its place and how many were
// read.
func (b *book) resultRows(t *table, circuit int, s *doc.Supply) {
	got := func(test judge.Test) string { v, _ := b.plainRead(s.ID, test, ""); return v }
	net, res := b.Frame.Circuits.Circuits[circuit].Input.Net, b.Frame.Results[circuit]
	want := "not known"
	far, most := "", -1.0
	for i := range res.Points {
		if p := &res.Points[i]; p.R1R2Test.Known && float64(p.R1R2Test.Value) > most {
			most, far = float64(p.R1R2Test.Value), p.Label
		}
	}
	if most >= 0 {
		want = digits(most, 2) + " at " + far
	}
	t.add("Largest R1+R2, Ω", want, b.worst(judge.R1R2, circuit))
	t.add("Ring final circuit r1, rn, r2", "no ring final circuit", "")
	volts := ""
	if got(judge.InsulationLive)+got(judge.InsulationEarth) != "" {
		volts = "500"
	}
	t.add("Insulation test voltage, V", "500", volts)
	t.add("Insulation resistance, live to live", "at least 1 MΩ", got(judge.InsulationLive))
	t.add("Insulation resistance, live to earth", "at least 1 MΩ", got(judge.InsulationEarth))
	t.add("Polarity", "right at every point", b.polarityResult(circuit))
	largest, where := -1.0, ""
	for i := range res.Points {
		if p := &res.Points[i]; p.LoopTest.Known && p.Kind != network.SupplyNode && float64(p.LoopTest.Value) > largest {
			largest, where = float64(p.LoopTest.Value), p.Label
		}
	}
	want = "not known"
	if largest >= 0 {
		want = digits(largest, 2) + " at " + where
	}
	t.add("Largest Zs, Ω", want, b.worst(judge.Zs, circuit))
	for _, r := range b.tests().Of(judge.RCDTime) {
		if r.Circuit != circuit {
			continue
		}
		time, _ := b.plainRead(r.On, judge.RCDTime, r.Part)
		button, _ := b.plainRead(r.On, judge.RCDButton, r.Part)
		t.add("Operating time at IΔn, "+r.Of, r.Ask.Limit(), time)
		t.add("Test button, "+r.Of, "switches it off", button)
	}
	t.add("Arc fault and surge devices, their test buttons", "not drawn", "")
	t.add("Instruments and serial numbers", "–", b.instruments())
	t.add("Departures, existing installation, remarks", "–", "")
	if n := plural(res.Totals.Lamps, "lamp", "lamps"); len(net.Systems) > 1 {
		t.add("Extra-low voltage", n+" in all; separated sources have forms of their own where asked for", "")
	}
}

// worst is the largest figure read of a test in a circuit, with where it was and
// how many points were read; "" where none was.
func (b *book) worst(test judge.Test, circuit int) string {
	var at *layout.TestRow
	n, all := 0, 0
	for _, r := range b.tests().Of(test) {
		if r.Circuit != circuit {
			continue
		}
		all++
		if r.Taken.Reading == nil {
			continue
		}
		n++
		if at == nil || larger(r.Taken.Value, at.Taken.Value) {
			at = &r
		}
	}
	if at == nil {
		return ""
	}
	return at.Taken.Value.Shown(test) + " at " + at.Label + "; " + whole(n) + " of " + whole(all) + " read"
}

// larger reports whether a reading is the less favourable of two; one over the range
// is the least.
func larger(a, b judge.Value) bool {
	if (a.Bound == judge.Open) != (b.Bound == judge.Open) {
		return a.Bound == judge.Open
	}
	return a.SI > b.SI
}

func (b *book) polarityResult(circuit int) string {
	right, wrong, all := 0, []string{}, 0
	for _, r := range b.tests().Of(judge.Polarity) {
		if r.Circuit != circuit {
			continue
		}
		all++
		switch {
		case r.Taken.Reading == nil:
		case r.Taken.Value.Word == judge.Polarity.Words()[0]:
			right++
		default:
			wrong = append(wrong, r.Label)
		}
	}
	switch {
	case len(wrong) > 0:
		return "reversed at " + runsOf(wrong)
	case right == 0:
		return ""
	}
	return "right at " + whole(right) + " of " + whole(all)
}

// instruments are those of the days of testing.
func (b *book) instruments() string {
	var list []string
	for i := range b.scheme.Visits {
		if s := b.scheme.Visits[i].Instrument; s != "" {
			list = append(list, s)
		}
	}
	return strings.Join(unique(list), "; ")
}
