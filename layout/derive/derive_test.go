package derive

import (
	"math"
	"testing"

	"duskwire/calc/check"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// stock is a small stock book of our own for these tests.
func stock() *doc.Stock {
	lamp := func(key string, un q.Volt, c network.Current) doc.LampStock {
		return doc.LampStock{Key: key, Current: c, Load: network.Load{Power: 5, PowerFactor: 1, Nominal: un}}
	}
	spike := lamp("spike12", 12, network.DC)
	spike.Slack = 1
	return &doc.Stock{
		Lamps: []doc.LampStock{lamp("wall230", 230, network.AC), spike},
		Boxes: []doc.BoxStock{{Key: "box"}},
		Sources: []doc.SourceStock{{Key: "src12", Input: 230, Converter: network.Converter{
			Nominal: 12, Current: network.DC, Rated: 60, Regulated: true, Efficiency: 0.85, PowerFactor: 0.9, SELV: true}}},
		Cables: []*network.Cable{{Key: "mains", Name: "mains cable", Waste: 0.05, Mains: true}, {Key: "elv", Name: "12 V cable", Waste: 0.1}},
	}
}

var rules = &check.Rules{Key: "test"}

func place(x, y, h float64) doc.Place { return doc.Place{At: geom.Pt(x, y), Height: geom.Metres(h)} }

func supply(id string, x, y, h float64) *doc.Supply {
	return &doc.Supply{ID: doc.ID(id), Tag: id, Nominal: 230, Spur: true, Place: place(x, y, h)}
}

func lamp(id string, x, y, h float64, item string) *doc.Lamp {
	return &doc.Lamp{ID: doc.ID(id), Tag: id, Stock: item, Place: place(x, y, h)}
}

// run joins two points; without legs it is one clipped leg at ground level.
func run(id, key, from, to string, legs ...doc.Leg) *doc.Run {
	if len(legs) == 0 {
		legs = []doc.Leg{{Support: network.Clipped}}
	}
	return &doc.Run{ID: doc.ID(id), Tag: id, Cable: key, From: doc.End{On: doc.ID(from)}, To: doc.End{On: doc.ID(to)}, Legs: legs}
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// TestMeasure checks the length formula against the hand sums of the trade
// notes, scenarios 1 and 4: cut = (plan + rises + tails + slack)·(1 + waste),
// rounded up to 0.5 m (common practice, no source).
func TestMeasure(t *testing.T) {
	buried := func(depth float64, to geom.Point) doc.Leg {
		return doc.Leg{Support: network.Buried, Depth: geom.Metres(depth), To: to}
	}
	tails := func(r *doc.Run, each q.Metre) *doc.Run {
		r.From.Tail, r.To.Tail = q.Some(each), q.Some(each)
		return r
	}
	var last geom.Point // the last leg ends at what the run is joined to
	one := tails(run("R1", "mains", "SP1", "L1", buried(0.5, geom.Pt(0, 2)), buried(0.5, last)), 0.25)
	four := tails(run("R1", "mains", "SP1", "L1", buried(0.6, geom.Pt(0, 12)), buried(0.6, geom.Pt(30, 12)), buried(0.6, last)), 0.3)
	steps := run("R1", "mains", "SP1", "L1", doc.Leg{Support: network.Clipped, Height: geom.Metres(2), To: geom.Pt(3, 0)}, buried(0.4, last))
	for _, c := range []struct {
		name                      string
		height                    float64
		run                       *doc.Run
		lamp                      *doc.Lamp
		plan, rises, tails, slack float64
		needed, cut               float64
	}{
		{"scenario 1: 6.0 + 0.80 + 0.80 + 0.5, 5 %", 0.3, one, lamp("L1", 4, 2, 0.3, "wall230"), 6, 1.6, 0.5, 0, 8.505, 9},
		{"scenario 4: 85 + 1.2 + 1.1 + 0.6, 5 %", 0.6, four, lamp("L1", 30, 55, 0.5, "wall230"), 85, 2.3, 0.6, 0, 92.295, 92.5},
		{"a step between legs counts", 0.5, steps, lamp("L1", 5, 0, 0, "wall230"), 5, 1.5 + 2.4 + 0.4, 0.8, 0, 10.605, 11},
		{"a movable lamp asks for its coil", 0, run("R1", "elv", "SP1", "L1"), lamp("L1", 5, 0, 0, "spike12"), 5, 0, 0.8, 1, 7.48, 7.5},
	} {
		s := &doc.Scheme{Supplies: doc.NewSet(supply("SP1", 0, 0, c.height)), Lamps: doc.NewSet(c.lamp), Runs: doc.NewSet(c.run)}
		l := Scheme(s, stock(), rules, nil).Lengths[0]
		near(t, c.name+" plan", float64(l.Plan), c.plan)
		near(t, c.name+" rises", float64(l.Rises), c.rises)
		near(t, c.name+" tails", float64(l.Tails), c.tails)
		near(t, c.name+" slack", float64(l.Slack), c.slack)
		near(t, c.name+" needed", float64(l.Needed), c.needed)
		near(t, c.name+" cut", float64(l.Cut), c.cut)
	}
}

// TestRoundUp: half a metre is not bought for a micrometre of float error.
func TestRoundUp(t *testing.T) {
	for _, c := range []struct{ in, want q.Metre }{
		{0, 0}, {0.001, 0.5}, {0.5, 0.5}, {0.5000000001, 0.5}, {0.501, 1}, {92.295, 92.5}, {7.14, 7.5},
	} {
		if got := roundUp(c.in); got != c.want {
			t.Errorf("roundUp(%v) = %v, want %v", c.in, got, c.want)
		}
	}
}

// TestNet checks nodes, systems and branches of a small mixed circuit whose
// runs are drawn in either direction.
func TestNet(t *testing.T) {
	toSource := run("R3", "mains", "S1", "B1")
	toSource.From.Side = doc.Primary
	s := &doc.Scheme{
		Supplies: doc.NewSet(supply("SP1", 0, 0, 0)),
		Boxes:    doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(2, 0, 0)}),
		Lamps:    doc.NewSet(lamp("L1", 4, 0, 0, "wall230"), lamp("L2", 9, 0, 0, "spike12")),
		Sources:  doc.NewSet(&doc.Source{ID: "S1", Tag: "S1", Stock: "src12", Place: place(6, 0, 0)}),
		Runs: doc.NewSet(run("R1", "mains", "B1", "SP1"), run("R2", "mains", "B1", "L1"),
			toSource, run("R4", "elv", "S1", "L2")),
	}
	c := Scheme(s, stock(), rules, nil)
	n := c.Circuits[0].Input.Net
	if len(n.Faults) != 0 || len(c.Loose.Net.Faults) != 0 {
		t.Fatalf("faults %v, loose %v, want none", n.Faults, c.Loose.Net.Faults)
	}
	if got := len(n.Nodes); got != 7 {
		t.Fatalf("%d nodes, want board, SP1, B1, L1, S1 in, S1 out, L2", got)
	}
	l2 := n.Nodes[c.Circuits[0].Node["L2"]]
	if n.Systems[l2.System].Nominal != 12 || len(l2.Loads) != 1 {
		t.Errorf("L2 stands on %v with %d loads, want the 12 V system and its load", n.Systems[l2.System], len(l2.Loads))
	}
	for i, b := range n.Branches {
		if b.To != i+1 || b.From >= b.To {
			t.Errorf("branch %d joins %d to %d: branches must point away from the supply", i, b.From, b.To)
		}
	}
}

