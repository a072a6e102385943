package panel

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"duskwire/calc/finding"
)

// TestFindingsOutOfSightAreWrittenLater: what can be seen is written at once, and so
// is what is open, the rest in later turns; a frame in between starts over.
func TestFindingsOutOfSightAreWrittenLater(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	var turns []func()
	p.Later = func(f func()) { turns = append(turns, f) }
	list := func(text string) (fs []finding.Finding) {
		for i := range pageOfFindings {
			fs = append(fs, finding.Finding{Code: "VD-01", Level: finding.Stop, Text: text,
				Subject: finding.Subject{ID: fmt.Sprint(i), Label: fmt.Sprint("L", i)}})
		}
		return fs
	}
	says := func(text string) (n int) {
		for _, r := range p.rows {
			if r.Visible() && strings.Contains(r.text.Text, text) {
				n++
			}
		}
		return n
	}
	all := func() {
		for len(turns) > 0 {
			f := turns[0]
			turns = slices.Delete(turns, 0, 1)
			f()
		}
	}
	p.SetFrame(frameWith(d, list("First")...))
	all()
	if n := says("First"); n != pageOfFindings {
		t.Fatalf("%d rows are written", n)
	}
	p.SetFrame(frameWith(d, list("Second")...))
	if n := says("Second"); n < rowsATurn || n == pageOfFindings || !strings.Contains(p.rows[0].text.Text, "Second") {
		t.Errorf("%d rows are written at once", n)
	}
	if p.SetFrame(frameWith(d, list("Third")...)); len(turns) != 1 {
		t.Errorf("%d turns are waited for", len(turns))
	}
	if all(); says("Third") != pageOfFindings {
		t.Errorf("%d rows are written in the end", says("Third"))
	}
	last := list("Fourth")
	p.open = keyOf(&last[pageOfFindings-1])
	p.SetFrame(frameWith(d, last...))
	if r := p.rows[pageOfFindings-1]; !r.open || !strings.Contains(r.text.Text, "Fourth") {
		t.Error("the open finding was not written at once")
	}
}
