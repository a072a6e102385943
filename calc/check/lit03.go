package check

import (
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// FiledRule is the entry of LIT-03 for lists of codes; what is in a file is found out
// outside the calculation and told by LightFiled.
var FiledRule = Rule{Code: "LIT-03", Title: "Photometric file that does not fit its fitting, or is not whole"}

// FiledUse is a photometric file in use of which something is to be said.
type FiledUse struct {
	Fitting     string // its name
	File        string // its name
	Lamps       []finding.Subject
	Watts, Sure q.Watt // of the file and of the stock book, 0 where they need no word
	// Tilt says why the file that TILT= names was not taken in, "" for nothing.
	Tilt string
}

// LightFiled returns LIT-03, a Note about the first of the lamps and the others.
func LightFiled(u FiledUse) finding.Finding {
	f := finding.Finding{Code: FiledRule.Code, Level: finding.Note, Source: finding.Source{Evidence: finding.Practice}}
	if len(u.Lamps) > 0 {
		f.Subject, f.Also = u.Lamps[0], u.Lamps[1:]
	}
	var said []string
	var w lines
	if u.Watts > 0 {
		f.Figure, f.Limit = u.Watts.String(), u.Sure.String()+", or 10 % off it"
		said = append(said, "it is of "+u.Watts.String()+", the stock book says "+u.Sure.String()+": is it this fitting?")
		w.add("%s is of %s, the stock book says %s; up to 10 %% apart they count as the same", u.File, u.Watts, u.Sure)
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "look at the file under Light of this fitting; circuits are reckoned by the watts of the stock book"})
	}
	if u.Tilt != "" {
		said = append(said, "its output against tilt is taken as 1: "+u.Tilt)
		w.add("TILT= of %s: %s", u.File, u.Tilt)
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "put the file that TILT= names into the folder of the photometric file"})
	}
	f.Text = "the light of " + u.Fitting + " comes from " + u.File + ": " + strings.Join(said, "; ")
	f.Working = w.String()
	return f
}
