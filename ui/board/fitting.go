package board

import (
	"math"

	"fyne.io/fyne/v2"

	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// room is what a fitted view leaves free around the plan, in units: labels and marks
// keep their size however small the plan becomes.
type room struct{ left, right, above, below float64 }

// ample is the room of a large board, where it costs little: labels reach further left
// and right than above and below.
var ample = room{72, 72, 40, 40}

// Boards lower or narrower than this leave no more room than what is drawn needs: at
// 200 % the ample one would be a third of the board.
const measuredUnder = 480

// fittingIn returns the view that shows the whole rectangle with so much room around
// it; of a single point it keeps the scale.
func (v view) fittingIn(r geom.Rect, size fyne.Size, free room) view {
	w, h := float64(size.Width)-free.left-free.right, float64(size.Height)-free.above-free.below
	d := v.denominator()
	if w > 0 && h > 0 && (r.Width() > 0 || r.Height() > 0) {
		k := math.Max(float64(r.Width())/w, float64(r.Height())/h)
		d = view{k: k}.denominator()
	}
	out := viewAt(r.Centre(), math.Min(smallest, math.Max(largest, d)), size)
	return out.panned((free.left-free.right)/2, (free.above-free.below)/2)
}

// whole returns the view that shows a rectangle of everything as large as it fits: on a
// small board with just the room that labels and marks take there.
func (b *Board) whole(r geom.Rect) view {
	size := b.open()
	out := b.view.fitting(r, size)
	if min(size.Width, size.Height) >= measuredUnder || b.still == nil ||
		b.still.Scheme.Lamps.Len()+b.still.Scheme.Runs.Len() >= heavyFrom {
		return out
	}
	need, ok := b.needs(r, out, size)
	for range 4 { // another scale puts labels elsewhere
		next := b.view.fittingIn(r, size, need)
		now, seen := b.needs(r, next, size)
		if !ok || !seen || need.crowds(size) {
			return out
		}
		if now.within(need) {
			return next
		}
		need = need.and(now)
	}
	return out
}

// needs returns the room that what is drawn takes around a rectangle in a view.
func (b *Board) needs(r geom.Rect, at view, size fyne.Size) (room, bool) {
	const clear = 6
	from, wide := at.panned(margin, margin), size.AddWidthHeight(2*margin, 2*margin) // as it will be drawn
	it := b.base.sheet(from, wide)
	list := scene.Build(it.in, from.scene(), float64(wide.Width)/unitsPerMM, float64(wide.Height)/unitsPerMM)
	lo, hi, ok := list.Reach()
	a, c := from.at(geom.Point{X: r.Min.X, Y: r.Max.Y}), from.at(geom.Point{X: r.Max.X, Y: r.Min.Y})
	free := func(beyond float64) float64 { return math.Max(0, beyond) + clear }
	return room{
		left: free(float64(a.X) - lo.X*unitsPerMM), right: free(hi.X*unitsPerMM - float64(c.X)),
		above: free(float64(a.Y) - lo.Y*unitsPerMM), below: free(hi.Y*unitsPerMM - float64(c.Y)),
	}, ok
}

// crowds reports whether a room leaves less than a third of a board for the plan.
func (r room) crowds(size fyne.Size) bool {
	return 1.5*(r.left+r.right) > float64(size.Width) || 1.5*(r.above+r.below) > float64(size.Height)
}

// and returns the room that holds two.
func (r room) and(o room) room {
	return room{max(r.left, o.left), max(r.right, o.right), max(r.above, o.above), max(r.below, o.below)}
}

// within reports whether a room is no larger than another but for a little.
func (r room) within(o room) bool {
	const slack = 4
	return r.left <= o.left+slack && r.right <= o.right+slack && r.above <= o.above+slack && r.below <= o.below+slack
}
