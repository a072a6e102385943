package packs

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"

	"pgregory.net/rapid"
)

// way is a run of one leg for a test of trenches.
type way struct {
	x0, y0, x1, y1 float64 // m
	cable          string
	leg            doc.Leg
}

func buried(mm geom.Length) doc.Leg {
	return doc.Leg{Support: network.Buried, Depth: mm * geom.Millimetre}
}

func ducted(mm geom.Length) doc.Leg {
	return doc.Leg{Support: network.InDuct, Depth: mm * geom.Millimetre}
}

// dugBook draws ways, with a box at every end, and reckons what is dug.
func dugBook(t testing.TB, ways ...way) *book {
	t.Helper()
	in := input(t, terrace)
	s := doc.New("uk-18")
	var runs []*doc.Run
	var boxes []*doc.Box
	for i, w := range ways {
		n := strconv.Itoa(i + 1)
		ends := [2]doc.ID{doc.ID("A" + n), doc.ID("Z" + n)}
		for k, at := range [2]geom.Point{geom.Pt(w.x0, w.y0), geom.Pt(w.x1, w.y1)} {
			boxes = append(boxes, &doc.Box{ID: ends[k], Tag: string(ends[k]), Stock: "box-85", Place: doc.Place{At: at}})
		}
		runs = append(runs, &doc.Run{ID: doc.ID("R" + n), Tag: "R" + n, Cable: w.cable, From: doc.End{On: ends[0]}, To: doc.End{On: ends[1]}, Legs: []doc.Leg{w.leg}})
	}
	s.Runs, s.Boxes = doc.NewSet(runs...), doc.NewSet(boxes...)
	return newBook(inputOf(t, s, *in.Frame.Stock, ""))
}

const (
	swa = "swa-3x1.5"
	elv = "elv-2x2.5"
)

// TestSideBySide: what is dug, by hand. A trench of a mains cable 500 mm deep is
// 600 mm deep with its bed and 300 mm wide; tape is 1.02 m a metre.
func TestSideBySide(t *testing.T) {
	for _, c := range []struct {
		name                 string
		ways                 []way
		length, volume, duct float64
		wide                 float64 // of the widest
		pieces               int
	}{
		{"10 m and 10 m, 6 of them side by side", []way{{0, 0, 10, 0, swa, buried(500)}, {4, 0.1, 14, 0.1, swa, buried(500)}}, 14, 14 * 0.3 * 0.6, 0, 0.3, 3},
		{"the other way round", []way{{0, 0, 10, 0, swa, buried(500)}, {14, -0.1, 4, -0.1, swa, buried(500)}}, 14, 14 * 0.3 * 0.6, 0, 0.3, 3},
		{"half a metre apart", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0.5, 10, 0.5, swa, buried(500)}}, 20, 20 * 0.3 * 0.6, 0, 0.3, 2},
		{"just a spade apart", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0.15, 10, 0.15, swa, buried(500)}}, 10, 10 * 0.3 * 0.6, 0, 0.3, 1},
		{"just more", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0.151, 10, 0.151, swa, buried(500)}}, 20, 20 * 0.3 * 0.6, 0, 0.3, 2},
		{"crossing", []way{{0, 0, 10, 0, swa, buried(500)}, {5, -5, 5, 5, swa, buried(500)}}, 20, 20 * 0.3 * 0.6, 0, 0.3, 2},
		{"the deeper one digs", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0, 10, 0, swa, buried(700)}}, 10, 10 * 0.3 * 0.8, 0, 0.3, 1},
		{"a third is too far from the first", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0.14, 10, 0.14, swa, buried(500)}, {0, 0.28, 10, 0.28, swa, buried(500)}}, 20, 20 * 0.3 * 0.6, 0, 0.3, 2},
		{"one on either side", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0.14, 10, 0.14, swa, buried(500)}, {0, -0.14, 10, -0.14, swa, buried(500)}}, 10, 10 * 0.43 * 0.6, 0, 0.43, 1},
		// Extra-low voltage 250 mm deep: a slit of 150 mm, wider by what lies between.
		{"slits", []way{{0, 0, 10, 0, elv, buried(250)}, {0, 0.1, 10, 0.1, elv, buried(250)}}, 10, 10 * 0.25 * 0.25, 0, 0.25, 1},
		{"one duct", []way{{0, 0, 10, 0, swa, ducted(500)}, {4, 0, 14, 0, swa, ducted(500)}}, 14, 14 * 0.3 * 0.5, 14, 0.3, 3},
		{"mains and extra-low voltage do not share a duct", []way{{0, 0, 10, 0, swa, ducted(500)}, {4, 0, 14, 0, elv, ducted(500)}}, 14, 14 * 0.3 * 0.5, 20, 0.3, 3},
		// At 5 degrees they part where they are 150 mm apart: 0.15/sin 5° = 1.721 m on
		// the second, 0.15/tan 5° = 1.715 m on the first.
		{"parting at 5 degrees", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0, 10 * math.Cos(math.Pi/36), 10 * math.Sin(math.Pi/36), swa, buried(500)}},
			20 - 0.15/math.Sin(math.Pi/36), (20 - 0.15/math.Sin(math.Pi/36)) * 0.3 * 0.6, 0, 0.3, 3},
		{"parting at 45 degrees", []way{{0, 0, 10, 0, swa, buried(500)}, {0, 0, 7, 7, swa, buried(500)}}, 10 + 7*math.Sqrt2, (10 + 7*math.Sqrt2) * 0.3 * 0.6, 0, 0.3, 2},
	} {
		b := dugBook(t, c.ways...)
		sum, wide := b.trench.sums(), 0.0
		for i := range b.trench.stretches {
			wide = max(wide, b.trench.stretches[i].wide)
		}
		for _, x := range []struct {
			what      string
			got, want float64
		}{{"length", sum.length, c.length}, {"volume", sum.volume, c.volume}, {"tape", sum.tape, c.length * tapeOver}, {"duct", sum.duct, c.duct}, {"width", wide, c.wide}} {
			if math.Abs(x.got-x.want) > 1e-4*max(1, x.want) {
				t.Errorf("%s: %s %.4f, by hand %.4f", c.name, x.what, x.got, x.want)
			}
		}
		if n := len(b.trench.stretches); n != c.pieces {
			t.Errorf("%s: %d trenches listed, want %d", c.name, n, c.pieces)
		}
		if got := amount(b, "Duct with draw cord"); got != math.Ceil(c.duct*2-1e-6)/2 {
			t.Errorf("%s: %g m of duct in the list of materials, want %g", c.name, got, c.duct)
		}
	}
}

