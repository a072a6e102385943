package output

import (
	"context"
	"errors"
	"image"
	"image/png"
	"io"
	"math"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	pic "duskwire/layout/picture"
	"duskwire/layout/scene"
)

const (
	// duskPixels is the longer side of the night picture, duskPerMM its pixels for
	// every millimetre of the drawing, duskMargin the ground shown round the plan.
	duskPixels = 1024
	duskPerMM  = 5.0
	duskMargin = 2 * geom.Metre
	// captionHigh is the height of the letters of the caption, mm.
	captionHigh = 2.2
	mostCaption = 6 // lines of it
)

// Dusk says how a night picture is made.
type Dusk struct {
	// Contours draws the lines of equal lux on the ground and letters them.
	Contours bool
	// AfterCurfew leaves dark what is off by then.
	AfterCurfew bool
}

// DuskMade says of a night picture what stands on it and what was assumed.
type DuskMade struct {
	Title   string // of the scheme, "" for none
	Caption string
	Assumed []string
}

// DuskOf writes the night plan of a frame as PNG, up the sheet on top, with the lines
// and lamps of the plan over it as the Dusk view has them.
func DuskOf(ctx context.Context, w io.Writer, f *layout.Frame, o Dusk) (DuskMade, error) {
	night, made, err := o.night(f)
	if err != nil {
		return made, err
	}
	grid, err := duskGrid(f.Scheme)
	if err != nil {
		return made, err
	}
	sheet, err := layout.FillSheet(ctx, night, grid)
	if err != nil {
		return made, err
	}
	img := image.NewRGBA(image.Rect(0, 0, grid.W, grid.H))
	sheet.Paint(light.Night, layout.NightGround(f.Scheme, grid), img)
	in := scene.LuxInput{Picture: pic.Of(img), Grid: grid, Around: layout.NightAround()}
	if o.Contours {
		in.Lines = layout.NightLines(sheet)
	}
	wide, high := float64(grid.W)/duskPerMM, float64(grid.H)/duskPerMM
	k := grid.Step * duskPerMM // metres a millimetre
	view := scene.View{Denominator: 1000 * k, Origin: geom.Pt(grid.X0, grid.Y0+float64(grid.H)*grid.Step)}
	list := scene.Lux(in, view, wide, high)
	plan := scene.Build(NightPlan(scene.Input{Scheme: f.Scheme, Stock: f.Stock, Circuits: f.Circuits, Results: f.Results}), view, wide, high)
	list.Items = append(list.Items, plan.Items...)
	captioned(list, made)
	out := image.NewRGBA(image.Rect(0, 0, grid.W, grid.H))
	scene.NewRasteriser().Draw(out, list, duskPerMM)
	return made, png.Encode(w, out)
}

// night returns the light that is asked for and what is to be said of it.
func (o Dusk) night(f *layout.Frame) (*layout.Night, DuskMade, error) {
	night, err := layout.NightOf(f)
	if err == nil && o.AfterCurfew {
		night, err = night.AfterCurfew(f)
	}
	if err != nil {
		return nil, DuskMade{}, err
	}
	made := DuskMade{Title: f.Scheme.Title, Caption: layout.NightCaveat + ". Photopic, direct light only, maintained: ×" + night.AgesShort() + " for age and dirt", Assumed: append([]string{}, night.Assumed...)}
	if o.AfterCurfew {
		made.Caption += ". After curfew: " + night.Late(f).Words()
	}
	return night, made, nil
}

// NightPlan returns the input of the plan as it is drawn over a night picture: ground,
// lines and lamps in the colours of the Dusk view, without what gives no light.
func NightPlan(in scene.Input) scene.Input {
	in.Look, in.Palette, in.Picture = scene.LookDusk, scene.Dark(), nil
	in.NoZones, in.Sparse, in.Skip = true, true, Unlit(in.Scheme)
	in.Show = scene.AllLayers()
	for _, l := range []scene.Layer{scene.LayerGrid, scene.LayerFinding, scene.LayerPicture, scene.LayerZones, scene.LayerDimensions, scene.LayerRuns} {
		in.Show[l] = false
	}
	return in
}

// Unlit tells what gives no light and is left out by night: supplies, boxes, gear and
// sources.
func Unlit(s *doc.Scheme) func(doc.ID) bool {
	out := map[doc.ID]bool{}
	for _, e := range s.Supplies.All() {
		out[e.ID] = true
	}
	for _, e := range s.Boxes.All() {
		out[e.ID] = true
	}
	for _, e := range s.Gear.All() {
		out[e.ID] = true
	}
	for _, e := range s.Sources.All() {
		out[e.ID] = true
	}
	return func(id doc.ID) bool { return out[id] }
}

// captioned writes the title and what a night picture is along its foot on a dark
// bed, in as many lines as it takes.
func captioned(l *scene.List, made DuskMade) {
	const pad = 1.0
	var lines []string
	titles := 0
	if made.Title != "" {
		lines = wrap(made.Title, l.Width-2*pad, captionHigh, true, 1)
		titles = len(lines)
	}
	lines = append(lines, wrap(made.Caption, l.Width-2*pad, captionHigh, false, mostCaption)...)
	high := float64(len(lines))*1.5*captionHigh + pad
	y := l.Height - high
	l.Items = append(l.Items, scene.Item{Kind: scene.Polygon, Layer: scene.LayerFrame, Style: scene.Style{Fill: scene.Colour{R: 8, G: 12, B: 18, A: 0xC0}},
		Points: []scene.XY{{X: 0, Y: y}, {X: l.Width, Y: y}, {X: l.Width, Y: l.Height}, {X: 0, Y: l.Height}}})
	for i, s := range lines {
		l.Items = append(l.Items, scene.Item{Kind: scene.Text, Layer: scene.LayerFrame, Text: s, Size: captionHigh, Bold: i < titles, Anchor: scene.Left,
			Points: []scene.XY{{X: pad, Y: y + (float64(i)+1)*1.5*captionHigh - 0.2}}, Style: scene.Style{Fill: scene.Colour{R: 235, G: 235, B: 235, A: 255}}})
	}
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
