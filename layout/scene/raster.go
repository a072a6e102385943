package scene

import (
	"image"
	"math"
	"runtime"
	"sync"
)

// Rasteriser draws display lists into pictures. It keeps its buffers and its
// letters from one Draw to the next; it must not be used by two goroutines at
// once.
type Rasteriser struct {
	bands   []band
	letters letters
	under   imageStore
}

// NewRasteriser returns a rasteriser with empty caches.
func NewRasteriser() *Rasteriser {
	n := min(4, max(1, runtime.NumCPU()))
	return &Rasteriser{bands: make([]band, n)}
}

// NewLoneRasteriser returns a rasteriser that draws on one processor: for a
// worker, beside which the window wants the others.
func NewLoneRasteriser() *Rasteriser { return &Rasteriser{bands: make([]band, 1)} }

// NewSpareRasteriser is NewRasteriser for pictures that are drawn while others go on
// being shown: it leaves them a processor.
func NewSpareRasteriser() *Rasteriser {
	r := NewRasteriser()
	r.bands = r.bands[:max(1, len(r.bands)-1)]
	return r
}

// Alone lets the rasteriser use one core and leave the others; it returns it.
func (r *Rasteriser) Alone() *Rasteriser {
	r.bands = r.bands[:1]
	return r
}

// Draw paints the list over the whole of dst at pxPerMM pixels a millimetre.
// dst must start at (0, 0) and have Stride = 4·width, as image.NewRGBA makes
// it. A background with A = 0 is left transparent, in the premultiplied alpha
// of image.RGBA; letters then have no halo. Strokes have round ends and joins; a stroke thinner than a pixel is
// drawn one pixel wide and paler.
func (r *Rasteriser) Draw(dst *image.RGBA, l *List, pxPerMM float64) {
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	if dst.Rect.Min != (image.Point{}) || dst.Stride != 4*w {
		panic("scene: Draw needs a whole picture starting at (0, 0)")
	}
	if w == 0 || h == 0 {
		return
	}
	r.letters.prepare(l, pxPerMM, w, h)
	r.under.prepare(l, pxPerMM, w, h)
	n := len(r.bands)
	if h < 64 {
		n = 1
	}
	var wait sync.WaitGroup
	for i := range n {
		b := &r.bands[i]
		b.reset(dst, h*i/n, h*(i+1)/n, pxPerMM)
		if i == n-1 {
			b.paint(l, &r.letters, &r.under)
			break
		}
		wait.Add(1)
		go func() {
			defer wait.Done()
			b.paint(l, &r.letters, &r.under)
		}()
	}
	wait.Wait()
	r.under.done = r.under.pix != nil
}

// band is a strip of the picture, painted by one goroutine.
type band struct {
	pix        []byte
	w          int
	y0, y1     int     // rows
	k          float64 // pixels a millimetre
	cover      []float32
	xs         []float64
	levels     levels
	ring       []XY
	maxX       float64 // in pixels, where strokes can show
	minY, maxY float64
}

func (b *band) reset(dst *image.RGBA, y0, y1 int, k float64) {
	w := dst.Rect.Dx()
	b.pix, b.w, b.y0, b.y1, b.k = dst.Pix, w, y0, y1, k
	if len(b.cover) < w+2 {
		b.cover = make([]float32, w+2)
	}
	b.maxX, b.minY, b.maxY = float64(w), float64(y0), float64(y1)
}

func (b *band) paint(l *List, letters *letters, under *imageStore) {
	b.clear(l.Background)
	text := 0
	for i := range l.Items {
		it := &l.Items[i]
		switch it.Kind {
		case Polyline:
			b.polyline(it.Points, &it.Style, false)
		case Polygon:
			b.polygon(it.Points, &it.Style)
		case Circle:
			b.circle(it.Points[0], it.Size, &it.Style)
		case Segments:
			b.segments(it.Points, &it.Style)
		case Image:
			if i == 0 && under.pix != nil {
				b.paintUnder(under, it, l.Background)
			} else {
				b.image(it, l.Background)
			}
		case Text:
			letters.draw(b, text, it, l.haloColour())
			text++
		}
	}
}

