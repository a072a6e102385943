package layout_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// stops reads from the rules themselves which codes can be a Stop.
func stops(t *testing.T) []finding.Code {
	t.Helper()
	files, err := filepath.Glob("../calc/check/*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no rules to read: ", err)
	}
	codes := regexp.MustCompile(`"([A-Z]{3}-\d\d)"`)
	drawn := regexp.MustCompile(`"([A-Z]{3}-\d\d)", finding\.Stop`)
	var out []finding.Code
	seen := map[string]bool{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, "_test.go") || !strings.Contains(string(text), "finding.Stop") {
			continue
		}
		find := codes
		if filepath.Base(name) == "drawing.go" {
			find = drawn
		}
		for _, m := range find.FindAllStringSubmatch(string(text), -1) {
			if !seen[m[1]] {
				seen[m[1]] = true
				out = append(out, finding.Code(m[1]))
			}
		}
	}
	return out
}

// TestEveryStopLeadsSomewhere: what can be a Stop, and every drop and loop, has
// ways out that are tried, or a reason why no edit helps.
func TestEveryStopLeadsSomewhere(t *testing.T) {
	all := append(stops(t), "VD-01", "VD-02", "VD-03", "VD-04", "FLT-06", "FLT-08")
	if len(all) < 45 {
		t.Fatalf("only %d codes found: %v", len(all), all)
	}
	tried := map[finding.Code]bool{}
	for _, row := range wayRows {
		tried[finding.Code(row.code)] = true
	}
	for _, code := range all {
		level := finding.Stop
		switch code {
		case "VD-02":
			level = finding.Decide
		case "VD-04", "FLT-06", "FLT-08":
			level = finding.Note
		}
		can, why := layout.Curable(&finding.Finding{Code: code, Level: level}), layout.NoEdit(code)
		if can == (why != "") {
			t.Errorf("%s: tried %v, reason against %q: want one of the two", code, can, why)
		}
		if can && !tried[code] && elsewhere[code] == "" {
			t.Errorf("%s: no row tries it", code)
		}
	}
}

// elsewhere are codes whose ways out another test tries.
var elsewhere = map[finding.Code]string{
	"SOL-01": "TestCollapseIsCured",
	"SOL-02": "the ways of SOL-01; no net is known on which the solver gives up",
	"VD-02":  "TestCureReadsWhatItSays",
	"FLT-07": "the ways of FLT-01",
	"ADI-01": "the ways of FLT-01",
	"ADI-02": "the ways of FLT-01",
	"ADI-03": "the ways of FLT-01",
}

// wayRow is a scheme made to fall short in one way, and a way out of it.
type wayRow struct {
	code, file string
	spoil      func(t *testing.T, d *layout.Desk)
	want       string // begins a cure that holds and can be applied
}

func put(e doc.Entity) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) { commit(t, d, edit.Place{Entity: e}) }
}

func supply(change func(*doc.Supply)) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) {
		sp := *d.Frame().Scheme.Supplies.All()[0]
		change(&sp)
		commit(t, d, edit.SetSupply{Supply: &sp})
	}
}

func cabled(id doc.ID, key string) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) { commit(t, d, edit.SetCable{Runs: []doc.ID{id}, Cable: key}) }
}

func rerun(id doc.ID, change func(*doc.Run)) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) { commit(t, d, setRun(d, id, change)) }
}

func boxed(change func(*doc.Box)) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) {
		b := *d.Frame().Scheme.Boxes.All()[0]
		change(&b)
		commit(t, d, edit.SetBox{Box: &b})
	}
}

// stocked changes the items that the scheme may use.
func stocked(change func(*doc.Stock)) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) {
		s := *d.Frame().Scheme
		st := *d.Frame().Stock
		st.Lamps = append([]doc.LampStock(nil), st.Lamps...)
		st.Boxes = append([]doc.BoxStock(nil), st.Boxes...)
		st.Sources = append([]doc.SourceStock(nil), st.Sources...)
		st.Gear = append([]doc.GearStock(nil), st.Gear...)
		st.Devices = append([]doc.DeviceStock(nil), st.Devices...)
		change(&st)
		s.Stock = st
		d.Load(&s, "")
	}
}

func lampStock(key string, change func(*doc.LampStock)) func(*testing.T, *layout.Desk) {
	return stocked(func(s *doc.Stock) {
		for i := range s.Lamps {
			if s.Lamps[i].Key == key {
				change(&s.Lamps[i])
			}
		}
	})
}

func all(steps ...func(*testing.T, *layout.Desk)) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) {
		for _, s := range steps {
			s(t, d)
		}
	}
}

