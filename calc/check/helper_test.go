package check_test

import (
	"testing"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/calc/internal/testnet"
)

// input reads a net in the notation of testnet, with fresh rules.
func input(text string) calc.Input {
	return calc.Input{Net: testnet.Net(text), Rules: testnet.Rules(), Catalog: testnet.Shared(), Country: "England"}
}

// found returns the findings with a code.
func found(r *calc.Result, code finding.Code) []finding.Finding {
	var out []finding.Finding
	for _, f := range r.Findings {
		if f.Code == code {
			out = append(out, f)
		}
	}
	return out
}

// levelOf is the worst level of a code, Held when it is not reported.
func levelOf(r *calc.Result, code finding.Code) finding.Level {
	lv := finding.Held
	for _, f := range found(r, code) {
		lv = max(lv, f.Level)
	}
	return lv
}

// one returns the only finding with a code.
func one(t *testing.T, r *calc.Result, code finding.Code) finding.Finding {
	t.Helper()
	fs := found(r, code)
	if len(fs) != 1 {
		t.Fatalf("%d findings %s, want one", len(fs), code)
	}
	return fs[0]
}

// point returns the reading at an entity.
func point(t *testing.T, r *calc.Result, id string) calc.Point {
	t.Helper()
	for _, p := range r.Points {
		if p.ID == id {
			return p
		}
	}
	t.Fatalf("no point %s", id)
	return calc.Point{}
}

// run returns the result of a run.
func run(t *testing.T, r *calc.Result, id string) calc.Run {
	t.Helper()
	for _, x := range r.Runs {
		if x.ID == id {
			return x
		}
	}
	t.Fatalf("no run %s", id)
	return calc.Run{}
}

// near fails unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if d := got - want; d > tol || d < -tol {
		t.Errorf("%s = %v, want %v ± %v", what, got, want, tol)
	}
}
