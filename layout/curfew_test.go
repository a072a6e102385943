package layout_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// twoZones is an even lamp in each of two zones, 3 m up: L1 at (0, 0), L2 at (0, 40),
// and a neighbour's window 4 m east of L1 at its height.
func twoZones(zone string, off1, off2 doc.Off) *doc.Scheme {
	s := evenLamp()
	s.Survey.LightZone = zone
	l1, l2 := *s.Lamps.All()[0], *s.Lamps.All()[0]
	l1.Zone, l2.Zone = "Z1", "Z2"
	l2.ID, l2.Tag, l2.Place.At = "L2", "L2", geom.Pt(0, 40)
	s.Lamps = doc.NewSet(&l1, &l2)
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Off: off1}, &doc.Zone{ID: "Z2", Tag: "Z2", Off: off2})
	s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "window", Owner: "neighbour", Place: doc.Place{At: geom.Pt(4, 0), Height: 3 * geom.Metre}})
	return s
}

// schemeDesk is a desk with a scheme.
func schemeDesk(t *testing.T, s *doc.Scheme) *layout.Desk {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, "")
}

func at(t *testing.T, text string) doc.Off {
	t.Helper()
	if text == "" {
		return doc.Off{}
	}
	o, err := doc.ParseOff(text)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// TestCurfew: LUX-02 takes all lamps before curfew and those that burn after it; a
// zone that is off by curfew gives nothing then, one of which nobody said burns.
// L1 gives 0.8 × 50 / 4² = 2.5 lx at the window; E3 allows 2 lx after 23:00.
func TestCurfew(t *testing.T) {
	for _, c := range []struct {
		name, zone, off, curfew string
		want                    string // codes and levels of LUX-02 and LUX-10
	}{
		{"nobody said", "E3", "", "", "LUX-02 Note"},
		{"off at curfew to the minute", "E3", "23:00", "", ""},
		{"off before", "E3", "22:30", "", ""},
		{"off a minute later", "E3", "23:01", "", "LUX-02 Note"},
		{"off after midnight is after curfew", "E3", "00:30", "", "LUX-02 Note"},
		{"burns till dawn", "E3", "dawn", "", "LUX-02 Note"},
		{"a curfew set locally", "E3", "22:30", "22:00", "LUX-02 Note"},
		{"a late curfew", "E3", "00:30", "01:00", ""},
		{"before curfew all lamps count", "E1", "22:30", "", "LUX-02 Decide"},
		{"a limit met, the courtesy not", "E4", "", "", "LUX-10 Note"},
		{"neither with the zone off", "E4", "22:00", "", ""},
	} {
		s := twoZones(c.zone, at(t, c.off), doc.Off{})
		s.Survey.Curfew = at(t, c.curfew)
		var got []string
		for _, code := range []finding.Code{"LUX-02", "LUX-10"} {
			for _, f := range litBy(t, s, code) {
				got = append(got, string(f.Code)+" "+f.Level.String())
			}
		}
		if strings.Join(got, "; ") != c.want {
			t.Errorf("%s: found %v, expected %q", c.name, got, c.want)
		}
	}
}

// TestCurfewLoad: LUX-08 tells what burns on, and is silent once every zone is off by
// curfew; a lamp in no zone burns on.
func TestCurfewLoad(t *testing.T) {
	off := at(t, "22:00")
	if fs := litBy(t, twoZones("E3", off, off), "LUX-08"); len(fs) != 0 {
		t.Errorf("all off, and still %q", fs[0].Text)
	}
	fs := litBy(t, twoZones("E3", off, doc.Off{}), "LUX-08")
	if len(fs) != 1 || fs[0].Subject.ID != "L2" || !strings.Contains(fs[0].Text, "1 of 2 lamps burn after curfew at 23:00; of 1 lamp nobody said") {
		t.Errorf("found %+v", fs)
	}
	s := twoZones("E3", off, off)
	l := *s.Lamps.All()[1]
	l.Zone = ""
	s.Lamps = s.Lamps.With(&l)
	if fs := litBy(t, s, "LUX-08"); len(fs) != 1 || fs[0].Subject.ID != "L2" {
		t.Errorf("a lamp in no zone: found %+v", fs)
	}
}

// TestCurfewCure: the way out tried is to have the zone out at curfew, with the figure
// that comes of it; carried out, the finding is gone.
func TestCurfewCure(t *testing.T) {
	d := schemeDesk(t, twoZones("E3", doc.Off{}, doc.Off{}))
	for _, c := range []struct {
		code         finding.Code
		text, figure string
	}{
		{"LUX-02", "have Z1 go out at curfew, 23:00", "0.02 lx after curfew, 2.50 lx before"},
		{"LUX-08", "have Z1, Z2 go out at curfew, 23:00", "0 of 2 lamps burn after curfew, 0 W"},
		// One zone alone leaves a lamp that hangs on no circuit: what it takes is not known.
		{"LUX-08", "have Z1 go out at curfew, 23:00", "1 of 2 lamps burn after curfew, watts not known"},
	} {
		var fd *finding.Finding
		for i, f := range d.Frame().Findings {
			if f.Code == c.code {
				fd = &d.Frame().Findings[i]
			}
		}
		if fd == nil {
			t.Fatalf("no %s", c.code)
		}
		cures := layout.Cures(context.Background(), d.Frame(), *fd)
		if strings.Contains(c.figure, "not known") {
			if !slices.ContainsFunc(cures, func(k layout.Cure) bool { return k.Text == c.text && k.Figure == c.figure }) {
				t.Errorf("%s: no %q among %+v", c.code, c.figure, cures)
			}
			continue
		}
		if len(cures) == 0 || cures[0].Text != c.text || cures[0].Figure != c.figure || !cures[0].Holds {
			t.Fatalf("%s: cures %+v", c.code, cures)
		}
		if err := d.Commit(cures[0].Operation); err != nil {
			t.Fatal(err)
		}
		for _, f := range d.Frame().Findings {
			if f.Code == c.code {
				t.Errorf("%s still stands: %s", c.code, f.Text)
			}
		}
		d.Undo()
	}
}

// TestNoCurfewCure: what is over the limit before curfew no hour mends.
func TestNoCurfewCure(t *testing.T) {
	d := schemeDesk(t, twoZones("E1", doc.Off{}, doc.Off{}))
	for _, f := range d.Frame().Findings {
		if f.Code == "LUX-02" && len(layout.Cures(context.Background(), d.Frame(), f)) > 0 {
			t.Error("a zone out at curfew is offered for light before it")
		}
	}
}

// TestAfterCurfew: the night after curfew is that of the scheme without the lamps that
// are out; the picture of Dusk follows, to the byte.
func TestAfterCurfew(t *testing.T) {
	s := twoZones("E3", at(t, "22:00"), doc.Off{})
	d := schemeDesk(t, s)
	f := d.Frame()
	n, err := layout.NightOf(f)
	if err != nil {
		t.Fatal(err)
	}
	late, err := n.AfterCurfew(f)
	if err != nil {
		t.Fatal(err)
	}
	one := *s
	one.Lamps = doc.NewSet(s.Lamps.All()[1])
	alone, err := layout.NightOf(schemeDesk(t, &one).Frame())
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range []light.Vec{{}, {X: 2, Y: 20}, {Y: 39}} {
		if got, want := late.Scene.At(p, light.Up), alone.Scene.At(p, light.Up); math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("%v: %v after curfew, %v by L2 alone", p, got, want)
		}
	}
	if w := n.Late(f); w.Burn != 1 || w.Lamps != 2 || w.Unsaid != 1 || math.Abs(w.Lumens-w.All/2) > 1e-9 || !strings.HasPrefix(w.Words(), "1 of 2 lamps burn on at 23:00") {
		t.Errorf("found %+v", w)
	}
	if got := strings.Join(late.Assumed, "\n"); !strings.Contains(got, "L2: nobody said when they go out, taken to burn after curfew") {
		t.Errorf("assumed %q", got)
	}
	work := layout.NewDusk()
	draw := func(after bool) string {
		wish := layout.DuskWish{Frame: f, Area: layout.NightArea(f.Scheme), AfterCurfew: after, Width: 40, Height: 60, PxPerMM: 2}
		wish.View.Denominator, wish.View.Origin = 1000, geom.Pt(-20, 50)
		for {
			shot, more, err := work.Step(context.Background(), wish)
			if err != nil {
				t.Fatal(err)
			}
			if shot != nil && !shot.Coarse {
				if shot.AfterCurfew != after {
					t.Fatal("the shot does not say what it shows")
				}
				return string(shot.Image.Pix)
			}
			if !more {
				t.Fatal("no picture")
			}
		}
	}
	before, after := draw(false), draw(true)
	if before == after {
		t.Error("after curfew looks like before it")
	}
	if draw(false) != before || draw(true) != after {
		t.Error("going to and fro leaves something behind")
	}
}

