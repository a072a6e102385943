package layout_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

const ownWay = "by a way of its own at the board instead of the spur"

// TestOwnWayInsteadOfTheSpur: the loop of the new way is Ze and the leg, not
// what was measured on the old circuit. 2.5 mm² twin and earth has 7.41 mΩ/m and
// a protective conductor of 1.5 mm² with 12.1 mΩ/m at 20 °C (BS EN 60228), × 1.20
// hot (BS 7671 Appendix 3): 0.35 + 9 × 19.51e-3 × 1.20 = 0.5607 Ω.
func TestOwnWayInsteadOfTheSpur(t *testing.T) {
	d := scenario(t, gateFile)
	supply(spurred)(t, d)
	fd := findingOf(t, d.Frame(), "FLT-02")
	c, at := cureLike(cures(d.Frame(), fd), ownWay)
	if at != 0 || !c.Holds || c.Operation == nil {
		t.Fatalf("number %d, %+v", at+1, c)
	}
	if !strings.HasPrefix(c.Figure, q.Ohm(0.5607).String()+" of ") {
		t.Errorf("reads %q, want %s", c.Figure, q.Ohm(0.5607))
	}
	if len(c.Metres) != 1 || c.Metres[0].Cable != "te-2.5" || c.Bought() != 9 {
		t.Errorf("takes %s, want the 9 m of a new leg", c.Cost())
	}
	told := false
	for _, r := range fd.Remedies {
		told = told || strings.Contains(r.Text, "way of its own") && r.Figure == q.Ohm(0.5607).String()+" at SP1"
	}
	if !told {
		t.Errorf("the remedies do not give the figure: %+v", fd.Remedies)
	}
	commit(t, d, c.Operation)
	p := point(t, d.Frame(), "SP1")
	if math.Abs(float64(p.Loop.Hot)-0.5607) > 5e-4 {
		t.Errorf("loop then %v, want 0.5607 Ω", p.Loop.Hot)
	}
	sp := d.Frame().Scheme.Supplies.All()[0]
	if sp.Spur || sp.MeasuredZs.Known || sp.Fuse != "" || sp.ExistingLoad.Known || sp.Indoor.Cable != "te-2.5" || sp.Indoor.Length.Value != 9 {
		t.Errorf("supply point then %+v", sp)
	}
	for _, x := range d.Frame().Findings {
		if strings.HasPrefix(string(x.Code), "FLT-") && x.Level >= finding.Decide {
			t.Errorf("then %s: %s", x.Code, x.Text)
		}
	}
}

// TestOwnWayThatDoesNotHelp: with 50 Ω at the board no device opens in time, and
// with Ze or the leg not known nobody can say; neither is offered as a way out
// and the remedy says why.
func TestOwnWayThatDoesNotHelp(t *testing.T) {
	for _, row := range []struct {
		why    string
		change func(*doc.Supply)
		text   string
		figure bool
	}{
		{"Ze too high", func(s *doc.Supply) { s.Ze = q.Some(q.Ohm(50)) }, "still exceeds", true},
		{"Ze above the breaker that is there", func(s *doc.Supply) { s.Ze = q.Some(q.Ohm(1.5)) }, "still exceeds the 1.366 Ω", true},
		{"Ze not known", func(s *doc.Supply) { s.Ze = q.Maybe[q.Ohm]{} }, "not known", false},
		{"length not known", func(s *doc.Supply) { s.Indoor.Length = q.Maybe[q.Metre]{} }, "not known", false},
		{"cable not known", func(s *doc.Supply) { s.Indoor.Cable = "" }, "not known", false},
	} {
		d := scenario(t, gateFile)
		supply(func(s *doc.Supply) { spurred(s); row.change(s) })(t, d)
		fd := findingOf(t, d.Frame(), "FLT-02")
		holds := row.why == "Ze above the breaker that is there" // a smaller one allows it
		if c, at := cureLike(cures(d.Frame(), fd), ownWay); at >= 0 && c.Holds != holds || holds && at < 0 {
			t.Errorf("%s: %+v", row.why, c)
		}
		told := false
		for _, r := range fd.Remedies {
			told = told || strings.Contains(r.Text, "way of its own") && strings.Contains(r.Text, row.text) && (r.Figure != "") == row.figure
		}
		if !told {
			t.Errorf("%s: the remedies say %+v", row.why, fd.Remedies)
		}
	}
}

// TestOwnWayAtTheTownHouse: the planted spur of the example with mistakes has
// this way out too.
func TestOwnWayAtTheTownHouse(t *testing.T) {
	d := desk(t, "../assets/examples/townhouse-mistakes.yaml")
	cs := cures(d.Frame(), findingOf(t, d.Frame(), "FLT-02"))
	c, at := cureLike(cs, ownWay)
	if at < 0 || !c.Holds || c.Bought() != 11 {
		t.Fatalf("got %+v among %d", c, len(cs))
	}
	t.Logf("%s: %s; %s; %s", c.Text, c.Figure, c.Cost(), c.Then)
	commit(t, d, c.Operation)
	for _, x := range d.Frame().Findings {
		if x.Code == "FLT-02" || x.Code == "FLT-01" && x.Level >= finding.Decide {
			t.Errorf("then %s: %s", x.Code, x.Text)
		}
	}
}
