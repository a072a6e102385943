package scene_test

import (
	"math"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// TestNameDodgesTree: the name of a lawn stands clear of the circle of its tree
// where the lawn has room beside it, and within it where it has none.
func TestNameDodgesTree(t *testing.T) {
	const scale = 50.0
	lawn := &doc.Area{ID: "A1", Kind: "lawn", Name: "Lawn", Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(8, 0), geom.Pt(8, 8), geom.Pt(0, 8)}}
	for _, c := range []struct {
		name  string
		x     float64 // of the tree, metres
		crown geom.Length
		clear bool
	}{
		{"circle through the middle", 2.5, geom.Metres(1.5), true},
		{"middle within the circle", 4.8, geom.Metres(2), true},
		{"circle about all of the lawn", 4, geom.Metres(7), false},
	} {
		tree := &doc.Mark{ID: "M1", Kind: "tree", Place: doc.Place{At: geom.Pt(c.x, 4)}, Radius: geom.Metres(0.1), Crown: c.crown}
		s := &doc.Scheme{Areas: doc.NewSet(lawn), Marks: doc.NewSet(tree)}
		l := scene.Build(scene.Input{Scheme: s}, scene.Centred(s, scale, 400, 400), 400, 400)
		found := false
		for i := range l.Items {
			it := &l.Items[i]
			if it.Kind != scene.Text || it.Text != "Lawn" {
				continue
			}
			found = true
			at, p := l.View.Paper(tree.Place.At), scene.Start(it)
			x := at.X - min(max(at.X, p.X), p.X+scene.TextWidth(it.Text, it.Size, it.Bold))
			y := at.Y - min(max(at.Y, p.Y-it.Size), p.Y)
			if away := math.Hypot(x, y) - c.crown.Millimetres()/scale; away > 0 != c.clear {
				t.Errorf("%s: the name is %.2f mm from the circle, clear expected: %v", c.name, away, c.clear)
			}
		}
		if !found {
			t.Errorf("%s: the lawn has no name", c.name)
		}
	}
}
