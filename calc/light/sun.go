package light

import "math"

// Depressions of the middle of the sun below a level horizon, in degrees. At
// rise and set its upper edge stands on the horizon: 34′ of refraction and 16′
// for its radius. Source: HM Nautical Almanac Office, Astronomical Information
// Sheet No. 7, "A note on sunrise, sunset and twilight times".
const (
	setBelow  = 50.0 / 60
	duskBelow = 6.0 // end of civil twilight
)

// settled is how little a time moves, in hours, when it is taken.
const settled = 1e-6

// Date is a day of the Gregorian calendar.
type Date struct{ Year, Month, Day int }

// Crossing is when the sun passes a height on one day.
type Crossing struct {
	// Up and Down are hours of universal time, counted from 0 h of the date: below
	// 0 or above 24 when they fall on the day before or after.
	Up, Down float64
	// Always says that the sun stays above the height all day, Never that it does
	// not reach it; Up and Down then mean nothing.
	Always, Never bool
}

// Hours returns how long the sun is above the height, 0 to 24.
func (c Crossing) Hours() float64 {
	switch {
	case c.Always:
		return 24
	case c.Never:
		return 0
	}
	return c.Down - c.Up
}

// SunDay is the sun of one day at one place.
type SunDay struct {
	Noon float64  // highest, in hours of universal time from 0 h of the date
	Day  Crossing // sunrise and sunset
	Dusk Crossing // begin and end of civil twilight
}

// SunOn returns the sun of a day at a latitude (north is positive, -90 to 90)
// and a longitude (east is positive, -180 to 180), in degrees. The day is the one
// around noon there. Formulas: low-precision coordinates of the sun by the U.S.
// Naval Observatory, as printed with their correction on
// www.mail-archive.com/sundial@uni-koeln.de/msg11185.html,
//
//	T = (JD - 2451545)/36525
//	L = 280.460 + 36000.770 T, G = 357.528 + 35999.050 T
//	M = L + 1.915 sin G + 0.020 sin 2G, e = 23.4393 - 0.01300 T
//	E = -1.915 sin G - 0.020 sin 2G + 2.466 sin 2M - 0.053 sin 4M
//	GHA = 15 UT - 180 + E, sin δ = sin e · sin M
//	cos t = (sin H - sin φ sin δ)/(cos φ cos δ), UT ← UT - (GHA + λ ± t)/15
//
// in degrees, iterated until the time stays. Good to about a minute from 1950 to
// 2050 up to latitude 65; near the days on which the sun just touches the height
// the time means little, as it does in print. Weather and what stands on the
// horizon are not in it.
func SunOn(d Date, latitude, longitude float64) SunDay {
	jd := julian(d)
	noon := 12 - longitude/15
	for range 4 {
		s := sunAt(jd, noon)
		noon -= turned(s.hour+longitude) / 15
	}
	return SunDay{
		Noon: noon,
		Day:  crossing(jd, noon, latitude, longitude, -setBelow),
		Dusk: crossing(jd, noon, latitude, longitude, -duskBelow),
	}
}

// sunPlace is where the sun stands: its hour angle at Greenwich and its
// declination, in degrees.
type sunPlace struct{ hour, declination float64 }

// sunAt returns the place of the sun ut hours after the Julian date jd.
func sunAt(jd, ut float64) sunPlace {
	t := (jd + ut/24 - 2451545) / 36525
	l, g := 280.460+36000.770*t, 357.528+35999.050*t
	m := l + 1.915*sinDeg(g) + 0.020*sinDeg(2*g)
	e := -1.915*sinDeg(g) - 0.020*sinDeg(2*g) + 2.466*sinDeg(2*m) - 0.053*sinDeg(4*m)
	tilt := 23.4393 - 0.01300*t
	return sunPlace{15*ut - 180 + e, math.Asin(sinDeg(tilt)*sinDeg(m)) * 180 / math.Pi}
}

// crossing finds when the sun passes a height in degrees, before and after noon.
func crossing(jd, noon, latitude, longitude, height float64) Crossing {
	var c Crossing
	times := [2]float64{}
	for i, side := range []float64{1, -1} {
		ut, bare := noon, 0.0
		for range 20 {
			s := sunAt(jd, ut)
			down := cosDeg(latitude) * cosDeg(s.declination)
			bare = sinDeg(height) - sinDeg(latitude)*sinDeg(s.declination)
			t := 0.0
			switch { // at the poles down is 0 and the height alone decides
			case bare <= -down:
				t = 180
			case bare < down:
				t = math.Acos(bare/down) * 180 / math.Pi
			}
			past := 15 * (ut - noon) // the hour angle here, but for the little that noon moves
			step := (past + turned(s.hour+longitude-past) + side*t) / 15
			ut -= step
			c.Always, c.Never = c.Always && i > 0 || bare <= -down, c.Never && i > 0 || bare >= down
			if math.Abs(step) < settled {
				break
			}
		}
		times[i] = ut
	}
	if c.Always || c.Never {
		return Crossing{Always: c.Always, Never: c.Never && !c.Always}
	}
	c.Up, c.Down = times[0], times[1]
	return c
}

// julian returns the Julian date of 0 h universal time of a day (Fliegel and
// Van Flandern, Communications of the ACM 11, 1968, p. 657; from memory).
func julian(d Date) float64 {
	a := (d.Month - 14) / 12
	n := d.Day - 32075 + 1461*(d.Year+4800+a)/4 + 367*(d.Month-2-12*a)/12 - 3*((d.Year+4900+a)/100)/4
	return float64(n) - 0.5
}

// turned brings degrees between -180 and 180.
func turned(v float64) float64 { return math.Remainder(v, 360) }

func sinDeg(v float64) float64 { return math.Sin(v * math.Pi / 180) }
func cosDeg(v float64) float64 { return math.Cos(v * math.Pi / 180) }
