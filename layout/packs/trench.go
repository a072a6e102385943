package packs

import (
	"math"
	"slices"

	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Sizes of a trench. Width, bed, cover and the overlap of the tape: trade
// figures, derived for a trench 600 mm deep and 300 mm wide (0.18 m³ dug and
// 0.063 m³ of sand a metre); common practice, no source. The plan gives the
// depth of the cable, so a trench with a bed is that much deeper.
const (
	trenchWide = 0.300 // m
	slitWide   = 0.150 // a spade's width, for shallow extra-low voltage
	bed        = 0.100 // sand below the cable
	cover      = 0.100 // and above it
	tapeOver   = 1.02  // tape for a metre
	sandHeavy  = 1.7   // t/m³, of damp sand
	slitDeep   = 0.450 // cables at least so deep get the wide trench
)

// dug reports whether a leg lies in the ground.
func dug(l doc.Leg) bool {
	return l.Support == network.Buried || l.Support == network.InDuct && l.Depth > 0
}

// stretch is a piece of trench over one kind of ground with one set of runs.
type stretch struct {
	runs   []*doc.Run
	leg    doc.Leg // of the deepest run
	area   *doc.Area
	length float64 // m on the plan
	byHand float64 // of it among roots
	mains  bool
	tape   bool
	ducts  int // one for the mains, one for extra-low voltage
	wide   float64
	deep   float64 // of the trench; 0 where the depth is not given
	sand   float64 // m³
}

func (s *stretch) volume() float64 { return s.length * s.wide * s.deep }

// meeting is something that a trench meets.
type meeting struct {
	run  *doc.Run
	kind derive.MeetKind
	on   doc.Entity
	at   geom.Length // along the run, from its start
	to   geom.Length
	spot geom.Point
	note string
}

// digging is everything dug.
type digging struct {
	stretches []stretch
	meets     []meeting
}

// diggingOf lists the trenches, those of several runs once; see strandsOf.
func diggingOf(b *book) *digging {
	d := &digging{}
	pieces := map[*doc.Run]map[int][]piece{} // by leg
	for _, s := range strandsOf(b.scheme) {
		if pieces[s.run] == nil {
			pieces[s.run] = map[int][]piece{}
		}
		pieces[s.run][s.leg] = s.parts
	}
	for _, r := range b.scheme.Runs.All() {
		p, ok := derive.Unroll(b.scheme, r.ID, &b.Rules.Site)
		if !ok {
			continue
		}
		d.along(b, p, pieces[r])
		for _, m := range p.Meets {
			if m.Kind == derive.MeetRun && !before(b.scheme, r, m.On.Key()) {
				continue // told from the other run
			}
			d.meets = append(d.meets, meeting{run: r, kind: m.Kind, on: m.On, at: m.From, to: m.To, spot: p.At(m.Leg, m.From), note: b.meetNote(r, p, m)})
		}
	}
	return d
}

// each calls f for every dug leg.
func each(s *doc.Scheme, f func(r *doc.Run, leg int, a, b geom.Point)) {
	for _, r := range s.Runs.All() {
		path := doc.RunPath(s, r)
		for i := range r.Legs {
			if dug(r.Legs[i]) {
				f(r, i, path[i], path[i+1])
			}
		}
	}
}

// before reports whether r comes before the other run.
func before(s *doc.Scheme, r *doc.Run, other doc.ID) bool {
	i, _ := s.Runs.Index(r.ID)
	j, _ := s.Runs.Index(other)
	return i < j
}

// along adds the stretches of one run that no run before it had.
func (d *digging) along(b *book, p *derive.Profile, pieces map[int][]piece) {
	first := len(d.stretches)
	for _, g := range p.Ground {
		for _, x := range pieces[g.Leg] {
			start := p.Legs[g.Leg].From
			from, to := max(g.From, start+geom.Metres(x.span[0])), min(g.To, start+geom.Metres(x.span[1]))
			if to <= from {
				continue
			}
			s := b.stretchOf(&x, g.Area, (to - from).Metres())
			s.byHand = handPart(p, g.Leg, from, to)
			if n := len(d.stretches); n > first && d.stretches[n-1].like(&s) {
				d.stretches[n-1].length += s.length
				d.stretches[n-1].byHand += s.byHand
				d.stretches[n-1].sand += s.sand
				continue
			}
			d.stretches = append(d.stretches, s)
		}
	}
}

// like reports whether two stretches are dug alike and may be listed as one.
func (s *stretch) like(o *stretch) bool {
	if len(s.runs) != len(o.runs) || s.area != o.area || s.deep != o.deep || s.leg.Support != o.leg.Support || s.leg.Depth != o.leg.Depth || s.tape != o.tape ||
		s.ducts != o.ducts || math.Abs(s.wide-o.wide) > 0.005 {
		return false
	}
	for i := range s.runs {
		if s.runs[i] != o.runs[i] {
			return false
		}
	}
	return true
}

// stretchOf works out one piece of trench: as deep as the deepest of what lies in
// it, and wider by what lies between the outermost.
func (b *book) stretchOf(x *piece, area *doc.Area, length float64) stretch {
	s := stretch{area: area, length: length}
	thick, bare, mains, low := 0.0, false, 0, 0
	for i, t := range x.with {
		leg := t.run.Legs[t.leg]
		if i == 0 || leg.Depth > s.leg.Depth {
			s.leg = leg
		}
		s.tape = s.tape || !leg.NoTape
		bare = bare || leg.Support == network.Buried
		isMains := b.mains(t.run)
		switch {
		case leg.Support == network.InDuct && isMains:
			mains = 1
		case leg.Support == network.InDuct:
			low = 1
		}
		s.mains = s.mains || isMains
		if c := b.cableOf(t.run); c != nil {
			thick = max(thick, float64(c.Diameter))
		}
		if !slices.Contains(s.runs, t.run) {
			s.runs = append(s.runs, t.run)
		}
	}
	s.ducts = mains + low
	depth, room := s.leg.Depth.Metres(), slitWide
	if s.mains || depth >= slitDeep {
		room = trenchWide
	}
	s.wide = max(room, slitWide+x.spread)
	if depth <= 0 {
		return s
	}
	s.deep = depth
	if bare && room == trenchWide {
		s.deep += bed
		s.sand = length * s.wide * (bed + cover + thick)
	}
	return s
}

// handPart returns the metres of a piece of a leg that lie among roots.
func handPart(p *derive.Profile, leg int, from, to geom.Length) float64 {
	var parts [][2]float64
	for _, m := range p.Meets {
		if m.Kind != derive.MeetRoots || m.Leg != leg {
			continue
		}
		if a, z := max(m.From, from), min(m.To, to); z > a {
			parts = append(parts, [2]float64{a.Metres(), z.Metres()})
		}
	}
	return geom.Covered(parts)
}

// meetNote says what to do where a trench meets something.
func (b *book) meetNote(r *doc.Run, p *derive.Profile, m derive.ProfileMeet) string {
	switch m.Kind {
	case derive.MeetService:
		return "trial hole first; position not verified"
	case derive.MeetRoots:
		return "dig by hand, keep roots thicker than a thumb"
	}
	other := "depth of the other not given"
	if m.Known {
		gap := geom.Length(math.Abs(float64(m.Level - p.Legs[m.Leg].Level)))
		other = doc.Written(gap) + " between the two"
		if gap == 0 {
			other = "both at one depth: lay one below the other"
		}
	}
	return other
}

// sums of the digging.
type digSums struct {
	length, byHand, volume, sand, tape, duct, reuse float64
	unsaid                                          int
}

func (d *digging) sums() (t digSums) {
	for i := range d.stretches {
		s := &d.stretches[i]
		t.length += s.length
		t.byHand += s.byHand
		t.volume += s.volume()
		t.sand += s.sand
		t.duct += s.length * float64(s.ducts)
		if s.tape {
			t.tape += s.length * tapeOver
		}
		if s.deep == 0 {
			t.unsaid++
		}
	}
	t.reuse = max(t.volume-t.sand, 0)
	return t
}
