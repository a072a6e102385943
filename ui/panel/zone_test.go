package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

func zoneOfTag(d *counted, tag string) *doc.Zone {
	return doc.WithTag(d.Frame().Scheme, tag).(*doc.Zone)
}

// buttonOf returns the visible button with the text.
func buttonOf(t *testing.T, p *Properties, text string) *Button {
	t.Helper()
	for _, r := range p.now.rows {
		switch r := r.(type) {
		case *buttonRow:
			if r.box.Visible() && r.button.Text == text {
				return r.button
			}
		case *zonesRow:
			for i, b := range r.buttons {
				if r.list.Objects[i].Visible() && strings.HasPrefix(b.whole, text) {
					return b
				}
			}
		}
	}
	t.Fatalf("no button %q", text)
	return nil
}

// From a lamp to its zone, and everything about the zone can be changed there.
func TestZoneFromTheLamp(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	if err := d.Commit(edit.Place{Entity: &doc.Gear{ID: "rx", Stock: "receiver-5", Place: doc.Place{At: geom.Pt(1, 1)}}}); err != nil {
		t.Fatal(err)
	}
	p, _ := properties(t, d, "L4")
	test.Tap(buttonOf(t, p, "Properties of the zone"))
	if p.title.Text != "Zone Z2" {
		t.Fatalf("the panel shows %q", p.title.Text)
	}
	if s := texts(p.Object()); !strings.Contains(s, "L4, L5, L6") {
		t.Errorf("the lamps of the zone are not listed:\n%s", s)
	}
	name := fieldOf(t, p, "Name")
	name.SetText("Long path")
	name.Flush()
	by := choiceOf(t, p, "Switched by")
	by.pick.SetSelected("G1, Wireless receiver 5 A")
	choiceOf(t, p, "Colour").pick.SetSelected("Red")
	for _, r := range p.now.rows {
		if c, ok := r.(*checkRow); ok && c.check.Text == "Dimmed" {
			c.check.SetChecked(true)
		}
	}
	number := fieldOf(t, p, "Number on the plan")
	number.SetText("7")
	number.Flush()
	if z := zoneOfTag(d, "Z2"); z.Name != "Long path" || z.Control != "rx" || z.Colour != "red" || !z.Dimmed || z.Number != 7 {
		t.Errorf("the zone is %+v", z)
	}
	number.SetText("-1")
	number.Flush()
	if number.Reason() == "" || zoneOfTag(d, "Z2").Number != 7 {
		t.Errorf("-1 was taken: %q", number.Reason())
	}
	// The gear tells what it switches and what it may.
	p.SetSelection([]doc.ID{"rx"})
	if s := texts(p.Object()); !strings.Contains(s, "Long path") || !strings.Contains(s, "150 W of LED") || !strings.Contains(s, "30 LED lamps") {
		t.Errorf("the gear shows:\n%s", s)
	}
}

// With nothing selected the zones are listed, one button each; a zone of its
// own is made from there and from a lamp.
func TestZonesListed(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "")
	test.Tap(buttonOf(t, p, "Border and pond: 5 lamps, control not said"))
	if p.title.Text != "Zone Z4" {
		t.Fatalf("the panel shows %q", p.title.Text)
	}
	if err := d.Commit(edit.Delete{IDs: []doc.ID{"Z4"}}); err != nil {
		t.Fatal(err)
	}
	p.SetSelection(nil)
	p.choose()
	for _, r := range p.now.rows {
		if z, ok := r.(*zonesRow); ok {
			if z.list.Objects[3].Visible() {
				t.Error("a zone that is gone is still listed")
			}
		}
	}
	p.SetSelection([]doc.ID{lampOf(d, "L9").ID})
	test.Tap(buttonOf(t, p, "New zone for this lamp"))
	z := zoneOfTag(d, "Z4")
	if p.title.Text != "Zone Z4" || lampOf(d, "L9").Zone != z.ID || z.Number == 0 || z.Colour == "" {
		t.Errorf("the panel shows %q, L9 is in %q, the zone is %+v", p.title.Text, lampOf(d, "L9").Zone, z)
	}
}

// Whoever holds the selection is asked to show the zone.
func TestOpenIsHandedOn(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L4")
	var asked doc.ID
	p.OnOpen = func(id doc.ID) { asked = id }
	test.Tap(buttonOf(t, p, "Properties of the zone"))
	if asked != "Z2" || p.title.Text != "Lamp L4" {
		t.Errorf("asked for %q, shows %q", asked, p.title.Text)
	}
}

// What the survey found about the RCD is entered at the supply point; empty
// means not known.
func TestSupplyRows(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "SP1")
	others := fieldOf(t, p, "Other circuits on the RCD")
	sp := func() *doc.Supply { return doc.WithTag(d.Frame().Scheme, "SP1").(*doc.Supply) }
	for _, c := range []struct {
		typed string
		want  q.Maybe[q.Count]
	}{{"4", q.Some(q.Count(4))}, {"0", q.Some(q.Count(0))}, {"", q.Maybe[q.Count]{}}} {
		others.SetText(c.typed)
		others.Flush()
		if got := sp().OtherCircuits; got != c.want || others.Reason() != "" {
			t.Errorf("%q gave %+v, %q", c.typed, got, others.Reason())
		}
	}
	others.SetText("some")
	others.Flush()
	if others.Reason() == "" {
		t.Error("“some” was taken")
	}
	shares := fieldOf(t, p, "What else goes off with it")
	shares.SetText("freezer")
	shares.Flush()
	for _, r := range p.now.rows {
		if c, ok := r.(*checkRow); ok && strings.Contains(c.check.Text, "two-pole switch") {
			c.check.SetChecked(true)
		}
	}
	if !sp().Switched || sp().Shares != "freezer" {
		t.Errorf("supply %+v", sp())
	}
}

// A run that has its cores in the cable of another.
func TestRunInAnothersCable(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "R3")
	with := choiceOf(t, p, "Cores in the cable of")
	if strings.Contains(strings.Join(with.pick.Options, " "), "R3 ") {
		t.Errorf("a run is offered its own cable: %v", with.pick.Options)
	}
	with.pick.SetSelected("R2")
	if r := doc.WithTag(d.Frame().Scheme, "R3").(*doc.Run); r.With != "R2" {
		t.Errorf("R3 is with %q", r.With)
	}
}

// Facts of the stock book in words; what is not known is left out.
func TestStockFacts(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{supplyFacts(0.0005, 4.8, network.No), ", leakage 0.5 mA, inrush 4.8 A, cannot be dimmed"},
		{supplyFacts(0.002, 0, network.Yes), ", leakage 2 mA, can be dimmed"},
		{supplyFacts(0, 0, network.Unsaid), ""},
		{gearFacts(network.Gear{Kind: network.Receiver}), ", LED rating not known"},
		{gearFacts(network.Gear{Kind: network.Dimmer, Rating: q.Some(q.Ampere(1)), LEDWatts: q.Some(q.Watt(80)), DimMin: q.Some(q.Watt(4)), DimMax: q.Some(q.Watt(80)),
			Threshold: q.Some(q.Lux(15)), Standby: q.Some(q.Watt(0.3)), Metal: true, Switching: true}),
			", 1 A resistive, 80 W of LED, dims from 4 W up to 80 W, switches on below 15 lx, standby 0.3 W, metal enclosure, isolates"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
