package packs

import (
	"duskwire/calc/finding"
	"duskwire/layout/geom"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// routeDrawings is the plan as it is dug.
func (d *draft) routeDrawings() { d.inParts("Route drawing", d.routeDrawing) }

// inParts adds a drawing. A garden that does not fit its paper at its own scale
// is shown whole and then once more in parts at that scale.
func (d *draft) inParts(title string, draw func(s output.Sheet) (*scene.List, error)) {
	d.drawing(title, draw)
	parts, scale, paper := d.partsOf()
	for i, w := range parts {
		d.drawing(title+", part "+whole(i+1)+" of "+whole(len(parts)), func(s output.Sheet) (*scene.List, error) {
			s.Window, s.Denominator, s.Paper, s.Turn = w, scale, paper, "landscape"
			return draw(s)
		})
	}
}

// mostParts is how many sheets a route drawing is parted into at most.
const mostParts = 12

// partsOf returns the windows that a garden is shown in, row by row from the
// upper left; none where one sheet holds it at its own scale.
func (b *book) partsOf() (out []geom.Rect, scale int, paper string) {
	s := output.Sheet{Plan: b.planInput(), Part: "x", Paper: b.Paper}
	fits, _, _, err := output.ScaleOf(s)
	own := b.scheme.Plan.Scale
	if err != nil || own <= 0 || fits <= own {
		return nil, 0, ""
	}
	paper = b.Paper
	if paper == "" {
		paper = "A3"
	}
	// The room of a sheet across at its own scale, by a window that surely fits.
	s.Paper, s.Turn, s.Denominator, s.Window = paper, "landscape", own, geom.Around(geom.Point{}, geom.Pt(0.001, 0.001))
	_, w, h, err := output.ScaleOf(s)
	if err != nil {
		return nil, 0, ""
	}
	out, scale = b.windows(w, h, own, fits)
	if len(out) == 0 {
		return nil, 0, ""
	}
	return out, scale, paper
}

// windows parts a garden into windows that fit w by h mm, row by row from the upper
// left, at the largest scale from its own on, smaller than the one at which the whole
// fits, that takes no more sheets than mostParts; none where there is no such scale.
func (b *book) windows(w, h float64, own, fits int) (out []geom.Rect, scale int) {
	const margin, overlap = 17.0, 10.0 // mm on paper; parts overlap so that nothing is lost at the edge
	all := scene.Extent(b.scheme)
	for _, scale := range scene.Scales {
		if scale < own || scale >= fits {
			continue
		}
		k := float64(scale) * float64(geom.Millimetre)
		wide, high := geom.Length((w-margin)*k), geom.Length((h-margin)*k)
		step := geom.Length(overlap * k)
		across, down := 1+steps(all.Width()-wide, wide-step), 1+steps(all.Height()-high, high-step)
		if across*down > mostParts || across*down < 2 {
			continue
		}
		for r := range down {
			for c := range across {
				x, y := all.Min.X+geom.Length(c)*(wide-step), all.Max.Y-geom.Length(r)*(high-step)
				out = append(out, geom.Around(geom.Point{X: x, Y: y}, geom.Point{X: min(x+wide, max(all.Max.X, x+1)), Y: max(y-high, min(all.Min.Y, y-1))}))
			}
		}
		return out, scale
	}
	return nil, 0
}

// steps returns how many steps it takes to cover a length, 0 for none.
func steps(l, step geom.Length) int {
	if l <= 0 {
		return 0
	}
	return int((l + step - 1) / step)
}

// routeDrawing draws the ways with the points to set them out from. Notes are
// left out: they are on the lists.
func (b *book) routeDrawing(s output.Sheet) (*scene.List, error) {
	s.Plan = b.planInput()
	s.Plan.Look = scene.LookDig
	s.Plan.Circuits, s.Plan.Results = b.Frame.Circuits, b.Frame.Results
	s.Plan.Findings = nil
	for i := range b.Frame.Findings {
		if f := &b.Frame.Findings[i]; f.Level > finding.Note {
			s.Plan.Findings = append(s.Plan.Findings, *f)
		}
	}
	if b.fixed != nil {
		s.More = append(s.More, scene.Entry{Group: "Setting out", Sample: fixedMark(scene.XY{}, b.pal),
			Words: "F1 and F2, the fixed points: see the page Setting out"})
	}
	bends := b.bends()
	if len(bends) > 0 {
		s.More = append(s.More, scene.Entry{Group: "Setting out", Sample: []scene.Item{bendDot(scene.XY{}, b.pal)}, Words: "Bend of a run, p with its number"})
	}
	l, err := output.Page(s)
	if err != nil {
		return nil, err
	}
	if b.fixed != nil {
		var at [2]scene.XY
		for i, p := range b.fixed.at {
			at[i] = l.View.Paper(p)
		}
		for i := range at {
			if !within(l, s, at[i]) {
				continue
			}
			l.Items = append(l.Items, fixedMark(at[i], b.pal)...)
			l.Items = append(l.Items, fixedName(at[i], at[1-i], "F"+whole(i+1), b.pal))
		}
	}
	seen := bends[:0]
	for _, p := range bends {
		if within(l, s, l.View.Paper(p.at)) {
			seen = append(seen, p)
		}
	}
	b.letterBends(l, seen)
	return l, nil
}

// within reports whether a place of the sheet lies in the part that it shows.
func within(l *scene.List, s output.Sheet, at scene.XY) bool {
	if s.Window.Empty() {
		return true
	}
	return s.Window.Contains(l.View.Plan(at))
}

// planInput is what every drawing of the plan shows.
func (b *book) planInput() scene.Input {
	in := scene.Input{Scheme: b.scheme, Stock: b.stock, Lengths: b.Frame.Circuits.Lengths, Findings: b.Frame.Findings, Palette: b.pal}
	if b.Frame.Under != nil {
		in.Picture = b.Frame.Under.Picture
	}
	return in
}

// bends are the spots that have no tag of their own.
func (b *book) bends() (out []spot) {
	for _, s := range b.spots() {
		if s.number > 0 {
			out = append(out, s)
		}
	}
	return out
}

// fixedName letters a fixed point on the side away from the other.
func fixedName(at, other scene.XY, name string, p *scene.Palette) scene.Item {
	it := scene.Item{Kind: scene.Text, Layer: scene.LayerFrame, Points: points(at.X+2.6, at.Y+1.2), Text: name, Size: 2.4, Bold: true, Halo: true, Style: scene.Style{Fill: p.Ink}}
	if at.X < other.X {
		it.Points[0].X, it.Anchor = at.X-2.6, scene.Right
	}
	return it
}

// fixedMark is a triangle about its point.
func fixedMark(at scene.XY, p *scene.Palette) []scene.Item {
	const r = 1.9
	ink := scene.Style{Stroke: p.Ink, Width: 0.35, Fill: p.Paper}
	return []scene.Item{
		{Kind: scene.Polygon, Layer: scene.LayerFrame, Style: ink, Points: points(at.X, at.Y-r, at.X+r, at.Y+r*0.8, at.X-r, at.Y+r*0.8)},
		{Kind: scene.Circle, Layer: scene.LayerFrame, Points: []scene.XY{at}, Size: 0.4, Style: scene.Style{Fill: p.Ink}},
	}
}

func bendDot(at scene.XY, p *scene.Palette) scene.Item {
	return scene.Item{Kind: scene.Circle, Layer: scene.LayerFrame, Points: []scene.XY{at}, Size: 0.55, Style: scene.Style{Fill: p.Paper, Stroke: p.Ink, Width: 0.25}}
}

// letterBends numbers the bends where there is room; with none the dot stands
// alone and the list tells the runs that bend there.
func (b *book) letterBends(l *scene.List, bends []spot) {
	taken := newTaken(l)
	for _, s := range bends {
		l.Items = append(l.Items, bendDot(l.View.Paper(s.at), b.pal))
	}
	for _, s := range bends {
		at, w := l.View.Paper(s.at), scene.TextWidth(s.name, capSmall, false)
		best, found := taken.free(at, w)
		if !found {
			continue
		}
		taken.add(best.X, best.Y-capSmall, best.X+w, best.Y)
		l.Items = append(l.Items, scene.Item{Kind: scene.Text, Layer: scene.LayerFrame, Points: []scene.XY{best}, Text: s.name, Size: capSmall, Halo: true,
			Style: scene.Style{Fill: b.pal.Ink}})
	}
}

// free returns the baseline start of a text beside a place where nothing is, the
// nearest first.
func (t *taken) free(at scene.XY, w float64) (scene.XY, bool) {
	for _, out := range [...]float64{0, 1.6} {
		for _, d := range [...]scene.XY{{X: 1 + out, Y: -1 - out}, {X: 1 + out, Y: 2.6 + out}, {X: -1 - out - w, Y: -1 - out}, {X: -1 - out - w, Y: 2.6 + out},
			{X: -w / 2, Y: -1.4 - out}, {X: -w / 2, Y: 3.2 + out}, {X: 1.4 + out, Y: 0.9}, {X: -1.4 - out - w, Y: 0.9}} {
			p := scene.XY{X: at.X + d.X, Y: at.Y + d.Y}
			if t.hits(p.X-0.2, p.Y-capSmall-0.2, p.X+w+0.2, p.Y+0.2) == 0 {
				return p, true
			}
		}
	}
	return scene.XY{}, false
}

// taken are the places of a drawing that hold letters or symbols.
type taken struct{ boxes [][4]float64 }

func newTaken(l *scene.List) *taken {
	t := &taken{}
	for i := range l.Items {
		it := &l.Items[i]
		switch {
		case it.Kind == scene.Text:
			t.text(it)
		case it.Kind == scene.Circle && it.Size < 4:
			p := it.Points[0]
			t.add(p.X-it.Size, p.Y-it.Size, p.X+it.Size, p.Y+it.Size)
		}
	}
	return t
}

// text takes the room of a text, of a turned one by its ends.
func (t *taken) text(it *scene.Item) {
	p, w := scene.Start(it), scene.TextWidth(it.Text, it.Size, it.Bold)
	if it.Turn == 0 {
		t.add(p.X, p.Y-it.Size, p.X+w, p.Y)
		return
	}
	sin, cos := sincos(it.Turn)
	for n := 0.0; n <= w; n += it.Size {
		x, y := p.X+n*cos, p.Y-n*sin
		t.add(x-it.Size/2, y-it.Size, x+it.Size/2, y)
	}
}

func (t *taken) add(x0, y0, x1, y1 float64) { t.boxes = append(t.boxes, [4]float64{x0, y0, x1, y1}) }

func (t *taken) hits(x0, y0, x1, y1 float64) (n int) {
	for _, b := range t.boxes {
		if b[0] < x1 && b[2] > x0 && b[1] < y1 && b[3] > y0 {
			n++
		}
	}
	return n
}