// TestFaults draws each flaw once.
func TestFaults(t *testing.T) {
	base := func() *doc.Scheme {
		return &doc.Scheme{
			Supplies: doc.NewSet(supply("SP1", 0, 0, 0)),
			Lamps:    doc.NewSet(lamp("L1", 4, 0, 0, "wall230")),
			Runs:     doc.NewSet(run("R1", "mains", "SP1", "L1")),
		}
	}
	box := &doc.Box{ID: "B1", Tag: "B1"}
	for _, c := range []struct {
		name    string
		change  func(*doc.Scheme)
		want    network.FaultKind
		subject string
	}{
		{"loose lamp", func(s *doc.Scheme) { s.Lamps = s.Lamps.With(lamp("L2", 9, 9, 0, "wall230")) }, network.LooseLamp, "L2"},
		{"loose box", func(s *doc.Scheme) { s.Boxes = doc.NewSet(box) }, network.LooseOther, "B1"},
		{"open end", func(s *doc.Scheme) { s.Runs = s.Runs.With(run("R2", "mains", "L1", "")) }, network.OpenEnd, "R2"},
		{"run joined to nothing", func(s *doc.Scheme) { s.Runs = s.Runs.With(run("R2", "mains", "", "")) }, network.OpenEnd, "R2"},
		{"loop", func(s *doc.Scheme) { s.Runs = s.Runs.With(run("R2", "mains", "L1", "SP1")) }, network.LoopClosed, "R2"},
		{"run from a lamp to itself", func(s *doc.Scheme) { s.Runs = s.Runs.With(run("R2", "mains", "L1", "L1")) }, network.LoopClosed, "R2"},
		{"wrong voltage", func(s *doc.Scheme) { s.Lamps = doc.NewSet(lamp("L1", 4, 0, 0, "spike12")) }, network.WrongVoltage, "L1"},
		{"12 V cable on the mains", func(s *doc.Scheme) { s.Runs = doc.NewSet(run("R1", "elv", "SP1", "L1")) }, network.WrongVoltage, "R1"},
		{"no supply", func(s *doc.Scheme) { s.Supplies = doc.Set[*doc.Supply]{}; s.Runs = doc.Set[*doc.Run]{} }, network.NoSupply, ""},
		{"second supply", func(s *doc.Scheme) {
			s.Supplies = s.Supplies.With(supply("SP2", 9, 0, 0))
			s.Runs = s.Runs.With(run("R2", "mains", "L1", "SP2"))
		}, network.SecondSupply, "R2"},
		{"no cable", func(s *doc.Scheme) { s.Runs = doc.NewSet(run("R1", "", "SP1", "L1")) }, network.NoCable, "R1"},
		{"box that feeds nothing", func(s *doc.Scheme) {
			s.Boxes = doc.NewSet(box)
			s.Runs = s.Runs.With(run("R2", "mains", "L1", "B1"))
		}, network.NothingBeyond, "B1"},
		{"source joined backwards", func(s *doc.Scheme) {
			s.Sources = doc.NewSet(&doc.Source{ID: "S1", Tag: "S1", Stock: "src12"})
			r := run("R2", "mains", "L1", "S1")
			r.To.Side = doc.Secondary
			s.Runs = s.Runs.With(r)
		}, network.WrongVoltage, "S1"},
	} {
		s := base()
		c.change(s)
		all := faults(Scheme(s, stock(), rules, nil))
		found := false
		for _, f := range all {
			found = found || (f.Kind == c.want && f.Subject.ID == c.subject)
		}
		if !found {
			t.Errorf("%s: got faults %v, want kind %d about %q", c.name, all, c.want, c.subject)
		}
	}
	if all := faults(Scheme(base(), stock(), rules, nil)); len(all) != 0 {
		t.Errorf("clean drawing has faults %v", all)
	}
}

