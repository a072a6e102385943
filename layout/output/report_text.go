package output

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"text/tabwriter"
)

func round(v float64, digits int) float64 {
	k := math.Pow10(digits)
	return math.Round(v*k)/k + 0 // not -0
}

// JSON writes a report as indented JSON with a final newline.
func JSON(w io.Writer, report any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(report)
}

// printed makes text of a scheme harmless where it is read as lines: signs that
// end a line, steer a terminal or turn the direction of writing become spaces.
type printed struct{ io.Writer }

func (p printed) Write(text []byte) (int, error) {
	if harmless(text) {
		return p.Writer.Write(text)
	}
	clean := bytes.Map(func(r rune) rune {
		if turnsOrEnds(r) {
			return ' '
		}
		return r
	}, text)
	if _, err := p.Writer.Write(clean); err != nil {
		return 0, err
	}
	return len(text), nil
}

// harmless reports whether a text is plain ASCII, as nearly all of it is.
func harmless(text []byte) bool {
	for _, b := range text {
		if b != '\n' && (b < ' ' || b >= 0x7F) {
			return false
		}
	}
	return true
}

func (h Heading) text(w io.Writer, what string) {
	title := plain(h.Scheme)
	if title == "" {
		title = "(untitled scheme)"
	}
	fmt.Fprintf(w, "%s: %s\nRule set: %s, %s\n%s\n\n", what, title, h.RuleSet, h.Edition, h.Statement)
}

// standing says what a reader of figures must know of the findings: that Stop
// findings stand, and what was decided against.
func (h Heading) standing(w io.Writer) {
	if h.Stops > 0 {
		fmt.Fprintf(w, "Stop findings stand: %d. Do not build from these figures; see the findings.\n", h.Stops)
	}
	for _, o := range h.Overruled {
		fmt.Fprintln(w, o.Line())
	}
	if h.Stops > 0 || len(h.Overruled) > 0 {
		fmt.Fprintln(w)
	}
}

// Line is one decision in words, for a line of print: what was found, then who, when
// and why.
func (o OverruledRow) Line() string {
	return fmt.Sprintf("Overruled: %s %s %s: %s (%s, %s: %s)", o.Level, o.Code, plain(o.Subject), plain(o.Text), plain(o.By), plain(o.On), plain(o.Reason))
}

// Text writes the findings for reading, each with its working indented.
func (r FindingsReport) Text(w io.Writer) error {
	w = printed{w}
	r.Heading.text(w, "Findings")
	if len(r.Findings) == 0 {
		fmt.Fprintf(w, "No findings: what was checked meets the limits set in %s.\n", r.RuleSet)
	}
	for _, f := range r.Findings {
		level := f.Level
		if f.Overruled != nil {
			level += " (overruled)"
		}
		fmt.Fprintf(w, "%s %s %s: %s\n", level, f.Code, f.Subject, f.Text)
		if f.Figure != "" {
			fmt.Fprintf(w, "    figure  %s", f.Figure)
			if f.Limit != "" {
				fmt.Fprintf(w, "   limit  %s", f.Limit)
			}
			fmt.Fprintln(w)
		}
		lines(w, "also", strings.Join(f.Also, ", "))
		lines(w, "source", f.Source)
		lines(w, "working", f.Working)
		for _, a := range f.Assumed {
			lines(w, "assumed", a)
		}
		for _, m := range f.Remedies {
			lines(w, "remedy", m.line())
		}
		if o := f.Overruled; o != nil {
			lines(w, "overruled", fmt.Sprintf("%s, %s: %s", o.By, o.On, o.Reason))
		}
	}
	_, err := fmt.Fprintf(w, "\nStop %d, Decide %d, Note %d, overruled %d\n", r.Counts.Stop, r.Counts.Decide, r.Counts.Note, r.Counts.Overruled)
	return err
}

// line is a way out in one line: what, what it would read, what cable it takes,
// and what it leaves or brings.
func (m RemedyRow) line() string {
	out := strings.TrimSuffix(m.Text+": "+m.Figure, ": ")
	if m.Metres == nil {
		return out
	}
	if !*m.Holds {
		out += ", not enough"
	}
	if len(m.Cables) == 0 {
		out += "; no more cable"
	}
	for _, c := range m.Cables {
		sign := " m more of "
		if c.Metres < 0 {
			sign = " m less of "
		}
		out += "; " + strconv.FormatFloat(math.Abs(c.Metres), 'f', -1, 64) + sign + dash(c.Name)
	}
	if m.Then != "" {
		out += "; " + m.Then
	}
	return out
}

