package packs

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// amount returns the sum of the materials whose name starts so.
func amount(b *book, start string) (sum float64) {
	for _, m := range b.materials() {
		if strings.HasPrefix(m.name, start) {
			sum += m.amount
		}
	}
	return sum
}

// TestScenario1 holds the counts against those made by hand in the trade notes,
// scenario 1: four pieces of armoured cable, 8 glands in 4 packs. Clips by
// On-Site Guide Table D1 for armoured cable of 9 to 15 mm, 350 mm along and 450
// mm upright: three metres in single pieces, ⌈1/0.35⌉+1 = 4 each, and of 1.6 m
// upright the 0.6 m above ground, ⌈0.6/0.45⌉+1 = 3.
func TestScenario1(t *testing.T) {
	b := newBook(input(t, terrace))
	for name, want := range map[string]float64{
		"Gland CW, size 20S": 8, "Earth tag": 8, "Brick light": 4, "Armour link": 0, "Blanking": 0, "Clip or cleat for cable of 12.6 mm": 15,
		"Armoured 90 °C, 3 × 1.5 mm²": 9 + 3*2, // 8.505 m by hand, cut as 9.0; 1.575 m as 2.0
		"Sleeve blue":                 8, "Sleeve green-yellow": 8,
	} {
		if got := amount(b, name); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s: %g, by hand %g", name, got, want)
		}
	}
	for _, m := range b.materials() {
		if strings.HasPrefix(m.name, "Gland CW") && !strings.HasPrefix(m.note, "4 packs") {
			t.Errorf("glands: %s, want 4 packs", m.note)
		}
	}
}

// TestScenario6: five boxes of plastic on two-core armour: 10 glands, 10 tags
// and 4 links by the trade notes; 9 of the ends are drawn without a tag. Five
// leads of flexible cable. Boxes of four entries with 3, 3, 3, 3 and 2 cables
// leave 6 to be blanked. Connectors of a box with three cables: L 3, N 3, the
// protective core of the lead 1, armours 2; in the last 2, 2, 1, 1.
func TestScenario6(t *testing.T) {
	b := newBook(input(t, bollards))
	for name, want := range map[string]float64{
		"Gland CW, size 20S": 10, "Earth tag": 10, "Armour link": 4, "Gland M20 for round": 5, "Blanking": 6,
		"Connector for 3 conductors": 8, "Connector for 2 conductors": 4 + 2, "Connector for 1 conductor": 5 + 1, "Junction box": 5, "Bollard": 5,
	} {
		if got := amount(b, name); got != want {
			t.Errorf("%s: %g, by hand %g", name, got, want)
		}
	}
	if b.counts.untagged != 9 {
		t.Errorf("%d ends without a tag, the drawing has 9", b.counts.untagged)
	}
}

// TestGlandSizes compares the size printed with the makers' table for BS 5467
// and BS 6724 (reference/06): 20S up to 4 mm² in two and three cores, 20 above,
// 25 at 16 mm².
func TestGlandSizes(t *testing.T) {
	in := input(t, terrace)
	for key, want := range map[string]string{
		"swa-2x1.5": "20S", "swa-2x2.5": "20S", "swa-2x4": "20S", "swa-2x6": "20", "swa-2x10": "20", "swa-2x16": "25",
		"swa-3x1.5": "20S", "swa-3x2.5": "20S", "swa-3x4": "20S", "swa-3x6": "20", "swa-3x10": "20", "swa-3x16": "25",
		"swa-4x1.5": "20S", "swa-4x4": "20", "swa-4x6": "20", "swa-4x10": "25", "swa-4x16": "25",
	} {
		c, ok := in.Frame.Stock.Cable(key)
		if !ok {
			t.Errorf("%s is not in the stock book", key)
			continue
		}
		g, ok := in.Rules.GlandFor(c)
		if !ok || g.Size != want {
			t.Errorf("%s: gland %q, the table says %s", key, g.Size, want)
		}
		if ok && g.Thread != map[string]string{"20S": "M20", "20": "M20", "25": "M25"}[g.Size] {
			t.Errorf("%s: thread %q", key, g.Thread)
		}
	}
}

// TestClipSpacing compares with On-Site Guide Table D1 (reference/11).
func TestClipSpacing(t *testing.T) {
	in := input(t, terrace)
	for _, c := range []struct {
		diameter       q.Metre
		armoured       bool
		along, upright q.Metre
	}{
		{0.008, false, 0.25, 0.40}, {0.012, false, 0.30, 0.40}, {0.018, false, 0.35, 0.45}, {0.030, false, 0.40, 0.55},
		{0.012, true, 0.35, 0.45}, {0.018, true, 0.40, 0.55}, {0.030, true, 0.45, 0.60},
	} {
		cb := &network.Cable{Diameter: c.diameter}
		if c.armoured {
			cb.ArmourArea = q.SquareMillimetres(15)
		}
		legs := []network.Leg{{Support: network.Clipped, Length: 10}, {Support: network.Clipped, Length: 2, Rise: true}}
		n, row, ok := in.Rules.ClipsFor(cb, legs)
		want := int(math.Ceil(float64(10/c.along)-1e-9)) + 1 + int(math.Ceil(float64(2/c.upright)-1e-9)) + 1
		if !ok || math.Abs(float64(row.Along-c.along)) > 1e-9 || math.Abs(float64(row.Upright-c.upright)) > 1e-9 || n != want {
			t.Errorf("%v mm, armoured %v: %d clips every %v and %v, want %d every %v and %v", c.diameter*1000, c.armoured, n, row.Along, row.Upright, want, c.along, c.upright)
		}
	}
}

