package scene_test

import (
	"math"
	"testing"

	"duskwire/layout/file"
	"duskwire/layout/scene"
)

// TestDigVoltagesWithoutColour: in a print without colours the voltages of runs are
// told apart too. In the example R13 to R20 lie behind the 12 V driver; each of
// their legs that is long enough has strokes across it, and no mains run has one.
func TestDigVoltagesWithoutColour(t *testing.T) {
	s, stock, _, err := file.Open("../../assets/examples/townhouse.yaml", "", "")
	if err != nil {
		t.Fatal(err)
	}
	in := scene.Input{Scheme: s, Stock: &stock, Look: scene.LookDig}
	in.Circuits = derived(t, s, &stock)
	l := scene.Build(in, scene.Fit(s, 260, 300), 260, 300)
	strokes := map[string]int{}
	for _, it := range l.Items {
		if it.Layer != scene.LayerRuns || it.Kind != scene.Segments {
			continue
		}
		for i := 0; i+1 < len(it.Points); i += 2 {
			a, b := it.Points[i], it.Points[i+1]
			if d := math.Hypot(b.X-a.X, b.Y-a.Y); math.Abs(d-2*math.Hypot(0.6, 1.2)) < 1e-9 {
				strokes[it.Entity]++
			}
		}
	}
	for i, r := range s.Runs.All() {
		if n := strokes[string(r.ID)]; (n > 0) != (i >= 12) {
			t.Errorf("%s has %d strokes across", r.Tag, n)
		}
	}
	for _, e := range scene.Legend(in) {
		if e.Words == "Strokes across, this colour: extra-low voltage (ELV)" && len(e.Sample) == 2 {
			return
		}
	}
	t.Error("the legend does not explain the strokes")
}
