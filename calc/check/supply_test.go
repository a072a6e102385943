package check_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// node returns a node of the input by its id.
func node(in *calc.Input, id string) *network.Node {
	for i := range in.Net.Nodes {
		if in.Net.Nodes[i].ID == id {
			return &in.Net.Nodes[i]
		}
	}
	panic("no node " + id)
}

func fit(in *calc.Input, id string, f network.Fitting) { node(in, id).Fitting = &f }

const (
	switched = "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; R3 L1 L2 swa-3x1.5 5 C ; G1 = receiver ; L1 = post ; L2 = post ; zone Z1 L1,L2 by=G1"
	relay    = "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = relay ; L1 = post ; zone Z1 L1 by=G1"
	celled   = "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = photocell ; L1 = post ; zone Z1 L1 by=G1"
	celled20 = "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = cell20 ; L1 = post ; zone Z1 L1 by=G1"
	dimmed   = "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; R3 G1 S1 swa-3x1.5 5 C ; R4 S1+ L2 elv-2x2.5 3 C ; G1 = dimmer ; S1 = dc60 ; L1 = post ; L2 = spike ; zone Z1 L1,L2 by=G1 dimmed"
	house    = "way TN-S ze=0.3 leak=0.002 others=1 ; board rcd-30 b10 ; indoor te-2.5 0 C ; R1 SP1 L1 swa-3x1.5 50 D ; R2 L1 L2 swa-3x1.5 50 D ; L1 = post ; L2 = post"
	many     = "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 L1 swa-3x1.5 5 D ; L1 = post"
	fused    = "spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 S1 swa-3x1.5 5 C ; R2 S1+ L1 elv-2x2.5 5 C ; S1 = ac60 ; L1 = spike"
)

// Just inside, on and just outside, as in edge_test.go.
var supplyEdges = []struct {
	code            finding.Code
	name, net       string
	outside, inside finding.Level
	move            func(in *calc.Input, base *calc.Result, r float64)
}{
	// 2 lamps that say 0.5 mA each, 2 mA before, 100 m of 0.02 mA/m: 5 mA; the limit is 30 % of IΔn.
	{"LEK-01", "30 % of IΔn", house, finding.Decide, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		fit(in, "L1", network.Fitting{Leakage: 0.0005})
		fit(in, "L2", network.Fitting{Leakage: 0.0005})
		in.Net.Nodes[0].Devices[0].Residual = q.Ampere(0.005 / 0.3 * r)
	}},
	// B10, lower end of the band 3·In: 30 A; a pulse of 0.4 ms gives k = sqrt(10/0.4) = 5.
	{"INR-01", "peaks alone, by number allowed", many, finding.Note, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		fit(in, "L1", network.Fitting{Inrush: q.Ampere(150 / r), InrushTime: 0.0004})
	}},
	{"INR-01", "250 VA of wound transformers on 3 A", fused, finding.Decide, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		in.Net.Branches[1].Converter.Rated = q.VoltAmpere(250 / r)
	}},
	{"INR-02", "LED watts", switched, finding.Decide, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		node(in, "G1").Gear.LEDWatts = q.Some(q.Watt(20 * r))
	}},
	{"INR-02", "a tenth of the resistive rating", relay, finding.Decide, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		node(in, "G1").Gear.Rating = q.Some(q.Ampere(10 / 230.0 / 0.1 * r))
	}},
	{"CTL-01", "rating", switched, finding.Stop, finding.Held, func(in *calc.Input, base *calc.Result, r float64) {
		node(in, "G1").Gear.Rating = q.Some(base.Points[1].Current * q.Ampere(r))
	}},
	{"CTL-03", "2 m", celled, finding.Decide, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		node(in, "L1").East = q.Metre(2 * r)
	}},
	{"DIM-02", "least load", dimmed, finding.Decide, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		node(in, "G1").Gear.DimMin = q.Some(q.Watt((10 + 5/0.88) / r))
	}},
	{"DIM-02", "most load", dimmed, finding.Stop, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		node(in, "G1").Gear.DimMax = q.Some(q.Watt((10 + 5/0.88) * r))
	}},
	{"LHD-01", "16 A", many, finding.Stop, finding.Held, func(in *calc.Input, _ *calc.Result, r float64) {
		fit(in, "L1", network.Fitting{Lampholder: network.Yes})
		in.Net.Nodes[0].Devices[0].Rating = q.Ampere(16 / r)
	}},
	{"ELV-01", "80 % of the cable", lowVolt, finding.Decide, finding.Held, func(in *calc.Input, base *calc.Result, r float64) {
		in.Rules.Limits.ExtraLowCurrent.Value = float64(base.Runs[1].Current/base.Runs[1].Capacity.Iz) * r
	}},
}

