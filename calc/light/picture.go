package light

import (
	"image"
	"math"

	q "duskwire/calc/quantity"
)

// Exposure says how luminance becomes a picture. It is fixed, never taken from
// the picture, so that two schemes can be compared: a dimmer one looks dimmer.
type Exposure struct {
	// White is the illuminance on a surface of reflectance Half that is shown
	// white.
	White q.Lux
	Half  float64
	// Gentle is the scaled luminance of that white: 1 is a plain scale, more
	// lifts the dark and bends the bright.
	Gentle float64
	// Moon is added on the ground, of the white MoonWhite, so that the plan can
	// be read where no lamp shines.
	Moon      q.Lux
	MoonWhite q.Kelvin
}

// Night is the exposure of all pictures: white at 100 lx on reflectance 0.5,
// moonlight of 0.3 lx, the most of what is recommended (0.1 to 0.3, about that of the
// full moon, from memory; up to 1 found): looked at side by side, lawn, beds and bare
// ground are one black at 0.1 where no lamp shines, and unlit paving looks lit at 0.5.
// That the moon is shown bluish, though sunlight by its spectrum, is how night
// is usually drawn (common practice, no source).
var Night = Exposure{White: 100, Half: 0.5, Gentle: 12, Moon: 0.3, MoonWhite: 7500}

// tone is the global photographic curve of 2002:
//
//	L_d = L_s(1 + L_s/L_w²)/(1 + L_s)
//
// 0 at 0 and 1 at L_w.
func tone(ls, lw float64) float64 { return ls * (1 + ls/(lw*lw)) / (1 + ls) }

// Develop returns the encoded colour 0 to 1 of a surface of reflectance rho
// under the stimulus e in lux: L = E·ρ/π, the curve on luminance, chromaticity
// kept, then clipped and encoded.
func (x Exposure) Develop(e XYZ, rho RGB) RGB {
	c := e.Linear()
	for i := range c {
		c[i] *= rho[i]
	}
	return x.shown(c)
}

// shown is Develop for linear light already reflected, E·ρ.
func (x Exposure) shown(c RGB) RGB {
	l := c.luminance()
	if !(l > 0) {
		return RGB{}
	}
	ls := x.Gentle * l / (float64(x.White) * x.Half)
	k := tone(ls, x.Gentle) / l
	for i := range c {
		c[i] = encoded(c[i] * k)
	}
	return c
}

// Picture returns the sheet as an image, a pixel a cell, row 0 of the image the
// last row of the grid, whose y runs up. ground gives the reflectance of a cell.
// The lights of all whites are added before anything is clipped. Ordered dither
// of half a step keeps dark gradients from banding.
func (s *Sheet) Picture(x Exposure, ground func(x, y int) RGB) *image.RGBA {
	g := s.grid
	out := image.NewRGBA(image.Rect(0, 0, g.W, g.H))
	per := make([]RGB, len(s.layers))
	for i, l := range s.layers {
		per[i] = Stimulus(l.white, unit).Linear()
	}
	moon := Stimulus(x.MoonWhite, float64(x.Moon)).Linear()
	for cy := 0; cy < g.H; cy++ {
		py := g.H - 1 - cy
		for cx := 0; cx < g.W; cx++ {
			c := moon
			for i, l := range s.layers {
				u := float64(l.units[cy*g.W+cx])
				c[0], c[1], c[2] = c[0]+u*per[i][0], c[1]+u*per[i][1], c[2]+u*per[i][2]
			}
			rho := ground(cx, cy)
			c[0], c[1], c[2] = c[0]*rho[0], c[1]*rho[1], c[2]*rho[2]
			c = x.shown(c)
			p := out.Pix[py*out.Stride+4*cx:]
			d := dither(cx, py)
			p[0], p[1], p[2], p[3] = level(c[0], d), level(c[1], d), level(c[2], d), 255
		}
	}
	return out
}

// Stimulus returns the mixed light of a cell in XYZ, Y in lux.
func (s *Sheet) Stimulus(x, y int) XYZ {
	var sum XYZ
	for _, l := range s.layers {
		sum = sum.Add(Stimulus(l.white, float64(l.units[y*s.grid.W+x])*unit))
	}
	return sum
}

// dither returns the ordered offset of a pixel, -½ to ½ of a step, from the
// 8 x 8 pattern made by interleaving the bits of y and x^y.
func dither(x, y int) float64 {
	v := 0
	for bit := 0; bit < 3; bit++ {
		v |= ((x^y)>>bit&1)<<(5-2*bit) | (y>>bit&1)<<(4-2*bit)
	}
	return (float64(v)+0.5)/64 - 0.5
}

// level returns the byte of an encoded value.
func level(v, d float64) uint8 {
	return uint8(math.Max(0, math.Min(255, math.Floor(255*v+d+0.5))))
}
