// Package cut plans out of which drums and coils the pieces of one cable are
// cut, so that what is bought costs least. It is the cutting-stock problem
// with several sizes of stock (variable-sized bin packing), solved exactly: a
// lower bound from the linear relaxation by column generation (Gilmore and
// Gomory, "A linear programming approach to the cutting-stock problem",
// Operations Research 9, 1961), then one question after the other: which
// shopping lists cost less than the best plan known, and can the pieces be cut
// from one of them?
package cut

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	q "duskwire/calc/quantity"
)

// Piece is one length to be cut.
type Piece struct {
	Key    string // the caller's name for it
	Length q.Metre
}

// Offer is one way in which the cable is sold, or lies in the van.
type Offer struct {
	Key string
	// Length of the drum or coil; 0 says that it is sold by the metre, each
	// piece at its own length.
	Length q.Metre
	// Cost of one drum, or of one metre, in whole units of any one kind: pence,
	// or centimetres of cable where no price is known. What is bought by the
	// metre is summed up over the plan, then rounded up to a whole unit.
	Cost int64
	// Have is how many of these there are; 0 as many as are wanted.
	Have int
}

// byMetre reports whether the offer has no drum.
func (o Offer) byMetre() bool { return o.Length == 0 }

// Options steer a plan.
type Options struct {
	// Reserve is the share of every drum that no piece may use, 0 to 0.5.
	Reserve float64
	// Effort is how much work the search may do, roughly in microseconds, before it hands out the
	// best plan it has; 0 takes DefaultEffort. Below 0 it does not search at
	// all: first fit, longest first, and the bound of whole drums.
	Effort int
}

// DefaultEffort is some seconds on one core. Plans for a garden take a few
// thousandths of that.
const DefaultEffort = 4_000_000

// Plan is which piece comes off which drum.
type Plan struct {
	Drums []Drum
	Cost  int64
	// Bound is a cost that no plan can undercut; Proved says that Cost is the
	// least there is.
	Bound  int64
	Proved bool
}

// Drum is one drum or coil to buy or to take, or one piece by the metre.
type Drum struct {
	Offer  int   // index into the offers
	Pieces []int // indices into the pieces, longest first
	Length q.Metre
	Cut    q.Metre // sum of the pieces
}

// Left is what stays on the drum.
func (d Drum) Left() q.Metre { return d.Length - d.Cut }

// Spare is what stays on the drum as a share of its length; 0 for a piece that
// is bought at its own length.
func (d Drum) Spare() float64 {
	if d.Length <= 0 {
		return 0
	}
	return float64(d.Left() / d.Length)
}

// Bounds of what Best takes.
const (
	MaxPieces = 5000
	maxLength = q.Metre(10_000)
	maxCost   = int64(1) << 30
	maxOffers = 50
)

// resolution is the step to which lengths are taken: pieces are rounded up to
// it, drums down.
const resolution q.Metre = 0.001

// Best returns the plan of least cost for the pieces. Drums come largest
// offer first, then fullest; equal pieces are handed out in the order given,
// so the same input gives the same plan. Lengths are taken to the millimetre:
// pieces rounded up, drums down. It returns an error for a piece or an offer
// out of bounds and when an offer that is not limited in number is missing for
// some piece.
func Best(pieces []Piece, offers []Offer, opt Options) (Plan, error) {
	if err := checkInput(pieces, offers, opt); err != nil {
		return Plan{}, err
	}
	if len(pieces) == 0 {
		return Plan{Proved: true}, nil
	}
	p, err := newProblem(pieces, offers, opt)
	if err != nil {
		return Plan{}, err
	}
	best := p.greedy()
	bound := &bound{worth: make([]float64, len(p.sizes))}
	if opt.Effort >= 0 {
		bound = p.relax()
	}
	s := newSearch(p, best, bound, cmp.Or(opt.Effort, DefaultEffort))
	if opt.Effort >= 0 {
		s.run()
	}
	s.proved = s.proved || s.cost() <= s.boundCost()
	return p.plan(s, pieces, offers), nil
}

func checkInput(pieces []Piece, offers []Offer, opt Options) error {
	if len(pieces) > MaxPieces {
		return fmt.Errorf("cut: %d pieces, expected at most %d", len(pieces), MaxPieces)
	}
	if len(offers) == 0 || len(offers) > maxOffers {
		return fmt.Errorf("cut: %d offers, expected 1 to %d", len(offers), maxOffers)
	}
	if !(opt.Reserve >= 0 && opt.Reserve <= 0.5) {
		return fmt.Errorf("cut: reserve %v, expected 0 to 0.5", opt.Reserve)
	}
	for _, p := range pieces {
		if !(p.Length > 0 && p.Length <= maxLength) {
			return fmt.Errorf("cut: piece %q of %v m, expected more than 0 and at most %v m", p.Key, float64(p.Length), float64(maxLength))
		}
	}
	for _, o := range offers {
		switch {
		case !(o.Length >= 0 && o.Length <= maxLength):
			return fmt.Errorf("cut: offer %q of %v m, expected 0 to %v m", o.Key, float64(o.Length), float64(maxLength))
		case o.Cost < 0 || o.Cost > maxCost:
			return fmt.Errorf("cut: offer %q costs %d, expected 0 to %d", o.Key, o.Cost, maxCost)
		case o.Have < 0 || (o.Have > 0 && o.byMetre()):
			return fmt.Errorf("cut: offer %q: %d of them, expected 0 or more, and 0 when sold by the metre", o.Key, o.Have)
		case o.Have == 0 && o.Cost == 0:
			return fmt.Errorf("cut: offer %q costs nothing and there is no end of it; expected a cost or a number", o.Key)
		}
	}
	return nil
}

// plan writes what the search found in terms of the caller's pieces.
func (p *problem) plan(s *search, pieces []Piece, offers []Offer) Plan {
	out := Plan{Cost: s.cost(), Bound: s.boundCost(), Proved: s.proved}
	queue := make([][]int, len(p.sizes)) // pieces of each size, in order
	for i, of := range p.sizeOf {
		queue[of] = append(queue[of], i)
	}
	for _, pat := range s.best.patterns {
		d := Drum{Offer: pat.offer, Length: offers[pat.offer].Length}
		for size, n := range pat.counts {
			for range n {
				i := queue[size][0]
				queue[size] = queue[size][1:]
				d.Pieces = append(d.Pieces, i)
				d.Cut += pieces[i].Length
			}
		}
		if offers[pat.offer].byMetre() {
			d.Length = d.Cut
		}
		out.Drums = append(out.Drums, d)
	}
	slices.SortStableFunc(out.Drums, func(a, b Drum) int {
		drum := func(d Drum) q.Metre { return offers[d.Offer].Length }
		return cmp.Or(cmp.Compare(drum(b), drum(a)), cmp.Compare(a.Offer, b.Offer), cmp.Compare(b.Cut, a.Cut))
	})
	return out
}

// millimetres returns a length in whole steps of the resolution.
func millimetres(l q.Metre, up bool) int {
	v := float64(l / resolution)
	const noise = 1e-6
	if up {
		return int(math.Ceil(v - noise))
	}
	return int(math.Floor(v + noise))
}
