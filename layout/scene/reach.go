package scene

// Reach returns the corners of the rectangle around everything that belongs to an
// entity, labels and marks included: what has to be seen for the plan to be whole. ok
// is false where there is nothing.
func (l *List) Reach() (lo, hi XY, ok bool) {
	for i := range l.Items {
		it := &l.Items[i]
		if len(it.Points) == 0 || it.Layer == LayerGrid || it.Layer == LayerPicture || it.Layer == LayerLux {
			continue
		}
		a, b := bounds(it.Points)
		edge := it.Style.Width / 2
		switch it.Kind {
		case Text:
			t := it.lettered()
			a, b = t.Bounds()
		case Circle:
			edge += it.Size
		case Image:
			continue
		}
		a, b = XY{a.X - edge, a.Y - edge}, XY{b.X + edge, b.Y + edge}
		if !ok {
			lo, hi, ok = a, b, true
			continue
		}
		lo = XY{min(lo.X, a.X), min(lo.Y, a.Y)}
		hi = XY{max(hi.X, b.X), max(hi.Y, b.Y)}
	}
	return lo, hi, ok
}
