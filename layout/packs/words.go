package packs

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// fixed-point figures for columns; the unit stands in the heading.
func digits(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.HasPrefix(s, "-") && strings.Trim(s, "-0.") == "" {
		s = s[1:]
	}
	return strings.Replace(s, "-", "−", 1)
}

func metres(m q.Metre) string     { return digits(float64(m), 2) }
func long(l geom.Length) string   { return digits(l.Metres(), 2) }
func millis(l geom.Length) string { return digits(math.Round(l.Millimetres()), 0) }
func ohms(o q.Ohm) string         { return digits(float64(o), 2) }
func whole(n int) string          { return strconv.Itoa(n) }
func figure(m q.Maybe[q.Ohm]) string {
	if !m.Known {
		return "not known"
	}
	return ohms(m.Value)
}

// plural returns "1 lamp", "3 lamps".
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// upper returns words with a capital first letter.
func upper(s string) string {
	if s == "" {
		return s
	}
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// called returns the tag of an entity with the name people gave it.
func (b *book) called(id doc.ID) string {
	e, _ := doc.Find(b.scheme, id)
	if e == nil {
		return "in the air"
	}
	name := ""
	switch e := e.(type) {
	case *doc.Area:
		name = e.Name
	case *doc.Line:
		name = e.Name
	case *doc.Mark:
		name = e.Name
	case *doc.Zone:
		name = e.Name
	}
	if name != "" {
		return e.Label() + " (" + name + ")"
	}
	return e.Label()
}

// areaName names a piece of ground for a list: "Lawn (A4)".
func areaName(a *doc.Area) string {
	if a == nil {
		return "no area drawn"
	}
	if a.Name == "" {
		return upper(a.Kind) + " (" + a.Tag + ")"
	}
	if strings.Contains(strings.ToLower(a.Name), a.Kind) {
		return a.Name + " (" + a.Tag + ")"
	}
	return a.Name + ", " + a.Kind + " (" + a.Tag + ")"
}

// supportName names how a leg is carried.
func supportName(s network.Support) string {
	return [...]string{"clipped", "buried", "in duct", "on structure", "in tree", "indoors"}[s]
}

// verdict is a finding in one line, with the decision when there is one.
func verdict(f *finding.Finding) string {
	s := f.Level.String() + " " + string(f.Code) + ": " + f.Text + "."
	if o := f.Overruled; o != nil {
		s = "Overruled: " + s + " Reason: " + o.Reason
		if who := strings.Trim(o.By+", "+o.On, ", "); who != "" {
			s += " (" + who + ")"
		}
	}
	return s
}

// findings lists findings, if there are any, under a heading.
func (f *flow) findings(head string, list []*finding.Finding) {
	if len(list) == 0 {
		return
	}
	f.head(head)
	for _, x := range list {
		f.item(verdict(x))
	}
}

// compass returns the direction of a plan vector in the garden, "NE". north is
// where north lies, degrees clockwise from up the sheet; where it is not known
// the direction is one on the sheet, "up right on the plan".
func compass(from, to geom.Point, north q.Maybe[float64]) string {
	if from == to {
		return ""
	}
	turn := geom.Bearing(from, to) - north.Value
	n := int(math.Round(turn/45)) % 8
	if !north.Known {
		return [...]string{"up", "up right", "right", "down right", "down", "down left", "left", "up left"}[(n+8)%8] + " on the plan"
	}
	return [...]string{"N", "NE", "E", "SE", "S", "SW", "W", "NW"}[(n+8)%8]
}

// sincos of an angle in degrees.
func sincos(degrees float64) (sin, cos float64) { return math.Sincos(degrees * math.Pi / 180) }

func overruled(f *finding.Finding) bool { return f.Overruled != nil }

func ceilHalf(m float64) float64 { return math.Ceil(m*2-1e-6) / 2 }

func absf(v float64) float64 { return math.Abs(v) }

// signed writes a difference with its sign.
func signed(v float64) string {
	if v > 0 {
		return "+" + digits(v, 2)
	}
	return digits(v, 2)
}

// legsText says how a run is carried, neighbours alike told once.
func legsText(r *doc.Run) string { return layout.Laid(r) }

func unique(list []string) (out []string) {
	seen := map[string]bool{}
	for _, s := range list {
		if !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	return out
}
