package scene

// Part returns what of a list shows in a rectangle of it, moved so that its
// upper left corner is at from. Texts with capitals lower than least are left
// out: they could not be read.
func (l *List) Part(from XY, width, height, least float64) *List {
	out := &List{Width: width, Height: height, Background: l.Background, View: l.View}
	n := 0
	for i := range l.Items {
		n += len(l.Items[i].Points)
	}
	room := make([]XY, n)
	for i := range l.Items {
		it := l.Items[i]
		if it.Kind == Text && it.Size < least || len(it.Points) == 0 {
			continue
		}
		lo, hi := bounds(it.Points)
		d := it.Size + it.Style.Width
		if it.Kind == Text {
			d += TextWidth(it.Text, it.Size, it.Bold)
		}
		if hi.X+d < from.X || hi.Y+d < from.Y || lo.X-d > from.X+width || lo.Y-d > from.Y+height {
			continue
		}
		ps := room[:len(it.Points):len(it.Points)]
		room = room[len(ps):]
		for k, p := range it.Points {
			ps[k] = XY{p.X - from.X, p.Y - from.Y}
		}
		it.Points = ps
		out.Items = append(out.Items, it)
	}
	return out
}
