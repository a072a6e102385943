package judge

import (
	"math"

	"duskwire/calc/cable"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Before is the same test at the point before, nearer the supply.
type Before struct {
	Label string // of that point, "" for the supply point
	Via   string // label of the run between
	// Off is by how much it read more than expected; unknown where it was not
	// read.
	Off q.Maybe[q.Ohm]
}

// Continuity is R1+R2 from the supply point to a point.
//
//	expected = (R - Rarmour)·(234.5 + t)/254.5 + Rarmour·(1 + 0.0045·(t - 20))
//
// with the resistances R at 20 °C. It has no limit of its own: it must be there
// (BS 7671 643.2.1), and with the loop ahead it must stay below the line for the
// cold loop, since Zs = Ze + (R1+R2).
type Continuity struct {
	Gap          string // why no protective conductor leads there as drawn, "" where one does
	Cold, Armour q.Ohm  // at 20 °C; Armour is the part of Cold that is steel
	Joints       int    // pairs of terminals on the way
	PerMetre     q.OhmPerMetre
	Most         q.Maybe[q.Ohm] // at which the cold loop reaches its line
	Line         q.Ohm          // that line
	Source       finding.Source // of it
	Before       Before
	Beside       Beside
}

var continuitySource = memory("643.2.1")

// At is what is expected on that day, in Ω.
func (c Continuity) At(d Day) q.Ohm { return q.Ohm(c.at(d)) }

func (c Continuity) at(d Day) float64 {
	return float64(c.Cold-c.Armour)*cable.CopperAt(d.Temperature) + float64(c.Armour)*cable.SteelAt(d.Temperature)
}

// Expected implements Ask.
func (c Continuity) Expected(d Day) string {
	if c.Gap != "" {
		return "no path"
	}
	return ohms(c.at(d))
}

// Limit implements Ask.
func (c Continuity) Limit() string {
	if !c.Most.Known {
		return ""
	}
	return "at most " + ohms(float64(c.Most.Value))
}

// Judge implements Ask.
func (c Continuity) Judge(v Value, d Day) Judgement {
	var w lines
	r := d.less(v, &w)
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: c.Limit(), Source: c.Source, Assumed: d.taken(), Figure: figure(v.Bound, r, ohms)}
	if v.Bound == Open {
		j.Figure, j.Source, j.Verdict = "over range", continuitySource, Outside
		j.Text = "no continuity of the protective conductor up to here"
		j.Points = c.openPoints()
		w.add("over the range of the meter: the conductors are not joined through")
		j.Working = w.b.String()
		return j
	}
	if c.Gap != "" {
		j.Verdict, j.Source = Far, practice
		j.Text = "reads " + j.Figure + " where the drawing has no protective conductor"
		j.Points = []string{"a path that is not drawn: metalwork, another cable, or an armour that was joined after all (as drawn: " + c.Gap + ")"}
		return j
	}
	b := bandOf(c.at(d), c.Joints)
	w.add("expected at %s: (%s − %s) × %s + %s × %s = %s", d.Temperature, ohms(float64(c.Cold)), ohms(float64(c.Armour)),
		fixed(cable.CopperAt(d.Temperature), 3), ohms(float64(c.Armour)), fixed(cable.SteelAt(d.Temperature), 3), ohms(b.expected))
	w.add("near enough: %s to %s, with %d joints (common practice, no source)", ohms(b.low), ohms(b.high), c.Joints)
	if c.Most.Known {
		w.add("with the loop at the supply point the line of %s for a cold loop is reached at %s", ohms(float64(c.Line)), ohms(float64(c.Most.Value)))
	}
	off := r - b.expected
	side, ok := b.place(r, v.Bound)
	switch over := c.Most.Known && r > float64(c.Most.Value)+1e-9; {
	case over && v.Bound != Below:
		j.Verdict = Outside
		j.Text = j.Figure + " with the loop at the supply point is more than the " + ohms(float64(c.Line)) + " allowed of a cold loop"
		if j.Points = c.highPoints(off, b.expected); off < floorOhm {
			j.Points = []string{"the reading is as drawn, so the design is over the line: see its findings about fault loops"}
		}
	case !ok:
		return unread(v, R1R2, "near what is expected")
	case side > 0:
		j.Verdict, j.Source = Far, practice
		j.Text = j.Figure + " is " + ohms(off) + " more than the " + ohms(b.expected) + " expected"
		j.Points = c.highPoints(off, b.expected)
	case side < 0 && c.linked(r, v, d, b, &w):
		j.Verdict, j.Text = Unjudged, j.Figure+" is less than the "+ohms(b.expected)+" expected of the core alone, as it reads with armour links on; take the links off and read it again"
	case side < 0:
		j.Verdict, j.Source = Far, practice
		j.Text = j.Figure + " is " + ohms(-off) + " less than the " + ohms(b.expected) + " expected"
		j.Points = c.lowPoints(r)
	default:
		j.Text = j.Figure + " against " + ohms(b.expected) + " expected"
		if !c.Most.Known {
			j.Text += "; no limit is known to hold it against"
		}
	}
	j.Working = w.b.String()
	return j
}

