package scene

import (
	"encoding/binary"
	"image"
	"math"

	"duskwire/layout/picture"
)

// imageKey is everything that the pixels of a drawn picture depend on.
type imageKey struct {
	image  *picture.Picture
	points [5]XY
	fade   float64
	tone   Tonal
	paper  Colour
	k      float64
	w, h   int
}

// imageStore keeps the pixels of the picture as last drawn, so that a redraw
// in the same view, which every edit asks for, only copies them.
type imageStore struct {
	key  imageKey
	done bool // the pixels are those of key
	pix  []byte
}

// prepare looks whether the list has a picture under everything else, and
// whether it is still as it was drawn.
func (s *imageStore) prepare(l *List, k float64, w, h int) {
	if len(l.Items) == 0 || l.Items[0].Kind != Image || l.Background.A == 0 {
		*s = imageStore{} // nothing to keep 6 MB for
		return
	}
	it := &l.Items[0]
	key := imageKey{it.Image, [5]XY(it.Points), it.Fade, it.Tone, l.Background, k, w, h}
	s.done = s.done && s.key == key
	s.key = key
	if len(s.pix) != 4*w*h {
		s.pix, s.done = make([]byte, 4*w*h), false
	}
}

// paintUnder draws the picture that lies under everything, or copies it.
func (b *band) paintUnder(s *imageStore, it *Item, paper Colour) {
	rows, kept := b.pix[4*b.w*b.y0:4*b.w*b.y1], s.pix[4*b.w*b.y0:4*b.w*b.y1]
	if s.done {
		copy(rows, kept)
		return
	}
	b.image(it, paper)
	copy(kept, rows)
}

// image draws a picture: for each pixel the place on the picture is stepped
// along in 16.16 fixed point and read between four neighbours of the level of
// the pyramid that has about as many pixels.
func (b *band) image(it *Item, paper Colour) {
	s, ok := newSampler(it, b.k)
	if !ok {
		return
	}
	s.mix(it, paper)
	lo, hi := it.Points[3], it.Points[4]
	x0, x1 := max(0, int(math.Round(lo.X*b.k))), min(b.w, int(math.Round(hi.X*b.k)))
	y0, y1 := max(b.y0, int(math.Round(lo.Y*b.k))), min(b.y1, int(math.Round(hi.Y*b.k)))
	for y := y0; y < y1; y++ {
		// Where this row crosses the picture.
		u := s.u0 + s.ux*0.5 + s.uy*(float64(y)+0.5)
		v := s.v0 + s.vx*0.5 + s.vy*(float64(y)+0.5)
		a, z := within(u, s.ux, s.w, x0, x1)
		a, z = within(v, s.vx, s.h, a, z)
		if a >= z {
			continue
		}
		s.row(b.pix[4*(y*b.w+a):4*(y*b.w+z)], u+s.ux*float64(a), v+s.vx*float64(a))
	}
}

// within narrows the columns from a to z to those where u + n·step lies from 0
// to below size.
func within(u, step, size float64, a, z int) (int, int) {
	if step == 0 {
		if u < 0 || u >= size {
			return a, a
		}
		return a, z
	}
	first, last := -u/step, (size-u)/step
	if step < 0 {
		first, last = last, first
	}
	first, last = math.Max(first, float64(a)), math.Min(last, float64(z))
	if !(first < last) {
		return a, a
	}
	return int(math.Ceil(first)), int(math.Ceil(last))
}

// sampler reads one level of a picture along lines of the screen.
type sampler struct {
	pix        []byte
	stride     int
	w, h       float64
	maxX, maxY int64   // last pixel
	u0, ux, uy float64 // place on the level: u = u0 + ux·x + uy·y
	v0, vx, vy float64
	keep       uint32 // share of the picture, of 256
	rest       uint64 // what the paper adds, in lanes
	through    bool   // light and dark are swapped
}

// newSampler turns the placement of an item round: from pixels of the screen
// to pixels of a level; ok is false for a picture without size.
func newSampler(it *Item, k float64) (*sampler, bool) {
	p, o := it.Image, it.Points[0]
	ax, ay := (it.Points[1].X-o.X)*k, (it.Points[1].Y-o.Y)*k
	dx, dy := (it.Points[2].X-o.X)*k, (it.Points[2].Y-o.Y)*k
	det := ax*dy - ay*dx
	if !(math.Abs(det) > 1e-9) {
		return nil, false
	}
	m := p.Level(p.LevelFor(0.75 * math.Hypot(ax, ay)))
	w, h := float64(m.Rect.Dx()), float64(m.Rect.Dy())
	s := &sampler{pix: m.Pix, stride: m.Stride, w: w, h: h, maxX: int64(m.Rect.Dx() - 1), maxY: int64(m.Rect.Dy() - 1),
		ux: dy / det * w, uy: -dx / det * w, vx: -ay / det * h, vy: ax / det * h}
	s.u0 = -(o.X*k*s.ux + o.Y*k*s.uy)
	s.v0 = -(o.X*k*s.vx + o.Y*k*s.vy)
	return s, true
}

