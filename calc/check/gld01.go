package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// GLD-01: the kind of gland. BW has no seal on the outer sheath and is for dry
// places; no kind is made to lie in the ground or in water. Where the plan does
// not say, a sealed one is fitted outdoors. Source: BS 6121, BS EN 62444 (from
// memory).
var glandKindRule = Rule{Code: "GLD-01", Title: "Kind of gland", Run: glandKind}

var glandSource = finding.Source{Standard: "BS 6121 and BS EN 62444", Clause: "types BW, CW, E1W", Evidence: finding.Memory}

// glandAt is one gland that does not suit its place.
type glandAt struct {
	b, node int
	sunk    bool
	kind    string
}

func glandKind(c *Context, emit func(finding.Finding)) {
	var unsealed, sunk []glandAt
	c.glanded(func(b, node int, e network.End) {
		switch g := (glandAt{b, node, c.sunk(node), e.Type()}); {
		case g.sunk:
			sunk = append(sunk, g)
		case e.Gland == "BW" && e.Support != network.Indoors:
			unsealed = append(unsealed, g)
		}
	})
	take, flush := single(emit)
	for _, bad := range [2][]glandAt{unsealed, sunk} {
		for k, g := range bad {
			if k == 0 || c.Asked(c.runSubject(g.b).ID) && g.b != bad[k-1].b {
				take(glandFinding(c, bad, g))
			}
		}
	}
	flush()
	if c.Explain != "" {
		glandsHeld(c, append(unsealed, sunk...), emit)
	}
}

// glandFinding is about some glands that are unfit for one reason.
func glandFinding(c *Context, bad []glandAt, first glandAt) finding.Finding {
	f := finding.Finding{Code: "GLD-01", Level: finding.Decide, Subject: c.runSubject(first.b), Source: glandSource,
		Figure: first.kind, Limit: "CW or better outdoors, none in the ground or in water"}
	f.Also = append(f.Also, c.subject(first.node))
	why := "no seal on the outer sheath"
	if first.sunk {
		why = "below ground or in water, where no gland is made to lie"
	}
	var w lines
	for _, g := range bad {
		w.add("%s at %s: %s, %s", c.runSubject(g.b).Label, c.subject(g.node).Label, g.kind, why)
		if g.b != first.b {
			f.Also = append(f.Also, c.runSubject(g.b))
		}
	}
	f.Working = w.String()
	f.Text = "the " + first.kind + " gland of " + c.runSubject(first.b).Label + " at " + c.subject(first.node).Label
	if first.sunk {
		f.Text += " lies below ground or in water"
		f.Remedies = []finding.Remedy{{Text: "end the armour above ground, or in a joint made for burial"}}
	} else {
		f.Text += " has no seal on the outer sheath and stands outdoors"
		f.Remedies = []finding.Remedy{{Text: "use CW, or E1W where the inner bedding has to be sealed too", Figure: count(len(bad), "gland", "glands")}}
	}
	return f
}

// glandsHeld tells the kinds of gland of the run asked for.
func glandsHeld(c *Context, bad []glandAt, emit func(finding.Finding)) {
	var w lines
	var s finding.Subject
	for _, g := range bad {
		if c.Asked(c.runSubject(g.b).ID) {
			return
		}
	}
	c.glanded(func(b, node int, e network.End) {
		if s = c.runSubject(b); c.Asked(s.ID) {
			said := ""
			if e.Gland == "" {
				said = " (not said, a sealed one taken)"
			}
			w.add("%s at %s: %s%s", s.Label, c.subject(node).Label, e.Type(), said)
		}
	})
	if len(w) > 0 {
		s = finding.Subject{ID: c.Explain, Label: c.labelOf(c.Explain)}
		emit(finding.Finding{Code: "GLD-01", Level: finding.Held, Subject: s, Source: glandSource,
			Text: "the glands of " + s.Label + " suit their places", Working: w.String()})
	}
}

// labelOf returns the label of a run by its id, of the supply point for its
// indoor leg.
func (c *Context) labelOf(id string) string {
	for b := range c.Net.Branches {
		if s := c.runSubject(b); s.ID == id {
			return s.Label
		}
	}
	return ""
}
