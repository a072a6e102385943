package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Count is a number of things: whole, and not below zero.
type Count float64

// ParseCount reads a whole number such as "4".
func ParseCount(s string) (Count, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
	if err != nil || v < 0 || v > 1e6 || v != math.Trunc(v) {
		return 0, &Error{Found: s, Kind: "whole number"}
	}
	return Count(v), nil
}

// String returns the number.
func (c Count) String() string { return number(float64(c), 0) }

var luxes = kind{"illuminance", []unit{{"lx", 1}, {"lux", 1}}}

// ParseLux reads an illuminance such as "20 lx".
func ParseLux(s string) (Lux, error) { v, err := parse(s, luxes); return Lux(v), err }
