package layout_test

import (
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

func stepsDesk(t *testing.T, s *doc.Scheme) *layout.Desk {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, "")
}

// ticks writes which steps a frame shows done: "x..x." for the first and fourth.
func ticks(f *layout.Frame) string {
	out := ""
	for _, s := range layout.FirstSteps(f) {
		if s.Done {
			out += "x"
		} else {
			out += "."
		}
	}
	return out
}

// TestFirstSteps draws a garden from an empty sheet and looks at the ticks after
// every operation; undoing takes them back.
func TestFirstSteps(t *testing.T) {
	d := stepsDesk(t, doc.New("uk-18"))
	set := tool.NewDefaults()
	supply := set.Supply
	supply.ID, supply.Tag, supply.Place.At = doc.NewID(), "SP1", geom.Pt(0, 0)
	lamp := &doc.Lamp{ID: doc.NewID(), Tag: "L1", Stock: set.Lamp, Place: doc.Place{At: geom.Pt(3, 0)}}
	run := &doc.Run{ID: doc.NewID(), Tag: "R1", Cable: set.Cable, From: doc.End{On: supply.ID}, To: doc.End{On: lamp.ID},
		Legs: []doc.Leg{{To: geom.Pt(3, 0), Support: set.Support, Depth: set.Depth}}}
	area := &doc.Area{ID: doc.NewID(), Tag: "A1", Kind: "lawn", Ring: []geom.Point{geom.Pt(0, 1), geom.Pt(4, 1), geom.Pt(4, 3)}}
	for _, c := range []struct {
		name string
		op   edit.Operation
		want string
	}{
		{"nothing", nil, "....."},
		{"a lamp without a supply", edit.Place{Entity: lamp}, "..x.."},
		{"the supply point", edit.Place{Entity: &supply}, "x.x.."},
		{"a lawn", edit.AddArea{Area: area}, "xxx.."},
		{"a run to the lamp; the survey is missing, so a Stop stands", edit.AddRun{Run: run}, "xxxx."},
	} {
		if c.op != nil {
			if err := d.Commit(c.op); err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
		}
		if got := ticks(d.Frame()); got != c.want {
			t.Errorf("%s: %s, expected %s", c.name, got, c.want)
		}
	}
	for d.Undo() {
	}
	if got := ticks(d.Frame()); got != "....." {
		t.Errorf("all undone: %s", got)
	}
}

// A picture is the plan once it has its scale; the words say what is next.
func TestFirstStepsWithAPicture(t *testing.T) {
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: "plan.png", Pixel: 0.01}
	step := layout.FirstSteps(stepsDesk(t, s).Frame())[1]
	if step.Done || !strings.Contains(step.Say, "Press U") {
		t.Errorf("without a scale: %+v", step)
	}
	scaled := *s
	scaled.Plan.Underlay.Known = doc.Measure{To: doc.Spot{X: 100}, Length: geom.Metre}
	if step := layout.FirstSteps(stepsDesk(t, &scaled).Frame())[1]; !step.Done {
		t.Errorf("with a scale: %+v", step)
	}
}

// The strip has room for so much: see longestSay of the window.
func TestFirstStepsAreShort(t *testing.T) {
	for _, s := range layout.FirstSteps(stepsDesk(t, doc.New("uk-18")).Frame()) {
		if n := len([]rune(s.Say)); n > 100 || s.Name == "" {
			t.Errorf("%s has %d letters, expected at most 100: %s", s.Name, n, s.Say)
		}
	}
}
