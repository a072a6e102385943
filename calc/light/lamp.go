package light

import (
	"fmt"
	"math"

	q "duskwire/calc/quantity"
)

// Lamp is a luminaire as placed. Angles are in radians.
type Lamp struct {
	ID string
	At Vec // photometric centre, metres
	// Bearing is where the beam points on the plan, anticlockwise from +x; Tilt
	// how far from straight down: 0 down, π/2 level, π up; Spin turns the lamp
	// about the axis of its beam before it is tilted.
	Bearing, Tilt, Spin float64
	Dist                *Distribution
	Share               float64  // of full output: dimming, volts, tilt factor
	White               q.Kelvin // colour temperature
	Opening             Opening
	// Maintained is the factor for age and dirt of this lamp, 0 that of the scene.
	Maintained float64
	Profile    Profile // along the opening; zero is even
}

// AimAt returns bearing and tilt of a lamp at from whose beam goes through to:
//
//	τ = acos(-a_z), α = atan2(a_y, a_x), a the unit vector from lamp to target
//
// Straight down when both are the same point.
func AimAt(from, to Vec) (bearing, tilt float64) {
	a := to.Sub(from).Unit()
	if a == (Vec{}) {
		return 0, 0
	}
	return math.Atan2(a.Y, a.X), math.Acos(math.Max(-1, math.Min(1, -a.Z)))
}

// frame returns R = Rz(α)·Ry(-τ)·Rz(ψ), which takes the lamp frame, aimed down,
// to the world; R·(0,0,-1) = (sinτ cosα, sinτ sinα, -cosτ) (derived).
func (l *Lamp) frame() rotation {
	turn := func(v Vec) Vec {
		s, c := math.Sincos(l.Spin)
		v = Vec{c*v.X - s*v.Y, s*v.X + c*v.Y, v.Z}
		s, c = math.Sincos(l.Tilt)
		v = Vec{c*v.X - s*v.Z, v.Y, s*v.X + c*v.Z}
		s, c = math.Sincos(l.Bearing)
		return Vec{c*v.X - s*v.Y, s*v.X + c*v.Y, v.Z}
	}
	return rotation{x: turn(Vec{X: 1}), y: turn(Vec{Y: 1}), z: turn(Vec{Z: 1})}
}

// Into returns a direction of the world in the frame of the lamp.
func (l *Lamp) Into(u Vec) Vec { r := l.frame(); return r.from(u) }

// Out returns a direction of the lamp's frame in the world.
func (l *Lamp) Out(e Vec) Vec { r := l.frame(); return r.to(e) }

// Axis returns the direction of the beam.
func (l *Lamp) Axis() Vec {
	r := l.frame()
	return r.z.Mul(-1)
}

// Toward returns the intensity of the lamp in a direction of the world.
func (l *Lamp) Toward(u Vec) q.Candela {
	r := l.frame()
	return q.Candela(l.Share * l.Dist.along(r.from(u.Unit())))
}

// UpwardShare returns the part of the lamp's flux that goes above the
// horizontal as it is aimed, 0 to 1. What a wall or tree would catch counts as
// upward.
func (l *Lamp) UpwardShare() float64 {
	r := l.frame()
	return l.Dist.upward(&r)
}

// check returns what makes the lamp unfit for calculation.
func (l *Lamp) check() error {
	for _, v := range []struct {
		what  string
		value float64
	}{{"x", l.At.X}, {"y", l.At.Y}, {"z", l.At.Z}, {"bearing", l.Bearing}, {"tilt", l.Tilt}, {"spin", l.Spin}, {"share", l.Share}} {
		if math.IsNaN(v.value) || math.IsInf(v.value, 0) {
			return fmt.Errorf("lamp %s: %s: found no number, expected one", l.ID, v.what)
		}
	}
	switch {
	case l.Dist == nil:
		return fmt.Errorf("lamp %s: found no distribution, expected one", l.ID)
	case l.Share < 0:
		return fmt.Errorf("lamp %s: share: found %g, expected 0 or more", l.ID, l.Share)
	case !(l.Maintained >= 0 && l.Maintained <= 1):
		return fmt.Errorf("lamp %s: maintenance factor: found %g, expected above 0 up to 1", l.ID, l.Maintained)
	case !l.Opening.bounded():
		return fmt.Errorf("lamp %s: luminous opening: found %v, expected 0 to 100 m", l.ID, l.Opening)
	case !l.Profile.bounded():
		return fmt.Errorf("lamp %s: light along the opening: found %v, expected 0 to %d", l.ID, l.Profile, 2*Along)
	}
	return nil
}
