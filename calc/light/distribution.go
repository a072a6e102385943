package light

import (
	"fmt"
	"math"
	"sort"

	q "duskwire/calc/quantity"
)

// Distribution is the luminous intensity of a lamp at full output by direction:
// planes C and angles γ of Type C, γ 0 straight down in the lamp frame. It never
// changes once made.
//
// Between the knots it is linear in C and γ, the normal method of EN 13201-3 and
// CIE 140 (from memory; the LM-63 parsing note calls it adequate, found). At
// γ 0 and 180, where all planes meet, it is the mean of the planes. Beyond the
// first and last γ it is 0, never extrapolated.
type Distribution struct {
	c     []float64 // degrees, 0 to 360 both listed; {0} when rotational
	gamma []float64 // degrees, strictly rising within 0 to 180
	cd    []float64 // plane after plane
	start []uint16  // per half degree of γ: the last knot at or below it
	env   []float64 // per degree: the greatest intensity at that γ or beyond
	zonal float64   // lm, trapezoid rule
	exact float64   // lm, integral of what Intensity returns
}

// lookup is how many entries of start make a degree.
const lookup = 2

// newDistribution takes planes c of knots gamma; cd plane after plane. One plane
// makes a rotational table; more must reach from 0 to 360. It panics on other
// input: readers and models check theirs first.
func newDistribution(c, gamma, cd []float64) *Distribution {
	if len(c) == 0 || len(gamma) < 2 || len(gamma) > math.MaxUint16 || len(cd) != len(c)*len(gamma) ||
		len(c) > 1 && (c[0] != 0 || c[len(c)-1] != 360) {
		panic(fmt.Sprintf("light: table of %d planes, %d angles, %d intensities", len(c), len(gamma), len(cd)))
	}
	d := &Distribution{c: c, gamma: gamma, cd: cd}
	d.joinPoles()
	d.start = make([]uint16, 180*lookup+2)
	for i := range d.start {
		at := float64(i) / lookup
		k := sort.SearchFloat64s(gamma, at)
		if k == len(gamma) || gamma[k] > at {
			k--
		}
		d.start[i] = uint16(min(max(k, 0), len(gamma)-2))
	}
	d.env = d.envelope()
	d.zonal, d.exact = d.integrate()
	return d
}

// envelope returns, per whole degree of γ, the greatest intensity there and
// beyond in any plane.
func (d *Distribution) envelope() []float64 {
	n := len(d.gamma)
	most := make([]float64, n) // at this knot or a later one
	for k := len(d.cd) - 1; k >= 0; k-- {
		most[k%n] = math.Max(most[k%n], d.cd[k])
	}
	for j := n - 2; j >= 0; j-- {
		most[j] = math.Max(most[j], most[j+1])
	}
	env := make([]float64, 182)
	for k := range env[:181] {
		if float64(k) <= d.gamma[n-1] {
			env[k] = most[d.start[k*lookup]]
		}
	}
	return env
}

// joinPoles gives all planes their mean where they meet.
func (d *Distribution) joinPoles() {
	n := len(d.gamma)
	join := func(j int) {
		sum, weight := 0.0, 0.0
		for p := range d.c {
			w := d.share(p)
			sum, weight = sum+w*d.cd[p*n+j], weight+w
		}
		for p := range d.c {
			d.cd[p*n+j] = sum / weight
		}
	}
	if len(d.c) == 1 {
		return
	}
	if d.gamma[0] == 0 {
		join(0)
	}
	if d.gamma[n-1] == 180 {
		join(n - 1)
	}
}

// share is the part of the circle that the trapezoid rule gives to plane p.
func (d *Distribution) share(p int) float64 {
	if len(d.c) == 1 {
		return 1
	}
	last := len(d.c) - 1
	before, after := 0.0, 0.0
	if p > 0 {
		before = d.c[p] - d.c[p-1]
	}
	if p < last {
		after = d.c[p+1] - d.c[p]
	}
	return (before + after) / 720
}

// Rotational reports whether all planes are alike, so that spin does nothing.
func (d *Distribution) Rotational() bool { return len(d.c) == 1 }

// Angles returns the knots of the table in degrees: planes C, 0 to 360 or 0
// alone, and angles γ. They are the caller's own.
func (d *Distribution) Angles() (c, gamma []float64) {
	return append([]float64(nil), d.c...), append([]float64(nil), d.gamma...)
}

