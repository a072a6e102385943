package doc

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	q "duskwire/calc/quantity"
)

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

// Bounds of money.
const (
	Dearest = Money(10_000_000) // 100,000.00
	// MostPrices is how many things a price list may hold.
	MostPrices = 2000
)

// String writes an amount with two decimals and without a sign for the money,
// "31.50".
func (m Money) String() string { return strconv.FormatFloat(float64(m)/100, 'f', 2, 64) }

// ParseMoney reads an amount such as 31.50: more than 0, at most 100,000, at
// most two decimals, no sign for the money.
func ParseMoney(text string) (Money, error) {
	v, err := plainAmount(text, 2)
	m := Money(math.Round(v * 100))
	if err != nil || !(m > 0 && m <= Dearest) {
		return 0, errors.New("found " + strconv.Quote(Short(text)) + ", expected an amount such as 31.50, more than 0 and at most 100000")
	}
	return m, nil
}

// plainAmount reads digits with a point and at most so many decimals.
func plainAmount(text string, most int) (float64, error) {
	_, decimals, _ := strings.Cut(text, ".")
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || len(decimals) > most || len(text) > 20 || strings.Trim(text, "0123456789.") != "" {
		return 0, strconv.ErrSyntax
	}
	return v, nil
}

// Band is what something costs at least and at most.
type Band struct{ Low, High Money }

// String writes "18.50 to 24.00", or one amount when both are the same.
func (b Band) String() string {
	if b.Low == b.High {
		return b.Low.String()
	}
	return b.Low.String() + " to " + b.High.String()
}

// ParseBand reads "18.50 to 24", with a hyphen or a dash for "to", or one
// amount that is both.
func ParseBand(text string) (Band, error) {
	low, high, two := strings.Cut(strings.NewReplacer("–", " to ", "-", " to ").Replace(text), "to")
	if !two {
		high = low
	}
	l, err := ParseMoney(strings.TrimSpace(low))
	h, err2 := ParseMoney(strings.TrimSpace(high))
	if err != nil || err2 != nil || h < l {
		return Band{}, errors.New("found " + strconv.Quote(Short(text)) + ", expected an amount such as 31.50, or a low and a high one such as 28 to 35")
	}
	return Band{l, h}, nil
}

// Add returns the sum of two bands.
func (b Band) Add(o Band) Band { return Band{b.Low + o.Low, b.High + o.High} }

// Times returns the band of so many, in whole hundredths.
func (b Band) Times(n float64) Band {
	return Band{Money(math.Round(float64(b.Low) * n)), Money(math.Round(float64(b.High) * n))}
}

// PriceList is what the user asks for what is built: things of the stock book,
// glands, what lies along the way and labour.
type PriceList struct {
	Currency string // a word, "pounds"; "" not said
	// Hours is how long the work takes beside the digging, at least and at most;
	// the zero value is not said.
	Hours Span
	Items []ItemPrice // in the order of their groups, then of their keys
}

// Span is a number of hours, at least and at most.
type Span struct{ Low, High float64 }

// String writes "16 to 24 h".
func (s Span) String() string {
	if s.Low == s.High {
		return plain(s.Low) + " h"
	}
	return plain(s.Low) + " to " + plain(s.High) + " h"
}

// ParseSpan reads "16 to 24 h", or one number of hours that is both.
func ParseSpan(text string) (Span, error) {
	bare := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "h"))
	low, high, two := strings.Cut(strings.NewReplacer("–", " to ", "-", " to ").Replace(bare), "to")
	if !two {
		high = low
	}
	l, err := plainAmount(strings.TrimSpace(low), 2)
	h, err2 := plainAmount(strings.TrimSpace(high), 2)
	if err != nil || err2 != nil || !(l > 0 && h >= l && h <= mostHours) {
		return Span{}, errors.New("found " + strconv.Quote(Short(text)) + ", expected hours such as 16 to 24, or one number")
	}
	return Span{l, h}, nil
}

const mostHours = 10000

// ItemPrice is the price of one thing.
type ItemPrice struct {
	Group string // one of PriceGroups
	Item  string // stock key, or what the group says
	Band  Band   // of one, of one metre, of one cubic metre of sand, of one hour
}

// PriceGroups are the groups of a price list, in its order. Items of lamp,
// source, box, gear, device and cable are stock keys; cable is by the metre. A
// gland is "M20" (for round cable) or kind and size, "CW 20".
var PriceGroups = []string{"lamp", "source", "box", "gear", "device", "cable", "gland", "way", "labour"}

