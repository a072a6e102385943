package derive

import (
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// The ends of a branch follow the supply, however the run was drawn.
func TestEndsFollowTheBranch(t *testing.T) {
	for _, flipped := range []bool{false, true} {
		r := run("R1", "mains", "SP1", "B1", doc.Leg{Support: network.Indoors, To: geom.Pt(1, 0)}, doc.Leg{Support: network.Buried, Depth: geom.Metre})
		r.From.Gland, r.To.Untagged = "BW", true
		if flipped {
			r.From, r.To = r.To, r.From
			r.Legs = []doc.Leg{{Support: network.Buried, Depth: geom.Metre, To: geom.Pt(1, 0)}, {Support: network.Indoors}}
		}
		s := &doc.Scheme{
			Supplies: doc.NewSet(supply("SP1", 0, 0, 0)), Runs: doc.NewSet(r),
			Boxes: doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(2, 0, 0)}),
		}
		b := Scheme(s, stock(), rules, nil).Circuits[0].Input.Net.Branches[1]
		near, far := network.End{Gland: "BW", Support: network.Indoors}, network.End{Untagged: true, Support: network.Buried}
		if b.EndAt(b.From) != near || b.EndAt(b.To) != far {
			t.Errorf("drawn backwards %v: ends %+v and %+v", flipped, b.FromEnd, b.ToEnd)
		}
	}
}

// Where two runs share a cable its ends are those of the run that has it: the
// other takes their finish and says that they count there.
func TestSharedEnds(t *testing.T) {
	for _, flipped := range []bool{false, true} {
		host, guest := run("R1", "mains", "SP1", "B1"), run("R2", "mains", "SP1", "L1")
		host.From.Gland, host.To.Untagged = "BW", true
		guest.With, guest.From.Untagged = "R1", true
		if flipped {
			guest.From, guest.To = guest.To, guest.From
		}
		s := &doc.Scheme{
			Supplies: doc.NewSet(supply("SP1", 0, 0, 0)), Runs: doc.NewSet(host, guest),
			Boxes: doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(2, 0, 0)}),
			Lamps: doc.NewSet(lamp("L1", 2.2, 0, 0, "wall230")),
		}
		seen := 0
		for _, b := range Scheme(s, stock(), rules, nil).Circuits[0].Input.Net.Branches {
			switch near, far := b.EndAt(b.From), b.EndAt(b.To); b.ID {
			case "R1":
				seen++
				if near.Shared || far.Shared {
					t.Error("the run that has the cable says that another has it")
				}
			case "R2":
				seen++
				if near != (network.End{Gland: "BW", Shared: true}) || far != (network.End{Untagged: true, Shared: true}) {
					t.Errorf("drawn backwards %v: R2 ends %+v and %+v", flipped, near, far)
				}
			}
		}
		if seen != 2 {
			t.Fatalf("%d runs", seen)
		}
	}
}

// What the plan and the stock book know of a box stands at its node.
func TestBoxFacts(t *testing.T) {
	book := stock()
	book.Boxes = []doc.BoxStock{{Key: "box", Name: "Box", IP: "IP66", Entries: 4, Metal: true, Buried: true}}
	inside := doc.Leg{Support: network.Indoors}
	s := &doc.Scheme{
		Supplies: doc.NewSet(supply("SP1", 0, 0, 0)),
		Lamps:    doc.NewSet(lamp("L1", 4, 0, 0, "wall230")),
		Boxes: doc.NewSet(&doc.Box{ID: "B1", Tag: "B1", Stock: "box", Place: place(2, 0, -0.1), Fill: "resin",
			Hidden: true, TopEntries: 1, Open: 2, Unlinked: true}),
		// R3 has no cable and ends in the box all the same.
		Runs: doc.NewSet(run("R1", "mains", "SP1", "B1", inside), run("R2", "mains", "B1", "L1", inside), run("R3", "", "B1", "", inside)),
	}
	at := func(c *Circuits) network.Box { return *c.Circuits[0].Input.Net.Nodes[c.Circuits[0].Node["B1"]].Box }
	first := Scheme(s, book, rules, nil)
	want := network.Box{Name: "Box", IP: "IP66", Entries: 4, Cables: 3, Metal: true, Burial: true, Fill: network.FillResin,
		Hidden: true, Indoors: true, TopEntries: 1, Open: 2, Unlinked: true, Height: -0.1}
	if got := at(first); got != want {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
	changed := *s
	changed.Runs = s.Runs.With(run("R2", "mains", "B1", "L1"))
	if at(Scheme(&changed, book, rules, first)).Indoors {
		t.Error("a box with a cable outdoors is kept as one indoors")
	}
	changed.Runs = s.Runs.Without("R3")
	if n := at(Scheme(&changed, book, rules, first)).Cables; n != 2 {
		t.Errorf("%d cables after one was taken away, want 2", n)
	}
}

// The words of the file for the fill are those of the calculation.
func TestFillWords(t *testing.T) {
	for i, word := range append([]string{""}, doc.BoxFills...) {
		if f := fillOf(word); int(f) != i || f.String() != word {
			t.Errorf("%q is %d %q", word, f, f)
		}
	}
}
