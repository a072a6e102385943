package scene_test

import (
	"math"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// measured is a terrace with one dimension of each kind: along a slanted edge,
// across, up the sheet drawn downwards, and one too short for its figure.
func measured() scene.Input {
	s := doc.New("uk-18")
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "paving", Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(5, 0), geom.Pt(4, 3), geom.Pt(0, 3)}})
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Place: doc.Place{At: geom.Pt(1.25, 1.5)}})
	corner := func(n int) doc.Anchor { return doc.Anchor{On: "A1", Corner: n} }
	s.Dimensions = doc.NewSet(
		&doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Aligned, From: corner(1), To: corner(2), Offset: -500 * geom.Millimetre},
		&doc.Dimension{ID: "D2", Tag: "D2", Kind: doc.Horizontal, From: corner(0), To: corner(1), Offset: -500 * geom.Millimetre},
		&doc.Dimension{ID: "D3", Tag: "D3", Kind: doc.Vertical, From: corner(3), To: corner(0), Offset: -500 * geom.Millimetre},
		&doc.Dimension{ID: "D4", Tag: "D4", Kind: doc.Horizontal, From: doc.Anchor{On: "L1"}, To: doc.Anchor{At: geom.Pt(1.5, 2)}},
	)
	return scene.Input{Scheme: s}
}

// TestDimensions compares the drawing with a golden, and checks what it says by
// the geometry: √(1² + 3²) = 3.162 m along the slant.
func TestDimensions(t *testing.T) {
	in := measured()
	l := scene.Build(in, scene.View{Denominator: 50, Origin: geom.Pt(-1, 4)}, 150, 100)
	golden(t, "dimensions.txt", text(l))
	read := map[string]string{}
	for _, it := range l.Items {
		if it.Layer != scene.LayerDimensions || it.Kind != scene.Text {
			continue
		}
		read[it.Entity] = it.Text
		if it.Turn <= -90 || it.Turn > 90 {
			t.Errorf("%s is lettered at %v°, to be read from above or from the left", it.Entity, it.Turn)
		}
		if !it.Halo {
			t.Errorf("%s has no halo", it.Entity)
		}
	}
	for id, want := range map[string]string{"D1": "3.162 m", "D2": "5.000 m", "D3": "3.000 m", "D4": "0.250 m"} {
		if read[id] != want {
			t.Errorf("%s reads %q, want %q", id, read[id], want)
		}
	}
}

// TestEndStrokes: the end strokes lie at 45° to their line, through its ends.
func TestEndStrokes(t *testing.T) {
	in := measured()
	l := scene.Build(in, scene.View{Denominator: 50, Origin: geom.Pt(-1, 4)}, 150, 100)
	lines := map[string][]scene.XY{}
	for _, it := range l.Items {
		if it.Layer != scene.LayerDimensions || it.Kind != scene.Segments {
			continue
		}
		first, ok := lines[it.Entity]
		if !ok {
			lines[it.Entity] = it.Points
			continue
		}
		for i := 0; i+1 < len(it.Points); i += 2 {
			a, b := it.Points[i], it.Points[i+1]
			mid := scene.XY{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
			line := math.Atan2(first[1].Y-first[0].Y, first[1].X-first[0].X)
			turn := math.Mod(math.Abs(math.Atan2(b.Y-a.Y, b.X-a.X)-line)*180/math.Pi, 180)
			if math.Abs(turn-45) > 0.01 && math.Abs(turn-135) > 0.01 {
				t.Errorf("%s: end stroke at %v° to its line", it.Entity, turn)
			}
			if i == 0 && math.Hypot(mid.X-first[0].X, mid.Y-first[0].Y) > 0.01 {
				t.Errorf("%s: end stroke at %v, line from %v", it.Entity, mid, first[0])
			}
		}
	}
}
