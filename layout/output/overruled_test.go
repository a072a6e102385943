package output

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/calc/finding"
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
