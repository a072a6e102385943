package doc

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	q "duskwire/calc/quantity"
)

// Bounds of how cable is bought.
const (
	LongestCoil = q.Metre(1000)
	MostOffers  = 40 // coils and leftovers of one cable
)

func (r *report) running(v *Running) {
	r.name = "running"
	known(r, "latitude", v.Latitude, -90, 90, "°")
	known(r, "longitude", v.Longitude, -180, 180, "°")
	r.decimals("latitude", float64(v.Latitude.Value), 6)
	r.decimals("longitude", float64(v.Longitude.Value), 6)
	r.decimals("tariff", float64(v.Tariff.Value), 2)
	r.decimals("ahead", float64(v.Ahead.Value), 2)
	if t := v.Tariff; t.Known && !(t.Value > 0 && t.Value <= 100000) {
		r.add("tariff", plain(float64(t.Value)/100), "a price of one kWh of more than 0 and at most 1000")
	}
	known(r, "ahead", v.Ahead, -14, 14, " h")
	if v.Summer != "" {
		r.oneOf("summer", v.Summer, SummerTimes)
	}
	for i, o := range v.Off {
		r.off("off["+strconv.Itoa(i+1)+"]", o, true)
	}
}

// off checks a time of going out, or one that is not said.
func (r *report) off(field string, o Off, dawn bool) {
	switch {
	case o.Dawn && !dawn:
		r.add(field, "dawn", "a time of the day")
	case o.Minute < 0 || o.Minute >= 24*60 || (o.Dawn || !o.Set) && o.Minute != 0 || o.Dawn && !o.Set:
		r.add(field, strconv.Itoa(o.Minute)+" minutes", "a time of the day")
	}
}

// decimals checks that a number can be written with so many decimals.
func (r *report) decimals(field string, v float64, n int) {
	if k := math.Pow10(n); v != math.Round(v*k)/k && v == v {
		r.add(field, plain(v), "at most "+strconv.Itoa(n)+" decimals")
	}
}

// prices checks what can be told of prices without the stock book.
func (r *report) prices(s *Scheme) {
	seen := map[string]bool{}
	for i := range s.Prices {
		p := &s.Prices[i]
		r.name = "price " + strconv.Itoa(i+1)
		r.word("cable", p.Cable)
		if seen[p.Cable] {
			r.add("cable", strconv.Quote(p.Cable)+" a second time", "every cable once")
		}
		seen[p.Cable] = true
		if found, expected := p.Fault(); found != "" {
			r.add("", found, expected)
		}
		for k, c := range p.Coils {
			r.coil(fmt.Sprintf("coils[%d].length", k+1), c.Length)
			r.money(fmt.Sprintf("coils[%d].price", k+1), c.Price)
		}
		for k, l := range p.Left {
			r.coil(fmt.Sprintf("left[%d]", k+1), l)
		}
		r.money("metre", p.Metre)
	}
	r.name = "price_list"
	if strings.TrimSpace(s.List.Currency) != s.List.Currency {
		r.add("currency", strconv.Quote(s.List.Currency), "a word without spaces about it")
	}
	if s.List.Currency != "" {
		r.word("currency", s.List.Currency)
		if strings.ContainsFunc(s.List.Currency, func(c rune) bool { return !unicode.IsPrint(c) }) {
			r.add("currency", "a letter that cannot be seen", "a word")
		}
	}
	if h := s.List.Hours; h != (Span{}) && !(h.Low > 0 && h.High >= h.Low && h.High <= mostHours) {
		r.add("hours", h.String(), "hours of more than 0, the low number first")
	}
	r.decimals("hours", s.List.Hours.Low, 2)
	r.decimals("hours", s.List.Hours.High, 2)
	if n := len(s.List.Items); n > MostPrices {
		r.add("items", strconv.Itoa(n), "at most "+strconv.Itoa(MostPrices))
	}
	r.items(s.List.Items)
}

func (r *report) items(items []ItemPrice) {
	for i, p := range items {
		r.part, r.nth = "items", i+1
		if !slices.Contains(PriceGroups, p.Group) {
			r.add("group", strconv.Quote(p.Group), "one of "+strings.Join(PriceGroups, ", "))
		}
		r.word("item", p.Item)
		if !(p.Band.Low > 0 && p.Band.High >= p.Band.Low && p.Band.High <= Dearest) {
			r.add("low", p.Band.String(), "amounts of more than 0, the low one first")
		}
		if i > 0 && compareItems(items[i-1], p) >= 0 {
			r.add("item", strconv.Quote(p.Item), "every thing once, in the order of the groups and keys")
		}
	}
	r.part, r.nth = "", 0
}

func (r *report) coil(field string, l q.Metre) {
	if !(l > 0 && l <= LongestCoil) {
		r.add(field, plain(float64(l))+" m", "a length of more than 0 and at most "+LongestCoil.String())
	}
}

func (r *report) money(field string, m q.Maybe[Money]) {
	if m.Known && !(m.Value > 0 && m.Value <= Dearest && m.Value == Money(math.Round(float64(m.Value)))) {
		r.add(field, m.Value.String(), "an amount of more than 0 and at most "+Dearest.String())
	}
}

// Fault says what makes the offers of one cable no price list; "" for nothing.
func (p *Price) Fault() (found, expected string) {
	priced := 0
	for _, c := range p.Coils {
		if c.Price.Known {
			priced++
		}
	}
	switch {
	case (priced != 0 || p.Metre.Known) && priced != len(p.Coils):
		return "a price for some of what is on sale", "a price for all of it or for none"
	case len(p.Coils)+len(p.Left) > MostOffers:
		return strconv.Itoa(len(p.Coils)+len(p.Left)) + " coils and leftovers", "at most " + strconv.Itoa(MostOffers)
	}
	return "", ""
}
