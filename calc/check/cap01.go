package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// CAP-01: Ib <= In, the design current of all that a device feeds against its
// rating. Source: BS 7671 433.1.1 (i).
var designCurrentRule = Rule{Code: "CAP-01", Title: "Design current within the device", Run: designCurrent}

var overloadSource = finding.Source{Standard: "BS 7671:2018", Clause: "433.1.1", Evidence: finding.Memory}

func designCurrent(c *Context, emit func(finding.Finding)) {
	emit, flush := single(emit)
	defer flush()
	unguarded(c, emit)
	if !c.Trusted() {
		return
	}
	for _, i := range c.Tree.Order {
		node := &c.Net.Nodes[i]
		for k := range node.Devices {
			d := &node.Devices[k]
			if !d.Overcurrent() {
				continue
			}
			ib := c.Beyond(i)
			held := within(float64(ib), float64(d.Rating))
			if s := c.subject(i); c.Wants(held, s.ID) {
				emit(designCurrentFinding(c, i, d, held))
			}
		}
	}
}

func designCurrentFinding(c *Context, i int, d *network.Device, held bool) finding.Finding {
	ib, s := c.Beyond(i), c.subject(i)
	var w lines
	w.add("Ib ≤ In")
	w.add("Ib = current of everything beyond %s = %s", d.Label, ib)
	for _, b := range c.around(i) {
		if b != c.Tree.Parent[i] || c.InRing(b) {
			w.add("  through %s: %s", c.runSubject(b).Label, c.Flow(b))
		}
	}
	f := finding.Finding{Code: "CAP-01", Level: level(held, finding.Stop), Subject: s,
		Figure: ib.String(), Limit: d.Rating.String(), Source: overloadSource}
	if sup := &c.Net.Supply; i == c.Net.Root && sup.Kind == network.Spur {
		if sup.ExistingLoad.Known {
			w.add("  of it the other load on the existing circuit: %s", sup.ExistingLoad.Value)
		} else {
			f.Assumed = append(f.Assumed, "the other load on the existing circuit is not known and was taken as none")
		}
	}
	w.add("In = %s (%s)", d.Rating, d.Label)
	w.add("%s against %s: %s", ib, d.Rating, meets(held))
	f.Text = "design current " + ib.String() + " through " + d.Label + " of " + d.Rating.String() + " " + meets(held)
	f.Working = w.String()
	switch {
	case held:
	case i == c.Net.Root && c.Net.Supply.Kind == network.Spur:
		f.Remedies = []finding.Remedy{{Text: "take the garden from a way of its own at the board, or move load off the existing circuit"}}
	default:
		f.Remedies = []finding.Remedy{{Text: "split the lamps over two circuits, or take a larger device and check its cables again", Tried: true}}
	}
	return f
}

// unguarded reports mains runs with no overcurrent device ahead, once. The
// existing leg to a spur unit counts too: without the device at the board
// neither its load nor the loop at the unit (FLT-02) can be proved.
func unguarded(c *Context, emit func(finding.Finding)) {
	var f failing
	for b := range c.Net.Branches {
		if far := c.Far(b); (c.Ours(b) || (c.Net.Branches[b].Existing && far >= 0)) && c.Net.Nodes[c.Far(b)].System == 0 && c.Zone(c.Far(b)).Over == nil {
			f.add(b, 1)
		}
	}
	f.emit(func(b int) finding.Finding {
		return finding.Finding{Code: "CAP-01", Level: finding.Stop, Subject: c.runSubject(b),
			Text:     "no overcurrent device is named ahead of " + c.runSubject(b).Label,
			Source:   overloadSource,
			Working:  "Ib ≤ In\nIn is not known: neither the board nor the supply point names a fuse or breaker",
			Remedies: []finding.Remedy{{Text: "enter the device at the board, and the fuse of the spur unit where there is one"}},
		}
	}, c.runSubject, emit)
}
