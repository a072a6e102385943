package light

import "math"

// Edge is where a beam ends: by the direction C round its axis the angle from the
// axis, in degrees, at which the intensity falls to half of the greatest. It never
// changes once made; nil and the zero Edge are that of a light without a beam.
type Edge struct{ half []float64 } // at C = 360°·k/len

const (
	// edgeStep is how far apart, in degrees of C, an edge is looked for.
	edgeStep = 5
	// noBeam is the angle from the axis from which a light that still has half of
	// its greatest intensity has no beam to speak of.
	noBeam = 85.0
)

// Edge returns the edge of the beam along the axis γ 0: in every plane C the
// outermost γ with half of the greatest intensity of all planes, 0 in a plane that
// has none. It has no angles when that is 85° or more anywhere.
func (d *Distribution) Edge() *Edge {
	n := 360 / edgeStep
	if d.Rotational() {
		n = 1
	}
	level := d.env[0] / 2
	e := &Edge{half: make([]float64, n)}
	for k := range e.half {
		e.half[k] = d.outermost(float64(k)*edgeStep, level)
	}
	if w := e.Widest(); w >= noBeam || w <= 0 || level <= 0 {
		return &Edge{}
	}
	return e
}

// outermost returns the last γ at which plane c has level or more.
func (d *Distribution) outermost(c, level float64) float64 {
	last := len(d.gamma) - 1
	after := d.at(c, d.gamma[last])
	if after >= level {
		return d.gamma[last]
	}
	for j := last - 1; j >= 0; j-- {
		g, now := d.gamma[j], d.at(c, d.gamma[j])
		if now >= level {
			return g + (now-level)/(now-after)*(d.gamma[j+1]-g)
		}
		after = now
	}
	return 0
}

// EdgeOf returns the edge of the models Beam and Ellipse by their full angles in
// degrees, along in C0-C180, across in C90-C270 or 0 for the same all round:
//
//	cos^n(φ) θ = ½,  n(φ) = 1/(cos²φ/n1 + sin²φ/n2)
//
// Where Ellipse would refuse the angles the beam is taken to be round.
func EdgeOf(along, across float64) *Edge {
	if !(along > 0) {
		return &Edge{}
	}
	n1, err1 := Exponent(along)
	n2, err2 := Exponent(across)
	if across == along || err1 != nil || err2 != nil {
		return &Edge{half: []float64{along / 2}}
	}
	e := &Edge{half: make([]float64, 360/edgeStep)}
	for k := range e.half {
		s, c := math.Sincos(float64(k) * edgeStep * degree)
		e.half[k] = math.Acos(math.Pow(0.5, c*c/n1+s*s/n2)) * perRad
	}
	return e
}

// Known reports whether there is a beam.
func (e *Edge) Known() bool { return e != nil && len(e.half) > 0 }

// Round reports whether the beam is the same all round.
func (e *Edge) Round() bool { return e != nil && len(e.half) == 1 }

// At returns the angle from the axis, in degrees, in the direction C; linear
// between what was looked for, 0 without a beam.
func (e *Edge) At(c float64) float64 {
	if !e.Known() {
		return 0
	}
	n := len(e.half)
	x := wrap(c) / 360 * float64(n)
	i := int(x)
	a, b := e.half[i%n], e.half[(i+1)%n]
	return a + (x-float64(i))*(b-a)
}

// Full returns the full angle in the plane through c and c+180, in degrees.
func (e *Edge) Full(c float64) float64 { return e.At(c) + e.At(c+180) }

// Widest returns the greatest angle from the axis.
func (e *Edge) Widest() float64 {
	w := 0.0
	if e != nil {
		for _, h := range e.half {
			w = math.Max(w, h)
		}
	}
	return w
}
