package packs

import (
	"slices"

	"duskwire/calc"
	"duskwire/calc/judge"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// sortBy sorts by an order that may leave items equal.
func sortBy[T any](list []T, less func(a, b T) bool) {
	slices.SortStableFunc(list, func(a, b T) int {
		switch {
		case less(a, b):
			return -1
		case less(b, a):
			return 1
		}
		return 0
	})
}

// liveTests are the loops, the residual devices and the switching, in the order
// of BS 7671 643.7 to 643.10.
func (b *book) liveTests(f *flow) {
	f.para("Only after all dead tests are in order. Circuits must be fed for these: keep others away from metal fittings.")
	b.startTable(f)
	b.loopTable(f)
	b.residualTable(f)
	f.head("4. Function")
	for _, s := range []string{"Every isolator opens both conductors and is marked", "Test button of every residual device: it switches off", "Every zone is switched by what is named for it"} {
		f.tick(s)
	}
	b.pointing(f, judge.Ze, judge.Electrode, judge.Zs, judge.FaultCurrent, judge.Leakage, judge.RCDTime, judge.RCDHalf, judge.RCDCurrent, judge.RCDButton)
}

// startTable lists what the supply should read.
func (b *book) startTable(f *flow) {
	f.head("1. At the supply")
	t := &table{high: 5.6, columns: []column{{head: "Quantity", grow: 1}, {head: "From the survey", anchor: scene.Right}, {head: "Measured", least: 26}, {head: "Judged", least: 18}}}
	amps := func(m q.Maybe[q.Ampere]) string {
		if !m.Known {
			return "not known"
		}
		return m.Value.String()
	}
	in := func(m q.Maybe[q.Ohm]) string {
		if !m.Known {
			return "not known"
		}
		return ohms(m.Value) + " Ω"
	}
	for _, s := range b.scheme.Supplies.All() {
		t.band("Supply point " + s.Tag + ", " + s.Earthing.String())
		row := func(test judge.Test, name, survey string) {
			got, verdict := b.plainRead(s.ID, test, "")
			t.add(name, survey, got, verdict)
		}
		if s.Earthing == network.TT {
			row(judge.Electrode, "Resistance of the electrode RA", in(s.Electrode))
		} else {
			row(judge.Ze, "External loop Ze at the board", in(s.Ze))
		}
		row(judge.Zs, "Loop Zs at the supply point", in(s.MeasuredZs))
		row(judge.FaultCurrent, "Prospective fault current at the board", amps(s.FaultCurrent))
		row(judge.Polarity, "Polarity of the supply", "–")
		row(judge.Volts, "Voltage", s.Nominal.String()+" nominal")
		row(judge.Leakage, "Standing leakage, by clamp", "–")
	}
	f.table(t)
}

// loopTable lists the loop at every point with its limit and the 80 % line.
func (b *book) loopTable(f *flow) {
	temp, _ := b.testTemperature()
	share := b.Rules.Protect.Cold
	f.head("2. Earth fault loop Zs")
	f.para("Expected is for cables at " + temp.String() + ". A reading is compared with " + digits(share*100, 0) + " % of the largest loop that the device allows, since it is taken cold (" + b.Rules.Protect.ColdSource.String() + "). On TT, where the residual device protects, the limit itself counts.")
	t := &table{high: 5.6, columns: []column{{head: "Point"}, {head: "What", grow: 1}, {head: "Device", grow: 0.8}, {head: "Expected", unit: "Ω", anchor: scene.Right}, {head: digits(share*100, 0) + " % line", unit: "Ω", anchor: scene.Right, least: 17}, {head: "Limit", unit: "Ω", anchor: scene.Right}, {head: "Measured", unit: "Ω", least: 22}, {head: "Judged", least: 15}}}
	seen := twice{}
	b.circuitsIn(func(_ int, net *network.Net, res *calc.Result) {
		t.band("Circuit " + net.Label)
		for _, p := range sortedPoints(res, func(p *calc.Point) bool { return p.Loop.Applies }) {
			line, limit := p.LoopLine(share, net.Supply.Earthing)
			what := ""
			if e, _ := doc.Find(b.scheme, doc.ID(p.ID)); e != nil {
				what = b.whatIs(e)
			}
			want := figure(p.LoopTest)
			if !p.LoopTest.Known && p.Loop.Missing != "" {
				want = "not known"
				what += ": " + p.Loop.Missing
			}
			got, verdict := b.read(doc.ID(p.ID), judge.Zs, seen.part(p.ID))
			t.add(p.Label, what, p.Device, want, figure(line), figure(limit), got, verdict)
		}
	})
	f.table(t)
	f.findings("Findings about fault loops", b.about(codes("FLT-", "RCD-", "ADI-")))
}

// residualTable lists the residual devices and what they are tested for.
func (b *book) residualTable(f *flow) {
	f.head("3. Residual current devices")
	t := &table{high: 5.6, columns: []column{{head: "Device", grow: 1}, {head: "Circuit"}, {head: "IΔn", unit: "mA", anchor: scene.Right}, {head: "Type"}, {head: "At IΔn", unit: "ms", anchor: scene.Right}, {head: "Measured", unit: "ms", least: 18}, {head: "Trips at", unit: "mA", least: 16}, {head: "At half", least: 16}, {head: "Button", least: 14}, {head: "Judged", least: 15}}}
	b.circuitsIn(func(_ int, net *network.Net, _ *calc.Result) {
		seen := map[string]bool{}
		for i := range net.Nodes {
			for _, d := range net.Nodes[i].Devices {
				if !d.ResidualPart() || seen[d.Label] {
					continue
				}
				seen[d.Label] = true
				kind, within := d.Type, "at most 300"
				if kind == "" {
					kind = "not known"
				}
				if d.Delayed {
					kind, within = kind+", delayed", "130 to 500"
				}
				got := b.residualRead(net.Label, d.Label)
				t.add(append([]string{d.Label, net.Label, digits(float64(d.Residual)*1000, 0), kind, within}, got...)...)
			}
		}
	})
	if len(t.rows) == 0 {
		f.para("None is drawn or named in the survey: see the findings.")
		return
	}
	f.table(t)
	f.small("One test with alternating current at IΔn, whatever the type; the test at five times IΔn may be added, at most 40 ms for 30 mA (BS 7671:2018+A2 643.7, 643.8, from memory).")
}

// residualRead are the readings of a residual device of a circuit: time, trip
// current, half, button and the worst verdict of them.
func (b *book) residualRead(circuit, device string) []string {
	out := make([]string, 5)
	worst := judge.Verdict(-1)
	for i, t := range []judge.Test{judge.RCDTime, judge.RCDCurrent, judge.RCDHalf, judge.RCDButton} {
		for _, r := range b.tests().Of(t) {
			if r.Of != device || b.Frame.Circuits.Circuits[r.Circuit].Input.Net.Label != circuit {
				continue
			}
			if j, ok := b.tests().Judge(&r); ok && out[i] == "" {
				out[i], worst = r.Taken.Value.Shown(t), max(worst, j.Verdict)
			}
		}
	}
	out[4] = shortVerdicts[worst]
	return out
}

// voltsMap lists the volts at every point of extra-low voltage under full load.
func (b *book) voltsMap(f *flow) {
	f.para("With all lamps on and dimmers full. Expected has every conductor as warm as its current makes it. More than 0.2 V off points to a bad joint, a wrong cable or a wrong tap (common practice, no source).")
	any := false
	b.circuitsIn(func(_ int, net *network.Net, res *calc.Result) {
		for s := 1; s < len(net.Systems); s++ {
			sys := &net.Systems[s]
			points := sortedPoints(res, func(p *calc.Point) bool { return p.System == sys.Label })
			if float64(sys.Nominal) > b.extraLow() || len(points) == 0 {
				continue
			}
			any = true
			f.head(sys.Label)
			t := &table{high: 5.6, columns: []column{{head: "Point"}, {head: "What", grow: 1}, {head: "Expected", unit: "V", anchor: scene.Right}, {head: "Proof", unit: "V", anchor: scene.Right}, {head: "Through", unit: "A", anchor: scene.Right}, {head: "Measured", unit: "V", least: 22}, {head: "Off by", unit: "V", least: 14}, {head: "Judged", least: 15}}}
			seen := twice{}
			for _, p := range points {
				b.voltsRow(t, p, seen.part(p.ID))
			}
			f.table(t)
		}
	})
	if !any {
		f.para("The garden has no extra-low voltage.")
	}
	b.pointing(f, judge.Volts)
	f.findings("Findings about volts", b.about(codes("VD-", "SRC-", "SOL-")))
}

func (b *book) voltsRow(t *table, p *calc.Point, part string) {
	what := ""
	if e, _ := doc.Find(b.scheme, doc.ID(p.ID)); e != nil {
		what = b.whatIs(e)
	}
	if p.Kind == network.SecondaryNode {
		what += ", output"
	}
	want, proof, amps := "not known", "not known", "not known"
	if p.Trusted {
		proof, amps = digits(float64(p.Voltage), 2), digits(float64(p.Current), 2)
	}
	if p.Expected.Known {
		want = digits(float64(p.Expected.Value), 2)
	}
	got, verdict := b.read(doc.ID(p.ID), judge.Volts, part)
	off := ""
	if r := b.tests().at[doc.Asked{On: doc.ID(p.ID), Test: judge.Volts, Part: part}]; got != "" && p.Expected.Known && r.Taken.Value.Bound == judge.Exact {
		off = signed(r.Taken.Value.SI - float64(p.Expected.Value))
	}
	t.add(p.Label, what, want, proof, amps, got, off, verdict)
}
