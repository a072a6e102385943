package file

import (
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

func shippedRuleText(t testing.TB) string {
	t.Helper()
	data, err := fs.ReadFile(assets.FS, "rules/uk-18.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A rule set of one's own may name shipped tables and define its own.
func TestReadRules(t *testing.T) {
	text := strings.Replace(shippedRuleText(t), "key: uk-18", "key: own", 1)
	text = strings.Replace(text, "times: \"41.1\"", "times: own times", 1)
	text += `define:
  - key: own times
    kind: time
    source: {standard: House rule, clause: 1, evidence: practice}
    rows:
      - {earthing: TT, final: 0.1 s}
`
	r, err := ReadRules("own.yaml", []byte(text), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	if r.Key != "own" || len(r.Protect.Times) != 1 || r.Protect.Times[0].Final != 0.1 || r.Protect.Times[0].Source.Standard != "House rule" {
		t.Errorf("times %+v", r.Protect.Times)
	}
	if len(r.Cable.Air) == 0 {
		t.Error("the shipped tables are gone")
	}
}

func TestReadRulesErrors(t *testing.T) {
	good := shippedRuleText(t)
	for _, tt := range []struct{ old, new, want string }{
		{"air: 4B1", "air: 4B9", `rule set uk-18: tables.air: found "4B9", expected the key of a table of kind ambient (did you mean "4B1"?)`},
		{"air: 4B1", "air: 4C1", `tables.air: found table 4C1 of kind grouping, expected the key of a table of kind ambient`},
		{"  air: 4B1\n", "", `rule set uk-18: tables.air: found nothing, expected the key of a table`},
		{"air: 4B1", "wind: 4B1", `rule set uk-18: tables`},
		{"value: 70 °C", "value: 70 K", `rule set uk-18: cable.terminals.value: found "70 K", expected a temperature with one of the units °C, C`},
		{"value: 3 %", "value: 0.03", `limits.lighting_drop.value: found "0.03", expected a percentage such as 5 %`},
		{"value: 3 %", "value: 0 %", `limits.lighting_drop.value: found "0 %", expected a value above zero`},
		{`value: "23:00"`, "value: dawn", `curfew.value: found "dawn", expected a time such as "23:00"`},
		{`value: "23:00"`, "value: usual", `curfew.value: found "usual", expected a time such as "23:00"`},
		{`value: "23:00"`, "value: 24:30", `curfew.value: found "24:30", expected a time such as "23:00"`},
		{"evidence: found", "evidence: rumour", `expected "found", "memory", "derived" or "practice"`},
		{"evidence: found}", "evidence: found, page: 3}", `found the unknown field "page"`},
		{"  lighting_drop:", "  lightning_drop:", `rule set uk-18: limits`},
		{"key: uk-18", "kee: uk-18", `uk.yaml:1: `},
		{"fuses: [BS 1362, ", "fuses: [BS 1363, ", `tables.fuses[1]: found "BS 1363"`},
	} {
		text := strings.Replace(good, tt.old, tt.new, 1)
		if text == good {
			t.Fatalf("%q is not in the file", tt.old)
		}
		_, err := ReadRules("uk.yaml", []byte(text), assets.FS)
		checkLine(t, err, tt.want)
	}
}

// TestRulesCurfew: midnight is a curfew, and a rule set may do without one.
func TestRulesCurfew(t *testing.T) {
	good := shippedRuleText(t)
	for value, want := range map[string]q.Maybe[float64]{`"23:00"`: q.Some(23.0), `"22:30"`: q.Some(22.5), `"00:00"`: q.Some(0.0), "midnight": q.Some(0.0)} {
		r, err := ReadRules("uk.yaml", []byte(strings.Replace(good, `value: "23:00"`, "value: "+value, 1)), assets.FS)
		if err != nil || r.Light.Curfew != want || r.Light.CurfewSource.Evidence != finding.Found {
			t.Errorf("%s: %v, found %+v, expected %+v", value, err, r, want)
		}
	}
	at := strings.Index(good, "  curfew:\n")
	end := at + strings.Index(good[at:], "source:")
	end += strings.Index(good[end:], "\n") + 1
	r, err := ReadRules("uk.yaml", []byte(good[:at]+good[end:]), assets.FS)
	if err != nil || r.Light.Curfew.Known {
		t.Errorf("without a curfew: %v, %+v", err, r)
	}
}

// A rule set may do without what SEL-01 and SEL-02 ask for; it is then silent.
func TestRulesWithoutSelectivity(t *testing.T) {
	text := shippedRuleText(t)
	for _, line := range []string{"  conventional: conventional currents\n", "  points: [time-current points]\n"} {
		if !strings.Contains(text, line) {
			t.Fatalf("%q is not in the file", line)
		}
		text = strings.Replace(text, line, "", 1)
	}
	text = regexp.MustCompile(`(?m)^  (residual|fuse)_ratio:\n(    .*\n)+`).ReplaceAllString(text, "")
	r, err := ReadRules("own.yaml", []byte(text), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Protect.Conventional)+len(r.Protect.Points) > 0 || r.Limits.ResidualRatio.Value != 0 || r.Limits.FuseRatio.Value != 0 {
		t.Errorf("what was left out is there: %+v", r.Limits)
	}
}

// A flaw in a shipped table is told with the file and line of the table.
func TestTableErrors(t *testing.T) {
	for _, tt := range []struct{ file, old, new, want string }{
		{"tables/ratings.yaml", "[27 A, 29 A, 25 A]", "[27 A, 29 A]", `table 4E4A: rows[1].iz: found 2 values, expected 3 values, one for each column`},
		{"tables/ratings.yaml", "27 A,", "27 V,", `table 4E4A: rows[1].iz[1]: found "27 V", expected a current`},
		{"tables/ratings.yaml", "columns: [C, E, D]", "columns: [C, F, D]", `table 4E4A: columns[2]: found "F"`},
		{"tables/ratings.yaml", "drop: 31 mV/A/m", "drop: 31 mV", `table 4E4B: rows[1].drop: found "31 mV", expected`},
		{"tables/ratings.yaml", "key: 4E4B", "key: 4E4A", `table 4E4A: key: found the key 4E4A a second time`},
		{"tables/ratings.yaml", "kind: rating", "kind: ratings", `(did you mean "rating"?)`},
		{"tables/factors.yaml", "1.04]", "none, 1]", `table 4B1: rows[1].factors: found 5 values, expected 4 values`},
		{"tables/factors.yaml", "1.03, 1.02", "103, 1.02", `rows[1].factors[1]: found "103", expected a number from 0.01 to 3`},
		{"tables/conductors.yaml", "{size: 0.5 mm², r20: 36.0 mΩ/m}", "{size: 0.5 mm²}", `table copper class 1 and 2: rows[1].r20: found nothing`},
		{"tables/constructions.yaml", "drop: 4E4B", "drop: 4E4C", `tables/constructions.yaml:13: table constructions: rows[1].drop: found "4E4C"`},
		{"tables/devices.yaml", "energy: 15000 A²s", "energy: 15 kA", `table class 3 energy: rows[1].energy: found "15 kA", expected an energy such as 35000 A²s`},
		{"tables/devices.yaml", "within: 1.5 kA", "within: 0 A", `table small breakers: rows[1].within: found "0 A", expected`},
		{"tables/devices.yaml", "up_to: 6 A, within: 1.5 kA", "up_to: 6 A", `table small breakers: rows[1].breaking: found nothing`},
		{"tables/devices.yaml", "least: 3, times: 5", "least: 6, times: 5", `table EN 60898 bands: rows[1].least: found "6", expected a multiple not above times`},
		{"tables/devices.yaml", "holds: 1.13, opens: 1.45", "holds: 1.5, opens: 1.45", `table conventional currents: rows[1].opens: found "1.45", expected a multiple not below holds`},
		{"tables/devices.yaml", "least: 0.02 s, longest: 80 s", "least: 81 s, longest: 80 s", `table time-current points: rows[1].least: found "81 s", expected a time not above longest`},
		{"tables/devices.yaml", "current: 9 A, least", "current: 0 A, least", `table time-current points: rows[1].current: found "0 A", expected a value above zero`},
		{"tables/earthing.yaml", "earthing: TN-S", "earthing: unknown", `table 41.1: rows[1].earthing: found "unknown", expected "TN-S"`},
		{"tables/adiabatic.yaml", "part: core", "part: sheath", `table 43.1: rows[1].part: found "sheath"`},
	} {
		_, err := Rules(altered(t, tt.file, tt.old, tt.new))
		checkLine(t, err, tt.want)
		if err != nil && !strings.HasPrefix(err.Error(), tt.file) {
			t.Errorf("%v does not name %s", err, tt.file)
		}
	}
	if _, err := Rules(altered(t, "rules/uk-18.yaml", "key: uk-18", "key: \"\"")); err == nil {
		t.Error("a rule set with an empty key was read")
	}
	_, err := Stock(altered(t, "stock/gear.yaml", "[fuse-3]", "[fuse-33]"))
	checkLine(t, err, `gear fcu-3: devices[1]: found "fuse-33", expected a device of the stock book (did you mean`)
}

// FuzzReadRules: no text makes the reader panic, and an error is one line.
func FuzzReadRules(f *testing.F) {
	set, err := loadTables(assets.FS)
	if err != nil {
		f.Fatal(err)
	}
	f.Add([]byte(shippedRuleText(f)))
	for _, name := range []string{"tables/ratings.yaml", "tables/factors.yaml", "tables/devices.yaml", "tables/constructions.yaml"} {
		data, err := fs.ReadFile(assets.FS, name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(append([]byte("key: x\nvalues: x\ndefine:\n"), data[strings.Index(string(data), "tables:")+len("tables:"):]...))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		top, err := parseYAML("fuzz.yaml", data)
		if err == nil {
			readRules(top.object(), set)
			err = top.log.first()
		}
		if err != nil && strings.Contains(err.Error(), "\n") {
			t.Errorf("error of several lines: %q", err)
		}
	})
}
