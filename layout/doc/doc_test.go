package doc

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// garden is a supply point, a lamp in a zone, a run between them, and ground.
func garden() *Scheme {
	s := New("uk-18")
	s.Supplies = NewSet(&Supply{ID: "SP1", Tag: "SP1", Nominal: 230})
	s.Lamps = NewSet(
		&Lamp{ID: "L1", Tag: "L1", Place: Place{At: geom.Pt(4, 2)}, Stock: "pillar-10w", Zone: "Z1"},
		&Lamp{ID: "L2", Tag: "L2", Place: Place{At: geom.Pt(6, 2)}, Stock: "pillar-10w"},
	)
	s.Runs = NewSet(&Run{ID: "R1", Tag: "R1", Cable: "swa-3x1.5", From: End{On: "SP1"}, To: End{On: "L1"}, Legs: []Leg{{To: geom.Pt(0, 2)}, {}}})
	s.Zones = NewSet(&Zone{ID: "Z1", Tag: "Z1", Colour: "amber"})
	s.Areas = NewSet(&Area{ID: "A1", Tag: "A1", Kind: "lawn", Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}})
	s.Lines = NewSet(&Line{ID: "N1", Tag: "N1", Kind: "wall", Path: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0)}})
	s.Marks = NewSet(&Mark{ID: "M1", Tag: "M1", Kind: "tree", Place: Place{At: geom.Pt(8, 8)}, Crown: geom.Metre})
	return s
}

// onLamp and onRun return a change of the lamp L1 and of the run R1.
func onLamp(change func(*Lamp)) func(*Scheme) {
	return func(s *Scheme) {
		l, _ := s.Lamps.Get("L1")
		c := *l
		change(&c)
		s.Lamps = s.Lamps.With(&c)
	}
}

func onRun(change func(*Run)) func(*Scheme) {
	return func(s *Scheme) {
		r, _ := s.Runs.Get("R1")
		c := *r
		c.Legs = slices.Clone(r.Legs)
		change(&c)
		s.Runs = s.Runs.With(&c)
	}
}

