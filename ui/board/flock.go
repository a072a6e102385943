package board

import (
	"image"
	"maps"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// flock is the picture of what moves in a convoy with what it was drawn from. While
// a hand moves it is taken along and not drawn again, as long as it would come out
// the same but for where it lies: it is most of what a worker would have to draw.
// Marks of findings that come and go meanwhile are drawn every flockMarks, and labels
// keep their place beside their things until the hand rests.
type flock struct {
	image *image.RGBA // nil when nothing of it is in sight
	sheet *sheet      // with the marks of what moves alone
	asked time.Time   // when it was begun
	frame *layout.Frame
	from  *doc.Scheme // that the gesture began with
	ids   map[doc.ID]bool
	lead  doc.ID
	at    geom.Point // where the lead was
}

const (
	// flockRoom is how far beyond the board the picture of what moves reaches, so that
	// it can be taken along for a while, in units.
	flockRoom = 96
	// flockGive is what rounding to whole pixels may take from the room about it.
	flockGive = 2
	// flockMarks is how old a picture may be that lacks a mark or length, or has one
	// too many.
	flockMarks = 300 * time.Millisecond
)

// needs returns the part of the board of a size that shows what moves.
func (f *flock) needs(v view, board fyne.Size, spare float32) (at fyne.Position, size fyne.Size, shows bool) {
	var r geom.Rect
	for id := range f.ids {
		r = r.Union(tool.Extent(f.frame.Scheme, id))
	}
	return window(v, board, r.Grow(v.length(spare)))
}

// draw gives the flock a picture as large as it needs.
func (f *flock) draw(paint *scene.Rasteriser) {
	m := f.sheet
	m.view, m.size = m.view.panned(flockRoom, flockRoom), m.size.AddWidthHeight(2*flockRoom, 2*flockRoom)
	at, size, shows := f.needs(m.view, m.size, flockGive)
	if !shows {
		return
	}
	m.view, m.size = m.view.panned(-float64(at.X), -float64(at.Y)), size
	f.image = image.NewRGBA(image.Rect(0, 0, int(float64(size.Width)*m.dpp+0.5), int(float64(size.Height)*m.dpp+0.5)))
	m.draw(paint, f.image)
}

// serves reports whether the picture of f shows what one of next would: the same
// things, with the same marks unless it is young, and as much of them as the board
// shows.
func (f *flock) serves(next *flock) bool {
	a, b := f.sheet, next.sheet
	if f.image == nil || f.from != next.from || f.lead != next.lead || !a.like(b) || !maps.Equal(f.ids, next.ids) ||
		next.asked.Sub(f.asked) >= flockMarks && !f.same(next) {
		return false
	}
	at, size, shows := next.needs(b.view, b.size, 0)
	if !shows {
		return false
	}
	is := b.view.at(a.view.origin.Add(next.at.Sub(f.at)))
	return is.X <= at.X && is.Y <= at.Y && is.X+a.size.Width >= at.X+size.Width && is.Y+a.size.Height >= at.Y+size.Height
}

// like reports whether two sheets are drawn the same way, their schemes and figures
// aside.
func (s *sheet) like(t *sheet) bool {
	a, b := &s.in, &t.in
	return s.view.k == t.view.k && s.dpp == t.dpp && s.mark == t.mark && slices.Equal(s.marks, t.marks) &&
		a.Stock == b.Stock && a.Palette == b.Palette && a.NoZones == b.NoZones &&
		a.Hatch.All == b.Hatch.All && slices.Equal(a.Hatch.Only, b.Hatch.Only) && maps.Equal(a.Show, b.Show) &&
		a.Look == b.Look && !figured(a.Look) && (a.Look == scene.LookPlan || slices.Equal(a.Results, b.Results))
}

// same reports whether findings and lengths give the things of two flocks the same
// marks and labels.
func (f *flock) same(next *flock) bool {
	a, b := &f.sheet.in, &next.sheet.in
	if len(a.Lengths) != len(b.Lengths) {
		return false
	}
	for i, l := range a.Lengths {
		if m := &b.Lengths[i]; f.ids[l.Run] && (l.Run != m.Run || l.Cut != m.Cut) {
			return false
		}
	}
	return slices.Equal(f.badges(), next.badges())
}

// badge is what a finding shows on the plan.
type badge struct {
	id    string
	level int
	open  bool
}

// badges returns what the findings show beside what moves.
func (f *flock) badges() []badge {
	var out []badge
	for i := range f.sheet.in.Findings {
		if x := &f.sheet.in.Findings[i]; f.ids[doc.ID(x.Subject.ID)] {
			out = append(out, badge{x.Subject.ID, int(x.Level), x.Overruled == nil})
		}
	}
	return out
}
