package doc

import q "duskwire/calc/quantity"

// Price is how one cable can be had: coils on sale, by the metre, and what is
// left over from other jobs. Either everything on sale has a price or nothing.
type Price struct {
	Cable string // stock key
	Coils []Coil
	Metre q.Maybe[Money] // of one metre; unknown when it is not sold so
	Left  []q.Metre      // lengths at hand, which cost nothing
}

// Coil is one length on sale.
type Coil struct {
	Length q.Metre
	Price  q.Maybe[Money]
}

// Money is an amount in whole hundredths of the user's own money.
type Money float64
