package layout_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/output"
)

// series is a deck with lamps for 350 mA; runs are those beyond the driver.
func series(lamps, runs string) string {
	return `duskwire: 1
rules: uk-18
supplies:
  - {id: SP1, at: [0 m, 0 m], kind: own way, nominal: 230 V, earthing: TN-S, ze: 0.3 ohm, upstream: b6-rcbo-30, indoor: {cable: te-2.5, length: 5 m, method: C}}
sources:
  - {id: S1, at: [2 m, 0 m], height: 300 mm, stock: src-cc350-42}
zones:
  - {id: Z1}
lamps:
` + lamps + `runs:
  - {id: R1, from: {on: SP1}, to: {on: S1, side: primary}, cable: swa-3x1.5, legs: [{support: clipped}]}
` + runs
}

func deckLamp(id, stock, x string) string {
	return "  - {id: " + id + ", at: [" + x + " m, 1 m], stock: " + stock + ", zone: Z1}\n"
}

func lead(id, from, to string) string {
	if from == "S1" {
		from = "S1, side: secondary"
	}
	return "  - {id: " + id + ", from: {on: " + from + "}, to: {on: " + to + "}, cable: elv-2x1.5, legs: [{support: clipped}]}\n"
}

func frameOf(t *testing.T, text string) *layout.Frame {
	t.Helper()
	return deskOf(t, text).Frame()
}

