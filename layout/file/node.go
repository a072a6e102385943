package file

import (
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// node is one value of a file with its place. A node without y stands for a
// value that is absent and has been reported if it was needed; reading it
// gives zero values and reports nothing more.
type node struct {
	y      *tree
	log    *problems
	entity string
	// The name of the field, which is only put together for messages.
	of    *object // what it stands in, unless base says it
	base  string  // "from"
	field string  // "on"
	item  int     // in a list, from 1
}

// present reports whether the value is in the file.
func (n node) present() bool { return n.y != nil }

// line returns the line of the value, 0 when it is absent.
func (n node) line() int {
	if n.y == nil {
		return 0
	}
	return int(n.y.line)
}

// where returns the name of the node's field, "from.on" or "legs[2]".
func (n node) where() string {
	s := n.base
	if n.of != nil {
		s = n.of.where()
	}
	switch {
	case s == "":
		s = n.field
	case n.field != "":
		s += "." + n.field
	}
	if n.item > 0 {
		s += "[" + strconv.Itoa(n.item) + "]"
	}
	return s
}

// fail reports a problem at the value.
func (n node) fail(found, expected string) { n.failHint(found, expected, "") }

func (n node) failHint(found, expected, hint string) {
	n.log.list = append(n.log.list, &Error{
		File: n.log.file, Line: n.line(), Entity: n.entity, Field: n.where(),
		Found: found, Expected: expected, Hint: hint,
	})
}

// within returns the node as part of the named entity.
func (n node) within(entity string) node {
	n.entity, n.of, n.base, n.field, n.item = entity, nil, "", "", 0
	return n
}

// found says in words what the node holds.
func (n node) found() string {
	switch n.y.shape {
	case mapping:
		return "a map of fields"
	case sequence:
		return "a list"
	}
	if n.y.isNull() {
		return "nothing"
	}
	text := n.y.text
	if len(text) > 60 {
		text = text[:57] + "..."
	}
	return strconv.Quote(strings.ToValidUTF8(text, ""))
}

// scalar returns the written text of a single value; ok is false, with the
// problem reported, when it is something else. Absent gives false in silence.
func (n node) scalar(expected string) (string, bool) {
	if n.y == nil {
		return "", false
	}
	if n.y.shape != scalar || n.y.isNull() {
		n.fail(n.found(), expected)
		return "", false
	}
	return n.y.text, true
}

// text returns a text.
func (n node) text() string {
	s, _ := n.scalar("a text")
	return s
}

// flag returns true or false.
func (n node) flag() bool {
	s, ok := n.scalar("true or false")
	if ok && s != "true" && s != "false" {
		n.fail(n.found(), "true or false")
	}
	return s == "true"
}

// whole returns a whole number between low and high, without a unit.
func (n node) whole(low, high int) int {
	if n.y == nil {
		return 0
	}
	expected := "a whole number from " + strconv.Itoa(low) + " to " + strconv.Itoa(high)
	s, ok := n.scalar(expected)
	if !ok {
		return 0
	}
	v, err := strconv.Atoi(s)
	if err != nil || v < low || v > high {
		n.fail(n.found(), expected)
		return 0
	}
	return v
}

// number returns a plain number between low and high, without a unit.
func (n node) number(low, high float64) float64 {
	expected := "a number from " + plainFloat(low) + " to " + plainFloat(high)
	s, ok := n.scalar(expected)
	if !ok {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= low && v <= high) {
		n.fail(n.found(), expected)
		return 0
	}
	return v
}

// word returns the position of the text among the choices, 0 when it is not
// one of them.
func (n node) word(choices []string) int {
	if n.y == nil {
		return 0
	}
	// The text of what is expected is only made for what is not a choice.
	if n.y.shape == scalar {
		for i, c := range choices {
			if n.y.text == c && !n.y.isNull() {
				return i
			}
		}
	}
	if _, ok := n.scalar(oneOf(choices)); !ok {
		return 0
	}
	n.failHint(n.found(), oneOf(choices), nearest(n.y.text, choices))
	return 0
}

// quantity reads a quantity with its unit by one of the Parse functions of
// package quantity.
func quantity[T ~float64](n node, parse func(string) (T, error)) T {
	s, ok := n.scalar("a quantity with its unit")
	if !ok {
		return 0
	}
	v, err := parse(s)
	if err == nil {
		return v
	}
	n.fail(n.found(), quantityWanted(err))
	return 0
}

// quantityWanted returns what the parser would have accepted.
func quantityWanted(err error) string {
	if e, ok := err.(*q.Error); ok {
		article := "a "
		if strings.ContainsRune("aeiou", rune(e.Kind[0])) {
			article = "an "
		}
		if len(e.Units) == 0 {
			return article + e.Kind
		}
		return article + e.Kind + " with one of the units " + strings.Join(e.Units, ", ")
	}
	return err.Error()
}

// length returns a length of the plan, exact to a micrometre.
func (n node) length() geom.Length {
	return geom.Metres(float64(quantity(n, parseReach)))
}

// parseReach reads a length and refuses what would overflow the plan.
func parseReach(s string) (q.Metre, error) {
	v, err := q.ParseMetre(s)
	if err == nil && (v > 1e6 || v < -1e6) {
		return 0, errTooFar
	}
	return v, err
}

type wanted string

func (w wanted) Error() string { return string(w) }

const errTooFar = wanted("a length of at most 1000 km")

// angle returns an angle in degrees, written "45 deg".
func (n node) angle() float64 { return withUnit(n, "deg", "an angle such as 45 deg") }

// withUnit returns the number of a text "<number> <unit>".
func withUnit(n node, unit, expected string) float64 {
	s, ok := n.scalar(expected)
	if !ok {
		return 0
	}
	number, cut := strings.CutSuffix(s, unit)
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !cut || err != nil || !(v >= -1e9 && v <= 1e9) {
		n.fail(n.found(), expected)
		return 0
	}
	return v
}

// ratio returns a ratio written as a percentage, "5 %" being 0.05.
func (n node) ratio() float64 {
	const expected = "a percentage such as 5 %"
	s, ok := n.scalar(expected)
	if !ok {
		return 0
	}
	number, cut := strings.CutSuffix(s, "%")
	number = strings.TrimSpace(number)
	// Shifting the decimal exponent keeps 5 % exactly the 0.05 of a literal.
	v, err := strconv.ParseFloat(number+"e-2", 64)
	if !cut || err != nil || strings.ContainsAny(number, "xXpP_") {
		n.fail(n.found(), expected)
		return 0
	}
	return v
}

// list returns the items of a list; their fields are named legs[1], legs[2] ...
func (n node) list() []node {
	if n.y == nil {
		return nil
	}
	if n.y.shape != sequence {
		n.fail(n.found(), "a list")
		return nil
	}
	if n.y.later != nil {
		panic("file: a list is read before it is scanned")
	}
	items := n.log.room.nodes(len(n.y.items))
	base := "" // where everything is only for a while no message is made
	if n.log.room == nil {
		base = n.where()
	}
	for i := range n.y.items {
		items[i] = node{y: &n.y.items[i], log: n.log, entity: n.entity, base: base, item: i + 1}
	}
	return items
}

// point returns a place on the plan, written [4 m, 2 m].
func (n node) point() geom.Point {
	if n.y == nil {
		return geom.Point{}
	}
	if n.y.shape != sequence || len(n.y.items) != 2 {
		n.fail(n.found(), "a point such as [4 m, 2 m]")
		return geom.Point{}
	}
	xy := n.list()
	return geom.Point{X: xy[0].length(), Y: xy[1].length()}
}

// plainFloat writes a number with the fewest digits that read back the same.
func plainFloat(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
