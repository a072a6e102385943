package panel

import (
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

func checkOf(p *Properties, caption string) *checkRow {
	for _, r := range p.now.rows {
		if x, ok := r.(*checkRow); ok && x.check.Text == caption && x.box.Visible() {
			return x
		}
	}
	return nil
}

// What is said about a box in its form stands in the scheme, one step each.
func TestBoxForm(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "B1")
	box := func() *doc.Box { return doc.WithTag(d.Frame().Scheme, "B1").(*doc.Box) }
	choiceOf(t, p, "Filled with").pick.SetSelected("Resin")
	checkOf(p, "Hidden, without a hatch").check.SetChecked(true)
	checkOf(p, "Armours linked").check.SetChecked(false)
	for name, text := range map[string]string{"Entries in the top": "1", "Entries left open": "2"} {
		f := fieldOf(t, p, name)
		f.SetText(text)
		f.Flush()
	}
	b := *box()
	if b.Fill != "resin" || !b.Hidden || !b.Unlinked || b.TopEntries != 1 || b.Open != 2 {
		t.Errorf("the box is %+v", b)
	}
	f := fieldOf(t, p, "Entries left open")
	f.SetText("-1")
	if f.Flush(); f.Reason() == "" || box().Open != 2 {
		t.Errorf("-1 open entries: reason %q, box has %d", f.Reason(), box().Open)
	}
	for range 5 {
		d.Undo()
	}
	if b := *box(); b.Fill != "" || b.Hidden || b.Unlinked || b.TopEntries != 0 || b.Open != 0 {
		t.Errorf("five undos leave %+v", b)
	}
}

// Glands and tags are asked of armoured cable only.
func TestRunEnds(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "R3")
	run := func() *doc.Run { return doc.WithTag(d.Frame().Scheme, "R3").(*doc.Run) }
	choiceOf(t, p, "Gland at start").pick.SetSelected("E1W, sealed twice")
	checkOf(p, "Earth tag at end").check.SetChecked(false)
	if r := run(); r.From.Gland != "E1W" || r.To.Gland != "" || r.From.Untagged || !r.To.Untagged {
		t.Errorf("the ends are %+v and %+v", r.From, r.To)
	}
	p.SetSelection([]doc.ID{doc.WithTag(d.Frame().Scheme, "R14").Key()})
	if checkOf(p, "Earth tag at end") != nil {
		t.Error("a garden cable without armour is asked for an earth tag")
	}
}

// A movement sensor has a direction, other gear has none.
func TestSensorForm(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	for _, g := range []*doc.Gear{{ID: "G1", Tag: "G1", Stock: "sensor"}, {ID: "G2", Tag: "G2", Stock: "isolator-20"}} {
		if err := d.Commit(edit.Place{Entity: g}); err != nil {
			t.Fatal(err)
		}
	}
	p, _ := properties(t, d, "G1")
	f := fieldOf(t, p, "Aim")
	f.SetText("225")
	f.Flush()
	if g := doc.WithTag(d.Frame().Scheme, "G1").(*doc.Gear); g.Aim != 225 {
		t.Errorf("the sensor aims %g", g.Aim)
	}
}
