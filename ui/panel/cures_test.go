package panel

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// dimEnd returns a desk with scenario 2 of the trade notes on it.
func dimEnd(t *testing.T) *counted {
	t.Helper()
	d := newDesk(t, "townhouse.yaml")
	s, err := file.LoadScheme(filepath.Join("..", "..", "testdata", "scenarios", "2-dim-end.yaml"), *d.Frame().Stock)
	if err != nil {
		t.Fatal(err)
	}
	d.Load(s, "")
	return d
}

// asked is one question for ways out.
type asked struct {
	f    finding.Finding
	done func([]layout.Cure)
}

// openFirst opens the first finding of a code and returns its row.
func openFirst(t *testing.T, p *Findings, code finding.Code) *findingRow {
	t.Helper()
	for _, r := range p.rows {
		if r.Visible() && r.now.Code == code {
			test.Tap(r)
			return r
		}
	}
	t.Fatalf("no finding %s", code)
	return nil
}

func TestOpenedFindingShowsItsCures(t *testing.T) {
	d := dimEnd(t)
	p := findings(t, d)
	d.Subscribe(p.SetFrame)
	var asks []asked
	p.OnCures = func(f finding.Finding, done func([]layout.Cure)) { asks = append(asks, asked{f, done}) }
	answer := func() {
		a := asks[len(asks)-1]
		a.done(layout.Cures(context.Background(), d.Frame(), a.f))
	}
	r := openFirst(t, p, "VD-03")
	if len(asks) != 1 || !strings.Contains(texts(r.detail), "Working out") {
		t.Fatalf("asked %d times:\n%s", len(asks), texts(r.detail))
	}
	answer()
	got := texts(r.detail)
	for _, want := range []string{"Move S1 to the middle of its lamps: 11.62 V at L10 (3.15 %)", "18.5 m more of Armoured", "2.5 mm² for every run to L10: 10.86 V", "It leaves VD-02 volt drop at extra-low voltage (Decide)"} {
		if !strings.Contains(got, want) {
			t.Errorf("expected %q in\n%s", want, got)
		}
	}
	if strings.Index(got, "Move S1") > strings.Index(got, "2.5 mm²") {
		t.Error("the thicker cable comes first")
	}
	if strings.Contains(got, "Working out") || strings.Contains(got, "nearer the middle of its lamps") {
		t.Errorf("advice that was worked out still stands there:\n%s", got)
	}
	before := d.Frame().Scheme
	press(t, r.detail, "Apply") // the last in the box that reads so
	if d.Frame().Scheme == before || !d.Undo() || d.Frame().Scheme != before {
		t.Error("applying it is not one undo step")
	}
}

func TestCuresBelongToTheirFrame(t *testing.T) {
	d := dimEnd(t)
	p := findings(t, d)
	d.Subscribe(p.SetFrame)
	var asks []asked
	p.OnCures = func(f finding.Finding, done func([]layout.Cure)) { asks = append(asks, asked{f, done}) }
	r := openFirst(t, p, "VD-03")
	stale := asks[0]
	id := doc.WithTag(d.Frame().Scheme, "L1").Key()
	move := edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(0.1, 0)}
	if err := d.Preview(move); err != nil {
		t.Fatal(err)
	}
	if len(asks) != 1 {
		t.Error("asked during a drag")
	}
	stale.done([]layout.Cure{{Text: "of another scheme", Holds: true}})
	if strings.Contains(texts(r.detail), "Of another scheme") {
		t.Error("a stale answer is shown")
	}
	if err := d.Commit(move); err != nil {
		t.Fatal(err)
	}
	if len(asks) != 2 || asks[1].f.Code != "VD-03" {
		t.Fatalf("asked %d times after the drag", len(asks))
	}
	stale.done([]layout.Cure{{Text: "of another scheme", Holds: true}})
	asks[1].done(layout.Cures(context.Background(), d.Frame(), asks[1].f))
	if got := texts(r.detail); strings.Contains(got, "Of another scheme") || !strings.Contains(got, "Move S1") {
		t.Errorf("after the drag:\n%s", got)
	}
	p.OnCures = nil
	p.SetFrame(d.Frame())
	if got := texts(r.detail); !strings.Contains(got, "nearer the middle of its lamps") {
		t.Errorf("without answers the rule's advice stands:\n%s", got)
	}
}

func TestPropertiesShowWhatIsLeft(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	for _, row := range []struct {
		tag  string
		want []string
	}{
		{"R13", []string{"Room left", "Longer by", "then VD-02", "More current", "then SRC-01", "lamps of 5 W"}},
		{"L5", []string{"Room left", "More current", "then CAP-01", "then LEK-01"}},
		{"S1", []string{"More current", "then SRC-01"}},
		{"SP1", []string{"Leakage left", "then LEK-01"}},
		{"Z1", []string{"Room left", "More lamps"}},
	} {
		p, _ := properties(t, d, row.tag)
		got := texts(p.Object())
		for _, want := range row.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: expected %q in\n%s", row.tag, want, got)
			}
		}
	}
}
