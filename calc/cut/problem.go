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
	metre  []int64 // cost of one piece of each size by the metre, -1 when not sold so
	metreO int     // offer it is bought by
	widest int     // largest capacity
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
	p.sell(offers, opt, step)
	for i := range p.sizes {
		p.sizes[i] /= step
	}
	return p, p.covered(pieces)
}

// sell fills in the offers: drums with their capacity in steps, and the
// cheapest price by the metre.
func (p *problem) sell(offers []Offer, opt Options, step int) {
	p.metre = make([]int64, len(p.sizes))
	for i := range p.metre {
		p.metre[i] = -1
	}
	for k, o := range offers {
		if o.byMetre() {
			if p.metreO >= 0 && offers[p.metreO].Cost <= o.Cost {
				continue
			}
			p.metreO = k
			for i, s := range p.sizes { // still in millimetres
				p.metre[i] = int64(math.Ceil(float64(s)*float64(resolution)*float64(o.Cost) - 1e-6))
			}
			continue
		}
		usable := millimetres(o.Length, false)
		usable -= int(math.Ceil(float64(usable)*opt.Reserve - 1e-6))
		d := drum{k, usable / step, o.Cost, o.Have}
		p.drums = append(p.drums, d)
		p.widest = max(p.widest, d.capacity)
	}
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
	drum, cost = -1, p.metre[size]
	for k, d := range p.drums {
		if d.have == 0 && d.capacity >= p.sizes[size] && (cost < 0 || d.cost < cost) {
			drum, cost = k, d.cost
		}
	}
	return drum, cost
}