// switched puts gear of a kind between the supply point and R1.
func switched(item doc.GearStock) func(*testing.T, *layout.Desk) {
	return all(stocked(func(s *doc.Stock) { s.Gear = append(s.Gear, item) }),
		put(&doc.Gear{ID: "G1", Stock: item.Key, Place: doc.Place{At: geom.Pt(0, 1)}}),
		rerun("R1", func(r *doc.Run) { r.From.On = "G1" }),
		func(t *testing.T, d *layout.Desk) {
			commit(t, d, edit.AddRun{Run: &doc.Run{ID: "R9", Cable: "swa-3x1.5", From: doc.End{On: "SP1"}, To: doc.End{On: "G1"}, Legs: []doc.Leg{{}}}})
		})
}

func ground(e doc.Entity) func(*testing.T, *layout.Desk) {
	return func(t *testing.T, d *layout.Desk) {
		switch e := e.(type) {
		case *doc.Area:
			commit(t, d, edit.AddArea{Area: e})
		case *doc.Line:
			commit(t, d, edit.AddLine{Line: e})
		case *doc.Mark:
			commit(t, d, edit.AddMark{Mark: e})
		}
	}
}

const (
	gateFile  = "4-gate.yaml"
	dimFile   = "2-dim-end.yaml"
	boxesFile = "6-plastic-boxes.yaml"
)

