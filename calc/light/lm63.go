package light

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
)

var (
	lm63Version = regexp.MustCompile(`(?i)^\s*IES(?:NA)?\s*:?\s*(?:LM-63-)?(\d{4}|\d{2})\b`)
	lm63Tilt    = regexp.MustCompile(`(?im)^[ \t]*TILT[ \t]*=[ \t]*(.*)$`)
	// decimalComma finds a comma right between digits, a separator or a mistake.
	decimalComma = regexp.MustCompile(`[0-9.]*[0-9],[0-9][0-9.]*`)
	// lumensIn finds a flux in free text, "1,200 lm", but no lm/W.
	lumensIn  = regexp.MustCompile(`(?i)(?:^|[^0-9.,]|[^0-9.],)([0-9]{1,3}(?:,[0-9]{3})+|[0-9]+(?:\.[0-9]+)?)\s*(?:lm|lumens?)(?:[^/\w]|$)`)
	lm63Label = regexp.MustCompile(`^\s*\[([^\]]*)\]\s*(.*)$`)
)

// lm63 is a file on the way to a Photometry.
type lm63 struct {
	p     *Photometry
	year  int
	in    tokens
	nV    int
	nH    int
	kind  int     // 1 C, 2 B, 3 A
	scale float64 // on every candela
	v, h  []float64
	cd    []float64
}

// ReadLM63 reads a file of LM-63-1986 to LM-63-2019. Text before TILT= may be
// anything; after it the file is one stream of numbers, whatever the lines. The
// candela are multiplied by multiplier, ballast factor and, up to 1991, the
// ballast-lamp factor when it is not 0; 2019 has a code in that place. Types C, B
// and A are read. More numbers than the counts ask for are left, unless commas
// stand between digits: those part numbers and would have halved each. Errors are one line: what was found and
// what was expected. Source: parsing notes named in the project's formats page.
func ReadLM63(file []byte) (*Photometry, error) {
	text, err := decoded(file)
	if err != nil {
		return nil, err
	}
	at := lm63Tilt.FindStringSubmatchIndex(text)
	if at == nil {
		return nil, fmt.Errorf("LM-63: found no line TILT=, expected one before the numbers")
	}
	f := &lm63{p: &Photometry{}, in: tokens{text: text[at[1]:]}}
	comma := decimalComma.FindString(f.in.text)
	f.head(text[:at[0]])
	if err := f.tilt(strings.TrimSpace(text[at[2]:at[3]])); err != nil {
		return nil, fmt.Errorf("%s: %w", f.p.Format, err)
	}
	for _, step := range []func() error{f.scalars, f.numbers, f.table} {
		if err := step(); err != nil {
			return nil, fmt.Errorf("%s: %w", f.p.Format, err)
		}
	}
	if extra := f.in.count(); extra > 0 {
		if comma != "" {
			return nil, fmt.Errorf("%s: found %d numbers more than the counts ask for, and commas between digits as in %q, expected points: a comma parts two numbers", f.p.Format, extra, comma)
		}
		f.p.guess("%d values after the last intensity are ignored", extra)
	}
	f.p.sides()
	return f.p, nil
}

// head reads version and labels.
func (f *lm63) head(text string) {
	f.year = 1986
	first, _, _ := strings.Cut(text, "\n")
	if m := lm63Version.FindStringSubmatch(first); m != nil {
		f.year, _ = strconv.Atoi(m[1])
		if f.year < 100 {
			f.year += 1900
		}
		text = strings.TrimPrefix(text, first)
	}
	f.p.Format = fmt.Sprintf("LM-63-%d", f.year)
	for _, line := range strings.Split(text, "\n") {
		line = strings.TrimSpace(line)
		m := lm63Label.FindStringSubmatch(line)
		last := len(f.p.Labels) - 1
		switch {
		case line == "":
		case m == nil:
			f.p.Labels = append(f.p.Labels, Label{Text: line})
		case strings.EqualFold(strings.TrimSpace(m[1]), "MORE") && last >= 0:
			f.p.Labels[last].Text += " " + m[2]
		default:
			f.p.Labels = append(f.p.Labels, Label{strings.ToUpper(strings.TrimSpace(m[1])), strings.TrimSpace(m[2])})
		}
	}
	for _, l := range f.p.Labels {
		if l.Key == "NEARFIELD" {
			f.p.NearField = true
			f.p.guess("the file says NEARFIELD: its table is not meant for other distances")
		}
		if w := whiteOf(l.Text); w.Known && !f.p.White.Known {
			f.p.White = w
			f.p.guess("colour temperature %.0f K read from %q", float64(w.Value), l.Key+" "+l.Text)
		} else if v, ok := number(l.Text); ok && strings.Contains(l.Key, "COLORTEMP") && v >= 1000 && v <= 20000 && !f.p.White.Known {
			f.p.White = q.Some(q.Kelvin(v))
		}
	}
}

