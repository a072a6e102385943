package board

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// TestSnapMarksDiffer: every kind has a mark of its own shape.
func TestSnapMarksDiffer(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	o := &h.board.over
	seen := map[string]geom.Rank{}
	for r := geom.RankPoint; r < geom.RankFree; r++ {
		o.pool.end()
		o.shape(fyne.NewPos(100, 100), tool.Caught{Rank: r})
		drawn := ""
		for _, l := range o.pool.lines.items[:o.pool.lines.used] {
			drawn += fmt.Sprint(l.Position1, l.Position2)
		}
		drawn += fmt.Sprint(o.pool.rects.used, o.pool.circles.used)
		if other, twice := seen[drawn]; twice {
			t.Errorf("ranks %d and %d look the same", other, r)
		}
		seen[drawn] = r
	}
	o.pool.end()
}

// TestGuideStaysOnTheBoard: a guide to far away costs no more than its dashes.
func TestGuideStaysOnTheBoard(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	o := &h.board.over
	o.pool.end()
	o.guide(fyne.NewPos(-1e7, 50), fyne.NewPos(1e7, 60))
	if n := o.pool.lines.used; n == 0 || n > mostDash+1 {
		t.Errorf("%d dashes", n)
	}
	for _, l := range o.pool.lines.items[:o.pool.lines.used] {
		if l.Position1.X < -100 || l.Position2.X > h.board.Size().Width+100 {
			t.Errorf("a dash from %v to %v", l.Position1, l.Position2)
		}
	}
	o.pool.end()
}

// TestDimensionIsLive: what measures a dragged thing, or a run that hangs on it,
// is drawn with it.
func TestDimensionIsLive(t *testing.T) {
	s := smallGarden()
	lamp := s.Lamps.All()[0]
	var run *doc.Run
	for _, r := range s.Runs.All() {
		if r.To.On == lamp.ID || r.From.On == lamp.ID {
			run = r
		}
	}
	if run == nil {
		t.Fatal("no run ends on the first lamp")
	}
	free := doc.Anchor{At: geom.Pt(9, 9)}
	s.Dimensions = doc.NewSet(
		&doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Aligned, From: doc.Anchor{On: lamp.ID}, To: free},
		&doc.Dimension{ID: "D2", Tag: "D2", Kind: doc.Aligned, From: free, To: doc.Anchor{On: run.ID, Corner: len(run.Legs)}},
		&doc.Dimension{ID: "D3", Tag: "D3", Kind: doc.Aligned, From: free, To: doc.Anchor{At: geom.Pt(1, 9)}},
	)
	to, err := edit.MovePoints{IDs: []doc.ID{lamp.ID}, By: geom.Pt(0.5, 0)}.Apply(s)
	if err != nil {
		t.Fatal(err)
	}
	ids := affected(s, to)
	if !ids["D1"] || !ids["D2"] || ids["D3"] {
		t.Errorf("drawn live: %v", ids)
	}
}
