package output

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/internal/garden"
)

// What was decided against stays visible on the paper, with reason, name and
// date; at most eight in full, the rest by number.
func TestOverruledOnTheSheet(t *testing.T) {
	s := gardenSheet()
	s.Paper = "A3"
	s.Plan.Findings = []finding.Finding{{Code: "FLT-01", Level: finding.Stop, Subject: finding.Subject{ID: "L3", Label: "L3"}}}
	if text := string(picture(t, "svg", s)); strings.Contains(text, "Findings overruled") {
		t.Error("an open finding is listed as overruled")
	}
	for i := range 11 {
		s.Plan.Findings = append(s.Plan.Findings, finding.Finding{Code: finding.Code(fmt.Sprintf("CIR-%02d", i)), Level: finding.Decide,
			Subject: finding.Subject{ID: "L4", Label: "L4"}, Overruled: &finding.Overrule{By: "A. Tester", On: "2026-05-01", Reason: fmt.Sprintf("reason %d", i)}})
	}
	text := string(picture(t, "svg", s))
	for i := range 11 {
		listed := strings.Contains(text, fmt.Sprintf("CIR-%02d L4: reason %d", i, i))
		if listed != (i < 8) {
			t.Errorf("finding %d listed: %v", i, listed)
		}
	}
	for _, want := range []string{"Findings overruled", "2026-05-01)", "and 3 more: see the findings", "Symbols"} {
		if !strings.Contains(text, want) {
			t.Errorf("the sheet lacks %q", want)
		}
	}
	for _, c := range []struct {
		o    finding.Overrule
		want string
	}{{finding.Overrule{Reason: "wet"}, "FLT-01 L3: wet"}, {finding.Overrule{By: "A", Reason: "wet"}, "FLT-01 L3: wet (A)"}, {finding.Overrule{On: "today", Reason: "wet"}, "FLT-01 L3: wet (today)"}} {
		f := finding.Finding{Code: "FLT-01", Subject: finding.Subject{Label: "L3"}, Overruled: &c.o}
		if got := overruledWords(&f); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// A reason of a sentence is read to its end, with name and date, on A4 too.
func TestOverruledReasonIsNotCut(t *testing.T) {
	s := gardenSheet()
	s.Paper = "A4"
	s.Plan.Findings = []finding.Finding{{Code: "VD-02", Level: finding.Decide, Subject: finding.Subject{ID: "L4", Label: "L4"},
		Overruled: &finding.Overrule{By: "A. Tester", On: "2026-05-01", Reason: "the client has seen the lamp dimmed to this and takes it so"}}}
	text := string(picture(t, "svg", s))
	if !strings.Contains(text, "2026-05-01)") && !strings.Contains(text, ">05-01)") {
		t.Error("the date of the decision is cut off")
	}
	if strings.Contains(text, "…") {
		t.Error("something on the sheet is cut off")
	}
}

// The circuit is a sheet as well: it lists them beside its notes, and what finds
// no room is told of.
func TestOverruledOnTheCircuit(t *testing.T) {
	for _, c := range []struct {
		turn    string
		n, full int
	}{{"landscape", 0, 0}, {"landscape", 1, 1}, {"landscape", 8, 8}, {"portrait", 1, 1}, {"portrait", 8, 4}} {
		s := chainSheet(3)
		s.Paper, s.Turn = "A4", c.turn
		for i := range c.n {
			s.Plan.Findings = append(s.Plan.Findings, finding.Finding{Code: "EAR-01", Level: finding.Decide, Subject: finding.Subject{ID: "L1", Label: "L1"},
				Overruled: &finding.Overrule{By: "A. Tester", On: "2026-05-01", Reason: fmt.Sprintf("reason %d, an electrode of its own", i)}})
		}
		l, err := CircuitPage(s)
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		for _, it := range l.Items {
			if it.Text != "" {
				fmt.Fprintln(&all, it.Text)
				if y := it.Points[0].Y; y > l.Height-edge {
					t.Errorf("%s, %d: %q at %.1f mm lies below the frame", c.turn, c.n, it.Text, y)
				}
			}
		}
		text := all.String()
		if got := strings.Count(text, "EAR-01 L1: reason"); got < min(c.n, c.full) {
			t.Errorf("%s, %d overruled: %d are listed, want at least %d\n%s", c.turn, c.n, got, c.full, text)
		} else if more := strings.Contains(text, "and others: see the findings"); more != (got < c.n) {
			t.Errorf("%s: %d of %d are listed, others told of: %v", c.turn, got, c.n, more)
		}
		if strings.Contains(text, "Findings overruled") != (c.n > 0) {
			t.Errorf("%s, %d overruled: heading is wrong", c.turn, c.n)
		}
	}
}

// The drawing file is a sheet too: reason, name and date stand whole below it, on a
// layer of their own, within its extents; without a decision there is no such layer.
func TestOverruledOnTheDrawing(t *testing.T) {
	s, _, _ := garden.Small()
	f := &layout.Frame{Scheme: s, Circuits: &derive.Circuits{}}
	_, layers, before := drawing(t, dxfOf(t, f))
	if layers["NOTES"] {
		t.Error("a layer of notes without a note")
	}
	reason := strings.TrimSpace(strings.Repeat("the client has seen the lamp dimmed to this and takes it so, ", 6))
	f.Findings = []finding.Finding{{Code: "CIR-01", Level: finding.Stop, Subject: finding.Subject{Label: "L3"}},
		{Code: "VD-02", Level: finding.Decide, Subject: finding.Subject{ID: "L4", Label: "L4"},
			Overruled: &finding.Overrule{By: "A. Tester", On: "2026-05-01", Reason: reason}}}
	all, layers, header := drawing(t, dxfOf(t, f))
	var lines []string
	for _, d := range all {
		if d.layer != "NOTES" {
			continue
		}
		lines = append(lines, d.text)
		if y := d.ps[0][1]; d.kind != "TEXT" || y >= before["$EXTMIN20"] || y < header["$EXTMIN20"] {
			t.Errorf("%s %q at %v; the drawing begins at %g, with its notes at %g", d.kind, d.text, d.ps, before["$EXTMIN20"], header["$EXTMIN20"])
		}
	}
	want := "Findings overruled VD-02 L4: " + reason + " (A. Tester, 2026-05-01)"
	if got := strings.Join(lines, " "); got != want || !layers["NOTES"] {
		t.Errorf("notes read %q, want %q", got, want)
	}
}