// tilt reads the table that TILT=INCLUDE announces.
func (f *lm63) tilt(what string) error {
	switch {
	case strings.EqualFold(what, "NONE"):
		return nil
	case what == "":
		f.p.guess("TILT= names nothing: taken as NONE")
		return nil
	case !strings.EqualFold(what, "INCLUDE"):
		f.p.TiltFile = what
		f.p.guess(tiltNotRead, what)
		return nil
	}
	var err error
	f.p.Tilt, err = f.in.tiltTable()
	return err
}

// scalars reads the thirteen values before the angles.
func (f *lm63) scalars() error {
	text := f.in.text
	if err := f.values(); err != nil {
		return decimalCommas(err, text)
	}
	return nil
}

// decimalCommas adds to an error that the values hold commas between digits: LM-63
// has the comma between values, and a decimal comma shifts all that follows.
func decimalCommas(err error, text string) error {
	head, seen := "", 0
	for line := range strings.Lines(text) { // the thirteen values, usually on two lines
		if strings.TrimSpace(line) == "" {
			continue
		}
		if head += line; seen == 1 {
			break
		}
		seen++
	}
	if at := decimalComma.FindString(head); at != "" {
		return fmt.Errorf("%w, and commas between digits as in %q, expected points: a comma parts two numbers", err, strings.TrimSpace(at))
	}
	return err
}

// values reads the thirteen.
func (f *lm63) values() error {
	s, err := f.in.list("values before the angles", 3)
	if err != nil {
		return err
	}
	lamps, lumens, multiplier := s[0], s[1], s[2]
	for _, n := range []struct {
		what     string
		to       *int
		from, up int
	}{{"number of vertical angles", &f.nV, 2, maxAngles}, {"number of horizontal angles", &f.nH, 1, maxAngles}, {"photometric type", &f.kind, 1, 3}} {
		if *n.to, err = f.in.whole(n.what, n.from, n.up); err != nil {
			return err
		}
	}
	if f.nV*f.nH > maxTable {
		return fmt.Errorf("table: found %d x %d intensities, expected at most %d", f.nV, f.nH, maxTable)
	}
	units, err := f.in.whole("units", 1, 2)
	if err != nil {
		return err
	}
	if s, err = f.in.list("dimensions, ballast factor, future use and watts", 6); err != nil {
		return err
	}
	if f.p.Opening = lm63Opening(s[0], s[1], s[2], units); !f.p.Opening.bounded() {
		return fmt.Errorf("luminous opening: found %g x %g x %g, expected at most 100 m", s[0], s[1], s[2])
	}
	ballast, future, watts := s[3], s[4], s[5]
	if multiplier <= 0 {
		return fmt.Errorf("multiplier: found %g, expected more than 0", multiplier)
	}
	if ballast == 0 {
		f.p.guess("ballast factor 0 taken as 1")
		ballast = 1
	}
	if ballast < 0 {
		return fmt.Errorf("ballast factor: found %g, expected more than 0", ballast)
	}
	f.scale = multiplier * ballast
	if f.year <= 1991 && future > 0 {
		f.scale *= future
	}
	if watts > 0 {
		f.p.Watts = q.Some(q.Watt(watts))
	}
	f.declare(lamps, lumens)
	return nil
}

