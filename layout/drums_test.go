package layout

import (
	"fmt"
	"reflect"
	"slices"
	"testing"

	"duskwire/calc/check"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

func cutList(cuts ...float64) []derive.Length {
	var out []derive.Length
	for i, c := range cuts {
		tag := fmt.Sprintf("R%d", i+1)
		out = append(out, derive.Length{Run: doc.ID(tag), Tag: tag, Cable: "swa-3x1.5", Name: "Armoured", Cut: q.Metre(c)})
	}
	return out
}

// TestCablePlan: which coils, worked by hand.
func TestCablePlan(t *testing.T) {
	list := []doc.Price{{Cable: "swa-3x1.5", Coils: []doc.Coil{{Length: 25, Price: q.Some(doc.Money(3150))}, {Length: 100, Price: q.Some(doc.Money(11000))}},
		Metre: q.Some(doc.Money(145)), Left: []q.Metre{8.4}}}
	for _, c := range []struct {
		name   string
		cuts   []float64
		prices []doc.Price
		drums  string
		bought q.Metre
		cost   doc.Money
	}{
		{"two coils where one of 100 m would do", []float64{30, 22.5}, nil, "50+25", 75, 0},
		{"nothing spare is better than a coil more", []float64{25, 20, 5}, nil, "50", 50, 0},
		{"spare on every coil at the same length", []float64{25, 24, 24}, nil, "50+25", 75, 0},
		{"longer than every coil", []float64{120, 10}, nil, "120to+25", 145, 0},
		{"leftover first, the rest by the metre", []float64{8, 10}, list, "8.4at+10to", 10, 1450},
		{"a coil is cheaper than 22 m", []float64{8.2, 22}, list, "25+8.4at", 25, 3150},
		{"cut to the centimetre", []float64{8.35, 8.31}, list, "8.4at+8.31to", 8.31, 1218},
		{"not drawn yet", []float64{0}, nil, "", 0, 0},
	} {
		var p planner
		got := ""
		var plan CablePlan
		for _, plan = range p.plans(cutList(c.cuts...), c.prices, 0.02, false) {
			for i, d := range plan.Drums {
				if i > 0 {
					got += "+"
				}
				got += fmt.Sprint(float64(d.Length)) + []string{"", "at", "to"}[d.Kind]
			}
		}
		if got != c.drums || plan.Bought != c.bought || plan.Cost != c.cost || plan.Priced != (c.prices != nil) {
			t.Errorf("%s: %s, bought %v, cost %v, priced %v; want %s, %v, %v", c.name, got, plan.Bought, plan.Cost, plan.Priced, c.drums, c.bought, c.cost)
		}
	}
}

// TestPlannerKeeps: the same input is not planned twice, another price is.
func TestPlannerKeeps(t *testing.T) {
	var p planner
	lengths := cutList(30, 22.5)
	a := p.plans(lengths, nil, 0.02, false)
	b := p.plans(lengths, nil, 0.02, false)
	if &a[0].Drums[0] != &b[0].Drums[0] {
		t.Error("planned anew though nothing changed")
	}
	c := p.plans(lengths, []doc.Price{{Cable: "swa-3x1.5", Left: []q.Metre{31}}}, 0.02, false)
	if reflect.DeepEqual(a, c) {
		t.Error("a leftover changes nothing")
	}
}

// TestGestureKeepsLongList: while a gesture is on, a long cut list is not
// planned with every move; a short one is.
func TestGestureKeepsLongList(t *testing.T) {
	for n, want := range map[int]bool{10: false, livePieces + 1: true} {
		var p planner
		lengths := cutList(make([]float64, n)...)
		for i := range lengths {
			lengths[i].Cut = 5
		}
		a := p.plans(lengths, nil, 0.02, false)
		lengths = slices.Clone(lengths) // those of a scheme are never changed
		lengths[0].Cut = 9
		b := p.plans(lengths, nil, 0.02, true)
		if kept := reflect.DeepEqual(a, b); kept != want {
			t.Errorf("%d pieces: kept %v, want %v", n, kept, want)
		}
	}
}

// TestManyPieces: a cut list beyond the search still gets a plan.
func TestManyPieces(t *testing.T) {
	var cuts []float64
	for i := range 4000 {
		cuts = append(cuts, float64(3+i*7%61)/2)
	}
	var p planner
	plan := p.plans(cutList(cuts...), nil, 0.02, false)[0]
	n := 0
	for _, d := range plan.Drums {
		n += len(d.Cuts)
		if d.Cut() > d.Length+1e-9 {
			t.Fatalf("%v cut from %v", d.Cut(), d.Length)
		}
	}
	if n != len(cuts) {
		t.Errorf("%d of %d pieces planned", n, len(cuts))
	}
}

// BenchmarkPlan is one cable of 20 to 4000 pieces planned anew.
func BenchmarkPlan(b *testing.B) {
	for _, n := range []int{20, 60, 250, 4000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			var cuts []float64
			for i := range n {
				cuts = append(cuts, float64(3+(i*i*7+i*13)%71)/2)
			}
			lengths := cutList(cuts...)
			for b.Loop() {
				var p planner
				p.plans(lengths, nil, 0.02, false)
			}
		})
	}
}

// TestDrumsOfTheGone: a plan of before says nothing of runs that are deleted; one
// of its own cut list says all.
func TestDrumsOfTheGone(t *testing.T) {
	rules := &check.Rules{}
	rules.Limits.SpareOnDrum.Value = 0.02
	var p planner
	f := &Frame{Scheme: doc.New("uk-18"), Drums: p.plans(cutList(20, 5), nil, 0, false)}
	if got := drumFindings(f, rules); len(got) != 1 {
		t.Fatalf("%v, want one finding of the coil that is used up", got)
	}
	f.DrumsBehind = true
	if got := drumFindings(f, rules); len(got) != 0 {
		t.Errorf("%v, want none: neither run is drawn any more", got)
	}
}
