package scene

import (
	"image"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"
)

// letters is the glyph cache of a rasteriser and the letters of one list,
// placed before the bands start so that they only read.
type letters struct {
	cache  map[letterKey]*letter
	placed []placed
	first  []int // per text of the list, index into placed; one more at the end
	buf    sfnt.Buffer
	vec    vector.Rasterizer
}

// letterKey tells one rendering of a letter: size in 1/64 px, turn in steps
// of turnStep, place inside the pixel in quarters, halo in 1/16 px.
type letterKey struct {
	r          rune
	bold       bool
	size       int32
	turn       int16
	subX, subY uint8
	halo       uint8
}

// letter is a coverage mask with its corner relative to the pixel of the pen.
type letter struct {
	x, y, w, h int
	mask, halo []uint8 // halo has the same box; nil without
}

type placed struct {
	*letter
	x, y int
}

const (
	turnStep   = 1.5 // degrees; letters stay on their true baseline
	haloWidth  = 0.4 // mm
	cacheLimit = 20000
)

// prepare places every letter of the list's texts that shows.
func (t *letters) prepare(l *List, k float64, w, h int) {
	if t.cache == nil || len(t.cache) > cacheLimit {
		t.cache = map[letterKey]*letter{}
	}
	t.placed, t.first = t.placed[:0], t.first[:0]
	for i := range l.Items {
		it := &l.Items[i]
		if it.Kind != Text {
			continue
		}
		t.first = append(t.first, len(t.placed))
		t.place(it, k, float64(w), float64(h))
	}
	t.first = append(t.first, len(t.placed))
}

func (t *letters) place(it *Item, k, w, h float64) {
	face := faceOf(it.Bold)
	size := it.Size * k / face.cap // em in pixels
	if size < 2 {
		return
	}
	p := XY{it.Points[0].X * k, it.Points[0].Y * k}
	sin, cos := math.Sincos(it.Turn * math.Pi / 180)
	if it.Anchor != Left {
		width := TextWidth(it.Text, it.Size, it.Bold) * k
		if it.Anchor == Middle {
			width /= 2
		}
		p.X, p.Y = p.X-width*cos, p.Y+width*sin
	}
	key := letterKey{bold: it.Bold, size: int32(size*64 + 0.5), turn: int16(math.Round(it.Turn / turnStep))}
	if it.Halo {
		key.halo = uint8(min(255, haloWidth*k*16))
	}
	for _, r := range it.Text {
		if p.X > -2*size && p.X < w+2*size && p.Y > -2*size && p.Y < h+2*size && r != ' ' {
			t.put(r, key, p)
		}
		a := face.advance(r) * size
		p.X, p.Y = p.X+a*cos, p.Y-a*sin
	}
}

func (t *letters) put(r rune, key letterKey, p XY) {
	x, y := math.Floor(p.X), math.Floor(p.Y)
	key.r, key.subX = r, uint8((p.X-x)*4)
	if key.turn != 0 {
		key.subY = uint8((p.Y - y) * 4)
	} else if p.Y-y >= 0.5 { // level text stands on whole pixels: sharper
		y++
	}
	g := t.cache[key]
	if g == nil {
		g = t.render(key)
		t.cache[key] = g
	}
	if len(g.mask) > 0 {
		t.placed = append(t.placed, placed{g, int(x), int(y)})
	}
}

