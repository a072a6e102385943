package layout

import (
	"math"
	"slices"
	"strconv"

	"duskwire/calc/check"
	"duskwire/calc/cut"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// CablePlan is out of which coils the pieces of one cable are cut.
type CablePlan struct {
	Cable, Name string
	Drums       []DrumCut
	Bought      q.Metre // length of the coils bought, and by the metre
	Left        q.Metre // what stays on coils bought
	// Priced says that Cost is known, in hundredths of the user's money.
	// Otherwise the plan is the one that buys least cable.
	Priced bool
	Cost   doc.Money
	// Proved says that no plan is better; else Bound is what none undercuts (in
	// centimetres bought when not priced).
	Proved bool
	Bound  int64
}

// DrumCut is one coil, leftover or piece bought at its own length with what is
// cut from it.
type DrumCut struct {
	Kind   DrumKind
	Length q.Metre
	Runs   []finding.Subject
	Cuts   []q.Metre // same order as Runs
}

// DrumKind is where the cable comes from.
type DrumKind int

const (
	Coil     DrumKind = iota
	AtHand            // a leftover
	ToLength          // bought at its own length
)

// Cut is the sum of the cuts.
func (d DrumCut) Cut() q.Metre {
	sum := q.Metre(0)
	for _, c := range d.Cuts {
		sum += c
	}
	return sum
}

// coilSizes are the lengths that cable is commonly sold in (25, 50 and 100 m;
// common practice, no source). They are taken where the user lists no others.
var coilSizes = []q.Metre{25, 50, 100}

const (
	cutStep      = 0.1   // metres: pieces are planned rounded up to it
	searchPieces = 300   // with more pieces of one cable only first fit is tried
	planEffort   = 5_000 // of the search: 11 ms for 10 pieces of one cable, 0.6 s for 100, 4 s for 300 at worst
	livePieces   = 40    // with more, a gesture goes on with the plan from before it
)

// planner works out the plans of a scheme; a cable whose input is as before
// keeps its plan.
type planner struct {
	last map[string]*planned // by cable; never changed
	// apart says that long cut lists are left to CutApart, behind that the last
	// call of plans returned one that is not of its input.
	apart, behind bool
}

// planned is a plan with all that it depends on.
type planned struct {
	lengths []*derive.Length
	price   doc.Price
	reserve float64
	plan    CablePlan
}

// plans returns one plan a cable, in the order of the cut list. Runs without a
// cable and without a length are left out. While a gesture is on (live), a long
// cut list keeps the plan it had, and so it does where a worker is to plan it.
func (p *planner) plans(lengths []derive.Length, prices []doc.Price, reserve float64, live bool) []CablePlan {
	var order []*planned
	next := map[string]*planned{}
	for i := range lengths {
		l := &lengths[i]
		if l.Name == "" || l.Cut <= 0 {
			continue
		}
		c := next[l.Cable]
		if c == nil {
			c = &planned{price: priceOf(prices, l.Cable), reserve: reserve}
			next[l.Cable], order = c, append(order, c)
		}
		c.lengths = append(c.lengths, l)
	}
	var out []CablePlan
	p.behind = false
	for _, c := range order {
		cable := c.price.Cable
		old, n := p.last[cable], len(c.lengths)
		switch {
		case old.holds(c):
			next[cable] = old
		case old != nil && (live && n > livePieces || p.apart && n > apartPieces):
			next[cable], p.behind = old, true
		case p.apart && n > apartPieces:
			out, p.behind = append(out, CablePlan{Cable: cable, Name: c.lengths[0].Name}), true
			delete(next, cable)
			continue
		default:
			c.plan = planCable(c.lengths, c.price, reserve)
		}
		out = append(out, next[cable].plan)
	}
	p.last = next
	return out
}

// holds reports whether the plan is still that of the input of another.
func (p *planned) holds(c *planned) bool {
	return p != nil && p.reserve == c.reserve && samePrice(p.price, c.price) &&
		slices.EqualFunc(p.lengths, c.lengths, func(a, b *derive.Length) bool {
			return a == b || a.Run == b.Run && a.Tag == b.Tag && a.Name == b.Name && a.Cut == b.Cut
		})
}

func samePrice(a, b doc.Price) bool {
	return a.Cable == b.Cable && a.Metre == b.Metre && slices.Equal(a.Coils, b.Coils) && slices.Equal(a.Left, b.Left)
}

// priceOf returns how a cable is had: as listed, or in the common coils
// without a price where no coil and no metre is.
func priceOf(prices []doc.Price, cable string) doc.Price {
	p := doc.Price{Cable: cable}
	if i := slices.IndexFunc(prices, func(p doc.Price) bool { return p.Cable == cable }); i >= 0 {
		p = prices[i]
	}
	if len(p.Coils) == 0 && !p.Metre.Known {
		for _, l := range coilSizes {
			p.Coils = append(p.Coils, doc.Coil{Length: l})
		}
	}
	return p
}

// planCable plans one cable. A plan that leaves the reserve on every coil is
// taken where it costs no more than one that does not.
func planCable(lengths []*derive.Length, price doc.Price, reserve float64) CablePlan {
	out := CablePlan{Cable: price.Cable, Name: lengths[0].Name}
	offers, priced := offersOf(price)
	out.Priced = priced
	longest := q.Metre(0)
	for i, o := range offers {
		if o.Have == 0 && (offers[i].Length > longest) {
			longest = offers[i].Length
		}
	}
	pieces := make([]cut.Piece, 0, len(lengths))
	at := make([]int, 0, len(lengths)) // index of each piece in lengths
	for i, l := range lengths {
		step := q.Metre(math.Ceil(float64(l.Cut)/cutStep-1e-6) * cutStep)
		if !price.Metre.Known && step > longest {
			out.Drums = append(out.Drums, DrumCut{ToLength, l.Cut, []finding.Subject{subject(l)}, []q.Metre{l.Cut}})
			out.Bought += l.Cut
			out.Priced = false // nobody said what it costs
			continue
		}
		pieces, at = append(pieces, cut.Piece{Key: l.Tag, Length: step}), append(at, i)
	}
	opt := cut.Options{Effort: planEffort}
	if len(pieces) > searchPieces {
		opt.Effort = -1
	}
	plan, err := cut.Best(pieces, offers, opt)
	if err != nil {
		// More than can be planned, or than is bought for a garden.
		return CablePlan{Cable: out.Cable, Name: out.Name}
	}
	opt.Reserve = reserve
	if roomy, err := cut.Best(pieces, offers, opt); err == nil && roomy.Cost <= plan.Cost {
		roomy.Proved, roomy.Bound = plan.Proved, plan.Bound
		plan = roomy
	}
	out.Proved, out.Bound = plan.Proved, plan.Bound
	if out.Priced {
		out.Cost = doc.Money(plan.Cost)
	}
	for _, d := range plan.Drums {
		out.add(d, offers[d.Offer], lengths, at)
	}
	return out
}

// add takes one drum of a plan over.
func (c *CablePlan) add(d cut.Drum, o cut.Offer, lengths []*derive.Length, at []int) {
	cutOf := DrumCut{Length: o.Length, Runs: make([]finding.Subject, 0, len(d.Pieces)), Cuts: make([]q.Metre, 0, len(d.Pieces))}
	for _, i := range d.Pieces {
		l := lengths[at[i]]
		cutOf.Runs = append(cutOf.Runs, subject(l))
		cutOf.Cuts = append(cutOf.Cuts, l.Cut)
	}
	switch {
	case o.Length == 0:
		cutOf.Kind, cutOf.Length = ToLength, cutOf.Cut()
		c.Bought += cutOf.Length
	case o.Have > 0:
		cutOf.Kind = AtHand
	default:
		c.Bought += o.Length
		c.Left += o.Length - cutOf.Cut()
	}
	c.Drums = append(c.Drums, cutOf)
}

func subject(l *derive.Length) finding.Subject {
	return finding.Subject{ID: string(l.Run), Label: l.Tag}
}

// offersOf returns the offers for a cable. Without prices the cost of a coil
// is its length in centimetres, so that least cable is bought.
func offersOf(price doc.Price) (offers []cut.Offer, priced bool) {
	priced = true
	for i, c := range price.Coils {
		o := cut.Offer{Key: "coil " + strconv.Itoa(i+1), Length: c.Length, Cost: int64(math.Round(float64(c.Length) * 100))}
		if c.Price.Known {
			o.Cost = int64(c.Price.Value)
		}
		priced = priced && c.Price.Known
		offers = append(offers, o)
	}
	if price.Metre.Known {
		offers = append(offers, cut.Offer{Key: "by the metre", Cost: int64(price.Metre.Value)})
	}
	for i, l := range price.Left {
		offers = append(offers, cut.Offer{Key: "left " + strconv.Itoa(i+1), Length: l, Have: 1})
	}
	return offers, priced
}

// drums asks of every coil and leftover of the plans whether it leaves
// anything spare.
func drums(plans []CablePlan, rules *check.Rules) []finding.Finding {
	var uses []check.DrumUse
	for _, p := range plans {
		for _, d := range p.Drums {
			if d.Kind != ToLength {
				uses = append(uses, check.DrumUse{Cable: p.Name, Drum: d.Length, Cut: d.Cut(), Runs: d.Runs})
			}
		}
	}
	return check.Drums(uses, rules.Limits)
}
