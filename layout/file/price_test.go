package file

import (
	"reflect"
	"strings"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
)

const priced = `duskwire: 1
rules: uk-18
prices:
  - cable: swa-3x1.5
    coils:
      - {length: 25 m, price: 31.5}
      - {length: 100 m, price: 110}
    metre: 1.45
    left: [8.4 m, 12 m]
`

// TestPrices: what is read is what was written, and writing keeps it.
func TestPrices(t *testing.T) {
	stock := doc.Stock{Cables: []*network.Cable{{Key: "swa-3x1.5"}, {Key: "elv-2x2.5"}}}
	s, err := ReadScheme("p", []byte(priced), stock)
	if err != nil {
		t.Fatal(err)
	}
	p := s.Prices[0]
	if p.Coils[0].Price.Value != 3150 || p.Coils[1].Length != 100 || p.Metre.Value != 145 || len(p.Left) != 2 || p.Left[0] != 8.4 {
		t.Errorf("read %+v", p)
	}
	text, err := WriteScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	again, err := ReadScheme("p", text, stock)
	if err != nil || !reflect.DeepEqual(again.Prices, s.Prices) {
		t.Errorf("written %s\nread again %v", text, err)
	}
}

// TestPricesRefused: every mistake is told with its line.
func TestPricesRefused(t *testing.T) {
	stock := doc.Stock{Cables: []*network.Cable{{Key: "swa-3x1.5"}}}
	for _, c := range []struct{ was, is, says string }{
		{"31.5", "31.555", "p:6:"},
		{"31.5", "-3", "an amount such as 31.50"},
		{"31.5", "1e3", "an amount such as 31.50"},
		{", price: 31.5", "", "for all of it or for none"},
		{"swa-3x1.5", "swa-3x1", "the key of a cable"},
		{"25 m", "0 m", "more than 0"},
		{"metre", "meter", "meter"},
		{"12 m", "12", "p:9:"},
		{"[8.4 m, 12 m]\n", "[8 m]\n  - cable: swa-3x1.5\n", "every cable once"},
	} {
		text := strings.Replace(priced, c.was, c.is, 1)
		if _, err := ReadScheme("p", []byte(text), stock); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q for %q: error %v, want it to say %q", c.is, c.was, err, c.says)
		}
	}
}
