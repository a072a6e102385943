package layout_test

import (
	"math"
	"testing"

	"duskwire/calc"
	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/internal/outside"
)

// Published examples, handbook shortcuts and hand calculations, worked by the
// program with the shipped rule set and stock book.

// shipped returns the stock book and the rule set.
func shipped(t *testing.T) (doc.Stock, *check.Rules) {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	return stock, rules[0]
}

// optional is a number of the row, or otherwise a value.
func optional(in *outside.Input, key string, otherwise float64) float64 {
	if in.Has(key) {
		return in.Num(key)
	}
	return otherwise
}

// pathLoop is the earth-fault loop of a length of cable, with Ze before it.
func pathLoop(in *outside.Input, r *check.Rules) float64 {
	c := &network.Cable{Earth: network.EarthCore, R20: q.MilliohmPerMetre(in.Num("line"))}
	if in.Has("armour") {
		c.Earth, c.ArmourR20 = network.EarthArmour, q.MilliohmPerMetre(in.Num("armour"))
	} else {
		c.EarthR20 = q.MilliohmPerMetre(in.Num("cpc"))
	}
	_, hot, _ := protect.PathPerMetre(c, in.Num("core_hot"), optional(in, "armour_hot", 1), &r.Protect)
	return optional(in, "ze", 0) + float64(hot)*in.Num("metres")
}

// deratedTo is the corrected capacity of a cable rated one ampere under the
// factors of a row.
func deratedTo(in *outside.Input, r *check.Rules) float64 {
	src := r.Cable.Buried.Source
	tables := r.Cable
	tables.Air = []cable.TempRow{{At: q.Celsius(50), Factors: []cable.Keyed{{Key: cable.SeventyKey, Value: in.Num("ca")}}, Source: src}}
	tables.Grouping = []cable.GroupRow{{Item: cable.Bunched, N: 2, Value: in.Num("cg"), Source: src}}
	tables.Insulation = []cable.InsulationRow{{Length: 1, Value: in.Num("ci"), Source: src}}
	c := &network.Cable{Insulation: cable.SeventyKey, Conductor: q.Celsius(70), Ratings: []network.Rating{{Method: "A", Iz: 1}}}
	leg := network.Leg{Support: network.Indoors, Method: "A", Group: 2, Insulated: 0.3}
	return float64(cable.LegCapacity(c, leg, network.Site{Air: q.Celsius(50)}, &tables, true).Iz)
}

// faultCurrent is Uo/Zs without voltage factor, as the examples count.
func faultCurrent(zs float64, r *check.Rules) float64 {
	plain := r.Protect
	plain.Cmin = 1
	l := protect.Loop{Applies: true, Known: true, Hot: q.Ohm(zs)}
	return float64(protect.Disconnects(l, network.Supply{Nominal: 230, Earthing: network.TNS}, &plain).Current)
}

func TestOutsideExamples(t *testing.T) {
	stock, r := shipped(t)
	draws := func(watts, volts float64) float64 {
		return float64(network.Load{Power: q.Watt(watts), PowerFactor: 1, Nominal: q.Volt(volts)}.Rated())
	}
	amps := func(watts float64) float64 { return draws(watts, 230) }
	outside.Each(t, "examples", func(in *outside.Input) float64 {
		switch of := in.Text("of"); of {
		case "loop":
			return pathLoop(in, r)
		case "current":
			return draws(in.Num("watts"), in.Num("volts"))
		case "drop":
			c := &network.Cable{Drop: q.MilliohmPerMetre(in.Num("mv"))}
			return amps(in.Num("watts")) * in.Num("metres") * float64(cable.LoopPerMetre(c, network.Site{}))
		case "stock drop":
			c, _ := stock.Cable(in.Text("cable"))
			return amps(in.Num("watts")) * in.Num("metres") * float64(cable.LoopPerMetre(c, network.Site{}))
		case "rating":
			return in.Num("amps") / deratedTo(in, r)
		case "derated":
			return in.Num("amps") * deratedTo(in, r)
		case "fault":
			return faultCurrent(in.Num("zs"), r)
		case "adiabatic":
			return protect.Adiabatic(q.Ampere(in.Num("amps")), q.Second(in.Num("seconds")), in.Num("k")).SquareMillimetres()
		case "selected":
			core, _, _ := protect.K(protect.CorePart, in.Text("key"), &r.Protect)
			steel, _, _ := protect.K(protect.ArmourPart, in.Text("key"), &r.Protect)
			return protect.Selected(q.SquareMillimetres(in.Num("mm2")), core, steel).SquareMillimetres()
		default:
			t.Fatalf("no way to work out %q", of)
			return 0
		}
	})
}

// leg is one length of cable with a constant current drawn at its end.
type leg struct {
	cable *network.Cable
	m     q.Metre
	amps  float64
}