func deskOf(t *testing.T, text string) *layout.Desk {
	t.Helper()
	stock, err := file.Stock(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	rules, err := file.Rules(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("series.yaml", []byte(text), stock)
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, "")
}

func codesOf(f *layout.Frame, level finding.Level) string {
	var out []string
	for i := range f.Findings {
		if f.Findings[i].Level == level {
			out = append(out, string(f.Findings[i].Code)+" "+f.Findings[i].Subject.Label)
		}
	}
	return strings.Join(out, ", ")
}

// From the plan to the reading: five lamps of 3 V in a chain take 15 V and what
// the cable loses, 0.35 A × its length × 28.956 mΩ/m (2 × 12.1 at 70 °C; drop of
// the shipped table 29 mV/A/m); no Stop, no Decide about the string.
func TestSeriesFromThePlan(t *testing.T) {
	var lamps, runs string
	from := "S1"
	for _, n := range []string{"1", "2", "3", "4", "5"} {
		lamps += deckLamp("L"+n, "deck-350ma", "2"+n)
		runs += lead("R1"+n, from, "L"+n)
		from = "L" + n
	}
	f := frameOf(t, series(lamps, runs))
	s := f.Results[0].Strings
	if len(s) != 1 || s[0].State != "within" || s[0].Lamps != 5 || math.Abs(float64(s[0].Drive)-0.35) > 1e-12 {
		t.Fatalf("%+v", s)
	}
	metres := 0.0
	for _, r := range f.Results[0].Runs {
		if r.Label != "R1" {
			metres += float64(r.Length)
		}
	}
	if want := 15 + 0.35*0.029*metres; math.Abs(float64(s[0].Volts.Value)-want) > 0.002 {
		t.Errorf("string %v, want %g V with %g m", s[0].Volts, want, metres)
	}
	if stops := codesOf(f, finding.Stop); stops != "" {
		t.Errorf("Stop: %s", stops)
	}
	if d := codesOf(f, finding.Decide); strings.Contains(d, "SRC-") || strings.Contains(d, "VD-") || strings.Contains(d, "CIR-") {
		t.Errorf("Decide: %s", d)
	}
	var text bytes.Buffer
	r := output.ReadingsOf(f, f.Circuits.Loose.Rules)
	if err := r.Text(&text); err != nil || !strings.Contains(text.String(), "String of") || !strings.Contains(text.String(), "within") {
		t.Errorf("%v\n%s", err, text.String())
	}
	if len(r.Strings) != 1 || *r.Strings[0].Volts < 15 || r.Load.Lamps != 5 || math.Abs(r.Load.Load-5.25) > 1e-9 {
		t.Errorf("%+v %+v", r.Strings, r.Load)
	}
}

// What the drawing makes wrong with constant current. Of a run back, the walk
// from the driver meets the last lamp by it first, so the last run of the chain
// closes the loop.
func TestSeriesDrawnWrong(t *testing.T) {
	three := deckLamp("L1", "deck-350ma", "3") + deckLamp("L2", "deck-350ma", "4") + deckLamp("L3", "deck-350ma", "5")
	chain := lead("R2", "S1", "L1") + lead("R3", "L1", "L2") + lead("R4", "L2", "L3")
	for _, row := range []struct{ name, text, want string }{
		{"too few lamps for 12 V", series(three, chain), "SRC-04 S1"},
		{"fork", series(three, lead("R2", "S1", "L1")+lead("R3", "L1", "L2")+lead("R4", "L1", "L3")), "SRC-06 S1"},
		{"run back", series(three, chain+lead("R5", "S1", "L3")), "CIR-04 R4"},
		{"700 mA lamp", series(strings.Replace(three, "deck-350ma", "spike-700ma", 1), chain), "SRC-05 L1"},
		{"12 V lamp", series(strings.Replace(three, "deck-350ma", "deck-1w-12", 1), chain), "SRC-06 L1"},
		{"on 12 V", strings.Replace(series(three, chain), "src-cc350-42", "src-12dc-30", 1), "SRC-06 L1"},
	} {
		f := frameOf(t, row.text)
		if stops := codesOf(f, finding.Stop); !strings.Contains(stops, row.want) || strings.Contains(stops, "CIR-05") {
			t.Errorf("%s: %s, want %s", row.name, stops, row.want)
		}
	}
}

// WHT-01 over two circuits: each is of one white, the zone is not. One lamp
// moved into another zone leaves nothing to say, whatever was derived before.
func TestWhitesOverCircuits(t *testing.T) {
	text := `duskwire: 1
rules: uk-18
supplies:
  - {id: SP1, at: [0 m, 0 m], kind: own way, nominal: 230 V}
  - {id: SP2, at: [0 m, 9 m], kind: own way, nominal: 230 V}
zones:
  - {id: Z1, name: Terrace}
  - {id: Z2}
stock:
  lamps:
    - {key: cold, name: Cold light, kind: wall, current: AC, voltage: 230 V, law: constant power, power: 3 W, power_factor: 0.5, class: II, ip: IP65, temperature: 4000 K, source: invented}
lamps:
  - {id: L1, at: [1 m, 1 m], stock: brick-3w, zone: Z1}
  - {id: L2, at: [1 m, 8 m], stock: cold, zone: Z1}
runs:
  - {id: R1, from: {on: SP1}, to: {on: L1}, cable: swa-3x1.5, legs: [{support: clipped}]}
  - {id: R2, from: {on: SP2}, to: {on: L2}, cable: swa-3x1.5, legs: [{support: clipped}]}
`
	f := frameOf(t, text)
	var whites []finding.Finding
	for _, x := range f.Findings {
		if x.Code == "WHT-01" {
			whites = append(whites, x)
		}
	}
	if len(whites) != 1 || whites[0].Subject.ID != "L2" || whites[0].Also[0].ID != "L1" || whites[0].Level != finding.Decide {
		t.Fatalf("%+v", whites)
	}
	if f = frameOf(t, strings.Replace(text, "stock: cold, zone: Z1", "stock: cold, zone: Z2", 1)); strings.Contains(codesOf(f, finding.Decide), "WHT-01") {
		t.Error("two zones are judged as one")
	}
	d := deskOf(t, strings.Replace(text, "stock: cold, zone: Z1", "stock: cold, zone: Z2", 1))
	l, _ := d.Frame().Scheme.Lamps.Get("L2")
	for _, zone := range []doc.ID{"Z1", "Z2"} {
		c := *l
		c.Zone = zone
		if err := d.Commit(edit.SetLamp{Lamp: &c}); err != nil {
			t.Fatal(err)
		}
		if got := strings.Count(codesOf(d.Frame(), finding.Decide), "WHT-01"); got != map[doc.ID]int{"Z1": 1, "Z2": 0}[zone] {
			t.Errorf("L2 moved to %s: %d findings", zone, got)
		}
	}
}

// Standby of gear is summed apart from the load; control gear that does not say
// is counted and not taken as nothing.
func TestStandby(t *testing.T) {
	text := `duskwire: 1
rules: uk-18
supplies:
  - {id: SP1, at: [0 m, 0 m], kind: own way, nominal: 230 V}
stock:
  gear:
    - {key: says, name: Receiver, kind: receiver, standby: 0.6 W, ip: IP20, source: invented}
    - {key: silent, name: Receiver, kind: receiver, ip: IP20, source: invented}
    - {key: isolates, name: Isolator, kind: isolator, ip: IP20, source: invented}
gear:
  - {id: G1, at: [1 m, 0 m], stock: says}
  - {id: G2, at: [2 m, 0 m], stock: says}
  - {id: G3, at: [3 m, 0 m], stock: silent}
  - {id: G4, at: [4 m, 0 m], stock: isolates}
lamps:
  - {id: L1, at: [5 m, 1 m], stock: brick-3w}
runs:
  - {id: R1, from: {on: SP1}, to: {on: G1}, cable: swa-3x1.5, legs: [{support: clipped}]}
  - {id: R2, from: {on: G1}, to: {on: G2}, cable: swa-3x1.5, legs: [{support: clipped}]}
  - {id: R3, from: {on: G2}, to: {on: G3}, cable: swa-3x1.5, legs: [{support: clipped}]}
  - {id: R4, from: {on: G3}, to: {on: G4}, cable: swa-3x1.5, legs: [{support: clipped}]}
  - {id: R5, from: {on: G4}, to: {on: L1}, cable: swa-3x1.5, legs: [{support: clipped}]}
`
	f := frameOf(t, text)
	if f.Totals.Standby != 1.2 || f.Totals.Unsaid != 1 || f.Totals.Load > 3.01 {
		t.Errorf("%+v", f.Totals)
	}
	var out bytes.Buffer
	if err := output.ReadingsOf(f, f.Circuits.Loose.Rules).Text(&out); err != nil || !strings.Contains(out.String(), "Load 3 W in 1 lamp; standby of control gear 1.2 W, and of 1 not known") {
		t.Errorf("%v\n%s", err, out.String())
	}
}
