// Package light computes what lamps do: the illuminance at any point from
// imported tables or from lumens and beam, shadows of what stands in the way,
// an array of lux over the plan, its contours, and the colour of the mixture.
//
// Frames and units: metres, candela, lumen, lux. Photometric tables are in
// degrees, as in their files; orientation and geometry are in radians. World
// and lamp frame are right-handed with z up. A plan whose y runs downwards is
// turned round once, by the caller.
//
// Direct light only: nothing is reflected. All figures are photopic. The
// package knows no file and no clock; readers take bytes.
package light
