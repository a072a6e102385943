package output

import (
	"context"
	"image/color"
	"image/png"
	"io"

	"duskwire/layout"
	"duskwire/layout/doc"
)

// Pixels of a standing view.
const standingWide, standingHigh = 1280, 800

// StandingOf writes what somebody sees at night from an eye point as PNG and
// returns what was assumed for it.
func StandingOf(w io.Writer, f *layout.Frame, e doc.Eye) ([]string, error) {
	night, err := layout.NightOf(f)
	if err != nil {
		return nil, err
	}
	ctx := context.Background()
	v, err := layout.StandingOf(ctx, f.Scheme, night, nil, 0)
	if err != nil {
		return nil, err
	}
	img, err := v.Picture(ctx, e, standingWide, standingHigh)
	if err != nil {
		return nil, err
	}
	pen := &duskPen{img: img}
	pen.text(6, standingHigh-6, layout.NightCaveat, color.RGBA{235, 235, 235, 255})
	return night.Assumed, png.Encode(w, img)
}
