package scene_test

import (
	"strings"
	"testing"

	"duskwire/layout/scene"
)

func alongInput(t *testing.T, look scene.Look) scene.Input {
	f := frameOf(t, example(t, "townhouse.yaml"))
	return scene.Input{Scheme: f.Scheme, Stock: f.Stock, Lengths: f.Circuits.Lengths, Circuits: f.Circuits, Results: f.Results, Look: look}
}

// TestAlongGolden keeps the runs of the example in both looks.
func TestAlongGolden(t *testing.T) {
	var out strings.Builder
	for _, look := range []scene.Look{scene.LookVolts, scene.LookAmperes} {
		in := alongInput(t, look)
		in.Show = map[scene.Layer]bool{scene.LayerRuns: true, scene.LayerLabels: true}
		out.WriteString(text(scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240)))
		for _, e := range scene.Legend(in) {
			if e.Group == scene.AlongGroup(look) {
				out.WriteString(e.Group + ": " + e.Words + "\n")
			}
		}
	}
	golden(t, "along.txt", out.String())
}

// TestAlongOff: without a look, or without results, nothing of it shows.
func TestAlongOff(t *testing.T) {
	in := alongInput(t, scene.LookPlan)
	v := scene.Fit(in.Scheme, 280, 240)
	with := text(scene.Build(in, v, 280, 240))
	in.Circuits, in.Results = nil, nil
	if text(scene.Build(in, v, 280, 240)) != with {
		t.Error("results change the plain plan")
	}
	in.Look = scene.LookVolts
	if got := text(scene.Build(in, v, 280, 240)); !strings.Contains(got, "no reading") {
		t.Error("runs without a result do not say so")
	}
}

// TestAlongContrast: every class has 3:1 on its paper (WCAG 2.2, 1.4.11), and
// each is further from the paper than the one before, so that they keep their
// order for the colour-blind and in grey.
func TestAlongContrast(t *testing.T) {
	for name, pal := range map[string]*scene.Palette{"light": scene.Light(), "dark": scene.Dark()} {
		in := alongInput(t, scene.LookAmperes)
		in.Palette = pal
		last, width := 0.0, 0.0
		for _, e := range scene.Legend(in) {
			if e.Group != scene.AlongGroup(scene.LookAmperes) {
				continue
			}
			st := e.Sample[0].Style
			c := contrast(st.Stroke, pal.Paper)
			if c < 3 || c <= last || st.Width <= width {
				t.Errorf("%s, %s: contrast %.2f after %.2f, width %.2f after %.2f", name, e.Words, c, last, st.Width, width)
			}
			last, width = c, st.Width
		}
		if last == 0 {
			t.Error("no classes in the legend")
		}
	}
}