func TestSupplyEdges(t *testing.T) {
	for _, e := range supplyEdges {
		for _, at := range []struct {
			where string
			r     float64
			want  finding.Level
		}{{"inside", 1.001, e.inside}, {"on", 1, e.inside}, {"outside", 0.999, e.outside}} {
			base := calc.Evaluate(input(e.net))
			in := input(e.net)
			e.move(&in, base, at.r)
			r := calc.Evaluate(in)
			if got := levelOf(r, e.code); got != at.want {
				t.Errorf("%s %s %s: %v, want %v: %v", e.code, e.name, at.where, got, at.want, found(r, e.code))
			}
		}
	}
}

// Yes or no, and what is not known.
func TestSupplyPresence(t *testing.T) {
	plain := strings.Replace(switched, "by=G1", "", 1)
	for _, row := range []struct {
		name, net string
		code      finding.Code
		want      finding.Level
		subject   string
		change    func(in *calc.Input)
	}{
		{"type A", switched, "RCD-02", finding.Held, "", nil},
		{"type AC", switched, "RCD-02", finding.Decide, "SP1", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Type = "AC" }},
		{"type not known", switched, "RCD-02", finding.Note, "SP1", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Type = "" }},
		{"type AC ahead of filaments only", strings.ReplaceAll(many, "post", "globe"), "RCD-02", finding.Held, "", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Type = "AC" }},
		{"own RCBO", many, "RCD-03", finding.Held, "", nil},
		{"spur", fused, "RCD-03", finding.Note, "SP1", nil},
		{"spur with a freezer", strings.Replace(fused, "zs=0.6", "zs=0.6 shares=freezer", 1), "RCD-03", finding.Decide, "SP1", nil},
		{"one other circuit", house, "RCD-03", finding.Note, "SP1", nil},
		{"two other circuits", strings.Replace(house, "others=1", "others=2", 1), "RCD-03", finding.Decide, "SP1", nil},
		{"no other circuit", strings.Replace(house, "others=1", "others=0", 1), "RCD-03", finding.Held, "", nil},
		{"other circuits not known", strings.Replace(house, "others=1", "", 1), "RCD-03", finding.Note, "SP1", nil},
		{"delayed", many, "RCD-04", finding.Stop, "L1", func(in *calc.Input) { in.Net.Nodes[0].Devices[0].Delayed = true }},
		{"delayed, and one without delay", many, "RCD-04", finding.Held, "", func(in *calc.Input) {
			d := in.Net.Nodes[0].Devices[0]
			d.Delayed = true
			in.Net.Nodes[0].Devices = append(in.Net.Nodes[0].Devices, d)
		}},
		{"leakage of the house not known", strings.Replace(house, "leak=0.002", "", 1), "LEK-01", finding.Note, "SP1", nil},
		{"own RCBO has no leakage from before", many, "LEK-01", finding.Held, "", nil},
		{"guide, peaks not known: 15 on B10", many, "INR-01", finding.Held, "", nil},
		{"LED lamps by number", switched, "INR-02", finding.Decide, "G1", func(in *calc.Input) { node(in, "G1").Gear.LEDLamps = q.Some(q.Count(1)) }},
		{"no rating at all", strings.Replace(relay, "= relay", "= nameless", 1), "INR-02", finding.Note, "G1", nil},
		{"receiver in plastic", switched, "CTL-02", finding.Held, "", nil},
		{"receiver in metal", strings.Replace(relay, "= relay", "= tin", 1), "CTL-02", finding.Decide, "G1", nil},
		{"zone with control", switched, "CTL-04", finding.Held, "", nil},
		{"zone without", plain, "CTL-04", finding.Note, "Z1", nil},
		{"lamps behind it", switched, "CTL-05", finding.Held, "", nil},
		{"lamp ahead of it", switched + " ; R9 SP1 L9 swa-3x1.5 5 C ; L9 = post ; zone Z2 L9 by=G1", "CTL-05", finding.Decide, "Z2", nil},
		{"gear of another circuit", strings.Replace(switched, "by=G1", "by=G9", 1), "CTL-05", finding.Decide, "Z1", nil},
		{"not dimmed", switched, "DIM-01", finding.Held, "", nil},
		{"not known to dim", dimmed, "DIM-01", finding.Decide, "Z1", nil},
		{"lamp does not dim", dimmed, "DIM-01", finding.Stop, "Z1", func(in *calc.Input) { fit(in, "L1", network.Fitting{Dimmable: network.No}) }},
		{"source does not dim", dimmed, "DIM-01", finding.Stop, "Z1", func(in *calc.Input) {
			dims(in)
			fit(in, "S1", network.Fitting{Dimmable: network.No})
		}},
		{"all dim", dimmed, "DIM-01", finding.Held, "", dims},
		{"gear does not dim", dimmed, "DIM-01", finding.Decide, "Z1", func(in *calc.Input) {
			dims(in)
			node(in, "G1").Gear = &network.Gear{Kind: network.Receiver}
		}},
		{"RCBO isolates", many, "ISO-01", finding.Held, "", nil},
		{"nothing isolates", strings.Replace(many, "b10-rcbo-30", "b10", 1), "ISO-01", finding.Stop, "L1", nil},
		{"spur unit of unknown kind", strings.Replace(fused, "b32-rcbo-30", "b32", 1), "ISO-01", finding.Decide, "S1", nil},
		{"switched spur unit", strings.Replace(strings.Replace(fused, "b32-rcbo-30", "b32", 1), "zs=0.6", "zs=0.6 switched", 1), "ISO-01", finding.Held, "", nil},
		{"isolator in the garden", "way TN-S ze=0.3 ; board b10 ; indoor te-2.5 0 C ; R1 SP1 G1 swa-3x1.5 5 C ; R2 G1 L1 swa-3x1.5 5 C ; G1 = isolator ; L1 = post", "ISO-01", finding.Held, "", nil},
		{"isolator behind the lamp", "way TN-S ze=0.3 ; board b10 ; indoor te-2.5 0 C ; R1 SP1 L1 swa-3x1.5 5 C ; R2 L1 G1 swa-3x1.5 5 C ; R3 G1 L2 swa-3x1.5 5 C ; G1 = isolator ; L1 = post ; L2 = post", "ISO-01", finding.Stop, "L1", nil},
		{"no lampholder said", strings.Replace(many, "b10-", "b32-", 1), "LHD-01", finding.Held, "", func(in *calc.Input) { fit(in, "L1", network.Fitting{Leakage: 0.0001}) }},
		{"separated", lowVolt, "SRC-03", finding.Held, "", nil},
		{"not separated", strings.Replace(lowVolt, "= dc60", "= felv", 1), "SRC-03", finding.Stop, "S1", nil},
		{"labels", many, "LBL-01", finding.Note, "SP1", nil},
		{"permissions", many, "PRT-01", finding.Note, "SP1", nil},
		{"country not given", many, "PRT-01", finding.Held, "", func(in *calc.Input) { in.Country = "" }},
	} {
		t.Run(row.name, func(t *testing.T) {
			in := input(row.net)
			if row.change != nil {
				row.change(&in)
			}
			r := calc.Evaluate(in)
			if got := levelOf(r, row.code); got != row.want {
				t.Fatalf("%s is %v, want %v: %v", row.code, got, row.want, found(r, row.code))
			}
			for _, f := range r.Findings {
				if f.Level == finding.Held {
					t.Errorf("what holds is listed without being asked for: %s %s", f.Code, f.Text)
				}
			}
			if row.want == finding.Held {
				return
			}
			if f := one(t, r, row.code); f.Subject.ID != row.subject || !strings.Contains(f.Working, "\n") || f.Source.String() == "" {
				t.Errorf("%+v", f)
			}
		})
	}
}

