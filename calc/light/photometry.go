package light

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	q "duskwire/calc/quantity"
)

// Photometry is what a photometric file says of a lamp, in one form for both
// formats: Type C, C0 along x of the lamp frame, candela at full output.
type Photometry struct {
	Format string  // "LM-63-2002", "EULUMDAT"
	Labels []Label // in the order of the file; keywords repeat
	Dist   *Distribution
	// Declared is the flux that the file speaks of: of the lamps in relative
	// photometry, of the luminaire in absolute. Unknown when it says nothing.
	Declared q.Maybe[q.Lumen]
	Absolute bool
	each     q.Lumen // of one lamp, in relative LM-63; 0 else
	// Ratio is the output ratio that the file states, 1 for 100 %.
	Ratio   q.Maybe[float64]
	Watts   q.Maybe[q.Watt]
	White   q.Maybe[q.Kelvin]
	Opening Opening
	Tilt    *TiltTable // output against tilt; nil for none
	// TiltFile is the file that TILT= names, which WithTilt takes in; "" for none.
	TiltFile  string
	NearField bool      // the table is not meant for other distances (NEARFIELD)
	Sets      []LampSet // alternatives of an EULUMDAT file
	Set       int       // the one of Sets that is used, counted from 1; 0 without sets
	// Guesses says what the file left open and how it was read.
	Guesses []string
}

// Label is one keyword of LM-63 or one header line of EULUMDAT.
type Label struct{ Key, Text string }

// LampSet is one choice of lamps of an EULUMDAT file; flux and watts are of all
// lamps of the set.
type LampSet struct {
	Lamps float64
	Type  string
	Flux  q.Lumen
	White string
	Watts q.Watt
}

// TiltTable is the lamp's output against the tilt of the luminaire, 0 aimed
// down. Found with discharge lamps; LED files have none.
type TiltTable struct {
	Geometry int       // 1 lamp upright, 2 lamp level and staying so, 3 lamp level and tilting
	Angles   []float64 // degrees, rising
	Factors  []float64
}

// Factor returns the output at tilt degrees from straight down, linear between
// the angles and held beyond the ends; 1 for a nil table.
func (t *TiltTable) Factor(tilt float64) float64 {
	if t == nil {
		return 1
	}
	last := len(t.Angles) - 1
	if tilt <= t.Angles[0] {
		return t.Factors[0]
	}
	for i := 1; i <= last; i++ {
		if tilt <= t.Angles[i] {
			k := (tilt - t.Angles[i-1]) / (t.Angles[i] - t.Angles[i-1])
			return t.Factors[i-1] + k*(t.Factors[i]-t.Factors[i-1])
		}
	}
	return t.Factors[last]
}

// Limits of what a file may hold, checked before room is made for it.
const (
	maxBytes  = 32 << 20
	maxAngles = 2000
	maxTable  = 1_000_000
)

// How says what is known of a file beside its content.
type How struct {
	// Ending is that of its name, ".ies" or ".ldt" in any case; "" not known. It
	// only counts where the content does not tell the format.
	Ending string
	// Set is the lamp set of an EULUMDAT file to use, counted from 1; 0 the first.
	Set int
}

// Read tells the two formats apart and reads. The content counts: EULUMDAT, which
// has no mark of its own, is known by lines 2 to 7, six numbers in range, LM-63 by
// its line TILT=. What is neither is told in the words of the format that the
// ending of its name stands for.
func Read(file []byte, how How) (*Photometry, error) {
	if len(file) > maxBytes {
		return nil, fmt.Errorf("photometric file: found %d bytes, expected at most %d", len(file), maxBytes)
	}
	likely := likeEULUMDAT(file)
	named := strings.EqualFold(how.Ending, ".ldt")
	if likely == headNumbers || !lm63Tilt.Match(unix(file[:min(len(file), 1<<20)])) && (named || likely >= headNumbers-1) {
		return ReadEULUMDAT(file, how.Set)
	}
	if how.Set > 1 {
		return nil, fmt.Errorf("LM-63: lamp set: found %d, expected none: the format has no sets", how.Set)
	}
	return ReadLM63(file)
}

// unix ends lines by a line feed, so that a lone carriage return ends one too.
func unix(file []byte) []byte { return bytes.ReplaceAll(file, []byte("\r"), []byte("\n")) }

func (p *Photometry) guess(format string, a ...any) {
	p.Guesses = append(p.Guesses, fmt.Sprintf(format, a...))
}

// decoded returns the text of a file: UTF-8 where it is, else Latin-1, without
// a byte order mark, lines ended by a line feed alone.
func decoded(file []byte) (string, error) {
	if len(file) > maxBytes {
		return "", fmt.Errorf("photometric file: found %d bytes, expected at most %d", len(file), maxBytes)
	}
	text := string(file)
	if !utf8.Valid(file) {
		runes := make([]rune, len(file))
		for i, b := range file {
			runes[i] = rune(b)
		}
		text = string(runes)
	}
	text = strings.TrimPrefix(text, "\ufeff")
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return strings.ReplaceAll(text, "\r", "\n"), nil
}