var wayRows = []wayRow{
	{"CIR-01", gateFile, put(&doc.Lamp{ID: "L3", Stock: "pillar-12w", Place: doc.Place{At: geom.Pt(30, 50)}}), "draw a run to L3 from L1, 5 m away"},
	{"CIR-02", gateFile, put(&doc.Box{ID: "B1", Stock: "box-85", Place: doc.Place{At: geom.Pt(34, 56)}}), "draw a run to B1 from L2, 1 m away"},
	{"CIR-03", gateFile, func(t *testing.T, d *layout.Desk) {
		commit(t, d, edit.SetEnd{Run: "R2", End: doc.End{At: geom.Pt(34.2, 55)}})
	}, "join the open end of R2 to L2, 0.2 m away"},
	{"CIR-04", gateFile, func(t *testing.T, d *layout.Desk) {
		commit(t, d, edit.AddRun{Run: &doc.Run{ID: "R3", Cable: "swa-3x1.5", From: doc.End{On: "SP1"}, To: doc.End{On: "L2"}, Legs: []doc.Leg{{}}}})
	}, "delete R"},
	{"CIR-05", gateFile, func(t *testing.T, d *layout.Desk) {
		l, _ := d.Frame().Scheme.Lamps.Get("L2")
		c := *l
		c.Stock = "spike-5w-12"
		commit(t, d, edit.SetLamp{Lamp: &c})
	}, "use for L2: Spot 5 W, 230 V"},
	{"CIR-05", dimFile, all(
		rerun("R1", func(r *doc.Run) { r.To.Side = doc.Secondary }),
		rerun("R2", func(r *doc.Run) { r.From.Side = doc.Primary })), "join S1 the other way round"},
	{"CIR-07", gateFile, func(t *testing.T, d *layout.Desk) {
		sp := *d.Frame().Scheme.Supplies.All()[0]
		sp.ID, sp.Tag, sp.Place.At = "SP2", "", geom.Pt(36, 55)
		commit(t, d, edit.Place{Entity: &sp})
		commit(t, d, edit.AddRun{Run: &doc.Run{ID: "R3", Cable: "swa-3x1.5", From: doc.End{On: "L2"}, To: doc.End{On: "SP2"}, Legs: []doc.Leg{{}}}})
	}, "delete R3"},
	{"CIR-08", gateFile, cabled("R2", ""), "use Armoured 90 °C, 3 × 1.5 mm² for R2"},
	{"CAP-01", gateFile, supply(func(s *doc.Supply) { s.Upstream = "" }), "use at the board: B6 RCBO"},
	{"CAP-02", gateFile, supply(func(s *doc.Supply) { s.Upstream = "b40-rcbo-30" }), "use at the board: B"},
	{"CAP-03", gateFile, cabled("R1", "te-2.5"), "use Armoured"},
	{"VD-01", gateFile, lampStock("pillar-12w", func(l *doc.LampStock) { l.Load.Power = 500 }), "use 4 mm²"},
	{"VD-03", dimFile, all(), "move S1 to the middle of its lamps"},
	{"FLT-01", gateFile, supply(func(s *doc.Supply) { s.Upstream = "c10-rcbo-30" }), "use at the board: B10 RCBO"},
	{"FLT-02", gateFile, supply(func(s *doc.Supply) {
		s.Upstream, s.MeasuredZs, s.Indoor.Length = "b32-rcbo-30", q.Some(q.Ohm(1.2)), q.Some(q.Metre(9))
	}), "use at the board: B25 RCBO"},
	{"FLT-02", gateFile, supply(spurred), "feed SP1 by a way of its own at the board instead of the spur"},
	{"FLT-03", dimFile, unseparated, "use for S1: Transformer 12 V AC"},
	{"FLT-04", gateFile, cabled("R1", "elv-2x2.5"), "use a mains cable with a protective conductor"},
	{"FLT-05", gateFile, supply(func(s *doc.Supply) { s.Earthing, s.Electrode = network.TT, q.Some(q.Ohm(4000)) }), "fit ahead of the breaker: RCD 10 mA"},
	{"FLT-08", gateFile, supply(func(s *doc.Supply) { s.Ze = q.Some(q.Ohm(3.8)) }), "use "},
	{"RCD-01", gateFile, supply(func(s *doc.Supply) { s.Upstream = "b6" }), "use at the board: B6 RCBO 30 mA"},
	{"RCD-04", gateFile, all(stocked(func(s *doc.Stock) {
		s.Devices = append(s.Devices, doc.DeviceStock{Key: "slow", Name: "slow", Device: network.Device{Label: "slow", Kind: network.ResidualRCD, Rating: 63, Residual: 0.03, Type: "A", Delayed: true}})
	}), supply(func(s *doc.Supply) { s.Upstream, s.Residual = "b6", "slow" })), "use at the board: B6 RCBO 30 mA"},
	{"INR-01", gateFile, lampStock("pillar-12w", func(l *doc.LampStock) { l.Inrush = 100 }), "use at the board: C6 RCBO"},
	{"CTL-01", gateFile, switched(doc.GearStock{Key: "weak", Name: "weak", Kind: "receiver", Control: network.Gear{Kind: "receiver", Rating: q.Some(q.Ampere(0.05))}}), "use for G1: Wireless receiver 5 A"},
	{"DIM-01", gateFile, dimmedZone, "switch zone Z1 without dimming"},
	{"DIM-02", gateFile, switched(doc.GearStock{Key: "weak", Name: "weak", Kind: "dimmer", Control: network.Gear{Kind: "dimmer", Rating: q.Some(q.Ampere(0.5)), DimMax: q.Some(q.Watt(10))}}), "use for G1: Dimmer for LED, 5 to 100 W"},
	{"ISO-01", gateFile, supply(func(s *doc.Supply) { s.Upstream = "b6" }), "fit behind SP1: Isolator"},
	{"NEU-01", gateFile, rerun("R2", func(r *doc.Run) { r.With = "R1" }), "lay a cable of its own for R2"},
	{"LHD-01", gateFile, all(lampStock("pillar-12w", func(l *doc.LampStock) { l.Lampholder = network.Yes }),
		supply(func(s *doc.Supply) { s.Upstream = "b20-rcbo-30" })), "use at the board: B16 RCBO"},
	{"BRK-01", gateFile, supply(func(s *doc.Supply) { s.Upstream, s.FaultCurrent = "rewire-5", q.Some(q.Ampere(3000)) }), "use at the board: 5 A cartridge fuse BS 88-3"},
	{"SRC-01", dimFile, lampStock("plain-cc", func(l *doc.LampStock) { l.Load.Power = 7 }), "use for S1: "},
	{"SRC-04", dimFile, driven(0.35, 60, 120, 0.35, 9, 36), "use for S1: wide"},
	{"SRC-05", dimFile, driven(0.7, 9, 60, 0.35, 9, 60), "use for S1: wide"},
	{"SRC-06", dimFile, driven(0, 0, 0, 0.35, 9, 60), "use for S1: wide"},
	{"SRC-03", dimFile, unseparated, "use for S1: "},
	{"EAR-02", boxesFile, all(), "fit "},
	{"EAR-03", boxesFile, all(), "fit "},
	{"BOX-01", boxesFile, stocked(func(s *doc.Stock) {
		for i := range s.Boxes {
			if s.Boxes[i].Key == "box-110" || s.Boxes[i].Key == "box-85" {
				s.Boxes[i].Entries = 1
			}
		}
	}), "use for B1"},
	{"BOX-08", boxesFile, stocked(func(s *doc.Stock) {
		for i := range s.Boxes {
			if s.Boxes[i].Key == "box-110" || s.Boxes[i].Key == "box-85" {
				s.Boxes[i].Side = 0.06
			}
		}
	}), "use for B1"},
	{"BOX-02", boxesFile, boxed(func(b *doc.Box) { b.Open = 2 }), "close every open entry of B1"},
	{"BOX-03", boxesFile, boxed(func(b *doc.Box) { b.TopEntries = 1 }), "bring every cable into B1"},
	{"BOX-04", boxesFile, boxed(func(b *doc.Box) { b.Place.Height = geom.Metres(0.05) }), "raise B1 to 150 mm"},
	{"BOX-05", boxesFile, boxed(func(b *doc.Box) { b.Place.Height = geom.Metres(-0.3) }), "fill B1 with gel"},
	{"BOX-06", boxesFile, boxed(func(b *doc.Box) { b.Hidden = true }), "put a hatch over B1"},
	{"GLD-01", gateFile, rerun("R1", func(r *doc.Run) { r.To.Gland = "BW" }), "use CW glands there"},
	{"DIG-01", gateFile, ground(&doc.Area{ID: "A1", Kind: "dug bed", DigDepth: geom.Metres(0.7), Ring: []geom.Point{geom.Pt(5, 10), geom.Pt(20, 10), geom.Pt(20, 14), geom.Pt(5, 14)}}), "lay R1 750 mm deep there"},
	{"DIG-03", gateFile, cabled("R1", "nyy-3x1.5"), "lay R1 in a duct"},
	{"DIG-04", gateFile, rerun("R1", func(r *doc.Run) {
		for i := range r.Legs {
			r.Legs[i].NoTape = true
		}
	}), "lay marker tape above R1"},
	{"TRE-01", gateFile, ground(&doc.Mark{ID: "T1", Kind: "tree", Place: doc.Place{At: geom.Pt(15, 12.3)}, Radius: geom.Metres(0.2), Crown: geom.Metres(2)}), "lead R1 round the tree"},
	{"PND-01", "5-pond.yaml", func(t *testing.T, d *layout.Desk) {
		l, _ := d.Frame().Scheme.Lamps.Get("L1")
		c := *l
		c.Stock = "spike-5w-12"
		commit(t, d, edit.SetLamp{Lamp: &c})
	}, "move L1 out of the water"},
	{"SUP-01", gateFile, all(rerun("R2", func(r *doc.Run) { r.Legs[0] = doc.Leg{Support: network.Clipped, Height: geom.Metres(1)} }),
		ground(&doc.Line{ID: "F1", Kind: "fence", Owner: "neighbour", Height: geom.Metres(1.8), Path: []geom.Point{geom.Pt(29, 55.05), geom.Pt(36, 55.05)}})), "take R2 down into the ground there"},
	{"SUP-04", gateFile, rerun("R1", func(r *doc.Run) { r.Legs[0].Hole = "in" }), "let the hole of R1 fall to the outside"},
}