// TestTrench holds the volumes against the trade notes: a trench 600 mm deep and
// 300 mm wide is 0.18 m³ a metre, of it about 0.063 m³ of sand with a cable of
// about 10 mm; tape 1.02 m. A cable 500 mm deep lies in such a trench.
func TestTrench(t *testing.T) {
	b := newBook(input(t, terrace))
	sum := b.trench.sums()
	const length = 6 // 2 m and 4 m, scenario 1
	for _, c := range []struct {
		what            string
		got, want, near float64
	}{
		{"length", sum.length, length, 1e-6},
		{"dug", sum.volume / length, 0.18, 1e-6},
		{"sand", sum.sand / length, 0.063, 0.001},
		{"tape", sum.tape / length, 1.02, 1e-6},
		{"spoil to put back", sum.reuse / length, 0.117, 0.001},
	} {
		if math.Abs(c.got-c.want) > c.near {
			t.Errorf("%s: %.4f a metre, want %.4f", c.what, c.got, c.want)
		}
	}
}

// Runs in one trench dig it once, as deep as the deepest; a depth that nobody
// gave has no volume.
func TestSharedTrench(t *testing.T) {
	in := input(t, terrace)
	s := *in.Frame.Scheme
	run := func(id, from, to string, depth geom.Length) *doc.Run {
		return &doc.Run{ID: doc.ID(id), Tag: id, Cable: "swa-3x1.5", From: doc.End{On: doc.ID(from)}, To: doc.End{On: doc.ID(to)},
			Legs: []doc.Leg{{Support: network.Buried, Depth: depth}}}
	}
	s.Runs = doc.NewSet(run("R1", "SP1", "L1", 500*geom.Millimetre), run("R2", "L1", "SP1", 600*geom.Millimetre), run("R3", "L1", "L2", 0))
	in = inputOf(t, &s, *in.Frame.Stock, "")
	d := newBook(in).trench
	if len(d.stretches) != 2 || len(d.stretches[0].runs) != 2 {
		t.Fatalf("%d stretches, want one of two runs and one of R3", len(d.stretches))
	}
	if got := d.stretches[0].deep; math.Abs(got-0.7) > 1e-9 {
		t.Errorf("the trench is %.3f m deep, want 0.7: the deepest cable and the bed", got)
	}
	if sum := d.sums(); sum.unsaid != 1 || math.Abs(sum.volume-math.Sqrt(20)*0.3*0.7) > 1e-6 { // L1 is 4 m and 2 m off
		t.Errorf("volume %.4f with %d unsaid", sum.volume, sum.unsaid)
	}
}

// TestFixedPoints: the corners of the house, the left one as seen from the
// garden first, and distances of a 3-4-5 triangle.
func TestFixedPoints(t *testing.T) {
	house := &doc.Area{ID: "A1", Tag: "A1", Kind: "building", Name: "House", Ring: []geom.Point{geom.Pt(0, -4), geom.Pt(6, -4), geom.Pt(6, 0), geom.Pt(0, 0)}}
	box := &doc.Box{ID: "B1", Tag: "B1", Place: doc.Place{At: geom.Pt(3, 4)}}
	s := &doc.Scheme{Areas: doc.NewSet(house), Boxes: doc.NewSet(box)}
	f := fixedOf(s)
	if f == nil || f.at != [2]geom.Point{geom.Pt(6, 0), geom.Pt(0, 0)} { // facing the house, its right corner on the plan is to the left
		t.Fatalf("fixed points %+v", f)
	}
	for i, p := range f.at {
		if d := geom.Distance(p, box.Place.At); d != geom.Metres(5) {
			t.Errorf("F%d to the box: %v, want 5 m", i+1, d)
		}
	}
	mark := func(id, kind string, x float64) *doc.Mark {
		return &doc.Mark{ID: doc.ID(id), Tag: id, Kind: kind, Place: doc.Place{At: geom.Pt(x, 0)}}
	}
	s = &doc.Scheme{Marks: doc.NewSet(mark("M1", "tree", 0), mark("M2", "seat", 9), mark("M3", "door", 4))}
	if f = fixedOf(s); f == nil || f.words != [2]string{"middle of tree M1", "middle of door M3"} { // a seat may be moved
		t.Errorf("marks: %+v", f)
	}
	if fixedOf(&doc.Scheme{Boxes: doc.NewSet(box)}) != nil {
		t.Error("a box alone is nothing fixed")
	}
}
