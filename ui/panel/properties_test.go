package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

func lampOf(d *counted, tag string) *doc.Lamp {
	return doc.WithTag(d.Frame().Scheme, tag).(*doc.Lamp)
}

func TestFieldCommitsWithUnits(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  geom.Length
		shown string
	}{
		{"600mm", 600 * geom.Millimetre, "0.6 m"},
		{"12.5 m", 12500 * geom.Millimetre, "12.5 m"},
		{" 45 cm ", 450 * geom.Millimetre, "0.45 m"},
		{"1.2", 1200 * geom.Millimetre, "1.2 m"}, // in the unit that stood there
		{"0,9", 900 * geom.Millimetre, "0.9 m"},
	} {
		d := newDesk(t, "townhouse.yaml")
		p, w := properties(t, d, "L2")
		f := fieldOf(t, p, "Above ground")
		w.Canvas().Focus(f)
		f.SetText(c.typed)
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		if got := lampOf(d, "L2").Place.Height; got != c.want {
			t.Errorf("%q gave %v, expected %v", c.typed, got, c.want)
		}
		if f.Text != c.shown || f.Reason() != "" {
			t.Errorf("%q is shown as %q with %q, expected %q", c.typed, f.Text, f.Reason(), c.shown)
		}
	}
}

func TestWrongTextChangesNothing(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, w := properties(t, d, "L2")
	before := d.Frame().Scheme
	for _, typed := range []string{"600", "12 V", "tall", ""} {
		f := fieldOf(t, p, "Above ground")
		w.Canvas().Focus(f)
		f.SetText(typed)
		w.Canvas().Unfocus()
		if d.Frame().Scheme != before {
			t.Fatalf("%q changed the scheme", typed)
		}
		if !strings.Contains(f.Reason(), "expected a length") || !f.reason.Visible() {
			t.Errorf("%q: the reason is %q", typed, f.Reason())
		}
		if f.Text != typed {
			t.Errorf("the text became %q, expected %q to stay", f.Text, typed)
		}
	}
	f := fieldOf(t, p, "Above ground")
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if f.Text != "0.15 m" || f.Reason() != "" {
		t.Errorf("Escape left %q with %q", f.Text, f.Reason())
	}
}

func TestRefusedOperationIsTold(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L2")
	f := fieldOf(t, p, "Label")
	f.SetText("L3") // taken
	f.Flush()
	if lampOf(d, "L2") == nil || !strings.Contains(f.Reason(), "taken") {
		t.Errorf("the reason is %q", f.Reason())
	}
}

func TestTypingSurvivesAFrame(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, w := properties(t, d, "L2")
	f := fieldOf(t, p, "Above ground")
	w.Canvas().Focus(f)
	f.SetText("1.")
	if err := d.Commit(edit.MovePoints{IDs: []doc.ID{lampOf(d, "L3").ID}, By: geom.Pt(1, 0)}); err != nil {
		t.Fatal(err)
	}
	if f.Text != "1." {
		t.Errorf("a frame put %q over what was typed", f.Text)
	}
	// Another field of the same lamp follows the scheme meanwhile.
	left := fieldOf(t, p, "From left")
	if err := d.Commit(edit.MovePoints{IDs: []doc.ID{lampOf(d, "L2").ID}, By: geom.Pt(1, 0)}); err != nil {
		t.Fatal(err)
	}
	if left.Text != "2.5 m" {
		t.Errorf("From left shows %q, expected 2.5 m", left.Text)
	}
}

// What was typed for one lamp must not land on the next one selected.
func TestSelectionCommitsToTheOldOne(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, w := properties(t, d, "L2")
	f := fieldOf(t, p, "Above ground")
	w.Canvas().Focus(f)
	f.SetText("0.9 m")
	p.SetSelection([]doc.ID{lampOf(d, "L7").ID})
	if got := lampOf(d, "L2").Place.Height; got != 900*geom.Millimetre {
		t.Errorf("L2 is %v high", got)
	}
	if got := lampOf(d, "L7").Place.Height; got != 2100*geom.Millimetre {
		t.Errorf("L7 became %v high", got)
	}
	if got := fieldOf(t, p, "Above ground").Text; got != "2.1 m" {
		t.Errorf("the field shows %q for L7", got)
	}
}

