package scene_test

import (
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"duskwire/assets"
	"duskwire/calc/network"
	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// frameOf evaluates a scheme on the shipped stock and rules.
func frameOf(t testing.TB, s *doc.Scheme) *layout.Frame {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, "").Frame()
}

func example(t testing.TB, name string) *doc.Scheme {
	t.Helper()
	stock, _, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	data, err := assets.FS.ReadFile("examples/" + name)
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme(name, data, stock)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func oneLineOf(f *layout.Frame) scene.OneLineInput {
	return scene.OneLineInput{Scheme: f.Scheme, Stock: f.Stock, Circuits: f.Circuits, Results: f.Results, Findings: f.Findings}
}

// TestOneLineGolden keeps the diagrams of the examples and of a ring. Read the
// difference before running with -update.
func TestOneLineGolden(t *testing.T) {
	for _, name := range []string{"townhouse", "townhouse-mistakes"} {
		golden(t, "oneline-"+name+".txt", text(scene.NewOneLine(oneLineOf(frameOf(t, example(t, name+".yaml")))).List))
	}
	in := oneLineOf(frameOf(t, ringed()))
	in.Palette = scene.Dark()
	golden(t, "oneline-ring.txt", text(scene.NewOneLine(in).List))
}

// plant draws schemes for the laws: a spur, then things each fed from one
// before; kinds and tree are up to the dice.
type plant struct {
	s    *doc.Scheme
	n    int
	side map[doc.ID]doc.Side
}

func newPlant() *plant {
	p := &plant{s: doc.New("uk-18"), side: map[doc.ID]doc.Side{}}
	p.s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Nominal: 230, Spur: true, Earthing: network.TNS, Upstream: "b16-rcbo-30", Fuse: "fuse-3"})
	return p
}

func (p *plant) place() doc.Place {
	p.n++
	return doc.Place{At: geom.Pt(float64(p.n%40), float64(p.n/40))}
}

// add puts a thing of a kind and the run that feeds it.
func (p *plant) add(kind doc.Kind, from doc.ID) doc.ID {
	at := p.place()
	id := doc.ID(fmt.Sprintf("X%d", p.n))
	cable := "swa-3x1.5"
	if p.side[from] == doc.Secondary {
		cable = "elv-2x2.5"
	}
	switch kind {
	case doc.LampKind:
		stock := "brick-3w"
		if p.side[from] == doc.Secondary {
			stock = "spike-5w-12"
		}
		p.s.Lamps = p.s.Lamps.With(&doc.Lamp{ID: id, Tag: string(id), Place: at, Stock: stock})
	case doc.SourceKind:
		p.s.Sources = p.s.Sources.With(&doc.Source{ID: id, Tag: string(id), Place: at, Stock: "src-12dc-60"})
	case doc.GearKind:
		p.s.Gear = p.s.Gear.With(&doc.Gear{ID: id, Tag: string(id), Place: at, Stock: "isolator-20"})
	default:
		p.s.Boxes = p.s.Boxes.With(&doc.Box{ID: id, Tag: string(id), Place: at, Stock: "box-85"})
	}
	p.run(cable, from, id)
	p.side[id] = p.side[from]
	if kind == doc.SourceKind {
		p.side[id] = doc.Secondary
	}
	return id
}

func (p *plant) run(cable string, from, to doc.ID) {
	side := func(id doc.ID, near bool) doc.Side {
		if _, ok := p.s.Sources.Get(id); !ok {
			return doc.AnySide
		} else if near {
			return doc.Secondary
		}
		return doc.Primary
	}
	id := doc.ID(fmt.Sprintf("R%d", p.s.Runs.Len()+1))
	p.s.Runs = p.s.Runs.With(&doc.Run{ID: id, Tag: string(id), Cable: cable, From: doc.End{On: from, Side: side(from, true)},
		To: doc.End{On: to, Side: side(to, false)}, Legs: []doc.Leg{{Support: network.Clipped}}})
}

// ringed is a driver with six lamps in a ring.
func ringed() *doc.Scheme {
	p := newPlant()
	src := p.add(doc.SourceKind, "SP1")
	last := src
	for range 6 {
		last = p.add(doc.LampKind, last)
	}
	side := doc.End{On: src, Side: doc.Secondary}
	p.s.Runs = p.s.Runs.With(&doc.Run{ID: "R99", Tag: "R99", Cable: "elv-2x2.5", From: doc.End{On: last}, To: side, Legs: []doc.Leg{{Support: network.Clipped}}})
	return p.s
}