// dims makes everything of a dimmed zone dim.
func dims(in *calc.Input) {
	for _, id := range []string{"L1", "S1", "L2"} {
		fit(in, id, network.Fitting{Dimmable: network.Yes})
	}
}

// Numbers of the trade guide as discussed in public: 15 on B10, 22 on B16, 30
// on C10 (found); by current about 9 on B6 and 18 on C6 (derived there).
func TestGuideNumbers(t *testing.T) {
	for _, row := range []struct {
		device string
		rating q.Ampere
		most   int
	}{{"B", 6, 9}, {"B", 10, 15}, {"B", 13, 18}, {"B", 16, 22}, {"C", 6, 18}, {"C", 10, 30}, {"B", 32, 44}, {"D", 10, 30}} {
		for _, n := range []int{row.most, row.most + 1} {
			text := "way TN-S ze=0.1 ; board b32-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 L1 swa-3x2.5 1 C ; L1 = post"
			for k := 2; k <= n; k++ {
				text += " ; R" + itoa(k) + " L1 L" + itoa(k) + " swa-3x2.5 1 C ; L" + itoa(k) + " = post"
			}
			in := input(text)
			d := &in.Net.Nodes[0].Devices[0]
			d.Rating, d.Curve = row.rating, row.device
			want := finding.Held
			if n > row.most {
				want = finding.Decide
			}
			if got := levelOf(calc.Evaluate(in), "INR-01"); got != want {
				t.Errorf("%s%v with %d lamps: %v, want %v", row.device, row.rating, n, got, want)
			}
		}
	}
}