// number reads a decimal number. Words such as nan and inf are no numbers here.
func number(s string) (float64, bool) {
	if s == "" || len(s) > 40 || strings.Trim(s, "+-.0123456789eE") != "" {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil && !math.IsInf(v, 0) && !math.IsNaN(v)
}

// kelvins finds a colour temperature in free text.
var kelvins = regexp.MustCompile(`(?:^|\D)([1-9]\d{3})\s*[Kk](?:\W|$)`)

// whiteOf returns the colour temperature in s between 1000 and 20000 K.
func whiteOf(s string) q.Maybe[q.Kelvin] {
	if m := kelvins.FindStringSubmatch(s); m != nil {
		if v, _ := strconv.Atoi(m[1]); v >= 1000 && v <= 20000 {
			return q.Some(q.Kelvin(v))
		}
	}
	return q.Maybe[q.Kelvin]{}
}

// rising checks that angles go up and lie within a range, both ends included.
func rising(what string, a []float64, from, to float64) error {
	for i, v := range a {
		if v < from-angleEps || v > to+angleEps {
			return fmt.Errorf("%s: found %g°, expected %g° to %g°", what, v, from, to)
		}
		if i > 0 && v-a[i-1] <= 2*angleEps {
			return fmt.Errorf("%s: found %g° after %g°, expected rising angles", what, v, a[i-1])
		}
	}
	return nil
}

// snap moves angles that are a hair off a multiple of 90° onto it.
func snap(a []float64) {
	for i, v := range a {
		if r := 90 * math.Round(v/90); math.Abs(v-r) <= angleEps {
			a[i] = r
		}
	}
}

// same reports whether two angles of a file are meant to be the same.
func same(a, b float64) bool { return math.Abs(a-b) <= angleEps }

// sides notes what every import leaves open, after the table is made.
func (p *Photometry) sides() {
	if !p.Dist.Rotational() {
		p.guess("C0 is taken along x of the lamp and C anticlockwise seen from above; the file cannot tell: turn or mirror if the plan looks wrong")
	}
	if !p.White.Known {
		p.guess("colour temperature not stated")
	}
	if !p.Watts.Known {
		p.guess("watts not stated")
	} else if p.Watts.Value > 0 {
		if e := float64(p.Dist.Flux()) / float64(p.Watts.Value); e < 20 || e > 220 {
			p.guess("%.0f lm from %g W is %.0f lm/W, outside the usual 20 to 220: check the watts", float64(p.Dist.Flux()), float64(p.Watts.Value), e)
		}
	}
	if step, ok := p.Dist.Coarse(); ok && step > 5 {
		p.guess("angles are %g° apart within the beam: its middle is under-sampled", step)
	}
	p.weigh()
}

// dark refuses a table without any light.
func (p *Photometry) dark() error {
	if p.Dist.env[0] > 0 {
		return nil
	}
	return fmt.Errorf("intensities: found 0 cd in all directions, expected light in some")
}

// amiss is how far the flux of an absolute table may be from what the file itself
// says of the luminaire, and the label of the lamps from the lumens declared
// (common practice, no source).
const amiss = 0.05

// weigh compares the flux of the table with what the file declares.
func (p *Photometry) weigh() {
	got := float64(p.Dist.ZonalFlux())
	if l := p.labelled(); l.Known {
		share := got / float64(l.Value)
		switch {
		case p.Absolute && (share < 0.2 || share > 1.05):
			p.guess("table gives %.0f lm, %.0f %% of the %g lm that the label LAMP names; 20 to 105 %% is usual", got, 100*share, float64(l.Value))
		case !p.Absolute && math.Abs(float64(l.Value/p.Declared.Value)-1) > amiss && math.Abs(float64(l.Value/p.each)-1) > amiss:
			p.guess("label LAMP names %g lm, the numbers declare %g lm for all lamps", float64(l.Value), float64(p.Declared.Value))
		}
	}
	if !p.Declared.Known || p.Declared.Value <= 0 {
		return
	}
	share := got / float64(p.Declared.Value)
	switch {
	case p.Absolute && !p.Ratio.Known:
		if math.Abs(share-1) > amiss {
			p.guess("table gives %.0f lm, the file says %.0f lm of the luminaire", got, float64(p.Declared.Value))
		}
	case p.Ratio.Known && math.Abs(share-p.Ratio.Value) > 0.02:
		p.guess("table gives %.1f %% of the lamp flux, header says %.1f %%", 100*share, 100*p.Ratio.Value)
	case !p.Ratio.Known && (share < 0.2 || share > 1.05):
		p.guess("table gives %.0f lm, %.0f %% of the %.0f lm declared; 20 to 105 %% is usual", got, 100*share, float64(p.Declared.Value))
	}
}