// linked reports whether a low reading is no lower than core and armour side by
// side explain, and says in the working what they come to.
func (c Continuity) linked(r float64, v Value, d Day, b band, w *lines) bool {
	if !c.Beside.any() {
		return false
	}
	both := bandOf(b.expected-c.Beside.less(d), 0)
	w.add("expected is the core alone. With armour links on it reads lower, core and armour side by side: down to %s, near enough from %s. No limit is held against that", ohms(both.expected), ohms(both.low))
	return v.Bound == Exact && r >= both.low
}

func (c Continuity) openPoints() []string {
	out := []string{"a protective core not connected, or an armour without its tag or gland, at this point or in a box on the way"}
	if c.Before.Off.Known {
		out = []string{"the point before, " + c.Before.name() + ", reads: the break is in " + c.Before.Via + " or at one of its ends"}
	}
	return append(out, "the link from line to earth for the test is missing or on another conductor")
}

func (b Before) name() string {
	if b.Label == "" {
		return "the supply point"
	}
	return b.Label
}

// aContact is what one poor contact adds, at least and at most, in ohms. Common
// practice, no source.
const aContactLeast, aContactMost = 0.05, 0.6

// highPoints are what a reading that is off by so much may come from.
func (c Continuity) highPoints(off, expected float64) (out []string) {
	if c.Before.Off.Known {
		here := off - float64(c.Before.Off.Value)
		if here < off/2 {
			return []string{"the point before, " + c.Before.name() + ", is off as much: look nearer the supply"}
		}
		out = append(out, "the point before, "+c.Before.name()+", is nearly right: "+c.Before.Via+" or its ends add "+ohms(here))
		off = here
	}
	if ratio := (expected + off) / expected; expected > 0 && ratio > 1.45 && ratio < 1.78 {
		out = append(out, "about what the next thinner size of cable would read ("+fixed(ratio, 2)+" times): check the size that was laid")
	}
	switch {
	case off >= aContactLeast && off <= aContactMost:
		out = append(out, "high by about one poor contact: a terminal, a gland tag or a link on the way")
	case off > aContactMost:
		out = append(out, "more than one contact adds: a loose or corroded joint, or a conductor with broken strands")
	}
	if c.PerMetre > 0 {
		if m := off / float64(c.PerMetre); m >= 1 {
			out = append(out, "or "+fixed(math.Round(m), 0)+" m more cable than drawn")
		}
	}
	return out
}

func (c Continuity) lowPoints(r float64) (out []string) {
	if r < floorOhm {
		out = append(out, "next to nothing: the leads touch, or both are on the same conductor")
	}
	out = append(out, "a parallel path: metalwork, armour and core together, or a ring that is not drawn")
	if c.Armour > 0 {
		out = append(out, "the armour reads less than the largest of its standard, the more so on a long run")
	}
	return append(out, "shorter or thicker cable than drawn, or leads taken off twice")
}
