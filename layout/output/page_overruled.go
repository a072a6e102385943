package output

import (
	"strconv"

	"duskwire/calc/finding"
	"duskwire/layout/scene"
)

const (
	mostOverruled = 8 // overruled findings that the sheet has room for
	// linesOverruled is how long one may be: reason, name and date are what a reader
	// of the sheet goes by, so that they are not cut after three lines as a symbol is.
	linesOverruled = 8
)

// overruled lists the findings that were decided against, so that they stay
// visible on the paper too: the mark of the plan, what and where, the reason,
// who and when. It comes before the other groups of the legend, for what finds
// no room is dropped from the end.
func (p *sheet) overruled(s Sheet) []legendRow {
	var rows []legendRow
	more := 0
	for i := range s.Plan.Findings {
		f := &s.Plan.Findings[i]
		switch {
		case f.Overruled == nil:
		case len(rows) > mostOverruled:
			more++
		default:
			if rows == nil {
				rows = append(rows, legendRow{heading: "Findings overruled"})
			}
			rows = append(rows, legendRow{sample: scene.Badge(f.Level, true, scene.XY{}, p.pal), words: overruledWords(f), lines: linesOverruled})
		}
	}
	if more > 0 {
		rows = append(rows, legendRow{words: "and " + strconv.Itoa(more) + " more: see the findings"})
	}
	return rows
}

func overruledWords(f *finding.Finding) string {
	o, words := f.Overruled, string(f.Code)
	if f.Subject.Label != "" {
		words += " " + f.Subject.Label
	}
	words += ": " + o.Reason
	switch {
	case o.By != "" && o.On != "":
		words += " (" + o.By + ", " + o.On + ")"
	case o.By != "" || o.On != "":
		words += " (" + o.By + o.On + ")"
	}
	return words
}