// PriceWays and PriceLabours are the items of those groups, with the unit that
// one price is for.
var (
	PriceWays    = []PriceUnit{{"clip", "each", "Clip or cleat"}, {"duct", "m", "Duct with draw cord"}, {"sand", "m³", "Soft sand"}, {"sleeve", "m", "Sleeve or conduit"}, {"tape", "m", "Marker tape"}}
	PriceLabours = []PriceUnit{{"dig", "m", "Trench dug and filled"}, {"hand dig", "m", "Trench by hand among roots"}, {"hour", "h", "Work beside the digging"}}
)

// PriceUnit is an item that is no stock item.
type PriceUnit struct{ Item, Unit, Name string }

// Of returns the price of a thing.
func (l *PriceList) Of(group, item string) (Band, bool) {
	i, ok := slices.BinarySearchFunc(l.Items, ItemPrice{Group: group, Item: item}, compareItems)
	if !ok {
		return Band{}, false
	}
	return l.Items[i].Band, true
}

// With returns the list with other prices for some things; a band of zero takes
// the price away.
func (l PriceList) With(items ...ItemPrice) PriceList {
	out := slices.Clone(l.Items)
	for _, p := range items {
		i, ok := slices.BinarySearchFunc(out, p, compareItems)
		switch {
		case p.Band == Band{} && ok:
			out = slices.Delete(out, i, i+1)
		case p.Band == Band{}:
		case ok:
			out[i] = p
		default:
			out = slices.Insert(out, i, p)
		}
	}
	l.Items = out
	return l
}

// compareItems orders by group, then by key.
func compareItems(a, b ItemPrice) int {
	if n := slices.Index(PriceGroups, a.Group) - slices.Index(PriceGroups, b.Group); n != 0 {
		return n
	}
	return strings.Compare(a.Item, b.Item)
}

// Equal reports whether two lists say the same.
func (l *PriceList) Equal(o *PriceList) bool {
	return l.Currency == o.Currency && l.Hours == o.Hours && slices.Equal(l.Items, o.Items)
}

// PriceKeys returns the items that a group may hold; nil for glands, whose sizes
// are in the tables, see PriceItem.
func (s Stock) PriceKeys(group string) []string {
	switch group {
	case "lamp":
		return s.Keys(LampKind)
	case "source":
		return s.Keys(SourceKind)
	case "box":
		return s.Keys(BoxKind)
	case "gear":
		return s.Keys(GearKind)
	case "cable":
		return s.Keys(RunKind)
	case "device":
		return keysOf(s.Devices, func(i DeviceStock) string { return i.Key })
	case "way":
		return keysOf(PriceWays, func(u PriceUnit) string { return u.Item })
	case "labour":
		return keysOf(PriceLabours, func(u PriceUnit) string { return u.Item })
	}
	return nil
}

// PriceItem reports what is wrong with an item of a price list: "" when it is
// one, else what was expected.
func (s Stock) PriceItem(group, item string) string {
	switch {
	case !slices.Contains(PriceGroups, group):
		return "one of the groups " + strings.Join(PriceGroups, ", ")
	case group == "gland":
		kind, size, ok := strings.Cut(item, " ")
		if item == RoundGland || ok && slices.Contains(Glands, kind) && glandSize(size) {
			return ""
		}
		return RoundGland + `, or kind and size of a gland such as "CW 20"`
	case slices.Contains(s.PriceKeys(group), item):
		return ""
	case group == "way" || group == "labour":
		return "one of " + strings.Join(s.PriceKeys(group), ", ")
	}
	return "the key of a " + group + " in the stock book"
}

// glandSize reports whether a text may be the size of a gland: a short word.
func glandSize(size string) bool {
	return size != "" && len(size) <= longGland && !strings.ContainsFunc(size, func(c rune) bool { return c == ' ' || !unicode.IsPrint(c) })
}

const longGland = 20

// RoundGland is the gland of round cable without armour in a price list.
const RoundGland = "M20"

// PriceName returns what people call an item of a price list, its key when the
// stock book has no name, and the unit that one price is for.
func (s *Stock) PriceName(group, item string) (name, unit string) {
	unit = "each"
	switch group {
	case "lamp":
		i, _ := s.Lamp(item)
		name = i.Name
	case "source":
		i, _ := s.Converter(item)
		name = i.Name
	case "box":
		i, _ := s.Box(item)
		name = i.Name
	case "gear":
		i, _ := s.GearItem(item)
		name = i.Name
	case "device":
		if i, ok := s.Device(item); ok { // that of a spur
			name = "Fused connection unit with " + i.Name
		}
	case "cable":
		if c, ok := s.Cable(item); ok {
			name = c.Name
		}
		unit = "m"
	case "gland":
		name = "Gland " + item
	}
	for _, list := range [][]PriceUnit{PriceWays, PriceLabours} {
		for _, u := range list {
			if u.Item == item && (group == "way" || group == "labour") {
				name, unit = u.Name, u.Unit
			}
		}
	}
	if name == "" {
		name = item
	}
	return name, unit
}
