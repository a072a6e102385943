package cut

import (
	"fmt"
	"math"
	"strings"
	"testing"

	q "duskwire/calc/quantity"

	"pgregory.net/rapid"
)

func pieces(lengths ...float64) []Piece {
	var out []Piece
	for i, l := range lengths {
		out = append(out, Piece{fmt.Sprintf("W%d", i+1), q.Metre(l)})
	}
	return out
}

var coils = []Offer{{Key: "25 m", Length: 25, Cost: 3000}, {Key: "50 m", Length: 50, Cost: 5500}, {Key: "100 m", Length: 100, Cost: 10000}}

func TestBest(t *testing.T) {
	metre := Offer{Key: "by the metre", Cost: 140}
	cases := []struct {
		name   string
		pieces []Piece
		offers []Offer
		opt    Options
		cost   int64
		drums  int
	}{
		// Worked by hand.
		{"nothing", nil, coils, Options{}, 0, 0},
		{"one short piece", pieces(8.5), coils, Options{}, 3000, 1},
		{"one piece by the metre", pieces(8.5), append([]Offer{metre}, coils...), Options{}, 1190, 1},
		{"fits one drum to the centimetre", pieces(92.5, 7.5), coils, Options{}, 10000, 1},
		{"the same with 2 % kept back", pieces(92.5, 7.5), coils, Options{Reserve: 0.02}, 13000, 2},
		{"first fit takes three drums, two do", pieces(12, 12, 9, 9, 4, 4), []Offer{{Key: "25 m", Length: 25, Cost: 1}}, Options{}, 2, 2},
		{"offcut in the van", pieces(8, 20), append([]Offer{{Key: "offcut", Length: 9, Have: 1}}, coils...), Options{}, 3000, 2},
		{"one offcut cannot serve twice", pieces(8, 8, 20), append([]Offer{{Key: "offcut", Length: 9, Have: 1}}, coils[:1]...), Options{}, 6000, 2},
		{"longer than the short coil", pieces(60, 10), coils, Options{}, 10000, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			p, err := Best(c.pieces, c.offers, c.opt)
			if err != nil {
				t.Fatal(err)
			}
			if err := valid(p, c.pieces, c.offers, c.opt); err != nil {
				t.Fatal(err)
			}
			if p.Cost != c.cost || len(p.Drums) != c.drums || !p.Proved {
				t.Errorf("cost %d with %d drums, proved %v; want %d with %d, proved", p.Cost, len(p.Drums), p.Proved, c.cost, c.drums)
			}
		})
	}
}

func TestBestRefuses(t *testing.T) {
	nan := q.Metre(math.NaN())
	cases := []struct {
		name   string
		pieces []Piece
		offers []Offer
		opt    Options
		says   string
	}{
		{"no offers", pieces(1), nil, Options{}, "0 offers"},
		{"piece of no length", pieces(0), coils, Options{}, `piece "W1" of 0 m`},
		{"piece that is no number", []Piece{{"W1", nan}}, coils, Options{}, "NaN"},
		{"piece longer than all drums", pieces(120), coils, Options{}, "longer than every drum"},
		{"only an offcut", pieces(5), []Offer{{Key: "x", Length: 9, Have: 3}}, Options{}, "longer than every drum"},
		{"a drum for nothing", pieces(5), []Offer{{Key: "x", Length: 9}}, Options{}, "costs nothing"},
		{"reserve", pieces(5), coils, Options{Reserve: 0.9}, "reserve 0.9"},
		{"absurd drum", pieces(5), []Offer{{Key: "x", Length: 1e9, Cost: 1}}, Options{}, "1e+09 m"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if _, err := Best(c.pieces, c.offers, c.opt); err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("error %v, want it to say %q", err, c.says)
			}
		})
	}
}

// valid checks that every piece is cut once, that no drum is overfull and that
// the cost is that of the drums.
func valid(p Plan, pieces []Piece, offers []Offer, opt Options) error {
	cut := make([]int, len(pieces))
	used := make([]int, len(offers))
	cost, metres := int64(0), 0.0
	for _, d := range p.Drums {
		o := offers[d.Offer]
		sum := q.Metre(0)
		for _, i := range d.Pieces {
			cut[i]++
			sum += pieces[i].Length
		}
		used[d.Offer]++
		if o.byMetre() {
			metres += float64(sum) * float64(o.Cost)
		} else {
			cost += o.Cost
			if float64(sum) > float64(o.Length)*(1-opt.Reserve)+1e-9 {
				return fmt.Errorf("%v m cut from %v", sum, o)
			}
		}
		if math.Abs(float64(sum-d.Cut)) > 1e-9 {
			return fmt.Errorf("drum says %v cut, pieces add up to %v", d.Cut, sum)
		}
	}
	for i, n := range cut {
		if n != 1 {
			return fmt.Errorf("piece %d cut %d times", i, n)
		}
	}
	for k, o := range offers {
		if o.Have > 0 && used[k] > o.Have {
			return fmt.Errorf("%d of %v", used[k], o)
		}
	}
	if cost += int64(math.Ceil(metres - 1e-6)); cost != p.Cost {
		return fmt.Errorf("drums cost %d, plan says %d", cost, p.Cost)
	}
	return nil
}

