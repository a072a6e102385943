package file

import (
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"duskwire/calc/judge"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

var update = flag.Bool("update", false, "write the golden files anew")

// book is a stock book with the keys that the tests use.
func book() doc.Stock {
	return doc.Stock{
		Lamps:   []doc.LampStock{{Key: "pillar-10w"}, {Key: "spike-5w-12"}, {Key: "brick-3w"}},
		Boxes:   []doc.BoxStock{{Key: "box-85"}, {Key: "box-110"}},
		Sources: []doc.SourceStock{{Key: "src-12dc-60"}},
		Gear:    []doc.GearStock{{Key: "isolator-20"}},
		Devices: []doc.DeviceStock{{Key: "b16-rcbo-30"}, {Key: "fuse-3"}, {Key: "rcd-30"}},
		Cables:  []*network.Cable{{Key: "swa-3x1.5"}, {Key: "te-2.5"}, {Key: "elv-2x2.5"}},
	}
}

// full is a scheme with a value in every field that a file can hold.
func full() *doc.Scheme {
	s := &doc.Scheme{
		Title: "Terrace: wall & steps", Author: "A. N. Other", Rules: "uk-18", Country: "England",
		Survey: doc.Survey{
			LightZone: "E2", Curfew: doc.Off{Set: true, Minute: 22 * 60},
			Air: q.Some(q.Celsius(30)), Ground: q.Some(q.Celsius(12.5)), Soil: q.Some(q.KelvinMetrePerWatt(2.5)),
			Conductor: q.Some(q.Celsius(45)), Test: q.Some(q.Celsius(-2)), Waste: q.Some(doc.Ratio(0.05)),
		},
		Plan: doc.Plan{Scale: 50, Grid: 250 * geom.Millimetre, North: q.Some(12.5), Checked: true},
		Supplies: doc.NewSet(&doc.Supply{
			ID: "SP1", Tag: "SP1", Place: doc.Place{At: geom.Pt(0, -0.35), Height: 300 * geom.Millimetre}, Spur: true,
			Nominal: 230, Earthing: network.TNCS, Ze: q.Some(q.Ohm(0.3)), Electrode: q.Some(q.Ohm(120)),
			MeasuredZs: q.Some(q.Ohm(0.62)), FaultCurrent: q.Some(q.Ampere(1050)), ExistingLoad: q.Some(q.Ampere(6)),
			Leakage: q.Some(q.Ampere(0.0012)), OtherCircuits: q.Some(q.Count(4)), Shares: "freezer", Switched: true, Upstream: "b16-rcbo-30", Residual: "rcd-30", Fuse: "fuse-3",
			Indoor: doc.Indoor{Cable: "te-2.5", Length: q.Some(q.Metre(11)), Method: "C"},
		}),
		Boxes: doc.NewSet(&doc.Box{
			ID: "B1", Tag: "B1", Place: doc.Place{At: geom.Pt(1, 2)}, Stock: "box-85",
			Fill: "gel", Hidden: true, TopEntries: 1, Open: 2, Unlinked: true,
		}),
		Lamps: doc.NewSet(
			&doc.Lamp{
				ID: "6d1ff58e-1c64-4d1b-8d5c-1f2f2a1f9c11", Tag: "L1", Place: doc.Place{At: geom.Point{X: 4000001, Y: -1}, Height: -200 * geom.Millimetre},
				Stock: "pillar-10w", Zone: "Z1", Aim: 45, Tilt: -10.5, Spin: 90, Lock: true,
			},
			&doc.Lamp{ID: "L2", Tag: "L2", Place: doc.Place{At: geom.Pt(5, 5)}, Stock: "spike-5w-12", Length: q.Some(q.Metre(3.25))},
		),
		Gear:    doc.NewSet(&doc.Gear{ID: "G1", Tag: "G1", Place: doc.Place{At: geom.Pt(0, 1)}, Stock: "isolator-20", Aim: 270}),
		Sources: doc.NewSet(&doc.Source{ID: "S1", Tag: "S1", Place: doc.Place{At: geom.Pt(3, 3), Height: geom.Metre}, Stock: "src-12dc-60"}),
		Runs: doc.NewSet(
			&doc.Run{
				ID: "R1", Tag: "R1", Cable: "swa-3x1.5",
				From: doc.End{On: "SP1", Tail: q.Some(q.Metre(0.25)), Gland: "E1W"}, To: doc.End{On: "S1", Side: doc.Primary, Untagged: true},
				Legs: []doc.Leg{
					{To: geom.Pt(0, 2), Support: network.Buried, Depth: 500 * geom.Millimetre, Method: "D", Group: 2, NoTape: true},
					{Support: network.Clipped, Height: 300 * geom.Millimetre, Sleeve: true, Hole: "out"},
				},
				Slack: 0.5, Waste: q.Some(doc.Ratio(0.075)), Cut: q.Some(q.Metre(7.5)),
			},
			&doc.Run{ID: "R2", Tag: "R2", From: doc.End{On: "S1", Side: doc.Secondary}, To: doc.End{At: geom.Pt(3, 4)}, Legs: []doc.Leg{{Support: network.InDuct}}, With: "R1"},
			&doc.Run{ID: "R3", Tag: "R3", From: doc.End{On: "S1", Side: doc.Secondary}, To: doc.End{On: "L2", Side: doc.FarEnd}, Legs: []doc.Leg{{Support: network.InDuct}}},
		),
		Zones: doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Name: "Terrace", Number: 1, Colour: "amber", Control: "G1", Dimmed: true, Off: doc.Off{Set: true, Minute: 22*60 + 30}}),
		Areas: doc.NewSet(&doc.Area{
			ID: "A1", Tag: "A1", Kind: "dug bed", Name: "Bed # 1", Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)},
			DigDepth: 250 * geom.Millimetre, Height: 120 * geom.Millimetre, Low: true, Use: "entrance",
		}),
		Lines: doc.NewSet(&doc.Line{
			ID: "N1", Tag: "N1", Kind: "fence", Name: "Neighbour's", Path: []geom.Point{geom.Pt(0, 0), geom.Pt(0, 14)}, Height: 1800 * geom.Millimetre, Owner: "neighbour", Use: "none",
		}),
		Marks: doc.NewSet(&doc.Mark{
			ID: "M1", Tag: "M1", Kind: "tree", Name: "Apple", Place: doc.Place{At: geom.Pt(2, 7)}, Radius: 100 * geom.Millimetre, Crown: 1100 * geom.Millimetre,
			CrownBase: 900 * geom.Millimetre, CrownTop: 3200 * geom.Millimetre, CrownPass: q.Some(doc.Ratio(0.35)), Owner: "own",
		}),
		Dimensions: doc.NewSet(
			&doc.Dimension{ID: "D1", Tag: "D1", Kind: "aligned", From: doc.Anchor{On: "A1", Corner: 1}, To: doc.Anchor{On: "L2"}, Offset: -450 * geom.Millimetre, Lock: true},
			&doc.Dimension{ID: "D2", Tag: "D2", Kind: "vertical", From: doc.Anchor{On: "R1", Corner: 2}, To: doc.Anchor{At: geom.Pt(1.5, 9)}},
		),
		Decisions: []doc.Decision{{Code: "EAR-01", Subject: "L2", By: "A. N. Other", On: "2026-05-01", Reason: "Electrode at the wall.\nMeasured: 80 ohm"}},
	}
	s.Visits = []doc.Visit{
		{On: "2026-11-25", By: "A. N. Other", Temperature: q.Some(q.Celsius(8)), Leads: q.Some(q.Ohm(0.05)), Instrument: "multifunction tester, no. 123", Remark: "dry",
			Readings: []doc.Reading{
				{Asked: doc.Asked{On: "L2", Test: judge.R1R2}, Value: judge.Value{SI: 0.34}, Remark: "lid open"},
				{Asked: doc.Asked{On: "L2", Test: judge.R1R2, Part: doc.FarPart}, Value: judge.Value{Bound: judge.Open}},
				{Asked: doc.Asked{On: "SP1", Test: judge.InsulationEarth}, Value: judge.Value{Bound: judge.Above, SI: 299e6}},
				{Asked: doc.Asked{On: "SP1", Test: judge.RCDTime, Part: "b16-rcbo-30"}, Value: judge.Value{SI: 0.0284}},
				{Asked: doc.Asked{On: "L2", Test: judge.Polarity}, Value: judge.Value{Word: "right"}},
				{Asked: doc.Asked{On: "R1", Test: judge.Armour}, Value: judge.Value{Bound: judge.Below, SI: 0.01}},
				{Asked: doc.Asked{On: "S1", Test: judge.Volts}, Value: judge.Value{SI: -11.6}},
			}},
		{},
	}
	was := doc.Issued(s)
	was.Lamps = was.Lamps.Without("L2").With(&doc.Lamp{ID: "L3", Tag: "L3", Place: doc.Place{At: geom.Pt(5, 5)}, Stock: "spike-5w-12"})
	was.Runs = was.Runs.Without("R3")
	s.Issue = &doc.Issue{On: "2026-10-01", By: "A. N. Other", Scheme: was}
	return s
}

