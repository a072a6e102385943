package judge

import (
	"math"

	"duskwire/calc/cable"
	q "duskwire/calc/quantity"
)

// Beside is what an armour that is joined at both ends takes off a reading of the
// protective core that it lies beside, summed over the runs on the way, at 20 °C.
// It explains a low reading and is never used for a limit: what a circuit needs is
// held against the core alone.
type Beside struct {
	Core q.Ohm // of the cores that have such an armour
	Both q.Ohm // of the same with the armour side by side, see Add
}

// Add returns the sum with one more run, core·armour/(core + armour) beside; the
// same sum where one of the two is not known. Runs in a row whose armours are not
// linked between them read more than this sum, never less.
func (s Beside) Add(core, armour q.Ohm) Beside {
	if core > 0 && armour > 0 {
		s.Core += core
		s.Both += core * armour / (core + armour)
	}
	return s
}

func (s Beside) any() bool { return s.Core > 0 }

// less is how much lower a reading on that day is at most. Copper and steel change
// by almost the same factor; the smaller one gives the lowest reading.
func (s Beside) less(d Day) float64 {
	copper := cable.CopperAt(d.Temperature)
	return float64(s.Core)*copper - float64(s.Both)*math.Min(copper, cable.SteelAt(d.Temperature))
}
