package scene

import (
	"math"
	"strings"

	"duskwire/calc/finding"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// clash is the place on a run that a finding about its digging speaks of.
type clash struct {
	f     *finding.Finding
	run   doc.ID
	leg   int
	along geom.Length
}

// digging reports whether findings of the code are about the way of a run
// through the ground.
func digging(c finding.Code) bool {
	for _, p := range [...]string{"DIG-", "SRV-", "TRE-01", "TRE-02"} {
		if strings.HasPrefix(string(c), p) {
			return true
		}
	}
	return false
}

// clashes returns where the findings about digging are, in their order. A
// finding that speaks of several runs has a place on each.
func clashes(s *doc.Scheme, fs []finding.Finding, profile func(doc.ID) *derive.Profile) (out []clash) {
	for i := range fs {
		f := &fs[i]
		if f.Level == finding.Held || !digging(f.Code) {
			continue
		}
		runs := []doc.ID{doc.ID(f.Subject.ID)}
		var on doc.ID
		for _, a := range f.Also {
			id := doc.ID(a.ID)
			switch _, run := s.Runs.Get(id); {
			case run && f.Code != "SRV-02":
				runs = append(runs, id)
			case on == "":
				on = id
			}
		}
		for _, id := range runs {
			if p := profile(id); p != nil {
				if leg, along, ok := clashAt(p, s, f.Code, on); ok {
					out = append(out, clash{f, id, leg, along})
				}
			}
		}
	}
	return out
}

// clashAt returns the place on the run that has to do with what a finding names:
// the shallowest piece over an area or over bare ground, where it meets or comes
// nearest to a thing, else the middle of the longest dug leg.
func clashAt(p *derive.Profile, s *doc.Scheme, code finding.Code, on doc.ID) (leg int, along geom.Length, ok bool) {
	for _, m := range p.Meets {
		if m.On.Key() == on && m.Kind != derive.MeetRoots {
			return m.Leg, m.From, true
		}
	}
	switch e, _ := doc.Find(s, on); e := e.(type) {
	case *doc.Area:
		return overArea(p, e)
	case *doc.Line:
		return nearestOn(p, e.Path)
	case *doc.Mark:
		return nearestOn(p, []geom.Point{e.Place.At, e.Place.At})
	}
	if code == "DIG-01" || code == "DIG-02" {
		if leg, along, ok = overArea(p, nil); ok {
			return leg, along, true
		}
	}
	var long geom.Length = -1
	for i, l := range p.Legs {
		if code == "DIG-04" && !p.Run.Legs[i].NoTape {
			continue
		}
		if l.Dug && l.To-l.From > long {
			leg, along, long, ok = i, (l.From+l.To)/2, l.To-l.From, true
		}
	}
	return leg, along, ok
}

// overArea returns the middle of the piece over an area, nil for none, that lies
// shallowest;
// of equal ones the longest. Legs that are not dug come last.
func overArea(p *derive.Profile, a *doc.Area) (leg int, along geom.Length, ok bool) {
	best := math.Inf(-1)
	for _, g := range p.Ground {
		if g.Area != a {
			continue
		}
		l := p.Legs[g.Leg]
		worth := float64(l.Level) + float64(g.To-g.From)*1e-6
		if !l.Dug {
			worth -= float64(geom.Metre) * 1e6
		}
		if worth > best {
			best, leg, along, ok = worth, g.Leg, (g.From+g.To)/2, true
		}
	}
	return leg, along, ok
}

// nearestOn returns the place of the dug legs that is nearest to a path.
func nearestOn(p *derive.Profile, path []geom.Point) (leg int, along geom.Length, ok bool) {
	best := geom.Length(math.MaxInt64)
	for i, l := range p.Legs {
		if !l.Dug {
			continue
		}
		a, b := p.Path[i], p.Path[i+1]
		try := func(q geom.Point, d geom.Length) {
			if d < best {
				best, leg, along, ok = d, i, l.From+min(geom.Distance(a, q), l.To-l.From), true
			}
		}
		geom.Edges(path, false, func(c, d geom.Point) {
			for _, q := range [2]geom.Point{c, d} {
				try(geom.Nearest(q, a, b))
			}
			for _, q := range [2]geom.Point{a, b} {
				_, away := geom.Nearest(q, c, d)
				try(q, away)
			}
		})
	}
	return leg, along, ok
}
