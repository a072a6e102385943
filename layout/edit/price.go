package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// SetPrice gives one thing of the price list a price; a band of zero takes its
// price away.
type SetPrice struct{ Price doc.ItemPrice }

// Name implements Operation.
func (o SetPrice) Name() string { return "Change price of " + o.Price.Item }

// Apply implements Operation.
func (o SetPrice) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.List = s.List.With(o.Price) })
}

// ImportPrices takes many prices into the list in one step. What the list has
// beside them stays.
type ImportPrices struct{ Items []doc.ItemPrice }

// Name implements Operation.
func (o ImportPrices) Name() string { return "Import prices" }

// Apply implements Operation.
func (o ImportPrices) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.List = s.List.With(o.Items...) })
}

// SetPriceList changes what belongs to the price list as a whole: the word for
// the money and the hours of work. The prices in it stay.
type SetPriceList struct{ List doc.PriceList }

// Name implements Operation.
func (o SetPriceList) Name() string { return "Change price list" }

// Apply implements Operation.
func (o SetPriceList) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.List.Currency, n.List.Hours = o.List.Currency, o.List.Hours })
}

// SetCablePrice says how one cable can be had: coils, by the metre, leftovers.
// One of which nothing is said is taken off the list.
type SetCablePrice struct{ Price doc.Price }

// Name implements Operation.
func (o SetCablePrice) Name() string { return "Change how " + o.Price.Cable + " is bought" }

// Apply implements Operation.
func (o SetCablePrice) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) {
		p := o.Price
		p.Coils, p.Left = slices.Clone(p.Coils), slices.Clone(p.Left)
		i := slices.IndexFunc(s.Prices, func(old doc.Price) bool { return old.Cable == p.Cable })
		switch bare := len(p.Coils)+len(p.Left) == 0 && !p.Metre.Known; {
		case i < 0 && bare:
		case i < 0:
			n.Prices = append(slices.Clone(s.Prices), p)
		case bare:
			n.Prices = slices.Delete(slices.Clone(s.Prices), i, i+1)
		default:
			n.Prices = slices.Clone(s.Prices)
			n.Prices[i] = p
		}
	})
}

// SetRunning changes what the cost of running the lights depends on: latitude,
// longitude, tariff, clock and the times of switching off.
type SetRunning struct{ Running doc.Running }

// Name implements Operation.
func (o SetRunning) Name() string { return "Change running cost" }

// Apply implements Operation.
func (o SetRunning) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Running = o.Running })
}