// equal compares two schemes by value.
func equal(a, b *doc.Scheme) string {
	return cmp.Diff(a, b, cmpopts.EquateEmpty(), cmp.AllowUnexported(
		doc.Set[*doc.Supply]{}, doc.Set[*doc.Box]{}, doc.Set[*doc.Lamp]{}, doc.Set[*doc.Gear]{}, doc.Set[*doc.Source]{},
		doc.Set[*doc.Run]{}, doc.Set[*doc.Zone]{}, doc.Set[*doc.Area]{}, doc.Set[*doc.Line]{}, doc.Set[*doc.Mark]{},
		doc.Set[*doc.Dimension]{},
	))
}

// golden compares text with a file of testdata.
func golden(t *testing.T, path string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s differs (-want +got), -update writes it anew:\n%s", path, d)
	}
}

func TestWriteAndReadBack(t *testing.T) {
	s := full()
	if err := doc.Validate(s); err != nil {
		t.Fatal(err)
	}
	text, err := WriteScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	golden(t, filepath.Join("testdata", "full.yaml"), text)
	back, err := ReadScheme("full.yaml", text, book())
	if err != nil {
		t.Fatal(err)
	}
	if d := equal(s, back); d != "" {
		t.Errorf("read back differs:\n%s", d)
	}
	again, err := WriteScheme(back)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(text), string(again)); d != "" {
		t.Errorf("written again differs:\n%s", d)
	}
}