// TestOneLineLaws draws random trees. Symbols and their texts lie over nothing
// else, lines do not cross, and every entity of a circuit is there once.
func TestOneLineLaws(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		p := newPlant()
		all := []doc.ID{"SP1"}
		reach := rapid.IntRange(1, 12).Draw(t, "reach") // 1 is a chain, 12 a bush
		for range rapid.IntRange(0, 60).Draw(t, "things") {
			from := all[max(0, len(all)-1-rapid.IntRange(0, reach-1).Draw(t, "back"))]
			kind := []doc.Kind{doc.LampKind, doc.LampKind, doc.BoxKind, doc.GearKind, doc.SourceKind}[rapid.IntRange(0, 4).Draw(t, "kind")]
			if kind == doc.SourceKind && p.side[from] == doc.Secondary {
				kind = doc.LampKind
			}
			all = append(all, p.add(kind, from))
		}
		book := stock.Over(p.s.Stock)
		c := derive.Scheme(p.s, &book, rules[0], nil)
		d := scene.NewOneLine(scene.OneLineInput{Scheme: p.s, Stock: &book, Circuits: c, Width: float64(rapid.IntRange(100, 400).Draw(t, "width"))})
		apart(t, d)
		once(t, d, c)
		steps(t, d)
	})
}

type failer interface {
	Fatalf(string, ...any)
}

// apart checks that nothing overlaps and no lines cross.
func apart(t failer, d *scene.Diagram) {
	for i := range d.Symbols {
		a := &d.Symbols[i]
		if a.Low.X < 0 || a.Low.Y < 0 || a.High.X > d.List.Width || a.High.Y > d.List.Height {
			t.Fatalf("%s reaches out of the drawing", a.Entity)
		}
		for k := range d.Symbols[:i] {
			b := &d.Symbols[k]
			if a.Low.X < b.High.X && b.Low.X < a.High.X && a.Low.Y < b.High.Y && b.Low.Y < a.High.Y {
				t.Fatalf("%s at %v and %s at %v lie over each other", a.Entity, a.At, b.Entity, b.At)
			}
		}
	}
	for i := range d.Runs {
		r := &d.Runs[i]
		for n := 1; n < len(r.Path); n++ {
			p, q := r.Path[n-1], r.Path[n]
			lo, hi := scene.XY{X: min(p.X, q.X), Y: min(p.Y, q.Y)}, scene.XY{X: max(p.X, q.X), Y: max(p.Y, q.Y)}
			if lo.X != hi.X && lo.Y != hi.Y {
				t.Fatalf("%s is not square", r.Entity)
			}
			for k := range d.Symbols {
				s := &d.Symbols[k]
				if !r.Closes && runsOver(lo, hi, s) {
					t.Fatalf("%s from %v to %v runs over %s at %v", r.Entity, p, q, s.Entity, s.At)
				}
			}
			for k := range d.Runs[:i] {
				for m := 1; m < len(d.Runs[k].Path) && !r.Closes && !d.Runs[k].Closes; m++ {
					if crosses(p, q, d.Runs[k].Path[m-1], d.Runs[k].Path[m]) {
						t.Fatalf("%s crosses %s", r.Entity, d.Runs[k].Entity)
					}
				}
			}
			for k := range d.Runs {
				o := &d.Runs[k]
				if o.High.X > o.Low.X && lo.X < o.High.X && hi.X > o.Low.X && lo.Y < o.High.Y && hi.Y > o.Low.Y && !(lo.Y == hi.Y && k == i) {
					t.Fatalf("%s runs over the text of %s", r.Entity, o.Entity)
				}
			}
		}
	}
}

// runsOver reports whether a stretch of line lies on a symbol or on its texts, which
// stand under it, or beside it where it hangs at the end of a run.
func runsOver(lo, hi scene.XY, s *scene.DiagramSymbol) bool {
	const e = 1e-6
	on := func(x0, y0, x1, y1 float64) bool { return lo.X < x1-e && hi.X > x0+e && lo.Y < y1-e && hi.Y > y0+e }
	beside := s.Low.Y < s.At.Y-s.RY
	return on(s.At.X-s.RX, s.At.Y-s.RY, s.At.X+s.RX, s.At.Y+s.RY) ||
		on(s.Low.X, s.At.Y+s.RY, s.High.X, s.High.Y) && !(lo.X == hi.X && lo.X == s.At.X && s.Low.X == s.At.X-s.RX) ||
		beside && on(s.Low.X, s.Low.Y, s.High.X, s.High.Y) && hi.X > s.At.X-s.RX+e
}

// crosses reports whether an upright and a level stretch cross in their inside.
func crosses(a, b, c, d scene.XY) bool {
	if a.X != b.X {
		a, b, c, d = c, d, a, b
	}
	if a.X != b.X || c.Y != d.Y {
		return false
	}
	const e = 1e-6
	return min(c.X, d.X) < a.X-e && max(c.X, d.X) > a.X+e && min(a.Y, b.Y) < c.Y-e && max(a.Y, b.Y) > c.Y+e
}

