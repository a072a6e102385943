package light

import (
	"image"
	"math"

	q "duskwire/calc/quantity"
)

// Patch is a piece of ground and what it reflects.
type Patch struct {
	Outline   []Spot
	Rho       RGB
	low, high Spot
}

// Outlook is a garden as it is seen by somebody who stands in it: ground,
// solids and crowns, lit by the lamps of a scene. The light of the ground is that
// of a sheet, between the middles of its cells linear, so that plan and view show
// one array; that of anything else is Scene.At on its surface. It is not changed
// while it is looked at, so that columns may be drawn side by side.
type Outlook struct {
	sheet   *Sheet
	bare    RGB // ground that no patch covers
	patches []Patch
	solids  []Solid
	balls   []Ball
	x       Exposure
	moon    RGB
	lamps   []RGB // linear colour of a lux of each lamp
	layers  []RGB // of a unit of each layer of the sheet
	faint   float64
}

const (
	// faintSide is the most that all lamps together may lack on an upright
	// surface because faint ones were left out, lx: a fiftieth of the moon there.
	faintSide = 0.005
	// skyMoon is what the night sky is shown as: ground of that reflectance under
	// the moon (common practice, no source).
	skyMoon = 0.035
	// sideSky is how much of the sky an upright surface sees (derived), and
	// sideTurn how much more or less of the moon it has by its bearing, so that
	// the sides of a house in the dark can be told apart (common practice, no
	// source). The moon stands up the sheet to the right.
	sideSky, sideTurn = 0.5, 0.35
)

var moonFrom = Vec{0.5, 0.8660254037844386, 0}

// NewOutlook puts an outlook together. The patch drawn last owns the ground. sheet
// must be filled, at the height of the ground.
func NewOutlook(x Exposure, sheet *Sheet, bare RGB, patches []Patch, solids []Solid, balls []Ball) *Outlook {
	o := &Outlook{sheet: sheet, bare: bare, solids: solids, x: x,
		moon: Stimulus(x.MoonWhite, float64(x.Moon)).Linear()}
	for _, p := range patches {
		p.low, p.high = Spot{math.Inf(1), math.Inf(1)}, Spot{math.Inf(-1), math.Inf(-1)}
		for _, c := range p.Outline {
			p.low = Spot{math.Min(p.low.X, c.X), math.Min(p.low.Y, c.Y)}
			p.high = Spot{math.Max(p.high.X, c.X), math.Max(p.high.Y, c.Y)}
		}
		o.patches = append(o.patches, p)
	}
	sc := sheet.scene
	o.balls = append([]Ball(nil), balls...)
	for i := range o.balls {
		ball := &o.balls[i]
		for k := range sc.blockers {
			b := &sc.blockers[k]
			if !(b.Closed && b.Base <= ball.At.Z && ball.At.Z <= b.Top && b.inside(Spot{ball.At.X, ball.At.Y})) {
				ball.ways = append(ball.ways, *b)
			}
		}
	}
	for i := range sc.lamps {
		o.lamps = append(o.lamps, Stimulus(sc.lamps[i].White, 1).Linear())
	}
	for _, l := range sheet.layers {
		o.layers = append(o.layers, Stimulus(l.white, unit).Linear())
	}
	o.faint = faintSide / float64(max(len(sc.lamps), 1))
	return o
}

// Glimpse is a picture in the making: pixels and how far ahead each lies.
type Glimpse struct {
	Image *image.RGBA
	of    *Outlook
	cam   camera
	depth []float32
}

// Glimpse begins a picture of w by h pixels. Columns draws it, Lamps ends it.
func (o *Outlook) Glimpse(e Eye, w, h int) *Glimpse {
	return &Glimpse{Image: image.NewRGBA(image.Rect(0, 0, w, h)), of: o, cam: newCamera(e, w, h), depth: make([]float32, w*h)}
}

// Columns draws the columns from one up to another. Columns do not touch each
// other's pixels: they may be drawn side by side.
func (g *Glimpse) Columns(from, to int) {
	var k column
	o := g.of
	for x := from; x < to; x++ {
		k.cast(g.cam.eye.At, g.cam.ray(x), o.solids, o.balls)
		for y := range g.cam.h {
			s := k.look(g.cam.rise(y))
			g.depth[y*g.cam.w+x] = float32(s.depth)
			g.put(x, y, o.light(&s))
		}
	}
}

