package layout

import (
	"fmt"
	"slices"

	"duskwire/calc"
	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// Unsure is a lamp whose light at its volts nobody knows. Its shares are of the
// light at nominal volts, of a strip the mean.
type Unsure struct {
	Index int // of the lamp in Night.Lamps
	Lamp  *doc.Lamp
	Volts q.Maybe[q.Volt] // not known where there are no steady ones
	Why   string          // "below 10.8 V"
	// Least and Most are the bounds that the rules of light take, Drawn is what
	// pictures and figures show.
	Least, Drawn, Most float64
}

// Words says of a lamp what is not known and what was drawn: "light not known at
// 10.1 V, below 10.8 V; drawn at 56 %".
func (u *Unsure) Words() string {
	at := ""
	if u.Volts.Known {
		at = " at " + u.Volts.Value.String()
	}
	if u.Why != "" {
		at += ", " + u.Why
	}
	return "light not known" + at + "; drawn at " + percent(u.Drawn)
}

func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

// Doubt returns what is not known of the light of a lamp, nil where it is known.
func (n *Night) Doubt(lamp *doc.Lamp) *Unsure {
	for i := range n.Unsure {
		if n.Unsure[i].Lamp == lamp {
			return &n.Unsure[i]
		}
	}
	return nil
}

// glows returns the light of each lamp that hangs on a circuit.
func glows(f *Frame) map[doc.ID]*calc.Glow {
	out := map[doc.ID]*calc.Glow{}
	for i, r := range f.Results {
		if i >= len(f.Circuits.Circuits) {
			break
		}
		list := calc.Glows(f.Circuits.Circuits[i].Input.Net, r)
		for k := range list {
			out[doc.ID(list[k].ID)] = &list[k]
		}
	}
	return out
}

// part is one of the three figures of a range.
type part func(network.LightRange) float64

var (
	leastOf part = func(r network.LightRange) float64 { return r.Least }
	drawnOf part = func(r network.LightRange) float64 { return r.Drawn }
	mostOf  part = func(r network.LightRange) float64 { return r.Most }
)

// shone returns a lamp with the light of its places, and its mean.
func shone(l light.Lamp, g *calc.Glow, of part) (light.Lamp, float64) {
	mean := 0.0
	if len(g.At) == light.Along {
		var places [light.Along]float64
		for k, r := range g.At {
			places[k] = of(r)
		}
		l.Profile, mean = light.ProfileOf(places)
	} else {
		mean = of(g.At[0])
	}
	l.Share *= mean
	return l, mean
}

// dimmed is the lamps of a night with the light that their volts leave them, and
// those two nights between which it lies.
type dimmed struct {
	drawn, least, most []light.Lamp
	unsure             []Unsure
}

// add enters a lamp as it shines at nominal volts. g is nil for one that hangs on no
// circuit, which counts as full: what its volts will be is not drawn yet.
func (d *dimmed) add(l light.Lamp, of *doc.Lamp, g *calc.Glow) {
	if g == nil {
		g = &calc.Glow{Known: true, At: []network.LightRange{network.Full}}
	}
	lit, drawn := shone(l, g, drawnOf)
	low, least := shone(l, g, leastOf)
	high, most := shone(l, g, mostOf)
	if !g.Known {
		d.unsure = append(d.unsure, Unsure{Index: len(d.drawn), Lamp: of, Volts: g.Volts, Why: g.Why, Least: least, Drawn: drawn, Most: most})
	}
	d.drawn, d.least, d.most = append(d.drawn, lit), append(d.least, low), append(d.most, high)
}

// bound makes the scenes between which the light of a night lies, and the words for
// what is not known.
func (n *Night) bound(d *dimmed) (err error) {
	n.Unsure, n.Least, n.Most = d.unsure, n.Scene, n.Scene
	if len(d.unsure) == 0 {
		return nil
	}
	if n.Least, err = n.Scene.Relit(d.least); err == nil {
		n.Most, err = n.Scene.Relit(d.most)
	}
	return err
}

// unsureLines says of which lamps the light is not known, one line a reason, and how
// it was taken.
func (n *Night) unsureLines(taken func(least, most *Unsure) string) (out []string) {
	var whys []string
	for i := range n.Unsure {
		if !slices.Contains(whys, n.Unsure[i].Why) {
			whys = append(whys, n.Unsure[i].Why)
		}
	}
	for _, why := range whys {
		var tags []string
		var low, high *Unsure
		var volts []q.Volt
		for i := range n.Unsure {
			u := &n.Unsure[i]
			if u.Why != why {
				continue
			}
			tags = append(tags, u.Lamp.Tag)
			if low == nil || u.Drawn < low.Drawn {
				low = u
			}
			if high == nil || u.Drawn > high.Drawn {
				high = u
			}
			if u.Volts.Known {
				volts = append(volts, u.Volts.Value)
			}
		}
		line := TagRuns(tags) + ": light not known"
		if len(volts) > 0 {
			line += " at " + between(slices.Min(volts).String(), slices.Max(volts).String())
		}
		if why != "" {
			line += ", " + why
		}
		out = append(out, line+"; "+taken(low, high))
	}
	return out
}

// between joins two figures, or writes one that is both.
func between(low, high string) string {
	if low == high {
		return low
	}
	return low + " to " + high
}

// drawnWords says how lamps of one reason are drawn.
func drawnWords(low, high *Unsure) string {
	s := "drawn at " + between(percent(low.Drawn), percent(high.Drawn))
	if low.Drawn > 0 && low.Drawn < 1 {
		s += " as a filament would be"
	}
	return s + ", may be anything from out to " + fullWords(low, high)
}

// fullWords names the most light of lamps of one reason.
func fullWords(low, high *Unsure) string {
	if most := max(low.Most, high.Most); most > 1 {
		return percent(most)
	}
	return "full"
}

// leastWords and mostWords say how lamps of one reason are taken for targets and
// for limits.
func leastWords(low, high *Unsure) string {
	if most := max(low.Least, high.Least); most > 0 { // a strip of which a part is known
		return "taken at its least, at most " + percent(most)
	}
	return "taken as out, since it may be"
}

func mostWords(low, high *Unsure) string {
	return "taken as " + fullWords(low, high) + ", since it may be"
}

// worstWords says how they are taken for the part of all light that goes upward.
func worstWords(low, high *Unsure) string {
	least := "as out"
	if most := max(low.Least, high.Least); most > 0 {
		least = "at its least, at most " + percent(most)
	}
	return "taken " + least + " or as " + fullWords(low, high) + ", whichever has the greater part of all light go upward"
}

// faintDoubt is what a lamp gives at the most to be named, lx.
const faintDoubt = 0.005

// Bounds returns between what the illuminance of a surface lies that is drawn as lux,
// and the lamps whose light is not known and that may give some of it.
func (n *Night) Bounds(at, normal light.Vec, lux q.Lux) (least, most q.Lux, doubts []*Unsure) {
	if len(n.Unsure) == 0 {
		return lux, lux, nil
	}
	full := n.Most.Shares(at, normal)
	for i := range n.Unsure {
		if u := &n.Unsure[i]; full[u.Index] >= faintDoubt {
			doubts = append(doubts, u)
		}
	}
	return n.Least.At(at, normal), n.Most.At(at, normal), doubts
}

// darken makes the scenes between which the light lies those of the lamps that burn;
// of the others nothing is unsure.
func (n *Night) darken(burns []bool) error {
	whole := n.Unsure
	n.Unsure = nil
	for _, u := range whole {
		if burns[u.Index] {
			n.Unsure = append(n.Unsure, u)
		}
	}
	if len(whole) == 0 {
		n.Least, n.Most = n.Scene, n.Scene
		return nil
	}
	for _, sc := range []**light.Scene{&n.Least, &n.Most} {
		lamps := make([]light.Lamp, (*sc).Len())
		for i := range lamps {
			if lamps[i] = (*sc).Lamp(i); !burns[i] {
				lamps[i].Share = 0
			}
		}
		var err error
		if *sc, err = n.Scene.Relit(lamps); err != nil {
			return err
		}
	}
	return nil
}
