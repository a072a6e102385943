package scene

import "duskwire/layout/doc"

// Tonal says how the colours of a picture are shown.
type Tonal int

const (
	AsIs Tonal = iota
	// Dimmed makes a photo darker, for a dark screen.
	Dimmed
	// Turned swaps light and dark but keeps the hues, so that a plan on white
	// paper does not glare on a dark screen.
	Turned
)

// washed is how strongly ground covers a picture that lies under it, out of 255.
const washed = 0x59

// picture draws what lies under the plan.
func (b *builder) picture() {
	u := b.in.Scheme.Plan.Underlay
	if !b.lies() || u.Fade >= 1 {
		return
	}
	c := u.Corners()
	ps := b.keep([]XY{b.at(c[0]), b.at(c[1]), b.at(c[3]), {0, 0}, {b.w, b.h}})
	far := b.at(c[2])
	if !b.seesBox([]XY{ps[0], ps[1], ps[2], far}, 0) {
		return
	}
	b.add(Item{Kind: Image, Layer: LayerPicture, Points: ps, Image: b.in.Picture, Fade: float64(u.Fade), Tone: b.pal.tonal(b.in.Picture.Light)})
}

// lies reports whether a picture shows under the plan.
func (b *builder) lies() bool {
	return b.in.Picture != nil && b.in.Scheme.Plan.Underlay != (doc.Underlay{}) && b.in.shows(LayerPicture)
}

// ground returns the colour of a piece of ground, which lets a picture under
// it shine through.
func (b *builder) ground(c Colour) Colour {
	if b.in.Picture != nil {
		c.A = uint8(int(c.A) * washed / 255)
	}
	return c
}

// tonal returns how a picture is shown on the paper of the palette.
func (p *Palette) tonal(light bool) Tonal {
	switch {
	case p.Paper.grey().R >= 128:
		return AsIs
	case light:
		return Turned
	}
	return Dimmed
}
