package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// unit is one accepted spelling of a unit and its size in the SI unit.
type unit struct {
	name  string
	scale float64
}

// kind describes how one quantity is read: its name for messages and the
// spellings accepted. The first spelling is the one String writes.
type kind struct {
	name  string
	units []unit
}

var (
	volts        = kind{"voltage", []unit{{"V", 1}, {"mV", 1e-3}, {"kV", 1e3}}}
	amperes      = kind{"current", []unit{{"A", 1}, {"mA", 1e-3}, {"kA", 1e3}}}
	ohms         = kind{"resistance", []unit{{"Ω", 1}, {"ohm", 1}, {"mΩ", 1e-3}, {"mohm", 1e-3}, {"kΩ", 1e3}}}
	ohmsPerMetre = kind{"resistance per length", []unit{{"mΩ/m", 1e-3}, {"mohm/m", 1e-3}, {"Ω/km", 1e-3}, {"ohm/km", 1e-3}, {"Ω/m", 1}}}
	watts        = kind{"power", []unit{{"W", 1}, {"mW", 1e-3}, {"kW", 1e3}}}
	voltAmperes  = kind{"apparent power", []unit{{"VA", 1}, {"kVA", 1e3}}}
	metres       = kind{"length", []unit{{"m", 1}, {"mm", 1e-3}, {"cm", 1e-2}, {"km", 1e3}}}
	squareMetres = kind{"area", []unit{{"mm²", 1e-6}, {"mm2", 1e-6}, {"m²", 1}, {"m2", 1}}}
	seconds      = kind{"time", []unit{{"s", 1}, {"ms", 1e-3}}}
	soils        = kind{"soil resistivity", []unit{{"K·m/W", 1}, {"K.m/W", 1}}}
	lumens       = kind{"luminous flux", []unit{{"lm", 1}, {"klm", 1e3}}}
	candelas     = kind{"luminous intensity", []unit{{"cd", 1}, {"kcd", 1e3}}}
	celsius      = kind{"temperature", []unit{{"°C", 1}, {"C", 1}}}
)

// Error says what text was found where a quantity was expected.
type Error struct {
	Found string   // the text as given
	Kind  string   // "voltage", "length" ...
	Units []string // spellings that are accepted; none for a plain number
}

// Error implements error.
func (e *Error) Error() string {
	article := "a"
	if strings.HasPrefix(e.Kind, "a") {
		article = "an"
	}
	switch len(e.Units) {
	case 0:
		return fmt.Sprintf("found %q, expected %s %s", e.Found, article, e.Kind)
	case 1:
		return fmt.Sprintf("found %q, expected %s %s with the unit %s", e.Found, article, e.Kind, e.Units[0])
	}
	return fmt.Sprintf("found %q, expected %s %s with one of the units %s", e.Found, article, e.Kind, strings.Join(e.Units, ", "))
}

// parse reads a decimal number followed by one of the kind's units. A bare
// number is refused: a figure without a unit is how a drawing goes wrong.
func parse(text string, k kind) (float64, error) {
	s := strings.TrimSpace(text)
	end := 0
	for end < len(s) && ofNumber(s[end]) {
		end++
	}
	number, err := strconv.ParseFloat(s[:end], 64)
	if err != nil || math.IsNaN(number) || math.IsInf(number, 0) {
		return 0, unread(text, k)
	}
	name := strings.TrimSpace(s[end:])
	for _, u := range k.units {
		if name != u.name {
			continue
		}
		if v := number * u.scale; !math.IsInf(v, 0) {
			return v, nil
		}
	}
	return 0, unread(text, k)
}

// ofNumber reports whether a sign may be part of a decimal number.
func ofNumber(c byte) bool {
	return c >= '0' && c <= '9' || c == '.' || c == '-' || c == '+' || c == 'e' || c == 'E'
}

// unread is the error for a text that is no quantity of the kind.
func unread(text string, k kind) *Error {
	fail := &Error{Found: text, Kind: k.name}
	for _, u := range k.units {
		fail.Units = append(fail.Units, u.name)
	}
	return fail
}

