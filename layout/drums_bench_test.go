package layout

import (
	"fmt"
	"math/rand/v2"
	"testing"
	"time"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// realLists are ways in which the same cable may be had; the money is invented.
var realLists = []struct {
	name  string
	price []doc.Price
}{
	{"no prices", nil},
	{"coils and leftovers", []doc.Price{{Cable: "swa-3x1.5", Coils: []doc.Coil{{Length: 25, Price: q.Some(doc.Money(3150))}, {Length: 50, Price: q.Some(doc.Money(5790))},
		{Length: 100, Price: q.Some(doc.Money(11000))}}, Left: []q.Metre{8.4, 13.7, 21.2}}}},
	{"by the metre too", []doc.Price{{Cable: "swa-3x1.5", Coils: []doc.Coil{{Length: 25, Price: q.Some(doc.Money(3150))}, {Length: 50, Price: q.Some(doc.Money(5790))},
		{Length: 100, Price: q.Some(doc.Money(11000))}}, Metre: q.Some(doc.Money(145)), Left: []q.Metre{8.4, 13.7, 21.2}}}},
}

// BenchmarkWorstPlan plans cut lists of random lengths, a new one each time, and
// says how long the worst took beside the mean.
func BenchmarkWorstPlan(b *testing.B) {
	for _, n := range []int{5, 10, 20, 40, 100, 300, 1000} {
		for _, l := range realLists {
			b.Run(fmt.Sprintf("%d pieces, %s", n, l.name), func(b *testing.B) {
				r, worst := rand.New(rand.NewPCG(1, uint64(n))), time.Duration(0)
				for b.Loop() {
					cuts := make([]float64, n)
					for i := range cuts {
						cuts[i] = 1.5 + float64(r.IntN(3000))/100
					}
					lengths := cutList(cuts...)
					begun := time.Now()
					var p planner
					p.plans(lengths, l.price, 0.02, false)
					worst = max(worst, time.Since(begun))
				}
				b.ReportMetric(float64(worst.Microseconds())/1000, "worst-ms")
			})
		}
	}
}
