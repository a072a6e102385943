package packs

import (
	"math"

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

// segment is a leg in either direction.
type segment struct{ a, b geom.Point }

func segmentOf(a, b geom.Point) segment {
	if b.X < a.X || b.X == a.X && b.Y < a.Y {
		a, b = b, a
	}
	return segment{a, b}
}

// diggingOf lists the trenches. Legs of several runs from corner to corner of
// each other share one, as deep as the deepest.
func diggingOf(b *book) *digging {
	d := &digging{}
	shared := map[segment][]*doc.Run{}
	deepest := map[segment]doc.Leg{}
	each(b.scheme, func(r *doc.Run, i int, p, q geom.Point) {
		k := segmentOf(p, q)
		shared[k] = append(shared[k], r)
		if old, ok := deepest[k]; !ok || r.Legs[i].Depth > old.Depth {
			deepest[k] = r.Legs[i]
		}
	})
	done := map[segment]bool{}
	for _, r := range b.scheme.Runs.All() {
		p, ok := derive.Unroll(b.scheme, r.ID, &b.Rules.Site)
		if !ok {
			continue
		}
		d.along(b, p, shared, deepest, done)
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
func (d *digging) along(b *book, p *derive.Profile, shared map[segment][]*doc.Run, deepest map[segment]doc.Leg, done map[segment]bool) {
	first := len(d.stretches)
	mine := map[int]bool{}
	for i := range p.Legs {
		k := segmentOf(p.Path[i], p.Path[i+1])
		if p.Legs[i].Dug && !done[k] {
			done[k], mine[i] = true, true
		}
	}
	for _, g := range p.Ground {
		if !mine[g.Leg] || g.To <= g.From {
			continue
		}
		k := segmentOf(p.Path[g.Leg], p.Path[g.Leg+1])
		s := b.stretchOf(shared[k], deepest[k], g.Area, (g.To - g.From).Metres())
		s.byHand = handPart(p, g)
		if n := len(d.stretches); n > first && d.stretches[n-1].like(&s) {
			d.stretches[n-1].length += s.length
			d.stretches[n-1].byHand += s.byHand
			d.stretches[n-1].sand += s.sand
			continue
		}
		d.stretches = append(d.stretches, s)
	}
}

// like reports whether two stretches are dug alike and may be listed as one.
func (s *stretch) like(o *stretch) bool {
	if len(s.runs) != len(o.runs) || s.area != o.area || s.deep != o.deep || s.leg.Support != o.leg.Support || s.leg.Depth != o.leg.Depth || s.tape != o.tape {
		return false
	}
	for i := range s.runs {
		if s.runs[i] != o.runs[i] {
			return false
		}
	}
	return true
}

// stretchOf works out one piece of trench.
func (b *book) stretchOf(runs []*doc.Run, leg doc.Leg, area *doc.Area, length float64) stretch {
	s := stretch{runs: runs, leg: leg, area: area, length: length, wide: slitWide, tape: true}
	depth, thick, bare := leg.Depth.Metres(), 0.0, leg.Support == network.Buried
	for _, r := range runs {
		s.mains = s.mains || b.mains(r)
		if c := b.cableOf(r); c != nil {
			thick = max(thick, float64(c.Diameter))
		}
	}
	s.tape = !leg.NoTape
	if s.mains || depth >= slitDeep {
		s.wide = trenchWide
	}
	if depth <= 0 {
		return s
	}
	s.deep = depth
	if bare && s.wide == trenchWide {
		s.deep += bed
		s.sand = length * s.wide * (bed + cover + thick)
	}
	return s
}

// handPart returns the metres of a piece of ground that lie among roots.
func handPart(p *derive.Profile, g derive.ProfileGround) float64 {
	var parts [][2]float64
	for _, m := range p.Meets {
		if m.Kind != derive.MeetRoots || m.Leg != g.Leg {
			continue
		}
		from, to := max(m.From, g.From), min(m.To, g.To)
		if to > from {
			parts = append(parts, [2]float64{from.Metres(), to.Metres()})
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
	length, byHand, volume, sand, tape, reuse float64
	unsaid                                    int
}

func (d *digging) sums() (t digSums) {
	for i := range d.stretches {
		s := &d.stretches[i]
		t.length += s.length
		t.byHand += s.byHand
		t.volume += s.volume()
		t.sand += s.sand
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
