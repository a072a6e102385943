package light

import (
	"fmt"
	"math"
)

// table turns angles and candela of the file into the one form.
func (f *lm63) table() error {
	switch f.kind {
	case 2:
		return f.typeB()
	case 3:
		return f.typeA()
	}
	if err := rising("vertical angles", f.v, 0, 180); err != nil {
		return err
	}
	if err := rising("horizontal angles", f.h, 0, 360); err != nil {
		return err
	}
	first, last := f.v[0], f.v[f.nV-1]
	if first != 0 && first != 90 || last != 90 && last != 180 {
		f.p.guess("vertical angles run from %g° to %g°; no light is taken beyond them", first, last)
	}
	c, column, err := f.expand()
	if err != nil {
		return err
	}
	cd := make([]float64, 0, len(c)*f.nV)
	for _, h := range column {
		cd = append(cd, f.cd[h*f.nV:(h+1)*f.nV]...)
	}
	if len(c) > 1 && f.h[0] == 0 && f.h[f.nH-1] == 360 {
		f.meet(cd)
	}
	f.p.Dist = newDistribution(c, f.v, cd)
	return f.p.dark()
}

// expand returns the planes of the whole circle and, for each, the column of
// the file that it repeats.
func (f *lm63) expand() (c []float64, column []int, err error) {
	n := f.nH
	first, last := f.h[0], f.h[n-1]
	add := func(at float64, col int) { c, column = append(c, at), append(column, col) }
	switch {
	case n == 1:
		if first != 0 {
			f.p.guess("the only horizontal angle is %g°: taken for all", first)
		}
		return []float64{0}, []int{0}, nil
	case first == 0 && last == 360:
		for k, h := range f.h {
			add(h, k)
		}
	case first == 0 && last == 90:
		for quarter := 0; quarter < 4; quarter++ {
			for k := range f.h {
				at, col := float64(90*quarter)+f.h[k], k
				if quarter%2 == 1 {
					col = n - 1 - k
					at = float64(90*quarter) + 90 - f.h[col]
				}
				if k > 0 || quarter == 0 {
					add(at, col)
				}
			}
		}
	case first == 0 && last == 180:
		for k, h := range f.h {
			add(h, k)
		}
		for k := n - 2; k >= 0; k-- {
			add(360-f.h[k], k)
		}
	case first == 90 && last == 270:
		return f.across()
	case first == 0 && closes(f.h):
		f.p.guess("horizontal angles end at %g°: the circle is closed with the first", last)
		for k, h := range f.h {
			add(h, k)
		}
		add(360, 0)
	default:
		return nil, nil, fmt.Errorf("horizontal angles: found %g° to %g°, expected 0, 0-90, 0-180, 90-270 or 0-360", first, last)
	}
	return c, column, nil
}

// across expands 90 to 270: I(180-C) = I(C).
func (f *lm63) across() (c []float64, column []int, err error) {
	n := f.nH
	half := -1
	for k, h := range f.h {
		if same(h, 180) {
			half = k
		}
	}
	if half < 0 {
		return nil, nil, fmt.Errorf("horizontal angles: found 90° to 270° without 180°, expected it among them")
	}
	for k := half; k >= 0; k-- { // C 0 to 90 mirrors 180 to 90
		c, column = append(c, 180-f.h[k]), append(column, k)
	}
	for k := 1; k < n; k++ {
		c, column = append(c, f.h[k]), append(column, k)
	}
	for k := n - 2; k >= half; k-- { // 270 to 360 mirrors 270 to 180
		c, column = append(c, 540-f.h[k]), append(column, k)
	}
	return c, column, nil
}

// closes reports whether the gap up to 360 is one more step.
func closes(h []float64) bool {
	n := len(h)
	gap := 360 - h[n-1]
	return gap > 0 && (same(gap, h[n-1]-h[n-2]) || same(gap, h[1]-h[0]))
}

// meet gives the planes 0 and 360 of a full table their mean.
func (f *lm63) meet(cd []float64) {
	tail := cd[len(cd)-f.nV:]
	worst := 0.0
	for j := range tail {
		worst = math.Max(worst, math.Abs(tail[j]-cd[j]))
		m := (tail[j] + cd[j]) / 2
		tail[j], cd[j] = m, m
	}
	if worst > 0 {
		f.p.guess("planes 0° and 360° differ by up to %.4g cd: their mean is used", worst)
	}
}

// typeB converts planes V and angles H about the axis y of the lamp frame:
//
//	e = (cosH sinV, sinH, -cosH cosV)
//
// sampled at the finest step of the file halved, 0.5° to 2.5°, and scaled to
// the flux that the file's own angles give with dΩ = cosH dH dV (checked on a
// published flood: 30 029 lm against 29 972.6; cosV would give 32 241).
func (f *lm63) typeB() error {
	if err := f.mirrorB("B"); err != nil {
		return err
	}
	f.p.guess("Type B: H is taken positive towards y of the lamp; mirror if the plan looks wrong")
	f.convertB()
	return f.p.dark()
}

