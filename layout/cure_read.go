package layout

import (
	"math"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// read returns what a trial reads where the finding is, and for drops, volts
// and loops the figure over its limit, by which half-way cures are compared.
func (b *bench) read(t *trial) (text string, use float64) {
	switch b.fd.Code {
	case "VD-01", "VD-02", "VD-03", "SOL-01", "SOL-02":
		return b.readVolts(t)
	case "CIR-01", "CIR-02", "CIR-03", "CIR-04", "CIR-05", "CIR-07", "CIR-08":
		return readWorst(t), 0
	case "FLT-01", "FLT-02", "FLT-07":
		return b.readLoop(t)
	case "LUX-02", "LUX-08", "LUX-09", "LUX-10":
		return b.readLate(t)
	}
	return b.readExplained(t), 0
}

// readVolts is the worst of the consumers.
func (b *bench) readVolts(t *trial) (string, float64) {
	var worst *calc.Point
	use := math.Inf(-1)
	for k, r := range t.results {
		for i := range r.Points {
			p := &r.Points[i]
			if !b.set[p.ID] || (p.Kind != network.LampNode && p.Kind != network.PrimaryNode) {
				continue
			}
			if !p.Trusted {
				return "no steady voltage", math.Inf(1)
			}
			if u := b.voltUse(t.nets[k], p); u > use {
				worst, use = p, u
			}
		}
	}
	if worst == nil {
		return "", 0
	}
	volts, share := worst.Voltage.String(), q.Percent(worst.DropRatio)
	if b.fd.Code == "VD-03" {
		return volts + " at " + worst.Label + " (" + share + ")", use
	}
	return share + " at " + worst.Label + " (" + volts + ")", use
}

// readWorst is the largest drop at any lamp: what a change of the drawing does
// to the whole.
func readWorst(t *trial) string {
	drop, at := 0.0, ""
	for _, r := range t.results {
		if r.Totals.WorstAt != "" && (at == "" || r.Totals.WorstDrop > drop) {
			drop, at = r.Totals.WorstDrop, r.Totals.WorstAt
		}
	}
	if at == "" {
		return ""
	}
	return "largest drop then " + q.Percent(drop) + " at " + at
}

// voltUse is how near a point is to what the finding is about.
func (b *bench) voltUse(net *network.Net, p *calc.Point) float64 {
	if b.fd.Code != "VD-03" {
		return p.DropRatio
	}
	for i := range net.Nodes {
		n := &net.Nodes[i]
		if n.ID != p.ID || n.Kind != p.Kind {
			continue
		}
		use := 0.0
		for _, l := range n.Loads {
			if b.over {
				if l.Maximum > 0 {
					use = math.Max(use, float64(p.Voltage/l.Maximum))
				}
			} else if p.Voltage > 0 {
				use = math.Max(use, float64(l.Minimum/p.Voltage))
			} else {
				return math.Inf(1)
			}
		}
		return use
	}
	return 0
}

// readLoop is the point nearest its limit, or furthest over it.
func (b *bench) readLoop(t *trial) (string, float64) {
	var worst *calc.Point
	use := math.Inf(-1)
	for _, r := range t.results {
		for i := range r.Points {
			p := &r.Points[i]
			if !b.set[p.ID] || !p.Loop.Applies || !p.Loop.Known || !p.Limit.Known || p.Limit.Value <= 0 {
				continue
			}
			if u := float64(p.Loop.Hot / p.Limit.Value); u > use {
				worst, use = p, u
			}
		}
	}
	if worst == nil {
		return "", 0
	}
	return worst.Loop.Hot.String() + " of " + worst.Limit.Value.String() + " at " + worst.Label, use
}

// readExplained asks the rule itself about the subject.
func (b *bench) readExplained(t *trial) string {
	for i := range t.findings {
		if f := &t.findings[i]; f.Code == b.fd.Code && f.Subject.ID == b.fd.Subject.ID {
			return figureOf(f)
		}
	}
	for i, in := range t.inputs {
		if !has(in.Net, b.fd.Subject.ID) {
			continue
		}
		for _, f := range calc.Explain(in, t.results[i], b.fd.Subject.ID) {
			if f.Code == b.fd.Code && f.Subject.ID == b.fd.Subject.ID {
				return figureOf(&f)
			}
		}
	}
	return ""
}

func figureOf(f *finding.Finding) string {
	switch {
	case f.Figure == "":
		return ""
	case f.Limit == "":
		return f.Figure
	}
	return f.Figure + ", limit " + f.Limit
}

func has(net *network.Net, id string) bool {
	for i := range net.Nodes {
		if net.Nodes[i].ID == id {
			return true
		}
	}
	for i := range net.Branches {
		if net.Branches[i].ID == id {
			return true
		}
	}
	return false
}