// render draws the outline of a letter into a mask.
func (t *letters) render(key letterKey) *letter {
	sub := XY{(float64(key.subX) + 0.5) / 4, 0}
	if key.turn != 0 {
		sub.Y = (float64(key.subY) + 0.5) / 4
	}
	path := outline(&t.buf, key.r, key.bold, float64(key.size)/64, float64(key.turn)*turnStep, sub)
	if len(path) == 0 {
		return &letter{}
	}
	lo, hi := XY{math.Inf(1), math.Inf(1)}, XY{math.Inf(-1), math.Inf(-1)}
	for _, s := range path {
		for _, p := range s.pts[:s.n] {
			lo.X, lo.Y, hi.X, hi.Y = min(lo.X, p.X), min(lo.Y, p.Y), max(hi.X, p.X), max(hi.Y, p.Y)
		}
	}
	halo := float64(key.halo) / 16
	pad := math.Ceil(halo) + 1
	x, y := int(math.Floor(lo.X)-pad), int(math.Floor(lo.Y)-pad)
	g := &letter{x: x, y: y, w: int(math.Ceil(hi.X)+pad) - x, h: int(math.Ceil(hi.Y)+pad) - y}
	t.vec.Reset(g.w, g.h)
	f := func(p XY) (float32, float32) { return float32(p.X - float64(x)), float32(p.Y - float64(y)) }
	for _, s := range path {
		ax, ay := f(s.pts[0])
		switch s.op {
		case sfnt.SegmentOpMoveTo:
			t.vec.ClosePath()
			t.vec.MoveTo(ax, ay)
		case sfnt.SegmentOpLineTo:
			t.vec.LineTo(ax, ay)
		case sfnt.SegmentOpQuadTo:
			bx, by := f(s.pts[1])
			t.vec.QuadTo(ax, ay, bx, by)
		case sfnt.SegmentOpCubeTo:
			bx, by := f(s.pts[1])
			cx, cy := f(s.pts[2])
			t.vec.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	t.vec.ClosePath()
	mask := image.NewAlpha(image.Rect(0, 0, g.w, g.h))
	t.vec.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	g.mask = mask.Pix
	if halo > 0 {
		g.halo = dilate(g.mask, g.w, g.h, halo)
	}
	return g
}

// dilate grows a mask by r pixels: each pixel takes the greatest coverage
// within r, fading over the last pixel.
func dilate(mask []uint8, w, h int, r float64) []uint8 {
	out := make([]uint8, len(mask))
	n := int(math.Ceil(r))
	for y := range h {
		for x := range w {
			v := uint32(mask[y*w+x])
			if v == 0 {
				continue
			}
			for dy := -n; dy <= n; dy++ {
				for dx := -n; dx <= n; dx++ {
					qx, qy := x+dx, y+dy
					if qx < 0 || qy < 0 || qx >= w || qy >= h {
						continue
					}
					f := min(1, max(0, r+0.5-math.Hypot(float64(dx), float64(dy))))
					if a := uint8(float64(v) * f); a > out[qy*w+qx] {
						out[qy*w+qx] = a
					}
				}
			}
		}
	}
	return out
}

// draw paints the n-th text of the list: first all halos, then the letters.
func (t *letters) draw(b *band, n int, it *Item, paper Colour) {
	gs := t.placed[t.first[n]:t.first[n+1]]
	if it.Halo {
		for i := range gs {
			b.stencil(&gs[i], gs[i].halo, paper)
		}
	}
	for i := range gs {
		b.stencil(&gs[i], gs[i].mask, it.Style.Fill)
	}
}

// stencil blends a colour through a mask.
func (b *band) stencil(g *placed, mask []uint8, c Colour) {
	x0, y0 := g.x+g.letter.x, g.y+g.letter.y
	if len(mask) == 0 || x0 >= b.w || x0+g.w <= 0 {
		return
	}
	for y := max(b.y0, y0); y < min(b.y1, y0+g.h); y++ {
		row := mask[(y-y0)*g.w : (y-y0+1)*g.w]
		for x := max(0, x0); x < min(b.w, x0+g.w); x++ {
			if a := row[x-x0]; a > 0 {
				blend(b.pix[4*(y*b.w+x):], c, uint32(a))
			}
		}
	}
}

// stroke of a letter's outline: the operation and its points, y down.
type curve struct {
	op  sfnt.SegmentOp
	n   int
	pts [3]XY
}

// outline returns the outline of a letter, em size high, turned anticlockwise
// by turn degrees about its pen and moved to o; empty for a blank.
func outline(buf *sfnt.Buffer, r rune, bold bool, size, turn float64, o XY) []curve {
	face := faceOf(bold)
	i, err := face.font.GlyphIndex(buf, r)
	if err != nil {
		return nil
	}
	segs, err := face.font.LoadGlyph(buf, i, face.upem, nil)
	if err != nil {
		return nil
	}
	k := size / float64(face.upem)
	sin, cos := math.Sincos(turn * math.Pi / 180)
	at := func(p fixed.Point26_6) XY {
		x, y := float64(p.X)*k, float64(p.Y)*k
		return XY{o.X + x*cos + y*sin, o.Y - x*sin + y*cos}
	}
	out := make([]curve, len(segs))
	for j, s := range segs {
		c := curve{op: s.Op, n: 1}
		switch s.Op {
		case sfnt.SegmentOpQuadTo:
			c.n = 2
		case sfnt.SegmentOpCubeTo:
			c.n = 3
		}
		for n := range c.n {
			c.pts[n] = at(s.Args[n])
		}
		out[j] = c
	}
	return out
}