// Showing a value must never write one: the hook of a list is off while it is
// filled.
func TestShowingWritesNothing(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "")
	before := d.Frame()
	doc.Each(before.Scheme, func(e doc.Entity, _ doc.Kind) {
		p.SetSelection([]doc.ID{e.Key()})
	})
	p.SetSelection(nil)
	if d.Frame() != before {
		t.Errorf("looking at things made %q", d.Frame().Undo)
	}
}

func TestChoiceIsOneUndoStep(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L2")
	before := d.Frame().Scheme
	c := choiceOf(t, p, "Fitting")
	for i, key := range c.keys {
		if key == "spot-5w-230" {
			c.pick.SetSelectedIndex(i)
		}
	}
	if got := lampOf(d, "L2").Stock; got != "spot-5w-230" {
		t.Fatalf("the fitting is %q", got)
	}
	d.Undo()
	if d.Frame().Scheme != before {
		t.Error("one undo did not take it back")
	}
	if got := c.keys[c.pick.SelectedIndex()]; got != "brick-3w" {
		t.Errorf("after undo the list shows %q", got)
	}
}

func TestSupplyRowsFollowTheEarthing(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "SP1")
	fieldOf(t, p, "Ze at the board")
	c := choiceOf(t, p, "Earthing")
	c.pick.SetSelected("TT")
	sp := doc.WithTag(d.Frame().Scheme, "SP1").(*doc.Supply)
	if sp.Earthing != network.TT {
		t.Fatalf("earthing is %v", sp.Earthing)
	}
	f := fieldOf(t, p, "Electrode RA")
	f.SetText("85 ohm")
	f.Flush()
	sp = doc.WithTag(d.Frame().Scheme, "SP1").(*doc.Supply)
	if !sp.Electrode.Known || sp.Electrode.Value != 85 || f.Text != "85 Ω" {
		t.Errorf("the electrode is %+v, shown as %q", sp.Electrode, f.Text)
	}
	f.SetText("")
	f.Flush()
	if sp = doc.WithTag(d.Frame().Scheme, "SP1").(*doc.Supply); sp.Electrode.Known {
		t.Error("an empty field is not unknown")
	}
}

func TestLegsOfARun(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "R2")
	run := func() *doc.Run { return doc.WithTag(d.Frame().Scheme, "R2").(*doc.Run) }
	var legs *legsRow
	for _, r := range p.now.rows {
		if l, ok := r.(*legsRow); ok {
			legs = l
		}
	}
	legs.legs[1].rows[0].(*choiceRow).pick.SetSelected("Buried")
	if l := run().Legs[1]; l.Support != network.Buried || l.Depth != usualDepth {
		t.Errorf("leg 2 is %+v", l)
	}
	depth := legs.legs[1].rows[1].(*textRow)
	depth.field.SetText("450 mm")
	depth.field.Flush()
	if l := run().Legs[1]; l.Depth != 450*geom.Millimetre {
		t.Errorf("leg 2 is %v deep", l.Depth)
	}
	if l := run().Legs[0]; l.Support != network.Clipped {
		t.Error("leg 1 changed too")
	}
	// A run with fewer legs hides what it has not.
	p.SetSelection([]doc.ID{doc.WithTag(d.Frame().Scheme, "R1").Key()})
	if n := len(doc.WithTag(d.Frame().Scheme, "R1").(*doc.Run).Legs); n != 1 || legs.legs[1].box.Visible() {
		t.Errorf("R1 has %d legs, the second form is visible: %v", n, legs.legs[1].box.Visible())
	}
}

func TestDeletedThingLeavesThePanel(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L2")
	if err := d.Commit(edit.Delete{IDs: []doc.ID{lampOf(d, "L2").ID}}); err != nil {
		t.Fatal(err)
	}
	if got := p.title.Text; got != "Nothing selected" {
		t.Errorf("the panel is about %q", got)
	}
	d.Undo()
	p.SetSelection([]doc.ID{lampOf(d, "L2").ID, lampOf(d, "L3").ID})
	if got := texts(p.Object()); !strings.Contains(got, "2 things selected") {
		t.Errorf("the panel shows\n%s", got)
	}
}

