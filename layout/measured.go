package layout

import (
	"strconv"
	"strings"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/layout/doc"
)

// measured returns what the readings say: TST-01 for what lies outside its limit,
// one for everything that was tested, at the level of the rule that the limit comes
// from; TST-02 for what is far from expected; TST-03, a Note, for readings of what
// the drawing no longer has. Nothing without readings.
func measured(f *Frame, rules *check.Rules) []finding.Finding {
	if len(f.Scheme.Visits) == 0 {
		return nil
	}
	t := unsorted(f, rules) // the findings are sorted anyway
	out := map[finding.Code]*gathered{"TST-01": {}, "TST-02": {}}
	for i := range t.Rows {
		r := &t.Rows[i]
		j, ok := t.Judge(r)
		switch {
		case !ok:
		case j.Verdict == judge.Outside:
			out["TST-01"].take(r, &j, "TST-01", j.Level)
		case j.Verdict == judge.Far:
			out["TST-02"].take(r, &j, "TST-02", finding.Decide)
		}
	}
	list := append(out["TST-01"].list, out["TST-02"].list...)
	return append(list, strayNotes(f.Scheme, t.Stray)...)
}

// gathered collects the findings of one code, one for every entity: the first
// reading at the worst level speaks, the others stand in the working.
type gathered struct {
	list []finding.Finding
	at   map[doc.ID]int
}

func (g *gathered) take(r *TestRow, j *judge.Judgement, code finding.Code, level finding.Level) {
	if g.at == nil {
		g.at = map[doc.ID]int{}
	}
	i, seen := g.at[r.On]
	if !seen {
		i = len(g.list)
		g.at[r.On] = i
		g.list = append(g.list, finding.Finding{Code: code, Subject: finding.Subject{ID: string(r.On), Label: r.Label}})
	}
	f := &g.list[i]
	text := r.Title() + ": " + j.Text
	working := text + "\n" + j.Working
	for _, p := range j.Points {
		working += "points to: " + p + "\n"
	}
	if seen && level <= f.Level {
		f.Working += working
		f.Text = strings.TrimSuffix(f.Text, "; see the working for more") + "; see the working for more"
		return
	}
	f.Level, f.Text, f.Figure, f.Limit, f.Source, f.Assumed = level, text, j.Figure, j.Limit, j.Source, j.Assumed
	f.Working = working + f.Working
	f.Remedies = nil
	for _, p := range j.Points {
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "points to: " + p})
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Text: "find the cause, put it right, and enter the new reading"})
}

// Title names the test and what of the thing was tested: "RCD time at IΔn, B16
// RCBO 30 mA".
func (r *TestRow) Title() string {
	if r.Of == "" {
		return r.Test.String()
	}
	return r.Test.String() + ", " + r.Of
}

// strayNotes tells readings of what is not tested any more.
func strayNotes(s *doc.Scheme, list []doc.Taken) (out []finding.Finding) {
	at := map[doc.ID]int{}
	for _, t := range list {
		i, seen := at[t.On]
		if !seen {
			i = len(out)
			at[t.On] = i
			tag := doc.TagOf(s, t.On)
			out = append(out, finding.Finding{Code: "TST-03", Level: finding.Note, Subject: finding.Subject{ID: string(t.On), Label: tag},
				Source:   finding.Source{Evidence: finding.Practice},
				Text:     tag + " has readings of what the drawing no longer has there",
				Remedies: []finding.Remedy{{Text: "draw what is there, or clear the reading"}}})
		}
		line := "visit " + strconv.Itoa(t.Visit+1) + ": " + t.Test.String()
		if t.Part != "" {
			line += ", " + t.Part
		}
		out[i].Working += line + " read " + t.Value.Text(t.Test) + "\n"
	}
	return out
}
