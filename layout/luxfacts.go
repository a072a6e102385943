package layout

import (
	"cmp"
	"math"
	"slices"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const (
	// luxWork is about how many times a lamp is worked out for one place before
	// the points on the ground get fewer; luxMost and luxFew are the most and the
	// least points of one piece of ground.
	luxWork         = 400_000
	luxMost, luxFew = 300, 25
)

// luxMeter works out the figures that the rules of light compare. It keeps the
// tables of the lamps and how much they send upward. What it gives depends on the
// frame alone. Not for two goroutines at once.
type luxMeter struct {
	nights Nights
	up     map[luxUpward]float64
	draws  map[*network.Net]calc.Draw
}

// luxUpward is what the upward share of a lamp depends on.
type luxUpward struct {
	dist       *light.Distribution
	tilt, spin float64
}

// findings returns what the rules LUX say of a frame whose circuits were
// evaluated. A scheme without lamps that give light has none.
func (m *luxMeter) findings(f *Frame, rules *check.Rules) []finding.Finding {
	facts := m.facts(f, rules)
	if facts == nil {
		return nil
	}
	return check.Lux(facts, rules)
}

// facts returns the figures of light, nil where there are none.
func (m *luxMeter) facts(f *Frame, rules *check.Rules) *check.LuxFacts {
	if f.Scheme.Lamps.Len() == 0 {
		return nil
	}
	n, err := m.nights.Of(f)
	if err != nil || n.Scene.Len() == 0 {
		return nil // a lamp that cannot be worked out is told with the picture
	}
	w := &luxWorker{n: n, s: f.Scheme, sc: n.Most, unknown: make([]bool, len(n.Lamps)), faces: map[string]bool{}, late: n.Late(f)}
	for _, u := range rules.Light.Uses {
		w.faces[u.Use] = u.Upright > 0
	}
	for i, l := range n.Lamps {
		item, _ := f.Stock.Lamp(l.Stock)
		w.unknown[i] = item.Temperature == 0 && (n.Files[i] == nil || n.Files[i].Table.White.Or(0) == 0)
	}
	facts := &check.LuxFacts{Zone: f.Scheme.Survey.LightZone, Maintenance: n.Maintenance, Ages: n.Ages(), Assumed: n.known, AtLeast: n.unsureLines(leastWords), AtMost: n.unsureLines(mostWords), AtWorst: n.unsureLines(worstWords),
		Curfew: w.late.Curfew.String(), CurfewSaid: w.late.Said}
	facts.Lamps = m.lamps(w, m.watts(f))
	beams := beamsOf(f.Findings)
	w.uses(facts)
	w.views(facts, beams)
	w.seats(facts, beams)
	w.habitats(facts)
	return facts
}

// luxWorker works out the figures of one frame.
type luxWorker struct {
	n     *Night
	s     *doc.Scheme
	sc    *light.Scene // with the most light that the lamps may give, see Night
	walks []luxWalk
	// unknown are lamps whose white nobody has said.
	unknown []bool
	// faces are the uses that ask for light on faces.
	faces map[string]bool
	late  LateNight
}

func (w *luxWorker) lamp(i int) finding.Subject {
	return finding.Subject{ID: string(w.n.Lamps[i].ID), Label: w.n.Lamps[i].Tag}
}

// luxNamed is a subject with the name that people gave it, as in derive.
func luxNamed(id doc.ID, tag, name string) finding.Subject {
	if name != "" {
		tag += " (" + name + ")"
	}
	return finding.Subject{ID: string(id), Label: tag}
}

// watts returns what each lamp takes from the supply, of the circuits that have a
// steady state.
func (m *luxMeter) watts(f *Frame) map[string]q.Watt {
	out := map[string]q.Watt{}
	fresh := map[*network.Net]calc.Draw{} // keeps what is still drawn
	for i := range f.Circuits.Circuits {
		in := f.Circuits.Circuits[i].Input
		d, known := m.draws[in.Net]
		if !known {
			d = calc.Power(in)
		}
		fresh[in.Net] = d
		for k := range d.Node {
			if d.Trusted && in.Net.Nodes[k].Kind == network.LampNode {
				out[in.Net.Nodes[k].ID] += d.Node[k]
			}
		}
	}
	m.draws = fresh
	return out
}

// lamps returns of every lamp its flux, how much of it goes upward, when it goes out
// and what it takes. A lamp that is several of the scene is told once.
func (m *luxMeter) lamps(w *luxWorker, watts map[string]q.Watt) (out []check.LuxLamp) {
	at := map[string]int{}
	if m.up == nil || len(m.up) >= mostTables {
		m.up = map[luxUpward]float64{}
	}
	for i := range w.n.Lamps {
		l := w.sc.Lamp(i)
		key := luxUpward{dist: l.Dist, tilt: l.Tilt}
		if !l.Dist.Rotational() {
			key.spin = l.Spin
		}
		up, known := m.up[key]
		if !known {
			up = l.UpwardShare()
			m.up[key] = up
		}
		one := check.LuxLamp{Subject: w.lamp(i), Flux: q.Lumen(l.Share) * l.Dist.Flux(), Upward: up, White: l.White,
			Tilt: l.Tilt * 180 / math.Pi, Guessed: !w.n.Lamps[i].Aimed(), Off: w.late.Off[i].String(), After: w.late.Burns[i]}
		if w.unknown[i] {
			one.White = 0
		}
		if least := w.n.Least.Lamp(i); w.n.Least != w.n.Most && least.Share < l.Share {
			one.Dim = q.Some(q.Lumen(least.Share) * least.Dist.Flux())
		}
		if p, known := watts[one.ID]; known {
			one.Watts = q.Some(p)
		}
		if k, seen := at[one.ID]; seen {
			if out[k].Dim.Known || one.Dim.Known {
				out[k].Dim = q.Some(out[k].Dim.Or(out[k].Flux) + one.Dim.Or(one.Flux))
			}
			all := out[k].Flux + one.Flux
			if all > 0 {
				out[k].Upward = float64((q.Lumen(out[k].Upward)*out[k].Flux + q.Lumen(one.Upward)*one.Flux) / all)
			}
			out[k].Flux, out[k].Tilt = all, max(out[k].Tilt, one.Tilt)
			continue
		}
		at[one.ID] = len(out)
		out = append(out, one)
	}
	return out
}

// beamsOf returns, for every seat and window by its id, the lamps whose beam
// GLR-01 reports there.
func beamsOf(list []finding.Finding) map[string]map[string]bool {
	out := map[string]map[string]bool{}
	for i := range list {
		f := &list[i]
		if f.Code != "GLR-01" {
			continue
		}
		all := append([]finding.Subject{f.Subject}, f.Also...)
		for _, at := range all {
			for _, by := range all {
				if out[at.ID] == nil {
					out[at.ID] = map[string]bool{}
				}
				out[at.ID][by.ID] = true
			}
		}
	}
	return out
}

// vec is a point of the plan at a height.
func vec(p geom.Point, z float64) light.Vec {
	return light.Vec{X: p.X.Metres(), Y: p.Y.Metres(), Z: z}
}

// perPlace returns how many points a piece of ground gets when so many pieces
// are to be worked out.
func (w *luxWorker) perPlace(pieces int) int {
	return min(max(luxWork/max(pieces*w.sc.Len(), 1), luxFew), luxMost)
}

// inRing returns at most about n points of a square grid within a ring, and their
// distance; keep says which of them count.
func inRing(ring []geom.Point, n int, keep func(geom.Point) bool) (out []geom.Point, step geom.Length) {
	b := geom.Around(ring...)
	w, h := b.Width().Metres(), b.Height().Metres()
	area := ringArea(ring)
	if !(area > 0) {
		return nil, 0
	}
	side := math.Max(math.Sqrt(area/float64(n)), math.Sqrt(w*h/20_000))
	for range 4 { // what is narrow may slip through a grid
		out = out[:0]
		nx, ny := max(int(math.Ceil(w/side-1e-9)), 1), max(int(math.Ceil(h/side-1e-9)), 1)
		for y := range ny {
			for x := range nx {
				p := geom.Point{
					X: b.Min.X + geom.Metres((float64(x)+0.5)*w/float64(nx)),
					Y: b.Min.Y + geom.Metres((float64(y)+0.5)*h/float64(ny)),
				}
				if geom.Inside(p, ring) && keep(p) {
					out = append(out, p)
				}
			}
		}
		if len(out) > 0 || w*h/(side*side) > 20_000 {
			break
		}
		side /= 2
	}
	return out, geom.Metres(side)
}

// ringArea returns the area of a ring in square metres.
func ringArea(ring []geom.Point) float64 {
	sum := 0.0
	for i, p := range ring {
		r := ring[(i+1)%len(ring)]
		sum += p.X.Metres()*r.Y.Metres() - r.X.Metres()*p.Y.Metres()
	}
	return math.Abs(sum) / 2
}

// alongPath returns at most about n points of a path at equal distances, at least
// so far apart, and the direction of the path at each.
func alongPath(path []geom.Point, n int, least geom.Length) (at []geom.Point, along []light.Vec, step geom.Length) {
	total := geom.PathLength(path)
	if total <= 0 {
		return nil, nil, 0
	}
	n = max(min(n, int(total/least)), 1)
	step = total / geom.Length(n)
	next := step / 2
	for i := 1; i < len(path); i++ {
		long := geom.Distance(path[i-1], path[i])
		if long == 0 {
			continue
		}
		dir := vec(path[i], 0).Sub(vec(path[i-1], 0)).Unit()
		for next <= long && len(at) < n {
			at = append(at, geom.Point{
				X: path[i-1].X + geom.Metres(dir.X*next.Metres()), Y: path[i-1].Y + geom.Metres(dir.Y*next.Metres()),
			})
			along = append(along, dir)
			next += step
		}
		next -= long
	}
	return at, along, step
}

// most returns the greatest of shares, at most three, those that give anything.
func (w *luxWorker) most(shares []q.Lux) (out []check.LuxShare) {
	order := make([]int, len(shares))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(shares[b], shares[a]) })
	for _, i := range order[:min(3, len(order))] {
		if shares[i] > 0.005 {
			out = append(out, check.LuxShare{Subject: w.lamp(i), Lux: shares[i]})
		}
	}
	return out
}
