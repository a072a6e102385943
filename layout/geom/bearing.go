package geom

// Bearing returns the direction from a to b as people read it on the plan: in
// degrees clockwise from up the sheet, from 0 to below 360; 0 for two equal
// points. Aims of lamps and north are counted the same way. It is
// 90° − Direction(a, b).
func Bearing(a, b Point) float64 {
	if a == b {
		return 0
	}
	d := 90 - Direction(a, b)
	if d < 0 {
		d += 360
	}
	return d
}

// Toward returns the point at a distance from p on a bearing in degrees.
func Toward(p Point, bearing float64, distance Length) Point {
	return Along(p, 90-bearing, distance)
}
