package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// SheetRule is the entry of LIT-02 for lists of codes; what a model comes to is
// worked out outside the calculation and told by LightSheet.
var SheetRule = Rule{Code: "LIT-02", Title: "Lumens, beam and peak of a fitting that do not agree"}

// SheetUse is a fitting whose lumens cannot be those of its beam and peak.
type SheetUse struct {
	Fitting string // its name
	Lamps   []finding.Subject
	Flux    q.Lumen   // of the stock book
	Peak    q.Candela // of the stock book
	Beam    string    // "24°", "20° by 60°"
	Gives   q.Lumen   // of a beam with that peak
}

// LightSheet returns LIT-02, a Note about the first of the lamps and the others:
// peak and beam are kept, so that the light that is drawn has another flux than the
// stock book says. One of the three figures is of something else.
func LightSheet(u SheetUse) finding.Finding {
	f := finding.Finding{Code: SheetRule.Code, Level: finding.Note, Source: finding.Source{Evidence: finding.Derived},
		Figure: num(float64(u.Gives), 0) + " lm", Limit: num(float64(u.Flux), 0) + " lm, or 5 % off it"}
	if len(u.Lamps) > 0 {
		f.Subject, f.Also = u.Lamps[0], u.Lamps[1:]
	}
	f.Text = "the figures of " + u.Fitting + " do not agree: a peak of " + num(float64(u.Peak), 0) + " cd in a beam of " + u.Beam + " makes " +
		num(float64(u.Gives), 0) + " lm, the stock book says " + num(float64(u.Flux), 0) + " lm; drawn by peak and beam"
	var w lines
	w.add("I = I1·s + I2·cos θ with I1 + I2 = %s cd, s the shape of the beam of %s, 1 in its middle", num(float64(u.Peak), 0), u.Beam)
	w.add("no spill I2 from 0 to the peak makes %s lm of it, within 5 %%", num(float64(u.Flux), 0))
	w.add("peak and beam are kept: %s lm", num(float64(u.Gives), 0))
	f.Working = w.String()
	f.Remedies = []finding.Remedy{{Text: "look whether the lumens are those of the bare lamp, whether the beam is to a tenth instead of half of the peak, and of which version the peak is"}}
	return f
}