// TestUpright: below an even lamp 4 m off at the height of faces the surface that faces
// it has I/d² maintained; the direction is told.
func TestUpright(t *testing.T) {
	s := evenLamp()
	l := *s.Lamps.All()[0]
	l.Place.Height = 1500 * geom.Millimetre
	s.Lamps = doc.NewSet(&l)
	n, err := layout.NightOf(schemeDesk(t, s).Frame())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		x, y, facing float64
	}{{4, 0, 270}, {-4, 0, 90}, {0, -4, 0}, {0, 4, 180}, {2 * math.Sqrt2, -2 * math.Sqrt2, 315}} {
		u := n.Upright(geom.Pt(c.x, c.y))
		if math.Abs(float64(u.Lux)-0.8*50/16) > 0.01 || u.Facing != c.facing || u.Height != 1.5 {
			t.Errorf("(%g, %g): %+v, expected 2.5 lx facing %g°", c.x, c.y, u, c.facing)
		}
	}
	if u := n.Upright(geom.Pt(4, 0)); math.Abs(float64(u.Sides[3]-u.Lux)) > 1e-9 || u.Sides[1] != 0 {
		t.Errorf("sides %v, expected the light on the left alone", u.Sides)
	}
}

// TestFacesAndWhites: LUX-01 has the light on faces of what is walked on, LUX-06 the
// white of a lamp over grass, LUX-07 one that is aimed up, LUX-09 the intensity towards
// a window.
func TestFacesAndWhites(t *testing.T) {
	s := evenLamp()
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "gravel", Ring: square(0, 0, 0.1)})
	// Straight below, 1.5 m under the lamp: an upright surface gets about nothing.
	fs := litBy(t, s, "LUX-01")
	if len(fs) != 1 || !strings.Contains(fs[0].Limit, "2 lx on faces") || !strings.Contains(fs[0].Working, "faces 1.5 m up at ") {
		t.Errorf("found %+v", fs)
	}
	white := func(k q.Kelvin) string {
		s := evenLamp()
		s.Stock.Lamps[0].Temperature = k
		for _, f := range litBy(t, s, "LUX-06") {
			return f.Level.String() + " " + f.Figure
		}
		return ""
	}
	for k, want := range map[q.Kelvin]string{2700: "", 2701: "Note 2701 K", 3000: "Note 3000 K", 3001: "Decide 3001 K", 0: "Note colour temperature not known"} {
		if got := white(k); got != want {
			t.Errorf("%v: found %q, expected %q", k, got, want)
		}
	}
	aimed := func(tilt float64) int {
		s := evenLamp()
		s.Stock.Lamps[0].Beam = 24
		l := *s.Lamps.All()[0]
		l.Aim, l.Tilt = 90, tilt
		s.Lamps = doc.NewSet(&l)
		return len(litBy(t, s, "LUX-07"))
	}
	if aimed(-10) != 0 || aimed(10) != 1 {
		t.Errorf("aimed 10° down %d, 10° up %d; expected 0 and 1", aimed(-10), aimed(10))
	}
	spot := twoZones("E1", doc.Off{}, at(t, "22:00"))
	if fs := litBy(t, spot, "LUX-09"); len(fs) != 1 || fs[0].Level != finding.Note || !strings.HasPrefix(fs[0].Figure, "50 cd by L1") {
		t.Errorf("E1 allows no intensity after curfew: found %+v", fs)
	}
	spot = twoZones("E1", at(t, "22:00"), at(t, "22:00"))
	if fs := litBy(t, spot, "LUX-09"); len(fs) != 0 {
		t.Errorf("both out: found %+v", fs)
	}
}

// TestCurfewOf: the survey goes before the rule set, and that before the usual hour.
func TestCurfewOf(t *testing.T) {
	s := doc.New("uk-18")
	var r check.Rules
	if got, said := layout.CurfewOf(s, &r); got.String() != "23:00" || said {
		t.Errorf("usual: %v, said %v", got, said)
	}
	r.Light.Curfew = q.Some(22.5)
	if got, said := layout.CurfewOf(s, &r); got.String() != "22:30" || said {
		t.Errorf("of the rule set: %v, said %v", got, said)
	}
	r.Light.Curfew = q.Some(0.0)
	if got, said := layout.CurfewOf(s, &r); got.String() != "00:00" || said {
		t.Errorf("midnight by the rule set: %v, said %v", got, said)
	}
	s.Survey.Curfew = at(t, "21:00")
	if got, said := layout.CurfewOf(s, &r); got.String() != "21:00" || !said {
		t.Errorf("of the survey: %v, said %v", got, said)
	}
	d := schemeDesk(t, s)
	if err := d.Commit(edit.SetSurvey{Survey: doc.Survey{Curfew: doc.Off{Set: true, Dawn: true}}}); err == nil {
		t.Error("dawn was taken as a curfew")
	}
}
