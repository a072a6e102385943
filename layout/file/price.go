package file

import (
	"math"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// Bounds of a price list.
const (
	dearest     = 100000.0 // of the user's money
	longestCoil = q.Metre(1000)
	mostOffers  = 40 // coils and leftovers of one cable
)

// readPrices reads the prices section: what each cable costs and what of it is
// at hand. A cable may be listed once, and must be in the stock book.
func readPrices(list []node, stock doc.Stock) []doc.Price {
	var out []doc.Price
	seen := map[string]bool{}
	for i, n := range list {
		o := n.within("price " + strconv.Itoa(i+1)).object()
		p := doc.Price{Cable: o.needText("cable"), Metre: money(o, "metre")}
		known := false
		var keys []string
		for k := range stock.Cables {
			known = known || stock.Cables[k].Key == p.Cable
			keys = append(keys, stock.Cables[k].Key)
		}
		switch c := o.get("cable"); {
		case c.present() && p.Cable != "" && !known:
			c.failHint(c.found(), "the key of a cable in the stock book", nearest(p.Cable, keys))
		case c.present() && seen[p.Cable]:
			c.fail(c.found()+" a second time", "every cable once")
		}
		seen[p.Cable] = true
		priced := 0
		for _, c := range o.list("coils") {
			co := c.object()
			if co.has("price") {
				priced++
			}
			p.Coils = append(p.Coils, doc.Coil{Length: coilLength(co.need("length", "a length such as 50 m")), Price: money(co, "price")})
			co.done()
		}
		for _, l := range o.list("left") {
			p.Left = append(p.Left, coilLength(l))
		}
		checkPrice(o, &p, priced)
		o.done()
		out = append(out, p)
	}
	return out
}

// checkPrice reports what makes the offers of one cable no price list; priced
// is how many of its coils have a price.
func checkPrice(o *object, p *doc.Price, priced int) {
	switch {
	case o.y == nil:
	case (priced != 0 || p.Metre.Known) && priced != len(p.Coils):
		o.fail("a price for some of what is on sale", "a price for all of it or for none")
	case len(p.Coils)+len(p.Left) > mostOffers:
		o.fail(strconv.Itoa(len(p.Coils)+len(p.Left))+" coils and leftovers", "at most "+strconv.Itoa(mostOffers))
	}
}

func coilLength(n node) q.Metre {
	l := quantity(n, q.ParseMetre)
	if n.present() && !(l > 0 && l <= longestCoil) {
		n.fail(n.found(), "a length of more than 0 and at most "+longestCoil.String())
	}
	return l
}

// money reads an amount such as 31.50, without a sign for the money; it is
// more than 0 and has at most two decimals.
func money(o *object, key string) q.Maybe[doc.Money] {
	n := o.get(key)
	const expected = "an amount such as 31.50"
	text, ok := n.scalar(expected)
	if !ok {
		return q.Maybe[doc.Money]{}
	}
	_, decimals, _ := strings.Cut(text, ".")
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(v > 0 && v <= dearest) || len(decimals) > 2 || strings.Trim(text, "0123456789.") != "" {
		n.fail(n.found(), expected+", more than 0 and at most "+plainFloat(dearest))
		return q.Maybe[doc.Money]{}
	}
	return q.Some(doc.Money(math.Round(v * 100)))
}