// exhaustive returns the least cost by trying every partition of the pieces.
func exhaustive(lengths []int, offers []Offer) int64 {
	n := len(lengths)
	lone := make([]int64, 1<<n) // cheapest drum for a set
	for set := 1; set < 1<<n; set++ {
		sum := 0
		for i := range n {
			if set>>i&1 == 1 {
				sum += lengths[i]
			}
		}
		lone[set] = math.MaxInt64 / 4
		for _, o := range offers {
			if float64(sum)/2 <= float64(o.Length) {
				lone[set] = min(lone[set], o.Cost)
			}
		}
	}
	best := make([]int64, 1<<n)
	for set := 1; set < 1<<n; set++ {
		best[set] = lone[set]
		for sub := (set - 1) & set; sub > 0; sub = (sub - 1) & set {
			best[set] = min(best[set], lone[sub]+best[set^sub])
		}
	}
	return best[1<<n-1]
}

// TestLeastCost compares with every partition of up to nine pieces.
func TestLeastCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := rapid.SliceOfN(rapid.IntRange(1, 60), 1, 9).Draw(t, "half metres")
		offers := []Offer{
			{Key: "a", Length: 12.5, Cost: int64(rapid.IntRange(1, 40).Draw(t, "a"))},
			{Key: "b", Length: 30, Cost: int64(rapid.IntRange(1, 90).Draw(t, "b"))},
		}
		var list []Piece
		for i, h := range half {
			list = append(list, Piece{fmt.Sprint(i), q.Metre(h) / 2})
		}
		p, err := Best(list, offers, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := valid(p, list, offers, Options{}); err != nil {
			t.Fatal(err)
		}
		if want := exhaustive(half, offers); p.Cost != want || !p.Proved {
			t.Fatalf("cost %d (proved %v), every partition tried gives %d", p.Cost, p.Proved, want)
		}
	})
}

// TestMoreNeverCheaper: one piece more never costs less, an offer more never
// costs more, and the bound is never above the cost.
func TestMoreNeverCheaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		half := rapid.SliceOfN(rapid.IntRange(3, 90), 2, 25).Draw(t, "half metres")
		var list []Piece
		for i, h := range half {
			list = append(list, Piece{fmt.Sprint(i), q.Metre(h) / 2})
		}
		cost := func(pieces []Piece, offers []Offer) int64 {
			p, err := Best(pieces, offers, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if p.Bound > p.Cost || !p.Proved {
				t.Fatalf("bound %d, cost %d, proved %v", p.Bound, p.Cost, p.Proved)
			}
			return p.Cost
		}
		all := cost(list, coils)
		if fewer := cost(list[1:], coils); fewer > all {
			t.Fatalf("%d without the first piece, %d with it", fewer, all)
		}
		if more := cost(list, append([]Offer{{Key: "30 m", Length: 30, Cost: 3400}}, coils...)); more > all {
			t.Fatalf("%d with one offer more, %d without", more, all)
		}
	})
}

func BenchmarkBest(b *testing.B) {
	for _, n := range []int{10, 40, 150} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var list []Piece
			for i := range n {
				list = append(list, Piece{fmt.Sprint(i), q.Metre(3+(i*i*7+i*13)%71) / 2})
			}
			for b.Loop() {
				if _, err := Best(list, coils, Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// What lies at hand and is enough for every piece costs nothing: nothing is bought
// beside it, whatever is on sale (by hand: 9 + 3·2 m out of 40 m, or out of 9 m and
// 6 m).
func TestAtHandIsEnough(t *testing.T) {
	list := []Piece{{"R1", 9}, {"R2", 2}, {"R3", 2}, {"R4", 2}}
	for _, have := range [][]q.Metre{{40}, {15}, {9, 6}, {100, 3}, {11, 4}} {
		for _, sale := range []Offer{{Key: "by the metre", Cost: 145}, {Key: "coil", Length: 25, Cost: 3150}} {
			offers := []Offer{sale}
			for _, l := range have {
				offers = append(offers, Offer{Key: "left", Length: l, Have: 1})
			}
			p, err := Best(list, offers, Options{})
			if err != nil || p.Cost != 0 || !p.Proved {
				t.Errorf("at hand %v, %s on sale: cost %d, proved %v, %v; want 0", have, sale.Key, p.Cost, p.Proved, err)
			}
		}
	}
}
