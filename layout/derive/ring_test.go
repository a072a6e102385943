package derive

import (
	"reflect"
	"slices"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// lowVoltage is a source with three lamps in a chain, and further runs.
func lowVoltage(more ...*doc.Run) *doc.Scheme {
	out := func(r *doc.Run) *doc.Run {
		for _, e := range []*doc.End{&r.From, &r.To} {
			if e.On == "S1" || e.On == "S2" {
				e.Side = doc.Secondary
			}
		}
		return r
	}
	in := func(id, source string) *doc.Run {
		r := run(id, "mains", "SP1", source)
		r.To.Side = doc.Primary
		return r
	}
	runs := []*doc.Run{in("R1", "S1"), in("R2", "S2"), out(run("R3", "elv", "S1", "L1")), run("R4", "elv", "L1", "L2"),
		run("R5", "elv", "L2", "L3"), out(run("R6", "elv", "S2", "L4"))}
	for _, r := range more {
		runs = append(runs, out(r))
	}
	return &doc.Scheme{
		Supplies: doc.NewSet(supply("SP1", 0, 0, 0)),
		Sources: doc.NewSet(&doc.Source{ID: "S1", Tag: "S1", Stock: "src12", Place: place(2, 0, 0)},
			&doc.Source{ID: "S2", Tag: "S2", Stock: "src12", Place: place(2, 5, 0)}),
		Lamps: doc.NewSet(lamp("L1", 4, 0, 0, "spike12"), lamp("L2", 6, 0, 0, "spike12"), lamp("L3", 8, 0, 0, "spike12"),
			lamp("L4", 4, 5, 0, "spike12")),
		Runs: doc.NewSet(runs...),
	}
}

// A run that closes a loop behind one separated source is a branch of the net
// and no flaw; anything else stays out and is one.
func TestRings(t *testing.T) {
	for _, row := range []struct {
		what string
		run  *doc.Run
		ring bool
	}{
		{"back to the source", run("R9", "elv", "L3", "S1"), true},
		{"drawn the other way", run("R9", "elv", "S1", "L3"), true},
		{"across", run("R9", "elv", "L1", "L3"), true},
		{"beside another", run("R9", "elv", "L2", "L1"), true},
		{"to another source's lamps", run("R9", "elv", "L3", "L4"), false},
		{"to another source", run("R9", "elv", "L3", "S2"), false},
		{"to the mains", run("R9", "elv", "L3", "SP1"), false},
		{"to itself", run("R9", "elv", "L3", "L3"), false},
	} {
		c := Scheme(lowVoltage(row.run), stock(), rules, nil)
		n := c.Circuits[0].Input.Net
		loop := slices.ContainsFunc(n.Faults, func(f network.Fault) bool { return f.Kind == network.LoopClosed })
		if loop == row.ring || len(c.Loose.Net.Faults) > 0 {
			t.Errorf("%s: flaws %v, loose %v", row.what, n.Faults, c.Loose.Net.Faults)
		}
		tr := network.BuildTree(n)
		if !row.ring {
			if len(tr.Closed) > 0 {
				t.Errorf("%s: closed %v", row.what, tr.Closed)
			}
			continue
		}
		if len(tr.Closed) != 1 || tr.Closed[0] != len(n.Branches)-1 {
			t.Fatalf("%s: closed %v", row.what, tr.Closed)
		}
		b := n.Branches[tr.Closed[0]]
		if !n.RingAllowed(tr.Closed[0]) || c.Circuits[0].Branch[doc.ID(b.ID)] != tr.Closed[0] || b.Length <= 0 || b.Cable == nil || len(b.Legs) == 0 {
			t.Errorf("%s: branch %+v", row.what, b)
		}
	}
	book := stock()
	book.Sources[0].Converter.SELV = false
	if n := Scheme(lowVoltage(run("R9", "elv", "L3", "S1")), book, rules, nil).Circuits[0].Input.Net; len(n.Faults) != 1 || n.Faults[0].Kind != network.LoopClosed {
		t.Errorf("not separated: %v", n.Faults)
	}
}

// A run of a ring that changes rebuilds its circuit; a box on a ring feeds
// lamps although the tree ends at it.
func TestRingIsPartOfItsCircuit(t *testing.T) {
	s := lowVoltage(run("R9", "elv", "L3", "S1"))
	book := stock()
	a := Scheme(s, book, rules, nil)
	if b := Scheme(s, book, rules, a); a.Circuits[0].Input.Net != b.Circuits[0].Input.Net {
		t.Error("nothing changed, and the net is another")
	}
	longer := *s
	r := *s.Runs.All()[6]
	r.Slack = 3
	longer.Runs = s.Runs.With(&r)
	b := Scheme(&longer, book, rules, a)
	if !reflect.DeepEqual(b.Circuits[0].Input, Scheme(&longer, book, rules, nil).Circuits[0].Input) {
		t.Error("the closing run's new length was not taken over")
	}
	boxed := lowVoltage(run("R9", "elv", "L3", "B1"), run("R10", "elv", "B1", "S1"))
	boxed.Boxes = doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(8, 2, 0)})
	if n := Scheme(boxed, book, rules, nil).Circuits[0].Input.Net; len(n.Faults) > 0 {
		t.Errorf("box on a ring: %v", n.Faults)
	}
	dead := lowVoltage(run("R9", "elv", "S1", "B1"), run("R10", "elv", "B1", "B2"), run("R11", "elv", "B2", "S1"))
	dead.Lamps = doc.NewSet(lamp("L4", 4, 5, 0, "spike12"))
	dead.Runs = dead.Runs.Without("R3").Without("R4").Without("R5")
	dead.Boxes = doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(8, 2, 0)}, &doc.Box{ID: "B2", Tag: "B2", Stock: "box", Place: place(9, 2, 0)})
	if n := Scheme(dead, book, rules, nil).Circuits[0].Input.Net; len(n.Faults) != 1 || n.Faults[0].Kind != network.NothingBeyond {
		t.Errorf("ring without lamps: %v", n.Faults)
	}
}

