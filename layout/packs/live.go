package packs

import (
	"slices"

	"duskwire/calc"
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
	for _, s := range []string{"Every isolator opens both conductors and is marked", "Test button of every residual device: it switches off", "Every zone is switched by what is named for it", "Standing leakage by clamp at the supply: ________ mA"} {
		f.tick(s)
	}
}

// startTable lists what the supply should read.
func (b *book) startTable(f *flow) {
	f.head("1. At the supply")
	t := &table{high: 5.6, columns: []column{{head: "Quantity", grow: 1}, {head: "From the survey", anchor: scene.Right}, {head: "Measured", least: 30}}}
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
		if s.Earthing == network.TT {
			t.add("Resistance of the electrode RA", in(s.Electrode), "")
		} else {
			t.add("External loop Ze at the board", in(s.Ze), "")
		}
		t.add("Loop Zs at the supply point", in(s.MeasuredZs), "")
		t.add("Prospective fault current at the board", amps(s.FaultCurrent), "")
		t.add("Polarity of the supply", "–", "")
		t.add("Voltage", s.Nominal.String()+" nominal", "")
	}
	f.table(t)
}

// loopTable lists the loop at every point with its limit and the 80 % line.
func (b *book) loopTable(f *flow) {
	temp, _ := b.testTemperature()
	share := b.Rules.Protect.Cold
	f.head("2. Earth fault loop Zs")
	f.para("Expected is for cables at " + temp.String() + ". A reading is compared with " + digits(share*100, 0) + " % of the largest loop that the device allows, since it is taken cold (" + b.Rules.Protect.ColdSource.String() + ").")
	t := &table{high: 5.6, columns: []column{{head: "Point"}, {head: "What", grow: 1}, {head: "Device", grow: 0.8}, {head: "Expected", unit: "Ω", anchor: scene.Right}, {head: digits(share*100, 0) + " % line", unit: "Ω", anchor: scene.Right, least: 17}, {head: "Limit", unit: "Ω", anchor: scene.Right}, {head: "Measured", unit: "Ω", least: 24}, {head: "In order", least: 14}}}
	b.circuitsIn(func(_ int, net *network.Net, res *calc.Result) {
		t.band("Circuit " + net.Label)
		for _, p := range sortedPoints(res, func(p *calc.Point) bool { return p.Loop.Applies }) {
			line, limit := lineAndLimit(p, share, net.Supply.Earthing)
			what := ""
			if e, _ := doc.Find(b.scheme, doc.ID(p.ID)); e != nil {
				what = b.whatIs(e)
			}
			want := figure(p.LoopTest)
			if !p.LoopTest.Known && p.Loop.Missing != "" {
				want = "not known"
				what += ": " + p.Loop.Missing
			}
			t.rows = append(t.rows, row{cells: []string{p.Label, what, p.Device, want, figure(line), figure(limit), "", ""}, tick: true})
		}
	})
	f.table(t)
	f.findings("Findings about fault loops", b.about(codes("FLT-", "RCD-", "ADI-")))
}

// lineAndLimit returns the line for a cold reading and the limit itself. The
// frame gives the limit, or the line where the loop of the supply was measured;
// on TT the limit is that of the residual device and has no line.
func lineAndLimit(p *calc.Point, share float64, e network.Earthing) (line, limit q.Maybe[q.Ohm]) {
	if !p.Limit.Known || share <= 0 {
		return p.Limit, p.Limit
	}
	v := p.Limit.Value
	switch {
	case e == network.TT:
		return p.Limit, p.Limit
	case p.Loop.Measured && p.Kind != network.SupplyNode:
		return p.Limit, q.Some(v / q.Ohm(share))
	}
	return q.Some(v * q.Ohm(share)), p.Limit
}

// residualTable lists the residual devices and what they are tested for.
func (b *book) residualTable(f *flow) {
	f.head("3. Residual current devices")
	t := &table{high: 5.6, columns: []column{{head: "Device", grow: 1}, {head: "Circuit"}, {head: "IΔn", unit: "mA", anchor: scene.Right}, {head: "Type"}, {head: "At IΔn", unit: "ms", anchor: scene.Right}, {head: "Measured", unit: "ms", least: 22}, {head: "At half: no trip", least: 18}, {head: "Button", least: 14}}}
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
				t.rows = append(t.rows, row{cells: []string{d.Label, net.Label, digits(float64(d.Residual)*1000, 0), kind, within, "", "", ""}, tick: true})
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
			t := &table{high: 5.6, columns: []column{{head: "Point"}, {head: "What", grow: 1}, {head: "Expected", unit: "V", anchor: scene.Right}, {head: "Proof", unit: "V", anchor: scene.Right}, {head: "Through", unit: "A", anchor: scene.Right}, {head: "Measured", unit: "V", least: 24}, {head: "Off by", unit: "V", least: 16}}}
			for _, p := range points {
				b.voltsRow(t, p)
			}
			f.table(t)
		}
	})
	if !any {
		f.para("The garden has no extra-low voltage.")
	}
	f.findings("Findings about volts", b.about(codes("VD-", "SRC-", "SOL-")))
}

func (b *book) voltsRow(t *table, p *calc.Point) {
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
	t.add(p.Label, what, want, proof, amps, "", "")
}
