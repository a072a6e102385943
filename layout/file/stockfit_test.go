package file

import (
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

const fitted = `
lamps:
  - {key: own-lamp, name: Own lamp, kind: pillar, current: AC, voltage: 230 V, law: constant power, power: 7 W, power_factor: 0.9, class: I, ip: IP65,
     leakage: 0.3 mA, inrush: 4 A, inrush_time: 0.15 ms, dimmable: true, lampholder: true, metal: false, flux: 400 lm, beam: 20 deg, beam_across: 60 deg, peak: 1.5 kcd, lamp_flux: 520 lm, source: ours}
sources:
  - {key: own-source, name: Own source, input: 230 V, output: 12 V, current: DC, rated: 30 VA, regulated: true, efficiency: 86 %, power_factor: 0.6,
     class: II, ip: IP67, selv: true, inrush: 20 A, longest_lead: 8 m, leakage: 0.4 mA, dimmable: false, source: ours}
gear:
  - {key: own-gear, name: Own gear, kind: dimmer, rating: 1 A, led_watts: 80 W, led_lamps: 12, dim_min: 4 W, dim_max: 80 W, standby: 0.3 W,
     threshold: 15 lx, metal: true, switching: true, ip: IP20, source: ours}
  - {key: own-isolator, name: Own isolator, kind: isolator, ip: IP65, source: ours}
  - {key: own-cell, name: Own cell, kind: photocell, ip: IP54, source: ours}
  - {key: own-sensor, name: Own sensor, kind: sensor, range: 9 m, sector: 140 deg, ip: IP54, source: ours}
`

// Every field of the fittings is read, and what is left out is unknown.
func TestReadFittings(t *testing.T) {
	s, err := ReadStock("own.yaml", []byte(fitted), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	if l := s.Lamps[0]; l.Leakage != 0.0003 || l.Inrush != 4 || l.InrushTime != 0.00015 || l.Dimmable != network.Yes || l.Lampholder != network.Yes || l.Metal != network.No {
		t.Errorf("lamp %+v", l)
	}
	if l := s.Lamps[0]; l.Flux != 400 || l.Beam != 20 || l.Across != 60 || l.Peak != 1500 || l.LampFlux != 520 {
		t.Errorf("light of the lamp %+v", l)
	}
	if c := s.Sources[0]; c.Leakage != 0.0004 || c.Converter.Inrush != 20 || c.Converter.Longest != 8 || c.Dimmable != network.No {
		t.Errorf("source %+v", c)
	}
	want := network.Gear{Kind: network.Dimmer, Rating: q.Some(q.Ampere(1)), LEDWatts: q.Some(q.Watt(80)), LEDLamps: q.Some(q.Count(12)),
		DimMin: q.Some(q.Watt(4)), DimMax: q.Some(q.Watt(80)), Standby: q.Some(q.Watt(0.3)), Threshold: q.Some(q.Lux(15)), Metal: true, Switching: true}
	if s.Gear[0].Control != want {
		t.Errorf("gear %+v, want %+v", s.Gear[0].Control, want)
	}
	if g := s.Gear[1].Control; !g.Switching || g.Rating.Known {
		t.Errorf("an isolator isolates and its rating is not known: %+v", g)
	}
	if g := s.Gear[2].Control; g != (network.Gear{Kind: network.Photocell}) {
		t.Errorf("nothing is known of the cell but its kind: %+v", g)
	}
	if g := s.Gear[3].Control; g != (network.Gear{Kind: network.Sensor, Range: 9, Sector: 140}) {
		t.Errorf("sensor %+v", g)
	}
}

// Absurd values are refused with their range.
func TestFittingsRefused(t *testing.T) {
	for _, c := range []struct{ old, bad, want string }{
		{"inrush: 4 A", "inrush: 0 A", "a value from 0.001 A to 10000 A"},
		{"inrush_time: 0.15 ms", "inrush_time: 5 s", "a value from 0.000001 s to 1 s"},
		{"peak: 1.5 kcd", "peak: 0 cd", "a value from 0.001 cd to 100000000 cd"},
		{"peak: 1.5 kcd", "peak: 900 lm", "luminous intensity"},
		{"beam_across: 60 deg", "beam_across: 0.5 deg", "a value from 1 deg to 169.9 deg"},
		{"beam_across: 60 deg", "beam_across: 60", "angle"},
		{"lamp_flux: 520 lm", "lamp_flux: 0 lm", "a value from 0.001 lm to 10000000 lm"},
		{"beam: 20 deg, ", "", "a beam from 1 deg to below 170 deg beside it"},
		{"beam: 20 deg", "beam: 360 deg", "a beam from 1 deg to below 170 deg beside it"},
		{"dimmable: true", "dimmable: maybe", "true or false"},
		{"leakage: 0.4 mA", "leakage: -1 mA", "a value from 0 A to 10 A"},
		{"led_watts: 80 W", "led_watts: 0 W", "a value from 0.1 W to 100000 W"},
		{"range: 9 m", "range: 0 m", "a value from 0.1 m to 100 m"},
		{"sector: 140 deg", "sector: 400 deg", "a value from 1 deg to 360 deg"},
		{"longest_lead: 8 m", "longest_lead: -1 m", "a value from 0.01 m to 10000 m"},
		{"led_lamps: 12", "led_lamps: 1.5", "whole number"},
		{"dim_max: 80 W", "dim_max: 3 W", "not below the least load"},
		{"threshold: 15 lx", "threshold: 15 W", "illuminance"},
		{"rating: 1 A", "rating: 1e9 A", "a value from 0.01 A to 10000 A"},
		{"metal: true", "metal: yes", "true or false"},
	} {
		if !strings.Contains(fitted, c.old) {
			t.Fatalf("%s is not in the file", c.old)
		}
		_, err := ReadStock("own.yaml", []byte(strings.Replace(fitted, c.old, c.bad, 1)), assets.FS)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.bad, err, c.want)
		}
	}
}

// What is shipped says its leakage and inrush wherever the mains feeds it.
func TestShippedFittingsAreKnown(t *testing.T) {
	s := shippedStock(t)
	for _, l := range s.Lamps {
		if l.Load.Nominal == 230 && (l.Leakage <= 0 || l.Inrush <= 0 || l.Lampholder == network.Unsaid) {
			t.Errorf("%s: leakage %v, inrush %v, lampholder %q", l.Key, l.Leakage, l.Inrush, l.Lampholder)
		}
	}
	for _, c := range s.Sources {
		if c.Leakage <= 0 || c.Converter.Inrush <= 0 {
			t.Errorf("%s: leakage %v, inrush %v", c.Key, c.Leakage, c.Converter.Inrush)
		}
	}
	for _, g := range s.Gear {
		if g.Control.Controls() && !g.Control.Rating.Known {
			t.Errorf("%s: no rating", g.Key)
		}
	}
}
