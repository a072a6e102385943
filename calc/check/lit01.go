package check

import (
	"duskwire/calc/finding"
)

// LightRule is the entry of LIT-01 for lists of codes; what became of a file is
// found out outside the calculation and told by LightGone.
var LightRule = Rule{Code: "LIT-01", Title: "Photometric file of a fitting missing, broken or changed"}

// LightRules are the entries of all rules about where light comes from.
var LightRules = []Rule{LightRule, SheetRule, FiledRule}

// LightUse is a photometric file that could not be used.
type LightUse struct {
	Fitting string // name of the fitting
	Lamps   []finding.Subject
	// Found says in words what was found and what was expected.
	Found   string
	Changed bool // there is a file, but another one than was taken in
	Dark    bool // the stock book has no lumens either
}

// LightGone returns LIT-01, a Note about the first of the lamps and the others:
// their light is drawn from the lumens and the beam of the stock book, because
// the file that it should come from is not there, cannot be read, or is not the
// one it was. Nothing but pictures and figures of light depends on it.
func LightGone(u LightUse) finding.Finding {
	f := finding.Finding{Code: LightRule.Code, Level: finding.Note, Source: finding.Source{Evidence: finding.Practice}, Working: u.Found}
	if len(u.Lamps) > 0 {
		f.Subject, f.Also = u.Lamps[0], u.Lamps[1:]
	}
	f.Text = "the light of " + u.Fitting + " is drawn from the lumens and beam of the stock book: " + u.Found
	if u.Dark {
		f.Text = "the light of " + u.Fitting + " is left dark, since the stock book has no lumens either: " + u.Found
	}
	f.Remedies = []finding.Remedy{{Text: "put the file back, choose it again under Light of this fitting, or take the light from the stock book"}}
	if u.Changed {
		f.Remedies[0].Text = "look at the file under Light of this fitting and take it in again if the change is meant"
	}
	return f
}