func (b *band) clear(c Colour) {
	first := b.pix[4*b.w*b.y0 : 4*b.w*b.y1]
	row := first[:4*b.w]
	for i := 0; i < len(row); i += 4 {
		row[i], row[i+1], row[i+2], row[i+3] = c.R, c.G, c.B, 255
	}
	if c.A == 0 { // a picture to lay over another
		clear(row)
	}
	for done := len(row); done < len(first); done *= 2 {
		copy(first[done:], first[:done])
	}
}

// blend lays colour c with alpha a (0 to 255, times c.A) over one pixel.
func blend(p []byte, c Colour, a uint32) {
	if c.A != 255 {
		a = a * uint32(c.A) / 255
	}
	p = p[:4:4]
	if a >= 255 {
		p[0], p[1], p[2], p[3] = c.R, c.G, c.B, 255
		return
	}
	n := 255 - a
	p[0] = uint8((uint32(c.R)*a + uint32(p[0])*n + 127) / 255)
	p[1] = uint8((uint32(c.G)*a + uint32(p[1])*n + 127) / 255)
	p[2] = uint8((uint32(c.B)*a + uint32(p[2])*n + 127) / 255)
	p[3] = uint8((255*a + uint32(p[3])*n + 127) / 255)
}

// pen is a stroke width in pixels with the strength that stands for widths
// under a pixel.
type pen struct {
	half     float64
	strength float64
	colour   Colour
}

func (b *band) pen(st *Style) pen {
	w := st.Width * b.k
	if w < 1 {
		return pen{0.5, max(0.25, w), st.Stroke}
	}
	return pen{w / 2, 1, st.Stroke}
}

func (b *band) polyline(ps []XY, st *Style, closed bool) {
	if st.Width <= 0 || st.Stroke.A == 0 || len(ps) < 2 {
		return
	}
	p := b.pen(st)
	d := newDasher(st.Dash, b.k)
	for i := 1; i < len(ps); i++ {
		b.dashed(ps[i-1], ps[i], p, &d)
	}
	if closed {
		b.dashed(ps[len(ps)-1], ps[0], p, &d)
	}
}

func (b *band) segments(ps []XY, st *Style) {
	if st.Width <= 0 || st.Stroke.A == 0 {
		return
	}
	p := b.pen(st)
	for i := 0; i+1 < len(ps); i += 2 {
		d := newDasher(st.Dash, b.k)
		b.dashed(ps[i], ps[i+1], p, &d)
	}
}

// dasher walks through a dash pattern in pixels; the zero dasher is solid.
type dasher struct {
	pattern []float64
	total   float64
	scale   float64
	at      float64 // place in the pattern, pixels
}

func newDasher(dash []float64, k float64) dasher {
	var sum float64
	for _, d := range dash {
		sum += d
	}
	if sum*k < 0.5 { // too fine to show
		return dasher{}
	}
	return dasher{dash, sum * k, k, 0}
}

// dashed strokes from a to c (millimetres) through the pattern.
func (b *band) dashed(a, c XY, p pen, d *dasher) {
	a, c = XY{a.X * b.k, a.Y * b.k}, XY{c.X * b.k, c.Y * b.k}
	grow := p.half + 1
	in, out, shows := clip(a, c, -grow, b.minY-grow, b.maxX+grow, b.maxY+grow)
	if d.total == 0 {
		if shows {
			b.capsule(in, out, p)
		}
		return
	}
	length := math.Hypot(c.X-a.X, c.Y-a.Y)
	start := d.at
	d.at = math.Mod(d.at+length, d.total)
	if !shows || length == 0 {
		return
	}
	u := XY{(c.X - a.X) / length, (c.Y - a.Y) / length}
	s := math.Hypot(in.X-a.X, in.Y-a.Y)
	end := math.Hypot(out.X-a.X, out.Y-a.Y)
	at := math.Mod(start+s, d.total)
	n := 0
	for at >= d.pattern[n]*d.scale && n < len(d.pattern)-1 {
		at -= d.pattern[n] * d.scale
		n++
	}
	for s < end {
		step := d.pattern[n]*d.scale - at
		to := min(end, s+step)
		if n%2 == 0 {
			b.capsule(XY{a.X + u.X*s, a.Y + u.Y*s}, XY{a.X + u.X*to, a.Y + u.Y*to}, p)
		}
		s, at, n = s+step, 0, (n+1)%len(d.pattern)
	}
}
