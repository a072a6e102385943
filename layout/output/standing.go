package output

import (
	"context"
	"image"
	"image/png"
	"io"

	"duskwire/layout"
	"duskwire/layout/doc"
	pic "duskwire/layout/picture"
	"duskwire/layout/scene"
)

// Pixels of a standing view.
const standingWide, standingHigh = 1280, 800

// StandingOf writes what somebody sees at night from an eye point as PNG. Contours
// are of no meaning there.
func StandingOf(ctx context.Context, w io.Writer, f *layout.Frame, e doc.Eye, o Dusk) (DuskMade, error) {
	night, made, err := o.night(f)
	if err != nil {
		return made, err
	}
	v, err := layout.StandingOf(ctx, f.Scheme, night, nil, 0)
	if err != nil {
		return made, err
	}
	img, err := v.Picture(ctx, e, standingWide, standingHigh)
	if err != nil {
		return made, err
	}
	wide, high := standingWide/duskPerMM, standingHigh/duskPerMM
	list := &scene.List{Width: wide, Height: high, Background: layout.NightAround()}
	list.Items = append(list.Items, scene.Item{Kind: scene.Image, Layer: scene.LayerPicture, Image: pic.Of(img),
		Points: []scene.XY{{X: 0, Y: 0}, {X: wide, Y: 0}, {X: 0, Y: high}, {X: 0, Y: 0}, {X: wide, Y: high}}})
	captioned(list, made)
	out := image.NewRGBA(img.Rect)
	scene.NewRasteriser().Draw(out, list, duskPerMM)
	return made, png.Encode(w, out)
}
