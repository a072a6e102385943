package doc

import (
	"errors"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
)

// Offers writes how a cable can be had in one line: "25 m at 31.50, 100 m at
// 110.00, metre at 1.45, left 8.4 m"; coils without a price have no "at".
func (p *Price) Offers() string {
	var parts []string
	for _, c := range p.Coils {
		s := plain(float64(c.Length)) + " m"
		if c.Price.Known {
			s += " at " + c.Price.Value.String()
		}
		parts = append(parts, s)
	}
	if p.Metre.Known {
		parts = append(parts, "metre at "+p.Metre.Value.String())
	}
	for _, l := range p.Left {
		parts = append(parts, "left "+plain(float64(l))+" m")
	}
	return strings.Join(parts, ", ")
}

// ParseOffers reads what Offers writes; a length without a unit is in metres, and
// an empty text says nothing about the cable.
func ParseOffers(cable, text string) (Price, error) {
	p := Price{Cable: cable}
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		if err := p.offer(part); err != nil {
			return Price{}, err
		}
	}
	if found, expected := p.Fault(); found != "" {
		return Price{}, errors.New("found " + found + ", expected " + expected)
	}
	return p, nil
}

// offer takes one part of the line in.
func (p *Price) offer(part string) error {
	wrong := errors.New("found " + strconv.Quote(Short(part)) + ", expected parts such as 25 m at 31.50, metre at 1.45, left 8.4 m")
	what, price, priced := strings.Cut(part, " at ")
	var money q.Maybe[Money]
	if priced {
		m, err := ParseMoney(strings.TrimSpace(price))
		if err != nil {
			return err
		}
		money = q.Some(m)
	}
	what = strings.TrimSpace(what)
	if what == "metre" && priced && !p.Metre.Known {
		p.Metre = money
		return nil
	}
	length, left := strings.CutPrefix(what, "left ")
	if left && priced {
		return wrong
	}
	length = strings.TrimSpace(length)
	if _, err := strconv.ParseFloat(length, 64); err == nil {
		length += " m"
	}
	l, err := q.ParseMetre(length)
	if err != nil || !(l > 0 && l <= LongestCoil) {
		return wrong
	}
	if left {
		p.Left = append(p.Left, l)
	} else {
		p.Coils = append(p.Coils, Coil{Length: l, Price: money})
	}
	return nil
}
