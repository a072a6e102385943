package check

import (
	"duskwire/calc/finding"
)

// NEU-01: cores of two circuits in one cable. With too few cores for a neutral
// of its own each, one borrows the neutral of the other: a line that is switched
// off leaves it live, and residual devices trip. With enough cores both have to
// be isolated together and labelled at both ends. Source: BS 7671 314.4 for the
// neutral; the rest is from memory.
var neutralRule = Rule{Code: "NEU-01", Title: "Two circuits in one cable", Run: neutral}

var neutralSource = finding.Source{Standard: "BS 7671:2018", Clause: "314.4, 414.4.2, 521.8", Edition: "18th edition, A2-era values", Evidence: finding.Memory}

// pairing is two runs in one cable.
type pairing struct {
	b     int
	other finding.Subject
	at    int  // branch of the other, -1 when another circuit has it
	apart bool // they belong to different circuits
	need  int  // cores
	have  int
}

func neutral(c *Context, emit func(finding.Finding)) {
	take, flush := single(emit)
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if len(br.Sheath) == 0 || br.Cable == nil || c.Far(b) < 0 {
			continue
		}
		for _, other := range br.Sheath {
			p := c.pairing(b, other)
			f := neutralFinding(c, &p)
			if first := p.at < 0 || p.at > b; (f.Level > finding.Held && first) || c.Asked(br.ID) {
				take(f)
			}
		}
	}
	flush()
}

func (c *Context) pairing(b int, other finding.Subject) pairing {
	br := &c.Net.Branches[b]
	p := pairing{b: b, other: other, at: -1, apart: true, have: br.Cable.Cores, need: 4}
	for k := range c.Net.Branches {
		if c.Net.Branches[k].ID == other.ID && c.Far(k) >= 0 {
			p.at = k
		}
	}
	mains := c.Net.Nodes[c.Far(b)].System == 0
	if p.at >= 0 {
		far, off := c.Far(b), c.Far(p.at)
		p.apart = c.group(far) != c.group(off)
		mains = mains || c.Net.Nodes[off].System == 0
		if !p.apart {
			p.need = 3 // a line each, one neutral for both
		}
	}
	if mains && br.Cable.ArmourArea == 0 || br.Cable.EarthSize > 0 {
		p.need++
	}
	return p
}

func neutralFinding(c *Context, p *pairing) finding.Finding {
	s := c.runSubject(p.b)
	f := finding.Finding{Code: "NEU-01", Level: finding.Held, Subject: s, Also: []finding.Subject{p.other}, Source: neutralSource,
		Figure: num(float64(p.have), 0) + " cores", Limit: "at least " + num(float64(p.need), 0)}
	var w lines
	w.add("%s and %s have their cores in one cable, %s", s.Label, p.other.Label, c.Net.Branches[p.b].Cable.Name)
	switch {
	case p.at < 0:
		w.add("%s belongs to another circuit", p.other.Label)
	case p.apart:
		w.add("they are behind different devices, or on different voltages")
	default:
		w.add("they are behind the same device: one neutral may serve both")
	}
	short := p.have < p.need
	w.add("cores: %d of at least %d: %s", p.have, p.need, reaches(!short))
	switch {
	case short:
		f.Level = finding.Stop
		f.Text = s.Label + " and " + p.other.Label + " share a cable of " + f.Figure + ", too few for a neutral of its own each: one would be borrowed"
		if !p.apart {
			f.Text = s.Label + " and " + p.other.Label + " share a cable of " + f.Figure + ", too few for both"
		}
		f.Remedies = []finding.Remedy{{Text: "lay a cable of its own for one of them"}, {Text: "use a cable with more cores"}}
		if p.apart {
			f.Remedies = append(f.Remedies, finding.Remedy{Text: "feed both from one device, so that one neutral may serve both"})
		}
	case p.apart:
		f.Level = finding.Decide
		f.Text = s.Label + " and " + p.other.Label + " are two circuits in one cable: they have to be isolated together and labelled at both ends"
		f.Remedies = []finding.Remedy{{Text: "put both behind one isolator, and label the cable at both ends"}, {Text: "lay a cable of its own for one of them"}}
	default:
		f.Text = s.Label + " and " + p.other.Label + " are one circuit in one cable"
	}
	f.Working = w.String()
	return f
}
