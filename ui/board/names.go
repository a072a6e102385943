package board

import (
	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// fewNames is for how many selected things names are lifted over their marks: among
// more nobody reads them.
const fewNames = 12

// names shows the names of selected points over the marks of the selection, where
// the base has them.
func (o *over) names(ids []doc.ID) {
	b := o.board
	s := &b.base
	if len(ids) == 0 || len(ids) > fewNames || s.list == nil || s.stale || s.ahead.soft || s.ahead.anew || b.convoy.on || b.shows == scene.LookDusk {
		return
	}
	home := s.raster.Position()
	for _, t := range s.letters.all(s.list) {
		id := doc.ID(t.Entity)
		at, upright := t.Upright()
		if !upright || !contains(ids, id) || !doc.KindOf(b.frame.Scheme, id).Joinable() {
			continue
		}
		lo, hi := t.Bounds()
		from := home.AddXY(float32(lo.X*unitsPerMM), float32(lo.Y*unitsPerMM))
		o.pool.plate(from.SubtractXY(1, 1), fyne.NewSize(float32((hi.X-lo.X)*unitsPerMM)+2, float32((hi.Y-lo.Y)*unitsPerMM)+2), o.paper, nil, 0)
		size, style := float32(scene.FontSize(t.Size, t.Bold)*unitsPerMM), fyne.TextStyle{Bold: t.Bold}
		_, base := fyne.CurrentApp().Driver().RenderedTextSize(t.Text, size, style, nil)
		o.pool.styled(t.Text, home.AddXY(float32(at.X*unitsPerMM), float32(at.Y*unitsPerMM)-base), nrgba(t.Fill), size, style)
	}
}
