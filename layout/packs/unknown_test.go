package packs

import (
	"math"
	"strings"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// without returns the terrace wall with one thing not known, priced and with what
// the running cost asks for.
func without(t testing.TB, change func(*doc.Scheme)) Input { return priced(t, terrace, change) }

// unfedLamp adds a lamp that no run reaches.
func unfedLamp(s *doc.Scheme) {
	l := *s.Lamps.All()[0]
	l.ID, l.Tag, l.Place.At = "unfed", "L99", l.Place.At.Add(geom.Pt(40, 40))
	s.Lamps = s.Lamps.With(&l)
}

// noCables takes the choice of cable away from every run, so that nothing is fed.
func noCables(s *doc.Scheme) {
	s.Runs = s.Runs.Map(func(r *doc.Run) *doc.Run {
		n := *r
		n.Cable = ""
		return &n
	})
}

// noDepths takes the depths away.
func noDepths(s *doc.Scheme) {
	s.Runs = s.Runs.Map(func(r *doc.Run) *doc.Run {
		n := *r
		n.Legs = append([]doc.Leg{}, r.Legs...)
		for i := range n.Legs {
			n.Legs[i].Depth = 0
		}
		return &n
	})
}

// noFuse leaves the fuse of a spur open.
func noFuse(s *doc.Scheme) {
	s.Supplies = s.Supplies.Map(func(e *doc.Supply) *doc.Supply {
		n := *e
		n.Fuse = ""
		return &n
	})
}

// What is drawn and cannot be counted is named beside price and running cost, on
// the page and where two schemes stand side by side: a lamp that nothing feeds is
// not one that takes 0 W, a run without a cable chosen not one that costs nothing.
func TestUncountedIsNamed(t *testing.T) {
	for _, c := range []struct {
		what              string
		change            func(*doc.Scheme)
		page, says, notes string
	}{
		{"a lamp without supply", unfedLamp, "Running cost", "Without L99, connected to no supply", "Watts and running cost of A without L99"},
		{"runs without cable", noCables, "Price", "for which none is chosen", "for which none is chosen"},
		{"no depths", noDepths, "Price", "Not counted, so in no sum: sand where no depth is given", "sand where no depth is given"},
		{"no fuse", noFuse, "Price", "the fused connection unit of SP1, whose fuse is not known", "whose fuse is not known"},
	} {
		in := without(t, c.change)
		text := strings.Join(strings.Fields(pageText(t, in, c.page)), " ")
		if !strings.Contains(text, c.says) {
			t.Errorf("%s: the page %s does not say %q: %s", c.what, c.page, c.says, text)
		}
		if notes := strings.Join(Compare(in, without(t, nil)).Notes, " "); !strings.Contains(notes, c.notes) {
			t.Errorf("%s: the comparison does not say %q: %s", c.what, c.notes, notes)
		}
	}
	// With all known none of it is said.
	whole := without(t, nil)
	if b := newBook(whole); len(b.quoteOf().open) > 0 || len(b.runningOf().unfed) > 0 {
		t.Errorf("the whole scheme lacks %q, %q", b.quoteOf().open, b.runningOf().unfed)
	}
}

// Where no lamp is fed the watts are not known, and neither is what they cost; where
// no depth is given the volume is not 0.
func TestNothingKnownIsNull(t *testing.T) {
	for _, c := range []struct {
		change func(*doc.Scheme)
		rows   string
	}{
		{noCables, "watts at the supply"}, {noCables, "running cost a year, off at dawn"}, {noDepths, "dug"},
	} {
		found := false
		for _, r := range Compare(without(t, c.change), without(t, nil)).Rows {
			if r.What == c.rows {
				found = true
				if r.A != nil || r.B == nil || r.Difference != nil {
					t.Errorf("%s: %v, %v, %v; want not known beside a figure", r.What, r.A, r.B, r.Difference)
				}
			}
		}
		if !found {
			t.Errorf("no row %q", c.rows)
		}
	}
	text := strings.Join(strings.Fields(pageText(t, without(t, noCables), "Running cost")), " ")
	if !strings.Contains(text, "not known") || strings.Contains(text, " 0.0 ") {
		t.Errorf("no lamp is fed: %s", text)
	}
}

// Two lamps of 3 W more, one of them not fed: the watts are those of the fed one.
func TestUnfedLampTakesNoWatts(t *testing.T) {
	a, b := newBook(without(t, nil)).runningOf(), newBook(without(t, unfedLamp)).runningOf()
	if math.Abs(float64(a.total.watts-b.total.watts)) > 1e-9 || b.total.unknown != 1 || b.total.lamps != a.total.lamps+1 {
		t.Errorf("%+v, want %+v and one lamp more that is not known", b.total, a.total)
	}
}

// A length left over from another job costs nothing and the page says why.
func TestAtHand(t *testing.T) {
	in := without(t, func(s *doc.Scheme) {
		s.List = s.List.With(doc.ItemPrice{Group: "cable", Item: "swa-3x1.5"})
		s.Prices = []doc.Price{{Cable: "swa-3x1.5", Metre: q.Some(doc.Money(145)), Left: []q.Metre{40}}}
	})
	if text := pageText(t, in, "Price"); !strings.Contains(text, "at hand") {
		t.Errorf("the page does not say that the cable is at hand: %s", text)
	}
}
