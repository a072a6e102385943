package edit_test

import (
	"testing"

	"duskwire/calc/judge"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"pgregory.net/rapid"
)

func asked(on doc.ID, t judge.Test) doc.Asked { return doc.Asked{On: on, Test: t} }

func ohm(on doc.ID, t judge.Test, v float64) doc.Reading {
	return doc.Reading{Asked: asked(on, t), Value: judge.Value{SI: v}}
}

// measuring draws an operation about readings and the mark of issue.
func (d *dice) measuring() edit.Operation {
	visit := d.one("visit", 3)
	head := doc.Visit{On: "2026-11-25", Temperature: q.Some(q.Celsius(rapid.Float64Range(-10, 30).Draw(d.t, "celsius"))), Instrument: rapid.StringN(0, 20, -1).Draw(d.t, "instrument")}
	test := judge.Tests[d.one("test", len(judge.Tests))]
	on := d.some(doc.SupplyKind, doc.LampKind, doc.RunKind, doc.BoxKind)
	switch d.one("measuring", 8) {
	case 0:
		return edit.SetVisit{Visit: visit, Head: head}
	case 1:
		return edit.DropVisit{Visit: visit}
	case 2:
		return edit.ClearReading{Visit: visit, Asked: asked(on, test)}
	case 3:
		return edit.MarkIssued{On: "2026-11-01"}
	case 4:
		return edit.TakeBackIssue{}
	}
	r := doc.Reading{Asked: asked(on, test)}
	if words := test.Words(); len(words) > 0 {
		r.Value.Word = words[d.one("word", len(words))]
	} else {
		r.Value, _ = judge.ParseTyped(test, []string{"OL", ">299", "0.34", "<0.01", "0", "28.4"}[d.one("reads", 6)])
	}
	return edit.SetReading{Visit: visit, New: head, Reading: r}
}

// A reading is entered, replaced, cleared; it goes with what it is of; a later visit
// takes its place without changing it.
func TestReadings(t *testing.T) {
	s := do(t, small(), edit.SetReading{New: doc.Visit{On: "2026-11-25"}, Reading: ohm("L1", judge.R1R2, 0.34)})
	if len(s.Visits) != 1 || s.Visits[0].On != "2026-11-25" || len(s.Visits[0].Readings) != 1 {
		t.Fatalf("visits %+v", s.Visits)
	}
	if same := do(t, s, edit.SetReading{Reading: ohm("L1", judge.R1R2, 0.34)}); same != s {
		t.Error("the same reading again is a step")
	}
	s = do(t, s, edit.SetReading{Reading: ohm("L1", judge.R1R2, 0)})
	s = do(t, s, edit.SetReading{Reading: ohm("L2", judge.R1R2, 0.5)})
	if r := s.Visits[0].Readings; len(r) != 2 || r[0].Value.SI != 0 {
		t.Errorf("readings %+v, want 0 Ω as a reading and L2", r)
	}
	later := do(t, s, edit.SetReading{Visit: 1, New: doc.Visit{On: "2026-11-26"}, Reading: ohm("L1", judge.R1R2, 0.3)})
	if last := doc.Latest(later)[asked("L1", judge.R1R2)]; last.Visit != 1 || last.Value.SI != 0.3 || later.Visits[0].Readings[0].Value.SI != 0 {
		t.Errorf("latest %+v", last)
	}
	gone := do(t, later, edit.Delete{IDs: []doc.ID{"L1"}})
	if n := len(gone.Visits[0].Readings) + len(gone.Visits[1].Readings); n != 1 || len(later.Visits[0].Readings) != 2 {
		t.Errorf("%d readings after L1 went, want that of L2", n)
	}
	if s = do(t, s, edit.ClearReading{Asked: asked("L2", judge.R1R2)}); len(s.Visits[0].Readings) != 1 {
		t.Errorf("after clearing: %+v", s.Visits)
	}
	for _, bad := range []edit.Operation{
		edit.SetReading{Reading: ohm("A1", judge.R1R2, 1)},
		edit.SetReading{Reading: ohm("L1", judge.Armour, 1)},
		edit.SetReading{Reading: ohm("L1", judge.R1R2, -1)},
		edit.SetReading{Reading: ohm("L1", judge.Polarity, 1)},
		edit.SetReading{Visit: 2, Reading: ohm("L1", judge.R1R2, 1)},
		edit.ClearReading{Asked: asked("L2", judge.Zs)},
		edit.ClearReading{Visit: 7, Asked: asked("L2", judge.Zs)},
		edit.DropVisit{Visit: 3},
		edit.SetVisit{Head: doc.Visit{Temperature: q.Some(q.Celsius(900))}},
		edit.TakeBackIssue{},
	} {
		if _, err := bad.Apply(s); err == nil {
			t.Errorf("%+v was done", bad)
		}
	}
}

// The design as issued stays as it was while the scheme goes on, and is forgotten
// when the mark is taken back.
func TestMarkIssued(t *testing.T) {
	first := small()
	s := do(t, first, edit.MarkIssued{On: "2026-11-01", By: "A. N. Other"})
	moved := do(t, s, edit.Delete{IDs: []doc.ID{"L2"}})
	if was := moved.Issue.Scheme; was.Lamps.Len() != 2 || moved.Lamps.Len() != 1 || was.Areas.Len() != 0 {
		t.Errorf("issued design has %d lamps and %d areas", was.Lamps.Len(), was.Areas.Len())
	}
	if d := doc.Diff(s.Issue.Scheme, doc.Issued(moved)); len(d.Removed) != 1 || d.Removed[0].ID != "L2" || len(d.Changed) != 0 {
		t.Errorf("differences %+v, want L2 gone", d)
	}
	if back := do(t, moved, edit.TakeBackIssue{}); back.Issue != nil {
		t.Error("still issued")
	}
}
