package board

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// largeGarden has n lamps in rows of forty, each on a run of five legs from
// the one before.
func largeGarden(n int) *doc.Scheme {
	s := doc.New("uk-18")
	s.Plan.Grid = geom.Metre / 10
	lamps := make([]*doc.Lamp, n)
	var runs []*doc.Run
	for i := range lamps {
		id := fmt.Sprintf("l%d", i)
		at := geom.Pt(float64(i%40), float64(i/40))
		lamps[i] = &doc.Lamp{ID: doc.ID(id), Tag: fmt.Sprintf("L%d", i), Stock: "lamp", Place: doc.Place{At: at}}
		if i%40 == 0 {
			continue
		}
		r := &doc.Run{ID: doc.ID("r" + id), Tag: "R" + id, From: doc.End{On: lamps[i-1].ID}, To: doc.End{On: lamps[i].ID}}
		for k := range 4 {
			r.Legs = append(r.Legs, doc.Leg{To: at.Add(geom.Pt(-0.8+0.2*float64(k), 0.3))})
		}
		r.Legs = append(r.Legs, doc.Leg{})
		runs = append(runs, r)
	}
	s.Lamps, s.Runs = doc.NewSet(lamps...), doc.NewSet(runs...)
	return s
}

// BenchmarkBoardBase draws the base image of 1,000 lamps and 5,000 vertices,
// margins included, at 1280x800.
func BenchmarkBoardBase(b *testing.B) {
	h := newHand(b, largeGarden(1000), fyne.NewSize(1280, 800))
	b.ReportAllocs()
	for b.Loop() {
		h.board.base.draw()
	}
}

// BenchmarkBoardMove is one move of a dragged lamp among 1,000, up to the
// paint: the preview, the marks and the live picture.
func BenchmarkBoardMove(b *testing.B) {
	h := newHand(b, largeGarden(1000), fyne.NewSize(1280, 800))
	at := h.where(20, 12)
	h.press(at, desktop.MouseButtonPrimary)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		h.move(at.AddXY(float32(5+i%50), float32(i%30)))
		size := h.board.live.raster.Size()
		h.board.live.generate(int(size.Width), int(size.Height))
	}
}

// BenchmarkBoardHover is a move of the pointer with nothing held.
func BenchmarkBoardHover(b *testing.B) {
	h := newHand(b, largeGarden(1000), fyne.NewSize(1280, 800))
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		h.move(fyne.NewPos(float32(100+i%900), float32(100+i%500)))
	}
}
