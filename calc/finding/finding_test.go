package finding

import (
	"reflect"
	"sort"
	"testing"

	"pgregory.net/rapid"
)

func at(level Level, code Code, label, id string) Finding {
	return Finding{Level: level, Code: code, Subject: Subject{ID: id, Label: label}}
}

// Worst first, then code, then label as people count, then id.
func TestSort(t *testing.T) {
	want := []Finding{
		at(Stop, "CIR-01", "L10", "a"),
		at(Stop, "VD-01", "L2", "b"),
		at(Stop, "VD-01", "L10", "a"),
		at(Stop, "VD-01", "L10", "c"),
		at(Decide, "CAP-01", "R1", "d"),
		at(Note, "LEN-01", "", "e"),
		at(Held, "CAP-01", "R1", "d"),
	}
	rapid.Check(t, func(t *rapid.T) {
		got := rapid.Permutation(want).Draw(t, "order")
		Sort(got)
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("got %+v", got)
		}
	})
}

func TestLessLabel(t *testing.T) {
	labels := []string{"", "B1", "B1a", "B2", "B10", "L2", "L02", "L3", "L10", "L10.1", "L10.2", "L10.10", "L100", "SP1", "SP1 left", "l1"}
	for i, a := range labels {
		for j, b := range labels {
			if got := LessLabel(a, b); got != (i < j) {
				t.Errorf("LessLabel(%q, %q) = %v", a, b, got)
			}
		}
	}
}

// The order is strict and total: of two different labels exactly one comes
// first, and any three can be put in a row.
func TestLessLabelLaws(t *testing.T) {
	label := rapid.StringMatching(`[A01 ]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		abc := []string{label.Draw(t, "a"), label.Draw(t, "b"), label.Draw(t, "c")}
		for _, x := range abc {
			for _, y := range abc {
				if (x == y) != (!LessLabel(x, y) && !LessLabel(y, x)) {
					t.Fatalf("%q and %q: neither or both come first", x, y)
				}
			}
		}
		sort.Slice(abc, func(i, j int) bool { return LessLabel(abc[i], abc[j]) })
		if LessLabel(abc[2], abc[0]) {
			t.Fatalf("%q go round in a circle", abc)
		}
	})
}

func TestCount(t *testing.T) {
	fs := []Finding{{Level: Stop}, {Level: Stop, Overruled: &Overrule{By: "AB"}}, {Level: Note}}
	for level, want := range map[Level]int{Stop: 1, Note: 1, Decide: 0} {
		if got := Count(fs, level); got != want {
			t.Errorf("%v: %d, want %d", level, got, want)
		}
	}
}

func TestSourceString(t *testing.T) {
	for _, row := range []struct {
		s    Source
		want string
	}{
		{Source{Standard: "BS 7671:2018", Clause: "Table 41.3", Edition: "A2-era values", Evidence: Found}, "BS 7671:2018 Table 41.3, A2-era values (found)"},
		{Source{Standard: "IEC 60228", Evidence: Memory}, "IEC 60228 (from memory)"},
		{Source{Clause: "525.1"}, "525.1"},
		{Source{Evidence: Practice}, "common practice, no source"},
		{Source{}, ""},
	} {
		if got := row.s.String(); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
}

func TestLevelString(t *testing.T) {
	for level, want := range map[Level]string{Held: "Held", Note: "Note", Decide: "Decide", Stop: "Stop", 9: "?"} {
		if got := level.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// A clause that is a number or a table follows its standard; words are set off.
func TestSourceReads(t *testing.T) {
	for want, s := range map[string]Source{
		"BS 7671:2018 Table 41.3 (found)":                      {Standard: "BS 7671:2018", Clause: "Table 41.3", Evidence: Found},
		"trade guidance, surface cables only on walls (found)": {Standard: "trade guidance", Clause: "surface cables only on walls", Evidence: Found},
		"BS 7671:2018 522.8.10 (found)":                        {Standard: "BS 7671:2018", Clause: "522.8.10", Evidence: Found},
		"10 A type B (from memory)":                            {Clause: "10 A type B", Evidence: Memory},
	} {
		if got := s.String(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
