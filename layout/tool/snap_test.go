package tool

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// drawPlan draws a small plan on an odd raster, so that hardly anything is level
// or on the grid, and the ways one can be drawing on it.
func drawPlan(t *rapid.T) (*doc.Scheme, snap) {
	at := func() geom.Point {
		l := rapid.Int64Range(-3e6, 3e6)
		return geom.Point{X: geom.Length(l.Draw(t, "x")), Y: geom.Length(l.Draw(t, "y"))}
	}
	path := func(n int) (ps []geom.Point) {
		for range n {
			ps = append(ps, at())
		}
		return ps
	}
	s := doc.New("uk-18")
	s.Plan.Grid = geom.Length(rapid.SampledFrom([]int{0, 50, 500}).Draw(t, "grid")) * geom.Millimetre
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Place: doc.Place{At: at()}})
	s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "wall", Path: path(3)},
		&doc.Line{ID: "N2", Tag: "N2", Kind: "boundary", Path: []geom.Point{{X: -3e6, Y: 123456}, {X: 3e6, Y: 123456}}})
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "building", Ring: path(4)})
	s.Runs = doc.NewSet(&doc.Run{ID: "R1", Tag: "R1", From: doc.End{On: "L1"}, To: doc.End{At: at()}, Legs: []doc.Leg{{To: at()}, {}}})
	how := snap{points: rapid.Bool().Draw(t, "points"), step: fine}
	if rapid.Bool().Draw(t, "from") {
		from, before := at(), at()
		how.from = &from
		if rapid.Bool().Draw(t, "before") {
			how.before = &before
		}
	}
	return s, how
}

// TestSnapLaws: what is caught lies within a micrometre, the rounding of any
// point, on what it names; nothing catches from further than its reach, a
// corner of crossing lines √2 of it; and what spots and lines have caught stays
// when it is snapped again.
func TestSnapLaws(t *testing.T) {
	kinds := map[geom.Rank]int{}
	law := func(t *rapid.T) {
		s, how := drawPlan(t)
		w := &World{Scheme: s, Snap: true}
		for range 12 {
			e := Event{Kind: Move, Reach: geom.Length(rapid.Int64Range(1000, 2e5).Draw(t, "reach"))}
			e.Keyed = rapid.IntRange(0, 3).Draw(t, "keyed") == 0
			e.Step = geom.Length(rapid.SampledFrom([]int{0, 10, 100}).Draw(t, "step")) * geom.Millimetre
			var near []geom.Point
			doc.Each(s, func(e doc.Entity, _ doc.Kind) { near = append(near, doc.Corners(s, e)...) })
			i := rapid.IntRange(0, len(near)-2).Draw(t, "between")
			part := rapid.Float64Range(-0.2, 1.2).Draw(t, "part")
			off := rapid.Int64Range(-3e5, 3e5)
			e.At = geom.Point{X: near[i].X + geom.Length(part*float64(near[i+1].X-near[i].X)) + geom.Length(off.Draw(t, "dx")),
				Y: near[i].Y + geom.Length(part*float64(near[i+1].Y-near[i].Y)) + geom.Length(off.Draw(t, "dy"))}
			visited := w.visited
			got := snapTo(e, w, how)
			kinds[got.rank]++
			onWhatItNames(t, w, how, got)
			if e.Keyed && geom.Distance(e.At, got.at) > max(e.Step, 2*onLine) {
				t.Fatalf("by keys %v is pulled to %+v, further than the step of %v", e.At, got, e.Step)
			}
			if !e.Keyed && got.rank < geom.RankAngle && geom.Distance(e.At, got.at) > e.Reach*3/2+e.Reach*3/2 && s.Plan.Grid == 0 {
				t.Fatalf("%v caught from %v", got, e.At)
			}
			if got.rank == geom.RankGrid {
				continue
			}
			w.visited = visited
			again := e
			again.At = got.at
			if twice := snapTo(again, w, how); twice.at != got.at {
				t.Fatalf("%v snaps to %+v, and that to %+v", e.At, got, twice)
			}
		}
	}
	ranks := []geom.Rank{geom.RankPoint, geom.RankVertex, geom.RankFoot, geom.RankCross, geom.RankEdge, geom.RankAlong,
		geom.RankExtension, geom.RankTrack, geom.RankGrid, geom.RankFree}
	missing := func() (out []geom.Rank) {
		for _, k := range ranks {
			if kinds[k] == 0 {
				out = append(out, k)
			}
		}
		return out
	}
	// A hundred plans miss a seldom rank now and then; twenty times as many do not.
	for round := 0; round == 0 || round < 20 && len(missing()) > 0; round++ {
		rapid.Check(t, law)
	}
	if m := missing(); len(m) > 0 {
		t.Errorf("nothing was caught with the ranks %v", m)
	}
}

