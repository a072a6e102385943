package output

import (
	"bytes"
	"duskwire/layout/scene"
	"io"
	"math"
	"strings"
	"testing"
)

// TestTextIsHarmless: what a scheme is called cannot forge a line of a report,
// steer a terminal or turn the direction of writing.
func TestTextIsHarmless(t *testing.T) {
	h := Heading{Scheme: "Garden\nStop FAKE-01 L9: forged\u202e\u2028\x1b[31m", RuleSet: "set\u2066"}
	var b strings.Builder
	for _, write := range []func() error{
		func() error { return FindingsReport{Heading: h}.Text(&b) },
		func() error {
			return ReadingsReport{Heading: h, Points: []PointRow{{Tag: "L\u202e1"}}, Runs: []RunRow{{Tag: "R\u20281"}}}.Text(&b)
		},
		func() error { return LengthsReport{Heading: h, Pieces: []PieceRow{{Run: "R\u202e1"}}}.Text(&b) },
	} {
		if err := write(); err != nil {
			t.Fatal(err)
		}
	}
	if text := b.String(); strings.Contains(text, "\nStop FAKE") || strings.ContainsAny(text, "\u202e\u2028\u2066\x1b") {
		t.Errorf("%q", text)
	}
}

// TestRoundHasNoMinusNought: a length of nothing is 0.0 m, not -0.0 m.
func TestRoundHasNoMinusNought(t *testing.T) {
	for _, v := range []float64{math.Copysign(0, -1), -1e-9} {
		if r := round(v, 3); math.Signbit(r) {
			t.Errorf("round(%g) is %g", v, r)
		}
	}
}

// TestOverrulesInEveryReport: what was decided against stays visible in the
// readings and the cut list too, in text and in JSON, and a Stop that stands is
// said there.
func TestOverrulesInEveryReport(t *testing.T) {
	h := Heading{Stops: 2, Overruled: []OverruledRow{{"RCD-01", "Stop", "L1", "no residual device", OverruleRow{"A. Tester", "2026-11-25", "fitted later"}}}}
	for name, r := range map[string]interface{ Text(io.Writer) error }{
		"readings": ReadingsReport{Heading: h}, "lengths": LengthsReport{Heading: h},
	} {
		var text, js bytes.Buffer
		if err := r.Text(&text); err != nil {
			t.Fatal(err)
		}
		if err := JSON(&js, r); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"Stop findings stand: 2", "Overruled: Stop RCD-01 L1: no residual device (A. Tester, 2026-11-25: fitted later)"} {
			if !strings.Contains(text.String(), want) {
				t.Errorf("%s does not say %q", name, want)
			}
		}
		if !strings.Contains(js.String(), `"reason": "fitted later"`) {
			t.Errorf("%s: no overrule in JSON", name)
		}
	}
}

// TestAmendmentOnTheSheet: plan and circuit say of what time the values of the rule
// set are, and that the current ones are to be looked at; no line falls off the title
// block, with a name and an author as well.
func TestAmendmentOnTheSheet(t *testing.T) {
	f := frameOf(t, townhouse)
	s := *f.Scheme
	s.Author, s.Title = "A. Tester", "A long title that takes two lines of the block, for the whole of the garden behind the house"
	own := *f
	own.Scheme = &s
	sheet, err := sheetOf(&own, "United Kingdom, 18th edition", "2026-05-01")
	if err != nil {
		t.Fatal(err)
	}
	circuit := sheet
	circuit.Circuit = &scene.OneLineInput{Scheme: &s, Stock: f.Stock, Circuits: f.Circuits, Results: f.Results, Findings: f.Findings}
	for name, in := range map[string]Sheet{"plan": sheet, "circuit": circuit} {
		page := Page
		if in.Circuit != nil {
			page = CircuitPage
		}
		l, err := page(in)
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, it := range l.Items {
			if it.Text == "" {
				continue
			}
			all = append(all, it.Text)
			if strings.HasSuffix(it.Text, "decide.") {
				if y := it.Points[0].Y; y > l.Height-edge-1 {
					t.Errorf("%s: the last caution lies at %.1f mm, the frame at %.1f mm", name, y, l.Height-edge)
				}
			}
		}
		text := strings.Join(all, " ")
		for _, want := range []string{"18th edition, values of the time of Amendment 2 (2022); check against the current amendment.", "competent person decide."} {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q", name, want)
			}
		}
	}
}
