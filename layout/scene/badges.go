package scene

import (
	"math"

	"duskwire/calc/finding"
)

// spot is where a subject of a finding stands.
type spot struct {
	entity string
	at     XY
	r      float64
}

// rank notes the worst level of each subject. An overruled finding counts
// only where nothing is open, and its mark is hollow.
func (b *builder) rank() {
	fs := b.in.Findings
	if len(fs) == 0 || !b.in.shows(LayerFinding) || b.in.Look == LookDig {
		return
	}
	b.worst, b.closed = map[string]finding.Level{}, map[string]bool{}
	for i := range fs {
		f := &fs[i]
		if f.Level == finding.Held || f.Subject.ID == "" {
			continue
		}
		id, done := f.Subject.ID, f.Overruled != nil
		old, seen := b.worst[id]
		if !seen || b.closed[id] && !done || b.closed[id] == done && f.Level > old {
			b.worst[id], b.closed[id] = f.Level, done
		}
	}
}

// standAt notes the place of an entity that has findings.
func (b *builder) standAt(id string, at XY, r float64) {
	if len(b.worst) == 0 {
		return
	}
	if _, ok := b.worst[id]; ok {
		b.spots = append(b.spots, spot{id, at, r})
	}
}

const badgeRadius = 1.9

// badges puts the finding marks beside their subjects: Stop an octagon with
// a bar, Decide a diamond with a question mark, Note a circle with an i.
func (b *builder) badges() {
	for _, s := range b.spots {
		if !b.sees(s.at) {
			continue
		}
		p, _, cost := b.beside(s.at, s.r, s.r, s.r, 2*badgeRadius, 2*badgeRadius)
		if b.in.Screen && cost >= never { // all is full around it: a mark is never left out
			p = XY{s.at.X + 0.7*s.r, s.at.Y - 0.7*s.r}
		}
		c := XY{p.X + badgeRadius, p.Y - badgeRadius}
		b.free.box(c.X-badgeRadius, c.Y-badgeRadius, c.X+badgeRadius, c.Y+badgeRadius, hurtLabel)
		for _, it := range Badge(b.worst[s.entity], b.closed[s.entity], c, b.pal) {
			it.Entity = s.entity
			b.add(it)
		}
	}
}

// Badge returns the mark of a finding level at a place; hollow when the
// finding was overruled.
func Badge(l finding.Level, overruled bool, at XY, pal *Palette) []Item {
	colour, sign := pal.Note, []XY{{0, -0.15}, {0, 0.95}, {0, -0.9}, {0, -0.88}}
	switch l {
	case finding.Stop:
		colour, sign = pal.Stop, []XY{{-0.95, 0}, {0.95, 0}}
	case finding.Decide:
		colour, sign = pal.Decide, []XY{{-0.5, -0.55}, {-0.3, -0.95}, {-0.3, -0.95}, {0.3, -0.95}, {0.3, -0.95}, {0.5, -0.55},
			{0.5, -0.55}, {0, 0.05}, {0, 0.05}, {0, 0.35}, {0, 0.95}, {0, 0.97}}
	}
	st := Style{Stroke: pal.Paper, Width: medium, Fill: colour}
	ink := Style{Stroke: pal.OnMark, Width: 0.45}
	if l == finding.Stop {
		ink.Width = 0.7
	}
	if overruled {
		st = Style{Stroke: colour, Width: medium, Fill: pal.Paper}
		ink.Stroke = colour
	}
	body := Item{Kind: Polygon, Layer: LayerFinding, Style: st}
	switch l {
	case finding.Stop:
		for i := range 8 {
			sin, cos := math.Sincos(math.Pi/8 + float64(i)*math.Pi/4)
			body.Points = append(body.Points, XY{at.X + badgeRadius*cos, at.Y + badgeRadius*sin})
		}
	case finding.Decide:
		const r = badgeRadius * 1.12
		body.Points = []XY{{at.X, at.Y - r}, {at.X + r, at.Y}, {at.X, at.Y + r}, {at.X - r, at.Y}}
	default:
		body.Kind, body.Points, body.Size = Circle, []XY{at}, badgeRadius*0.95
	}
	marks := Item{Kind: Segments, Layer: LayerFinding, Style: ink}
	for _, p := range sign {
		marks.Points = append(marks.Points, XY{at.X + p.X, at.Y + p.Y})
	}
	return []Item{body, marks}
}
