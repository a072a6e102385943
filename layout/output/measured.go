package output

import (
	"fmt"
	"io"
	"strings"

	"duskwire/calc/check"
	"duskwire/calc/judge"
	"duskwire/layout"
	"duskwire/layout/doc"
)

// MeasuredReport lists everything that is to be read with what was read and what
// that comes to.
type MeasuredReport struct {
	Heading
	Measured MeasuredCounts `json:"measured_counts"`
	Tests    []MeasuredRow  `json:"tests"`
}

// MeasuredCounts says how far the testing is.
type MeasuredCounts struct {
	Asked    int `json:"asked"`
	Read     int `json:"read"`
	Pass     int `json:"pass"`
	Far      int `json:"far_from_expected"`
	Outside  int `json:"outside_the_limit"`
	Unjudged int `json:"not_judged"`
	Stray    int `json:"no_longer_drawn"`
}

// MeasuredRow is one reading. What was not measured has no figure and the verdict
// "not measured"; that is never 0.
type MeasuredRow struct {
	Test        string   `json:"test"`
	ID          string   `json:"id"`
	Tag         string   `json:"tag"`
	Of          string   `json:"of"`
	Expected    string   `json:"expected"`
	Limit       string   `json:"limit"`
	Reads       string   `json:"reads"`
	Figure      *float64 `json:"figure"` // in Unit, as the meter showed it
	Unit        string   `json:"unit"`
	Verdict     string   `json:"verdict"`
	Judgement   string   `json:"judgement"`
	PointsTo    string   `json:"points_to"`
	On          string   `json:"read_on"`
	By          string   `json:"read_by"`
	Temperature *float64 `json:"read_celsius"`
	Instrument  string   `json:"instrument"`
	Remark      string   `json:"remark"`
}

// notMeasured is the verdict of what nobody read.
const notMeasured = "not measured"

// overruledTest marks the rows of a CSV that are no readings but decisions.
const overruledTest = "overruled"

// MeasuredOf returns what was read of a frame.
func MeasuredOf(f *layout.Frame, rules *check.Rules) MeasuredReport {
	r := MeasuredReport{Heading: headingOf(f, rules), Tests: []MeasuredRow{}}
	t := layout.TestsOf(f, rules)
	c := &r.Measured
	c.Asked, c.Stray = len(t.Rows), len(t.Stray)
	for i := range t.Rows {
		x := &t.Rows[i]
		row := MeasuredRow{Test: x.Test.Key(), ID: string(x.On), Tag: x.Label, Of: x.Of, Expected: t.Expected(x), Limit: x.Ask.Limit(), Unit: x.Test.Unit(), Verdict: notMeasured}
		if j, ok := t.Judge(x); ok {
			c.Read++
			*map[judge.Verdict]*int{judge.Pass: &c.Pass, judge.Far: &c.Far, judge.Outside: &c.Outside, judge.Unjudged: &c.Unjudged}[j.Verdict]++
			row.Verdict, row.Judgement, row.PointsTo = j.Verdict.String(), j.Text, strings.Join(j.Points, "; ")
			row.taken(f.Scheme, x.Taken)
		}
		r.Tests = append(r.Tests, row)
	}
	for _, s := range t.Stray {
		row := MeasuredRow{Test: s.Test.Key(), ID: string(s.On), Tag: doc.TagOf(f.Scheme, s.On), Of: s.Part, Unit: s.Test.Unit(), Verdict: judge.Unjudged.String(), Judgement: "no longer drawn there"}
		row.taken(f.Scheme, s)
		r.Tests = append(r.Tests, row)
	}
	return r
}

// taken fills in what was read, when and by whom.
func (m *MeasuredRow) taken(s *doc.Scheme, t doc.Taken) {
	v := &s.Visits[t.Visit]
	m.Reads, m.Remark = t.Value.Text(t.Test), t.Remark
	if len(t.Test.Words()) == 0 {
		m.Figure = known(t.Value.SI/t.Test.Scale(), t.Value.Bound == judge.Exact, 6)
	}
	m.On, m.By, m.Instrument = v.On, v.By, v.Instrument
	m.Temperature = known(v.Temperature.Value.Celsius(), v.Temperature.Known, 1)
}

// Text writes the readings as a table.
func (r MeasuredReport) Text(w io.Writer) error {
	p := printed{w}
	r.Heading.text(p, "Measured readings")
	r.standing(p)
	c := r.Measured
	fmt.Fprintf(p, "%d of %d read: %d pass, %d far from expected, %d outside the limit, %d not judged\n", c.Read, c.Asked, c.Pass, c.Far, c.Outside, c.Unjudged)
	if c.Stray > 0 {
		fmt.Fprintf(p, "%d of what is no longer drawn\n", c.Stray)
	}
	fmt.Fprintln(p)
	t := newTable("Test", "Point", "Of", "Expected", "Limit", "Read", "Verdict", "What it says")
	t.grow(len(r.Tests))
	for i := range r.Tests {
		m := &r.Tests[i]
		says := m.Judgement
		if m.PointsTo != "" {
			says += ". Points to: " + m.PointsTo
		}
		t.row(m.Test, m.Tag, dash(m.Of), dash(m.Expected), dash(m.Limit), dash(m.Reads), m.Verdict, says)
	}
	return tables(w, func() *table { return t })
}

// CSV writes the readings as a list for other programs. What was decided against
// follows in rows of the test "overruled", in the same columns: the code in of, what
// was found in judgement, when and who in read_on and read_by, why in remark.
func (r MeasuredReport) CSV(w io.Writer) error {
	for _, o := range r.Overruled {
		r.Tests = append(r.Tests[:len(r.Tests):len(r.Tests)], MeasuredRow{Test: overruledTest, Tag: o.Subject, Of: o.Code, Verdict: overruledTest,
			Judgement: o.Level + ": " + o.Text, On: o.On, By: o.By, Remark: o.Reason})
	}
	return CSV(w, measuredTable(r))
}

func measuredTable(r MeasuredReport) DataTable { return tableOf("measured", "Measured", r.Tests) }
