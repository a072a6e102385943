// Package judge compares what a meter read with what it should read: against the
// limit, and against the figure expected of what is drawn. A reading that meets
// its limit and is still far from the expected one points to something, which the
// judgement names. One judgement a file. It knows no circuit: the facts that a
// judgement needs are handed to it.
package judge

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Test is one kind of reading, in the order in which the tests are done: dead
// tests first. Source: BS 7671 643.2 to 643.10.
type Test int

// The tests there are. NoTest is none.
const (
	NoTest          Test = iota
	R1R2                 // line and protective conductor from the supply point, at a point
	Armour               // of a run, end to end
	InsulationLive       // line to neutral, of a circuit
	InsulationEarth      // live conductors to earth, of a circuit or of what a source feeds
	InsulationLow        // the same at half the voltage, electronics left in
	InsulationMains      // what a source feeds against the mains
	Polarity             // at a point
	Ze                   // external loop at the board
	Electrode            // resistance of the earth electrode
	Zs                   // earth fault loop at a point
	FaultCurrent         // prospective fault current at the board
	Volts                // at the supply, and at every point of extra-low voltage
	Leakage              // standing, by clamp at the supply
	RCDTime              // operating time at the rated residual current
	RCDHalf              // at half of it nothing trips
	RCDCurrent           // at which it trips, by a rising current
	RCDButton            // its test button
)

// kind is how a test is written.
type kind struct {
	key, name, unit string
	scale           float64  // of the unit, in SI
	digits          int      // in columns
	words           []string // what is read, good first, in place of a figure
}

var kinds = []kind{
	R1R2:            {key: "r1+r2", name: "R1+R2", unit: "Ω", scale: 1, digits: 2},
	Armour:          {key: "armour", name: "Armour, end to end", unit: "Ω", scale: 1, digits: 2},
	InsulationLive:  {key: "insulation live", name: "Insulation, L to N", unit: "MΩ", scale: 1e6, digits: 2},
	InsulationEarth: {key: "insulation earth", name: "Insulation, live to earth", unit: "MΩ", scale: 1e6, digits: 2},
	InsulationLow:   {key: "insulation earth low", name: "Insulation to earth at 250 V", unit: "MΩ", scale: 1e6, digits: 2},
	InsulationMains: {key: "insulation mains", name: "Insulation to the mains", unit: "MΩ", scale: 1e6, digits: 2},
	Polarity:        {key: "polarity", name: "Polarity", words: []string{"right", "reversed"}},
	Ze:              {key: "ze", name: "External loop Ze", unit: "Ω", scale: 1, digits: 2},
	Electrode:       {key: "electrode", name: "Electrode RA", unit: "Ω", scale: 1, digits: 1},
	Zs:              {key: "zs", name: "Fault loop Zs", unit: "Ω", scale: 1, digits: 2},
	FaultCurrent:    {key: "fault current", name: "Prospective fault current", unit: "kA", scale: 1e3, digits: 2},
	Volts:           {key: "volts", name: "Volts", unit: "V", scale: 1, digits: 2},
	Leakage:         {key: "leakage", name: "Standing leakage", unit: "mA", scale: 1e-3, digits: 1},
	RCDTime:         {key: "rcd time", name: "RCD time at IΔn", unit: "ms", scale: 1e-3, digits: 1},
	RCDHalf:         {key: "rcd half", name: "RCD at half IΔn", words: []string{"holds", "trips"}},
	RCDCurrent:      {key: "rcd current", name: "RCD trip current", unit: "mA", scale: 1e-3, digits: 1},
	RCDButton:       {key: "rcd button", name: "RCD test button", words: []string{"works", "fails"}},
}

// Tests are all tests in their order.
var Tests = func() (out []Test) {
	for t := range kinds[1:] {
		out = append(out, Test(t+1))
	}
	return out
}()

func (t Test) kind() *kind {
	if t > NoTest && int(t) < len(kinds) {
		return &kinds[t]
	}
	return &kind{name: "no test", scale: 1}
}

// Key is the word of the file.
func (t Test) Key() string { return t.kind().key }

// String is what people call it.
func (t Test) String() string { return t.kind().name }

// Unit is that of its figures; "" for a test that is read in words.
func (t Test) Unit() string { return t.kind().unit }

// Scale is how many of the SI unit one unit of its figures is.
func (t Test) Scale() float64 { return t.kind().scale }

// Words are what may be read in place of a figure, the good one first.
func (t Test) Words() []string { return t.kind().words }

// TestOf returns the test of a word of the file; NoTest for none.
func TestOf(key string) Test {
	return Test(max(0, slices.IndexFunc(kinds, func(k kind) bool { return k.key == key && key != "" })))
}

// Bound says how a figure is meant.
type Bound int

// A meter shows a figure, or that what it measures lies above or below what it
// can show, or only that it is over its range.
const (
	Exact Bound = iota
	Above
	Below
	Open
)

// Value is what a meter showed. The zero Value is a reading of 0, which is not
// the same as none.
type Value struct {
	Bound Bound
	SI    float64 // of the figure, in the SI unit of the test
	Word  string  // of a test that is read in words
}

// largest figure that a meter may show, in SI units: 10 TΩ.
const largest = 1e13

