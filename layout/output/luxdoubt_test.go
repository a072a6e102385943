package output_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
)

// TestLuxDoubt: at the dim end of scenario 2 the report says of L10 at which volts its
// light is not known, how it was drawn (56 %: trade notes 9, scenario 2) and between what
// the light lies; at the near end there is nothing to say.
func TestLuxDoubt(t *testing.T) {
	scheme, stock, rules, err := file.Open("../../testdata/scenarios/2-dim-end.yaml", "", "")
	if err != nil {
		t.Fatal(err)
	}
	desk := layout.NewDesk(stock, rules, scheme, "")
	at := func(x float64) output.LuxReport {
		r, err := output.LuxOf(desk.Frame(), output.RulesOf(desk.Rules(), desk.Frame().Scheme), light.Vec{X: x, Y: 0.5})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	r := at(32)
	d := r.Doubts[len(r.Doubts)-1]
	if d.Tag != "L10" || d.Volts == nil || math.Abs(*d.Volts-10.13) > 0.01 || math.Abs(d.Drawn-56) > 0.5 || d.Least != 0 || d.Most != 100 || d.Why != "below 10.8 V" {
		t.Errorf("%+v", d)
	}
	if !(r.Least < r.Horizontal && r.Horizontal < r.Most) || math.Abs(r.Horizontal/r.Most-0.56) > 0.02 {
		t.Errorf("%g lx lies between %g and %g", r.Horizontal, r.Least, r.Most)
	}
	var text strings.Builder
	if err := r.Text(&text); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"L10: light not known at 10.13 V, below 10.8 V; drawn at 56 %", "so that here may be "} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("lacks %q:\n%s", want, text.String())
		}
	}
	if r := at(4); len(r.Doubts) > 0 && r.Least < 0.99*r.Horizontal {
		t.Errorf("near L1: %+v", r.Doubts)
	}
}