// chainDrop evaluates a chain of legs on an ideal 12 V source with conductors
// at 20 °C and returns the volts lost at its end.
func chainDrop(r *check.Rules, legs []leg) float64 {
	n := &network.Net{
		Systems: []network.System{{Label: "12 V", Nominal: 12}},
		Supply:  network.Supply{Nominal: 12},
		Site:    network.Site{Conductor: q.Some(q.Celsius(20))},
		Nodes:   []network.Node{{Kind: network.BoardNode}},
	}
	for i, l := range legs {
		node := network.Node{ID: "L", Kind: network.LampNode}
		if l.amps > 0 {
			node.Loads = []network.Load{{Law: network.ConstantCurrent, Power: q.Watt(12 * l.amps), PowerFactor: 1, Nominal: 12}}
		}
		n.Nodes = append(n.Nodes, node)
		n.Branches = append(n.Branches, network.Branch{ID: "R", From: i, To: i + 1, Cable: l.cable, Length: l.m})
	}
	res := calc.Evaluate(calc.Input{Net: n, Rules: r})
	return float64(res.Points[len(res.Points)-1].Drop)
}

// The shortcut for n equal lamps: what the chain loses at its end, over what it
// would lose with all current at the end.
func TestOutsideShortcuts(t *testing.T) {
	stock, r := shipped(t)
	c, _ := stock.Cable("elv-2x2.5")
	outside.Each(t, "shortcuts", func(in *outside.Input) float64 {
		n := int(in.Num("n"))
		spread := make([]leg, n)
		for i := range spread {
			spread[i] = leg{c, q.Metre(20 / float64(n)), 1 / float64(n)}
		}
		return chainDrop(r, spread) / chainDrop(r, []leg{{c, 20, 1}})
	})
}

// twoLegs is the drop of two lengths of two-core copper in a row, the first
// carrying a1 and the second a2.
func twoLegs(t *testing.T, in *outside.Input, stock doc.Stock, r *check.Rules) float64 {
	t.Helper()
	core := func(key string) *network.Cable {
		for _, c := range stock.Cables {
			if c.Size == q.SquareMillimetres(in.Num(key)) && c.Conductor == q.Celsius(70) {
				return c
			}
		}
		t.Fatalf("no copper of %v mm²", in.Num(key))
		return nil
	}
	a1, a2 := in.Num("a1"), in.Num("a2")
	return chainDrop(r, []leg{{core("s1"), q.Metre(in.Num("m1")), a1 - a2}, {core("s2"), q.Metre(in.Num("m2")), a2}})
}

// pointFigure is one reading of a scenario file, after what the row changes.
func pointFigure(t *testing.T, in *outside.Input) float64 {
	t.Helper()
	d := scenario(t, in.Text("file"))
	var ops []edit.Operation
	if in.Has("upstream") {
		sp := *d.Frame().Scheme.Supplies.All()[0]
		sp.Upstream = in.Text("upstream")
		ops = append(ops, edit.SetSupply{Supply: &sp})
	}
	if in.Has("cable") {
		for _, run := range d.Frame().Scheme.Runs.All() {
			ops = append(ops, edit.SetCable{Runs: []doc.ID{run.ID}, Cable: in.Text("cable")})
		}
	}
	if len(ops) > 0 {
		commit(t, d, edit.Batch{Label: "Try", Ops: ops})
	}
	p := point(t, d.Frame(), in.Text("label"))
	switch in.Text("figure") {
	case "current":
		return float64(p.Current)
	case "r1r2":
		return float64(p.Loop.R1R2Cold)
	case "hot":
		return float64(p.Loop.Hot)
	case "cold":
		return float64(p.Loop.Cold)
	case "limit":
		return float64(p.Limit.Value)
	case "volts":
		return float64(p.Voltage)
	case "drop":
		return float64(p.Drop)
	case "percent":
		return p.DropRatio * 100
	}
	return math.NaN()
}

// needed sums what the runs of a scenario need.
func needed(d *layout.Desk) float64 {
	var sum q.Metre
	for _, l := range d.Frame().Circuits.Lengths {
		sum += l.Needed
	}
	return float64(sum)
}

func TestOutsideScenarios(t *testing.T) {
	stock, r := shipped(t)
	outside.Each(t, "scenarios", func(in *outside.Input) float64 {
		switch in.Text("of") {
		case "point":
			return pointFigure(t, in)
		case "border":
			return float64(point(t, dimEnd(t, in.Text("cable"), in.Text("lamp")).Frame(), "L10").Voltage)
		case "metres":
			return needed(scenario(t, in.Text("file")))
		case "run":
			l := scenario(t, in.Text("file")).Frame().Circuits.Lengths[int(in.Num("at"))]
			if in.Text("figure") == "cut" {
				return float64(l.Cut)
			}
			return float64(l.Needed)
		case "times ra":
			d := network.Device{Kind: network.ResidualRCD, Residual: q.Ampere(in.Num("milliamps") / 1e3)}
			z, _, _ := protect.MaxLoopResidual(d, network.TT, 230, &r.Protect)
			return in.Num("ra") * float64(r.Protect.Touch) / float64(z)
		case "fault":
			return faultCurrent(in.Num("zs"), r)
		case "legs":
			return twoLegs(t, in, stock, r)
		case "loop":
			return pathLoop(in, r)
		case "armour":
			c, _ := stock.Cable(in.Text("cable"))
			cold, _, _ := protect.PathPerMetre(c, 1, 1, &r.Protect)
			return float64(cold-c.R20) * 1e3
		}
		return math.NaN()
	})
}
