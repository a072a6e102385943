package light

import (
	"fmt"
	"math"
	"strings"

	q "duskwire/calc/quantity"
)

// ldt is an EULUMDAT file on the way to a Photometry: one value a line.
type ldt struct {
	p      *Photometry
	lines  []string
	at     int
	sym    int
	mc, ng int
	factor float64
	ratio  float64
	set    int // asked for, counted from 1; 0 the first
}

// headNumbers is how many lines from the second on are numbers in EULUMDAT.
const headNumbers = 6

// likeEULUMDAT returns how many of lines 2 to 7 are numbers in the range of the
// format, which has no mark of its own.
func likeEULUMDAT(file []byte) (n int) {
	text, err := decoded(file[:min(len(file), 4096)])
	if err != nil {
		return 0
	}
	lines := strings.Split(text, "\n")
	if len(lines) < 8 {
		return 0
	}
	for i, top := range []float64{3, 4, 1e9, 360, 1e9, 360} {
		if v, ok := ldtNumber(lines[1+i]); ok && v >= 0 && v <= top {
			n++
		}
	}
	return n
}

// ldtNumber reads a number with decimal point or comma.
func ldtNumber(s string) (float64, bool) {
	return number(strings.Replace(strings.TrimSpace(s), ",", ".", 1))
}

// ReadEULUMDAT reads a file of either version. Intensities are per 1000 lm of
// the lamp set, which are alternatives: set is the one to use, counted from 1, 0
// for the first. The conversion factor is applied only where that brings
// the integral closer to the output ratio of the header. The angles listed are
// used, never the step. Errors are one line, with the line's number. Sources:
// the format tables named in the project's formats page.
func ReadEULUMDAT(file []byte, set int) (*Photometry, error) {
	text, err := decoded(file)
	if err != nil {
		return nil, err
	}
	f := &ldt{set: set, p: &Photometry{Format: "EULUMDAT"}, lines: strings.Split(text, "\n")}
	for len(f.lines) > 0 && strings.Trim(f.lines[len(f.lines)-1], " \t\x00\x1a") == "" {
		f.lines = f.lines[:len(f.lines)-1]
	}
	for _, step := range []func() error{f.head, f.body, f.lamps, f.table} {
		if err := step(); err != nil {
			return nil, fmt.Errorf("EULUMDAT: %w", err)
		}
	}
	f.p.sides()
	return f.p, nil
}

// line returns the next line.
func (f *ldt) line(what string) (string, error) {
	if f.at >= len(f.lines) {
		return "", fmt.Errorf("%s: found the end of the file after %d lines, expected a value", what, len(f.lines))
	}
	f.at++
	return strings.TrimSpace(f.lines[f.at-1]), nil
}

// num reads a number within a range.
func (f *ldt) num(what string, from, to float64) (float64, error) {
	s, err := f.line(what)
	if err != nil {
		return 0, err
	}
	v, ok := ldtNumber(s)
	if !ok || v < from || v > to {
		return 0, fmt.Errorf("line %d, %s: found %.40q, expected a number from %g to %g", f.at, what, s, from, to)
	}
	return v, nil
}

// whole reads a whole number within a range.
func (f *ldt) whole(what string, from, to int) (int, error) {
	v, err := f.num(what, float64(from), float64(to))
	if err == nil && v != math.Trunc(v) {
		err = fmt.Errorf("line %d, %s: found %g, expected a whole number", f.at, what, v)
	}
	return int(v), err
}

// list reads n numbers; the list grows with what is there.
func (f *ldt) list(what string, n int, from, to float64) ([]float64, error) {
	if left := len(f.lines) - f.at; left < n {
		return nil, fmt.Errorf("%s: found %d lines before the end of the file, expected %d", what, left, n)
	}
	out := make([]float64, n)
	for i := range out {
		v, err := f.num(fmt.Sprintf("%s %d of %d", what, i+1, n), from, to)
		if err != nil {
			return nil, err
		}
		out[i] = v
	}
	return out, nil
}

// head reads lines 1 to 12.
func (f *ldt) head() error {
	title, err := f.line("company")
	if err != nil {
		return err
	}
	f.p.Labels = append(f.p.Labels, Label{"company", title})
	if _, err = f.whole("kind of lamp", 0, 3); err != nil {
		return err
	}
	if f.sym, err = f.whole("symmetry", 0, 4); err != nil {
		return err
	}
	if f.mc, err = f.whole("number of C planes", 1, maxAngles); err != nil {
		return err
	}
	if _, err = f.num("step of C", 0, 360); err != nil {
		return err
	}
	if f.ng, err = f.whole("number of angles in a plane", 2, maxAngles); err != nil {
		return err
	}
	if f.mc*f.ng > maxTable {
		return fmt.Errorf("table: found %d x %d intensities, expected at most %d", f.mc, f.ng, maxTable)
	}
	if _, err = f.num("step of γ", 0, 180); err != nil {
		return err
	}
	for _, key := range []string{"report", "luminaire", "number", "file", "date"} {
		s, err := f.line(key)
		if err != nil {
			return err
		}
		f.p.Labels = append(f.p.Labels, Label{key, s})
	}
	return nil
}

