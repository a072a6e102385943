package layout

import (
	"context"
	"image"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Standing is a frame as somebody sees it who stands in the garden at night: the
// same lamps, the same sheet of lux, the same exposure as the night plan. It is
// immutable; pictures from many eye points may be made of one.
type Standing struct {
	Night   *Night
	Sheet   *light.Sheet
	outlook *light.Outlook
}

// Reflectances of what stands up, in linear sRGB (common practice, no source).
var (
	houseRho   = light.RGB{0.42, 0.38, 0.33} // render
	roofRho    = light.RGB{0.10, 0.09, 0.09}
	masonryRho = light.RGB{0.28, 0.23, 0.18}
	timberRho  = light.RGB{0.20, 0.14, 0.09}
	stoneRho   = light.RGB{0.33, 0.31, 0.28}
	barkRho    = light.RGB{0.11, 0.08, 0.06}
	crownRho   = light.RGB{0.06, 0.11, 0.04}
)

// Heights and sizes taken for what is drawn as a mark or a line, metres (common
// practice, no source).
const (
	clearStem      = 1.7 // of a tree below its crown
	seatHigh       = 0.45
	seatReach      = 0.5
	stepHigh       = 0.15
	beamHigh       = 0.15 // of a pergola
	postWide       = 0.1
	pergolaHigh    = 2.3
	trunkLeast     = 0.06
	usualCrownWide = 1.5
	roundCorners   = 16
)

// standingCells is about how many cells the sheet of a standing view has.
const standingCells = 384 * 384

// StandingOf makes the outlook of a night. sheet is a filled sheet of its scene on
// the ground; nil has one made of about so many cells, the usual number for 0. A
// cancelled ctx ends that early with its error.
func StandingOf(ctx context.Context, s *doc.Scheme, night *Night, sheet *light.Sheet, cells int) (*Standing, error) {
	if sheet == nil {
		if cells == 0 {
			cells = standingCells
		}
		var err error
		if sheet, err = FillSheet(ctx, night, NightGrid(NightArea(s), cells)); err != nil {
			return nil, err
		}
	}
	var patches []light.Patch
	for _, a := range s.Areas.All() {
		if rho, ok := Reflectance(a.Kind); ok && len(a.Ring) >= 3 {
			patches = append(patches, light.Patch{Outline: spots(a.Ring), Rho: rho})
		}
	}
	solids, crowns := solidsOf(s)
	return &Standing{Night: night, Sheet: sheet, outlook: light.NewOutlook(light.Night, sheet, bareRho, patches, solids, crowns)}, nil
}

// FillSheet works out the sheet of a night, bands side by side.
func FillSheet(ctx context.Context, night *Night, g light.Grid) (*light.Sheet, error) {
	sheet, err := night.NewSheet(g)
	if err != nil {
		return nil, err
	}
	return sheet, inParts(ctx, sheet.Bands(), sheet.Band)
}

// inParts does n parts of a work that do not touch each other, on all
// processors, and stops between two of them when the context ends.
func inParts(ctx context.Context, n int, do func(int)) error {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.NumCPU(), n) {
		wait.Go(func() {
			for ctx.Err() == nil {
				i := int(next.Add(1)) - 1
				if i >= n {
					return
				}
				do(i)
			}
		})
	}
	wait.Wait()
	return ctx.Err()
}

// stripWide is how many columns of a picture are drawn as one piece.
const stripWide = 8

// Picture returns the view from an eye point, w by h pixels. It depends on nothing
// else, byte for byte. A cancelled ctx ends it early with its error.
func (v *Standing) Picture(ctx context.Context, e doc.Eye, w, h int) (*image.RGBA, error) {
	const degree = math.Pi / 180
	at := e.Place.At
	g := v.outlook.Glimpse(light.Eye{At: light.Vec{X: at.X.Metres(), Y: at.Y.Metres(), Z: e.Place.Height.Metres()},
		Bearing: (90 - e.Bearing) * degree, Tilt: e.Tilt * degree, Field: e.Field * degree}, w, h)
	err := inParts(ctx, (w+stripWide-1)/stripWide, func(i int) { g.Columns(i*stripWide, min((i+1)*stripWide, w)) })
	if err != nil {
		return nil, err
	}
	g.Lamps()
	return g.Image, nil
}

