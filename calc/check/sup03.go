package check

import (
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// SUP-03: distance between supports and the number of clips, told only with the
// working of a run, for the plan does not hold every clip:
//
//	clips = ⌈length / spacing⌉ + 1 for every piece that is clipped without a
//	break, and 2 more at every bend
//
// Of the vertical steps what lies below ground, or goes up at a lamp that stands in
// the ground, needs none (Leg.Loose).
//
// Source: On-Site Guide Table D1; the count is common practice, no source.
var supportRule = Rule{Code: "SUP-03", Title: "Supports of a cable", Run: supports}

func supports(c *Context, emit func(finding.Finding)) {
	if c.Explain == "" || len(c.Rules.Supports) == 0 {
		return
	}
	for _, b := range c.ways() {
		if !c.Asked(c.runSubject(b).ID) {
			continue
		}
		if row, assumed, ok := c.supportRow(c.Net.Branches[b].Cable); ok {
			supportFinding(c, b, row, assumed, emit)
		}
	}
}

// supportRow returns the row for a cable; one whose diameter is not known gets
// the closest spacing of the table.
func (c *Context) supportRow(cb *network.Cable) (row SupportRow, assumed string, ok bool) {
	for _, r := range c.Rules.Supports {
		if r.Armoured == (cb.ArmourArea > 0) && cb.Diameter <= r.UpTo {
			if cb.Diameter <= 0 {
				assumed = "diameter of " + cb.Name + " not known: the closest spacing of the table taken"
			}
			return r, assumed, true
		}
	}
	return SupportRow{}, "", false
}

func supportFinding(c *Context, b int, row SupportRow, assumed string, emit func(finding.Finding)) {
	br, s := &c.Net.Branches[b], c.runSubject(b)
	f := finding.Finding{Code: "SUP-03", Level: finding.Held, Subject: s, Source: row.Source,
		Limit: span(row.Along) + " along, " + span(row.Upright) + " upright"}
	if assumed != "" {
		f.Assumed = []string{assumed}
	}
	var w lines
	w.add("%s, diameter up to %s: supports every %s along, %s upright", br.Cable.Name, span(row.UpTo), span(row.Along), span(row.Upright))
	clips := 0
	for from := 0; from < len(br.Legs); {
		to, length, upright := piece(br.Legs, from)
		if length > 0 {
			every := row.Along
			if upright {
				every = row.Upright
			}
			n := ClipCount(length, every, to-from-1)
			w.add("%s: ⌈%s / %s⌉ + 1 + 2 × %d bends = %d", pieceName(upright), length, span(every), to-from-1, n)
			clips += n
		}
		from = to
	}
	if clips == 0 {
		return
	}
	w.add("one more within 150 mm of every end")
	f.Figure, f.Working = num(float64(clips), 0)+" clips", w.String()
	f.Text = s.Label + " needs about " + f.Figure
	emit(f)
}

// piece returns the end of the piece of equally clipped legs that starts at
// from, and its length; 0 for legs that need no clips.
func piece(legs []network.Leg, from int) (to int, length q.Metre, upright bool) {
	first := &legs[from]
	clipped := first.Support == network.Clipped || first.Support == network.OnStructure
	for to = from; to < len(legs); to++ {
		if l := &legs[to]; l.Support != first.Support || l.Rise != first.Rise {
			break
		}
		if clipped {
			length += max(legs[to].Length-legs[to].Loose, 0)
		}
	}
	return to, length, first.Rise
}

func pieceName(upright bool) string {
	if upright {
		return "upright"
	}
	return "along"
}

// ClipCount returns how many supports a piece of cable needs: its length over
// the spacing, rounded up, one more at the start and two at every bend.
// Lengths in metres, every above 0. Common practice, no source.
func ClipCount(length, every q.Metre, bends int) int {
	return int(math.Ceil(float64(length/every)-1e-9)) + 1 + 2*bends
}
