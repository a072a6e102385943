package layout

import (
	"fmt"
	"math"

	"duskwire/calc/check"
	"duskwire/calc/light"
	"duskwire/layout/doc"
)

// usualCurfew is the curfew where neither survey nor rule set has one: usually 23:00
// (found in public guidance on statutory nuisance), set locally.
var usualCurfew = doc.Off{Set: true, Minute: 23 * 60}

// CurfewOf returns the curfew of a scheme; said is false where it is that of the
// rule set.
func CurfewOf(s *doc.Scheme, rules *check.Rules) (at doc.Off, said bool) {
	if s.Survey.Curfew.Set {
		return s.Survey.Curfew, true
	}
	if rules == nil || !rules.Light.Curfew.Known {
		return usualCurfew, false
	}
	return doc.Off{Set: true, Minute: int(math.Round(rules.Light.Curfew.Value*60)) % (24 * 60)}, false
}

// Curfew returns that of a frame.
func (f *Frame) Curfew() (at doc.Off, said bool) {
	var rules *check.Rules
	if f.Circuits != nil {
		rules = f.Circuits.Loose.Rules
	}
	return CurfewOf(f.Scheme, rules)
}

// LateNight says what is known of the lamps after curfew.
type LateNight struct {
	Curfew doc.Off
	Said   bool // by the survey; otherwise of the rule set
	Burns  []bool
	Off    []doc.Off // by lamp, not set where nobody said
	Lamps  int       // that give light
	Burn   int       // how many of them burn
	Unsaid int       // of these: of which nobody said when they go out
	Lumens float64   // of those that burn, new and at their volts, of All
	All    float64
}

// Words says in a line what burns after curfew: "7 of 15 lamps burn on at 23:00, 1234
// of 4250 lm; of 2 nobody said when they go out".
func (l LateNight) Words() string {
	s := fmt.Sprintf("%d of %d lamps burn on at %s, %.0f of %.0f lm", l.Burn, l.Lamps, l.Curfew, l.Lumens, l.All)
	if l.Unsaid > 0 {
		s += fmt.Sprintf("; of %d nobody said when they go out", l.Unsaid)
	}
	return s
}

// Late returns which lamps of a night burn after curfew: all but those of a zone that
// goes out by then. A lamp of which nobody said when it goes out counts as burning.
func (n *Night) Late(f *Frame) LateNight {
	out := LateNight{Burns: make([]bool, len(n.Lamps)), Off: make([]doc.Off, len(n.Lamps))}
	out.Curfew, out.Said = f.Curfew()
	seen := map[doc.ID]bool{} // a lamp may be several of the scene
	for i, l := range n.Lamps {
		if z, ok := f.Scheme.Zones.Get(l.Zone); ok {
			out.Off[i] = z.Off
		}
		out.Burns[i] = !out.Off[i].By(out.Curfew)
		lamp := n.Scene.Lamp(i)
		lumens := lamp.Share * float64(lamp.Dist.Flux())
		out.All += lumens
		if out.Burns[i] {
			out.Lumens += lumens
		}
		if seen[l.ID] {
			continue
		}
		seen[l.ID] = true
		out.Lamps++
		if !out.Burns[i] {
			continue
		}
		out.Burn++
		if !out.Off[i].Set {
			out.Unsaid++
		}
	}
	return out
}

// AfterCurfew returns the night with the lamps that are out by curfew dark. The lamps
// keep their numbers.
func (n *Night) AfterCurfew(f *Frame) (*Night, error) {
	late := n.Late(f)
	lamps := make([]light.Lamp, n.Scene.Len())
	for i := range lamps {
		lamps[i] = n.Scene.Lamp(i)
		if !late.Burns[i] {
			lamps[i].Share = 0
		}
	}
	out := *n
	var err error
	if out.Scene, err = n.Scene.Relit(lamps); err == nil {
		err = out.darken(late.Burns)
	}
	out.Assumed = append(out.unsureLines(drawnWords), out.known...)
	if late.Unsaid > 0 {
		var tags []string
		seen := map[string]bool{}
		for i, l := range n.Lamps {
			if late.Burns[i] && !late.Off[i].Set && !seen[l.Tag] {
				seen[l.Tag] = true
				tags = append(tags, l.Tag)
			}
		}
		out.Assumed = append(out.Assumed, TagRuns(tags)+": nobody said when they go out, taken to burn after curfew")
	}
	return &out, err
}
