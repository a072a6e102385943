package judge

import "duskwire/calc/finding"

// PolarityAt is whether line is at the line terminal of a point. Source: BS 7671
// 643.6.
type PolarityAt struct {
	// Before says that the point before was found reversed too, by its label.
	Before string
}

// Expected implements Ask.
func (p PolarityAt) Expected(Day) string { return "right" }

// Limit implements Ask.
func (p PolarityAt) Limit() string { return "right" }

// Judge implements Ask.
func (p PolarityAt) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: "right", Source: memory("643.6"), Figure: v.Word, Text: "line at the line terminal"}
	if v.Word == "right" {
		return j
	}
	j.Verdict, j.Text = Outside, "line and neutral are reversed here"
	j.Points = []string{"swapped at this point, or at the box before it"}
	if p.Before != "" {
		j.Points = []string{"reversed at " + p.Before + " already: look nearer the supply"}
	}
	return j
}
