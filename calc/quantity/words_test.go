package quantity_test

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
)

func TestWords(t *testing.T) {
	for _, c := range []struct {
		text string
		want string // the words, parted by |
	}{
		{"", ""},
		{"found 16 m, expected 12.5 m", "found|16 m,|expected|12.5 m"},
		{"16 / m of cable", "16 / m|of|cable"},
		{"18.5 m more of 3 × 1.5 mm² (at 90 °C)", "18.5 m|more|of|3 × 1.5 mm²|(at|90 °C)"},
		{"loses 0.51 V of 12 V (4.26 %).", "loses|0.51 V|of|12 V|(4.26 %)."},
		{"in 2 lamps a half", "in|2|lamps|a|half"},
		{"2 × 2.5 mm², a × b", "2 × 2.5 mm²,|a|×|b"},
		{"leg 1 of R9", "leg|1|of|R9"},
		{"a mm of V", "a|mm|of|V"},
		{"600\n mm", "600 mm"},
	} {
		if got := strings.Join(q.Words(c.text), "|"); got != c.want {
			t.Errorf("%q: %s, expected %s", c.text, got, c.want)
		}
	}
}
