package scene_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// pool is a lamp of 1,600 cd straight down 4 m up over the middle of 10 m of
// ground: E = I·h/(h²+r²)^1.5, so that 50 lx are at r² = (1600·4/50)^(2/3) - 16,
// by the cosine law.
func pool() (light.Grid, []light.Contour) {
	g := light.Grid{Step: 0.1, W: 100, H: 100}
	values := make([]float64, g.W*g.H)
	for y := range g.H {
		for x := range g.W {
			p := g.Middle(x, y)
			values[y*g.W+x] = 1600 * 4 / math.Pow(16+(p.X-5)*(p.X-5)+(p.Y-5)*(p.Y-5), 1.5)
		}
	}
	var lines []light.Contour
	for _, level := range light.Levels {
		lines = append(lines, light.Contours(g, values, level)...)
	}
	return g, lines
}

// TestLuxList holds the display list of contours against its master: which lines
// are drawn, how, where their figures stand.
func TestLuxList(t *testing.T) {
	g, lines := pool()
	l := scene.Lux(scene.LuxInput{Grid: g, Lines: lines}, scene.View{Denominator: 50, Origin: geom.Pt(0, 10)}, 200, 200)
	var b strings.Builder
	for _, it := range l.Items {
		if it.Layer != scene.LayerLux {
			t.Errorf("%v is on the layer %s", it.Kind, it.Layer)
		}
		p := it.Points[0]
		if it.Kind == scene.Text {
			fmt.Fprintf(&b, "text %s at %.1f,%.1f turned %.0f halo %v\n", it.Text, p.X, p.Y, it.Turn+0, it.Halo)
			continue
		}
		// The radius about the lamp, in metres of the plan.
		least, most := math.Inf(1), 0.0
		for _, q := range it.Points {
			r := math.Hypot(q.X-100, q.Y-100) * 50 / 1000
			least, most = math.Min(least, r), math.Max(most, r)
		}
		fmt.Fprintf(&b, "line %s %d corners, %.2f to %.2f m off, %.2f mm, dash %v\n", it.Entity, len(it.Points), least, most, it.Style.Width, it.Style.Dash)
	}
	want := math.Sqrt(math.Pow(1600*4/50.0, 2.0/3) - 16)
	if s := fmt.Sprintf("%.2f", want); !strings.Contains(b.String(), "line 50 lx") || !strings.Contains(b.String(), s) {
		t.Errorf("no line of 50 lx %s m from the foot of the lamp", s)
	}
	master := filepath.Join("testdata", "lux.txt")
	if *update {
		if err := os.WriteFile(master, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	was, err := os.ReadFile(master)
	if err != nil || string(was) != b.String() {
		t.Errorf("the list differs from %s (%v):\n%s", master, err, b.String())
	}
}

// TestLuxFiguresApart: no two figures overlap, however many lamps there are.
func TestLuxFiguresApart(t *testing.T) {
	g, lines := pool()
	var all []light.Contour
	for k := range 4 {
		for _, c := range lines {
			moved := c
			moved.Line = nil
			for _, s := range c.Line {
				moved.Line = append(moved.Line, light.Spot{X: s.X + float64(k)*0.7, Y: s.Y})
			}
			all = append(all, moved)
		}
	}
	l := scene.Lux(scene.LuxInput{Grid: g, Lines: all}, scene.View{Denominator: 100, Origin: geom.Pt(0, 10)}, 120, 100)
	var at []scene.Item
	for _, it := range l.Items {
		if it.Kind == scene.Text {
			at = append(at, it)
		}
	}
	if len(at) < 8 {
		t.Fatalf("%d figures", len(at))
	}
	for i := range at {
		for k := range at[:i] {
			if math.Hypot(at[i].Points[0].X-at[k].Points[0].X, at[i].Points[0].Y-at[k].Points[0].Y) < 1.8 {
				t.Errorf("figures %s and %s stand at the same place", at[i].Text, at[k].Text)
			}
		}
	}
}
