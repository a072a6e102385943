package file

import (
	"testing"

	"duskwire/calc/cable"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
	"duskwire/layout/internal/outside"
)

// The shipped tables and stock book against the rows of testdata/checks.

// reference are the conditions that the rating tables are for.
var reference = network.Site{Air: q.Celsius(30), Ground: q.Celsius(20), Soil: 2.5}

func TestOutsideDrop(t *testing.T) {
	set := shippedTables(t)
	outside.Each(t, "drop", func(in *outside.Input) float64 {
		for _, row := range rowsOfTable[dropRow](t, set, in.Text("table")) {
			if row.size == q.SquareMillimetres(in.Num("mm2")) {
				return float64(row.drop) * 1e3
			}
		}
		return 0
	})
}

func TestOutsideResistance(t *testing.T) {
	set := shippedTables(t)
	outside.Each(t, "resistance", func(in *outside.Input) float64 {
		for _, row := range rowsOfTable[resistanceRow](t, set, in.Text("table")) {
			if row.size == q.SquareMillimetres(in.Num("mm2")) {
				return float64(row.r20) * 1e3
			}
		}
		return 0
	})
}

// applied returns the factor with a symbol that a leg of a cable with the
// insulation is given.
func applied(t *testing.T, insulation, symbol string, leg network.Leg, site network.Site) float64 {
	t.Helper()
	r := shippedRules(t)
	r.Cable.Terminals = 0 // the insulation's own column, whatever the terminals
	c := &network.Cable{Insulation: insulation, Buriable: true, Ratings: []network.Rating{
		{Method: "A", Iz: 1}, {Method: "C", Iz: 1}, {Method: "D", Iz: 1}}}
	for _, a := range cable.LegCapacity(c, leg, site, &r.Cable, false).Applied {
		if a.Symbol == symbol {
			return a.Value
		}
	}
	return 0
}

func TestOutsideAmbient(t *testing.T) {
	outside.Each(t, "ambient", func(in *outside.Input) float64 {
		site, leg := reference, network.Leg{Support: network.Clipped, Method: "C"}
		if at := q.Celsius(in.Num("celsius")); in.Text("place") == "ground" {
			site.Ground, leg = at, network.Leg{Support: network.Buried, Method: "D", Depth: 0.5}
		} else {
			site.Air = at
		}
		return applied(t, in.Text("key"), "Ca", leg, site)
	})
}

func TestOutsideGrouping(t *testing.T) {
	outside.Each(t, "grouping", func(in *outside.Input) float64 {
		leg := network.Leg{Support: network.Clipped, Method: "C", Group: int(in.Num("n"))}
		if in.Text("item") == cable.Bunched {
			leg.Support, leg.Method = network.Indoors, "A"
		}
		return applied(t, cable.SeventyKey, "Cg", leg, reference)
	})
}

func TestOutsideRatings(t *testing.T) {
	s, r := shippedStock(t), shippedRules(t)
	r.Cable.Terminals = q.Celsius(90)
	support := map[string]network.Support{"C": network.Clipped, "E": network.InTree, "D": network.InDuct}
	outside.Each(t, "ratings", func(in *outside.Input) float64 {
		c, ok := s.Cable(in.Text("cable"))
		if !ok {
			t.Fatalf("no cable %s", in.Text("cable"))
		}
		method := in.Text("method")
		leg := network.Leg{Support: network.Indoors, Method: method}
		if how, ok := support[method]; ok {
			leg.Support, leg.Depth = how, 0.6
		}
		return float64(cable.LegCapacity(c, leg, reference, &r.Cable, false).Iz)
	})
}

// outsideDevice returns the device that a row names.
func outsideDevice(t *testing.T, in *outside.Input) network.Device {
	t.Helper()
	s := shippedStock(t)
	item, ok := s.Device(in.Text("device"))
	if !ok {
		t.Fatalf("no device %s", in.Text("device"))
	}
	return item.Device
}

func TestOutsideLoops(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "loops", func(in *outside.Input) float64 {
		z, _, _ := protect.MaxLoop(outsideDevice(t, in), q.Second(in.Num("seconds")), 230, &r.Protect)
		return float64(z)
	})
}

func TestOutsideTrip(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "trip", func(in *outside.Input) float64 {
		i, _, _ := protect.TripCurrent(outsideDevice(t, in), q.Second(in.Num("seconds")), 230, &r.Protect)
		return float64(i)
	})
}