func faults(c *Circuits) []network.Fault {
	all := append([]network.Fault(nil), c.Loose.Net.Faults...)
	for i := range c.Circuits {
		all = append(all, c.Circuits[i].Input.Net.Faults...)
	}
	return all
}

// TestReuse: an edit elsewhere keeps the net of an untouched circuit, an edit
// inside does not, and two runs along one route share their grouping.
func TestReuse(t *testing.T) {
	s := &doc.Scheme{
		Supplies: doc.NewSet(supply("SP1", 0, 0, 0), supply("SP2", 0, 5, 0)),
		Lamps:    doc.NewSet(lamp("L1", 4, 0, 0, "wall230"), lamp("L2", 4, 5, 0, "wall230")),
		Runs:     doc.NewSet(run("R1", "mains", "SP1", "L1"), run("R2", "mains", "SP2", "L2")),
	}
	book := stock()
	a := Scheme(s, book, rules, nil)
	moved := *s
	moved.Lamps = s.Lamps.With(lamp("L2", 5, 5, 0, "wall230"))
	b := Scheme(&moved, book, rules, a)
	if a.Circuits[0].Input.Net != b.Circuits[0].Input.Net {
		t.Error("SP1 was rebuilt although nothing of it changed")
	}
	if a.Circuits[1].Input.Net == b.Circuits[1].Input.Net {
		t.Error("SP2 was kept although its lamp moved")
	}
	along := *s
	along.Lamps = s.Lamps.With(lamp("L2", 4, 0, 0, "wall230"))
	along.Supplies = s.Supplies.With(supply("SP2", 0, 0, 0))
	c := Scheme(&along, book, rules, a)
	if g := c.Circuits[0].Input.Net.Branches[1].Legs[0].Group; g != 2 {
		t.Errorf("two runs on one route: group %d, want 2", g)
	}
	if a.Circuits[0].Input.Net == c.Circuits[0].Input.Net {
		t.Error("SP1 was kept although a second cable now lies beside it")
	}
}

// TestDoubt: what lies beyond a source on the wrong voltage, and a circuit
// with a loop left out, gives no answer; the rest still does.
func TestDoubt(t *testing.T) {
	source := func(id string) *doc.Source { return &doc.Source{ID: doc.ID(id), Tag: id, Stock: "src12"} }
	chain := run("R2", "elv", "S1", "S2")
	chain.From.Side, chain.To.Side = doc.Secondary, doc.Primary
	s := &doc.Scheme{
		Supplies: doc.NewSet(supply("SP1", 0, 0, 0)),
		Sources:  doc.NewSet(source("S1"), source("S2")),
		Lamps:    doc.NewSet(lamp("L1", 4, 0, 0, "spike12"), lamp("L2", 1, 0, 0, "wall230")),
		Runs:     doc.NewSet(run("R1", "mains", "SP1", "S1"), chain, run("R3", "elv", "S2", "L1"), run("R4", "mains", "SP1", "L2")),
	}
	c := Scheme(s, stock(), rules, nil).Circuits[0]
	for id, want := range map[doc.ID]bool{"L1": true, "S2": true, "S1": false, "L2": false} {
		if got := c.Input.Net.Nodes[c.Node[id]].Doubtful; got != want {
			t.Errorf("%s doubtful %v, want %v", id, got, want)
		}
	}
	s.Runs = s.Runs.With(run("R5", "mains", "SP1", "L2"))
	c = Scheme(s, stock(), rules, nil).Circuits[0]
	if !c.Input.Net.Nodes[c.Node["L2"]].Doubtful {
		t.Error("a circuit with a loop left out shows its figures as an answer")
	}
}
