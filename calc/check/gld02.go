package check

import (
	"slices"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// GLD-02: the size of gland for the outside diameter and armour of a cable, and
// how many: two for each piece, sold in pairs. Only a cable that the tables have
// no size for is told about. Source: data sheets of BS 5467 cable and BS 6121;
// pairs are common practice.
var glandSizeRule = Rule{Code: "GLD-02", Title: "Size and number of glands", Run: glandSize}

func glandSize(c *Context, emit func(finding.Finding)) {
	var none []int
	c.glanded(func(b, _ int, _ network.End) {
		if _, _, ok := c.glandOf(c.Net.Branches[b].Cable); !ok && !slices.Contains(none, b) {
			none = append(none, b)
		}
	})
	if len(none) > 0 {
		emit(noSize(c, none))
	}
	if c.Explain == "" {
		return
	}
	if s := c.supplySubject(); c.Asked(s.ID) {
		glandCount(c, s, func(int) bool { return true }, emit)
		return
	}
	for b := range c.Net.Branches {
		if s := c.runSubject(b); c.Asked(s.ID) && !slices.Contains(none, b) {
			glandCount(c, s, func(x int) bool { return x == b }, emit)
		}
	}
}

func noSize(c *Context, runs []int) finding.Finding {
	f := finding.Finding{Code: "GLD-02", Level: finding.Note, Subject: c.runSubject(runs[0]), Source: glandSource}
	var w lines
	for _, b := range runs {
		cb := c.Net.Branches[b].Cable
		diameter := "outside diameter not known"
		if cb.Diameter > 0 {
			diameter = "outside " + millimetres(cb.Diameter)
		}
		w.add("%s: %s, %s, armour %s: no size in the tables", c.runSubject(b).Label, cb.Name, diameter, cb.ArmourArea)
		if b != runs[0] {
			f.Also = append(f.Also, c.runSubject(b))
		}
	}
	names := append([]finding.Subject{f.Subject}, f.Also...)
	f.Text = "the tables have no gland size for the cable of " + list(names) + ": measure it"
	f.Working = w.String()
	return f
}

// glandCount tells size and number of the glands of some runs.
func glandCount(c *Context, s finding.Subject, of func(b int) bool, emit func(finding.Finding)) {
	var w lines
	var sizes []string
	var numbers []int
	src := glandSource
	last := -1
	c.glanded(func(b, _ int, _ network.End) {
		cb := c.Net.Branches[b].Cable
		size, from, ok := c.glandOf(cb)
		if !of(b) || !ok {
			return
		}
		if b != last {
			w.add("%s: %s, outside %s, armour %s: gland %s", c.runSubject(b).Label, cb.Name, millimetres(cb.Diameter), cb.ArmourArea, size)
			last = b
		}
		src = from
		k := slices.Index(sizes, size)
		if k < 0 {
			k = len(sizes)
			sizes, numbers = append(sizes, size), append(numbers, 0)
		}
		numbers[k]++
	})
	if len(sizes) == 0 {
		return
	}
	text := ""
	for k, size := range sizes {
		if k > 0 {
			text += "; "
		}
		text += count(numbers[k], "gland ", "glands ") + size + ", " + count((numbers[k]+1)/2, "pair", "pairs")
	}
	w.add("sold in pairs: %s", text)
	emit(finding.Finding{Code: "GLD-02", Level: finding.Held, Subject: s, Source: src, Figure: text,
		Text: s.Label + " takes " + text, Working: w.String()})
}

// millimetres writes a diameter.
func millimetres(m q.Metre) string {
	if m <= 0 {
		return "not known"
	}
	return num(float64(m)*1e3, 1) + " mm"
}