func TestSmallestFile(t *testing.T) {
	s, err := ReadScheme("x.yaml", []byte("duskwire: 1\nrules: uk-18\n"), doc.Stock{})
	if err != nil {
		t.Fatal(err)
	}
	want := doc.New("uk-18")
	want.Title = ""
	if d := equal(want, s); d != "" {
		t.Error(d)
	}
}

// Units other than the written ones, a byte order mark and Windows line ends
// are all read.
func TestOtherSpellings(t *testing.T) {
	text := "\ufeffduskwire: 1\r\nrules: uk-18\r\nlamps:\r\n  - {id: L1, at: [4000 mm, 250 cm], height: 0.3m, stock: brick-3w}\r\n"
	s, err := ReadScheme("x.yaml", []byte(text), book())
	if err != nil {
		t.Fatal(err)
	}
	l, _ := s.Lamps.Get("L1")
	if want := (doc.Place{At: geom.Pt(4, 2.5), Height: 300 * geom.Millimetre}); l.Place != want {
		t.Errorf("lamp stands at %v, want %v", l.Place, want)
	}
}

// The position of a word is its value: a new order would change what files mean.
func TestWordsMeanTheirValues(t *testing.T) {
	for e := network.EarthingUnknown; e <= network.TT; e++ {
		if earthingWords[e] != e.String() {
			t.Errorf("earthing %s is written %q", e, earthingWords[e])
		}
	}
	for want, s := range map[string]network.Support{
		"clipped": network.Clipped, "buried": network.Buried, "duct": network.InDuct,
		"structure": network.OnStructure, "tree": network.InTree, "indoors": network.Indoors,
	} {
		if supportWords[s] != want {
			t.Errorf("support %d is written %q, want %q", s, supportWords[s], want)
		}
	}
	if sideWords[doc.Primary] != "primary" || sideWords[doc.Secondary] != "secondary" {
		t.Errorf("sides are written %q", sideWords)
	}
}

