package layout

import (
	"fmt"
	"math"
	"strings"

	"duskwire/calc/light"
	"duskwire/layout/doc"
)

// LightFact is one line of what a photometric file says.
type LightFact struct{ Name, Text string }

// Facts returns what the file of a light says of it, in the order in which it is
// looked at; item is the fitting in the stock book. It returns nil for a file that
// could not be read.
func (l *Light) Facts(item *doc.LampStock) []LightFact {
	if l.Table == nil || l.Dist == nil {
		return nil
	}
	p, d := l.Table, l.Dist
	out := []LightFact{{"Format", formatText(p)}}
	add := func(name, format string, a ...any) {
		out = append(out, LightFact{name, fmt.Sprintf(format, a...)})
	}
	got := l.TableFlux()
	add("Flux", "%s lm from the table, summed by zones as printed totals are%s%s", figure(got), declaredText(p, got), drawnText(got, float64(d.Flux())))
	if item.Flux > 0 {
		add("Stock book", "%s lm%s", figure(float64(item.Flux)), stockText(item, got))
	} else if item.Lit() {
		add("Stock book", "beam %s, %s cd", beamText(item), figure(float64(item.Peak)))
	} else {
		add("Stock book", "flux not known")
	}
	peak, c, gamma := d.Peak()
	add("Peak", "%s cd at %s", figure(float64(peak)), direction(d, c, gamma))
	add("Beam, 50 %", "%s", angles(d, d.BeamAngle))
	add("Field, 10 %", "%s", angles(d, d.FieldAngle))
	add("Downward", "%.0f %% of the light, as it was measured", 100*d.DownwardShare())
	add("Table", "%s", sizeText(d))
	add("White, watts", "%s, %s%s", whiteText(p), wattsText(p), l.wattsAside(item))
	if t := p.Tilt; t != nil {
		from := "in the file"
		if p.TiltFile != "" {
			from = "from " + doc.Short(p.TiltFile)
		}
		add("Tilt", "output against tilt at %d angles, %s", len(t.Angles), from)
	}
	if times, told := l.Relamped(item); told != "" {
		add("Other lamps", "%s lm in the fitting: %s", figure(times*got), told)
	}
	return out
}

// TableFlux is the flux of the file in lumens, the one figure that is shown and
// compared: summed by zones, the rule by which printed totals are made.
func (l *Light) TableFlux() float64 { return float64(l.Dist.ZonalFlux()) }

// drawnText says what the light that is drawn comes to where that is another figure:
// between the angles of the table it rises and falls evenly, which coarse angles tell
// from the sum by zones.
func drawnText(got, drawn float64) string {
	if math.Abs(drawn-got) <= 0.005*got {
		return ""
	}
	return fmt.Sprintf("; the light is drawn with %s lm, its intensity taken evenly between these angles", figure(drawn))
}

// LampSetText names a lamp set of a photometric file.
func LampSetText(number int, s *light.LampSet) string {
	out := fmt.Sprintf("%d: ", number)
	if n := math.Abs(s.Lamps); n > 0 && n != 1 {
		out += fmt.Sprintf("%g × ", n)
	}
	if s.Type != "" {
		out += doc.Short(s.Type) + ", "
	}
	out += figure(float64(s.Flux)) + " lm"
	if s.White != "" {
		out += ", " + doc.Short(s.White)
	}
	if s.Watts > 0 {
		out += fmt.Sprintf(", %g W", float64(s.Watts))
	}
	return out
}

// formatText names format, year and date of issue.
func formatText(p *light.Photometry) string {
	out := p.Format
	if p.Absolute {
		out += ", absolute"
	}
	for _, l := range p.Labels {
		if l.Text != "" && (l.Key == "ISSUEDATE" || l.Key == "date") {
			out += ", issued " + doc.Short(l.Text)
			break
		}
	}
	return out
}