// light returns what a surface sends to the eye: E·ρ.
func (o *Outlook) light(s *seen) RGB {
	var e, rho RGB
	switch {
	case math.IsInf(s.depth, 1):
		e, rho = o.moon, RGB{skyMoon, skyMoon, skyMoon}
	case s.level:
		e, rho = o.ground(s.at.X, s.at.Y), o.rho(Spot{s.at.X, s.at.Y})
	case s.ball != nil:
		e, rho = o.side(s.at, s.n, s.ball.ways), s.rho
	default:
		e, rho = o.Side(s.at, s.n), s.rho
	}
	return RGB{e[0] * rho[0], e[1] * rho[1], e[2] * rho[2]}
}

// Side returns the light on a surface with the unit normal n, in linear sRGB, Y in
// lux, the moon's part with it.
func (o *Outlook) Side(at, n Vec) RGB { return o.side(at, n, o.sheet.scene.blockers) }

// side is Side with what is in the way.
func (o *Outlook) side(at, n Vec, ways []blocker) RGB {
	c := o.moonOn(n)
	sc := o.sheet.scene
	for i := range sc.lamps {
		p := &sc.lamps[i]
		if p.misses(at, n, o.faint) {
			continue
		}
		e := sc.lux(p, at, n, ways)
		per := &o.lamps[i]
		c[0], c[1], c[2] = c[0]+e*per[0], c[1]+e*per[1], c[2]+e*per[2]
	}
	return c
}

// moonOn returns the moon's part of the light on a surface.
func (o *Outlook) moonOn(n Vec) RGB {
	m := (sideSky + (1-sideSky)*n.Z) * (1 + sideTurn*n.Dot(moonFrom))
	return RGB{o.moon[0] * m, o.moon[1] * m, o.moon[2] * m}
}

// misses reports whether a lamp gives at most so many lux there, by a bound:
// greatest intensity at its angle from the axis and beyond, cosine 1.
func (p *placed) misses(at, n Vec, faint float64) bool {
	reach := p.size / 2 * math.Sqrt(3)
	v := p.At.Sub(at)
	if v.Dot(n) <= -reach {
		return true
	}
	d := v.Len()
	near := math.Max(d-reach, closest)
	if p.scale*p.Dist.beyond(0) <= faint*sq(near) {
		return true
	}
	if d <= 2*reach || d == 0 {
		return false
	}
	angle := (math.Acos(math.Max(-1, math.Min(1, p.r.z.Dot(v)/d))) - math.Asin(reach/d)) * perRad
	return p.scale*p.Dist.beyond(math.Max(angle, 0)) <= faint*sq(near)
}

// ground returns the light on the ground, linear between the middles of the
// cells of the sheet; beyond them the moon's alone, as on the plan.
func (o *Outlook) ground(x, y float64) RGB {
	g := o.sheet.grid
	fx, fy := (x-g.X0)/g.Step-0.5, (y-g.Y0)/g.Step-0.5
	c := o.moon
	if !(fx >= -0.5 && fy >= -0.5 && fx <= float64(g.W)-0.5 && fy <= float64(g.H)-0.5) {
		return c
	}
	fx, fy = math.Max(0, math.Min(fx, float64(g.W-1))), math.Max(0, math.Min(fy, float64(g.H-1)))
	x0, y0 := int(fx), int(fy)
	x1, y1 := min(x0+1, g.W-1), min(y0+1, g.H-1)
	kx, ky := fx-float64(x0), fy-float64(y0)
	for i, l := range o.sheet.layers {
		u := l.units
		low := float64(u[y0*g.W+x0])*(1-kx) + float64(u[y0*g.W+x1])*kx
		high := float64(u[y1*g.W+x0])*(1-kx) + float64(u[y1*g.W+x1])*kx
		e := low*(1-ky) + high*ky
		per := &o.layers[i]
		c[0], c[1], c[2] = c[0]+e*per[0], c[1]+e*per[1], c[2]+e*per[2]
	}
	return c
}

// rho returns what the ground reflects.
func (o *Outlook) rho(at Spot) RGB {
	for i := len(o.patches) - 1; i >= 0; i-- {
		p := &o.patches[i]
		if at.X < p.low.X || at.X > p.high.X || at.Y < p.low.Y || at.Y > p.high.Y {
			continue
		}
		if (&blocker{Blocker: Blocker{Outline: p.Outline}}).inside(at) {
			return p.Rho
		}
	}
	return o.bare
}

