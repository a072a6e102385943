package file

import (
	"reflect"
	"strings"
	"testing"

	"duskwire/layout/doc"
)

const running = `duskwire: 1
rules: uk-18
running:
  latitude: 51.5 deg
  longitude: 1.25 W
  tariff: 0.2735
  ahead: 0 h
  summer: european
  off: ["22:30", midnight, dawn]
price_list:
  currency: pounds
  hours: 16 to 24 h
  items:
    - {group: lamp, item: spike-5w-12, low: 18.50, high: 24}
    - {group: labour, item: hand dig, low: 14}
`

// TestRunning: what is read is what was written, unknown stays unknown, and
// writing keeps it.
func TestRunning(t *testing.T) {
	s, err := ReadScheme("p", []byte(running), *priceStock())
	if err != nil {
		t.Fatal(err)
	}
	v := s.Running
	if v.Latitude.Value != 51.5 || v.Longitude.Value != -1.25 || v.Tariff.Value != 27.35 || !v.Ahead.Known || v.Summer != "european" ||
		v.Off != [3]doc.Off{{Set: true, Minute: 1350}, {Set: true}, {Set: true, Dawn: true}} {
		t.Errorf("read %+v", v)
	}
	if b, ok := s.List.Of("labour", "hand dig"); !ok || b != (doc.Band{Low: 1400, High: 1400}) || s.List.Hours != (doc.Span{Low: 16, High: 24}) {
		t.Errorf("read %+v", s.List)
	}
	text, err := WriteScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	again, err := ReadScheme("p", text, *priceStock())
	if err != nil || again.Running != s.Running || !reflect.DeepEqual(again.List, s.List) {
		t.Errorf("written\n%s\nread again %+v, %v", text, again, err)
	}
	bare, err := ReadScheme("p", []byte("duskwire: 1\nrules: uk-18\n"), *priceStock())
	if err != nil || bare.Running != (doc.Running{}) || bare.Running.Tariff.Known {
		t.Errorf("nothing said gives %+v, %v", bare.Running, err)
	}
}

// TestRunningRefused: every mistake is told with its line.
func TestRunningRefused(t *testing.T) {
	for _, c := range []struct{ was, is, says string }{
		{"51.5 deg", "91 deg", "p:4: running: latitude:"},
		{"1.25 W", "1.25 N", "p:5: running: longitude:"},
		{"0.2735", "0", "the price of one kWh"},
		{"0.2735", "27.35p", "p:6: running: tariff:"},
		{"0 h", "15 h", "hours from -14 to 14"},
		{"european", "winter", "one of none, european"},
		{`"22:30"`, `"25:00"`, "a time such as 22:00, or dawn"},
		{"dawn]", "dawn, dawn]", "at most 3"},
		{"tariff", "tarif", `did you mean "tariff"?`},
		{"16 to 24 h", "24 to 16 h", "hours such as 16 to 24"},
		{"18.50", "25", "expected at least 25.00"},
		{"hand dig", "sing", "one of dig, hand dig, hour"},
		{"spike-5w-12", "spike-5w", `(did you mean "spike-5w-12"?)`},
		{"group: lamp", "group: lump", `(did you mean "lamp"?)`},
		{"{group: labour, item: hand dig, low: 14}", "{group: lamp, item: spike-5w-12, low: 14}", "every thing once"},
		{", low: 14", "", "price_list item 2: low: found nothing"},
	} {
		text := strings.Replace(running, c.was, c.is, 1)
		if _, err := ReadScheme("p", []byte(text), *priceStock()); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q for %q: error %v, want it to say %q", c.is, c.was, err, c.says)
		}
	}
}