// spurred takes the gate from a spur 9 m from the board whose loop was measured
// above 0.8 × 218.5 / 160 = 1.0925 Ω.
func spurred(s *doc.Supply) {
	s.Spur, s.Fuse, s.Upstream, s.MeasuredZs = true, "fuse-3", "b32", q.Some(q.Ohm(1.2))
	s.Indoor.Length = q.Some(q.Metre(9))
}

func unseparated(t *testing.T, d *layout.Desk) {
	stocked(func(s *doc.Stock) {
		for i := range s.Sources {
			if s.Sources[i].Key == "bench-12ac" {
				s.Sources[i].Converter.SELV = false
			}
		}
	})(t, d)
}

// driven makes the lamps of the border bare diodes for 350 mA, 3 V each, behind
// a source that gives drive from least to most, or volts when that is 0; the
// stock book has another, "wide".
func driven(drive q.Ampere, least, most q.Volt, wide q.Ampere, from, to q.Volt) func(*testing.T, *layout.Desk) {
	return stocked(func(s *doc.Stock) {
		for i := range s.Lamps {
			if l := &s.Lamps[i]; l.Key == "plain-cc" {
				l.Current, l.AnyCurrent = network.DC, false
				l.Load = network.Load{Law: network.Driven, Drive: 0.35, Nominal: 3, Power: 1.05, PowerFactor: 1}
			}
		}
		for i := range s.Sources {
			if src := &s.Sources[i]; src.Key == "bench-12ac" {
				src.Converter.Current = network.DC
				if drive > 0 {
					src.Converter.Drive, src.Converter.Least, src.Converter.Most, src.Converter.Nominal = drive, least, most, most
				}
				other := *src
				other.Key, other.Name = "wide", "wide"
				other.Converter.Drive, other.Converter.Least, other.Converter.Most, other.Converter.Nominal = wide, from, to, to
				s.Sources = append(s.Sources, other)
			}
		}
	})
}

