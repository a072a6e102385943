package output

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/basicfont"
	"golang.org/x/image/math/fixed"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const (
	// duskPixels is the longer side of the night picture, duskMargin the ground
	// shown round the plan.
	duskPixels = 1024
	duskMargin = 2 * geom.Metre
)

// DuskOf writes the night plan of a frame as PNG, up the sheet on top, and
// returns what was assumed for it. With contours the lines of equal lux on the
// ground are drawn and lettered.
func DuskOf(w io.Writer, f *layout.Frame, contours bool) ([]string, error) {
	night, err := layout.NightOf(f)
	if err != nil {
		return nil, err
	}
	grid, err := duskGrid(f.Scheme)
	if err != nil {
		return nil, err
	}
	sheet, err := light.NewSheet(night.Scene, grid)
	if err != nil {
		return nil, err
	}
	sheet.Fill()
	ground := layout.NightGround(f.Scheme, grid)
	img := sheet.Picture(light.Night, func(x, y int) light.RGB { return ground.Rho[ground.Kind[y*grid.W+x]] })
	d := &duskPen{img: img, grid: grid}
	if contours {
		values := sheet.All()
		for _, level := range light.Levels {
			for _, c := range light.Contours(grid, values, level) {
				d.contour(c)
			}
		}
	}
	d.text(6, img.Rect.Dy()-6, layout.NightCaveat, color.RGBA{235, 235, 235, 255})
	return night.Assumed, png.Encode(w, img)
}

// duskGrid covers the plan with square cells.
func duskGrid(s *doc.Scheme) (light.Grid, error) {
	b := doc.Bounds(s)
	if b.Empty() {
		return light.Grid{}, errors.New("dusk: found nothing on the plan, expected something to light")
	}
	b = b.Grow(duskMargin)
	w, h := b.Width().Metres(), b.Height().Metres()
	step := math.Max(w, h) / duskPixels
	return light.Grid{X0: b.Min.X.Metres(), Y0: b.Min.Y.Metres(), Step: step,
		W: max(int(math.Ceil(w/step-1e-9)), 1), H: max(int(math.Ceil(h/step-1e-9)), 1)}, nil
}

// duskPen draws on the night picture.
type duskPen struct {
	img   *image.RGBA
	grid  light.Grid
	taken []image.Rectangle // where figures stand
}

// pixel returns where a spot of the plan lies on the picture.
func (d *duskPen) pixel(s light.Spot) (x, y float64) {
	return (s.X - d.grid.X0) / d.grid.Step, float64(d.grid.H) - (s.Y-d.grid.Y0)/d.grid.Step
}

// contour draws a line, broken below 5 lx so that faint levels differ by shape
// as well, and its figure once, where no other figure stands; a line along which
// there is no room goes without.
func (d *duskPen) contour(c light.Contour) {
	ink := color.RGBA{255, 255, 255, 255}
	run := 0.0
	n := len(c.Line)
	for i := range n {
		if i == n-1 && !c.Closed {
			break
		}
		x0, y0 := d.pixel(c.Line[i])
		x1, y1 := d.pixel(c.Line[(i+1)%n])
		long := math.Hypot(x1-x0, y1-y0)
		for s := 0.0; s < long; s += 0.5 {
			if c.Level >= 5 || math.Mod(run+s, 7) < 4 {
				d.blend(x0+(x1-x0)*s/long, y0+(y1-y0)*s/long, ink)
			}
		}
		run += long
	}
	if run > 60 {
		d.figure(c, fmt.Sprintf("%g lx", c.Level), ink)
	}
}

// figure letters a contour at the first of some places along it that is free.
func (d *duskPen) figure(c light.Contour, s string, ink color.RGBA) {
	const places, wide, high = 24, 7, 13 // the face has letters of 7 x 13
	for k := range places {
		x, y := d.pixel(c.Line[len(c.Line)*k/places])
		at := image.Rect(0, -high, wide*len(s), 3).Add(image.Pt(int(x)+3, int(y)-2))
		free := at.In(d.img.Rect)
		for _, t := range d.taken {
			free = free && !at.Overlaps(t)
		}
		if free {
			d.taken = append(d.taken, at)
			d.text(at.Min.X, at.Max.Y-3, s, ink)
			return
		}
	}
}

// blend lays half of the ink on a pixel.
func (d *duskPen) blend(x, y float64, ink color.RGBA) {
	px, py := int(x), int(y)
	if !(image.Point{px, py}).In(d.img.Rect) {
		return
	}
	was := d.img.RGBAAt(px, py)
	mix := func(a, b uint8) uint8 { return uint8((int(a) + int(b)) / 2) }
	d.img.SetRGBA(px, py, color.RGBA{mix(was.R, ink.R), mix(was.G, ink.G), mix(was.B, ink.B), 255})
}

// text letters on a dark shadow, so that it can be read on any ground.
func (d *duskPen) text(x, y int, s string, ink color.RGBA) {
	for _, off := range []image.Point{{1, 1}, {-1, 0}, {0, -1}, {0, 0}} {
		c := color.RGBA{0, 0, 0, 255}
		if off == (image.Point{}) {
			c = ink
		}
		(&font.Drawer{Dst: d.img, Src: image.NewUniform(c), Face: basicfont.Face7x13, Dot: fixed.P(x+off.X, y+off.Y)}).DrawString(s)
	}
}