// declare keeps the flux that the file speaks of. In absolute files the number
// of lamps may be anything; the labels may hold the flux.
func (f *lm63) declare(lamps, lumens float64) {
	if lumens > 0 {
		if lamps < 1 {
			f.p.guess("number of lamps %g taken as 1", lamps)
			lamps = 1
		}
		f.p.Declared, f.p.each = q.Some(q.Lumen(lamps*lumens)), q.Lumen(lumens)
		return
	}
	f.p.Absolute = true
	for _, l := range f.p.Labels {
		if v, ok := number(l.Text); ok && v > 0 && strings.Contains(l.Key, "ABSOLUTELUMENS") {
			f.p.Declared = q.Some(q.Lumen(v))
		}
	}
}

// labelled returns the flux that a label LAMP names, such as "LED 1200 lm".
func (p *Photometry) labelled() q.Maybe[q.Lumen] {
	for _, l := range p.Labels {
		if l.Key != "LAMP" {
			continue
		}
		if m := lumensIn.FindStringSubmatch(l.Text); m != nil {
			if v, ok := number(strings.ReplaceAll(m[1], ",", "")); ok && v > 0 {
				return q.Some(q.Lumen(v))
			}
		}
	}
	return q.Maybe[q.Lumen]{}
}

// numbers reads angles and intensities. The list grows with what is there, so a
// large count over a short file costs nothing.
func (f *lm63) numbers() (err error) {
	if f.v, err = f.in.list("vertical angles", f.nV); err != nil {
		return err
	}
	if f.h, err = f.in.list("horizontal angles", f.nH); err != nil {
		return err
	}
	if f.cd, err = f.in.list(fmt.Sprintf("intensities (%d horizontal x %d vertical angles)", f.nH, f.nV), f.nV*f.nH); err != nil {
		return err
	}
	for i, v := range f.cd {
		if v < 0 {
			return fmt.Errorf("intensity %d: found %g cd, expected 0 or more", i+1, v)
		}
		if f.cd[i] = v * f.scale; f.cd[i] > 1e12 {
			return fmt.Errorf("intensity %d: found %g cd, expected at most 1e12", i+1, f.cd[i])
		}
	}
	snap(f.v)
	snap(f.h)
	return nil
}

// tokens is a stream of numbers between spaces, commas and line ends.
type tokens struct {
	text string
	line int    // ends of line passed, from the line of TILT=
	of   string // where lines are counted from, "" for the line of TILT=
}

func (t *tokens) next() (string, bool) {
	for i, r := range t.text {
		if !strings.ContainsRune(" \t,\n\v\f\u00a0\x00\x1a", r) {
			t.text = t.text[i:]
			break
		}
		if r == '\n' {
			t.line++
		}
		if i+len(string(r)) == len(t.text) {
			t.text = ""
		}
	}
	if t.text == "" {
		return "", false
	}
	end := strings.IndexAny(t.text, " \t,\n\v\f\u00a0\x00\x1a")
	if end < 0 {
		end = len(t.text)
	}
	word := t.text[:end]
	t.text = t.text[end:]
	return word, true
}

// count returns how many values are left.
func (t *tokens) count() (n int) {
	for _, ok := t.next(); ok; _, ok = t.next() {
		n++
	}
	return n
}

// list reads n numbers.
func (t *tokens) list(what string, n int) ([]float64, error) {
	out := make([]float64, 0, min(n, 1+len(t.text)/2))
	for len(out) < n {
		word, ok := t.next()
		if !ok {
			return nil, fmt.Errorf("%s: found %d numbers before the end of the file, expected %d", what, len(out), n)
		}
		v, ok := number(word)
		if !ok {
			where := fmt.Sprintf("line %d after TILT=", t.line)
			if t.of != "" {
				where = fmt.Sprintf("line %d of %s", t.line+1, t.of)
			}
			return nil, fmt.Errorf("%s: found %.40q as number %d of %d (%s), expected a number", what, word, len(out)+1, n, where)
		}
		out = append(out, v)
	}
	return out, nil
}

// whole reads one whole number, which may be written 3.0.
func (t *tokens) whole(what string, from, to int) (int, error) {
	v, err := t.list(what, 1)
	if err != nil {
		return 0, err
	}
	if n := int(v[0]); float64(n) == v[0] && n >= from && n <= to {
		return n, nil
	}
	return 0, fmt.Errorf("%s: found %g, expected a whole number from %d to %d", what, v[0], from, to)
}