// put develops a pixel, as Sheet.Paint does.
func (g *Glimpse) put(x, y int, c RGB) {
	e := &g.of.x
	k := 0.0
	if l := c.luminance(); l > 0 {
		bend := e.Gentle / (float64(e.White) * e.Half)
		ls := bend * l
		k = bend * (1 + ls/(e.Gentle*e.Gentle)) / (1 + ls)
	}
	d := dithers[y&7][x&7] + 0.5
	p := g.Image.Pix[y*g.Image.Stride+4*x:]
	p[0], p[1], p[2], p[3] = stepped(c[0]*k, d), stepped(c[1]*k, d), stepped(c[2]*k, d), 255
}

const (
	// dimmest is the intensity towards the eye from which a lamp is seen to glow.
	dimmest q.Candela = 0.2
	// stands is how far a lamp may stand in what it is fixed to, metres.
	stands = 0.12
)

// Lamps puts a small glowing dot where a lamp shines towards the eye and nothing
// stands between. How large it is goes with the logarithm of its light at the
// eye, which is no measure of glare.
func (g *Glimpse) Lamps() {
	sc := g.of.sheet.scene
	for i := range sc.lamps {
		l := &sc.lamps[i]
		for _, part := range l.dots(g.cam.eye.At) {
			g.glow(l, part.at, part.share)
		}
	}
}

// glow puts the dot of one place of a lamp, which has so much of its light.
func (g *Glimpse) glow(l *placed, at Vec, share float64) {
	x, y, depth := g.cam.place(at)
	if depth < nearest || !(x >= 0 && y >= 0 && x < float64(g.cam.w) && y < float64(g.cam.h)) {
		return
	}
	if depth > float64(g.depth[int(y)*g.cam.w+int(x)])+stands {
		return
	}
	v := g.cam.eye.At.Sub(at)
	whole := l.Toward(v)
	if whole < dimmest || share <= 0 {
		return
	}
	g.dot(x, y, share*float64(whole)/math.Max(v.Dot(v), 0.25), Stimulus(l.White, 1).Linear())
}

// dotPart is one place of a lamp that is seen and its part of the light.
type dotPart struct {
	at    Vec
	share float64
}

// longDots is the length from which a lamp is seen as a row of dots, metres, and
// mostDots how many those are at most.
const (
	longDots = 0.3
	mostDots = 60
)

// dots returns where a lamp is seen to glow: in one place, or along what is long, with
// gaps that an eye so far off does not tell.
func (p *placed) dots(eye Vec) []dotPart {
	if p.size < longDots {
		return []dotPart{{p.At, 1}}
	}
	d := math.Max(p.Opening.near(p.r.from(eye.Sub(p.At))), longDots)
	n := min(max(int(math.Ceil(60*p.size/d)), 2), mostDots)
	out := make([]dotPart, n)
	all := 0.0
	for k := range out {
		at := 0.5 - (float64(k)+0.5)/float64(n)
		e := Vec{Y: at * p.Opening.Y}
		if p.Opening.X > p.Opening.Y {
			e = Vec{X: at * p.Opening.X}
		}
		out[k] = dotPart{p.At.Add(p.r.to(e)), p.weight(e)}
		all += out[k].share
	}
	for k := range out {
		if out[k].share /= all; all == 0 {
			out[k].share = 0
		}
	}
	return out
}

// dot lays a soft round light over the picture.
func (g *Glimpse) dot(x, y, lux float64, tint RGB) {
	size := math.Max(float64(g.cam.h)/400, 0.5)
	r := size * (1.3 + 0.7*math.Log10(1+20*lux))
	most := max(tint[0], tint[1], tint[2])
	var c RGB
	for i := range c {
		c[i] = 0.5 + 0.5*encoded(tint[i]/most)
	}
	wide := int(3*r) + 1
	for py := max(int(y)-wide, 0); py <= min(int(y)+wide, g.cam.h-1); py++ {
		for px := max(int(x)-wide, 0); px <= min(int(x)+wide, g.cam.w-1); px++ {
			d := (sq(float64(px)+0.5-x) + sq(float64(py)+0.5-y)) / sq(r)
			a := math.Exp(-d)
			p := g.Image.Pix[py*g.Image.Stride+4*px:]
			for i := range c {
				p[i] = uint8(math.Min(255, 255-(255-float64(p[i]))*(1-a*c[i])+0.5))
			}
		}
	}
}
