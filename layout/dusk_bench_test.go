package layout_test

import (
	"context"
	"fmt"
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// duskGarden is the drawn garden with every lamp 0.3 m up.
func duskGarden(b *testing.B, n int) *layout.Desk {
	s := drawn(n)
	s.Lamps = s.Lamps.Map(func(l *doc.Lamp) *doc.Lamp {
		c := *l
		c.Place.Height = 300 * geom.Millimetre
		return &c
	})
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		b.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, "")
}

// BenchmarkDusk sets one step of a drag beside the whole picture: a garden of 100
// and of 1,000 lamps on a board of 900 x 860 pixels.
func BenchmarkDusk(b *testing.B) {
	for _, n := range []int{100, 1000} {
		desk := duskGarden(b, n)
		area := layout.NightArea(desk.Frame().Scheme)
		want := func() layout.DuskWish {
			return layout.DuskWish{Frame: desk.Frame(), Area: area, Hold: "L50", PxPerMM: 5, Width: 180, Height: 172,
				View: scene.View{Denominator: float64(area.Width()) / 170 / float64(geom.Millimetre), Origin: geom.Point{X: area.Min.X, Y: area.Max.Y}}}
		}
		rest := func(d *layout.Dusk) {
			for more := true; more; {
				var err error
				if _, more, err = d.Step(context.Background(), want()); err != nil {
					b.Fatal(err)
				}
			}
		}
		name := map[int]string{100: "100", 1000: "1000"}[n]
		b.Run("whole/"+name, func(b *testing.B) {
			for b.Loop() {
				rest(layout.NewDusk())
			}
		})
		b.Run("drag/"+name, func(b *testing.B) {
			d := layout.NewDusk()
			rest(d)
			for k := 0; b.Loop(); k++ {
				b.StopTimer()
				if err := desk.Preview(edit.MovePoints{IDs: []doc.ID{"L50"}, By: geom.Pt(0.05*float64(k%40+1), 0)}); err != nil {
					b.Fatal(err)
				}
				b.StartTimer()
				if _, _, err := d.Step(context.Background(), want()); err != nil {
					b.Fatal(err)
				}
			}
			desk.Cancel()
		})
	}
}

// BenchmarkReading is what one reading at the pointer takes, on the ground and upright:
// in the open, and among 40 low walls and 40 trees.
func BenchmarkReading(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		for _, walled := range []bool{false, true} {
			desk := duskGarden(b, n)
			if walled {
				s := *desk.Frame().Scheme
				s.Areas = s.Areas.Map(func(a *doc.Area) *doc.Area {
					c := *a
					c.Kind, c.Height = "building", 500*geom.Millimetre
					return &c
				})
				s.Marks = s.Marks.Map(func(m *doc.Mark) *doc.Mark {
					c := *m
					c.Kind, c.Crown, c.CrownBase, c.CrownTop = "tree", geom.Metre, geom.Metre, 3*geom.Metre
					return &c
				})
				desk.Load(&s, "")
			}
			night, err := layout.NightOf(desk.Frame())
			if err != nil {
				b.Fatal(err)
			}
			b.Run(fmt.Sprintf("%d walled %v", n, walled), func(b *testing.B) {
				for b.Loop() {
					night.Probe(geom.Pt(5, -2))
					night.Upright(geom.Pt(5, -2))
				}
			})
		}
	}
}
