package panel

import (
	"testing"

	"duskwire/layout/doc"
)

// TestLegFittings: tape, sleeve and hole are set on the one leg, shown only
// where they mean something, and reach the file by the scheme.
func TestLegFittings(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "R9") // three buried legs
	run := func() *doc.Run { return doc.WithTag(d.Frame().Scheme, "R9").(*doc.Run) }
	var legs *legsRow
	for _, r := range p.now.rows {
		if l, ok := r.(*legsRow); ok {
			legs = l
		}
	}
	tape, sleeve, hole := fittings(t, legs.legs[1])
	if tape.box.Visible() || sleeve.box.Visible() || hole.box.Visible() {
		t.Error("shown before they are asked for")
	}
	legs.details.SetChecked(true)
	if !tape.box.Visible() || !sleeve.box.Visible() || hole.box.Visible() {
		t.Errorf("buried leg: tape %v, sleeve %v, hole %v; want the first two", tape.box.Visible(), sleeve.box.Visible(), hole.box.Visible())
	}
	if !tape.check.Checked {
		t.Error("tape is not laid by design")
	}
	tape.check.SetChecked(false)
	sleeve.check.SetChecked(true)
	if l := run().Legs[1]; !l.NoTape || !l.Sleeve || run().Legs[0].NoTape || run().Legs[2].Sleeve {
		t.Errorf("legs %+v, want leg 2 alone without tape, in a sleeve", run().Legs)
	}
	legs.legs[1].rows[0].(*choiceRow).pick.SetSelected("Clipped to a wall")
	if tape.box.Visible() || !hole.box.Visible() {
		t.Error("a leg on a wall has tape, or no hole")
	}
	hole.pick.SetSelected("Falls to the inside")
	if l := run().Legs[1]; l.Hole != "in" {
		t.Errorf("hole %q, want in", l.Hole)
	}
}

// fittings returns the rows of a leg that legFittings made, the last three.
func fittings(t *testing.T, f *form) (tape, sleeve *checkRow, hole *choiceRow) {
	t.Helper()
	n := len(f.rows)
	return f.rows[n-3].(*checkRow), f.rows[n-2].(*checkRow), f.rows[n-1].(*choiceRow)
}

// TestHollow: an area is marked as a hollow.
func TestHollow(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "A4")
	var low *tick
	for _, r := range p.now.rows {
		if c, ok := r.(*checkRow); ok && low == nil { // the lock comes after it
			low = c.check
		}
	}
	low.SetChecked(true)
	if a := doc.WithTag(d.Frame().Scheme, "A4").(*doc.Area); !a.Low {
		t.Error("the lawn is no hollow")
	}
}