func itoa(n int) string { return strings.TrimSpace(q.Count(n).String()) }

// Only what is switched on together adds up: twenty lamps behind two receivers
// are two groups of ten.
func TestInrushGoesByWhatIsSwitchedTogether(t *testing.T) {
	text := "way TN-S ze=0.1 ; board b10-rcbo-30 ; indoor te-2.5 0 C"
	for g, name := range []string{"G1", "G2"} {
		text += " ; R" + itoa(100+g) + " SP1 " + name + " swa-3x2.5 1 C ; " + name + " = receiver"
		for k := range 10 {
			id := itoa(10*g + k + 1)
			text += " ; R" + id + " " + name + " L" + id + " swa-3x2.5 1 C ; L" + id + " = post"
		}
	}
	if got := levelOf(calc.Evaluate(input(text)), "INR-01"); got != finding.Held {
		t.Errorf("two groups of ten on B10: %v", got)
	}
	one := strings.ReplaceAll(strings.Replace(text, "G2 = receiver", "G2 = isolator", 1), "G1 = receiver", "G1 = isolator")
	if got := levelOf(calc.Evaluate(input(one)), "INR-01"); got != finding.Decide {
		t.Errorf("twenty together on B10: %v", got)
	}
}

// 9 mA on 30 mA (BS 7671 531.3.2, found); 2 lamps of 0.5 mA, 100 m at 0.02 mA/m
// (from memory), 2 mA from before: 5 mA; (9 - 5)/0.5 = 8 more lamps.
func TestLeakageLeft(t *testing.T) {
	in := input(house)
	r := calc.Evaluate(in)
	for _, f := range calc.Explain(in, r, "SP1") {
		if f.Code == "LEK-01" {
			if f.Figure != "5 mA" || f.Limit != "at most 9 mA" || !strings.Contains(f.Text, "8 more lamps of 0.5 mA") || len(f.Assumed) != 1 {
				t.Errorf("%+v", f)
			}
			return
		}
	}
	t.Error("no working of the leakage")
}

// The export for headroom says the same, device by device.
func TestLeaks(t *testing.T) {
	in := input(strings.Replace(house, "leak=0.002", "", 1))
	c := &check.Context{Net: in.Net, Tree: network.BuildTree(in.Net), Rules: in.Rules}
	ls := c.Leaks()
	if len(ls) != 1 || ls[0].Device.Label != "RCD 30 mA" || ls[0].Existing.Known || ls[0].More.Known || ls[0].Silent != 2 {
		t.Fatalf("%+v", ls)
	}
	near(t, "sum without what was there", float64(ls[0].Sum), 0.003, 1e-12)
	near(t, "cable", float64(ls[0].Cable), 0.002, 1e-12)
}

