package layout

import (
	"image"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
	"duskwire/layout/scene"
)

// DuskWish is what a night picture is asked of. It is immutable.
type DuskWish struct {
	Frame *Frame
	// Area is the ground whose light is worked out, see NightArea. While a gesture
	// is on it is that of the scheme before it, so that it stays.
	Area geom.Rect
	// Hold is the lamp that is likely to be moved next, "" for none: its light is
	// kept apart when there is nothing else to do.
	Hold doc.ID
	// AfterCurfew asks for the lamps alone that burn then.
	AfterCurfew bool
	// View, Width, Height (mm on paper) and PxPerMM say what is to be drawn.
	View          scene.View
	Width, Height float64
	PxPerMM       float64
}

// seen is the part of a wish that says what is drawn.
type seen struct {
	view          scene.View
	width, height float64
	perMM         float64
}

func (w *DuskWish) seen() seen { return seen{w.View, w.Width, w.Height, w.PxPerMM} }

// DuskShot is a night picture as it was drawn. It is immutable.
type DuskShot struct {
	Seq     uint64 // of the frame
	Preview bool   // of a gesture that may yet be dropped
	Night   *Night // exact: shares are not rounded
	// AfterCurfew says that it shows the lamps alone that burn then; Late tells which
	// they are, whatever it shows.
	AfterCurfew bool
	Late        LateNight
	Coarse      bool // the fine picture is still to come
	Picture     *picture.Picture
	Grid        light.Grid // a pixel of Picture a cell
	Lines       []light.Contour
	// Image shows View; its size is Width by Height mm.
	Image         *image.RGBA
	View          scene.View
	Width, Height float64
}

// NightAround is the colour of bare ground that nothing but the moon lights.
func NightAround() scene.Colour {
	x := light.Night
	c := x.Develop(light.Stimulus(x.MoonWhite, float64(x.Moon)), bareRho)
	b := func(v float64) uint8 { return uint8(255*v + 0.5) }
	return scene.Colour{R: b(c[0]), G: b(c[1]), B: b(c[2]), A: 255}
}