// spoilt are changes of garden that must not be, and what is said of each.
var spoilt = []struct {
	name   string
	change func(*Scheme)
	want   string
}{
	{"no rule set", func(s *Scheme) { s.Rules = " " }, `rules: found nothing, expected a text`},
	{"title with a bell", func(s *Scheme) { s.Title = "a\a" }, "title: found a control character, expected a text"},
	{"title not UTF-8", func(s *Scheme) { s.Title = "\xff" }, "title: found bytes that are not UTF-8"},
	{"long title", func(s *Scheme) { s.Title = strings.Repeat("é", 2001) }, "title: found 2001 letters, expected at most 2000"},
	{"hot air", func(s *Scheme) { s.Survey.Air = q.Some(q.Celsius(101)) }, "survey: air: found 101 °C, expected a value from -50 °C to 100 °C"},
	{"value without being known", func(s *Scheme) { s.Survey.Soil.Value = 2 }, "survey: soil: found a value marked unknown"},
	{"no grid", func(s *Scheme) { s.Plan.Grid = 0 }, "plan: grid: found 0 m, expected a length from 1 mm to 100 m"},
	{"north of nowhere", func(s *Scheme) { s.Plan.North = q.Some(math.NaN()) }, "plan: north: found no number"},
	{"same tag", onLamp(func(l *Lamp) { l.Tag = "L2" }), `lamp L2: tag: found "L2", expected a tag of its own (lamp L2 has this one)`},
	{"same id", func(s *Scheme) { s.Boxes = NewSet(&Box{ID: "L1", Tag: "B1", Stock: "box"}) }, `lamp L1: id: found "L1", expected an id of its own (box B1 has this one)`},
	{"no tag", onLamp(func(l *Lamp) { l.Tag = "" }), "lamp L1: tag: found nothing"},
	{"two-line tag", onLamp(func(l *Lamp) { l.Tag = "a\nb" }), "tag: found a line end, expected one line"},
	{"no stock", onLamp(func(l *Lamp) { l.Stock = "" }), "lamp L1: stock: found nothing"},
	{"no zone", onLamp(func(l *Lamp) { l.Zone = "Z9" }), `lamp L1: zone: found "Z9", expected a zone of the scheme`},
	{"too far", onLamp(func(l *Lamp) { l.Place.At.X = Far + 1 }), "lamp L1: at: found [10000.000001 m, 2 m], expected a point within ±10000 m"},
	{"too high", onLamp(func(l *Lamp) { l.Place.Height = 101 * geom.Metre }), "lamp L1: height: found 101 m"},
	{"endless aim", onLamp(func(l *Lamp) { l.Aim = math.Inf(1) }), "lamp L1: aim: found no number"},
	{"no legs", onRun(func(r *Run) { r.Legs = nil }), "run R1: legs: found none, expected at least one leg"},
	{"on a zone", onRun(func(r *Run) { r.To.On = "Z1" }), `run R1: to.on: found "Z1", expected the id of a supply point, box, lamp, gear or source`},
	{"back to the start", onRun(func(r *Run) { r.To.On = "SP1" }), "run R1: to.on: found"},
	{"side of a lamp", onRun(func(r *Run) { r.To.Side = Primary }), `run R1: to.side: found a side, expected none: "L1" is no source`},
	{"side in the air", onRun(func(r *Run) { r.To = End{Side: Primary} }), "run R1: to.side: found a side, expected none: the end is in the air"},
	{"strange gland", onRun(func(r *Run) { r.To.Gland = "EW" }), `run R1: to.gland: found "EW", expected one of BW, CW, E1W`},
	{"strange fill", func(s *Scheme) { s.Boxes = NewSet(&Box{ID: "B9", Tag: "B9", Stock: "box", Fill: "sand"}) }, `box B9: fill: found "sand", expected one of none, gel, resin`},
	{"negative entries", func(s *Scheme) { s.Boxes = NewSet(&Box{ID: "B9", Tag: "B9", Stock: "box", Open: -1}) }, "box B9: open_entries: found -1, expected a value from 0 to 100"},
	{"too many entries", func(s *Scheme) { s.Boxes = NewSet(&Box{ID: "B9", Tag: "B9", Stock: "box", TopEntries: 101}) }, "box B9: top_entries: found 101"},
	{"negative depth", onRun(func(r *Run) { r.Legs[1].Depth = -1 }), "run R1: legs[2].depth: found -0.001 mm, expected a length from 0 m to 10 m"},
	{"negative slack", onRun(func(r *Run) { r.Slack = -1 }), "run R1: slack: found -1 m"},
	{"strange support", onRun(func(r *Run) { r.Legs[0].Support = network.Indoors + 1 }), "run R1: legs[1].support: found 6"},
	{"ring of two", func(s *Scheme) {
		s.Areas = NewSet(&Area{ID: "A1", Tag: "A1", Kind: "lawn", Ring: make([]geom.Point, 2)})
	}, "area A1: ring: found 2 points"},
	{"kind of area", func(s *Scheme) {
		s.Areas = NewSet(&Area{ID: "A1", Tag: "A1", Kind: "sea", Ring: make([]geom.Point, 3)})
	}, `area A1: kind: found "sea", expected one of building, paving`},
	{"owner", func(s *Scheme) {
		s.Lines = NewSet(&Line{ID: "N1", Tag: "N1", Kind: "wall", Path: make([]geom.Point, 2), Owner: "king"})
	}, `line N1: owner: found "king", expected one of own, neighbour`},
	{"decision about nothing", func(s *Scheme) { s.Decisions = []Decision{{Code: "X", Subject: "L9", Reason: "r"}} }, `decision 1: subject: found "L9"`},
	{"decision twice", func(s *Scheme) {
		s.Decisions = []Decision{{Code: "X", Reason: "r"}, {Code: "X", Reason: "r"}}
	}, `decision 2: code: found "X", expected one decision about a finding`},
}

func TestValidate(t *testing.T) {
	if err := Validate(garden()); err != nil {
		t.Fatal(err)
	}
	for _, c := range spoilt {
		s := garden()
		c.change(s)
		err := Validate(s)
		var p *Problem
		if !errors.As(err, &p) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %s", c.name, err, c.want)
		}
	}
}

