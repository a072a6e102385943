package light

import "fmt"

// expand returns the planes of the whole circle, how many planes the file
// stores and, for each plane of the circle, which stored one it repeats.
func (f *ldt) expand(listed []float64) (c []float64, stored int, from []int, err error) {
	m := f.mc
	if f.sym == 1 || m == 1 {
		if f.sym != 1 {
			f.p.guess("one C plane with symmetry %d: taken for all planes", f.sym)
		}
		return []float64{0}, 1, []int{0}, nil
	}
	if listed[0] != 0 {
		return nil, 0, nil, fmt.Errorf("angles C: found a start at %g°, expected 0°", listed[0])
	}
	last := listed[m-1]
	switch f.sym {
	case 0:
		for k, p := range listed {
			c, from = append(c, p), append(from, k)
		}
		if last != 360 {
			c, from = append(c, 360), append(from, 0)
		}
		return c, m, from, nil
	case 2, 4:
		if f.sym == 4 && m%4 != 0 || m%2 != 0 {
			return nil, 0, nil, fmt.Errorf("number of C planes: found %d, expected a multiple of %d with symmetry %d", m, f.sym, f.sym)
		}
		return f.halves(listed)
	}
	return f.rear(listed)
}

// halves expands symmetry 2 (0 to 180 stored) and 4 (0 to 90 stored).
func (f *ldt) halves(listed []float64) (c []float64, stored int, from []int, err error) {
	stored, end := f.mc/2+1, 180.0
	if f.sym == 4 {
		stored, end = f.mc/4+1, 90
	}
	if !same(listed[stored-1], end) {
		return nil, 0, nil, fmt.Errorf("angles C: found %g° as plane %d, expected %g° with symmetry %d", listed[stored-1], stored, end, f.sym)
	}
	for k := 0; k < stored; k++ {
		c, from = append(c, listed[k]), append(from, k)
	}
	if f.sym == 4 {
		for k := stored - 2; k >= 0; k-- {
			c, from = append(c, 180-listed[k]), append(from, k)
		}
	}
	for k := len(c) - 2; k >= 0; k-- {
		c, from = append(c, 360-c[k]), append(from, from[k])
	}
	return c, stored, from, nil
}

// rear expands symmetry 3: stored are the planes 270 over 0 to 90, and
// I(180-C) = I(C). Read the other way round, 270 down to 90, the values would be
// the same by that symmetry.
func (f *ldt) rear(listed []float64) (c []float64, stored int, from []int, err error) {
	m := f.mc
	if m%4 != 0 {
		return nil, 0, nil, fmt.Errorf("number of C planes: found %d, expected a multiple of 4 with symmetry 3", m)
	}
	stored = m/2 + 1
	first := 3 * m / 4
	if !same(listed[first], 270) || !same(listed[m/4], 90) {
		return nil, 0, nil, fmt.Errorf("angles C: found %g° and %g° as planes %d and %d, expected 90° and 270° with symmetry 3", listed[m/4], listed[first], m/4+1, first+1)
	}
	zero := m / 4 // the stored plane that is C 0
	for k := 0; k <= m/4; k++ {
		c, from = append(c, listed[k]), append(from, zero+k)
	}
	for k := m/4 - 1; k >= 0; k-- {
		c, from = append(c, 180-listed[k]), append(from, zero+k)
	}
	for k := 1; k <= zero; k++ { // 180 to 270 mirrors 360 to 270
		c, from = append(c, 540-(360-gapOf(listed, k))), append(from, zero-k)
	}
	for k := zero - 1; k >= 0; k-- {
		c, from = append(c, 360-gapOf(listed, k)), append(from, zero-k)
	}
	return c, stored, from, nil
}

// gapOf returns how far before 360 the k-th plane before it lies.
func gapOf(listed []float64, k int) float64 {
	if k == 0 {
		return 0
	}
	return 360 - listed[len(listed)-k]
}
