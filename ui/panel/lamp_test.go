package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
)

// TestFactorForAgeAndDirt: the factors of the scheme are typed under Site, each one
// undo step; empty they are the usual ones, and what is out of range is refused.
func TestFactorForAgeAndDirt(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, w := properties(t, d, "")
	typed := func(name, text string) string {
		f := fieldOf(t, p, name)
		w.Canvas().Focus(f)
		f.SetText(text)
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
		return f.Reason()
	}
	start := d.Frame().Scheme
	ages := func() [2]float64 { s := d.Frame().Scheme.Survey; a, b := s.Ages(); return [2]float64{a, b} }
	if ages() != [2]float64{0.8, 0.7} {
		t.Errorf("at the start %v", ages())
	}
	if why := typed("Age and dirt", "0,9"); why != "" || ages() != [2]float64{0.9, 0.7} {
		t.Errorf("0,9: %v %s", ages(), why)
	}
	if why := typed("In the ground", "0.65"); why != "" || ages() != [2]float64{0.9, 0.65} {
		t.Errorf("0.65 in the ground: %v %s", ages(), why)
	}
	before := d.Frame().Scheme
	for _, bad := range []string{"0", "1.2", "80 %", "much"} {
		if why := typed("Age and dirt", bad); !strings.Contains(why, "expected a factor from 0.1 to 1") || d.Frame().Scheme != before {
			t.Errorf("%q: %s", bad, why)
		}
	}
	if why := typed("Age and dirt", ""); why != "" || ages() != [2]float64{0.8, 0.65} {
		t.Errorf("empty: %v %s", ages(), why)
	}
	for range 3 {
		d.Undo()
	}
	if d.Frame().Scheme != start {
		t.Error("three steps were not three undo steps")
	}
}

// TestLightOfStockBook: all that the stock book says of the light is named.
func TestLightOfStockBook(t *testing.T) {
	for _, c := range []struct {
		item doc.LampStock
		want string
	}{
		{doc.LampStock{Key: "a", Flux: 400, Beam: 36}, ": 400 lm, beam 36°"},
		{doc.LampStock{Key: "a", Flux: 400, Beam: 20, Across: 60, Peak: 900}, ": 400 lm, beam 20° upright, 60° across, peak 900 cd"},
		{doc.LampStock{Key: "a", Flux: 400}, ": 400 lm, beam not known"},
		{doc.LampStock{Key: "a", Beam: 36, Peak: 900}, ": beam 36°, peak 900 cd"},
		{doc.LampStock{Key: "a"}, ", which does not say how much"},
	} {
		if got := modelText(&doc.Stock{Lamps: []doc.LampStock{c.item}}, "a"); got != c.want {
			t.Errorf("%+v: %q, expected %q", c.item, got, c.want)
		}
	}
}
