package panel

import (
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// TestFindingLeadsToItsRow: what a finding asks for is shown and marked, the
// first empty one of several.
func TestFindingLeadsToItsRow(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	sp := *doc.WithTag(d.Frame().Scheme, "SP1").(*doc.Supply)
	sp.MeasuredZs, sp.Indoor = q.Maybe[q.Ohm]{}, doc.Indoor{}
	if err := d.Commit(put(&sp)); err != nil {
		t.Fatal(err)
	}
	p, w := properties(t, d, "SP1")
	w.Resize(fyne.NewSize(330, 220))
	for _, c := range []struct {
		code finding.Code
		want string
	}{{"FLT-03", "Cable"}, {"CAP-01", "Device at the board"}, {"RCD-01", "Separate RCD"}, {"BRK-01", "Fault current at the board"}} {
		p.Asked(c.code)
		if p.marked == nil || p.marked.Text != c.want {
			t.Fatalf("%s marks %v, expected %q", c.code, p.marked, c.want)
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(p.marked).Y -
			fyne.CurrentApp().Driver().AbsolutePositionForObject(p.scroll).Y
		if at < 0 || at > 200 {
			t.Errorf("%s: the row is at %v, out of view", c.code, at)
		}
	}
	p.Asked("NTF-01")
	if p.marked != nil {
		t.Error("a finding that asks for nothing leaves a mark")
	}
	p.Asked("FLT-03")
	p.SetSelection(nil)
	if p.marked != nil {
		t.Error("the mark outlives the form")
	}
	for _, country := range []string{"England", ""} {
		rules := d.Frame().Scheme.Rules
		if err := d.Commit(edit.SetRules{Rules: rules, Country: country}); err != nil {
			t.Fatal(err)
		}
		if got := SchemeAsks(d.Frame().Scheme, "NTF-01"); got != (country == "") {
			t.Errorf("country %q: NTF-01 asks for it: %v", country, got)
		}
	}
	p.SetFrame(d.Frame())
	p.Asked("NTF-01")
	if p.marked == nil || p.marked.Text != "Country" {
		t.Errorf("NTF-01 without a country marks %v", p.marked)
	}
	f := d.Frame()
	lamp := string(doc.WithTag(f.Scheme, "L1").Key())
	for code, want := range map[finding.Code]doc.ID{"RCD-01": sp.ID, "VD-01": ""} {
		found := finding.Finding{Code: code, Subject: finding.Subject{ID: lamp}}
		if got := SupplyFor(f, &found); got != want {
			t.Errorf("%s at L1 is entered at %q, expected %q", code, got, want)
		}
	}
}
