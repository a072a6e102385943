package network

import (
	"math"

	q "duskwire/calc/quantity"
)

// Strip is a lamp spread evenly along two tracks of its own, so that it loses
// volts within itself. Per metre of length ℓ it draws what Load says over ℓ;
// r is the resistance of both tracks per metre.
//
// Seen from its two ends a strip is a branch with one load at each end. For a
// current in proportion to U - Uf (resistor strip; resistive with Uf = 0), with
// g = In/((Un-Uf)·ℓ) per metre and θ = ℓ·sqrt(r·g), that is exact:
//
//	Z = r·ℓ·sinh θ/θ      each end: half the load times tanh(θ/2)/(θ/2)
//
// from d²u/dx² = r·g·(u - Uf). For constant current it is exact with Z = r·ℓ
// and half the load at each end; for the other laws that is an approximation
// that is good while the strip loses little. Derived; valid while every diode
// conducts, u > Uf all along. Phases are not followed within a strip, and its
// tracks are taken at the resistance given, not warmed.
type Strip struct {
	Load   Load // of the whole strip
	Length q.Metre
	Tracks q.OhmPerMetre // both tracks
}

// linear reports whether the strip's current follows U - Uf, with θ.
func (s Strip) linear() (theta float64, ok bool) {
	l := &s.Load
	if l.Law != ResistorStrip && l.Law != Resistive {
		return 0, false
	}
	above := float64(l.Nominal)
	if l.Law == ResistorStrip {
		above -= float64(l.Forward)
	}
	theta = math.Sqrt(float64(s.Tracks) * float64(s.Length) * float64(l.Rated()) / above)
	return theta, theta > 1e-6
}

// End returns the load that stands at each end of the strip.
func (s Strip) End() Load {
	half := s.Load
	half.Power /= 2
	if theta, ok := s.linear(); ok {
		half.Power *= q.Watt(math.Tanh(theta/2) / (theta / 2))
	}
	return half
}

// Impedance returns the resistance between the two ends, in Ω.
func (s Strip) Impedance() q.Ohm {
	z := float64(s.Tracks) * float64(s.Length)
	if theta, ok := s.linear(); ok {
		z *= math.Sinh(theta) / theta
	}
	return q.Ohm(z)
}

// Least returns the lowest voltage along the strip for the voltages at its
// ends: inside it where both ends are fed. Same range as the model.
func (s Strip) Least(near, far q.Volt) q.Volt {
	a, b := float64(near), float64(far)
	ends := math.Min(a, b)
	if theta, ok := s.linear(); ok {
		uf := 0.0
		if s.Load.Law == ResistorStrip {
			uf = float64(s.Load.Forward)
		}
		// u - Uf = A·cosh ξ + B·sinh ξ with ξ = x·sqrt(r·g) from the near end
		A := a - uf
		B := (b - uf - A*math.Cosh(theta)) / math.Sinh(theta)
		if x := -B / A; A > 0 && x > 0 && x < math.Tanh(theta) {
			return q.Volt(uf + math.Sqrt(A*A-B*B))
		}
		return q.Volt(ends)
	}
	// u = near + B·x + r·i/2·x² with the current i per metre, which lamps of
	// constant power raise as volts fall.
	length, r := float64(s.Length), float64(s.Tracks)
	least := ends
	for range 3 {
		i := cabs(s.Load, least) / length
		B := (b-a)/length - r*i*length/2
		if x := -B / (r * i); x > 0 && x < length {
			least = a - B*B/(2*r*i)
		}
		if s.Load.Law == ConstantCurrent || least <= 0 {
			break
		}
	}
	return q.Volt(math.Max(math.Min(least, ends), 0))
}

// cabs is the magnitude of a load's current at u volts.
func cabs(l Load, u float64) float64 {
	i := l.Current(complex(u, 0))
	return math.Hypot(real(i), imag(i))
}

// Volts returns the voltage at a place along the strip, 0 at its near end to 1 at
// its far end, for the voltages at the two. Exact for the laws that the model is
// exact for; for constant power the current per metre is that at the mean of the
// ends, good while the strip loses little. Outside 0 to 1 the nearer end counts.
// Derived, as the model.
func (s Strip) Volts(near, far q.Volt, place float64) q.Volt {
	a, b := float64(near), float64(far)
	switch {
	case place <= 0:
		return near
	case place >= 1:
		return far
	}
	if theta, ok := s.linear(); ok {
		uf := 0.0
		if s.Load.Law == ResistorStrip {
			uf = float64(s.Load.Forward)
		}
		// u - Uf between the ends is the sum of what each alone would hold up.
		return q.Volt(uf + ((a-uf)*math.Sinh(theta*(1-place))+(b-uf)*math.Sinh(theta*place))/math.Sinh(theta))
	}
	// u'' = r·i, so that u lies below the chord by r·i·x·(ℓ-x)/2.
	length, r := float64(s.Length), float64(s.Tracks)
	i := cabs(s.Load, (a+b)/2) / length
	return q.Volt(math.Max(a+(b-a)*place-r*i*length*length*place*(1-place)/2, 0))
}
