package file

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"duskwire/assets"
	"duskwire/layout/doc"
)

// hostile is a scheme in which one word is exchanged for a bad one.
const hostile = `duskwire: 1
rules: uk-18
lamps:
  - {id: L1, at: [0 m, 0 m], stock: odd}
stock:
  lamps:
    - {key: odd, name: Odd lamp, kind: wall, current: AC, voltage: 230 V, minimum: 207 V, maximum: 253 V, law: constant power,
       power: 5 W, power_factor: 0.9, class: II, ip: IP65, flux: 300 lm, beam: 90 deg, slack: 1 m, leakage: 0.1 mA,
       temperature: 3000 K, height: 300 mm, source: a maker's sheet}
  sources:
    - {key: src, name: Odd source, class: II, ip: IP65, input: 230 V, output: 12 V, current: DC, rated: 60 VA, regulated: true,
       efficiency: 85 %, power_factor: 0.9, no_load: 1 W, minimum_load: 0 W, selv: true, height: 1 m, source: a maker's sheet}
  devices:
    - {key: dev, name: Odd device, kind: RCBO, curve: B, rating: 6 A, breaking: 6 kA, residual: 30 mA, type: A, source: a maker's sheet}
  boxes:
    - {key: box, name: Odd box, ip: IP66, entries: 4, height: 299 mm, source: a maker's sheet}
  gear:
    - {key: gear, name: Odd gear, kind: isolator, ip: IP65, height: 298 mm, source: a maker's sheet}
`

func readHostile(data string) error {
	_, err := ReadScheme("hostile.yaml", []byte(data), doc.Stock{})
	return err
}

// Stock items of a scheme keep to figures that exist: 1e308 V would be carried
// through every sum and come out as infinity.
func TestAbsurdStockIsRefused(t *testing.T) {
	if err := readHostile(hostile); err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]string{
		{"voltage: 230 V", "voltage: 1e308 V"}, {"voltage: 230 V", "voltage: 1e-300 V"}, {"minimum: 207 V", "minimum: -5 V"},
		{"maximum: 253 V", "maximum: 1e308 V"}, {"power: 5 W", "power: 1e308 W"}, {"power: 5 W", "power: 5e-324 W"},
		{"power: 5 W", "power: 1e6 W"}, {"flux: 300 lm", "flux: -5 lm"}, {"flux: 300 lm", "flux: 1e300 lm"},
		{"beam: 90 deg", "beam: -400 deg"}, {"slack: 1 m", "slack: 1e300 m"}, {"slack: 1 m", "slack: -100 m"},
		{"leakage: 0.1 mA", "leakage: -1 A"}, {"leakage: 0.1 mA", "leakage: 1e300 A"}, {"temperature: 3000 K", "temperature: -5 K"},
		{"height: 300 mm", "height: 900 km"}, {"input: 230 V", "input: 1e308 V"}, {"output: 12 V", "output: 1e308 V"},
		{"output: 12 V", "output: 1e-300 V"}, {"rated: 60 VA", "rated: 1e308 VA"}, {"rated: 60 VA", "rated: 1e-300 VA"},
		{"efficiency: 85 %", "efficiency: 0.0001 %"}, {"efficiency: 85 %", "efficiency: 200 %"}, {"efficiency: 85 %", "efficiency: 0 %"},
		{"no_load: 1 W", "no_load: -500 W"}, {"no_load: 1 W", "no_load: 1e308 W"}, {"minimum_load: 0 W", "minimum_load: -1 W"},
		{"height: 1 m", "height: -900 m"}, {"rating: 6 A", "rating: 1e308 A"}, {"rating: 6 A", "rating: 1e-300 A"},
		{"breaking: 6 kA", "breaking: -5 A"}, {"breaking: 6 kA", "breaking: 1e308 A"}, {"residual: 30 mA", "residual: 1e308 A"},
		{"residual: 30 mA", "residual: 1e-300 A"}, {"height: 299 mm", "height: 900 km"}, {"height: 298 mm", "height: 900 km"},
		{"name: Odd lamp", `name: "Odd\nStop"`}, {"name: Odd device", `name: "Odd\e[31m"`}, {"name: Odd box", "name: " + strings.Repeat("W", 201)},
		{"key: gear", `key: "ge\tar"`}, {"name: Odd gear", "name: \"\u202eddO\""},
	} {
		if !strings.Contains(hostile, c[0]) {
			t.Fatalf("%q is not in the scheme", c[0])
		}
		err := readHostile(strings.Replace(hostile, c[0], c[1], 1))
		if err == nil || !strings.HasPrefix(err.Error(), "hostile.yaml:") || !strings.Contains(err.Error(), "found ") {
			t.Errorf("%s: error %v, want one at its line", c[1], err)
		}
	}
}

