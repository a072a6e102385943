package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// problem is the input in whole steps: distinct sizes, longest first, with how
// many of each are wanted.
type problem struct {
	sizes  []int // in steps
	demand []int
	sizeOf []int // size of each piece, by index
	drums  []drum
	rate   int64 // cost of one step by the metre, 0 when it is not sold so
	metreO int   // offer it is bought by, -1 for none
	widest int   // largest capacity
	scale  int64 // costs here are those of the offers times scale, so that rate is whole
	total  int   // steps of all pieces
	count  int   // pieces
}

// drum is one offer that has a length.
type drum struct {
	offer    int
	capacity int
	cost     int64
	have     int // 0 without limit
}

// pattern is what is cut from one drum; counts by size.
type pattern struct {
	offer  int
	counts []int
}

// solution is a whole plan.
type solution struct {
	patterns []pattern
	cost     int64
}

func newProblem(pieces []Piece, offers []Offer, opt Options) (*problem, error) {
	p := &problem{metreO: -1}
	lengths := make([]int, len(pieces))
	step := 0
	for i, x := range pieces {
		lengths[i] = millimetres(x.Length, true)
		step = gcd(step, lengths[i])
	}
	p.sizes = slices.Clone(lengths)
	slices.SortFunc(p.sizes, func(a, b int) int { return cmp.Compare(b, a) })
	p.sizes = slices.Compact(p.sizes)
	p.demand = make([]int, len(p.sizes))
	for _, l := range lengths {
		i, _ := slices.BinarySearchFunc(p.sizes, l, func(a, b int) int { return cmp.Compare(b, a) })
		p.sizeOf = append(p.sizeOf, i)
		p.demand[i]++
	}
	for i := range p.sizes {
		p.sizes[i] /= step
		p.total += p.sizes[i] * p.demand[i]
		p.count += p.demand[i]
	}
	p.sell(offers, opt, step)
	p.tighten()
	return p, p.covered(pieces)
}

// sell fills in the offers: the cheapest price by the metre, then the drums
// with their capacity in steps.
func (p *problem) sell(offers []Offer, opt Options, step int) {
	p.scale = 1
	for k, o := range offers {
		if o.byMetre() && (p.metreO < 0 || o.Cost < offers[p.metreO].Cost) {
			p.metreO = k
		}
	}
	if p.metreO >= 0 {
		const perMetre = 1000 // millimetres
		per := offers[p.metreO].Cost * int64(step)
		p.scale = perMetre / int64(gcd(int(per), perMetre))
		p.rate = per * p.scale / perMetre
	}
	for k, o := range offers {
		if o.byMetre() {
			continue
		}
		usable := millimetres(o.Length, false)
		usable -= int(math.Ceil(float64(usable)*opt.Reserve - 1e-6))
		p.drums = append(p.drums, drum{k, min(usable/step, p.total), o.Cost * p.scale, o.Have})
	}
}

// tighten takes off every drum what no choice of pieces can fill.
func (p *problem) tighten() {
	for _, d := range p.drums {
		p.widest = max(p.widest, d.capacity)
	}
	k := newKnapsack(p)
	k.fill(p.lengths())
	p.widest = 0
	for i := range p.drums {
		p.drums[i].capacity = int(k.most(0, p.drums[i].capacity))
		p.widest = max(p.widest, p.drums[i].capacity)
	}
}

// lengths returns the sizes as values for a knapsack.
func (p *problem) lengths() []float64 {
	out := make([]float64, len(p.sizes))
	for i, s := range p.sizes {
		out[i] = float64(s)
	}
	return out
}

// byMetre returns the cost of one piece of a size by the metre, -1 when it is
// not sold so.
func (p *problem) byMetre(size int) int64 {
	if p.metreO < 0 {
		return -1
	}
	return p.rate * int64(p.sizes[size])
}

// covered returns an error for a piece that nothing on sale without limit can
// give.
func (p *problem) covered(pieces []Piece) error {
	reach := 0
	for _, d := range p.drums {
		if d.have == 0 {
			reach = max(reach, d.capacity)
		}
	}
	for i, of := range p.sizeOf {
		if p.metreO < 0 && p.sizes[of] > reach {
			return fmt.Errorf("cut: piece %q of %v m is longer than every drum on sale and none is sold by the metre", pieces[i].Key, float64(pieces[i].Length))
		}
	}
	return nil
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// cheapest returns the unlimited offer of least cost that one piece of a size
// can come from: drum index, or -1 by the metre.
func (p *problem) cheapest(size int) (drum int, cost int64) {
	drum, cost = -1, p.byMetre(size)
	for k, d := range p.drums {
		if d.have == 0 && d.capacity >= p.sizes[size] && (cost < 0 || d.cost < cost) {
			drum, cost = k, d.cost
		}
	}
	return drum, cost
}
