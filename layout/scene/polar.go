package scene

import (
	"math"
	"strconv"

	"duskwire/calc/light"
)

// Sizes of the drawing of a light, mm on paper.
const (
	polarGap  = 3.0 // around each of the two drawings
	polarLine = 0.45
	polarPart = 0.58 // of the width, for the left one
)

// polarDash tells the plane C90-C270 from the other without colour.
var polarDash = []float64{1.6, 0.9}

// Polar draws a light as two pictures side by side. On the left the intensity by
// direction in the planes C0-C180 (solid) and C90-C270 (dashed), γ 0 straight
// down, C0 and C90 on the right. On the right what half of the peak and more goes
// to, as seen from above the lamp aimed down: C0 points right, C90 up, and the
// distance from the middle is γ, 90° at the ring. A light that goes up as well has
// its upper half in a broken line.
func Polar(d *light.Distribution, p *Palette, width, height float64) *List {
	l := &List{Width: width, Height: height, Background: p.Paper}
	w := polarPen{list: l, pal: p, d: d}
	w.intensities(width*polarPart, height)
	left := width * 0.54
	r := math.Min((width-left)/2-2*polarGap-capLabel, height/2-2*polarGap-2*capLabel)
	w.above(XY{left + (width-left)/2, (height - 2*capLabel) / 2}, math.Max(r, 1))
	return l
}

type polarPen struct {
	list *List
	pal  *Palette
	d    *light.Distribution
}

// intensities draws both planes in the left part of the drawing.
func (w *polarPen) intensities(width, height float64) {
	peak, _, _ := w.d.Peak()
	top := ringTop(float64(peak))
	up := w.goesUp(float64(peak))
	foot := 3*capLabel + polarGap // room for the legend
	c := XY{width / 2, 2*capLabel + polarGap}
	r := math.Min(width/2-2*polarGap-2*capLabel, height-c.Y-foot-capLabel)
	if up {
		r = math.Min(width/2-2*polarGap-2*capLabel, (height-foot-4*capLabel)/2)
		c.Y = r + 2*capLabel + polarGap/2
	}
	r = math.Max(r, 1)
	most := 90.0
	if up {
		most = 180
	}
	w.rings(c, r, top, most)
	for i, plane := range []float64{0, 90} {
		var path []XY
		for g := -most; g <= most; g += 0.5 {
			at := plane
			if g < 0 {
				at += 180
			}
			k := r * float64(w.d.Intensity(at, math.Abs(g))) / top
			s, cos := math.Sincos(g * math.Pi / 180)
			path = append(path, XY{c.X + k*s, c.Y + k*cos})
		}
		w.line(path, i)
	}
	w.figures(c, r, top)
	y := height - polarGap/2
	w.sample(XY{polarGap, y}, 0, "C0 right, C180 left")
	w.sample(XY{polarGap, y - 1.6*capLabel}, 1, "C90 right, C270 left")
}

// rings draws circles of equal intensity with their figures, and rays every 30°.
func (w *polarPen) rings(c XY, r, top, most float64) {
	st := Style{Stroke: w.pal.Other.Hatch, Width: fine}
	for k := 1; k <= 4; k++ {
		w.list.Items = append(w.list.Items, Item{Kind: Polyline, Layer: LayerGrid, Points: arc(c, r*float64(k)/4, -most, most), Style: st})
	}
	for a := -most; a <= most; a += 30 {
		s, cos := math.Sincos(a * math.Pi / 180)
		w.list.Items = append(w.list.Items, Item{Kind: Polyline, Layer: LayerGrid, Points: []XY{c, {c.X + r*s, c.Y + r*cos}}, Style: st})
		at := XY{c.X + (r+1.2)*s, c.Y + (r+1.2)*cos + capLabel*(0.5+0.5*cos)}
		anchor := Middle
		if s > 0.3 {
			anchor = Left
		} else if s < -0.3 {
			anchor = Right
		}
		if a != -180 {
			w.text(at, strconv.FormatFloat(math.Abs(a), 'f', 0, 64)+"°", anchor, w.pal.Soft, false)
		}
	}
}

// figures letters the rings, over everything else.
func (w *polarPen) figures(c XY, r, top float64) {
	for k := 2; k <= 4; k += 2 { // at 45°, where no ray is and no narrow beam
		s, cos := math.Sincos(45 * math.Pi / 180)
		text := strconv.FormatFloat(top*float64(k)/4, 'g', 6, 64)
		if k == 4 {
			text += " cd"
		}
		w.text(XY{c.X + r*float64(k)/4*s, c.Y + r*float64(k)/4*cos + capLabel/2}, text, Middle, w.pal.Soft, true)
	}
}

