package panel

import (
	"fmt"
	"strconv"
	"strings"
)

// longestBare is the longest length that a bare number may mean: 600 in a
// field for a depth is more likely millimetres than metres, so it is asked.
const longestBare = 100

// WithUnit returns the text as it is to be parsed in a field that names its
// unit: a bare number gets the unit, a decimal comma becomes a point, and
// everything else stays. A length over 100 stays bare, and so is refused,
// because it may have been meant in millimetres.
func WithUnit(text, unit string) string {
	s := strings.TrimSpace(text)
	if strings.Count(s, ",") == 1 && !strings.Contains(s, ".") {
		s = strings.Replace(s, ",", ".", 1)
	}
	size := len(s) - len(afterNumber(s))
	v, err := strconv.ParseFloat(s[:size], 64)
	switch rest := afterNumber(s); {
	case err != nil:
		return text
	case rest != "" || unit == "" || unit == "m" && v > longestBare:
		return s
	}
	return s + " " + unit
}

// bareLength refuses the length that WithUnit left bare, and says why.
func bareLength(text, unit string) error {
	v, err := strconv.ParseFloat(text, 64)
	if unit != "m" || err != nil || v <= longestBare {
		return nil
	}
	return fmt.Errorf("found %q, expected a length of at most %d m where no unit stands behind it; write m or mm behind a longer one", text, longestBare)
}

// afterNumber returns what follows the number that a text begins with.
func afterNumber(s string) string { return strings.TrimLeft(s, "+-0123456789.") }

// unitOf returns the unit that a value is shown in: "Ω" of "0.35 Ω".
func unitOf(shown string) string {
	rest := afterNumber(shown)
	if len(rest) == len(shown) {
		return ""
	}
	return strings.TrimSpace(rest)
}
