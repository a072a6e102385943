package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// units are the words behind a number that it must not be parted from at the end
// of a line: of the quantities of this package, of those made of them and of money.
var units = map[string]bool{}

func init() {
	for _, u := range strings.Fields("V mV kV A mA kA W mW kW VA mVA kVA var Ω mΩ kΩ MΩ Wh kWh A²s kA²s J " +
		"m mm cm km µm mm² cm² m² m³ l lx klx lm klm cd cd/m² % °C K h s ms µs min Hz kHz ° kg g " +
		"Ω/m mΩ/m Ω/km mV/A/m K·m/W A/mm² W/m lm/W mA/lamp kg/m €/m £/m € £ $") {
		units[u] = true
	}
}

// Held reports whether a line must not end between two words: between a number and
// its unit, as in "16 m" and "16 / m", and beside the sign between two numbers, as in
// "3 × 1.5 mm²".
func Held(before, after string) bool {
	unit := strings.TrimRightFunc(after, func(r rune) bool { return strings.ContainsRune(".,;:)]!?…", r) })
	if before == "/" {
		return units[unit]
	}
	last, _ := utf8.DecodeLastRuneInString(before)
	first, _ := utf8.DecodeRuneInString(after)
	if after == "×" && unicode.IsDigit(last) || before == "×" && unicode.IsDigit(first) {
		return true
	}
	return unicode.IsDigit(last) && (units[unit] || after == "/") || units[before] && after == "/"
}

// Words splits a text at its spaces as strings.Fields does, but leaves a number and
// its unit together, with one space between them.
func Words(s string) (out []string) {
	last := ""
	for _, w := range strings.Fields(s) {
		if n := len(out); n > 0 && Held(last, w) {
			out[n-1] += " " + w
		} else {
			out = append(out, w)
		}
		last = w
	}
	return out
}