// number writes v with at most digits decimals and no trailing zeros.
func number(v float64, digits int) string {
	s := strconv.FormatFloat(v, 'f', digits, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// ParseVolt reads a voltage such as "12 V" or "800mV".
func ParseVolt(s string) (Volt, error) { v, err := parse(s, volts); return Volt(v), err }

// ParseAmpere reads a current such as "30 mA".
func ParseAmpere(s string) (Ampere, error) { v, err := parse(s, amperes); return Ampere(v), err }

// ParseOhm reads a resistance such as "0.35 Ω" or "0.35 ohm".
func ParseOhm(s string) (Ohm, error) { v, err := parse(s, ohms); return Ohm(v), err }

// ParseOhmPerMetre reads a resistance per length such as "12.1 mΩ/m".
func ParseOhmPerMetre(s string) (OhmPerMetre, error) {
	v, err := parse(s, ohmsPerMetre)
	return OhmPerMetre(v), err
}

// ParseWatt reads a power such as "5 W".
func ParseWatt(s string) (Watt, error) { v, err := parse(s, watts); return Watt(v), err }

// ParseVoltAmpere reads an apparent power such as "60 VA".
func ParseVoltAmpere(s string) (VoltAmpere, error) {
	v, err := parse(s, voltAmperes)
	return VoltAmpere(v), err
}

// ParseMetre reads a length such as "12.5 m" or "600mm".
func ParseMetre(s string) (Metre, error) { v, err := parse(s, metres); return Metre(v), err }

// ParseSquareMetre reads a conductor size such as "1.5 mm²" or "1.5mm2".
func ParseSquareMetre(s string) (SquareMetre, error) {
	v, err := parse(s, squareMetres)
	return SquareMetre(v), err
}

// ParseSecond reads a time such as "0.4 s".
func ParseSecond(s string) (Second, error) { v, err := parse(s, seconds); return Second(v), err }

// ParseCelsius reads a temperature such as "20 °C".
func ParseCelsius(s string) (Kelvin, error) { v, err := parse(s, celsius); return Celsius(v), err }

// ParseLumen reads a luminous flux such as "300 lm".
func ParseLumen(s string) (Lumen, error) { v, err := parse(s, lumens); return Lumen(v), err }

// ParseCandela reads a luminous intensity such as "900 cd".
func ParseCandela(s string) (Candela, error) { v, err := parse(s, candelas); return Candela(v), err }

// ParseSoil reads a thermal resistivity such as "2.5 K·m/W".
func ParseSoil(s string) (KelvinMetrePerWatt, error) {
	v, err := parse(s, soils)
	return KelvinMetrePerWatt(v), err
}

// String returns the voltage rounded to 0.01 V.
func (v Volt) String() string { return number(float64(v), 2) + " V" }

// String returns the current rounded to 1 mA.
func (a Ampere) String() string { return number(float64(a), 3) + " A" }

// String returns the resistance rounded to 1 mΩ.
func (o Ohm) String() string { return number(float64(o), 3) + " Ω" }

// String returns the resistance per length in mΩ/m.
func (o OhmPerMetre) String() string { return number(float64(o)*1e3, 3) + " mΩ/m" }

// String returns the power rounded to 0.1 W.
func (w Watt) String() string { return number(float64(w), 1) + " W" }

// String returns the apparent power rounded to 0.1 VA.
func (w VoltAmpere) String() string { return number(float64(w), 1) + " VA" }

// String returns the length rounded to 1 cm.
func (m Metre) String() string { return number(float64(m), 2) + " m" }

// String returns the area in mm².
func (a SquareMetre) String() string { return number(a.SquareMillimetres(), 2) + " mm²" }

// String returns the temperature in °C.
func (k Kelvin) String() string { return number(k.Celsius(), 1) + " °C" }

// String returns the time in seconds.
func (s Second) String() string { return number(float64(s), 3) + " s" }

// String returns the let-through energy rounded to 1 A²s.
func (e AmpereSquaredSecond) String() string { return number(float64(e), 0) + " A²s" }

// String returns the flux rounded to 1 lm.
func (l Lumen) String() string { return number(float64(l), 0) + " lm" }

// String returns the illuminance rounded to 0.1 lx.
func (l Lux) String() string { return number(float64(l), 1) + " lx" }

// String returns the soil resistivity.
func (s KelvinMetrePerWatt) String() string { return number(float64(s), 2) + " K·m/W" }

// Percent writes a ratio as a percentage rounded to 0.01 %.
func Percent(ratio float64) string { return number(ratio*100, 2) + " %" }
