package doc

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"duskwire/layout/geom"
)

// Problem is one thing about a scheme that must not be: a reference to
// nothing, a ring of two points. A flawed design is no problem in this sense;
// that is a finding.
type Problem struct {
	ID       ID     // "" for the scheme itself
	Entity   string // "lamp L7", "survey"
	Field    string // name in the file, "zone", "legs[2].depth"
	Found    string // in words, texts quoted
	Expected string
}

// Error implements error.
func (p *Problem) Error() string {
	s := ""
	for _, part := range []string{p.Entity, p.Field} {
		if part != "" {
			s += part + ": "
		}
	}
	return s + "found " + p.Found + ", expected " + p.Expected
}

// Limits of what a garden can be. They catch slips of the unit.
const (
	Far      = 10000 * geom.Metre // coordinates lie within ± Far
	deepest  = -10 * geom.Metre
	highest  = 100 * geom.Metre
	longest  = 1000.0 // metres of tail, slack, cut or indoor leg
	longText = 2000   // letters
	longWord = 100
	manyLegs = 10000

	manyEntries = 100 // of a box
)

// report collects problems about one entity.
type report struct {
	s    *Scheme
	e    Entity // that name is of, when name is ""
	id   ID
	name string
	part string // what the fields stand in, "from", "legs"; "" for none
	nth  int    // item of a list, from 1; 0 in what is no list
	list []*Problem
	// inCable has, by the id of a run, the first run whose cores lie in its
	// cable; nil when only one entity is checked and looking is quicker.
	inCable map[ID]*Run
}

// add reports a problem. The names are only put together here: nearly every
// entity is in order.
func (r *report) add(field, found, expected string) {
	if r.name == "" && r.e != nil {
		r.name = entityName(r.e, KindOfEntity(r.e))
	}
	if r.nth > 0 {
		field = fmt.Sprintf("%s[%d].%s", r.part, r.nth, field)
	} else if r.part != "" {
		field = r.part + "." + field
	}
	r.list = append(r.list, &Problem{r.id, r.name, field, Short(found), expected})
}

// Short returns a text as messages quote it: cut after 120 letters.
func Short(s string) string {
	const most = 120
	if len(s) <= most {
		return s
	}
	letters := []rune(s[:min(len(s), most*utf8.UTFMax)])
	if len(letters) <= most {
		return s
	}
	return string(letters[:most-1]) + "…"
}

func (r *report) text(field, s string) {
	switch {
	case len(s) <= longText && printable(s):
	case !utf8.ValidString(s):
		r.add(field, "bytes that are not UTF-8", "a text")
	case utf8.RuneCountInString(s) > longText:
		r.add(field, strconv.Itoa(utf8.RuneCountInString(s))+" letters", fmt.Sprintf("at most %d", longText))
	case strings.ContainsFunc(s, func(c rune) bool { return unicode.IsControl(c) && c != '\n' }):
		r.add(field, "a control character", "a text")
	}
}

// printable reports whether a text is plain ASCII of one line, as most are.
func printable(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] >= 0x7F {
			return false
		}
	}
	return true
}

func (r *report) needText(field, s string) {
	if strings.TrimSpace(s) == "" {
		r.add(field, "nothing", "a text")
	}
	r.text(field, s)
}

// word checks a short text of one line.
func (r *report) word(field, s string) {
	r.needText(field, s)
	if n := utf8.RuneCountInString(s); len(s) > longWord && n > longWord {
		r.add(field, strconv.Itoa(n)+" letters", fmt.Sprintf("at most %d", longWord))
	}
	if strings.Contains(s, "\n") {
		r.add(field, "a line end", "one line")
	}
}

// oneOf checks a word; "" is accepted when it is among the words.
func (r *report) oneOf(field, s string, words []string) {
	if !slices.Contains(words, s) {
		r.add(field, strconv.Quote(s), "one of "+strings.Join(words, ", "))
	}
}

func (r *report) span(field string, l, low, high geom.Length) {
	if l < low || l > high {
		r.add(field, Written(l), "a length from "+Written(low)+" to "+Written(high))
	}
}

func (r *report) number(field string, v, low, high float64, unit string) {
	if !(v >= low && v <= high) {
		r.add(field, plain(v)+unit, "a value from "+plain(low)+unit+" to "+plain(high)+unit)
	}
}

func (r *report) point(field string, p geom.Point) {
	if max(p.X, p.Y) > Far || min(p.X, p.Y) < -Far {
		r.add(field, "["+Written(p.X)+", "+Written(p.Y)+"]", "a point within ±"+Written(Far))
	}
}

func (r *report) place(p Place) {
	r.point("at", p.At)
	r.span("height", p.Height, deepest, highest)
}

// degrees checks an angle within two full turns, so that nothing overflows.
func (r *report) degrees(field string, v float64) { r.number(field, v, -720, 720, " deg") }

// Written writes a length for messages and files: millimetres below a metre,
// metres otherwise, exact to the micrometre.
func Written(l geom.Length) string {
	if l > -geom.Metre && l < geom.Metre && l != 0 {
		return Fixed(l, geom.Millimetre) + " mm"
	}
	return Fixed(l, geom.Metre) + " m"
}

// Fixed writes l in the unit, exactly: lengths are whole micrometres, so no
// floating point is involved.
func Fixed(l, unit geom.Length) string {
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	s := sign + strconv.FormatInt(int64(l/unit), 10)
	if rest := l % unit; rest != 0 {
		digits := len(strconv.FormatInt(int64(unit), 10)) - 1
		s += "." + strings.TrimRight(fmt.Sprintf("%0*d", digits, int64(rest)), "0")
	}
	return s
}

func plain(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "no number"
	}
	if size := math.Abs(v); size != 0 && (size < 1e-9 || size >= 1e15) {
		return strconv.FormatFloat(v, 'g', 3, 64) // not three hundred digits
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