// Intensity returns the intensity at plane c and angle gamma, both in degrees.
// c counts round the circle; gamma beyond the table gives 0.
func (d *Distribution) Intensity(c, gamma float64) q.Candela {
	return q.Candela(d.at(wrap(c), gamma))
}

// at is Intensity for c within 0 to 360.
func (d *Distribution) at(c, gamma float64) float64 {
	n := len(d.gamma)
	if !(gamma >= d.gamma[0] && gamma <= d.gamma[n-1]) {
		return 0
	}
	j := int(d.start[int(gamma*lookup)])
	for j < n-2 && d.gamma[j+1] < gamma {
		j++
	}
	k := (gamma - d.gamma[j]) / (d.gamma[j+1] - d.gamma[j])
	if len(d.c) == 1 {
		return d.cd[j] + k*(d.cd[j+1]-d.cd[j])
	}
	i := d.plane(c)
	m := (c - d.c[i]) / (d.c[i+1] - d.c[i])
	low, high := d.cd[i*n+j:], d.cd[(i+1)*n+j:]
	a := low[0] + k*(low[1]-low[0])
	b := high[0] + k*(high[1]-high[0])
	return a + m*(b-a)
}

// plane returns the last plane at or before c that has one after it.
func (d *Distribution) plane(c float64) int {
	// Planes are mostly equidistant: start where c would then lie.
	last := len(d.c) - 2
	i := min(max(int(c/360*float64(last+1)), 0), last)
	for i > 0 && d.c[i] > c {
		i--
	}
	for i < last && d.c[i+1] < c {
		i++
	}
	return i
}

// along returns the intensity towards the unit direction e of the lamp frame,
// e = (sinγ cosC, sinγ sinC, -cosγ).
func (d *Distribution) along(e Vec) float64 {
	gamma := acos(-e.Z) * perRad
	if len(d.c) == 1 {
		return d.at(0, gamma)
	}
	return d.at(atan2(e.Y, e.X)*perRad, gamma)
}

// beyond returns a bound of the intensity at gamma degrees and more from the axis.
func (d *Distribution) beyond(gamma float64) float64 {
	return d.env[min(max(int(gamma), 0), 181)]
}

// Turned returns the distribution turned by deg degrees of C, anticlockwise
// seen from above the lamp aimed down, for files whose C0 lies otherwise.
func (d *Distribution) Turned(deg float64) *Distribution { return d.remade(1, deg) }

// Mirrored returns the distribution with C running the other way round.
func (d *Distribution) Mirrored() *Distribution { return d.remade(-1, 0) }

// Scaled returns the distribution with k times the intensity everywhere, such as
// that of k metres of a strip measured by the metre. k is 0 or more.
func (d *Distribution) Scaled(k float64) (*Distribution, error) {
	if !(k >= 0 && k*d.env[0] <= 1e12) {
		return nil, fmt.Errorf("scale of a light: found %g, expected 0 or more and at most 1e12 cd", k)
	}
	cd := make([]float64, len(d.cd))
	for i, v := range d.cd {
		cd[i] = k * v
	}
	return newDistribution(d.c, d.gamma, cd), nil
}

// remade lays plane c at sign·c + deg; the knots go along, so that nothing is
// lost between them.
func (d *Distribution) remade(sign, deg float64) *Distribution {
	if len(d.c) == 1 {
		return d
	}
	c := []float64{0, 360}
	for _, old := range d.c {
		c = append(c, wrap(sign*old+deg))
	}
	sort.Float64s(c)
	kept := c[:1]
	for _, p := range c[1:] {
		if p-kept[len(kept)-1] > angleEps {
			kept = append(kept, p)
		}
	}
	kept[len(kept)-1] = 360
	gamma := append([]float64(nil), d.gamma...)
	cd := make([]float64, 0, len(kept)*len(gamma))
	for _, p := range kept {
		for _, g := range gamma {
			cd = append(cd, float64(d.Intensity(sign*(p-deg), g)))
		}
	}
	return newDistribution(kept, gamma, cd)
}

// wrap brings an angle in degrees into 0 to 360.
func wrap(c float64) float64 {
	if c = math.Mod(c, 360); c < 0 {
		c += 360
	}
	return c
}
