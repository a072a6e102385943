package derive

import (
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// lit is a garden with a receiver that switches two lamps on the mains and one
// behind a source, and one lamp that stands ahead of it.
func lit() (*doc.Scheme, *doc.Stock) {
	book := stock()
	book.Lamps[0].Leakage, book.Lamps[0].Dimmable = 0.0002, network.No
	book.Sources[0].Leakage = 0.0005
	book.Gear = []doc.GearStock{{Key: "rx", Kind: network.Receiver, Control: network.Gear{LEDWatts: q.Some(q.Watt(100))}}}
	zoned := func(id string, x float64, item, zone string) *doc.Lamp {
		l := lamp(id, x, 0, 0, item)
		l.Zone = doc.ID(zone)
		return l
	}
	sp := supply("SP1", 0, 0, 0)
	sp.OtherCircuits, sp.Shares, sp.Switched = q.Some(q.Count(3)), "freezer", true
	toSource := run("R5", "mains", "G1", "S1")
	toSource.To.Side = doc.Primary
	out := run("R6", "elv", "S1", "L4")
	out.From.Side = doc.Secondary
	return &doc.Scheme{
		Supplies: doc.NewSet(sp),
		Gear:     doc.NewSet(&doc.Gear{ID: "G1", Tag: "G1", Stock: "rx", Place: place(2, 1, 1.5)}),
		Lamps: doc.NewSet(zoned("L1", 1, "wall230", "Z2"), zoned("L2", 4, "wall230", "Z1"), zoned("L3", 5, "wall230", "Z1"),
			zoned("L4", 9, "spike12", "Z1")),
		Sources: doc.NewSet(&doc.Source{ID: "S1", Tag: "S1", Stock: "src12", Place: place(6, 0, 0)}),
		Runs: doc.NewSet(run("R1", "mains", "SP1", "L1"), run("R2", "mains", "L1", "G1"), run("R3", "mains", "G1", "L2"),
			run("R4", "mains", "L2", "L3"), toSource, out),
		Zones: doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Name: "Terrace", Control: "G1", Dimmed: true}, &doc.Zone{ID: "Z2", Tag: "Z2", Control: "G9"},
			&doc.Zone{ID: "Z3", Tag: "Z3"}),
	}, book
}

// Zones, gear, fittings and what the survey found reach the net.
func TestSupplyFacts(t *testing.T) {
	s, book := lit()
	c := Scheme(s, book, rules, nil).Circuits[0]
	n := c.Input.Net
	if n.Supply.OtherCircuits != q.Some(q.Count(3)) || n.Supply.Shares != "freezer" || !n.Supply.Switched {
		t.Errorf("supply %+v", n.Supply)
	}
	g := n.Nodes[c.Node["G1"]]
	if g.Gear == nil || g.Gear.Kind != network.Receiver || g.Gear.LEDWatts.Value != 100 || g.East != 2 || g.North != 1 || g.Height != 1.5 {
		t.Errorf("gear %+v", g)
	}
	l2, l3 := n.Nodes[c.Node["L2"]], n.Nodes[c.Node["L3"]]
	if l2.Fitting == nil || l2.Fitting != l3.Fitting || l2.Fitting.Leakage != 0.0002 || l2.Fitting.Dimmable != network.No {
		t.Errorf("lamps of one stock item: %p %p %+v", l2.Fitting, l3.Fitting, l2.Fitting)
	}
	if f := n.Nodes[c.Node["S1"]].Fitting; f == nil || f.Leakage != 0.0005 {
		t.Errorf("source %+v", f)
	}
	if n.Nodes[c.Output["S1"]].Fitting != nil {
		t.Error("the output of a source draws nothing from the mains")
	}
	if len(n.Zones) != 2 {
		t.Fatalf("%d zones, want the two that have lamps here", len(n.Zones))
	}
	z := n.Zones[0]
	if z.ID != "Z1" || z.Title() != "Terrace" || !z.Named || z.Control != c.Node["G1"] || !z.Dimmed || len(z.Lamps) != 3 {
		t.Errorf("zone %+v", z)
	}
	if z = n.Zones[1]; z.Title() != "Z2" || !z.Named || z.Control != -1 || len(z.Lamps) != 1 || z.Lamps[0] != c.Node["L1"] {
		t.Errorf("zone %+v", z)
	}
}

// A changed zone, or a run that shares a cable with one of the circuit, is a
// changed circuit.
func TestReuseSeesZonesAndCables(t *testing.T) {
	s, book := lit()
	s.Supplies = s.Supplies.With(supply("SP2", 0, 9, 0))
	s.Lamps = s.Lamps.With(lamp("L9", 3, 9, 0, "wall230"))
	s.Runs = s.Runs.With(run("R9", "mains", "SP2", "L9"))
	a := Scheme(s, book, rules, nil)
	zone := *s
	zone.Zones = s.Zones.With(&doc.Zone{ID: "Z1", Tag: "Z1", Name: "Wall"})
	b := Scheme(&zone, book, rules, a)
	if a.Circuits[0].Input.Net == b.Circuits[0].Input.Net || b.Circuits[0].Input.Net.Zones[0].Name != "Wall" {
		t.Error("SP1 was kept although its zone changed")
	}
	if a.Circuits[1].Input.Net != b.Circuits[1].Input.Net {
		t.Error("SP2 was rebuilt although it has no zone")
	}
	share := *s
	r9 := run("R9", "mains", "SP2", "L9")
	r9.With = "R3"
	share.Runs = s.Runs.With(r9)
	c := Scheme(&share, book, rules, a)
	for k, want := range []string{"R9", "R3"} {
		n := c.Circuits[k].Input.Net
		found := ""
		for _, br := range n.Branches {
			for _, x := range br.Sheath {
				found += br.ID + " with " + x.ID + " "
			}
		}
		if other := map[string]string{"R9": "R3 with R9 ", "R3": "R9 with R3 "}[want]; found != other {
			t.Errorf("circuit %d: %q, want %q", k, found, other)
		}
	}
	for _, l := range c.Lengths {
		if l.Run == "R9" && (l.Cut != 0 || l.Needed == 0) {
			t.Errorf("R9 has its cores in another cable: cut %v, needed %v", l.Cut, l.Needed)
		}
	}
	renamed := share
	r3 := run("R3", "mains", "G1", "L2")
	r3.Tag = "R30"
	renamed.Runs = share.Runs.With(r3)
	d := Scheme(&renamed, book, rules, c)
	if got := d.Circuits[1].Input.Net.Branches[1].Sheath; len(got) != 1 || got[0].Label != "R30" {
		t.Errorf("SP2 still names %v", got)
	}
}
