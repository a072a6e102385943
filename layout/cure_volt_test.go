package layout_test

import (
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/file"
)

const longBorder = `duskwire: 1
title: border
rules: uk-18
plan: {scale: "1:50", grid: 250 mm, checked: true}
supplies:
  - {id: SP1, at: [0 m, 0 m], height: 450 mm, kind: own way, nominal: 230 V, earthing: TN-S, ze: 0.35 ohm, fault_current: 1050 A, upstream: b6-rcbo-30, indoor: {cable: te-2.5, length: 3 m, method: C}}
lamps:
  - {id: L1, at: [10 m, 0 m], height: 100 mm, stock: LAMP}
  - {id: L2, at: [16 m, 0 m], height: 100 mm, stock: LAMP}
  - {id: L3, at: [22 m, 0 m], height: 100 mm, stock: LAMP}
  - {id: L4, at: [28 m, 0 m], height: 100 mm, stock: LAMP}
  - {id: L5, at: [34 m, 0 m], height: 100 mm, stock: LAMP}
  - {id: L6, at: [40 m, 0 m], height: 100 mm, stock: LAMP}
sources:
  - {id: S1, at: [2 m, 0 m], height: 1 m, stock: SOURCE}
runs:
  - {id: R1, cable: swa-3x1.5, from: {on: SP1}, to: {on: S1}, legs: [{support: clipped, height: 450 mm}]}
  - {id: R2, cable: elv-2x1.5, from: {on: S1}, to: {on: L1}, legs: [{support: clipped, height: 100 mm}]}
  - {id: R3, cable: elv-2x1.5, from: {on: L1}, to: {on: L2}, legs: [{support: clipped, height: 100 mm}]}
  - {id: R4, cable: elv-2x1.5, from: {on: L2}, to: {on: L3}, legs: [{support: clipped, height: 100 mm}]}
  - {id: R5, cable: elv-2x1.5, from: {on: L3}, to: {on: L4}, legs: [{support: clipped, height: 100 mm}]}
  - {id: R6, cable: elv-2x1.5, from: {on: L4}, to: {on: L5}, legs: [{support: clipped, height: 100 mm}]}
  - {id: R7, cable: elv-2x1.5, from: {on: L5}, to: {on: L6}, legs: [{support: clipped, height: 100 mm}]}
`

// TestShippedTwinsAt24: with nothing but the shipped stock book 24 V is tried, told
// with its figure, and applied as one step that reads that figure. At twice the volts
// a lamp of constant power takes half the current, so that the drop in per cent falls
// to about a quarter (derived, U = P/I and drop = I·R).
func TestShippedTwinsAt24(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ lamp, source, lampAfter, sourceAfter string }{
		{"spike-5w-12", "src-12dc-60", "spike-5w-24", "src-24dc-60"},
		{"spike-5w-wide", "src-12dc-60", "spike-5w-24", "src-24dc-60"},
		{"pond-6w-12", "src-12dc-100", "pond-6w-24", "src-24dc-100"},
		{"spike-5w-12", "src-12ac-60", "spike-5w-24", "src-24ac-60"},
		{"halogen-20w-12", "src-12ac-150", "halogen-20w-24", "src-24ac-150"},
	} {
		text := strings.NewReplacer("LAMP", row.lamp, "SOURCE", row.source).Replace(longBorder)
		s, err := file.ReadScheme("border", []byte(text), stock, file.Keys(rules)...)
		if err != nil {
			t.Fatal(err)
		}
		d := layout.NewDesk(stock, rules, s, "")
		before := point(t, d.Frame(), "L6").Voltage
		fd := findingOf(t, d.Frame(), "VD-02")
		c, at := cureLike(cures(d.Frame(), fd), "24 V instead of 12 V")
		if at < 0 || c.Operation == nil || c.Figure == "" {
			t.Errorf("%s on %s: got %+v, number %d", row.lamp, row.source, c, at)
			continue
		}
		commit(t, d, c.Operation)
		f := d.Frame()
		if volts := point(t, f, "L6").Voltage; volts < before+10 || labelOf(c.Figure) == "L6" && !strings.Contains(c.Figure, volts.String()) {
			t.Errorf("%s: promised %s, L6 reads %s", row.lamp, c.Figure, volts)
		}
		for _, l := range f.Scheme.Lamps.All() {
			if l.Stock != row.lampAfter {
				t.Errorf("%s became %s, want %s", row.lamp, l.Stock, row.lampAfter)
			}
		}
		if src := f.Scheme.Sources.All()[0].Stock; src != row.sourceAfter {
			t.Errorf("%s became %s, want %s", row.source, src, row.sourceAfter)
		}
		if !d.Undo() || d.Frame().Scheme != s {
			t.Errorf("%q is not one step", c.Text)
		}
	}
}