// solidsOf returns what stands up in the garden. Heights that nobody gave are
// those that the shadows have.
func solidsOf(s *doc.Scheme) (solids []light.Solid, crowns []light.Ball) {
	for _, a := range s.Areas.All() {
		if a.Kind == "deck" && a.Height > 0 && len(a.Ring) >= 3 {
			solids = append(solids, light.Solid{Outline: spots(a.Ring), Closed: true, Top: a.Height.Metres(), Side: groundRho["deck"], Cap: groundRho["deck"]})
		}
		if a.Kind == "building" && len(a.Ring) >= 3 {
			solids = append(solids, light.Solid{Outline: spots(a.Ring), Closed: true, Top: orElse(a.Height, tallBuilding), Side: houseRho, Cap: roofRho})
		}
	}
	for _, l := range s.Lines.All() {
		if len(l.Path) >= 2 {
			solids = append(solids, upright(l)...)
		}
	}
	for _, m := range s.Marks.All() {
		switch m.Kind {
		case "tree":
			r := orElse(m.Crown, usualCrownWide)
			low, high := clearStem, clearStem+2*r
			if m.CrownTop > 0 {
				high = m.CrownTop.Metres()
				low = orElse(m.CrownBase, crownBase*high)
			}
			half := math.Max((high-low)/2, trunkLeast)
			mid, _ := stem(m)
			solids = append(solids, round(m.Place.At, math.Max(m.Radius.Metres(), trunkLeast), mid, barkRho))
			crowns = append(crowns, light.Ball{At: light.Vec{X: m.Place.At.X.Metres(), Y: m.Place.At.Y.Metres(), Z: mid}, R: r, Half: half, Rho: crownRho})
		case "seat":
			seat := round(m.Place.At, math.Min(orElse(m.Radius, seatReach), 1), seatHigh, timberRho)
			seat.Cap = timberRho
			solids = append(solids, seat)
		}
	}
	return solids, crowns
}

// upright returns a wall, fence, step or pergola.
func upright(l *doc.Line) []light.Solid {
	path := spots(l.Path)
	switch l.Kind {
	case "wall":
		return []light.Solid{{Outline: path, Top: orElse(l.Height, tallWall), Side: masonryRho}}
	case "fence":
		return []light.Solid{{Outline: path, Top: orElse(l.Height, tallWall), Side: timberRho}}
	case "step":
		return []light.Solid{{Outline: path, Top: orElse(l.Height, stepHigh), Side: stoneRho}}
	case "pergola":
		top := orElse(l.Height, pergolaHigh)
		out := []light.Solid{{Outline: path, Base: math.Max(top-beamHigh, 0), Top: top, Side: timberRho}}
		for i, p := range l.Path {
			if !slices.Contains(l.Path[:i], p) {
				out = append(out, round(p, postWide/2, top, timberRho))
			}
		}
		return out
	}
	return nil
}

// round returns an upright post with level ends.
func round(at geom.Point, r, top float64, rho light.RGB) light.Solid {
	return light.Solid{Outline: roundOutline(at, r), Closed: true, Top: top, Side: rho, Cap: rho}
}

func orElse(h geom.Length, otherwise float64) float64 {
	if h > 0 {
		return h.Metres()
	}
	return otherwise
}

// UsualEye returns an eye point for a scheme that has none: from the middle of the
// lower edge of what is drawn, or before the door, up the sheet.
func UsualEye(s *doc.Scheme) doc.Eye {
	e := doc.Eye{Tag: doc.FreeEyeTag(s), Place: doc.Place{Height: doc.UsualEyeHeight}, Field: doc.UsualField}
	b := doc.Bounds(s)
	if b.Empty() {
		return e
	}
	c := b.Centre()
	for _, m := range s.Marks.All() {
		if m.Kind == "door" && m.Place.At != c {
			e.Name, e.Bearing = "From the door", math.Round(geom.Bearing(m.Place.At, c))
			e.Place.At = geom.Toward(m.Place.At, e.Bearing, geom.Metre/2)
			return e
		}
	}
	e.Name = "From the lower edge"
	e.Place.At = geom.Point{X: c.X, Y: b.Min.Y}
	return e
}
