package board

import (
	"image"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// convoy is a gesture that changes more things than can be drawn in a frame.
// A worker draws them: what has moved by the same way as the first thing on a
// picture of its own, which then moves along with every step of the gesture, and
// everything else, the cables that stretch included, on the base. The base is drawn
// again and again; the other one is taken along while it would come out the same,
// and drawn for its very place when the hand rests. Both are shown together.
type convoy struct {
	on    bool
	from  *layout.Frame // that the gesture began with
	first doc.ID        // the thing that the others move with; "" when nothing moves
	again bool          // what is shown is wrong in more than where it is
	drawn *layout.Frame // shown now; nil before the first
	flock *flock        // what moves, as its picture has it
	paint *scene.Rasteriser
}

// joins reports whether a preview is shown by the convoy, and begins it.
func (b *Board) joins(f *layout.Frame) bool {
	c := &b.convoy
	if c.on && c.from == b.still {
		return true
	}
	if !c.on && (!b.heavy() || b.hidden != nil) {
		return false
	}
	d := doc.Diff(b.still.Scheme, f.Scheme)
	if !c.on {
		if len(d.Added)+len(d.Removed)+len(d.Changed) <= many {
			return false
		}
		if c.paint == nil {
			c.paint = scene.NewLoneRasteriser()
		}
		b.live.image, c.on, c.drawn, c.flock = nil, true, nil, nil
		b.live.raster.Hide()
	}
	c.from, c.first = b.still, ""
	for _, r := range d.Changed {
		from, ok := anchor(b.still.Scheme, r.ID)
		if to, still := anchor(f.Scheme, r.ID); ok && still && from != to {
			c.first = r.ID
			break
		}
	}
	return true
}

// lags reports whether the worker has to draw the convoy again.
func (c *convoy) lags(f *layout.Frame) bool {
	return c.on && (c.again || c.drawn != f || f.Preview && c.flock.frame != f)
}

// anchor returns a place by which one sees how far a thing was moved.
func anchor(s *doc.Scheme, id doc.ID) (geom.Point, bool) {
	if ps := corners(s, id); len(ps) > 0 {
		return ps[0], true
	}
	return geom.Point{}, false
}

// corners returns all the places that a thing has on the plan.
func corners(s *doc.Scheme, id doc.ID) []geom.Point {
	if p, ok := doc.PointOf(s, id); ok {
		return []geom.Point{p.At}
	}
	if _, k := doc.Find(s, id); k == doc.DimensionKind {
		return nil // its figure changes
	}
	return outline(s, id)
}

// together returns what was moved by the way that first was.
func together(from, to *doc.Scheme, first doc.ID) map[doc.ID]bool {
	a, ok := anchor(from, first)
	z, still := anchor(to, first)
	if !ok || !still || a == z {
		return nil
	}
	by := z.Sub(a)
	ids := map[doc.ID]bool{}
	add := func(id doc.ID) {
		old, now := corners(from, id), corners(to, id)
		if len(now) == 0 || len(old) != len(now) {
			return
		}
		for i := range old {
			if old[i].Add(by) != now[i] {
				return
			}
		}
		ids[id] = true
	}
	for _, r := range doc.Diff(from, to).Changed {
		add(r.ID)
	}
	for _, r := range to.Runs.All() { // between two that move, without a corner of its own
		if !ids[r.ID] && ids[r.From.On] && ids[r.To.On] {
			add(r.ID)
		}
	}
	return ids
}

// pair is the two pictures of a convoy.
type pair struct {
	frame *layout.Frame
	rest  *sheet
	shown *flock // that may serve again; nil when it may not
	moved *flock
}

// pair returns what the pictures of the present frame are drawn from. The work
// that is left to the worker is to find what moves.
func (b *Board) pair(rest *sheet) *pair {
	c, moved := &b.convoy, *rest
	moved.in = b.input(b.frame)
	moved.in.Show[scene.LayerPicture] = false
	moved.clear = true
	rest.in.Scheme, rest.in.Lengths, rest.in.Findings = b.frame.Scheme, moved.in.Lengths, b.frame.Findings
	p := &pair{frame: b.frame, rest: rest, moved: &flock{sheet: &moved, asked: b.cfg.Now(), frame: b.frame, from: b.still.Scheme, lead: c.first}}
	if c.drawn != b.frame && !c.again { // else the hand rests, or all of it looks different
		p.shown = c.flock
	}
	return p
}

// draw finds what moves and draws both pictures, that of what moves unless the one
// that is shown can be taken along.
func (p *pair) draw(paint, over *scene.Rasteriser, into *image.RGBA) {
	m := p.moved
	m.at, _ = anchor(p.frame.Scheme, m.lead)
	m.ids = together(m.from, p.frame.Scheme, m.lead)
	marks := m.sheet.marks
	p.rest.marks, m.sheet.marks = nil, nil
	for _, id := range marks {
		if m.ids[id] {
			m.sheet.marks = append(m.sheet.marks, id)
		} else {
			p.rest.marks = append(p.rest.marks, id)
		}
	}
	p.rest.in.Skip = func(id doc.ID) bool { return m.ids[id] }
	p.rest.draw(paint, into)
	if p.shown != nil && p.shown.serves(m) {
		p.moved = p.shown
		return
	}
	m.sheet.in.Skip = func(id doc.ID) bool { return !m.ids[id] }
	m.draw(over)
}

// show takes over the pictures of a pair.
func (c *convoy) show(b *Board, p *pair) {
	anew := c.flock != p.moved
	c.drawn, c.flock, c.again = p.frame, p.moved, false
	b.live.image = p.moved.image
	if b.live.image == nil {
		b.live.raster.Hide()
		return
	}
	c.follow(b)
	if anew {
		b.live.raster.Refresh()
	}
	b.live.raster.Show()
}

// follow puts the picture of what moves where the present frame has it.
func (c *convoy) follow(b *Board) {
	if c.drawn == nil || b.live.image == nil {
		return
	}
	of := c.flock.sheet
	at := of.view.origin
	if now, ok := anchor(b.frame.Scheme, c.flock.lead); ok {
		at = at.Add(now.Sub(c.flock.at))
	}
	where, k := b.view.at(at), float32(of.view.k/b.view.k)
	s := &b.base
	b.live.raster.Move(fyne.NewPos(s.whole(where.X), s.whole(where.Y)))
	b.live.raster.Resize(fyne.NewSize(of.size.Width*k, of.size.Height*k)) // stretched while the wheel turns
}

// end leaves the convoy: the base shows everything again.
func (c *convoy) end(b *Board) {
	c.on, c.again, c.from, c.drawn, c.flock = false, false, nil, nil, nil
	b.live.image = nil
	b.live.raster.Hide()
}