func TestReadingsComeFromTheFrame(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L12")
	var want string
	for _, r := range d.Frame().Results {
		for _, pt := range r.Points {
			if pt.Label == "L12" {
				want = pt.Voltage.String() + " of " + pt.Nominal.String()
			}
		}
	}
	if got := texts(p.Object()); want == "" || !strings.Contains(got, want) {
		t.Errorf("expected %q in\n%s", want, got)
	}
}

func TestScaleIsRead(t *testing.T) {
	for text, want := range map[string]int{"1:50": 50, "1 : 100": 100, "50": 50, "0": 0, "1:0": 0, "1:x": 0, "": 0} {
		got, err := ParseScale(text)
		if got != want || (err == nil) != (want > 0) {
			t.Errorf("%q gave %d, %v", text, got, err)
		}
	}
}

func TestPercentIsRead(t *testing.T) {
	for text, want := range map[string]float64{"5 %": 0.05, "0%": 0, "100 %": 1} {
		if got, err := parsePercent(text); err != nil || got != want {
			t.Errorf("%q gave %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"5", "-1 %", "101 %", "%"} {
		if _, err := parsePercent(text); err == nil {
			t.Errorf("%q was taken", text)
		}
	}
}

func TestTabReachesEveryField(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	_, w := properties(t, d, "L2")
	seen := map[fyne.Focusable]bool{}
	for range 40 {
		w.Canvas().FocusNext()
		seen[w.Canvas().Focused()] = true
	}
	if len(seen) < 6 { // label, fitting, zone, height, left, bottom
		t.Errorf("Tab reached %d parts", len(seen))
	}
}

func TestBareNumbersGetTheUnitShown(t *testing.T) {
	for _, c := range []struct{ text, unit, want string }{
		{"0.35", "Ω", "0.35 Ω"}, {" 0,35 ", "Ω", "0.35 Ω"}, {"-5", "°C", "-5 °C"}, {"0.4 ohm", "Ω", "0.4 ohm"},
		{"350mΩ", "Ω", "350mΩ"}, {"0,35 Ω", "Ω", "0.35 Ω"}, {"tall", "m", "tall"}, {"", "m", ""}, {"1.2.3", "m", "1.2.3"},
		{"12", "", "12"}, {"100", "m", "100 m"},
		{"600", "m", "600"}, // millimetres, more likely
	} {
		if got := WithUnit(c.text, c.unit); got != c.want {
			t.Errorf("%q in %q gave %q, expected %q", c.text, c.unit, got, c.want)
		}
	}
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "SP1")
	supply := func() *doc.Supply { return doc.WithTag(d.Frame().Scheme, "SP1").(*doc.Supply) }
	enter := func(caption, text string) {
		f := fieldOf(t, p, caption)
		f.SetText(text)
		f.Flush()
	}
	enter("Leakage already on it", "")
	enter("Leakage already on it", "2") // the empty field names mA
	enter("Zs measured here", "0.7")
	if got := supply().Leakage; !got.Known || got.Value != 0.002 {
		t.Errorf("2 in a field for mA gave %v", got)
	}
	if got := supply().MeasuredZs; !got.Known || got.Value != 0.7 {
		t.Errorf("0.7 in a field for Ω gave %v", got)
	}
	enter("Label", "12") // text, not a number
	if got := fieldOf(t, p, "Label").Text; got != "12" {
		t.Errorf("the label became %q", got)
	}
}

func TestWheelOverAFieldTurnsTheForm(t *testing.T) {
	p, w := properties(t, newDesk(t, "townhouse.yaml"), "SP1")
	w.Resize(fyne.NewSize(330, 200))
	f := fieldOf(t, p, "Label")
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(f).AddXY(20, 10)
	test.Scroll(w.Canvas(), at, 0, -50)
	if p.scroll.Offset.Y != 50 {
		t.Errorf("the form is at %v, expected 50", p.scroll.Offset.Y)
	}
}

func TestIndoorLegListsHouseCablesFirst(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	stock := d.Frame().Stock
	got := indoorOptions(stock)
	if first, _ := stock.Cable(got[1].key); first.Buriable || !first.Mains || len(got) != len(stock.Cables)+1 {
		t.Errorf("%d cables, the first is %s", len(got), got[1].name)
	}
}