// body reads lines 13 to 25: dimensions in mm, ratios, factor.
func (f *ldt) body() error {
	v := make([]float64, 13)
	for i, what := range []string{"length", "width", "height", "luminous length", "luminous width",
		"luminous height C0", "luminous height C90", "luminous height C180", "luminous height C270",
		"downward flux fraction", "output ratio", "conversion factor", "tilt during measurement"} {
		var err error
		if v[i], err = f.num(what, -1e5, 1e5); err != nil {
			return err
		}
	}
	// C0 lies across a linear luminaire, its length along C90 (from memory).
	o := Opening{X: v[4] / 1000, Y: v[3] / 1000, Z: max(v[5], v[6], v[7], v[8], 0) / 1000}
	if v[4] == 0 && v[3] > 0 {
		o.X, o.Round = o.Y, true
	}
	if !o.bounded() {
		f.p.guess("luminous opening of %g x %g mm is ignored", v[3], v[4])
		o = Opening{}
	}
	f.p.Opening = o
	f.ratio, f.factor = v[10]/100, v[11]
	if f.ratio > 0 {
		f.p.Ratio = q.Some(f.ratio)
	}
	if v[12] != 0 {
		f.p.guess("measured at a tilt of %g°: the table is used as it stands", v[12])
	}
	return nil
}

// lamps reads the sets and the ten direct ratios, which are not used.
func (f *ldt) lamps() error {
	n, err := f.whole("number of lamp sets", 1, 20)
	if err != nil {
		return err
	}
	from := f.at
	if err = f.sets(n, func(set, field int) int { return from + 6*set + field }); err != nil && n > 1 {
		first := err
		if err = f.sets(n, func(set, field int) int { return from + n*field + set }); err != nil {
			return first
		}
		f.p.guess("lamp sets are listed value by value")
	}
	if err != nil {
		return err
	}
	f.at = from + 6*n
	if f.set < 0 || f.set > n {
		return fmt.Errorf("lamp set: found %d asked for, expected 1 to %d", f.set, n)
	}
	f.p.Set = max(f.set, 1)
	s := f.p.Sets[f.p.Set-1]
	if n > 1 && f.set == 0 {
		f.p.guess("%d lamp sets to choose from: the first is used", n)
	}
	f.p.Declared, f.p.Absolute = q.Some(s.Flux), s.Lamps < 0
	if s.Watts > 0 {
		f.p.Watts = q.Some(s.Watts)
	}
	f.p.White = whiteOf(s.White)
	if v, ok := ldtNumber(s.White); ok && v >= 1000 && v <= 20000 {
		f.p.White = q.Some(q.Kelvin(v))
	}
	_, err = f.list("direct ratio", 10, -1e6, 1e6)
	return err
}

// sets reads n sets whose values stand where the function says.
func (f *ldt) sets(n int, where func(set, field int) int) error {
	f.p.Sets = nil
	for k := 0; k < n; k++ {
		var v [6]float64
		var text [6]string
		for i, what := range []string{"number of lamps", "lamp type", "lamp flux", "colour temperature", "colour rendering", "watts"} {
			f.at = where(k, i)
			var err error
			if i == 1 || i == 3 || i == 4 {
				text[i], err = f.line(what)
			} else {
				least := 0.0
				if i == 0 {
					least = -1e6
				}
				v[i], err = f.num(what, least, 1e9)
			}
			if err != nil {
				return err
			}
		}
		if v[2] <= 0 {
			return fmt.Errorf("lamp flux of set %d: found %g lm, expected more than 0", k+1, v[2])
		}
		f.p.Sets = append(f.p.Sets, LampSet{v[0], text[1], q.Lumen(v[2]), text[3], q.Watt(v[5])})
	}
	return nil
}

// table reads angles and intensities and expands the symmetry.
func (f *ldt) table() error {
	planes, err := f.list("C angle", f.mc, 0, 360)
	if err != nil {
		return err
	}
	gamma, err := f.list("γ angle", f.ng, 0, 180)
	if err != nil {
		return err
	}
	snap(planes)
	snap(gamma)
	if err := rising("γ angles", gamma, 0, 180); err != nil {
		return err
	}
	if f.sym != 1 {
		if err := rising("C angles", planes, 0, 360); err != nil {
			return err
		}
	}
	c, stored, from, err := f.expand(planes)
	if err != nil {
		return err
	}
	cd, err := f.list("intensity", stored*f.ng, 0, 1e9)
	if err != nil {
		return err
	}
	if extra := len(f.lines) - f.at; extra > 0 {
		f.p.guess("%d lines after the last intensity are ignored", extra)
	}
	full := make([]float64, 0, len(c)*f.ng)
	for _, k := range from {
		full = append(full, cd[k*f.ng:(k+1)*f.ng]...)
	}
	scale := float64(f.p.Sets[f.p.Set-1].Flux) / 1000
	scale *= f.conversion(newDistribution(c, gamma, append([]float64(nil), full...)))
	for i := range full {
		full[i] *= scale
	}
	f.p.Dist = newDistribution(c, gamma, full)
	return f.p.dark()
}

// conversion returns the factor to apply: that of the header only when it
// brings the integral closer to the stated output ratio.
func (f *ldt) conversion(perKilolumen *Distribution) float64 {
	if f.factor <= 0 || f.factor == 1 || f.ratio <= 0 {
		return 1
	}
	got := perKilolumen.zonal / 1000
	if math.Abs(got*f.factor-f.ratio) < math.Abs(got-f.ratio) {
		f.p.guess("conversion factor %g applied: the table then gives the stated output ratio more closely", f.factor)
		return f.factor
	}
	f.p.guess("conversion factor %g not applied: the table gives the stated output ratio without it", f.factor)
	return 1
}
