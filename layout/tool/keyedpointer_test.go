package tool

import (
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// A step goes to the next place of the steps and leaves the other axis alone; a
// fresh pointer is brought onto the steps both ways. By hand.
func TestStepped(t *testing.T) {
	const grid = 100 * geom.Millimetre
	for _, tt := range []struct {
		at          geom.Point
		key         string
		grid        geom.Length
		fine, fresh bool
		want        geom.Point
	}{
		{geom.Pt(1.234, 1.777), KeyRight, grid, false, true, geom.Pt(1.3, 1.8)},
		{geom.Pt(1.234, 1.777), KeyRight, grid, false, false, geom.Pt(1.3, 1.777)},
		{geom.Pt(1.2, 1.777), KeyDown, grid, false, false, geom.Pt(1.2, 1.7)},
		{geom.Pt(1.2, 1.7), KeyUp, grid, true, false, geom.Pt(1.2, 1.71)},
		{geom.Pt(1.2, 1.7), KeyLeft, grid, true, false, geom.Pt(1.19, 1.7)},
		{geom.Pt(1.2, 1.7), KeyLeft, 0, false, false, geom.Pt(1.19, 1.7)}, // no grid
	} {
		got, step, ok := Stepped(tt.at, tt.key, tt.grid, tt.fine, tt.fresh)
		if !ok || got != tt.want || step <= 0 {
			t.Errorf("%v %s: got %v by %v, expected %v", tt.at, tt.key, got, step, tt.want)
		}
	}
	if _, _, ok := Stepped(geom.Pt(1, 1), KeyReturn, grid, false, false); ok {
		t.Error("Return moves the pointer")
	}
}

// TestKeysReachEverything: wherever a thing or a corner stands, some place of the grid
// is caught by it alone, and no line further than a millimetre catches: so that the
// arrows say where something lands.
func TestKeysReachEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _ := drawPlan(t)
		s.Plan.Grid = 100 * geom.Millimetre
		w := &World{Scheme: s, Snap: true}
		var spots []catcher
		for _, c := range placesOf(w).list {
			if c.what != anEdge {
				spots = append(spots, c)
			}
		}
		c := rapid.SampledFrom(spots).Draw(t, "spot")
		e := Event{Kind: Move, Keyed: true, Step: s.Plan.Grid, Reach: 80 * geom.Millimetre, At: geom.ToGrid(c.a, s.Plan.Grid)}
		got := snapTo(e, w, snap{points: true})
		if got.at != c.a && (got.rank > geom.RankCross || geom.Distance(e.At, got.at) > geom.Distance(e.At, c.a)*2+1) {
			t.Fatalf("%v of %s is not caught from %v but %+v", c.a, c.on, e.At, got)
		}
		if got.rank >= geom.RankEdge && got.rank < geom.RankAngle && geom.Distance(e.At, got.at) > onLine {
			t.Fatalf("%+v caught from %v", got, e.At)
		}
	})
}

// TestJumpsReachLines: edge, beside a wall, in line, square and crossing are among the
// places that a jump goes to, and each catches when the pointer stands there.
func TestJumpsReachLines(t *testing.T) {
	kinds := map[geom.Rank]int{}
	law := func(t *rapid.T) {
		s, how := drawPlan(t)
		desk := &fakeDesk{stock: stockForTests(), history: []*doc.Scheme{s}}
		session := NewSession(desk, NewSelect(&Defaults{}))
		desk.session = session
		desk.publish()
		w := &session.world
		near := rapid.SampledFrom(placesOf(w).list).Draw(t, "near").a
		off := rapid.Int64Range(-2e5, 2e5)
		e := Event{Kind: Move, Keyed: true, Reach: 80 * geom.Millimetre,
			At: near.Add(geom.Point{X: geom.Length(off.Draw(t, "dx")), Y: geom.Length(off.Draw(t, "dy"))})}
		snapTo(e, w, how)
		for _, p := range session.Jumps() {
			to := e
			to.At = p
			got := snapTo(to, w, how)
			kinds[got.rank]++
			if geom.Distance(got.at, p) > onLine*3/2 || got.rank == geom.RankFree || got.rank == geom.RankGrid {
				t.Fatalf("a jump from %v to %v is caught by %+v", e.At, p, got)
			}
			onWhatItNames(t, w, how, got)
		}
	}
	ranks := []geom.Rank{geom.RankPoint, geom.RankVertex, geom.RankFoot, geom.RankCross, geom.RankEdge, geom.RankAlong, geom.RankExtension, geom.RankTrack}
	missing := func() (out []geom.Rank) {
		for _, k := range ranks {
			if kinds[k] == 0 {
				out = append(out, k)
			}
		}
		return out
	}
	for round := 0; round == 0 || round < 20 && len(missing()) > 0; round++ {
		rapid.Check(t, law)
	}
	if m := missing(); len(m) > 0 {
		t.Errorf("no jump went to the ranks %v", m)
	}
}
