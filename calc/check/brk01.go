package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// BRK-01: every overcurrent device can break the prospective fault current
// where it stands. Ahead of a spur the device was there before: an unknown
// current is then not ours to find out. Source: BS 7671 434.5.1.
var breakingRule = Rule{Code: "BRK-01", Title: "Breaking capacity", Run: breaking}

var breakingSource = finding.Source{Standard: "BS 7671:2018", Clause: "434.5.1", Evidence: finding.Memory}

func breaking(c *Context, emit func(finding.Finding)) {
	emit, flush := single(emit)
	defer flush()
	for _, i := range c.Tree.Order {
		node := &c.Net.Nodes[i]
		for k := range node.Devices {
			d := &node.Devices[k]
			if !d.Overcurrent() {
				continue
			}
			ik, known := c.largest(i, LineCore)
			if !known && i == c.Net.Root && c.Net.Supply.Kind == network.Spur {
				continue
			}
			held := known && d.Breaking > 0 && within(float64(ik), float64(d.Breaking))
			if s := c.subject(i); c.Wants(held, s.ID) {
				emit(breakingFinding(c, i, d, ik, known, held))
			}
		}
	}
}

func breakingFinding(c *Context, i int, d *network.Device, ik q.Ampere, known, held bool) finding.Finding {
	s := c.subject(i)
	f := finding.Finding{Code: "BRK-01", Level: level(held, finding.Stop), Subject: s, Source: breakingSource}
	var w lines
	w.add("breaking capacity of %s ≥ prospective fault current there", d.Label)
	t := &c.Rules.Protect
	switch sup := &c.Net.Supply; {
	case !known:
		f.Level = finding.Decide
		f.Text = "the prospective fault current at " + d.Label + " is not known"
		w.add("neither the prospective fault current nor the loop at the board is known")
		f.Remedies = []finding.Remedy{{Text: "measure the prospective fault current at the board and enter it"}}
	case d.Breaking <= 0:
		f.Level = finding.Decide
		f.Text = "the breaking capacity of " + d.Label + " is not known"
		f.Figure = faultAmps(ik)
		w.add("prospective fault current %s; the stock book gives no breaking capacity", faultAmps(ik))
		f.Remedies = []finding.Remedy{{Text: "read the breaking capacity off the device and enter it"}}
	default:
		f.Figure, f.Limit = faultAmps(ik), d.Breaking.String()
		if sup.FaultCurrent.Known {
			w.add("measured at the board: %s; at %s with the cable between: %s", sup.FaultCurrent.Value, s.Label, faultAmps(ik))
		} else {
			w.add("Ik = Uo · Cmax / Z = %s × %s / %s = %s", num(float64(sup.Nominal), 1), num(t.Cmax, 2),
				q.Ohm(float64(sup.Nominal)*t.Cmax/float64(ik)), faultAmps(ik))
			f.Assumed = []string{"prospective fault current not measured: computed from the loop impedance"}
		}
		w.add("%s against %s: %s", faultAmps(ik), d.Breaking, meets(held))
		f.Text = "prospective fault current " + faultAmps(ik) + " at " + d.Label + ", which breaks " + d.Breaking.String()
		if !held {
			f.Remedies = []finding.Remedy{{Text: "use a device of higher breaking capacity, or prove the backup of the device ahead with its maker's figures"}}
		}
	}
	if b := c.Tree.Parent[i]; known && b >= 0 && c.Net.Branches[b].Cable == nil && !c.Net.Supply.MeasuredZs.Known {
		f.Assumed = append(f.Assumed, "the cable up to "+s.Label+" is not known and was left out: the current is that at the board")
	}
	f.Working = w.String()
	return f
}
