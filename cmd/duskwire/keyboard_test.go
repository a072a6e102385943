//go:build e2e

package main_test

import (
	"path/filepath"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/geom"
)

// TestKeyboardOnly goes from the start to a saved file without a pointer: not
// one event of it is sent.
func TestKeyboardOnly(t *testing.T) {
	s := newScreen(t, 1280, 800)
	p := s.begin("1", nil)
	p.await("the example", func(f *frame) bool { return f.Totals.Lamps > 0 })
	p.key("Return") // the cautions are read

	p.key("ctrl+n")
	p.typed("Kitchen garden")
	p.key("Tab", "Tab", "Right")                   // country: England
	p.key("Tab", "Right")                          // supply: its own way
	p.key("Tab", "space", "Down", "Down", "space") // earthing, by its list
	p.picture("keyboard-new.png")
	p.key("Tab")
	p.typed("0.35")
	p.key("Tab", "Tab", "ctrl+a")
	p.typed("1:100")
	p.key("Return")
	p.await("an empty plan", func(f *frame) bool { return f.Totals.Lamps == 0 && len(f.Places) == 0 })

	p.typed("=1,2") // the supply tool is in hand
	p.key("Return")
	p.stands("SP1", 1, 2)
	p.key("l")
	p.typed("=3,2")
	p.key("Return")
	p.stands("L1", 3, 2)
	p.key("Right", "Right", "Up", "space") // the arrows move the pointer by the grid
	f := p.await("L2 on the plan", func(f *frame) bool { return f.Totals.Lamps == 2 && !f.Preview })
	x, y, _ := f.place("L2")
	p.key("Up", "Up", "Up", "Up", "space")
	f = p.await("L3 on the plan", func(f *frame) bool { return f.Totals.Lamps == 3 && !f.Preview })
	if x3, y3, _ := f.place("L3"); !near(x3, x) || y3-y < 0.099 {
		t.Errorf("L3 stands at (%g, %g) m, four steps up from (%g, %g) m were asked for", x3, y3, x, y)
	}
	p.key("Escape", "Escape")
	if before := *p.await("a loose L1", func(f *frame) bool { return f.has("CIR-01", "L1") }); !before.Unsaved {
		t.Error("drawn on, yet not marked as unsaved")
	}

	p.key("r") // from SP1 by a typed bend to L1
	p.typed("=1,2")
	p.key("Return")
	p.typed("0.5m<0")
	p.key("Return")
	p.typed("=3,2")
	p.key("Return")
	p.runs(1)
	p.key("Escape", "Escape")
	p.await("no loose L1", func(f *frame) bool { return !f.has("CIR-01", "L1") })

	p.key("bracketleft", "bracketright", "Escape") // what is selected can be walked through
	p.key("ctrl+s")
	p.typed("kitchen.yaml")
	p.picture("keyboard-save.png")
	p.key("Return")
	saved := p.await("the file to be saved", func(f *frame) bool { return !f.Unsaved && filepath.Base(f.Path) == "kitchen.yaml" })
	compare(t, saved, saved.Path)
	p.quit()

	got := read(t, saved.Path)
	if got.Title != "Kitchen garden" || got.Country != "England" || got.Plan.Scale != 100 {
		t.Errorf("the file says %q in %q at 1:%g, answered Kitchen garden in England at 1:100", got.Title, got.Country, float64(got.Plan.Scale))
	}
	supply := got.Supplies.All()[0]
	if supply.Spur || supply.Earthing == network.EarthingUnknown || !supply.Ze.Known || supply.Ze.Value != 0.35 {
		t.Errorf("the supply point is %+v, answered its own way, an earthing and 0.35 ohm", supply)
	}
	run := got.Runs.All()[0]
	bend := geom.Point{X: geom.Metres(1), Y: geom.Metres(2.5)}
	if l1 := got.Lamps.All()[0]; run.From.On != supply.ID || run.To.On != l1.ID || len(run.Legs) != 2 || run.Legs[0].To != bend {
		t.Errorf("the run is %+v, expected SP1 over %v to L1", run, bend)
	}
}