func TestCheckStock(t *testing.T) {
	book := Stock{Lamps: []LampStock{{Key: "pillar-10w"}}, Cables: []*network.Cable{{Key: "swa-3x1.5"}}, Devices: []DeviceStock{{Key: "fuse-3"}}}
	s := garden()
	if list := CheckStock(s, book); len(list) != 0 {
		t.Errorf("problems %v, want none", list[0])
	}
	s.Supplies = NewSet(&Supply{ID: "SP1", Tag: "SP1", Upstream: "b16", Fuse: "fuse-3", Indoor: Indoor{Cable: "te"}})
	s.Boxes = NewSet(&Box{ID: "B1", Tag: "B1", Stock: "own"})
	s.Stock = Stock{Boxes: []BoxStock{{Key: "own"}}}
	var got []string
	for _, p := range CheckStock(s, book) {
		got = append(got, p.Error())
	}
	want := []string{
		`supply point SP1: upstream: found "b16", expected a device of the stock book`,
		`supply point SP1: indoor.cable: found "te", expected a cable of the stock book`,
	}
	if !slices.Equal(got, want) {
		t.Errorf("problems %q, want %q", got, want)
	}
}

func TestLookups(t *testing.T) {
	s := garden()
	for _, c := range []struct {
		id   ID
		kind Kind
		at   geom.Point
		ok   bool
	}{
		{"SP1", SupplyKind, geom.Point{}, true}, {"L1", LampKind, geom.Pt(4, 2), true}, {"M1", MarkKind, geom.Pt(8, 8), true},
		{"R1", RunKind, geom.Point{}, false}, {"Z1", ZoneKind, geom.Point{}, false}, {"A1", AreaKind, geom.Point{}, false},
		{"N1", LineKind, geom.Point{}, false}, {"none", NoKind, geom.Point{}, false},
	} {
		if k := KindOf(s, c.id); k != c.kind {
			t.Errorf("%s is a %s, want a %s", c.id, k, c.kind)
		}
		if p, ok := PointOf(s, c.id); ok != c.ok || p.At != c.at {
			t.Errorf("%s stands at %v (%v), want %v (%v)", c.id, p.At, ok, c.at, c.ok)
		}
		if e, k := Find(s, c.id); KindOfEntity(e) != k {
			t.Errorf("%s: kind of the entity is %s, found as %s", c.id, KindOfEntity(e), k)
		}
	}
	r, _ := s.Runs.Get("R1")
	if got, want := RunPath(s, r), []geom.Point{geom.Pt(0, 0), geom.Pt(0, 2), geom.Pt(4, 2)}; !slices.Equal(got, want) {
		t.Errorf("path %v, want %v", got, want)
	}
	if got := RunsAt(s, "L1"); len(got) != 1 || got[0] != r {
		t.Errorf("runs at L1: %v", got)
	}
	// The crown of the tree at 8, 8 has a radius of 1 m.
	if b := Bounds(s); b.Min != geom.Pt(0, 0) || b.Max != geom.Pt(9, 9) {
		t.Errorf("bounds %v", b)
	}
	if !Bounds(New("uk-18")).Empty() {
		t.Error("an empty scheme has bounds")
	}
	if TagOf(s, "none") != "" || TagOf(s, "L1") != "L1" || WithTag(s, "L2").Key() != "L2" || WithTag(s, "none") != nil {
		t.Error("tags are looked up wrong")
	}
}

func TestFreeTag(t *testing.T) {
	s := garden()
	for k, want := range map[Kind]string{
		SupplyKind: "SP2", BoxKind: "B1", LampKind: "L3", GearKind: "G1", SourceKind: "S1",
		RunKind: "R2", ZoneKind: "Z2", AreaKind: "A2", LineKind: "N2", MarkKind: "M2",
	} {
		if got := FreeTag(s, k); got != want {
			t.Errorf("next %s is %q, want %q", k, got, want)
		}
	}
	s.Boxes = NewSet(&Box{ID: "x", Tag: "L3", Stock: "box"})
	if got := FreeTag(s, LampKind); WithTag(s, got) != nil {
		t.Errorf("next lamp is %q, which a box has", got)
	}
}