// On one line the trench is as long as what the runs cover together, whatever
// their order and direction; anywhere it is never longer than the legs, and every
// run is in it.
func TestTrenchLaws(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		line := rapid.Bool().Draw(r, "one line")
		var ways []way
		var parts [][2]float64
		all := 0.0
		at := func(name string, most int) float64 { return float64(rapid.IntRange(0, most).Draw(r, name)) / 10 }
		for range rapid.IntRange(1, 6).Draw(r, "runs") {
			w := way{x0: at("x0", 200), x1: at("x1", 200), cable: swa, leg: buried(500)}
			if !line {
				w.y0, w.y1 = at("y0", 5), at("y1", 5)
			}
			if w.x0 == w.x1 {
				continue
			}
			ways = append(ways, w)
			parts = append(parts, [2]float64{min(w.x0, w.x1), max(w.x0, w.x1)})
			all += math.Hypot(w.x1-w.x0, w.y1-w.y0)
		}
		if len(ways) == 0 {
			return
		}
		b := dugBook(t, ways...)
		got := b.trench.sums().length
		if got > all+1e-4 {
			r.Fatalf("%g m dug for %g m of cable", got, all)
		}
		if line && math.Abs(got-geom.Covered(parts)) > 1e-4 {
			r.Fatalf("%g m dug, the runs cover %g m", got, geom.Covered(parts))
		}
		in := map[string]bool{}
		for i := range b.trench.stretches {
			for _, run := range b.trench.stretches[i].runs {
				in[run.Tag] = true
			}
		}
		if len(in) != len(ways) {
			r.Fatalf("%d runs in the trenches of %d", len(in), len(ways))
		}
	})
}

// TestOakFixings: scenario 7 climbs 6.0, 0.4 and 0.6 m up a trunk. With the
// spacing that the table gives the cable upright, ⌈l/spacing⌉+1 each.
func TestOakFixings(t *testing.T) {
	b := newBook(input(t, "../../testdata/scenarios/7-oak.yaml"))
	if len(b.counts.straps) != 1 || b.counts.unheld != 0 {
		t.Fatalf("%d kinds of fixing, %v m not counted", len(b.counts.straps), b.counts.unheld)
	}
	for k, n := range b.counts.straps {
		want := 0
		for _, l := range []float64{6, 0.4, 0.6} {
			want += int(math.Ceil(l/float64(k.upright)-1e-9)) + 1
		}
		if n != want || k.upright < 0.3 || k.upright > 0.6 {
			t.Errorf("%d fixings every %v, by hand %d", n, k.upright, want)
		}
	}
	in := b.Input
	s := *in.Frame.Scheme
	s.Runs = doc.NewSet(s.Runs.All()[:2]...) // those that climb no tree
	wall := newBook(inputOf(t, &s, *in.Frame.Stock, ""))
	if got := amount(b, "Stand-off with strap"); got == 0 || amount(b, "Clip or cleat") != amount(wall, "Clip or cleat") {
		t.Errorf("%g stand-offs; %g clips, of them %g on walls", got, amount(b, "Clip or cleat"), amount(wall, "Clip or cleat"))
	}
	if d := float64(b.counts.tree) - 7; math.Abs(d) > 1e-9 {
		t.Errorf("%v in the tree, want 7 m", b.counts.tree)
	}
}

// TestFillings: two boxes filled with gel of 250 ml by the stock book, one that
// says nothing, one filled with resin.
func TestFillings(t *testing.T) {
	in := input(t, terrace)
	stock := *in.Frame.Stock
	stock.Boxes = append(stock.Boxes[:len(stock.Boxes):len(stock.Boxes)], doc.BoxStock{Key: "filled", Name: "Filled box", Entries: 4, Filling: 250e-6})
	s := doc.New("uk-18")
	box := func(id, stock, fill string) *doc.Box {
		return &doc.Box{ID: doc.ID(id), Tag: id, Stock: stock, Fill: fill}
	}
	s.Boxes = doc.NewSet(box("B1", "filled", "gel"), box("B2", "filled", "gel"), box("B3", "box-85", "gel"), box("B4", "filled", "resin"), box("B5", "filled", ""))
	b := newBook(inputOf(t, s, stock, ""))
	for name, want := range map[string]float64{"Gel to fill": 3, "Gel by volume": 500, "Resin to fill": 1, "Resin by volume": 250} {
		if got := amount(b, name); got != want {
			t.Errorf("%s: %g, want %g", name, got, want)
		}
	}
	for _, m := range b.materials() {
		if strings.HasPrefix(m.name, "Gel to fill") && !strings.Contains(m.note, "not given for 1 of them") {
			t.Errorf("what is not known is not said: %s", m.note)
		}
	}
}