// A unit with a factor costs no digit: 9 mA is the double that 0.009 is.
func TestUnitsAreExact(t *testing.T) {
	for n := 1; n < 3000; n++ {
		got, err := exact(q.ParseAmpere)(strconv.Itoa(n) + " mA")
		if want := q.Ampere(float64(n) / 1000); err != nil || got != want {
			t.Fatalf("%d mA reads %v, want %v (%v)", n, float64(got), float64(want), err)
		}
	}
}

func TestMigrationsRunInOrder(t *testing.T) {
	top, err := parseYAML("x.yaml", []byte("duskwire: 1\na: 1\n"))
	if err != nil {
		t.Fatal(err)
	}
	var steps []string
	step := func(name string) migration {
		return func(n *yamlNode) error { steps = append(steps, name); return nil }
	}
	if err := migrate(top.y, 1, 3, []migration{step("1 to 2"), step("2 to 3")}); err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(steps, ", "); got != "1 to 2, 2 to 3" {
		t.Errorf("migrations ran as %q", got)
	}
	if len(migrations) != version-1 {
		t.Errorf("%d migrations for file version %d, want one less than the version", len(migrations), version)
	}
}

func TestWriteRefuses(t *testing.T) {
	s := full()
	s.Rules = ""
	if _, err := WriteScheme(s); err == nil || !strings.Contains(err.Error(), "rules") {
		t.Errorf("a scheme without a rule set was written: %v", err)
	}
	s = full()
	s.Stock = book()
	if _, err := WriteScheme(s); err == nil || !strings.Contains(err.Error(), "stock") {
		t.Errorf("stock without its text was written: %v", err)
	}
}

func TestWritten(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Terrace", "Terrace"},
		{"swa-3x1.5", "swa-3x1.5"},
		{"12", `"12"`}, {"1e5", `"1e5"`}, {"true", `"true"`}, {"null", `"null"`}, {"No", "No"},
		{"a: b", `"a: b"`}, {"a #b", `"a #b"`}, {"", `""`}, {" a", `" a"`}, {"a ", `"a "`},
		{"two\nlines", `"two\nlines"`}, {"a, b", `"a, b"`}, {"[x]", `"[x]"`}, {`say "hi"`, `"say \"hi\""`},
		{"Zürich", "Zürich"}, {"5 %", "5 %"}, {"12.5 m", "12.5 m"},
	} {
		if got := written(c.text); got != c.want {
			t.Errorf("written(%q) = %s, want %s", c.text, got, c.want)
		}
	}
}

func TestPercentAndCelsiusAreExact(t *testing.T) {
	for _, v := range []doc.Ratio{0, 1, 0.05, 0.075, 0.1, 0.3, 1.0 / 3, 0.07, 0.29, 1e-9} {
		n := node{y: scalarNode(percent(v)), log: &problems{}}
		if got := doc.Ratio(n.ratio()); got != v {
			t.Errorf("%v written as %s reads %v", v, percent(v), got)
		}
	}
	for _, c := range []float64{0, -2, 12.5, 20, 30, 19.7, 0.1, 99.99} {
		k := q.Celsius(c)
		back, err := q.ParseCelsius(celsius(k))
		if err != nil || back != k {
			t.Errorf("%v °C written as %s reads %v", c, celsius(k), back)
		}
	}
}
