package tool

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"duskwire/layout/geom"
)

// longest is the longest length that can be typed; a garden has no longer one.
const longest = 10000 * geom.Metre

// readLength reads a length such as 3.2, -3.2m, 45cm or 600mm; a bare number
// is in metres.
func readLength(text string) (geom.Length, error) {
	size := strings.TrimSpace(text)
	unit := geom.Metre
	for _, u := range []struct {
		name string
		size geom.Length
	}{{"mm", geom.Millimetre}, {"cm", geom.Centimetre}, {"m", geom.Metre}} {
		if cut, ok := strings.CutSuffix(size, u.name); ok {
			size, unit = strings.TrimSpace(cut), u.size
			break
		}
	}
	n, err := strconv.ParseFloat(size, 64)
	l := n * float64(unit)
	if err != nil || !(math.Abs(l) <= float64(longest)) {
		return 0, fmt.Errorf("found %q, expected a length such as 3.2, 3.2m or 600mm", text)
	}
	return geom.Length(math.Round(l)), nil
}

// measure returns the note for a leg from a to b, length and bearing:
// "3.20 m  45°".
func measure(a, b geom.Point) string {
	turn := math.Mod(math.Round(geom.Bearing(a, b)), 360)
	return fmt.Sprintf("%.2f m  %.0f°", geom.Distance(a, b).Metres(), turn)
}
