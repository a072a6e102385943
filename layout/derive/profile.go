package derive

import (
	"cmp"
	"math"
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Profile is one run unrolled: its way laid straight and seen from the side.
// Distances are along its way on the plan, from its start as drawn; levels are
// above the ground at that place, negative in it.
type Profile struct {
	Run    *doc.Run
	Path   []geom.Point // on the plan, one more than legs
	Length geom.Length
	Legs   []ProfileLeg
	Ends   [2]ProfileEnd
	Ground []ProfileGround
	Meets  []ProfileMeet // in the order of the way
}

// ProfileLeg is one leg of the profile.
type ProfileLeg struct {
	From, To geom.Length
	Support  network.Support
	Level    geom.Length
	Dug      bool // has to be dug; see network.Leg.Dug
	Unsaid   bool // buried, and nobody said how deep
}

// ProfileEnd is what stands at an end; On is nil in the air.
type ProfileEnd struct {
	On    doc.Entity
	Level geom.Length
}

// ProfileGround is a piece of a leg over one area, nil for none.
type ProfileGround struct {
	Leg      int
	From, To geom.Length
	Area     *doc.Area
}

// MeetKind says what a run meets on its way.
type MeetKind int

const (
	MeetService MeetKind = iota // crosses a buried service
	MeetRun                     // crosses another run in the ground
	MeetRoots                   // passes where roots ask for digging by hand
)

// ProfileMeet is one thing met: at From, or from From to To.
type ProfileMeet struct {
	Kind     MeetKind
	Leg      int
	From, To geom.Length
	On       doc.Entity
	Level    geom.Length // of another run
	Known    bool        // the level, or the girth of the tree, is known
}

// Unroll returns the profile of a run; ok is false when there is no such run or
// it has no legs. Without limits no roots are looked for.
func Unroll(s *doc.Scheme, run doc.ID, site *check.SiteLimits) (p *Profile, ok bool) {
	r, ok := s.Runs.Get(run)
	if !ok || len(r.Legs) == 0 {
		return nil, false
	}
	p = &Profile{Run: r, Path: doc.RunPath(s, r)}
	for i, e := range [2]doc.End{r.From, r.To} {
		if on, _ := doc.Find(s, e.On); on != nil {
			at, _ := doc.PlaceOf(on)
			p.Ends[i] = ProfileEnd{on, at.Height}
		}
	}
	for i, l := range r.Legs {
		long := geom.Distance(p.Path[i], p.Path[i+1])
		p.Legs = append(p.Legs, ProfileLeg{From: p.Length, To: p.Length + long, Support: l.Support, Level: elevation(l),
			Dug: dug(l), Unsaid: l.Support == network.Buried && l.Depth == 0})
		p.Length += long
	}
	for i := range p.Legs {
		p.overGround(s, i)
		p.meets(s, i, site)
	}
	slices.SortStableFunc(p.Meets, func(a, b ProfileMeet) int { return cmp.Compare(a.From, b.From) })
	return p, true
}

// At returns the plan point at a distance along leg i.
func (p *Profile) At(leg int, along geom.Length) geom.Point {
	l := p.Legs[leg]
	a, b := p.Path[leg], p.Path[leg+1]
	if l.To == l.From {
		return a
	}
	t := float64(along-l.From) / float64(l.To-l.From)
	return geom.Point{X: a.X + geom.Length(math.Round(t*float64(b.X-a.X))), Y: a.Y + geom.Length(math.Round(t*float64(b.Y-a.Y)))}
}

// along returns the distance at a parameter of leg i.
func (p *Profile) along(leg int, t float64) geom.Length {
	l := p.Legs[leg]
	return l.From + geom.Length(math.Round(t*float64(l.To-l.From)))
}

// overGround cuts leg i where the ground changes.
func (p *Profile) overGround(s *doc.Scheme, i int) {
	box := geom.Around(p.Path[i], p.Path[i+1])
	var rings [][]geom.Point
	var areas []*doc.Area
	for _, a := range s.Areas.All() {
		if len(a.Ring) > 2 && geom.Around(a.Ring...).Overlaps(box) {
			rings, areas = append(rings, a.Ring), append(areas, a)
		}
	}
	for _, c := range geom.Split(p.Path[i], p.Path[i+1], rings) {
		g := ProfileGround{Leg: i, From: p.along(i, c.From), To: p.along(i, c.To)}
		if c.Area >= 0 {
			g.Area = areas[c.Area]
		}
		p.Ground = append(p.Ground, g)
	}
}

// meets lists what leg i meets. A service is listed for a leg above ground too,
// for the rises at its ends are dug in; roots and runs only for one in it.
func (p *Profile) meets(s *doc.Scheme, i int, site *check.SiteLimits) {
	a, b := p.Path[i], p.Path[i+1]
	box := geom.Around(a, b)
	for _, l := range s.Lines.All() {
		if l.Kind != "buried service" || !geom.Around(l.Path...).Overlaps(box) {
			continue
		}
		geom.Edges(l.Path, false, func(c, d geom.Point) {
			if t, ok := geom.Cross(a, b, c, d); ok {
				at := p.along(i, t)
				p.Meets = append(p.Meets, ProfileMeet{Kind: MeetService, Leg: i, From: at, To: at, On: l})
			}
		})
	}
	if !p.Legs[i].Dug {
		return
	}
	for _, r := range s.Runs.All() {
		if r.ID != p.Run.ID {
			p.meetRun(s, i, r, box)
		}
	}
	if site == nil {
		return
	}
	for _, m := range s.Marks.All() {
		zone, known := HandZone(m, site)
		if from, to, ok := geom.Within(a, b, m.Place.At, m.Place.At, zone); ok && known {
			p.Meets = append(p.Meets, ProfileMeet{Kind: MeetRoots, Leg: i, From: p.along(i, from), To: p.along(i, to), On: m, Known: true})
		}
	}
}

// meetRun lists the crossings with another run in the ground.
func (p *Profile) meetRun(s *doc.Scheme, i int, r *doc.Run, box geom.Rect) {
	from := doc.EndPoint(s, r.From)
	for j, l := range r.Legs {
		to := l.To
		if j == len(r.Legs)-1 {
			to = doc.EndPoint(s, r.To)
		}
		if dug(l) && geom.Around(from, to).Overlaps(box) {
			t, ok := geom.Cross(p.Path[i], p.Path[i+1], from, to)
			u, _ := geom.Cross(from, to, p.Path[i], p.Path[i+1])
			if ok && t > 0 && t < 1 && u > 0 && u < 1 { // not where they are joined
				at := p.along(i, t)
				p.Meets = append(p.Meets, ProfileMeet{Kind: MeetRun, Leg: i, From: at, To: at, On: r, Level: elevation(l), Known: l.Depth > 0})
			}
		}
		from = to
	}
}

// HandZone returns how far from the middle of a tree is dug by hand: girths of
// the trunk from the bark (see check.SiteLimits.HandDig), at least as far as
// nothing is dug at all. known is false for anything but a tree whose trunk is
// measured.
func HandZone(m *doc.Mark, site *check.SiteLimits) (zone geom.Length, known bool) {
	if m.Kind != "tree" || m.Radius <= 0 {
		return 0, false
	}
	girth := 2 * math.Pi * m.Radius.Metres()
	return m.Radius + max(reach(site.HandDig.Value*girth), reach(site.RootClear.Value)), true
}

// Rules returns the rule set that the circuits were derived under.
func (c *Circuits) Rules() *check.Rules { return c.site.rules }

// DigDepth is how deep people are taken to dig in an area: what was given, or in
// a bed of which nobody said, what is usual there: a bed is dug, whether or not
// somebody wrote down how deep.
func DigDepth(a *doc.Area) (depth geom.Length, usual bool) {
	if a.DigDepth == 0 && (a.Kind == "border" || a.Kind == "dug bed") {
		return doc.UsualArea(a.Kind).DigDepth, true
	}
	return a.DigDepth, false
}

// DigWords says it: "dug 300 mm", "dug 250 mm as usual".
func DigWords(a *doc.Area) string {
	depth, usual := DigDepth(a)
	if usual {
		return "dug " + doc.Written(depth) + " as usual"
	}
	return "dug " + doc.Written(depth)
}
