package scene

import (
	"math"
	"strconv"

	"duskwire/calc/light"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
)

// LuxInput is what a night picture is drawn from.
type LuxInput struct {
	Picture *picture.Picture // a pixel a cell of Grid, up the sheet on top
	Grid    light.Grid
	Lines   []light.Contour // of equal lux on the ground; nil for none
	Around  Colour          // beyond the picture
	// Ink and Bed are the colours of the lines on paper; zero stands for those over
	// a night picture.
	Ink, Bed Colour
}

// Colours of the lines of lux: nothing else on the plan has the yellow, and the
// dark bed keeps them apart from bright ground.
var (
	luxInk = rgb(0xF2E58A)
	luxBed = Colour{0x08, 0x0C, 0x12, 0x90}
)

const (
	// faintLux is the level below which lines are broken, so that faint levels
	// differ by shape as well.
	faintLux = 5
	// luxOff is how far a line may run beside its corners, in mm on paper, so that
	// few strokes draw it, luxAhead how many corners one stroke stands for at most,
	// and luxEvery how far apart figures on one line stand.
	luxOff   = 0.04
	luxAhead = 24
	luxEvery = 90
)

// Lux returns the night picture with its lines of lux as a display list. The
// lines are a layer of their own: they are no part of what is drawn on the plan.
func Lux(in LuxInput, view View, width, height float64) *List {
	l := &List{Width: width, Height: height, Background: in.Around, View: view}
	g := in.Grid
	at := func(x, y float64) XY { return view.Paper(geom.Pt(x, y)) }
	x1, y1 := g.X0+float64(g.W)*g.Step, g.Y0+float64(g.H)*g.Step
	if in.Picture != nil {
		l.Items = append(l.Items, Item{Kind: Image, Layer: LayerPicture, Image: in.Picture,
			Points: []XY{at(g.X0, y1), at(x1, y1), at(g.X0, g.Y0), {0, 0}, {width, height}}})
	}
	p := luxPen{list: l, width: width, height: height, ink: luxInk, bed: luxBed}
	if in.Ink.A > 0 {
		p.ink, p.bed = in.Ink, in.Bed
	}
	for _, c := range in.Lines {
		p.line(c, at)
	}
	for _, s := range p.drawn {
		p.figures(s)
	}
	return l
}

// luxPen draws the lines of lux.
type luxPen struct {
	list          *List
	width, height float64
	ink, bed      Colour
	drawn         []luxLine
	taken         [][2]XY // boxes of figures
}

// luxLine is one line on paper.
type luxLine struct {
	level float64
	path  []XY
}

// line draws one line where it shows.
func (p *luxPen) line(c light.Contour, at func(x, y float64) XY) {
	if len(c.Line) < 2 {
		return
	}
	path := make([]XY, len(c.Line), len(c.Line)+1)
	for i, s := range c.Line {
		path[i] = at(s.X, s.Y)
	}
	lo, hi := bounds(path)
	if hi.X < 0 || hi.Y < 0 || lo.X > p.width || lo.Y > p.height {
		return
	}
	if c.Closed {
		path = append(path, path[0])
	}
	path = thinned(path)
	st := Style{Stroke: p.ink, Width: fine}
	if c.Level < faintLux {
		st.Dash = []float64{1.6, 1}
	}
	name := luxName(c.Level)
	for _, part := range luxParts(path, p.width, p.height) {
		p.list.Items = append(p.list.Items,
			Item{Kind: Polyline, Layer: LayerLux, Entity: name, Points: part, Style: Style{Stroke: p.bed, Width: 0.5}},
			Item{Kind: Polyline, Layer: LayerLux, Entity: name, Points: part, Style: st})
		p.drawn = append(p.drawn, luxLine{c.Level, part})
	}
}