// above draws the half of the peak as seen from above.
func (w *polarPen) above(c XY, r float64) {
	st := Style{Stroke: w.pal.Other.Hatch, Width: fine}
	for k := 1; k <= 3; k++ {
		w.list.Items = append(w.list.Items, Item{Kind: Polyline, Layer: LayerGrid, Points: arc(c, r*float64(k)/3, -180, 180), Style: st})
	}
	for _, end := range []XY{{r, 0}, {0, -r}, {-r, 0}, {0, r}} {
		w.list.Items = append(w.list.Items, Item{Kind: Polyline, Layer: LayerGrid, Points: []XY{c, {c.X + end.X, c.Y + end.Y}}, Style: st})
	}
	peak, _, _ := w.d.Peak()
	for _, half := range []bool{false, true} { // what goes down, then what goes up
		path := w.halfOfPeak(float64(peak)/2, half, c, r)
		if path == nil {
			continue
		}
		line := Style{Stroke: w.pal.Mains, Width: polarLine}
		if half {
			line.Dash = polarDash
		} else {
			fill := w.pal.Mains
			fill.A = 0x30
			line.Fill = fill
		}
		w.list.Items = append(w.list.Items, Item{Kind: Polygon, Layer: LayerLux, Entity: "half of peak", Points: path, Style: line})
	}
	w.text(XY{c.X + r + 1, c.Y + capLabel/2}, "C0", Left, w.pal.Ink, false)
	w.text(XY{c.X, c.Y - r - 1}, "C90", Middle, w.pal.Ink, false)
	w.text(XY{c.X, c.Y + r + polarGap + 1.2*capLabel}, "Half of peak and more,", Middle, w.pal.Soft, false)
	w.text(XY{c.X, c.Y + r + polarGap + 2.8*capLabel}, "seen from above", Middle, w.pal.Soft, false)
}

// halfOfPeak returns, round the circle of C, how far from straight down the light
// still has the level; up counts from straight up. nil where it has nowhere.
func (w *polarPen) halfOfPeak(level float64, up bool, c XY, r float64) []XY {
	var path []XY
	some := false
	for plane := 0.0; plane < 360; plane += 2 {
		most := 0.0
		for g := 0.0; g <= 90; g++ {
			at := g
			if up {
				at = 180 - g
			}
			if float64(w.d.Intensity(plane, at)) >= level && level > 0 {
				most, some = g, true
			}
		}
		most = w.edge(plane, most, level, up, some)
		s, cos := math.Sincos(plane * math.Pi / 180)
		path = append(path, XY{c.X + r*most/90*cos, c.Y - r*most/90*s})
	}
	if !some {
		return nil
	}
	return path
}

// edge returns where between an angle and the next degree the light falls to the
// level, linear between them as in the table.
func (w *polarPen) edge(plane, g, level float64, up, some bool) float64 {
	at := func(g float64) float64 {
		if up {
			g = 180 - g
		}
		return float64(w.d.Intensity(plane, g))
	}
	here, next := at(g), at(g+1)
	if !some || g >= 90 || here <= next || here < level {
		return g
	}
	return g + (here-level)/(here-next)
}

// goesUp reports whether a part of the light that shows goes above level.
func (w *polarPen) goesUp(peak float64) bool {
	_, gamma := w.d.Angles()
	for _, g := range gamma {
		for plane := 0.0; plane < 360 && g > 90; plane += 15 {
			if float64(w.d.Intensity(plane, g)) > peak/200 {
				return true
			}
		}
	}
	return false
}

func (w *polarPen) style(plane int) Style {
	if plane == 0 {
		return Style{Stroke: w.pal.Mains, Width: polarLine}
	}
	return Style{Stroke: w.pal.Extra, Width: polarLine, Dash: polarDash}
}

func (w *polarPen) line(path []XY, plane int) {
	name := []string{"C0-C180", "C90-C270"}[plane]
	w.list.Items = append(w.list.Items, Item{Kind: Polyline, Layer: LayerLux, Entity: name, Points: path, Style: w.style(plane)})
}

// sample explains a line in words.
func (w *polarPen) sample(at XY, plane int, words string) {
	y := at.Y - capLabel/2
	w.list.Items = append(w.list.Items, Item{Kind: Polyline, Layer: LayerLabels, Points: []XY{{at.X, y}, {at.X + 7, y}}, Style: w.style(plane)})
	w.text(XY{at.X + 8.5, at.Y}, words, Left, w.pal.Ink, false)
}

func (w *polarPen) text(at XY, s string, anchor Anchor, c Colour, halo bool) {
	w.list.Items = append(w.list.Items, Item{Kind: Text, Layer: LayerLabels, Points: []XY{at}, Size: capLabel, Text: s, Anchor: anchor, Halo: halo, Style: Style{Fill: c}})
}

// arc returns a circle, or the part of it from one γ to another, γ 0 down.
func arc(c XY, r, from, to float64) []XY {
	var out []XY
	for a := from; a <= to+1e-9; a += 5 {
		s, cos := math.Sincos(a * math.Pi / 180)
		out = append(out, XY{c.X + r*s, c.Y + r*cos})
	}
	return out
}

// ringTop returns a round figure at or above the peak that four rings divide well.
func ringTop(peak float64) float64 {
	if !(peak > 0) {
		return 1
	}
	base := math.Pow(10, math.Floor(math.Log10(peak)))
	for _, k := range []float64{1, 1.2, 1.6, 2, 2.4, 3, 4, 5, 6, 8, 10} {
		if k*base >= peak*(1-1e-9) {
			return k * base
		}
	}
	return 10 * base
}
