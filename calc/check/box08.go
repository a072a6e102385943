package check

import (
	"strconv"
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// BOX-08: the cables that meet in a box against its size: there has to be room
// for the connectors and for cores long enough to be made again. The rule set
// says which side of a square box takes up to two, four and six cables; beyond
// six it says nothing, and the box is left to the electrician. Source: common
// practice, no source.
var roomyBoxRule = Rule{Code: "BOX-08", Title: "Size of a box", Run: roomyBox}

// boxTakes returns how many cables a box of a side takes, 0 for none.
func (c *Context) boxTakes(side q.Metre) int {
	l := &c.Rules.Limits
	most := 0
	for _, step := range []struct {
		least  float64
		cables int
	}{{l.BoxSide2.Value, 2}, {l.BoxSide4.Value, 4}, {l.BoxSide6.Value, 6}} {
		if step.least > 0 && within(step.least, float64(side)) {
			most = step.cables
		}
	}
	return most
}

// boxSide returns the side that takes so many cables; ok is false above six.
func (c *Context) boxSide(cables int) (Limit, bool) {
	l := &c.Rules.Limits
	switch {
	case cables <= 2:
		return l.BoxSide2, true
	case cables <= 4:
		return l.BoxSide4, true
	}
	return l.BoxSide6, cables <= 6
}

func roomyBox(c *Context, emit func(finding.Finding)) {
	l := &c.Rules.Limits
	if l.BoxSide2.Value <= 0 || l.BoxSide4.Value <= 0 || l.BoxSide6.Value <= 0 {
		return
	}
	boxFindings(c, emit,
		func(_ int, b *network.Box) (float64, bool, bool) {
			takes := c.boxTakes(b.Side)
			return float64(b.Cables) / max(float64(takes), 0.5), b.Cables <= takes, b.Side > 0 && b.Cables > 0
		},
		func(i int, b *network.Box) finding.Finding {
			s, takes := c.subject(i), c.boxTakes(b.Side)
			need, known := c.boxSide(b.Cables)
			held := b.Cables <= takes
			var w lines
			w.add("%s: %s, side %s; %s end in it", s.Label, b.Name, millimetres(b.Side), count(b.Cables, "cable", "cables"))
			w.add("up to 2 cables %s square, 3 or 4 %s, 5 or 6 %s: this one takes %d", millimetres(q.Metre(l.BoxSide2.Value)), millimetres(q.Metre(l.BoxSide4.Value)), millimetres(q.Metre(l.BoxSide6.Value)), takes)
			for _, line := range c.connectors(i) {
				w.add("%s", line)
			}
			f := finding.Finding{Code: "BOX-08", Level: level(held, finding.Decide), Subject: s, Source: need.Source,
				Figure: count(b.Cables, "cable", "cables"), Limit: "at most " + strconv.Itoa(takes) + " in " + millimetres(b.Side),
				Text: s.Label + ", " + millimetres(b.Side) + " square, takes " + count(b.Cables, "cable", "cables"), Working: w.String()}
			if held {
				return f
			}
			f.Text = s.Label + " is " + millimetres(b.Side) + " square and small for " + count(b.Cables, "cable", "cables") + " and their connectors"
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "take some of the cables to a second box", Figure: count(b.Cables-takes+1, "cable", "cables") + " or more", Tried: true})
			if known {
				f.Remedies = append([]finding.Remedy{{Text: "use a larger box", Figure: "at least " + millimetres(q.Metre(need.Value)) + " square"}}, f.Remedies...)
			}
			return f
		})
}

// connectors lists the lever connectors that a box needs, one for each function,
// with as many ways as conductors of this circuit meet. Trade habit. Cores that
// are not used, and cables of other circuits in the box, are not counted.
func (c *Context) connectors(i int) []string {
	n := &c.Net.Nodes[i]
	live, earth, armour := 0, 0, 0
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.From != i && br.To != i || br.Cable == nil || c.Far(b) < 0 {
			continue
		}
		live++
		if br.Cable.Earth == network.EarthCore {
			earth++
		}
		if br.Armoured() {
			armour++
		}
	}
	names := []string{"L", "N"}
	if n.System != 0 {
		names = []string{"first core", "second core"}
		if c.Net.Systems[n.System].Current == network.DC {
			names = []string{"+", "-"}
		}
		earth = 0
	}
	var parts []string
	add := func(name string, ways int) {
		if ways > 0 {
			parts = append(parts, name+" "+strconv.Itoa(ways)+"-way")
		}
	}
	add(names[0], live)
	add(names[1], live)
	add("protective conductor", earth)
	metal := n.Box != nil && n.Box.Metal
	if !metal {
		add("armour link", armour)
	}
	if len(parts) == 0 {
		return nil
	}
	out := []string{"connectors for this circuit: " + strings.Join(parts, ", ") + ": " + strconv.Itoa(len(parts))}
	if metal && armour > 0 {
		out = append(out, "the armours are linked by the metal of the box; its earth terminal takes one way more")
	}
	return out
}
