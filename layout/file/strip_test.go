package file

import (
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/network"
)

const goodLight = `lamps:
  - {key: own-strip, name: Own strip, kind: strip, current: DC, voltage: 24 V, law: resistor strip, forward: 18.6 V, power: 14.4 W, length: 1 m, tracks: 80 mohm/m, power_factor: 1, class: III, ip: IP67, source: maker's sheet}
  - {key: own-wide, name: Own spot, kind: spike, current: any, voltage: 12 V, law: constant power, dropout: 8 V, power: 5 W, power_factor: 1, class: III, ip: IP65, source: maker's sheet}
sources:
  - {key: own-el, name: Own source, input: 230 V, output: 12 V, current: AC, rated: 60 VA, regulated: false, kind: electronic, minimum_load: 20 W, rise: 3 %, inrush: 12 A, inrush_time: 0.2 ms, efficiency: 92 %, power_factor: 0.95, class: II, ip: IP20, selv: true, source: maker's sheet}
`

// What a strip, a driver and an electronic source have beyond others is read.
func TestReadLightAndSource(t *testing.T) {
	s, err := ReadStock("own.yaml", []byte(goodLight), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	strip, _ := s.Lamp("own-strip")
	if l := strip.Load; l.Law != network.ResistorStrip || l.Forward != 18.6 || strip.Length != 1 || strip.Tracks != 0.08 {
		t.Errorf("strip %+v", strip)
	}
	if wide, _ := s.Lamp("own-wide"); wide.Load.Dropout != 8 {
		t.Errorf("driver %+v", wide)
	}
	el, _ := s.Converter("own-el")
	if c := el.Converter; c.Kind() != network.Electronic || c.Inrush != 12 || c.InrushTime != 0.0002 || c.MinimumLoad != 20 {
		t.Errorf("source %+v", el)
	}
	for old, wrong := range map[string]struct{ text, want string }{
		"kind: electronic":    {"kind: regulated", `wound or electronic, as the field regulated says`},
		"regulated: false":    {"regulated: true", `regulated, as the field regulated says`},
		"inrush: 12 A":        {"inrush: 0 A", `inrush`},
		"inrush_time: 0.2 ms": {"inrush_time: 20 s", `inrush_time`},
	} {
		text := strings.Replace(goodLight, old, wrong.text, 1)
		_, err := ReadStock("own.yaml", []byte(text), assets.FS)
		checkLine(t, err, wrong.want)
	}
}

// Only a strip has a far end, and only a lamp.
func TestFarEnd(t *testing.T) {
	const text = `duskwire: 1
rules: uk-18
supplies:
  - {id: SP1, at: [0 m, 0 m], kind: own way, nominal: 230 V}
boxes:
  - {id: B1, at: [1 m, 0 m], stock: box-85}
runs:
  - id: R1
    from: {on: SP1}
    to: {on: B1, side: far end}
    legs:
      - {support: clipped}
`
	if _, err := ReadScheme("scheme.yaml", []byte(text), book()); err == nil || !strings.Contains(err.Error(), `run R1: to.side: found a side, expected none: "B1" is no source`) {
		t.Errorf("far end of a box: %v", err)
	}
}