// Wrong says why a value cannot be one of the test, "" when it can.
func (v Value) Wrong(t Test) string {
	k := t.kind()
	switch {
	case len(k.words) > 0:
		if v.Bound != Exact || v.SI != 0 || !slices.Contains(k.words, v.Word) {
			return "one of " + strings.Join(k.words, ", ")
		}
	case v.Word != "" || v.Bound < Exact || v.Bound > Open || math.IsNaN(v.SI) || math.Abs(v.SI) > largest:
		return expected(t)
	case v.Bound == Open && v.SI != 0 || v.SI != steady(v.SI):
		return expected(t)
	case v.SI < 0 && t != Volts:
		return expected(t) + ", not below 0"
	}
	return ""
}

// expected says what a reading of a test looks like.
func expected(t Test) string {
	k := t.kind()
	if len(k.words) > 0 {
		return "one of " + strings.Join(k.words, ", ")
	}
	return fmt.Sprintf("a reading such as 0.3 %s, >299 %s or OL", k.unit, k.unit)
}

// Error says what text was found where a reading was expected.
type Error struct{ Found, Expected string }

// Error implements error.
func (e *Error) Error() string { return fmt.Sprintf("found %q, expected %s", e.Found, e.Expected) }

// steady rounds to fifteen digits, so that a figure in another unit and back is
// the same.
func steady(v float64) float64 {
	out, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 15, 64), 64)
	return out
}

// prefixes are what may stand before the unit of a test.
var prefixes = map[string]float64{"": 1, "m": 1e-3, "k": 1e3, "M": 1e6, "G": 1e9}

// Parse reads what a meter showed: "0.34 Ω", ">299 MΩ", "<0.01 ohm", "OL" (over
// its range), or one of the words of the test.
func Parse(t Test, text string) (Value, error) { return parse(t, text, false) }

// ParseTyped is Parse where a bare number is in the unit of the test.
func ParseTyped(t Test, text string) (Value, error) { return parse(t, text, true) }

func parse(t Test, text string, bare bool) (Value, error) {
	k := t.kind()
	s := strings.TrimSpace(text)
	wrong := func() (Value, error) { return Value{}, &Error{text, expected(t)} }
	if len(k.words) > 0 {
		var meant []string // the start of a word will do where it is of one only
		for _, w := range k.words {
			if s == w || bare && s != "" && strings.HasPrefix(w, strings.ToLower(s)) {
				meant = append(meant, w)
			}
		}
		if len(meant) == 1 {
			return Value{Word: meant[0]}, nil
		}
		return wrong()
	}
	if l := strings.ToLower(s); s == "OL" || bare && (l == "ol" || l == "o/l" || l == "o.l" || l == "over" || l == "∞") {
		return Value{Bound: Open}, nil
	}
	v := Value{}
	if rest, ok := strings.CutPrefix(s, ">"); ok {
		v.Bound, s = Above, strings.TrimSpace(rest)
	} else if rest, ok := strings.CutPrefix(s, "<"); ok {
		v.Bound, s = Below, strings.TrimSpace(rest)
	}
	s = strings.Replace(s, "−", "-", 1)
	end := 0
	for end < len(s) && strings.IndexByte("0123456789.-+eE", s[end]) >= 0 {
		end++
	}
	number, err := strconv.ParseFloat(s[:end], 64)
	if err != nil || math.IsInf(number, 0) || math.IsNaN(number) {
		return wrong()
	}
	scale, ok := unitScale(k, strings.TrimSpace(s[end:]), bare)
	v.SI = steady(number * scale)
	if v.SI == 0 {
		v.SI = 0 // no minus before it
	}
	if !ok || v.Wrong(t) != "" {
		return wrong()
	}
	return v, nil
}

// unitScale is what a unit stands for; the base unit may have any prefix.
func unitScale(k *kind, unit string, bare bool) (float64, bool) {
	if unit == "" {
		return k.scale, bare
	}
	base := strings.TrimLeft(k.unit, "mkMG")
	unit = strings.Replace(unit, "ohm", "Ω", 1)
	unit = strings.Replace(unit, "\u2126", "Ω", 1) // the sign of its own that some keyboards have
	prefix, ok := strings.CutSuffix(unit, base)
	scale, known := prefixes[prefix]
	return scale, ok && known
}

// Text writes a value as Parse reads it, in the unit of the test.
func (v Value) Text(t Test) string {
	k := t.kind()
	if len(k.words) > 0 {
		return v.Word
	}
	if v.Bound == Open {
		return "OL"
	}
	return [...]string{"", ">", "<"}[v.Bound] + strconv.FormatFloat(steady(v.SI/k.scale), 'f', -1, 64) + " " + k.unit
}

// Shown writes a value for a column whose heading has the unit: at least so many
// decimals as the test is read with.
func (v Value) Shown(t Test) string {
	k := t.kind()
	if len(k.words) > 0 {
		return v.Word
	}
	if v.Bound == Open {
		return "OL"
	}
	x := steady(v.SI / k.scale)
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if _, part, _ := strings.Cut(s, "."); len(part) < k.digits && math.Abs(x) < 100 {
		s = strconv.FormatFloat(x, 'f', k.digits, 64)
	}
	return [...]string{"", ">", "<"}[v.Bound] + strings.Replace(s, "-", "−", 1)
}