// mix prepares how much of the picture shows on the paper.
func (s *sampler) mix(it *Item, paper Colour) {
	s.keep = uint32(math.Round(256 * min(1, max(0, 1-it.Fade))))
	if it.Tone == Dimmed { // five eighths as bright
		s.keep = s.keep * 5 / 8
	}
	faded := uint32(256) - uint32(math.Round(256*min(1, max(0, 1-it.Fade))))
	s.rest = spread(uint32(paper.R)|uint32(paper.G)<<8|uint32(paper.B)<<16) * uint64(faded)
	s.through = it.Tone == Turned
}

// lanes spreads the four channels of a pixel over 64 bits, so that one
// multiplication serves all four.
const lanes = 0x00FF00FF00FF00FF

func spread(c uint32) uint64 { return (uint64(c) | uint64(c)<<24) & lanes }
func joined(v uint64) uint32 { return uint32(v | v>>24) }

// row fills pixels of one row from the place u, v on. The shares of the four
// neighbours always sum to keep.
func (s *sampler) row(dst []byte, u, v float64) {
	const one = 1 << 16
	// Half a pixel back: pixel i of the level has its middle at i + 0.5.
	fu, fv := int64((u-0.5)*one), int64((v-0.5)*one)
	du, dv := int64(s.ux*one), int64(s.vx*one)
	keep := uint64(s.keep)
	if s.through {
		keep = 256
	}
	for ; len(dst) >= 4; dst = dst[4:] {
		x, y := fu>>16, fv>>16
		wx, wy := uint64(fu>>8)&0xFF, uint64(fv>>8)&0xFF
		d := wx * wy >> 8 * keep >> 8
		b, c := wx*keep>>8-d, wy*keep>>8-d
		a := keep - b - c - d
		var top, low uint64
		if uint64(x) < uint64(s.maxX) && uint64(y) < uint64(s.maxY) {
			at := int(y)*s.stride + 4*int(x)
			top = binary.LittleEndian.Uint64(s.pix[at : at+8 : at+8])
			at += s.stride
			low = binary.LittleEndian.Uint64(s.pix[at : at+8 : at+8])
		} else {
			top, low = s.edge(x, y)
		}
		mix := spread(uint32(top))*a + spread(uint32(top>>32))*b + spread(uint32(low))*c + spread(uint32(low>>32))*d
		if s.through {
			mix = spread(inverted(joined(mix>>8&lanes)))*uint64(s.keep) + s.rest
		} else {
			mix += s.rest
		}
		binary.LittleEndian.PutUint32(dst, joined(mix>>8&lanes)|0xFF000000)
		fu += du
		fv += dv
	}
}

// edge returns the upper and the lower two neighbours where some lie outside:
// the pixels at the edge are repeated.
func (s *sampler) edge(x, y int64) (top, low uint64) {
	x0, x1 := min(max(x, 0), s.maxX), min(max(x+1, 0), s.maxX)
	r0, r1 := int(min(max(y, 0), s.maxY))*s.stride, int(min(max(y+1, 0), s.maxY))*s.stride
	return uint64(s.at(r0, x0)) | uint64(s.at(r0, x1))<<32, uint64(s.at(r1, x0)) | uint64(s.at(r1, x1))<<32
}

func (s *sampler) at(row int, x int64) uint32 {
	i := row + 4*int(x)
	return binary.LittleEndian.Uint32(s.pix[i : i+4 : i+4])
}

// inverted swaps light and dark of a pixel: what is added to each channel makes
// the sum of the largest and the smallest 255 less what it was, so the hue and
// the distance of the channels stay. White becomes a grey just off black. That alone
// leaves pure colours as they are, and blue lines would be lost on the dark: a colour is
// mixed with white until it is three fifths as light as it was dark. Lightness is
// taken of the bytes, with the shares of ITU-R BT.709.
func inverted(c uint32) uint32 {
	r, g, b := c&0xFF, c>>8&0xFF, c>>16&0xFF
	least := (255 - luma(r, g, b)) * 3 / 5
	d := 255 - max(r, g, b) - min(r, g, b)
	r, g, b = r+d, g+d, b+d
	if is := luma(r, g, b); is < least {
		mixed := func(v uint32) uint32 { return v + (255-v)*(least-is)/(255-is) }
		r, g, b = mixed(r), mixed(g), mixed(b)
	}
	return r | g<<8 | b<<16 | 0xFF000000
}

// luma is how light a colour is, 0 to 255.
func luma(r, g, b uint32) uint32 { return (54*r + 183*g + 19*b) >> 8 }

// Print returns the pixels of an image item for a printed sheet: of the level
// that has at least that many pixels a millimetre.
func (it *Item) Print(perMM float64) *image.RGBA {
	a, b := it.Points[0], it.Points[1]
	return it.Image.Level(it.Image.LevelFor(perMM * math.Hypot(b.X-a.X, b.Y-a.Y)))
}
