// Package scene is the display list: what the plan looks like, once, for the
// screen and for paper. It is built at a drawing scale, so its coordinates
// are millimetres on paper (x right, y down, origin at the top left of the
// drawing area); a screen is paper with a fixed number of pixels per
// millimetre. Symbols and text keep their size in millimetres at every scale.
package scene

import (
	"duskwire/layout/geom"
	"duskwire/layout/picture"
)

// Layer groups items that are shown, hidden and exported together.
type Layer string

// Layers, back to front.
const (
	LayerPicture    Layer = "picture"
	LayerLux        Layer = "lux" // of the night picture, over it
	LayerGrid       Layer = "grid"
	LayerGround     Layer = "ground"
	LayerLines      Layer = "lines"
	LayerZones      Layer = "zones" // hatched areas; rings are of the points
	LayerRuns       Layer = "runs"
	LayerPoints     Layer = "points"
	LayerDimensions Layer = "dimensions"
	LayerLabels     Layer = "labels"
	LayerFinding    Layer = "findings"
	LayerFrame      Layer = "frame"
)

// XY is a place in millimetres on paper.
type XY struct{ X, Y float64 }

// Colour is a straight-alpha sRGB colour.
type Colour struct{ R, G, B, A uint8 }

// Style says how an item is drawn. Widths are millimetres.
type Style struct {
	Stroke Colour
	Width  float64   // 0: no stroke
	Dash   []float64 // on, off ...; nil solid
	Fill   Colour    // A = 0: no fill
}

// Kind is the shape of an item.
type Kind int

const (
	Polyline Kind = iota
	Polygon
	Circle   // Points[0] centre, Size radius
	Text     // Points[0] anchor on the baseline, Size cap height
	Segments // Points in pairs, each pair one stroke; dashes start anew at each
	// Image is a picture. Points are its upper left, upper right and lower left
	// corner, then the two corners of the rectangle that it is cut off at.
	Image
)

// Anchor says which part of a text is at its point.
type Anchor int

const (
	Left Anchor = iota
	Middle
	Right
)

// Item is one thing to draw.
type Item struct {
	Kind   Kind
	Layer  Layer
	Entity string // id of the entity it belongs to, "" for none
	Points []XY
	Size   float64
	Text   string
	Bold   bool
	Anchor Anchor
	Turn   float64 // degrees anticlockwise, texts only
	Halo   bool    // text gets a background-coloured outline to stay readable over lines
	Style  Style
	Image  *picture.Picture // of an Image
	Fade   float64          // of an Image: 0 in full, 1 not to be seen
	Tone   Tonal            // of an Image
}

// List is a display list.
type List struct {
	Width, Height float64 // mm
	Background    Colour
	Halo          Colour // of texts when Background is clear; A = 0 for none
	Items         []Item
	View          View
}

// View maps the plan to paper.
type View struct {
	Denominator float64    // 50 for 1:50
	Origin      geom.Point // plan point at paper (0, 0)
}

// Paper returns the place on paper of a plan point.
func (v View) Paper(p geom.Point) XY {
	k := 1 / (float64(geom.Millimetre) * v.Denominator)
	return XY{float64(p.X-v.Origin.X) * k, -float64(p.Y-v.Origin.Y) * k}
}

// Plan returns the plan point at a place on paper.
func (v View) Plan(at XY) geom.Point {
	k := float64(geom.Millimetre) * v.Denominator
	return geom.Point{X: v.Origin.X + geom.Length(at.X*k), Y: v.Origin.Y - geom.Length(at.Y*k)}
}