// declaredText compares the flux of the table with the one that the file states.
func declaredText(p *light.Photometry, got float64) string {
	if !p.Declared.Known || p.Declared.Value <= 0 {
		return "; the file states none to compare it with"
	}
	of := "lamps"
	if p.Absolute {
		of = "fitting"
	}
	s := fmt.Sprintf(", %.1f %% of the %s lm stated for the %s", 100*got/float64(p.Declared.Value), figure(float64(p.Declared.Value)), of)
	if p.Ratio.Known {
		s += fmt.Sprintf(" (output ratio stated: %.1f %%)", 100*p.Ratio.Value)
	}
	return s
}

// stockText says what the stock book has instead, and how far off it is.
func stockText(item *doc.LampStock, got float64) string {
	s := ""
	if item.Beam > 0 {
		s = ", beam " + beamText(item)
	}
	if item.Peak > 0 {
		s += fmt.Sprintf(", %s cd", figure(float64(item.Peak)))
	}
	if off := got/float64(item.Flux) - 1; math.Abs(off) > 0.1 {
		s += fmt.Sprintf(": the file has %+.0f %%, is it this fitting?", 100*off)
	}
	return s
}

// direction says where something is; of a light that is the same all round γ alone.
func direction(d *light.Distribution, c, gamma float64) string {
	if d.Rotational() {
		return fmt.Sprintf("γ %g°", gamma)
	}
	return fmt.Sprintf("C %g°, γ %g°", round2(c), gamma)
}

func round2(v float64) float64 { return math.Round(v*100) / 100 }

// angles writes an opening angle in both planes, once where they are alike.
func angles(d *light.Distribution, of func(c float64) (float64, bool)) string {
	one := func(c float64) string {
		if v, ok := of(c); ok {
			return fmt.Sprintf("%.3g°", v)
		}
		return "none"
	}
	if !d.Centred() {
		return "none: no light straight down, at γ 0°, to measure it from"
	}
	if _, ok := of(0); !ok && d.Rotational() {
		return "none: the light does not fall so far"
	}
	if d.Rotational() {
		return one(0) + " all round"
	}
	return one(0) + " in C0-C180, " + one(90) + " in C90-C270"
}

// sizeText says of how many figures the table is.
func sizeText(d *light.Distribution) string {
	c, gamma := d.Angles()
	s := fmt.Sprintf("%d angles γ from %g° to %g°, ", len(gamma), gamma[0], gamma[len(gamma)-1])
	if d.Rotational() {
		return s + "one plane for all round"
	}
	return s + fmt.Sprintf("%d planes C round the circle", len(c)-1)
}

func whiteText(p *light.Photometry) string {
	if p.White.Known {
		return fmt.Sprintf("%.0f K", float64(p.White.Value))
	}
	return "white not stated"
}

func wattsText(p *light.Photometry) string {
	if p.Watts.Known {
		return fmt.Sprintf("%g W", float64(p.Watts.Value))
	}
	return "watts not stated"
}

// wattsAside says what the stock book has for watts where that is another figure.
func (l *Light) wattsAside(item *doc.LampStock) string {
	if u, _ := filedUse(l, item); u.Watts > 0 {
		return fmt.Sprintf("; the stock book says %s: is it this fitting?", u.Sure)
	}
	return ""
}

// figure writes lumens and candela with four digits at most after rounding.
func figure(v float64) string {
	if v >= 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.4g", v)
}

// GuessText lists what the reader had to guess, a line each; "" for nothing.
func (l *Light) GuessText() string {
	if l.Table == nil {
		return ""
	}
	var out []string
	for _, g := range l.Table.Guesses {
		out = append(out, "• "+g)
	}
	if l.TiltErr != nil {
		out = append(out, "• "+l.TiltErr.Error())
	}
	return strings.Join(out, "\n")
}

// With returns the light with another mirroring and turn.
func (l *Light) With(mirror bool, turn float64) *Light {
	n := *l
	n.Of.Mirror, n.Of.Turn = mirror, turn
	if l.Table != nil && l.Err == nil {
		n.Dist, n.Opening = placed(l.Table, mirror, turn)
		n.Edge = n.Dist.Edge()
	}
	return &n
}
