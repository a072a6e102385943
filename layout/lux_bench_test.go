package layout_test

import (
	"fmt"
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
)

// BenchmarkLight moves one lamp of a large garden: the frame with the findings of
// light, against that which leaves them to a worker. The difference is what the
// worker does.
func BenchmarkLight(b *testing.B) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		b.Fatal(err)
	}
	for _, n := range []int{100, 1000} {
		for _, apart := range []bool{false, true} {
			b.Run(fmt.Sprintf("%d lamps, apart %v", n, apart), func(b *testing.B) {
				s := garden.Large(n)
				lamps := s.Lamps.All()
				lit := make([]*doc.Lamp, len(lamps))
				for i, l := range lamps {
					c := *l
					c.Stock = []string{"brick-3w", "spike-5w-12", "bollard-9w"}[i%3]
					lit[i] = &c
				}
				s.Lamps = doc.NewSet(lit...)
				d := layout.NewDesk(stock, rules, s, "")
				if apart {
					d.LightApart(func(func() (work, done func())) {})
				}
				id := s.Lamps.All()[n/2].ID
				for i := 0; b.Loop(); i++ {
					op := edit.MovePoints{IDs: []doc.ID{id}, By: geom.Point{X: geom.Length(i%1000) * geom.Millimetre}}
					if err := d.Preview(op); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
