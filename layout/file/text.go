package file

import (
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// plainText matches texts that may stand in a file without quotes, inside
// braces too, provided YAML does not take them for a number or a word.
var plainText = regexp.MustCompile(`^[\p{L}\p{N}]([\p{L}\p{N} _./()+°·²'-]*[\p{L}\p{N}_.)%'])?$|^[\p{L}\p{N}][\p{L}\p{N} ._-]* %$`)

// written writes a text so that it reads back the same: plain where that is
// possible, otherwise in double quotes. Go's escapes are all known to YAML.
func written(s string) string {
	if plainText.MatchString(s) && (&yaml.Node{Kind: yaml.ScalarNode, Value: s}).ShortTag() == "!!str" {
		return s
	}
	return strconv.Quote(s)
}

// amount writes a quantity in its SI unit with the fewest digits that read
// back as exactly the same value.
func amount[T ~float64](v T, unit string) string { return plainFloat(float64(v)) + " " + unit }

// celsius writes an absolute temperature in °C, exactly: the first rounding
// that reads back as the same value.
func celsius(k q.Kelvin) string {
	for digits := range 18 {
		s := strconv.FormatFloat(k.Celsius(), 'f', digits, 64)
		if c, err := strconv.ParseFloat(s, 64); err == nil && q.Celsius(c) == k {
			if s == "-0" {
				s = "0"
			}
			return s + " °C"
		}
	}
	return plainFloat(k.Celsius()) + " °C"
}

// percent writes a ratio as a percentage by moving the decimal point, so that
// no digit is lost.
func percent(r doc.Ratio) string {
	whole, part, _ := strings.Cut(plainFloat(float64(r)), ".")
	for len(part) < 2 {
		part += "0"
	}
	sign := ""
	if rest, minus := strings.CutPrefix(whole, "-"); minus {
		sign, whole = "-", rest
	}
	whole = strings.TrimLeft(whole+part[:2], "0")
	if whole == "" {
		whole = "0"
	}
	if part = strings.TrimRight(part[2:], "0"); part != "" {
		part = "." + part
	}
	return sign + whole + part + " %"
}

func degrees(v float64) string { return plainFloat(v) + " deg" }

// metres writes a coordinate in metres, exact to the micrometre.
func metres(l geom.Length) string { return doc.Fixed(l, geom.Metre) + " m" }

// millimetres writes a height or depth, exact to the micrometre.
func millimetres(l geom.Length) string { return doc.Fixed(l, geom.Millimetre) + " mm" }

func pointText(p geom.Point) string { return "[" + metres(p.X) + ", " + metres(p.Y) + "]" }

// render writes a node tree in block form, comments left out. It is how a
// stock section is kept: reading what it wrote gives the same text again.
func render(n node) string {
	var b strings.Builder
	renderNode(&b, n.y, 1)
	return b.String()
}

func renderNode(b *strings.Builder, y *tree, depth int) {
	indent := strings.Repeat("  ", depth)
	switch {
	case y.shape == scalar:
		b.WriteString(" " + renderScalar(y) + "\n")
	case len(y.items) == 0 && y.shape == mapping:
		b.WriteString(" {}\n")
	case len(y.items) == 0:
		b.WriteString(" []\n")
	case y.shape == mapping:
		b.WriteString("\n")
		for i := 0; i+1 < len(y.items); i += 2 {
			b.WriteString(indent + renderScalar(&y.items[i]) + ":")
			renderNode(b, &y.items[i+1], depth+1)
		}
	default:
		b.WriteString("\n")
		for i := range y.items {
			b.WriteString(indent + "-")
			renderNode(b, &y.items[i], depth+1)
		}
	}
}

// renderScalar keeps what YAML takes the value for: a text stays a text.
func renderScalar(y *tree) string {
	if !y.isText() {
		return y.text
	}
	return written(y.text)
}