// typeA converts planes H and angles V of lamps that are aimed level, as on
// vehicles. Its polar axis is upright there; laid along y of the lamp frame with
// the light straight ahead along -z, it is Type B with V and H changed:
//
//	e = (cosV sinH, sinV, -cosV cosH)
//
// Source: the project's formats page.
func (f *lm63) typeA() error {
	turned := make([]float64, len(f.cd))
	for h := 0; h < f.nH; h++ {
		for v := 0; v < f.nV; v++ {
			turned[v*f.nH+h] = f.cd[h*f.nV+v]
		}
	}
	f.cd, f.v, f.h, f.nV, f.nH = turned, f.h, f.v, f.nH, f.nV
	if err := f.mirrorB("A"); err != nil {
		return err
	}
	f.p.guess("Type A, made for lamps that are aimed level: straight ahead is taken as the axis of the beam and up as y of the lamp; turn or mirror if the plan looks wrong")
	f.convertB()
	return f.p.dark()
}

// convertB makes the table of Type C.
func (f *lm63) convertB() {
	step := 5.0
	for _, a := range [][]float64{f.v, f.h} {
		for i := 1; i < len(a); i++ {
			step = math.Min(step, a[i]-a[i-1])
		}
	}
	step = 90 / math.Ceil(90/math.Min(math.Max(step/2, 0.5), 2.5))
	nG := int(math.Round(90/step)) + 1
	gamma := make([]float64, nG)
	for j := range gamma {
		gamma[j] = 90 * float64(j) / float64(nG-1)
	}
	c := make([]float64, 145)
	cd := make([]float64, 0, len(c)*nG)
	for i := range c {
		c[i] = 2.5 * float64(i)
		sc, cc := math.Sincos(c[i] * degree)
		for _, g := range gamma {
			sg, cg := math.Sincos(g * degree)
			h := math.Asin(math.Max(-1, math.Min(1, sg*sc))) * perRad
			v := math.Atan2(sg*cc, cg) * perRad
			cd = append(cd, f.atB(v, h))
		}
	}
	d := newDistribution(c, gamma, cd)
	if want := f.fluxB(); want > 0 && d.exact > 0 {
		for k := range cd {
			cd[k] *= want / d.exact
		}
		d = newDistribution(c, gamma, cd)
	}
	f.p.Dist = d
}

// mirrorB makes both lists of angles reach from -90 to 90 where the file gives
// one half. kind is the type as the file has it; of A vertical and horizontal are
// changed.
func (f *lm63) mirrorB(kind string) error {
	upright, level := "vertical", "horizontal"
	if kind == "A" {
		upright, level = level, upright
	}
	if err := rising(upright+" angles", f.v, -90, 90); err != nil {
		return err
	}
	if err := rising(level+" angles", f.h, -90, 90); err != nil {
		return err
	}
	for _, l := range []struct {
		name string
		n    int
	}{{upright, f.nV}, {level, f.nH}} {
		if l.n < 2 {
			return fmt.Errorf("%s angles: found %d, expected 2 or more in Type %s", l.name, l.n, kind)
		}
	}
	if f.v[0] > 0 || f.h[0] > 0 {
		return fmt.Errorf("angles of Type %s: found a start at %g° %s, %g° %s, expected -90° to 0°", kind, f.v[0], upright, f.h[0], level)
	}
	rows, columns := mirrored(&f.v), mirrored(&f.h)
	cd := make([]float64, 0, len(rows)*len(columns))
	for _, h := range columns {
		for _, v := range rows {
			cd = append(cd, f.cd[h*f.nV+v])
		}
	}
	f.cd, f.nV, f.nH = cd, len(f.v), len(f.h)
	return nil
}

// mirrored extends angles that start at 0 to the other side and returns, for
// each new angle, the number of the old one.
func mirrored(a *[]float64) []int {
	n := len(*a)
	var from []int
	if (*a)[0] == 0 {
		for k := n - 1; k > 0; k-- {
			from = append(from, k)
		}
	}
	out := make([]float64, 0, 2*n)
	for _, k := range from {
		out = append(out, -(*a)[k])
	}
	for k := 0; k < n; k++ {
		from, out = append(from, k), append(out, (*a)[k])
	}
	*a = out
	return from
}

// atB interpolates the file's own table.
func (f *lm63) atB(v, h float64) float64 {
	i, k := between(f.h, h)
	j, m := between(f.v, v)
	if i < 0 || j < 0 {
		return 0
	}
	at := func(i, j int) float64 { return f.cd[i*f.nV+j] }
	a := at(i, j) + m*(at(i, j+1)-at(i, j))
	b := at(i+1, j) + m*(at(i+1, j+1)-at(i+1, j))
	return a + k*(b-a)
}

// between returns the gap of a in which x lies and how far along; -1 outside.
func between(a []float64, x float64) (int, float64) {
	if !(x >= a[0]-angleEps && x <= a[len(a)-1]+angleEps) {
		return -1, 0
	}
	lo, hi := 0, len(a)-1
	for hi-lo > 1 {
		if mid := (lo + hi) / 2; a[mid] <= x {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, math.Max(0, math.Min(1, (x-a[lo])/(a[lo+1]-a[lo])))
}

// fluxB is the flux of the file's table: trapezoid over V and, between two H,
// mean intensity times sin H2 - sin H1.
func (f *lm63) fluxB() float64 {
	sum := 0.0
	for i := 0; i+1 < f.nH; i++ {
		belt := math.Sin(f.h[i+1]*degree) - math.Sin(f.h[i]*degree)
		for j := 0; j+1 < f.nV; j++ {
			k := i*f.nV + j
			mean := (f.cd[k] + f.cd[k+1] + f.cd[k+f.nV] + f.cd[k+f.nV+1]) / 4
			sum += mean * belt * (f.v[j+1] - f.v[j]) * degree
		}
	}
	return sum
}