func TestDiff(t *testing.T) {
	a := garden()
	if !Diff(a, a).Empty() {
		t.Error("a scheme differs from itself")
	}
	b := *a
	l, _ := a.Lamps.Get("L1")
	c := *l
	b.Lamps = a.Lamps.Without("L2").With(&c).With(&Lamp{ID: "L3", Tag: "L3"})
	b.Title, b.Plan.Scale, b.Survey.Air = "x", 20, q.Some(q.Celsius(20))
	b.Decisions = []Decision{{Code: "X"}}
	d := Diff(a, &b)
	ref := func(id ID) []Ref { return []Ref{{LampKind, id}} }
	if !slices.Equal(d.Added, ref("L3")) || !slices.Equal(d.Removed, ref("L2")) || !slices.Equal(d.Changed, ref("L1")) {
		t.Errorf("changes %+v", d)
	}
	if !d.Title || !d.Plan || !d.Survey || !d.Decisions || d.Rules || d.Stock || d.Order {
		t.Errorf("changes of the head %+v", d)
	}
	if !d.Touches(LampKind) || d.Touches(RunKind) {
		t.Error("Touches is wrong")
	}
	turned := *a
	turned.Lamps = NewSet(a.Lamps.All()[1], a.Lamps.All()[0])
	if d := Diff(a, &turned); !d.Order || d.Empty() || len(d.Changed) != 0 {
		t.Errorf("another order gives %+v", d)
	}
}

func TestSetMapAndKeep(t *testing.T) {
	s := garden().Lamps
	if got := s.Map(func(l *Lamp) *Lamp { return l }); !same(got.items, s.items) {
		t.Error("a Map that changes nothing made a new set")
	}
	if got := s.Keep(func(*Lamp) bool { return true }); !same(got.items, s.items) {
		t.Error("a Keep of all made a new set")
	}
	got := s.Map(func(l *Lamp) *Lamp { c := *l; c.Aim = 90; return &c })
	if l, _ := got.Get("L2"); l.Aim != 90 || s.items[1].Aim != 0 {
		t.Error("Map changed the wrong thing")
	}
	if got = s.Keep(func(l *Lamp) bool { return l.ID == "L2" }); got.Len() != 1 {
		t.Error("Keep kept too much")
	}
	if _, ok := got.Get("L2"); !ok {
		t.Error("Keep lost the index")
	}
}

// A length is written exactly: read back it is the same micrometre.
func TestWrittenIsExact(t *testing.T) {
	for _, c := range []struct {
		l    geom.Length
		want string
	}{
		{0, "0 m"}, {1, "0.001 mm"}, {-1500, "-1.5 mm"}, {geom.Metre, "1 m"}, {-12500 * geom.Millimetre, "-12.5 m"}, {10000000001, "10000.000001 m"},
	} {
		if got := Written(c.l); got != c.want {
			t.Errorf("Written(%d) = %q, want %q", c.l, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		l := geom.Length(rapid.Int64Range(-int64(Far), int64(Far)).Draw(t, "length"))
		m, err := q.ParseMetre(Written(l))
		if err != nil || geom.Metres(float64(m)) != l {
			t.Fatalf("%d is written %q and reads %v (%v)", l, Written(l), m, err)
		}
	})
}

// 0 Ω and 0 A are not measured anywhere: a loop or current of nothing is refused
// where it enters. Unknown is left out instead.
func TestNothingIsNotMeasured(t *testing.T) {
	for _, row := range []struct {
		field string
		set   func(*Supply)
	}{
		{"ze", func(e *Supply) { e.Ze = q.Some(q.Ohm(0)) }},
		{"electrode", func(e *Supply) { e.Electrode = q.Some(q.Ohm(0)) }},
		{"measured_zs", func(e *Supply) { e.MeasuredZs = q.Some(q.Ohm(0)) }},
		{"fault_current", func(e *Supply) { e.FaultCurrent = q.Some(q.Ampere(0)) }},
	} {
		e := &Supply{ID: "SP1", Tag: "SP1", Nominal: 230}
		row.set(e)
		told := false
		for _, p := range Problems(&Scheme{Supplies: NewSet(e)}) {
			told = told || p.Field == row.field
		}
		if !told {
			t.Errorf("%s of nothing is taken", row.field)
		}
	}
}
