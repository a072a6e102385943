package output

import "duskwire/layout/scene"

// clipOutlines cuts what is drawn as an outline only, such as the ring about a tree
// within which roots are dug round by hand, at the edges of the room that the plan
// has, 0, 0 to w, h. The extent of a plan does not reckon with these.
func clipOutlines(l *scene.List, w, h float64) {
	out := l.Items[:0:0]
	for _, it := range l.Items {
		if it.Kind != scene.Polygon || it.Style.Fill.A != 0 || len(it.Points) < 3 || inRoom(it.Points, w, h) {
			out = append(out, it)
			continue
		}
		for _, part := range clipRing(it.Points, w, h) {
			piece := it
			piece.Kind, piece.Points = scene.Polyline, part
			out = append(out, piece)
		}
	}
	l.Items = out
}

func inRoom(ps []scene.XY, w, h float64) bool {
	for _, p := range ps {
		if p.X < 0 || p.Y < 0 || p.X > w || p.Y > h {
			return false
		}
	}
	return true
}

// clipRing returns the stretches of a closed line that lie in the room.
func clipRing(ring []scene.XY, w, h float64) (out [][]scene.XY) {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		p, q, ok := clipLeg(a, b, w, h)
		if !ok {
			continue
		}
		if n := len(out); n > 0 && out[n-1][len(out[n-1])-1] == p {
			out[n-1] = append(out[n-1], q)
			continue
		}
		out = append(out, []scene.XY{p, q})
	}
	// The ring may begin within the room: its last stretch runs on into the first.
	if n := len(out); n > 1 && out[n-1][len(out[n-1])-1] == out[0][0] {
		out[0] = append(out[n-1], out[0][1:]...)
		out = out[:n-1]
	}
	return out
}

// clipLeg returns the part of a leg that lies in the room, by the parameters at which
// it enters and leaves the four half planes.
func clipLeg(a, b scene.XY, w, h float64) (scene.XY, scene.XY, bool) {
	from, to := 0.0, 1.0
	dx, dy := b.X-a.X, b.Y-a.Y
	for _, e := range [...][2]float64{{-dx, a.X}, {dx, w - a.X}, {-dy, a.Y}, {dy, h - a.Y}} {
		switch t := e[1] / e[0]; {
		case e[0] == 0:
			if e[1] < 0 {
				return a, b, false
			}
		case e[0] < 0:
			from = max(from, t)
		default:
			to = min(to, t)
		}
	}
	if from >= to {
		return a, b, false
	}
	p, q := a, b
	if from > 0 {
		p = scene.XY{X: a.X + from*dx, Y: a.Y + from*dy}
	}
	if to < 1 {
		q = scene.XY{X: a.X + to*dx, Y: a.Y + to*dy}
	}
	return p, q, true
}