// onWhatItNames fails when the place does not lie on what it is said to.
func onWhatItNames(t *rapid.T, w *World, how snap, s snapped) {
	on, _ := doc.Find(w.Scheme, s.on)
	corners := doc.Corners(w.Scheme, on)
	edge := func() geom.Ruler { return geom.Ruler{A: corners[s.corner], B: corners[(s.corner+1)%len(corners)]} }
	bad := func(off float64) {
		if !(off <= 1) {
			t.Fatalf("%+v lies %v µm off: %s", s, off, w.caught.Word)
		}
	}
	line := func(r geom.Ruler) geom.Ruler { r.Endless = true; return r }
	switch s.rank {
	case geom.RankPoint, geom.RankVertex:
		bad(float64(geom.Distance(s.at, corners[s.corner])))
	case geom.RankEdge:
		bad(edge().Off(s.at))
	case geom.RankFoot:
		bad(edge().Off(s.at))
		// Square to the edge: the foot is no further along it than it should be.
		r := line(edge())
		want, _ := r.Part(*how.from)
		got, _ := r.Part(s.at)
		bad(math.Abs(want-got) * float64(geom.Distance(r.A, r.B)))
	case geom.RankAlong:
		off := edge().Off(s.at) - float64(w.Snaps.Off())
		if math.Abs(off) > 2 { // the line was rounded, and so was the place
			t.Fatalf("%+v: %v µm from where it should lie beside the wall", s, off)
		}
	case geom.RankCross, geom.RankExtension, geom.RankTrack:
		for _, g := range w.caught.Guides {
			bad(line(g).Off(s.at))
		}
		if s.rank == geom.RankExtension && s.on != "" {
			bad(line(edge()).Off(s.at))
		}
	}
}

// crowd is a plan of 1,000 lamps and 5,000 vertices of routes.
func crowd() *doc.Scheme {
	s := doc.New("uk-18")
	s.Plan.Grid = 100 * geom.Millimetre
	var lamps []*doc.Lamp
	var runs []*doc.Run
	for i := range 1000 {
		id := doc.ID(fmt.Sprintf("L%d", i))
		x, y := float64(i%40), float64(i/40)
		lamps = append(lamps, &doc.Lamp{ID: id, Tag: string(id), Place: doc.Place{At: geom.Pt(x+0.03, y)}})
		r := &doc.Run{ID: doc.ID(fmt.Sprintf("R%d", i)), From: doc.End{On: id}, To: doc.End{At: geom.Pt(x+0.9, y+0.7)}}
		for k := range 5 {
			r.Legs = append(r.Legs, doc.Leg{To: geom.Pt(x+0.15*float64(k+1), y+0.1*float64(k%3))})
		}
		runs = append(runs, r)
	}
	s.Lamps, s.Runs = doc.NewSet(lamps...), doc.NewSet(runs...)
	ring := make([]geom.Point, 400)
	for i := range ring {
		sin, cos := math.Sincos(float64(i) / float64(len(ring)) * 2 * math.Pi)
		ring[i] = geom.Pt(20+22*cos, 12+15*sin)
	}
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "building", Ring: ring})
	return s
}

// BenchmarkSnap is one movement of the pointer while a run is drawn among 1,000
// lamps and 5,000 vertices, zoomed in and zoomed out.
func BenchmarkSnap(b *testing.B) {
	for _, reach := range []geom.Length{50, 200, 800} {
		b.Run(fmt.Sprintf("reach=%dmm", reach), func(b *testing.B) {
			w := &World{Scheme: crowd(), Snap: true}
			from, before := geom.Pt(20, 12), geom.Pt(19, 12)
			how := snap{from: &from, before: &before, step: fine, points: true}
			placesOf(w)
			i := 0
			for b.Loop() {
				i++
				at := geom.Pt(float64(i%397)/10, float64(i%251)/10)
				snapTo(Event{Kind: Move, At: at, Reach: reach * geom.Millimetre}, w, how)
			}
		})
	}
}

// BenchmarkPlaces is what the first movement after a change costs more.
func BenchmarkPlaces(b *testing.B) {
	s := crowd()
	for b.Loop() {
		newPlaces(s)
	}
}