// once checks that every entity of the circuits has one symbol or run and its
// items, and a place where it is hit.
func once(t failer, d *scene.Diagram, c *derive.Circuits) {
	count, items := map[doc.ID]int{}, map[string]bool{}
	for i := range d.Symbols {
		if !d.Symbols[i].Part {
			count[d.Symbols[i].Entity]++
		}
	}
	for i := range d.Runs {
		count[d.Runs[i].Entity]++
	}
	for i := range d.List.Items {
		items[d.List.Items[i].Entity] = true
	}
	for i := range c.Circuits {
		for _, m := range []map[doc.ID]int{c.Circuits[i].Node, c.Circuits[i].Branch} {
			for id := range m {
				if count[id] != 1 || !items[string(id)] {
					t.Fatalf("%s is drawn %d times", id, count[id])
				}
			}
		}
	}
	for i := range d.Symbols {
		if s := &d.Symbols[i]; s.Entity != "" && d.Hit(s.At, 1) != s.Entity {
			t.Fatalf("at %s lies %q", s.Entity, d.Hit(s.At, 1))
		}
	}
	for i := range d.Runs {
		p := d.Runs[i].Path
		n := len(p)
		if at := (scene.XY{X: (p[n-2].X + p[n-1].X) / 2, Y: (p[n-2].Y + p[n-1].Y) / 2}); d.Hit(at, 1) != d.Runs[i].Entity {
			t.Fatalf("on %s lies %q", d.Runs[i].Entity, d.Hit(at, 1))
		}
	}
}

// steps walks back to the supply from everything: no step leads in circles.
func steps(t failer, d *scene.Diagram) {
	for i := range d.Symbols {
		at, n := d.Symbols[i].Entity, 0
		for ; at != "" && n <= 2*len(d.Symbols); n++ {
			next := d.Step(at, scene.WayBack)
			if next == at {
				break
			}
			at = next
		}
		if at != "SP1" && at != "" {
			t.Fatalf("from %s back ends at %s", d.Symbols[i].Entity, at)
		}
	}
	seen := map[doc.ID]bool{}
	todo := []doc.ID{d.Step("", scene.WayOn)}
	for len(todo) > 0 {
		id := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if seen[id] {
			continue
		}
		seen[id] = true
		for way := scene.WayBack; way <= scene.WayBelow; way++ {
			todo = append(todo, d.Step(id, way))
		}
	}
	for i := range d.Symbols {
		if id := d.Symbols[i].Entity; id != "" && !seen[id] {
			t.Fatalf("%s is not reached by the arrows", id)
		}
	}
}

// TestOneLineRows: lamps of one supply that need several rows on a narrow sheet
// are all reached by the arrows.
func TestOneLineRows(t *testing.T) {
	p := newPlant()
	for range 7 {
		p.add(doc.LampKind, "SP1")
	}
	in := oneLineOf(frameOf(t, p.s))
	in.Width = 100
	steps(t, scene.NewOneLine(in))
}

// TestOneLineLoose: what is in no circuit stands below, once.
func TestOneLineLoose(t *testing.T) {
	p := newPlant()
	p.add(doc.LampKind, "SP1")
	p.add(doc.LampKind, p.add(doc.BoxKind, ""))
	f := frameOf(t, p.s)
	d := scene.NewOneLine(oneLineOf(f))
	apart(t, d)
	once(t, d, f.Circuits)
	for _, id := range []doc.ID{"X2", "X3"} {
		if _, ok := d.Symbol(id); !ok {
			t.Errorf("%s is missing", id)
		}
	}
	if _, ok := d.RunOf("R3"); !ok {
		t.Error("R3 is missing")
	}
}

// TestOneLinePicture leaves pictures to look at when LOOK names a folder.
func TestOneLinePicture(t *testing.T) {
	dir := os.Getenv("LOOK")
	if dir == "" {
		t.Skip("set LOOK to a folder to get pictures to look at")
	}
	comb := newPlant()
	from := doc.ID("SP1")
	for i := range 14 {
		from = comb.add(doc.BoxKind, from)
		for range i % 4 {
			comb.add(doc.LampKind, from)
		}
		if i == 5 {
			src := comb.add(doc.SourceKind, from)
			for range 30 {
				src = comb.add(doc.LampKind, src)
			}
			src = comb.add(doc.BoxKind, src)
			for range 9 {
				comb.add(doc.LampKind, src)
			}
		}
	}
	for name, s := range map[string]*doc.Scheme{"town.png": example(t, "townhouse.yaml"), "mistakes.png": example(t, "townhouse-mistakes.yaml"), "ring.png": ringed(), "comb.png": comb.s} {
		in := oneLineOf(frameOf(t, s))
		if name == "mistakes.png" {
			in.Palette = scene.Dark()
		}
		l := scene.NewOneLine(in).List
		const k = 5
		img := image.NewRGBA(image.Rect(0, 0, int(l.Width*k), int(l.Height*k)))
		scene.NewRasteriser().Draw(img, l, k)
		f, err := os.Create(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		f.Close()
	}
}

// BenchmarkOneLine draws 1,000 lamps behind one box each.
func BenchmarkOneLine(b *testing.B) {
	p := newPlant()
	from := doc.ID("SP1")
	for range 500 {
		from = p.add(doc.BoxKind, from)
		p.add(doc.LampKind, from)
		p.add(doc.LampKind, from)
	}
	in := oneLineOf(frameOf(b, p.s))
	b.ReportAllocs()
	for b.Loop() {
		scene.NewOneLine(in)
	}
}
