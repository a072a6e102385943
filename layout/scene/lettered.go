package scene

import (
	"math"
	"strings"
)

// Lettered is a text of a list that is about an entity, and where it stands, so
// that a pointer can be told what it rests on.
type Lettered struct {
	Entity, Text string
	Fill         Colour
	Bold         bool
	Size         float64 // height of its capitals

	at XY // where the baseline starts
	u  XY // along the letters
	w  float64
}

// Lettering returns the texts of a list that are about an entity, in its order.
func (l *List) Lettering() (out []Lettered) {
	for i := range l.Items {
		if it := &l.Items[i]; it.Kind == Text && it.Entity != "" && len(it.Points) > 0 {
			out = append(out, it.lettered())
		}
	}
	return out
}

func (it *Item) lettered() Lettered {
	sin, cos := math.Sincos(it.Turn * math.Pi / 180)
	t := Lettered{Entity: it.Entity, Text: it.Text, Fill: it.Style.Fill, Bold: it.Bold, Size: it.Size,
		at: it.Points[0], u: XY{cos, -sin}, w: TextWidth(it.Text, it.Size, it.Bold)}
	back := 0.0
	switch it.Anchor {
	case Middle:
		back = t.w / 2
	case Right:
		back = t.w
	}
	t.at = XY{t.at.X - back*t.u.X, t.at.Y - back*t.u.Y}
	return t
}

// Upright returns where the baseline starts of a text that is not turned.
func (t *Lettered) Upright() (at XY, ok bool) { return t.at, t.u.Y == 0 && t.u.X > 0 }

// along returns how far a place lies along the letters and above the baseline.
func (t *Lettered) along(p XY) (along, up float64) {
	dx, dy := p.X-t.at.X, p.Y-t.at.Y
	return dx*t.u.X + dy*t.u.Y, dx*t.u.Y - dy*t.u.X
}

// Covers reports whether a place lies on the letters or no further than reach
// beside them.
func (t *Lettered) Covers(p XY, reach float64) bool {
	x, y := t.along(p)
	return x >= -reach && x <= t.w+reach && y >= -reach-tail && y <= t.Size+reach
}

// Bounds returns the corners of the upright rectangle around the letters.
func (t *Lettered) Bounds() (lo, hi XY) {
	up := XY{t.u.Y, -t.u.X}
	var ps [4]XY
	for i, c := range [4][2]float64{{0, -tail}, {t.w, -tail}, {t.w, t.Size}, {0, t.Size}} {
		ps[i] = XY{t.at.X + c[0]*t.u.X + c[1]*up.X, t.at.Y + c[0]*t.u.Y + c[1]*up.Y}
	}
	return bounds(ps[:])
}

// Part returns the part of the text that a place lies on, of texts that set
// several figures side by side: "R3 · 8.5 m" is two.
func (t *Lettered) Part(p XY) string {
	x, _ := t.along(p)
	sign, end := TextWidth(PartSign, t.Size, t.Bold), 0.0
	parts := strings.Split(t.Text, PartSign)
	last := len(parts) - 1
	for _, part := range parts[:last] {
		if end += TextWidth(part, t.Size, t.Bold); x <= end+sign/2 {
			return part
		}
		end += sign
	}
	return parts[last]
}

// PartSign stands between figures that share a text.
const PartSign = " · "
