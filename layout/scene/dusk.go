package scene

// casing is how far the dark bed reaches beyond a stroke in the dusk look, mm.
const casing = 0.22

// haloColour is what letters are set off with.
func (l *List) haloColour() Colour {
	if l.Background.A == 0 {
		return l.Halo
	}
	return l.Background
}

// cased lays a dark bed under every stroke of the list, and leaves its ground
// open for the night picture: the lines then stand off from lit paving as well as
// from the dark.
func (b *builder) cased() {
	out := make([]Item, 0, 2*len(b.list.Items))
	bed := b.pal.Paper
	bed.A = 0x78
	for i := range b.list.Items {
		it := b.list.Items[i]
		if it.Style.Width > 0 && it.Style.Stroke.A > 0 && it.Kind != Text && it.Layer != LayerGrid && it.Layer != LayerZones {
			under := it
			under.Style = Style{Stroke: bed, Width: it.Style.Width + 2*casing, Dash: it.Style.Dash}
			out = append(out, under)
		}
		out = append(out, it)
	}
	b.list.Items = out
	b.list.Background.A, b.list.Halo = 0, b.pal.Paper
}
