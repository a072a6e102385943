package light

import (
	"image"
	"math"
)

// Ground says of what the cells of a grid are made: an index into Rho a cell,
// row after row as in the sheet, and what each reflects.
type Ground struct {
	Kind []uint8
	Rho  []RGB
}

// Paint is Picture by tables, for a picture that has to follow a hand: out, an
// image of a pixel a cell, is written over. It differs from Picture by at most
// one step of a channel, where that rounds either way. It panics when sizes do
// not fit.
func (s *Sheet) Paint(x Exposure, ground Ground, out *image.RGBA) {
	g := s.grid
	if len(ground.Kind) != g.W*g.H || out.Rect != image.Rect(0, 0, g.W, g.H) {
		panic("light: Paint with a ground or an image of another size")
	}
	per := make([]RGB, len(s.layers))
	for i, l := range s.layers {
		per[i] = Stimulus(l.white, unit).Linear()
	}
	moon := Stimulus(x.MoonWhite, float64(x.Moon)).Linear()
	bend := x.Gentle / (float64(x.White) * x.Half) // to scaled luminance
	flat := 1 / (x.Gentle * x.Gentle)
	for cy := range g.H {
		py := g.H - 1 - cy
		row := out.Pix[py*out.Stride : py*out.Stride+4*g.W]
		for cx := range g.W {
			at := cy*g.W + cx
			c := moon
			for i, l := range s.layers {
				if u := l.units[at]; u != 0 {
					f := float64(u)
					c[0], c[1], c[2] = c[0]+f*per[i][0], c[1]+f*per[i][1], c[2]+f*per[i][2]
				}
			}
			rho := &ground.Rho[ground.Kind[at]]
			c[0], c[1], c[2] = c[0]*rho[0], c[1]*rho[1], c[2]*rho[2]
			k := 0.0
			if l := c.luminance(); l > 0 {
				ls := bend * l
				k = bend * (1 + ls*flat) / (1 + ls) // tone(ls)/l
			}
			d := dithers[py&7][cx&7] + 0.5
			p := row[4*cx : 4*cx+4]
			p[0], p[1], p[2], p[3] = stepped(c[0]*k, d), stepped(c[1]*k, d), stepped(c[2]*k, d), 255
		}
	}
}

// stepped returns the byte of a linear value; d is what dither adds, with the
// half that rounds.
func stepped(v, d float64) uint8 {
	return uint8(min(max(float64(codes[codeAt(v)])+d, 0), 255))
}

// codes are 255 times the encoded values by the leading bits of a linear value
// as float32: twelve octaves below 1, each in 2048 parts, so that a code is
// within 0.03 of a step of its place. Below that the curve is a line, and a
// value there shows as black.
var codes = encodedTable()

const (
	codeShift = 12 // bits of the mantissa that are left out
	codeLow   = (127 - 12) << (23 - codeShift)
	codeHigh  = 127 << (23 - codeShift)
)

// codeAt returns the place of a value in codes.
func codeAt(v float64) int {
	if !(v > 0) {
		return 0
	}
	at := int(math.Float32bits(float32(v))>>codeShift) - codeLow
	return min(max(at, 0), codeHigh-codeLow)
}

func encodedTable() []float32 {
	out := make([]float32, codeHigh-codeLow+1)
	for i := range out {
		v := math.Float32frombits(uint32(i+codeLow)<<codeShift | 1<<(codeShift-1))
		out[i] = float32(255 * encoded(float64(v)))
	}
	out[0], out[len(out)-1] = 0, 255
	return out
}

// dithers is dither for all places of its pattern.
var dithers = func() (t [8][8]float64) {
	for y := range 8 {
		for x := range 8 {
			t[y][x] = dither(x, y)
		}
	}
	return t
}()
