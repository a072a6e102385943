package doc

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
)

// Running is what the cost of running the lights depends on beside the lights.
// What is not known is asked for and never taken as zero.
type Running struct {
	Latitude  q.Maybe[Degrees] // north is positive
	Longitude q.Maybe[Degrees] // east is positive
	Tariff    q.Maybe[Tariff]
	// Off are the three times of switching off that are compared.
	Off [3]Off
	// Ahead is by how much the clock of the house is ahead of universal time in
	// winter; unknown takes the hour nearest to the longitude.
	Ahead  q.Maybe[Hours]
	Summer string // one of SummerTimes; "" not said
}

// SummerTimes are the ways in which clocks change: not at all, or by the rule of
// Europe and Great Britain, an hour ahead from the last Sunday of March to the
// last of October.
var SummerTimes = []string{"none", "european"}

// Degrees is a latitude or longitude in degrees.
type Degrees float64

// String writes "51.5°".
func (d Degrees) String() string { return plain(float64(d)) + "°" }

// ParseLatitude reads degrees from -90 to 90, such as 51.5°, 51.5 deg, 51.5 N.
func ParseLatitude(text string) (Degrees, error) { return parseDegrees(text, "latitude", "NS", 90) }

// ParseLongitude reads degrees from -180 to 180, east positive, such as -1.8° or
// 1.8 W.
func ParseLongitude(text string) (Degrees, error) { return parseDegrees(text, "longitude", "EW", 180) }

func parseDegrees(text, what, sides string, most float64) (Degrees, error) {
	s, sign := strings.TrimSpace(text), 1.0
	for i, side := range sides {
		if bare, ok := strings.CutSuffix(s, string(side)); ok && !strings.HasPrefix(s, "-") {
			s = bare
			if i == 1 {
				sign = -1
			}
			break
		}
	}
	s = strings.TrimSpace(s)
	for _, unit := range []string{"°", "deg"} {
		if bare, ok := strings.CutSuffix(s, unit); ok {
			s = strings.TrimSpace(bare)
			break
		}
	}
	bare, minus := strings.CutPrefix(strings.Replace(s, "−", "-", 1), "-")
	v, err := plainAmount(bare, 6)
	if minus {
		v = -v
	}
	if v *= sign; err != nil || !(v >= -most && v <= most) {
		return 0, fmt.Errorf("found %q, expected a %s from -%g to %g in degrees", Short(text), what, most, most)
	}
	return Degrees(v + 0), nil
}

// Tariff is what a kilowatt-hour costs, in hundredths of the user's money.
type Tariff float64

// String writes it in the user's money, "0.2735".
func (t Tariff) String() string {
	return strconv.FormatFloat(float64(t)/100, 'f', 4, 64)
}

// ParseTariff reads the price of a kilowatt-hour in the user's money, such as
// 0.2735: more than 0, at most 1000, at most four decimals.
func ParseTariff(text string) (Tariff, error) {
	v, err := plainAmount(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "a kWh")), 4)
	if err != nil || !(v > 0 && v <= 1000) {
		return 0, fmt.Errorf("found %q, expected the price of one kWh such as 0.2735, more than 0 and at most 1000", Short(text))
	}
	return Tariff(math.Round(v*1e4) / 100), nil
}

// Hours is a span of time in hours.
type Hours float64

// String writes "1 h".
func (h Hours) String() string { return plain(float64(h)) + " h" }

// ParseAhead reads how far a clock is ahead of universal time, such as 1 h or
// -3.5 h.
func ParseAhead(text string) (Hours, error) {
	s := strings.TrimPrefix(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "h")), "+")
	bare, minus := strings.CutPrefix(s, "-")
	v, err := plainAmount(bare, 2)
	if err != nil || v > 14 {
		return 0, fmt.Errorf("found %q, expected hours from -14 to 14 such as 1 h", Short(text))
	}
	if minus {
		v = -v
	}
	return Hours(v + 0), nil
}

// Off is a time at which the lights go out; the zero value is not said.
type Off struct {
	Set    bool
	Dawn   bool
	Minute int // after midnight by the clock of the house
}

// UsualOff are the times of switching off that are compared where none are
// said (common practice, no source).
var UsualOff = [3]Off{{Set: true, Minute: 22 * 60}, {Set: true}, {Set: true, Dawn: true}}

// String writes "22:00", "dawn" or "".
func (o Off) String() string {
	switch {
	case !o.Set:
		return ""
	case o.Dawn:
		return "dawn"
	}
	return fmt.Sprintf("%02d:%02d", o.Minute/60, o.Minute%60)
}

// By reports whether lights that go out at o are out by another time of the same
// night. A night begins at noon: 22:30 is by 23:00, 01:00 is not. What is not set
// or burns till dawn is by no time.
func (o Off) By(other Off) bool {
	night := func(minute int) int { return (minute + 12*60) % (24 * 60) }
	return o.Set && !o.Dawn && other.Set && !other.Dawn && night(o.Minute) <= night(other.Minute)
}

// ParseOff reads a time such as 22:00, or 22 for the full hour (24:00, 24 and
// midnight are 00:00), dawn, or "usual" for what is not said.
func ParseOff(text string) (Off, error) {
	switch s := strings.ToLower(strings.TrimSpace(text)); s {
	case "usual":
		return Off{}, nil
	case "dawn":
		return Off{Set: true, Dawn: true}, nil
	case "midnight", "24:00", "24":
		return Off{Set: true}, nil
	default:
		hour, minute, cut := strings.Cut(s, ":")
		if !cut {
			minute = "00"
		}
		h, err := strconv.Atoi(hour)
		m, err2 := strconv.Atoi(minute)
		if err != nil || err2 != nil || len(hour) > 2 || len(minute) != 2 || strings.Trim(hour+minute, "0123456789") != "" || h > 23 || m > 59 {
			return Off{}, errors.New("found " + strconv.Quote(Short(text)) + ", expected a time such as 22:00, or dawn")
		}
		return Off{Set: true, Minute: h*60 + m}, nil
	}
}

// Times returns the three times, the usual one for each that is not said.
func (r *Running) Times() [3]Off {
	out := r.Off
	for i := range out {
		if !out[i].Set {
			out[i] = UsualOff[i]
		}
	}
	return out
}