// Light at the cell: 400 lm evenly in 60° are 475.2 cd (2π(1-cos 30°) = 0.8418 sr,
// derived); 20 lx at 4.874 m.
func TestCellByLight(t *testing.T) {
	edge := math.Sqrt(400 / (2 * math.Pi * (1 - math.Cos(math.Pi/6))) / 20)
	near(t, "distance of 20 lx", edge, 4.8745, 0.001)
	for east, want := range map[float64]finding.Level{edge * 0.999: finding.Decide, edge * 1.001: finding.Held} {
		in := input(celled20)
		fit(&in, "L1", network.Fitting{Flux: 400, Beam: 60})
		node(&in, "L1").East = q.Metre(east)
		if got := levelOf(calc.Evaluate(in), "CTL-03"); got != want {
			t.Errorf("%v m: %v, want %v", east, got, want)
		}
	}
}

// The peak of a lamp counts where it is known: 900 cd give 20 lx at √45 m (derived),
// whatever lumens and beam say.
func TestCellByPeak(t *testing.T) {
	edge := math.Sqrt(900.0 / 20)
	for _, f := range []network.Fitting{{Flux: 400, Beam: 60, Peak: 900}, {Peak: 900}} {
		for east, want := range map[float64]finding.Level{edge * 0.999: finding.Decide, edge * 1.001: finding.Held} {
			in := input(celled20)
			fit(&in, "L1", f)
			node(&in, "L1").East = q.Metre(east)
			if got := levelOf(calc.Evaluate(in), "CTL-03"); got != want {
				t.Errorf("%+v, %v m: %v, want %v", f, east, got, want)
			}
		}
	}
}

// Two circuits in one cable: four cores and the armour do, three do not; one
// circuit needs three and its earth.
func TestSharedCable(t *testing.T) {
	base := "way TN-S ze=0.3 ; board b10-rcbo-30 ; indoor te-2.5 0 C ; R1 SP1 L1 CABLE 5 C ; R2 SP1 L2 CABLE 5 C ; L1 = brick ; L2 = brick"
	for _, row := range []struct {
		cores int
		other string // partner of R1; R9 is in no circuit of this net
		earth bool
		want  finding.Level
	}{{5, "R9", true, finding.Decide}, {4, "R9", true, finding.Stop}, {4, "R9", false, finding.Decide}, {3, "R9", false, finding.Stop}, {4, "R2", true, finding.Held}, {3, "R2", true, finding.Stop}, {3, "R2", false, finding.Held}} {
		in := input(strings.ReplaceAll(base, "CABLE", "swa-3x1.5"))
		cb := *in.Net.Branches[1].Cable
		cb.Cores = row.cores
		if !row.earth {
			cb.EarthSize, cb.Earth = 0, network.EarthArmour
		}
		in.Net.Branches[1].Cable = &cb
		in.Net.Branches[1].Sheath = []finding.Subject{{ID: row.other, Label: row.other}}
		if got := levelOf(calc.Evaluate(in), "NEU-01"); got != row.want {
			t.Errorf("%d cores with %s, earth core %v: %v, want %v", row.cores, row.other, row.earth, got, row.want)
		}
	}
}

// The prompts of NTF-01 beyond the four of before. Source: trade notes, sections
// 7 and 8.
func TestNotificationElsewhere(t *testing.T) {
	for country, want := range map[string]string{"Ireland": "registered electrical contractor", "Scotland": "warrant", "scotland ": "warrant", "Germany": "registered with the network operator", "Nowhere": "No notification rule"} {
		for _, net := range []string{many, fused} {
			in := input(net)
			in.Country = country
			if f := one(t, calc.Evaluate(in), "NTF-01"); !strings.Contains(f.Text, want) {
				t.Errorf("%s: %s", country, f.Text)
			}
		}
	}
}

// A rule set that leaves the new limits out silences what asks for them.
func TestRulesWithoutTheLimits(t *testing.T) {
	in := input(strings.Replace(house, "others=1", "others=9", 1))
	in.Rules.Limits.LeakageShare, in.Rules.Limits.SharedCircuits, in.Rules.Limits.InrushSmall = check.Limit{}, check.Limit{}, check.Limit{}
	r := calc.Evaluate(in)
	for _, code := range []finding.Code{"LEK-01", "RCD-03", "INR-01"} {
		if fs := found(r, code); len(fs) > 0 {
			t.Errorf("%s: %v", code, fs)
		}
	}
}