// Tables of one's own are held to the same: nothing beyond what can be.
func TestAbsurdRulesAreRefused(t *testing.T) {
	data, err := assets.FS.ReadFile("rules/uk-18.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	at := strings.Index(text, "value: 230 V")
	if at < 0 {
		t.Fatal("the rule set has no voltage of 230 V")
	}
	_, err = ReadRules("own.yaml", []byte(text[:at]+"value: 1e300 V"+text[at+len("value: 230 V"):]), assets.FS)
	if err == nil || !strings.Contains(err.Error(), `found "1e300 V"`) {
		t.Errorf("error %v", err)
	}
}

// An entity whose id is an empty text was once dropped without a word.
func TestEmptyIDIsTold(t *testing.T) {
	err := readHostile("duskwire: 1\nrules: uk-18\nzones:\n  - {id: Z1}\n  - {id: \"\", name: Back}\n")
	if want := `hostile.yaml:5: zone 2 of the list: id: found "", expected an id`; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
}

// A message is one line of a length that can be read, whatever the file holds.
func TestMessagesStayShort(t *testing.T) {
	long := strings.Repeat("w", 100000)
	for name, text := range map[string]string{
		"field": "duskwire: 1\nrules: uk-18\n" + long[:900] + ": 1\n",
		"tag":   "duskwire: 1\nrules: uk-18\nzones:\n  - {id: Z1, tag: " + long + "}\n",
		"ref":   "duskwire: 1\nrules: uk-18\nruns:\n  - {id: R1, from: {on: " + long + "}, to: {at: [0 m, 0 m]}, legs: [{support: buried}]}\n",
		"huge":  "duskwire: 1\nrules: uk-18\nsupplies:\n  - {id: SP1, at: [0 m, 0 m], kind: spur, nominal: 1e308 V}\n",
		"tiny":  "duskwire: 1\nrules: uk-18\nsupplies:\n  - {id: SP1, at: [0 m, 0 m], kind: spur, nominal: 1e-300 V}\n",
		"turn":  "duskwire: 1\nrules: uk-18\nzones:\n  - {id: Z1, tag: \"\u202eevil\u2028x\", number: -1}\n",
	} {
		err := readHostile(text)
		if err == nil {
			t.Errorf("%s: no error", name)
			continue
		}
		if s := err.Error(); utf8.RuneCountInString(s) > 600 || strings.ContainsAny(s, "\n\u2028\u202e") {
			t.Errorf("%s: message of %d letters: %.200s", name, utf8.RuneCountInString(s), s)
		}
	}
}

// The word that was found is no hint.
func TestNoHintOfTheSameWord(t *testing.T) {
	err := readHostile("duskwire: 1\nrules: uk-18\nboxes:\n  - {id: B1, at: [0 m, 0 m], stock: x}\n" +
		"runs:\n  - {id: R1, from: {on: B1}, to: {on: B1}, legs: [{support: buried}]}\nstock:\n  boxes:\n    - {key: x, name: x, ip: IP66, entries: 4, source: x}\n")
	if err == nil || strings.Contains(err.Error(), "did you mean") {
		t.Errorf("error %v", err)
	}
}

// Thousands of wrong words: the first is told, the rest not compared with
// every right one. It took minutes.
func TestManyWrongWords(t *testing.T) {
	var b strings.Builder
	b.WriteString("duskwire: 1\nrules: uk-18\nzones:\n")
	for i := range 5000 {
		fmt.Fprintf(&b, "  - {id: Y%d}\n", i)
	}
	b.WriteString("lamps:\n")
	for i := range 30000 {
		fmt.Fprintf(&b, "  - {id: L%d, at: [0 m, 0 m], zone: Z%d, stock: odd}\n", i, i)
	}
	b.WriteString(hostile[strings.Index(hostile, "stock:\n"):])
	done := make(chan error, 1)
	go func() { done <- readHostile(b.String()) }()
	select {
	case err := <-done:
		if err == nil || !strings.Contains(err.Error(), "lamp L0: zone") {
			t.Errorf("error %v", err)
		}
	case <-time.After(time.Minute):
		t.Fatal("still reading after a minute")
	}
}

// A scheme file given as a stock book is told by its first wrong field.
func TestSchemeAsStockBook(t *testing.T) {
	_, err := ReadStock("scheme.yaml", []byte("lamps:\n  - {id: L1}\n  - {id: L2}\n"), assets.FS)
	var e *Error
	if !errors.As(err, &e) || e.Line != 2 {
		t.Errorf("error %v, want one at line 2", err)
	}
}

// WriteFile follows a link, keeps the permissions, leaves nothing beside and
// makes no version before.
func TestWriteFile(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.png"), filepath.Join(dir, "link.png")
	if err := os.WriteFile(real, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("real.png", link); err != nil {
		t.Skip("no links here")
	}
	if err := WriteFile(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(real)
	if data, _ := os.ReadFile(real); err != nil || string(data) != "new" || info.Mode().Perm() != 0o600 {
		t.Errorf("the file behind the link: %q %v %v", data, info.Mode(), err)
	}
	if names, _ := os.ReadDir(dir); len(names) != 2 {
		t.Errorf("%d names in the folder, want 2", len(names))
	}
	if err := WriteFile(dir, []byte("x")); err == nil || !strings.HasPrefix(err.Error(), "cannot write ") {
		t.Errorf("writing over a folder: %v", err)
	}
}

// A list that is too long is refused by its length, at the line where it is too
// long, before any of it is read: no million rows are looked at first.
func TestLongListsAreRefused(t *testing.T) {
	const head = "duskwire: 1\nrules: uk-18\n"
	for _, c := range []struct{ data, says string }{
		{head + "tests:\n" + strings.Repeat("  - {}\n", 201), "hostile.yaml:204: tests[201]: found 201 visits, expected at most 200"},
		{head + "tests:\n  - on: a\n    readings:\n" + strings.Repeat("      - {}\n", 100001), "found 100001 readings, expected at most 100000"},
		{head + "prices:\n" + strings.Repeat("  - {}\n", 2001), "hostile.yaml:2004: prices[2001]: found 2001 cables, expected at most 2000"},
	} {
		if err := readHostile(c.data); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, want it to say %q", err, c.says)
		}
	}
}
