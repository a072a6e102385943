package layout_test

import (
	"fmt"
	"testing"

	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// drawn puts a garden under the border of lamps: beds, a pond, trees, fences
// and a service, 100 things in all.
func drawn(n int) *doc.Scheme {
	s := border(n)
	var areas []*doc.Area
	var lines []*doc.Line
	var marks []*doc.Mark
	for i := range 40 {
		x := float64(3 * i)
		id := doc.ID(fmt.Sprint("A", i+1))
		areas = append(areas, &doc.Area{ID: id, Tag: string(id), Kind: doc.AreaKinds[1+i%8], DigDepth: 100 * geom.Millimetre,
			Ring: []geom.Point{geom.Pt(x, 0.5), geom.Pt(x+2.5, 0.5), geom.Pt(x+2.5, 6.5), geom.Pt(x+1, 8), geom.Pt(x, 6.5)}})
	}
	for i := range 20 {
		x := float64(6 * i)
		id := doc.ID(fmt.Sprint("N", i+1))
		lines = append(lines, &doc.Line{ID: id, Tag: string(id), Kind: doc.LineKinds[i%4], Path: []geom.Point{geom.Pt(x, -1), geom.Pt(x+4, 4.3), geom.Pt(x, 10)}})
	}
	for i := range 40 {
		id := doc.ID(fmt.Sprint("M", i+1))
		marks = append(marks, &doc.Mark{ID: id, Tag: string(id), Kind: doc.MarkKinds[i%4], Place: doc.Place{At: geom.Pt(float64(3*i), 5.5)}, Radius: 150 * geom.Millimetre})
	}
	s.Areas, s.Lines, s.Marks = doc.NewSet(areas...), doc.NewSet(lines...), doc.NewSet(marks...)
	return s
}

// BenchmarkGround drags a lamp over a drawn garden: what the ground costs more
// than BenchmarkEditToFrame. From scratch all facts are made; the target of the
// whole frame is 60 ms.
func BenchmarkGround(b *testing.B) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		b.Fatal(err)
	}
	s := drawn(1000)
	b.Run("drag", func(b *testing.B) {
		d := layout.NewDesk(stock, rules, s, "")
		for i := 0; b.Loop(); i++ {
			op := edit.MovePoints{IDs: []doc.ID{"L500"}, By: geom.Point{X: geom.Length(i%1000) * geom.Millimetre}}
			if err := d.Preview(op); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("facts from scratch", func(b *testing.B) {
		for b.Loop() {
			derive.Scheme(s, &stock, rules[0], nil)
		}
	})
	plain := border(1000)
	b.Run("facts without ground", func(b *testing.B) {
		for b.Loop() {
			derive.Scheme(plain, &stock, rules[0], nil)
		}
	})
}
