package layout_test

import (
	"fmt"
	"testing"

	"duskwire/calc/network"
	"duskwire/calc/solve"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// border makes one circuit of n lamps: a comb of mains boxes, each feeding a
// chain of nine lamps, with five corners on every run.
func border(n int) *doc.Scheme {
	s := doc.New("uk-18")
	sp := &doc.Supply{ID: "SP1", Tag: "SP1", Spur: true, Nominal: 230, Earthing: network.TNS, Upstream: "b32-rcbo-30", Fuse: "fuse-13"}
	sp.MeasuredZs.Value, sp.MeasuredZs.Known = 0.4, true
	s.Supplies = doc.NewSet(sp)
	var boxes []*doc.Box
	var lamps []*doc.Lamp
	var runs []*doc.Run
	run := func(cable string, from, to doc.ID, a, b geom.Point) {
		r := &doc.Run{ID: doc.ID(fmt.Sprintf("R%d", len(runs)+1)), Cable: cable, From: doc.End{On: from}, To: doc.End{On: to}}
		r.Tag = string(r.ID)
		for k := 1; k <= 5; k++ {
			at := geom.Point{X: a.X + (b.X-a.X)*geom.Length(k)/5, Y: a.Y + (b.Y-a.Y)*geom.Length(k)/5}
			r.Legs = append(r.Legs, doc.Leg{To: at, Support: network.Buried, Depth: 500 * geom.Millimetre})
		}
		runs = append(runs, r)
	}
	last, lastAt := doc.ID("SP1"), geom.Pt(0, 0)
	for i := 0; len(lamps) < n; i++ {
		at := geom.Pt(float64(i), 0)
		b := &doc.Box{ID: doc.ID(fmt.Sprintf("B%d", i+1)), Stock: "box-110", Place: doc.Place{At: at}}
		b.Tag = string(b.ID)
		boxes = append(boxes, b)
		run("swa-3x16", last, b.ID, lastAt, at)
		last, lastAt = b.ID, at
		from, fromAt := b.ID, at
		for k := 1; k <= 9 && len(lamps) < n; k++ {
			to := geom.Pt(float64(i), float64(k))
			l := &doc.Lamp{ID: doc.ID(fmt.Sprintf("L%d", len(lamps)+1)), Stock: "brick-3w", Place: doc.Place{At: to}}
			l.Tag = string(l.ID)
			lamps = append(lamps, l)
			run("swa-3x1.5", from, l.ID, fromAt, to)
			from, fromAt = l.ID, to
		}
	}
	s.Boxes, s.Lamps, s.Runs = doc.NewSet(boxes...), doc.NewSet(lamps...), doc.NewSet(runs...)
	return s
}

// BenchmarkEditToFrame drags one lamp: operation, derivation, evaluation and
// publication of the frame. The whole scheme is one circuit, the worst case
// for the reuse of untouched circuits. The target is 8 ms at 1,000 lamps.
func BenchmarkEditToFrame(b *testing.B) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		b.Fatal(err)
	}
	for _, n := range []int{100, 1000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := layout.NewDesk(stock, rules, border(n), "")
			if s := d.Frame().Results[0].Solution.Status.State; s != solve.Converged {
				b.Fatalf("the net of the benchmark ends in %v", s)
			}
			id := doc.ID(fmt.Sprintf("L%d", n/2))
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				op := edit.MovePoints{IDs: []doc.ID{id}, By: geom.Point{X: geom.Length(i%1000) * geom.Millimetre}}
				if err := d.Preview(op); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
