package layout_test

import (
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

const longStrip = `duskwire: 1
title: strip
rules: uk-18
plan: {scale: "1:50", grid: 250 mm, checked: true}
supplies:
  - {id: SP1, at: [0 m, 0 m], height: 450 mm, kind: own way, nominal: 230 V, earthing: TN-S, ze: 0.35 ohm, fault_current: 1050 A, upstream: b6-rcbo-30, indoor: {cable: te-2.5, length: 3 m, method: C}}
lamps:
  - {id: L1, at: [3 m, 0 m], length: 10 m, stock: strip-10w-m-24}
sources:
  - {id: S1, at: [2 m, 0 m], height: 1 m, stock: src-24dc-100}
runs:
  - {id: R1, cable: swa-3x1.5, from: {on: SP1}, to: {on: S1}, legs: [{support: clipped, height: 450 mm}]}
  - {id: R2, cable: elv-2x2.5, from: {on: S1}, to: {on: L1}, legs: [{support: clipped, height: 100 mm}]}
`

// TestStripFedAtBothEnds: a strip that loses too much along itself is cured by
// feeding its far end as well, in one step.
func TestStripFedAtBothEnds(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("strip", []byte(longStrip), stock, file.Keys(rules)...)
	if err != nil {
		t.Fatal(err)
	}
	d := layout.NewDesk(stock, rules, s, "")
	fd := findingOf(t, d.Frame(), "VD-02")
	c, at := cureLike(cures(d.Frame(), fd), "feed the far end of L1 from S1 as well")
	if at < 0 || !c.Holds || c.Operation == nil {
		t.Fatalf("got %+v, number %d", c, at)
	}
	commit(t, d, c.Operation)
	if left := finds(d.Frame(), "VD-02"); len(left) > 0 {
		t.Errorf("after %q: %v", c.Text, left)
	}
	added := d.Frame().Scheme.Runs.All()[2]
	if added.To.Side != doc.FarEnd || added.From.Side != doc.Secondary || added.Slack != 10 || added.Tag == "" {
		t.Errorf("the run that was added: %+v", added)
	}
	if !d.Undo() || d.Frame().Scheme != s {
		t.Errorf("%q is not one step", c.Text)
	}
}
