package packs

import (
	"math"

	"duskwire/layout/geom"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// clientPlan is the plan to scale with a check dimension.
func (b *book) clientPlan(s output.Sheet) (*scene.List, error) {
	s.Plan = b.planInput()
	l, err := output.Page(s)
	if err != nil {
		return nil, err
	}
	shown := scene.Extent(b.scheme)
	if !s.Window.Empty() {
		shown = s.Window
	}
	b.checkDimension(l, shown)
	return l, nil
}

// checkDimension draws a line of whole metres along the foot of what is shown, so
// that a print that was scaled shows.
func (b *book) checkDimension(l *scene.List, extent geom.Rect) {
	k := 1000 / l.View.Denominator // mm on paper a metre
	if extent.Empty() {
		return
	}
	m := math.Floor(extent.Width().Metres())
	for _, step := range []float64{20, 10, 5, 2, 1} {
		if m >= step {
			m = step
			break
		}
	}
	if m < 1 {
		return
	}
	at := l.View.Paper(geom.Point{X: extent.Min.X, Y: extent.Min.Y})
	x0, x1, y := at.X, at.X+m*k, at.Y+6
	ink := scene.Style{Stroke: b.pal.Ink, Width: 0.35}
	l.Items = append(l.Items,
		scene.Item{Kind: scene.Polyline, Layer: scene.LayerFrame, Points: points(x0, y, x1, y), Style: ink},
		scene.Item{Kind: scene.Segments, Layer: scene.LayerFrame, Points: points(x0-1, y+1, x0+1, y-1, x1-1, y+1, x1+1, y-1), Style: ink},
		scene.Item{Kind: scene.Text, Layer: scene.LayerFrame, Points: points((x0+x1)/2, y-0.9), Anchor: scene.Middle, Size: capSmall, Halo: true,
			Text: "Check: " + digits(m, 0) + " m, " + digits(m*k, 1) + " mm on this sheet", Style: scene.Style{Fill: b.pal.Ink}})
}