// luxParts returns what of a path lies in a drawing, in parts; the path itself where
// all of it does.
func luxParts(path []XY, width, height float64) (parts [][]XY) {
	lo, hi := bounds(path)
	if lo.X >= 0 && lo.Y >= 0 && hi.X <= width && hi.Y <= height {
		return [][]XY{path}
	}
	var part []XY
	for i := 1; i < len(path); i++ {
		a, b, ok := clip(path[i-1], path[i], 0, 0, width, height)
		if !ok {
			continue
		}
		if q := path[i-1]; q.X >= 0 && q.Y >= 0 && q.X <= width && q.Y <= height {
			a = q // to the last bit, so that the parts of a line hang together
		}
		if q := path[i]; q.X >= 0 && q.Y >= 0 && q.X <= width && q.Y <= height {
			b = q
		}
		if len(part) == 0 || part[len(part)-1] != a {
			if len(part) > 1 {
				parts = append(parts, part)
			}
			part = []XY{a}
		}
		part = append(part, b)
	}
	if len(part) > 1 {
		parts = append(parts, part)
	}
	return parts
}

// thinned leaves out corners that lie on the way between those before and after
// them.
func thinned(path []XY) []XY {
	out := append(make([]XY, 0, len(path)/3+2), path[0])
	for from := 0; from < len(path)-1; {
		to := from + 1
		for to+1 < len(path) && to-from < luxAhead && direct(path[from:to+2]) {
			to++
		}
		out = append(out, path[to])
		from = to
	}
	return out
}

// direct reports whether the inner corners of a path lie on the way between its
// ends.
func direct(path []XY) bool {
	a, b := path[0], path[len(path)-1]
	dx, dy := b.X-a.X, b.Y-a.Y
	d := math.Hypot(dx, dy)
	for _, p := range path[1 : len(path)-1] {
		if d == 0 || math.Abs((p.X-a.X)*dy-(p.Y-a.Y)*dx) > luxOff*d {
			return false
		}
	}
	return true
}

// luxName is the figure of a level.
func luxName(level float64) string { return strconv.FormatFloat(level, 'g', 4, 64) + " lx" }

// figures letters a line every now and then, along it, where no other figure
// stands and it is straight enough; a line without room for one goes without.
func (p *luxPen) figures(s luxLine) {
	text := luxName(s.level)
	w := TextWidth(text, capLabel, false) + 0.6
	next, done := w, 0.0
	for i := 1; i < len(s.path); i++ {
		a, b := s.path[i-1], s.path[i]
		done += math.Hypot(b.X-a.X, b.Y-a.Y)
		if done < next || a.X < w || a.Y < w || a.X > p.width-w || a.Y > p.height-w {
			continue
		}
		if p.figure(s, i, text, w) {
			next = done + luxEvery
		}
	}
}

// figure letters a line about its corner i; false when that is no place for it.
func (p *luxPen) figure(s luxLine, i int, text string, w float64) bool {
	from, way := i, 0.0
	for ; from > 0 && way < w/2; from-- {
		way += math.Hypot(s.path[from].X-s.path[from-1].X, s.path[from].Y-s.path[from-1].Y)
	}
	to := i
	for ; to+1 < len(s.path) && way < w; to++ {
		way += math.Hypot(s.path[to+1].X-s.path[to].X, s.path[to+1].Y-s.path[to].Y)
	}
	a, b := s.path[from], s.path[to]
	chord := math.Hypot(b.X-a.X, b.Y-a.Y)
	if way < w || chord < 0.9*way {
		return false
	}
	if b.X < a.X {
		a, b = b, a
	}
	c := XY{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	cos, sin := (b.X-a.X)/chord, -(b.Y-a.Y)/chord // anticlockwise, y down
	hw, hh := (w*cos+capLabel*math.Abs(sin))/2, (w*math.Abs(sin)+capLabel*cos)/2
	box := [2]XY{{c.X - hw, c.Y - hh}, {c.X + hw, c.Y + hh}}
	for _, t := range p.taken {
		if box[0].X < t[1].X && box[1].X > t[0].X && box[0].Y < t[1].Y && box[1].Y > t[0].Y {
			return false
		}
	}
	p.taken = append(p.taken, box)
	c.X, c.Y = c.X+sin*capLabel/2, c.Y+cos*capLabel/2
	p.list.Items = append(p.list.Items, Item{Kind: Text, Layer: LayerLux, Entity: text, Points: []XY{c}, Size: capLabel, Text: text,
		Anchor: Middle, Turn: math.Round(math.Asin(sin)*180/math.Pi) + 0, Halo: true, Style: Style{Fill: p.ink}})
	return true
}