// lines writes a labelled text, further lines indented under the first.
func lines(w io.Writer, label, text string) {
	if text == "" {
		return
	}
	for i, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if i > 0 {
			label = ""
		}
		fmt.Fprintf(w, "    %-9s %s\n", label, l)
	}
}

// Text writes the readings as tables: points, runs, what is left, and strings of
// constant current where there are any.
func (r ReadingsReport) Text(w io.Writer) error {
	p := printed{w}
	r.Heading.text(p, "Expected readings")
	r.standing(p)
	r.Load.text(p)
	if len(r.Strings) > 0 {
		return tables(w, r.pointTable, r.runTable, r.roomTable, r.stringTable)
	}
	return tables(w, r.pointTable, r.runTable, r.roomTable)
}

func (r ReadingsReport) pointTable() *table {
	t := newTable("Point", "System", "Volts", "expected V", "Drop V", "Drop %", "Current A", "Light %", "Zs hot Ω", "limit Ω", "Zs cold Ω", "R1+R2 cold Ω", r.testColumn(), "")
	t.grow(len(r.Points))
	for i := range r.Points {
		p := &r.Points[i]
		t.cell(p.Tag)
		t.cell(p.System)
		t.number(p.Voltage, 2)
		t.number(p.Expected, 2)
		t.number(p.DropVolt, 2)
		t.number(p.DropPercent, 2)
		t.number(p.Current, 3)
		if p.Darkest == nil {
			t.number(p.Light, 0)
		} else {
			t.cell(p.light())
		}
		t.number(p.Zs, 3)
		t.number(p.ZsLimit, 2)
		t.number(p.ZsCold, 3)
		t.number(p.R1R2Cold, 3)
		t.number(p.R1R2Test, 3)
		t.cell(p.NotKnown)
	}
	return t
}

func (r ReadingsReport) runTable() *table {
	t := newTable("Run", "Cable", "Plan m", "Cut m", "Current A", "Capacity A", "warm °C", "Method", "Smallest", "Binds", "Why")
	t.grow(len(r.Runs))
	for i := range r.Runs {
		row := &r.Runs[i]
		t.cell(row.Tag)
		t.cell(dash(row.Cable))
		t.number(&row.PlanLength, 2)
		t.number(&row.CutLength, 1)
		t.number(row.Current, 3)
		t.number(row.Capacity, 1)
		t.number(row.Operating, 0)
		t.cell(dash(row.Method))
		t.cell(dash(row.Smallest))
		t.cell(dash(row.SmallestBinds))
		t.cell(row.SmallestWhy)
	}
	return t
}

// light writes the light of a lamp, of a strip with that at its darkest place.
func (p *PointRow) light() string {
	if p.Darkest == nil {
		return cell(p.Light, 0)
	}
	return cell(p.Light, 0) + ", darkest " + cell(p.Darkest, 0)
}

// testColumn heads the column of the test day.
func (r ReadingsReport) testColumn() string {
	if r.TestTemperature == nil {
		return "R1+R2 at test Ω"
	}
	return "R1+R2 at " + cell(r.TestTemperature, 0) + " °C Ω"
}

// Text writes the cut list as a table with a total for each cable.
func (r LengthsReport) Text(w io.Writer) error {
	w = printed{w}
	r.Heading.text(w, "Cut list")
	r.standing(w)
	t := tabwriter.NewWriter(w, 0, 4, 2, ' ', 0)
	fmt.Fprintln(t, "Run\tFrom\tTo\tCable\tPlan m\tRises m\tTails m\tSlack m\tWaste %\tCut m")
	for _, p := range r.Pieces {
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%.2f\t%.2f\t%.2f\t%.2f\t%g\t%.1f\n", p.Run, p.From, p.To, dash(p.Cable),
			p.PlanLength, p.Rises, p.Tails, p.Slack, p.WastePercent, p.CutLength)
	}
	for _, s := range r.Totals {
		fmt.Fprintf(t, "\t\t\t%s\t\t\t\t\t%d pieces\t%.1f\n", dash(s.Cable), s.Pieces, s.CutLength)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	for _, p := range r.Plans {
		p.text(w)
	}
	_, err := fmt.Fprintln(w, "\nLengths include the allowances shown; measure before cutting.")
	return err
}

func cell(v *float64, digits int) string {
	if v == nil {
		return "-"
	}
	return strconv.FormatFloat(*v, 'f', digits, 64)
}

func dash(s string) string {
	if s == "" {
		return "-"
	}
	return s
}
