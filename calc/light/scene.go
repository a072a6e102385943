package light

import (
	"fmt"
	"math"

	q "duskwire/calc/quantity"
)

const (
	// closest is the distance below which the inverse square is held, metres: the
	// lamp's own base is that near and has no meaning (engineer's judgement).
	closest = 0.05
	// fiveTimes is the distance in sizes of the opening from which a lamp is a
	// point: the point formula is then 1 % high under a diffuse disc, 0.67 % under
	// a line (five-times rule found; the errors derived).
	fiveTimes = 5
)

// Scene is lamps and what stands in their way. It never changes once made.
type Scene struct {
	lamps       []placed
	blockers    []blocker
	maintenance float64
}

// placed is a lamp made ready.
type placed struct {
	Lamp
	r      rotation
	scale  float64 // share and maintenance
	size   float64
	heart  Vec // where its light comes from as seen from afar
	uneven bool
}

// NewScene checks and takes over lamps and blockers. maintenance is the factor
// for age and dirt of lamps that have none of their own, above 0 up to 1: 0.8 is
// the usual default, 0.7 for lamps in the ground (common practice; CIE 154 has the
// method).
func NewScene(lamps []Lamp, blockers []Blocker, maintenance float64) (*Scene, error) {
	if !(maintenance > 0 && maintenance <= 1) {
		return nil, fmt.Errorf("maintenance factor: found %g, expected above 0 up to 1", maintenance)
	}
	s := &Scene{maintenance: maintenance}
	for _, l := range lamps {
		p, err := s.place(l)
		if err != nil {
			return nil, err
		}
		s.lamps = append(s.lamps, p)
	}
	for i := range blockers {
		b, err := blockers[i].ready()
		if err != nil {
			return nil, fmt.Errorf("blocker %d: %w", i+1, err)
		}
		if b.Pass < 1 {
			s.blockers = append(s.blockers, b)
		}
	}
	return s, nil
}

func (s *Scene) place(l Lamp) (placed, error) {
	if err := l.check(); err != nil {
		return placed{}, err
	}
	if l.Maintained == 0 {
		l.Maintained = s.maintenance
	}
	p := placed{Lamp: l, r: l.frame(), scale: l.Share * l.Maintained, size: l.Opening.Size(), heart: l.At}
	if p.uneven = l.Profile != (Profile{}); p.uneven {
		p.heart = l.At.Add(p.r.to(l.Profile.heart(l.Opening)))
	}
	return p, nil
}

// With returns the scene with lamp i exchanged.
func (s *Scene) With(i int, l Lamp) (*Scene, error) {
	p, err := s.place(l)
	if err != nil {
		return nil, err
	}
	c := *s
	c.lamps = append([]placed(nil), s.lamps...)
	c.lamps[i] = p
	return &c, nil
}

// Relit returns a scene of other lamps among the same things in the way.
func (s *Scene) Relit(lamps []Lamp) (*Scene, error) {
	c := &Scene{blockers: s.blockers, maintenance: s.maintenance}
	for _, l := range lamps {
		p, err := s.place(l)
		if err != nil {
			return nil, err
		}
		c.lamps = append(c.lamps, p)
	}
	return c, nil
}

// Len returns the number of lamps.
func (s *Scene) Len() int { return len(s.lamps) }

// Lamp returns lamp i.
func (s *Scene) Lamp(i int) Lamp { return s.lamps[i].Lamp }

// At returns the illuminance at point on a surface with normal n (of any
// length but 0), the sum over the lamps of
//
//	E = MF · I(C,γ) · max(0, -u·n)/d²
//
// with u from lamp to point, I in the lamp's frame, and what passes the
// blockers. Within 0.05 m the distance counts as 0.05 m. Lamps nearer than five
// times their opening are split into parts none longer than a fifth of the
// distance, each with its weight in the profile; from afar the light comes from the
// middle of the profile. Source: inverse-square and cosine law; five-times rule.
func (s *Scene) At(point, n Vec) q.Lux {
	sum := 0.0
	n = n.Unit()
	for i := range s.lamps {
		sum += s.lux(&s.lamps[i], point, n, s.blockers)
	}
	return q.Lux(sum)
}

// Shares returns the part of each lamp in At, in the order of the lamps.
func (s *Scene) Shares(point, n Vec) []q.Lux {
	out := make([]q.Lux, len(s.lamps))
	n = n.Unit()
	for i := range s.lamps {
		out[i] = q.Lux(s.lux(&s.lamps[i], point, n, s.blockers))
	}
	return out
}

// New returns what At had when all lamps were new and clean: the part of each
// lamp over its factor for age and dirt.
func (s *Scene) New(point, n Vec) q.Lux {
	sum := 0.0
	for i, e := range s.Shares(point, n) {
		sum += float64(e) / s.lamps[i].Maintained
	}
	return q.Lux(sum)
}

// Near reports whether lamp i is nearer to the point than five times its
// opening, where its table, made from afar, is taken part by part.
func (s *Scene) Near(i int, point Vec) bool {
	p := &s.lamps[i]
	return p.size > 0 && p.Opening.near(p.r.from(point.Sub(p.At))) < fiveTimes*p.size
}

// lux is the illuminance by one lamp.
func (s *Scene) lux(p *placed, point, n Vec, ways []blocker) float64 {
	if p.scale == 0 {
		return 0
	}
	if p.size == 0 {
		return p.point(p.At, point, n, ways)
	}
	d := p.Opening.near(p.r.from(point.Sub(p.At)))
	if d >= fiveTimes*p.size {
		return p.point(p.heart, point, n, ways)
	}
	parts := p.Opening.parts(math.Max(d, closest))
	sum, all := 0.0, 0.0
	for _, e := range parts {
		w := p.weight(e)
		if all += w; w > 0 {
			sum += w * p.point(p.At.Add(p.r.to(e)), point, n, ways)
		}
	}
	if all == 0 {
		return 0
	}
	return sum / all
}

// point is the illuminance by the whole lamp gathered at from.
func (p *placed) point(from, to, n Vec, ways []blocker) float64 {
	v := to.Sub(from)
	d := v.Len()
	if d == 0 {
		return 0
	}
	u := v.Mul(1 / d)
	cos := -u.Dot(n)
	if cos <= 0 {
		return 0
	}
	e := p.scale * p.Dist.along(p.r.from(u)) * cos / sq(math.Max(d, closest))
	for i := range ways {
		if e == 0 {
			break
		}
		e *= ways[i].passing(from, to)
	}
	return e
}

// Seen returns the intensity of lamp i towards an eye, new and at its share of
// full output, less what stands between, and how far the eye is from it, in metres.
// The lamp counts as a point in the middle of its light; 0 cd when the eye is there.
func (s *Scene) Seen(i int, eye Vec) (q.Candela, float64) {
	p := &s.lamps[i]
	v := eye.Sub(p.heart)
	d := v.Len()
	if d == 0 {
		return 0, 0
	}
	cd := p.Share * p.Dist.along(p.r.from(v.Mul(1/d)))
	for k := range s.blockers {
		if cd == 0 {
			break
		}
		cd *= s.blockers[k].passing(p.heart, eye)
	}
	return q.Candela(cd), d
}

// Maintenance returns the factor for age and dirt of lamps that have none of
// their own.
func (s *Scene) Maintenance() float64 { return s.maintenance }