func TestOutsideBands(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "bands", func(in *outside.Input) float64 {
		d := outsideDevice(t, in)
		holds, opens, _, _ := protect.LongRun(d, &r.Protect)
		switch in.Text("figure") {
		case "holds":
			return float64(holds)
		case "opens":
			return float64(opens)
		}
		from, _, _ := protect.InstantFrom(d, &r.Protect)
		return float64(from)
	})
}

func TestOutsidePoints(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "points", func(in *outside.Input) float64 {
		least, longest, _, _ := protect.Limits(outsideDevice(t, in), q.Ampere(in.Num("amps")), &r.Protect)
		if in.Text("figure") == "least" {
			return float64(least)
		}
		return float64(longest)
	})
}

func TestOutsideElectrode(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "electrode", func(in *outside.Input) float64 {
		d := network.Device{Kind: network.ResidualRCD, Residual: q.Ampere(in.Num("milliamps") / 1e3)}
		z, _, _ := protect.MaxLoopResidual(d, network.TT, 230, &r.Protect)
		return float64(z)
	})
}

func TestOutsideResidual(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "residual", func(in *outside.Input) float64 {
		d := outsideDevice(t, in)
		s, _, _ := protect.ResidualTimeAt(d, q.Ampere(in.Num("multiple"))*d.Residual, &r.Protect)
		return float64(s) * 1e3
	})
}

func TestOutsideTimes(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "times", func(in *outside.Input) float64 {
		e := map[string]network.Earthing{"TN-S": network.TNS, "TN-C-S": network.TNCS, "TT": network.TT}[in.Text("earthing")]
		if !in.Has("rating") {
			s, _, _ := protect.Final(e, &r.Protect)
			return float64(s)
		}
		supply := network.Supply{Earthing: e, Kind: network.OwnWay}
		if in.Has("supply") && in.Text("supply") == "spur" {
			supply.Kind = network.Spur
		}
		s, _, _ := protect.Longest(&supply, q.Ampere(in.Num("rating")), &r.Protect)
		return float64(s)
	})
}

func TestOutsideR1R2(t *testing.T) {
	r20 := map[float64]float64{}
	for _, r := range rowsOfTable[resistanceRow](t, shippedTables(t), "copper class 1 and 2") {
		r20[r.size.SquareMillimetres()] = float64(r.r20) * 1e3
	}
	outside.Each(t, "r1r2", func(in *outside.Input) float64 { return r20[in.Num("line")] + r20[in.Num("cpc")] })
}

func TestOutsideStockR1R2(t *testing.T) {
	s, r := shippedStock(t), shippedRules(t)
	outside.Each(t, "stock-r1r2", func(in *outside.Input) float64 {
		c, ok := s.Cable(in.Text("cable"))
		if !ok {
			t.Fatalf("no cable %s", in.Text("cable"))
		}
		cold, _, _ := protect.PathPerMetre(c, 1, 1, &r.Protect)
		return float64(cold) * 1e3
	})
}

func TestOutsideTestAmbient(t *testing.T) {
	outside.Each(t, "test-ambient", func(in *outside.Input) float64 { return cable.CopperAt(q.Celsius(in.Num("celsius"))) })
}

func TestOutsideOperating(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "operating", func(in *outside.Input) float64 {
		row := cable.Hot(in.Text("key"), &r.Cable)
		if in.Text("part") == "armour" {
			return row.Armour
		}
		return row.Core
	})
}

func TestOutsideK(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "k", func(in *outside.Input) float64 {
		k, _, _ := protect.K(in.Text("part"), in.Text("key"), &r.Protect)
		return k
	})
}

func TestOutsideSelection(t *testing.T) {
	r := shippedRules(t)
	outside.Each(t, "selection", func(in *outside.Input) float64 {
		core, _, _ := protect.K(protect.CorePart, in.Text("key"), &r.Protect)
		steel, _, _ := protect.K(protect.ArmourPart, in.Text("key"), &r.Protect)
		return protect.Selected(q.SquareMillimetres(in.Num("mm2")), core, steel).SquareMillimetres()
	})
}

func TestOutsideArmour(t *testing.T) {
	s := shippedStock(t)
	outside.Each(t, "armour", func(in *outside.Input) float64 {
		c, ok := s.Cable(in.Text("cable"))
		if !ok {
			t.Fatalf("no cable %s", in.Text("cable"))
		}
		switch in.Text("figure") {
		case "area":
			return c.ArmourArea.SquareMillimetres()
		case "resistance":
			return float64(c.ArmourR20) * 1e3
		}
		return float64(c.Diameter) * 1e3
	})
}
