package sight

import (
	"math"
	"testing"
)

// TestDifference compares with the published pairs. Source: Table 1 of Sharma, Wu,
// Dalal (2005), all 34 rows; the data file stands at
// http://www.ece.rochester.edu/~gsharma/ciede2000/, here read from a table of the
// same rows in the tests of a colour management library. Tolerance: half of the
// last digit printed.
func TestDifference(t *testing.T) {
	for i, r := range [][7]float64{
		{50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425},
		{50, 3.1571, -77.2803, 50, 0, -82.7485, 2.8615},
		{50, 2.8361, -74.0200, 50, 0, -82.7485, 3.4412},
		{50, -1.3802, -84.2814, 50, 0, -82.7485, 1.0000},
		{50, -1.1848, -84.8006, 50, 0, -82.7485, 1.0000},
		{50, -0.9009, -85.5211, 50, 0, -82.7485, 1.0000},
		{50, 0, 0, 50, -1, 2, 2.3669},
		{50, -1, 2, 50, 0, 0, 2.3669},
		{50, 2.49, -0.001, 50, -2.49, 0.0009, 7.1792},
		{50, 2.49, -0.001, 50, -2.49, 0.0010, 7.1792},
		{50, 2.49, -0.001, 50, -2.49, 0.0011, 7.2195},
		{50, 2.49, -0.001, 50, -2.49, 0.0012, 7.2195},
		{50, -0.001, 2.49, 50, 0.0009, -2.49, 4.8045},
		{50, -0.001, 2.49, 50, 0.0010, -2.49, 4.8045},
		{50, -0.001, 2.49, 50, 0.0011, -2.49, 4.7461},
		{50, 2.5, 0, 50, 0, -2.5, 4.3065},
		{50, 2.5, 0, 73, 25, -18, 27.1492},
		{50, 2.5, 0, 61, -5, 29, 22.8977},
		{50, 2.5, 0, 56, -27, -3, 31.9030},
		{50, 2.5, 0, 58, 24, 15, 19.4535},
		{50, 2.5, 0, 50, 3.1736, 0.5854, 1.0000},
		{50, 2.5, 0, 50, 3.2972, 0, 1.0000},
		{50, 2.5, 0, 50, 1.8634, 0.5757, 1.0000},
		{50, 2.5, 0, 50, 3.2592, 0.3350, 1.0000},
		{60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644},
		{63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.2630},
		{61.2901, 3.7196, -5.3901, 61.4292, 2.2480, -4.9620, 1.8731},
		{35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645},
		{22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373},
		{36.4612, 47.8580, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146},
		{90.8027, -2.0831, 1.4410, 91.1528, -1.6435, 0.0447, 1.4441},
		{90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381},
		{6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377},
		{2.0776, 0.0795, -1.1350, 0.9033, -0.0636, -0.5514, 0.9082},
	} {
		p, q := Lab{r[0], r[1], r[2]}, Lab{r[3], r[4], r[5]}
		if got := Difference(p, q); math.Abs(got-r[6]) > 0.00005+1e-9 {
			t.Errorf("pair %d: %.5f, want %.4f", i+1, got, r[6])
		}
		if got, back := Difference(p, q), Difference(q, p); math.Abs(got-back) > 1e-9 {
			t.Errorf("pair %d: %g one way, %g the other", i+1, got, back)
		}
	}
}

// Whoever lacks a kind of cone sees greys as they are: the rows of the model add up
// to 1 (section 5 of the paper, from memory), so that a wrong digit shows. The digits
// printed leave some millionths.
func TestGreysStay(t *testing.T) {
	for e, m := range matrices {
		for i, row := range m {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 2e-6 {
				t.Errorf("%s: row %d adds up to %.6f", e, i, sum)
			}
		}
		for v := range 256 {
			if d := Difference(See(Normal, uint8(v), uint8(v), uint8(v)), See(e, uint8(v), uint8(v), uint8(v))); d > 0.01 {
				t.Errorf("%s: grey %d is off by %.3f", e, v, d)
			}
		}
	}
}

// Pure red in CIELAB (D65), 53.24, 80.09, 67.20, and the confusions that give the
// deficiencies their names: red and green of one lightness fall together without
// cones for long or for middle waves, not without those for short ones. The colours
// are ours, mixed for it.
func TestSee(t *testing.T) {
	red := See(Normal, 255, 0, 0) // values from memory, to what the rounded matrix leaves
	for _, v := range [][2]float64{{red.L, 53.24}, {red.A, 80.09}, {red.B, 67.20}} {
		if math.Abs(v[0]-v[1]) > 0.05 {
			t.Errorf("red is %.2f, want %.2f", v[0], v[1])
		}
	}
	apart := func(e Eye, p, q [3]uint8) float64 {
		return Difference(See(e, p[0], p[1], p[2]), See(e, q[0], q[1], q[2]))
	}
	red2, green := [3]uint8{0xB8, 0x5A, 0x28}, [3]uint8{0x6E, 0x7A, 0x28}
	if n, d, s := apart(Normal, red2, green), apart(Deuteranopia, red2, green), apart(Tritanopia, red2, green); d > n/3 || s < n/2 {
		t.Errorf("red and green: %.1f with all cones, %.1f without those for middle waves, %.1f without those for short ones", n, d, s)
	}
}
