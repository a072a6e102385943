package check

import (
	"math"
	"strconv"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// PictureRule is the entry of PIC-01 for lists of codes; what became of a file
// is found out outside the calculation and told by PictureGone.
var PictureRule = Rule{Code: "PIC-01", Title: "Picture under the plan missing or changed"}

// PictureGone returns PIC-01, a Note: the picture that the plan was drawn over
// is not there, cannot be read, or is not the one it was. The drawing itself
// does not suffer. found says in words what was found.
func PictureGone(name, found string, changed bool) finding.Finding {
	f := finding.Finding{Code: PictureRule.Code, Level: finding.Note, Subject: finding.Subject{Label: "picture"},
		Source: finding.Source{Evidence: finding.Practice}, Working: found}
	if changed {
		f.Text = "the picture " + name + " under the plan is not the one that the plan was drawn over: " + found
		f.Remedies = []finding.Remedy{{Text: "compare the plan with the picture; choose it again with Replace if the change is meant, then check its scale"}}
	} else {
		f.Text = "the picture under the plan is not shown: " + found
		f.Remedies = []finding.Remedy{{Text: "put the file back, choose it again with Replace, or remove the picture from the plan"}}
	}
	return f
}

// ScaleUse is how the picture under the plan was scaled and checked.
type ScaleUse struct {
	Name   string // of the picture
	Scaled bool   // a known length was given
	// Checked says that there is a second known length, True, which measures
	// Drawn on the picture.
	Checked     bool
	Drawn, True q.Metre
	// ByHand says that someone compared a known dimension with the drawing.
	ByHand bool
}

// scaleLimit is the error of the check dimension from which a scale is doubted:
// a centimetre in a metre, half a metre of cable in fifty. Common practice, no
// source.
const scaleLimit = 0.01

// Scale returns CIR-10 when the scale of the picture under the plan was not
// checked against a second known dimension, or when that is off by more than
// 1 % of its true length; nothing when it holds.
func Scale(u ScaleUse) []finding.Finding {
	f := Flaw(network.Fault{Kind: network.ScaleUnchecked})
	f.Source = finding.Source{Clause: "habit of the trade", Evidence: finding.Practice}
	switch {
	case u.Checked:
		off := float64(u.Drawn-u.True) / float64(u.True)
		// A millionth of the length for the micrometres that lengths are kept in.
		if !(math.Abs(off) > scaleLimit+1e-6) {
			return nil
		}
		f.Figure, f.Limit = signed(off), "at most "+q.Percent(scaleLimit)+" either way"
		f.Text = "the check dimension measures " + u.Drawn.String() + " on the picture " + u.Name + " and is " + u.True.String() +
			" in truth (" + signed(off) + "), so lengths taken from it may be off as much"
		var w lines
		w.add("error = (drawn - true) / true = (%s - %s) / %s = %s", u.Drawn, u.True, u.True, signed(off))
		f.Working = w.String()
		f.Remedies = []finding.Remedy{{Text: "scale the picture again by its longest known length; a photo taken at a slant or a paper that shrank never fits everywhere"}}
	case !u.Scaled:
		f.Text = "the picture " + u.Name + " under the plan has no scale yet, so lengths taken from it mean nothing"
		f.Remedies = []finding.Remedy{{Text: "take Scale picture, click two points and type how far apart they are; then check a second length"}}
	case u.ByHand:
		return nil
	default:
		f.Text = "the scale of the picture " + u.Name + " rests on one length and was not compared with a second one"
		f.Remedies = []finding.Remedy{{Text: "take Scale picture and check a second known length, best across the first"}}
	}
	if f.Figure == "" {
		f.Working = "read from the drawing: " + f.Text
	}
	return []finding.Finding{f}
}

// signed writes a part of a whole with its sign: "+1.40 %".
func signed(part float64) string {
	s := strconv.FormatFloat(part*100, 'f', 2, 64) + " %"
	if part > 0 {
		s = "+" + s
	}
	return s
}
