package picture

import (
	"image"
	"image/color"
	"image/draw"
)

// strip is how many rows are converted at a time, so that a large picture is
// never held twice.
const strip = 64

// shrink returns the picture at another size, on white where it is
// transparent. Each pixel is the mean of the area that it covers; w and h must
// not be larger than the picture.
func shrink(src image.Image, w, h int) *image.RGBA {
	b := src.Bounds()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	rows := image.NewRGBA(image.Rect(0, 0, b.Dx(), min(strip, b.Dy())))
	if w == b.Dx() && h == b.Dy() {
		onWhite(out, src, b.Min)
		return out
	}
	s := &shrinker{out: out, sum: make([]float32, 3*w), line: make([]float32, 3*w), across: spans(b.Dx(), w), down: spans(b.Dy(), h)}
	for y0 := 0; y0 < b.Dy(); y0 += strip {
		n := min(strip, b.Dy()-y0)
		part := rows.SubImage(image.Rect(0, 0, b.Dx(), n)).(*image.RGBA)
		onWhite(part, src, image.Pt(b.Min.X, b.Min.Y+y0))
		for y := range n {
			s.row(y0+y, part.Pix[y*part.Stride:y*part.Stride+4*b.Dx()])
		}
	}
	return out
}

// onWhite draws src over a white dst.
func onWhite(dst *image.RGBA, src image.Image, at image.Point) {
	if o, ok := src.(interface{ Opaque() bool }); ok {
		switch src.(type) {
		case *image.YCbCr, *image.Gray, *image.CMYK: // never see through, and cheap to know
			draw.Draw(dst, dst.Rect, src, at, draw.Src)
			return
		case *image.RGBA:
			if o.Opaque() {
				draw.Draw(dst, dst.Rect, src, at, draw.Src)
				return
			}
		}
	}
	draw.Draw(dst, dst.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(dst, dst.Rect, src, at, draw.Over)
}

// span is where a source pixel goes: the share first in the output pixel at,
// the rest in the one after it.
type span struct {
	at    int
	first float32
	rest  float32
}

// spans returns where each of from pixels goes among to pixels, to <= from.
// The shares that one output pixel gets sum to 1.
func spans(from, to int) []span {
	out := make([]span, from)
	k := float64(to) / float64(from)
	for i := range out {
		lo, hi := float64(i)*k, float64(i+1)*k
		at := min(int(lo), to-1)
		edge := float64(at + 1)
		if hi <= edge || at == to-1 {
			out[i] = span{at, float32(hi - lo), 0}
		} else {
			out[i] = span{at, float32(edge - lo), float32(hi - edge)}
		}
	}
	return out
}

// shrinker adds up rows of the source.
type shrinker struct {
	out          *image.RGBA
	sum, line    []float32 // of the output row that is being filled; one row shrunk across
	across, down []span
}

// row adds source row y.
func (s *shrinker) row(y int, pix []byte) {
	clear(s.line)
	for x := range s.across {
		p := &s.across[x]
		r, g, b := float32(pix[4*x]), float32(pix[4*x+1]), float32(pix[4*x+2])
		l := s.line[3*p.at:]
		l[0] += r * p.first
		l[1] += g * p.first
		l[2] += b * p.first
		if p.rest > 0 {
			l[3] += r * p.rest
			l[4] += g * p.rest
			l[5] += b * p.rest
		}
	}
	d := s.down[y]
	for i, v := range s.line {
		s.sum[i] += v * d.first
	}
	if y+1 < len(s.down) && s.down[y+1].at == d.at {
		return
	}
	row := s.out.Pix[d.at*s.out.Stride:]
	for x := range s.out.Rect.Dx() {
		row[4*x], row[4*x+1], row[4*x+2], row[4*x+3] = byteOf(s.sum[3*x]), byteOf(s.sum[3*x+1]), byteOf(s.sum[3*x+2]), 255
	}
	for i, v := range s.line { // what reaches into the next row
		s.sum[i] = v * d.rest
	}
}

func byteOf(v float32) byte { return byte(min(255, max(0, v+0.5))) }
