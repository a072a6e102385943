package network

import (
	"math"

	q "duskwire/calc/quantity"
)

// LightRange is what the light of a lamp may be at its volts, each as a share of
// that at nominal voltage. Where the light is known all three are that.
type LightRange struct {
	Least, Most float64
	// Drawn is what a picture shows for it.
	Drawn float64
}

// Full is the light at nominal voltage.
var Full = LightRange{1, 1, 1}

// Range returns the light at the voltage u, and ok as Light does. Where that is
// not known it has bounds:
//
//	below what a driver is vouched for   from 0, it has dropped out, to 1, it still holds;
//	                                     drawn as a filament, (U/Un)^3.4
//	above Maximum                        from 0, it has failed, to (U/Un)^3.4; drawn as 1
//	anything else                        from 0 to 1, drawn as 1
//
// Nobody tells how a driver behaves below its range: makers state one light down to
// a voltage, then flicker or nothing (found, sellers' pages). The law of a filament
// is the only one for 12 V garden lamps that was found, and what the trade compares
// a dim end with; that it stands for a driver here is common practice, no source.
func (l Load) Range(u q.Volt) (r LightRange, ok bool) {
	if v, ok := l.Light(u); ok {
		return LightRange{v, v, v}, true
	}
	if l.Law == Driven || l.Nominal <= 0 || math.IsNaN(float64(u)) {
		return LightRange{0, 1, 1}, false
	}
	like := math.Pow(math.Max(float64(u/l.Nominal), 0), filamentLight)
	r = LightRange{Most: math.Max(like, 1), Drawn: math.Min(like, 1)}
	if l.Maximum > 0 && u > l.Maximum {
		r.Drawn = 1
	}
	return r, false
}