// strips is the stock book with a strip of 1 m and 9.6 W.
func strips() *doc.Stock {
	book := stock()
	book.Lamps = append(book.Lamps, doc.LampStock{Key: "strip", Kind: "strip", Current: network.DC, Length: 1, Tracks: 0.1,
		Load: network.Load{Law: network.ResistorStrip, Power: 9.6, PowerFactor: 1, Nominal: 12, Forward: 9.3}})
	return book
}

// A strip is two nodes and a branch between them, whichever end is met first;
// its length scales its power; fed at both ends it closes a ring.
func TestStrip(t *testing.T) {
	far := func(r *doc.Run) *doc.Run { r.To.Side = doc.FarEnd; return r }
	back := func(r *doc.Run) *doc.Run { r.From.Side = doc.FarEnd; return r }
	for _, row := range []struct {
		what   string
		runs   []*doc.Run
		closed int
	}{
		{"near end", []*doc.Run{run("R9", "elv", "L3", "L5")}, 0},
		{"far end", []*doc.Run{far(run("R9", "elv", "L3", "L5"))}, 0},
		{"both ends", []*doc.Run{run("R9", "elv", "L3", "L5"), far(run("R10", "elv", "S1", "L5"))}, 1},
		{"a run from its near to its far end", []*doc.Run{run("R9", "elv", "L3", "L5"), far(run("R10", "elv", "L5", "L5"))}, 1},
		{"the same, drawn backwards", []*doc.Run{run("R9", "elv", "L3", "L5"), back(run("R10", "elv", "L5", "L5"))}, 1},
		{"the same, met from the far end", []*doc.Run{far(run("R9", "elv", "L3", "L5")), far(run("R10", "elv", "L5", "L5"))}, 1},
	} {
		s := lowVoltage(row.runs...)
		strip := lamp("L5", 9, 0, 0, "strip")
		strip.Length = q.Some(q.Metre(5))
		s.Lamps = s.Lamps.With(strip)
		c := Scheme(s, strips(), rules, nil)
		n := c.Circuits[0].Input.Net
		a, b := c.Circuits[0].Node["L5"], c.Circuits[0].Output["L5"]
		var found *network.Branch
		for k := range n.Branches {
			if n.Branches[k].Strip != nil {
				found = &n.Branches[k]
			}
		}
		if found == nil || a == 0 || b == 0 || n.Nodes[a].Tail || !n.Nodes[b].Tail || len(n.Faults) > 0 {
			t.Fatalf("%s: %+v, nodes %d and %d, flaws %v", row.what, found, a, b, n.Faults)
		}
		if found.From+found.To != a+b || found.ID != "L5" || found.Strip.Load.Power != 48 || found.Strip.Length != 5 {
			t.Errorf("%s: %+v %+v", row.what, found, found.Strip)
		}
		if tr := network.BuildTree(n); len(tr.Closed) != row.closed || len(tr.Loose) > 0 {
			t.Errorf("%s: closed %v, loose %v", row.what, tr.Closed, tr.Loose)
		}
	}
	// Without known tracks, or on the mains, it is one plain lamp.
	book := strips()
	book.Lamps[2].Tracks = 0
	s := lowVoltage(far(run("R9", "elv", "L3", "L5")))
	s.Lamps = s.Lamps.With(lamp("L5", 9, 0, 0, "strip"))
	c := Scheme(s, book, rules, nil)
	n := c.Circuits[0].Input.Net
	if at, ok := c.Circuits[0].Node["L5"]; !ok || len(c.Circuits[0].Output) != 2 || n.Nodes[at].Loads[0].Power != 9.6 {
		t.Errorf("plain strip: %v %v", at, ok)
	}
}
