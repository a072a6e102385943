package packs

import (
	"duskwire/calc"
	"duskwire/calc/judge"
	"duskwire/calc/network"
	"duskwire/layout/doc"
)

// formPage gathers what the form for the work records. The list of quantities
// follows the parts of the model forms of BS 7671 Appendix 6 in our own words
// (from memory); which form applies is decided by the person who signs.
func (b *book) formPage(f *flow) {
	f.para("For copying to the form that applies: one for additions to an existing circuit, another for a new circuit. This page is neither: it is not a certificate and nobody signs it.")
	b.circuitsIn(func(i int, net *network.Net, res *calc.Result) {
		s, ok := b.scheme.Supplies.Get(b.Frame.Circuits.Circuits[i].Supply)
		if !ok {
			return
		}
		f.head("Circuit " + net.Label)
		work := "a new circuit from a way of its own at the board"
		if s.Spur {
			work = "an addition to an existing circuit, by a fused connection unit"
		}
		f.para("Drawn as " + work + ".")
		t := &table{high: 5.4, columns: []column{{head: "Quantity", grow: 1}, {head: "By the drawing", grow: 1}, {head: "Measured or confirmed", least: 56}}}
		t.band("Supply and earthing")
		b.supplyRows(t, s)
		t.band("Circuit")
		b.deviceRows(t, net)
		b.cableRows(t, net, res)
		t.band("Test results")
		b.resultRows(t, i, s)
		f.table(t)
	})
	if len(b.Frame.Circuits.Circuits) == 0 {
		f.para("The drawing has no supply point, so no circuit.")
	}
	f.findings("Overruled, to be named among departures", b.about(overruled))
}

func (b *book) supplyRows(t *table, s *doc.Supply) {
	got := func(test judge.Test) string { v, _ := b.plainRead(s.ID, test, ""); return v }
	bare := func(test judge.Test) string { v, _ := b.read(s.ID, test, ""); return v }
	t.add("Board, its reference and place", "", "")
	t.add("System earthing", s.Earthing.String(), "")
	t.add("Nominal voltage", s.Nominal.String(), got(judge.Volts))
	if s.Earthing == network.TT {
		t.add("Resistance of the electrode, Ω", figure(s.Electrode), bare(judge.Electrode))
	} else {
		t.add("External loop Ze, Ω", figure(s.Ze), bare(judge.Ze))
	}
	t.add("Zs at the supply point, Ω", figure(s.MeasuredZs), bare(judge.Zs))
	pfc := "not known"
	if s.FaultCurrent.Known {
		pfc = s.FaultCurrent.Value.String()
	}
	t.add("Prospective fault current", pfc, got(judge.FaultCurrent))
	t.add("Main earthing and bonding in place and adequate", "not drawn", "")
}

func (b *book) deviceRows(t *table, net *network.Net) {
	seen := map[string]bool{}
	for i := range net.Nodes {
		for _, d := range net.Nodes[i].Devices {
			if seen[d.Label] {
				continue
			}
			seen[d.Label] = true
			words := d.Label
			if d.Overcurrent() {
				words += ", In " + d.Rating.String()
				if d.Breaking > 0 {
					words += ", breaks " + d.Breaking.String()
				}
			}
			if d.ResidualPart() {
				words += ", IΔn " + digits(float64(d.Residual)*1000, 0) + " mA"
				if d.Type != "" {
					words += " type " + d.Type
				}
			}
			t.add("Protective device", words, "")
		}
	}
}

// cableRows are the wiring and the worst of the readings.
func (b *book) cableRows(t *table, net *network.Net, res *calc.Result) {
	seen := map[string]bool{}
	for i := range res.Runs {
		c := res.Runs[i].Cable
		if c == nil || seen[c.Key] || net.Branches == nil {
			continue
		}
		seen[c.Key] = true
		earth := "no protective conductor"
		switch c.Earth {
		case network.EarthCore:
			size := c.EarthSize
			if size == 0 {
				size = c.Size
			}
			earth = "protective core " + size.String()
		case network.EarthArmour:
			earth = "armour as protective conductor"
		}
		t.add("Wiring", c.Name+": live "+c.Size.String()+", "+earth, "")
	}
	method := map[string]bool{}
	methods := ""
	for i := range res.Runs {
		if m := res.Runs[i].Capacity.Method; m != "" && !method[m] {
			method[m] = true
			if methods != "" {
				methods += ", "
			}
			methods += m
		}
	}
	t.add("Reference methods", methods, "")
	t.add("Points served", plural(res.Totals.Lamps, "lamp", "lamps"), "")
	limit, at := -1.0, ""
	for i := range res.Points {
		if p := &res.Points[i]; p.Limit.Known && p.Loop.Applies && (limit < 0 || float64(p.Limit.Value) < limit) {
			line, most := p.LoopLine(b.Rules.Protect.Cold, net.Supply.Earthing)
			limit = float64(p.Limit.Value)
			at = figure(most) + " at " + p.Label + "; cold " + figure(line)
		}
	}
	if limit >= 0 {
		t.add("Largest Zs allowed, Ω", at, "")
	}
}
