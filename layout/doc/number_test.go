package doc

import (
	"fmt"
	"strings"
	"testing"
)

// A tag with an enormous number is a name: the next tag does not count on from
// it, which would overflow into a negative number.
func TestNextTagAfterAnEnormousNumber(t *testing.T) {
	s := New("uk-18")
	for i, tag := range []string{"L9223372036854775807", "L7", "L99999999999999999999"} {
		s.Lamps = s.Lamps.With(&Lamp{ID: ID(fmt.Sprint(i)), Tag: tag, Stock: "x"})
	}
	if got := FreeTag(s, LampKind); got != "L8" {
		t.Errorf("the next tag is %q, expected L8", got)
	}
}

// shared is a scheme of runs that lie in one another's cable, each in that of
// the next, which must not be.
func shared(n int) *Scheme {
	s := New("uk-18")
	var runs []*Run
	for i := range n {
		id := ID(fmt.Sprint("R", i))
		runs = append(runs, &Run{ID: id, Tag: string(id), Legs: []Leg{{}}, With: ID(fmt.Sprint("R", i+1))})
	}
	runs[n-1].With = ""
	s.Runs = NewSet(runs...)
	return s
}

// What is found in a whole scheme is what is found run by run.
func TestSharedCablesAreCheckedAlike(t *testing.T) {
	s := shared(6)
	one := []string{}
	for _, r := range s.Runs.All() {
		for _, p := range Check(s, r) {
			one = append(one, p.Error())
		}
	}
	all := []string{}
	for _, p := range Problems(s) {
		all = append(all, p.Error())
	}
	if got, want := strings.Join(all, "\n"), strings.Join(one, "\n"); got != want || !strings.Contains(got, "run R0 lies in its cable") {
		t.Errorf("of the whole\n%s\nof each\n%s", got, want)
	}
}

// BenchmarkProblemsShared is 40,000 runs that share cables, as a hostile file
// may have them.
func BenchmarkProblemsShared(b *testing.B) {
	s := shared(40000)
	for b.Loop() {
		Problems(s)
	}
}
