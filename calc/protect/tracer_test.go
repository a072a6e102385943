package protect

import (
	"strings"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// swa2 is two-core armoured cable whose armour is the protective conductor,
// swa3 one with a core for it (BS 5467, 1.5 mm²).
func swa2() *network.Cable {
	return &network.Cable{Earth: network.EarthArmour, Insulation: "90C thermosetting", R20: q.MilliohmPerMetre(12.1),
		ArmourR20: q.MilliohmPerMetre(10.2), ArmourArea: q.SquareMillimetres(15)}
}

func swa3() *network.Cable {
	c := xlpe(12.1)
	c.ArmourArea, c.ArmourR20 = q.SquareMillimetres(16), q.MilliohmPerMetre(9.5)
	return c
}

// chain is board, SP1, B1, B2 and the class I lamp L1, joined by an indoor leg
// and the cables given.
func chain(r1, r2, r3 *network.Cable) *network.Net {
	return &network.Net{
		Systems: []network.System{{Label: "230 V mains", Nominal: 230}},
		Supply:  network.Supply{Nominal: 230, Earthing: network.TNCS, Ze: q.Some(q.Ohm(0.35))},
		Nodes: []network.Node{
			{Label: "board", Kind: network.BoardNode}, {ID: "SP1", Label: "SP1", Kind: network.SupplyNode},
			{ID: "B1", Label: "B1", Kind: network.BoxNode, Box: &network.Box{}}, {ID: "B2", Label: "B2", Kind: network.BoxNode, Box: &network.Box{}},
			{ID: "L1", Label: "L1", Kind: network.LampNode, Class: network.ClassI},
		},
		Branches: []network.Branch{
			{From: 0, To: 1, Cable: twin(7.41, 12.1), Length: 5},
			{ID: "R1", Label: "R1", From: 1, To: 2, Cable: r1, Length: 10},
			{ID: "R2", Label: "R2", From: 2, To: 3, Cable: r2, Length: 10},
			{ID: "R3", Label: "R3", From: 3, To: 4, Cable: r3, Length: 10},
		},
	}
}

func traced(n *network.Net) *Earth { return TraceEarth(n, network.BuildTree(n)) }

// The rule for the state of each case is BS 7671 411.3.1.1 read over the
// drawing: a path is whole when every conductor on it is joined at both ends.
func TestTrace(t *testing.T) {
	untag := func(b int, far bool) func(*network.Net) {
		return func(n *network.Net) {
			e := &n.Branches[b].FromEnd
			if far {
				e = &n.Branches[b].ToEnd
			}
			e.Untagged = true
		}
	}
	for _, c := range []struct {
		name   string
		net    *network.Net
		change func(*network.Net)
		want   State
		last   string // of the path from L1
	}{
		{"armour all tagged", chain(swa2(), swa2(), swa2()), nil, Whole, "main earth terminal"},
		{"cores", chain(swa3(), swa3(), swa3()), untag(1, true), Whole, "main earth terminal"},
		{"no tag at the far end", chain(swa2(), swa2(), swa2()), untag(1, true), Parted, "broken: the armour of R1 has no tag at B1"},
		{"no tag at the near end", chain(swa2(), swa2(), swa2()), untag(2, false), Parted, "broken: the armour of R2 has no tag at B1"},
		{"no tag in a metal box", chain(swa2(), swa2(), swa2()), func(n *network.Net) { untag(1, true)(n); n.Nodes[2].Box.Metal = true }, Whole, "main earth terminal"},
		{"not linked", chain(swa2(), swa2(), swa2()), func(n *network.Net) { n.Nodes[3].Box.Unlinked = true }, Parted, "broken: the armour of R3 is not linked in B2"},
		{"not linked, but cores", chain(swa3(), swa3(), swa3()), func(n *network.Net) { n.Nodes[3].Box.Unlinked = true }, Whole, "main earth terminal"},
		{"drawn the other way", chain(swa2(), swa2(), swa2()), func(n *network.Net) {
			n.Branches[2].From, n.Branches[2].To = 3, 2
			n.Branches[2].ToEnd.Untagged = true
		}, Parted, "broken: the armour of R2 has no tag at B1"},
		{"no protective conductor", chain(swa3(), &network.Cable{R20: 0.01}, swa3()), nil, Parted, "broken: R2 has no protective conductor"},
		{"cable not known", chain(swa3(), nil, swa3()), nil, Unsurveyed, "main earth terminal"},
		{"indoor leg not known", chain(swa3(), swa3(), swa3()), func(n *network.Net) { n.Branches[0].Cable = nil }, Unsurveyed, "main earth terminal"},
		{"indoor leg not known, loop measured", chain(swa3(), swa3(), swa3()), func(n *network.Net) {
			n.Branches[0].Cable, n.Supply.MeasuredZs = nil, q.Some(q.Ohm(0.6))
		}, Whole, "the loop measured at SP1 proves the rest of the way"},
	} {
		if c.change != nil {
			c.change(c.net)
		}
		e := traced(c.net)
		if got := e.At(4); got != c.want {
			t.Errorf("%s: state %d, want %d", c.name, got, c.want)
		}
		path := e.Path(4)
		if len(path) == 0 || path[len(path)-1] != c.last {
			t.Errorf("%s: path %q, want it to end %q", c.name, path, c.last)
		}
		l := loops(c.net)[4]
		if l.Known != (c.want == Whole) {
			t.Errorf("%s: loop known %v, path state %d: %s", c.name, l.Known, c.want, l.Missing)
		}
	}
}

// The path names every conductor and how each armour is joined.
func TestTracePath(t *testing.T) {
	n := chain(swa3(), swa2(), swa3())
	n.Nodes[3].Box.Metal = true
	want := `core of R3 to B2
armour of R2 to B1: gland in the metal of B2, tag at B1
core of R1 to SP1
core of the indoor leg to board
main earth terminal`
	if got := strings.Join(traced(n).Path(4), "\n"); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if k := traced(n).Joints(4); k != 2 {
		t.Errorf("%d gland joints, want the two of R2", k)
	}
}

// An armour that the tracer finds broken carries nothing: its ohms are not
// credited to the loop, and what was proved ahead of it stays.
func TestLoopLeavesBrokenArmourOut(t *testing.T) {
	n := chain(swa2(), swa2(), swa2())
	near(t, "whole", loops(n)[4].R1R2Cold, 30*(0.0121+1.1*0.0102))
	n.Branches[2].FromEnd.Untagged = true
	ls := loops(n)
	near(t, "ahead of the break", ls[2].R1R2Cold, 10*(0.0121+1.1*0.0102))
	if !ls[2].Known || ls[3].Known || ls[4].Known {
		t.Errorf("known %v %v %v, want only the point ahead of the break", ls[2].Known, ls[3].Known, ls[4].Known)
	}
	if l := ls[4]; l.Broken != 2 || l.Gap == "" {
		t.Errorf("break in %d, %q, want R2 with a reason", l.Broken, l.Gap)
	}
}

// Armour with a core beside it: one end is enough to earth it.
func TestArmourOf(t *testing.T) {
	n := chain(swa3(), swa3(), swa3())
	e := traced(n)
	if a := e.ArmourOf(2); a.State != Whole || !a.NearHolds || !a.FarHolds {
		t.Errorf("tagged at both ends: %+v", a)
	}
	n.Branches[2].FromEnd.Untagged = true
	if a := traced(n).ArmourOf(2); a.State != Whole || a.NearHolds || !a.FarHolds {
		t.Errorf("tagged at the far end, earthed by the core: %+v", a)
	}
	n.Branches[2].ToEnd.Untagged = true
	if a := traced(n).ArmourOf(2); a.State != Parted {
		t.Errorf("tagged at neither end: %+v", a)
	}
	if a := e.ArmourOf(0); a.State != NotTraced {
		t.Errorf("flat twin has no armour: %+v", a)
	}
}

// Every exposed metal part is traced: lamps, sources, boxes, gear and armours.
func TestParts(t *testing.T) {
	n := chain(swa3(), swa2(), swa3())
	n.Nodes[2].Box.Metal = true
	n.Nodes = append(n.Nodes, network.Node{ID: "S1", Label: "S1", Kind: network.PrimaryNode, Class: network.ClassI},
		network.Node{ID: "S1", Label: "S1", Kind: network.SecondaryNode, System: 1}, network.Node{ID: "L2", Label: "L2", Kind: network.LampNode, Class: network.ClassI, System: 1},
		network.Node{ID: "G1", Label: "G1", Kind: network.GearNode, Gear: &network.Gear{Metal: true}})
	n.Systems = append(n.Systems, network.System{SELV: true})
	n.Branches = append(n.Branches, network.Branch{ID: "R4", Label: "R4", From: 3, To: 5, Cable: swa3()},
		network.Branch{ID: "S1", From: 5, To: 6, Converter: &network.Converter{}}, network.Branch{ID: "R5", Label: "R5", From: 6, To: 7, Cable: swa2()},
		network.Branch{ID: "R6", Label: "R6", From: 3, To: 8, Cable: swa3()})
	var got []string
	for _, p := range traced(n).Parts() {
		if p.State != Whole {
			t.Errorf("%+v is not whole", p)
		}
		if p.Node >= 0 {
			got = append(got, n.Nodes[p.Node].Label)
		} else {
			got = append(got, n.Branches[p.Branch].Label)
		}
	}
	if s := strings.Join(got, " "); s != "B1 L1 S1 G1 R1 R2 R3 R4 R6" {
		t.Errorf("parts %s; the 12 V side has none to earth", s)
	}
}