func dimmedZone(t *testing.T, d *layout.Desk) {
	commit(t, d, edit.AddZone{Zone: &doc.Zone{ID: "Z1", Name: "gate", Colour: "amber", Dimmed: true}})
	commit(t, d, edit.SetZone{Lamps: []doc.ID{"L1", "L2"}, Zone: "Z1"})
}

// TestWaysOut spoils a scheme in each way, takes the way out and looks whether
// the finding is gone; what the cure says it brings is there then.
func TestWaysOut(t *testing.T) {
	for _, row := range wayRows {
		t.Run(row.code+" "+row.want, func(t *testing.T) {
			d := scenario(t, row.file)
			row.spoil(t, d)
			fd := findingOf(t, d.Frame(), row.code)
			cs := cures(d.Frame(), fd)
			var c layout.Cure
			for _, x := range cs {
				if strings.HasPrefix(x.Text, row.want) && x.Operation != nil && c.Operation == nil {
					c = x
				}
			}
			if c.Operation == nil || !c.Holds {
				for _, x := range cs {
					t.Logf("%s: %s (holds %v); %s", x.Text, x.Figure, x.Holds, x.Then)
				}
				t.Fatalf("%s of %s: no way out %q among %d", row.code, fd.Subject.Label, row.want, len(cs))
			}
			start := d.Frame().Scheme
			commit(t, d, c.Operation)
			for _, x := range d.Frame().Findings {
				if x.Code == fd.Code && x.Level >= fd.Level && x.Subject == fd.Subject {
					t.Errorf("after %q: %s", c.Text, x.Text)
				}
			}
			for _, f := range c.Brings {
				if len(finds(d.Frame(), string(f.Code))) == 0 || f.Title == "" || !strings.Contains(c.Then, string(f.Code)) {
					t.Errorf("%q says that it brings %v: %s", c.Text, f, c.Then)
				}
			}
			if !d.Undo() || d.Frame().Scheme != start {
				t.Errorf("%q is not one step", c.Text)
			}
		})
	}
}

// TestDeletingRanksLast: a lamp so far away that a run to it brings a new Stop
// can still be joined; taking it out is not offered first.
func TestDeletingRanksLast(t *testing.T) {
	d := scenario(t, gateFile)
	put(&doc.Lamp{ID: "L3", Stock: "pillar-12w", Place: doc.Place{At: geom.Pt(3000, 50)}})(t, d)
	cs := cures(d.Frame(), findingOf(t, d.Frame(), "CIR-01"))
	_, draw := cureLike(cs, "draw a run to L3")
	_, remove := cureLike(cs, "delete L3")
	if draw < 0 || remove < draw || remove != len(cs)-1 {
		t.Fatalf("drawing is number %d, deleting %d of %d", draw+1, remove+1, len(cs))
	}
	stop := false
	for _, f := range cs[draw].Brings {
		stop = stop || f.Level == finding.Stop
	}
	if !stop {
		t.Errorf("the run brings no Stop, so that the test shows nothing: %q", cs[draw].Then)
	}
}

// TestMovedSourceTakesACableThatSuits: the lead of the source is flex, clipped;
// taken along the buried way of the border it would bring DIG-03 or CAP-03, so
// a cable that may lie there goes with the move.
func TestMovedSourceTakesACableThatSuits(t *testing.T) {
	d := scenario(t, dimFile)
	commit(t, d, edit.SetCable{Runs: []doc.ID{"R1"}, Cable: "flex-3x1.5"})
	for _, r := range d.Frame().Scheme.Runs.All()[1:] {
		commit(t, d, edit.SetLegSupport{Run: r.ID, Support: network.Buried, Depth: geom.Metres(0.6)})
	}
	c, at := cureLike(cures(d.Frame(), findingOf(t, d.Frame(), "VD-03")), "move S1 to the middle of its lamps, with ")
	if at < 0 || !c.Holds || c.Operation == nil {
		t.Fatalf("got %+v", c)
	}
	for _, f := range c.Brings {
		if f.Level == finding.Stop {
			t.Errorf("%s brings %v", c.Text, f)
		}
	}
	commit(t, d, c.Operation)
	if got := codes(d.Frame(), finding.Stop); strings.Contains(got, "CAP-03") || strings.Contains(got, "DIG-03") {
		t.Errorf("after %q: %s", c.Text, got)
	}
}
