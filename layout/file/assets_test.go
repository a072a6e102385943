package file

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// These tests hold the shipped tables against what they have to agree with:
// the formulas of the standards and values printed elsewhere.

func shippedTables(t *testing.T) *tableSet {
	t.Helper()
	set, err := loadTables(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func shippedRules(t *testing.T) *check.Rules {
	t.Helper()
	rules, err := Rules(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	if len(rules) != 1 || rules[0].Key != "uk-18" {
		t.Fatalf("rule sets %v, want uk-18 alone", rules)
	}
	return rules[0]
}

func rowsOfTable[T any](t *testing.T, set *tableSet, key string) []T {
	t.Helper()
	tab, ok := set.find(key)
	rows, of := tab.rows.([]T)
	if !ok || !of || len(rows) == 0 {
		t.Fatalf("table %s: found %v", key, tab)
	}
	return rows
}

// rounded writes v with the digits that the printed table uses: two
// significant ones.
func rounded(v float64) string { return fmt.Sprintf("%.2g", v) }

// The volt drop tables follow from IEC 60228 resistance and the temperature of
// the conductors, mV/A/m = 2 · R20 · (234.5 + t)/254.5, within the rounding of
// the print. Two rows of the 70 °C tables do not, in every printing: 1.0 mm²
// (43.3 printed as 44) and 6 mm² (7.37 printed as 7.3). Source: BS 7671 Tables
// 4D2B, 4D4B, 4D5, 4E4B, 4F3B; IEC 60228 Tables 1 to 3.
func TestDropTablesFollowFromResistance(t *testing.T) {
	set := shippedTables(t)
	for _, tt := range []struct {
		drop, resistance string
		celsius          float64
		rows             int
	}{
		{"4E4B", "copper class 1 and 2", 90, 6},
		{"4D4B", "copper class 1 and 2", 70, 6},
		{"4D5 drop", "copper class 1 and 2", 70, 7},
		{"4D2B", "copper class 1 and 2", 70, 7},
		{"4F3B", "copper class 5 coated", 60, 6}, // 1.25 mm² is in no IEC 60228 table
	} {
		compared := 0
		r20 := map[q.SquareMetre]q.OhmPerMetre{}
		for _, r := range rowsOfTable[resistanceRow](t, set, tt.resistance) {
			r20[r.size] = r.r20
		}
		for _, row := range rowsOfTable[dropRow](t, set, tt.drop) {
			r, ok := r20[row.size]
			if !ok {
				continue
			}
			compared++
			mv := 2e3 * float64(cable.Resistance(r, q.Celsius(tt.celsius)))
			printed := 1e3 * float64(row.drop)
			mm := row.size.SquareMillimetres()
			exception := tt.celsius == 70 && (mm == 1 || mm == 6)
			if same := rounded(mv) == rounded(printed); same == exception {
				t.Errorf("%s %v mm²: printed %v, formula %.3f, exception %v", tt.drop, mm, printed, mv, exception)
			}
			if math.Abs(mv-printed) > printed*0.03 {
				t.Errorf("%s %v mm²: printed %v is far from %.3f", tt.drop, mm, printed, mv)
			}
		}
		if compared != tt.rows {
			t.Errorf("%s: %d rows compared, want %d", tt.drop, compared, tt.rows)
		}
	}
}

// Conductor temperature of an insulation key, the number it starts with.
func operating(t *testing.T, key string) float64 {
	t.Helper()
	var v float64
	if _, err := fmt.Sscanf(key, "%fC", &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// Ambient factors are sqrt((tp - ta)/(tp - t0)) to the two printed digits. In
// air at 25 °C the table prints less than the formula, in every column. Source:
// BS 7671 Tables 4B1 (t0 = 30 °C) and 4B2 (t0 = 20 °C).
func TestAmbientFactorsFollowTheFormula(t *testing.T) {
	r := shippedRules(t)
	for _, tt := range []struct {
		name string
		rows []cable.TempRow
		t0   float64
		n    int
	}{{"4B1", r.Cable.Air, 30, 8*4 - 1}, {"4B2", r.Cable.Ground, 20, 9 * 3}} {
		n := 0
		for _, row := range tt.rows {
			ta := row.At.Celsius()
			for _, f := range row.Factors {
				n++
				tp := operating(t, f.Key)
				want := math.Sqrt((tp - ta) / (tp - tt.t0))
				switch {
				case tt.t0 == 30 && math.Abs(ta-25) < 0.01:
					if f.Value >= want-0.005 {
						t.Errorf("%s %v °C %s: %v is not below the formula's %.3f", tt.name, ta, f.Key, f.Value, want)
					}
				case math.Abs(f.Value-want) > 0.005001:
					t.Errorf("%s %v °C %s: %v, formula %.4f", tt.name, ta, f.Key, f.Value, want)
				}
			}
		}
		if n != tt.n {
			t.Errorf("%s: %d factors, want %d", tt.name, n, tt.n)
		}
	}
}

// The largest loop times the current that opens the device is Uo · Cmin, for
// every overcurrent device of the stock book (BS 7671 411.4.4). The loops
// themselves, those without a row of their own among them, are held by
// TestOutsideLoops; R1+R2 by TestOutsideR1R2 and TestOutsideStockR1R2.
func TestLoopTimesCurrent(t *testing.T) {
	r, s := shippedRules(t), shippedStock(t)
	for _, item := range s.Devices {
		if !item.Device.Overcurrent() {
			continue
		}
		z, src, ok := protect.MaxLoop(item.Device, 0.4, 230, &r.Protect)
		ia, _, _ := protect.TripCurrent(item.Device, 0.4, 230, &r.Protect)
		if !ok || math.Abs(float64(z)*float64(ia)-0.95*230) > 1e-9 {
			t.Errorf("%s: Zs · Ia = %v, want 0.95 · 230", item.Key, float64(z)*float64(ia))
		}
		if src.Standard != "BS 7671:2018" && src.Standard != "BS EN 60898-1" {
			t.Errorf("%s: source %v", item.Key, src)
		}
	}
}

// k of IEC 60364-5-54 Annex A: 226·sqrt(ln(1 + (tf - ti)/(234.5 + ti))) for
// copper, 78·sqrt(ln(1 + (tf - ti)/(202 + ti))) for steel, to the printed digit.
func TestAdiabaticConstants(t *testing.T) {
	r := shippedRules(t)
	for _, tt := range []struct {
		part, key    string
		a, b, ti, tf float64
	}{
		{"core", "70C thermoplastic", 226, 234.5, 70, 160},
		{"core", "90C thermoplastic", 226, 234.5, 90, 160},
		{"core", "90C thermosetting", 226, 234.5, 90, 250},
		{"core", "60C thermosetting", 226, 234.5, 60, 200},
		{"armour", "70C thermoplastic", 78, 202, 60, 200},
		{"armour", "90C thermoplastic", 78, 202, 80, 200},
		{"armour", "90C thermosetting", 78, 202, 80, 200},
	} {
		want := tt.a * math.Sqrt(math.Log(1+(tt.tf-tt.ti)/(tt.b+tt.ti)))
		got, _, ok := protect.K(tt.part, tt.key, &r.Protect)
		if !ok || math.Abs(got-want) > 0.6 {
			t.Errorf("%s %s: k = %v, formula %.2f", tt.part, tt.key, got, want)
		}
	}
}

// Least armour by Table 54.7 as printed for 90 °C cable, 3.109 · S, against the
// shipped areas: 2-core 1.5 to 6 mm² pass, 10 and 16 mm² need the calculation.
func TestArmourAgainstSelection(t *testing.T) {
	r := shippedRules(t)
	core, _, _ := protect.K("core", "90C thermosetting", &r.Protect)
	steel, _, _ := protect.K("armour", "90C thermosetting", &r.Protect)
	least := map[float64]float64{1.5: 4.7, 2.5: 7.8, 4: 12.4, 6: 18.7, 10: 31.1, 16: 49.7}
	for _, row := range rowsOfTable[armourRow](t, shippedTables(t), "BS 5467 armour") {
		if row.cores != 2 {
			continue
		}
		mm := row.size.SquareMillimetres()
		need := protect.Selected(row.size, core, steel)
		if math.Abs(need.SquareMillimetres()-least[mm]) > 0.05 {
			t.Errorf("%v mm²: least %v, printed %v", mm, need, least[mm])
		}
		if passes := row.area >= need; passes != (mm <= 6) {
			t.Errorf("2-core %v mm²: armour %v against %v", mm, row.area, need)
		}
	}
}

// Maximum armour resistance lies 8 to 13 % above 138/A mΩ/m, the resistance of
// its area with the resistivity of steel, 1.38e-7 Ω·m (IEC 60287-1-1 Table 1).
// Where the resistance itself was derived that way it is rounded up to 0.1 mΩ/m.
func TestArmourResistanceAgainstArea(t *testing.T) {
	set := shippedTables(t)
	rows := append(rowsOfTable[armourRow](t, set, "BS 5467 armour"), rowsOfTable[armourRow](t, set, "BS 6346 armour")...)
	for _, row := range rows {
		ratio := float64(row.r20) * 1e3 * row.area.SquareMillimetres() / 138
		if ratio < 1.075 || ratio > 1.16 {
			t.Errorf("%d x %v: %v with %v is %.3f times 138/A", row.cores, row.size, row.r20, row.area, ratio)
		}
	}
	if len(rows) != 44 {
		t.Errorf("%d armour rows, want 44", len(rows))
	}
}

// Operating multipliers are the rounded (234.5 + t)/254.5 or, for 90 °C and the
// alpha of 0.004, 1.28; steel 1 + 0.0045 (t - 20) with the armour 10 K cooler.
func TestOperatingMultipliers(t *testing.T) {
	r := shippedRules(t)
	for _, row := range r.Cable.Hot {
		tp := operating(t, row.Key)
		if want := 1 + 0.004*(tp-20); math.Abs(row.Core-want) > 0.00501 {
			t.Errorf("%s: core %v, want %.3f", row.Key, row.Core, want)
		}
		armour := math.Max(tp-10, 60) // no rubber cable is armoured: taken as the coolest printed
		if want := 1 + 0.0045*(armour-20); math.Abs(row.Armour-want) > 0.001 {
			t.Errorf("%s: armour %v, want %.3f", row.Key, row.Armour, want)
		}
	}
}

// The single numbers in SI units.
func TestRuleSetNumbers(t *testing.T) {
	r := shippedRules(t)
	for name, pair := range map[string][2]float64{
		"lighting drop": {r.Limits.LightingDrop.Value, 0.03}, "long run": {r.Limits.LongRunPer.Value, 0.00005},
		"long run from": {r.Limits.LongRunFrom.Value, 100}, "long run most": {r.Limits.LongRunMost.Value, 0.005},
		"extra low": {r.Limits.ExtraLowDrop.Value, 0.05}, "residual": {r.Limits.Residual.Value, 0.03},
		"source load": {r.Limits.SourceLoad.Value, 0.8}, "spare": {r.Limits.SpareOnDrum.Value, 0.02},
		"lampholder": {r.Limits.LampholderMax.Value, 16}, "residual ratio": {r.Limits.ResidualRatio.Value, 3}, "fuse ratio": {r.Limits.FuseRatio.Value, 2},
		"Cmin": {r.Protect.Cmin, 0.95}, "Cmax": {r.Protect.Cmax, 1.1},
		"touch": {float64(r.Protect.Touch), 50}, "cold": {r.Protect.Cold, 0.8}, "armour": {r.Protect.Armour, 1.1},
		"electrode": {float64(r.Protect.Electrode), 200}, "nominal": {float64(r.Protect.Nominal), 230},
		"Cc": {r.Cable.Buried.Value, 0.9}, "Cf": {r.Cable.Rewirable.Value, 0.725}, "terminals": {r.Cable.Terminals.Celsius(), 70},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-12*math.Max(1, pair[1]) {
			t.Errorf("%s = %v, want %v", name, pair[0], pair[1])
		}
	}
	for _, s := range []string{r.Limits.LightingDrop.Source.String(), r.Protect.CminSource.String(), r.Protect.Fuses[1].Source.String()} {
		if !strings.Contains(s, "18th edition") || !strings.Contains(s, "(f") {
			t.Errorf("source %q does not tell edition and evidence", s)
		}
	}
	if e := r.Limits.SourceLoad.Source; e.String() != "common practice, no source" {
		t.Errorf("source of the load limit reads %q", e)
	}
}
