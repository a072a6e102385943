// Package sight shows colours as people see them who lack one kind of cone, and
// says how far apart two colours look. It helps tests.
package sight

import "math"

// Eye is a kind of sight.
type Eye int

// The kinds of sight: all cones there, or one kind of the three missing.
const (
	Normal       Eye = iota
	Protanopia       // no cones for long waves
	Deuteranopia     // none for middle waves
	Tritanopia       // none for short waves
)

// Eyes are all kinds.
var Eyes = []Eye{Normal, Protanopia, Deuteranopia, Tritanopia}

// String names the kind.
func (e Eye) String() string {
	return [...]string{"normal sight", "protanopia", "deuteranopia", "tritanopia"}[e]
}

// matrices turn linear sRGB into what is seen, a row a channel. Source: G. M.
// Machado, M. M. Oliveira, L. A. F. Fernandes, "A Physiologically-based Model for
// Simulation of Color Vision Deficiency", IEEE Transactions on Visualization and
// Computer Graphics 15 (2009) 6, pp. 1291-1298; the matrices for severity 1.0, as
// the authors publish them (https://www.inf.ufrgs.br/~oliveira/pubs_files/CVD_Simulation/CVD_Simulation.html),
// here read from the table of colour/blindness/datasets/machado2010.py in the
// library colour-science/colour. That they work on linear values says
// https://colour.readthedocs.io/en/v0.4.7/generated/colour.plotting.plot_cvd_simulation_Machado2009.html.
var matrices = map[Eye][3][3]float64{
	Protanopia: {
		{0.152286, 1.052583, -0.204868},
		{0.114503, 0.786281, 0.099216},
		{-0.003882, -0.048116, 1.051998},
	},
	Deuteranopia: {
		{0.367322, 0.860646, -0.227968},
		{0.280085, 0.672501, 0.047413},
		{-0.011820, 0.042940, 0.968881},
	},
	Tritanopia: {
		{1.255528, -0.076749, -0.178779},
		{-0.078411, 0.930809, 0.147602},
		{0.004733, 0.691367, 0.303900},
	},
}

// Lab is a colour in CIELAB.
type Lab struct{ L, A, B float64 }

// See returns how an sRGB colour looks to a kind of eye, in CIELAB with the white
// D65. What falls out of sRGB is cut off, as on a screen.
func See(e Eye, r, g, b uint8) Lab {
	in := [3]float64{linear(r), linear(g), linear(b)}
	out := in
	if m, ok := matrices[e]; ok {
		for i, row := range m {
			out[i] = min(1, max(0, row[0]*in[0]+row[1]*in[1]+row[2]*in[2]))
		}
	}
	return lab(out)
}

// linear undoes the curve of sRGB (IEC 61966-2-1).
func linear(v uint8) float64 {
	s := float64(v) / 255
	if s <= 0.04045 {
		return s / 12.92
	}
	return math.Pow((s+0.055)/1.055, 2.4)
}

// lab turns linear sRGB into CIELAB: to XYZ by IEC 61966-2-1, to L*a*b* by CIE 15
// with the white that R = G = B = 1 gives.
func lab(c [3]float64) Lab {
	toXYZ := [3][3]float64{
		{0.4124, 0.3576, 0.1805},
		{0.2126, 0.7152, 0.0722},
		{0.0193, 0.1192, 0.9505},
	}
	const bend = 6.0 / 29
	var f [3]float64
	for i, row := range toXYZ {
		t := (row[0]*c[0] + row[1]*c[1] + row[2]*c[2]) / (row[0] + row[1] + row[2])
		if t > bend*bend*bend {
			f[i] = math.Cbrt(t)
		} else {
			f[i] = t/(3*bend*bend) + 4.0/29
		}
	}
	return Lab{116*f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])}
}

// Difference is the colour difference CIEDE2000 with kL = kC = kH = 1: about 1 is
// just seen between large areas side by side. Source: CIE 142-2001, in the words of
// G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 Color-Difference Formula:
// Implementation Notes, Supplementary Test Data, and Mathematical Observations",
// Color Research and Application 30 (2005) 1, pp. 21-30, equations 2 to 22.
func Difference(p, q Lab) float64 {
	c1, h1, c2, h2 := primed(p, q)
	dL, dC := q.L-p.L, c2-c1
	turn := h2 - h1 // of the hue, degrees, the short way round
	middle := (h1 + h2) / 2
	switch {
	case c1*c2 == 0:
		turn, middle = 0, h1+h2
	case turn > 180:
		turn -= 360
	case turn < -180:
		turn += 360
	}
	if c1*c2 != 0 && math.Abs(h1-h2) > 180 {
		if middle < 180 {
			middle += 180
		} else {
			middle -= 180
		}
	}
	dH := 2 * math.Sqrt(c1*c2) * sin(turn/2)
	l, c := (p.L+q.L)/2-50, (c1+c2)/2
	t := 1 - 0.17*cos(middle-30) + 0.24*cos(2*middle) + 0.32*cos(3*middle+6) - 0.20*cos(4*middle-63)
	sL, sC, sH := 1+0.015*l*l/math.Sqrt(20+l*l), 1+0.045*c, 1+0.015*c*t
	around := math.Exp(-(middle - 275) / 25 * (middle - 275) / 25)
	rT := -2 * sevenths(c) * sin(60*around)
	dL, dC, dH = dL/sL, dC/sC, dH/sH
	return math.Sqrt(dL*dL + dC*dC + dH*dH + rT*dC*dH)
}

// primed returns chroma and hue (degrees, 0 to 360) of two colours with a*
// stretched near grey.
func primed(p, q Lab) (c1, h1, c2, h2 float64) {
	g := (1 - sevenths((math.Hypot(p.A, p.B)+math.Hypot(q.A, q.B))/2)) / 2
	of := func(x Lab) (c, h float64) {
		a := (1 + g) * x.A
		if a == 0 && x.B == 0 {
			return 0, 0
		}
		if h = math.Atan2(x.B, a) * 180 / math.Pi; h < 0 {
			h += 360
		}
		return math.Hypot(a, x.B), h
	}
	c1, h1 = of(p)
	c2, h2 = of(q)
	return c1, h1, c2, h2
}

// sevenths is the root of c⁷/(c⁷ + 25⁷).
func sevenths(c float64) float64 {
	c7 := math.Pow(c, 7)
	return math.Sqrt(c7 / (c7 + math.Pow(25, 7)))
}

func sin(degrees float64) float64 { return math.Sin(degrees * math.Pi / 180) }
func cos(degrees float64) float64 { return math.Cos(degrees * math.Pi / 180) }
