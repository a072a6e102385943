package check

import (
	"slices"
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// LightLimits are targets and limits of light. What a rule set leaves out is 0 or
// empty, a curfew not known; the rule that asks for it is then silent.
type LightLimits struct {
	Uses   []LightUseRow
	Spill  []SpillRow
	Upward []UpwardRow
	Bright []BrightRow

	Seen       Limit // 100 cd towards an eye
	SeenHard   Limit // 300 cd
	SeenReach  Limit // 10 m from lamp to eye
	WarmSoft   Limit // 2700 K
	WarmHard   Limit // 3000 K
	Raised     Limit // 90° from straight down
	Courtesy   Limit // 0.1 lx at a neighbour's window after curfew
	HabitatLux Limit // 0.2 lx on water from which a lamp reaches it
	CrownLux   Limit // 0.4 lx at the crown of a tree, facing the lamp

	// Curfew is in hours of the clock, 23, 0 at midnight; the survey may say another.
	Curfew       q.Maybe[float64]
	CurfewSource finding.Source
}

// LightUseRow is what one use of the ground asks for. 0 asks for nothing.
type LightUseRow struct {
	Use            string // "path"
	Average, Least q.Lux
	Uniformity     float64 // least over average
	Upright        q.Lux   // on faces, average
	// Sources of the four figures.
	Source, LeastSource, UniformitySource, UprightSource finding.Source
}

// SpillRow is the greatest upright illuminance on a neighbour's window in an
// environmental zone.
type SpillRow struct {
	Zone   string // "E2"
	After  bool   // after curfew
	Lux    q.Lux
	Source finding.Source
}

// UpwardRow is the greatest part of the flux that goes above the horizontal in
// an environmental zone.
type UpwardRow struct {
	Zone   string
	All    bool // of an installation of four lamps or more; otherwise of one lamp
	Share  float64
	Source finding.Source
}

// BrightRow is the greatest intensity of one lamp towards who is beyond the garden
// in an environmental zone.
type BrightRow struct {
	Zone    string
	After   bool // after curfew
	Candela q.Candela
	Source  finding.Source
}

// LuxFacts are the figures of light of a scheme, for the rules LUX. They are
// worked out elsewhere; the rules compare.
type LuxFacts struct {
	Zone        string // environmental zone "E0" to "E4"; "" not said
	Maintenance float64
	Ages        string   // that factor and those of lamps with another, in words; "" for it alone
	Curfew      string   // "23:00"
	CurfewSaid  bool     // by the survey; otherwise the rule set's is taken
	Assumed     []string // of the lamps: what was not known and what was taken
	// AtLeast, AtMost and AtWorst say of which lamps the light at their volts is not
	// known, and how it was taken: for targets, where the least counts, for limits, and
	// for the part that goes upward.
	AtLeast, AtMost, AtWorst []string
	Uses                     []LuxUse
	Views                    []LuxView
	Lamps                    []LuxLamp
	Eyes                     []LuxEye
	Habitats                 []LuxHabitat
}

// LuxUse is the light on ground of one use.
type LuxUse struct {
	finding.Subject
	Use     string
	Kind    string // of the ground; the use follows from it unless Said
	Said    bool
	Average q.Lux
	Least   q.Lux
	Most    q.Lux
	// Bright is Average where the light of some lamps at their volts is not known,
	// were they at full; 0 where all is known. Evenness is judged at its worst, Least
	// over Bright.
	Bright q.Lux
	Points int
	Step   q.Metre
	New    q.Lux  // the average with all lamps new and clean; 0 not worked out
	Near   string // which lamps are near for what shines, in words; "" for none
	// Upright is the light on faces, the brighter way round at each of so many
	// points, on average; 0 Faces when it was not worked out.
	Upright    q.Lux
	Faces      int
	FaceHeight q.Metre
}

// LuxShare is what one lamp gives.
type LuxShare struct {
	finding.Subject
	Lux q.Lux
}

// LuxView is the upright illuminance at a window or along a boundary, where it
// is greatest.
type LuxView struct {
	finding.Subject
	Window bool
	Whose  string // "own", "neighbour", "" not said
	Lux    q.Lux
	Where  string
	Points int
	From   []LuxShare // the lamps that give most, at most three
	// Late is Rest by the lamps that burn after curfew alone, where that is
	// greatest, LateFrom who gives it.
	Late      q.Lux
	LateWhere string
	LateFrom  []LuxShare
	// Bright are lamps by their intensity towards it, greatest first, at most
	// three; BrightLate those that burn after curfew.
	Bright, BrightLate []LuxGlance
	// Beams are lamps that GLR-01 reports at this window; Rest is the
	// illuminance without them.
	Beams []finding.Subject
	Rest  q.Lux
	Taken string // what was not known and what was taken, "" for nothing
}

// LuxLamp is the flux of one lamp, at its volts and new.
type LuxLamp struct {
	finding.Subject
	Flux   q.Lumen
	Dim    q.Maybe[q.Lumen] // the least that Flux may be, where the light at its volts is not known
	Upward float64          // part above the horizontal as aimed
	White  q.Kelvin         // 0 for not known
	// Tilt is how far from straight down it is aimed, degrees; Guessed says that
	// nobody aimed it.
	Tilt    float64
	Guessed bool
	// Off is when it goes out, "" for nobody said, After that it burns after
	// curfew.
	Off   string
	After bool
	Watts q.Maybe[q.Watt] // at the supply
}

// LuxEye is the intensity of lamps towards eyes at a seat or along a walk.
type LuxEye struct {
	finding.Subject
	Walk   bool
	Height q.Metre
	From   []LuxGlance // greatest first
}

// LuxGlance is one lamp as seen from where it is brightest.
type LuxGlance struct {
	finding.Subject
	Toward   q.Candela
	Distance q.Metre
}

// LuxHabitat is the light that lamps give to water or the crown of a tree.
type LuxHabitat struct {
	finding.Subject
	Crown bool   // at a tree, facing the lamp; otherwise level on water
	Taken string // what was not known and what was taken, "" for nothing
	From  []LuxWhite
}

// LuxWhite is one lamp with its light there and its white; 0 K is not known.
type LuxWhite struct {
	LuxShare
	White q.Kelvin
}

// LuxRules are the entries of the rules of light for lists of codes; Lux runs
// them.
var LuxRules = []Rule{
	{Code: "LUX-01", Title: "Light on the ground against its use"},
	{Code: "LUX-02", Title: "Light on neighbours' windows and along the boundary"},
	{Code: "LUX-03", Title: "Upward light"},
	{Code: "LUX-04", Title: "Intensity towards eyes at seats and on walks"},
	{Code: "LUX-05", Title: "White of the light where animals live"},
	{Code: "LUX-06", Title: "White of every lamp"},
	{Code: "LUX-07", Title: "Lamps aimed above level"},
	{Code: "LUX-08", Title: "Lamps that burn after curfew"},
	{Code: "LUX-09", Title: "Intensity of a lamp towards neighbours"},
	{Code: "LUX-10", Title: "Courtesy: neighbours' windows after curfew"},
}

// Lux compares the figures of light with targets and limits.
func Lux(u *LuxFacts, r *Rules) []finding.Finding {
	var out []finding.Finding
	emit := func(f finding.Finding) {
		switch f.Code {
		case "LUX-01":
			f.Assumed = slices.Concat(f.Assumed, u.AtLeast, u.Assumed)
		case "LUX-03":
			f.Assumed = slices.Concat(f.Assumed, u.AtWorst, u.Assumed)
		case "LUX-06": // white: how much light there is does not count
		default:
			f.Assumed = slices.Concat(f.Assumed, u.AtMost, u.Assumed)
		}
		out = append(out, f)
	}
	useLight(u, &r.Light, emit)
	spill(u, &r.Light, emit)
	upward(u, &r.Light, emit)
	intoEyes(u, &r.Light, emit)
	told := habitats(u, &r.Light, emit)
	whites(u, &r.Light, told, emit)
	raised(u, &r.Light, emit)
	burning(u, &r.Light, emit)
	bright(u, &r.Light, emit)
	courtesy(u, &r.Light, emit)
	finding.Sort(out)
	return out
}

// caveat says what every figure of light is.
func (u *LuxFacts) caveat(w *lines) {
	ages := u.Ages
	if ages == "" {
		ages = num(u.Maintenance, 2)
	}
	w.add("maintained: × %s for age and dirt (common practice; CIE 154 has the method)", ages)
	w.add("photopic lux of direct light on level ground; an eye at night weighs light otherwise")
	w.add("computed, not measured")
}

// lx writes an illuminance; small ones with two decimals, since limits are.
func lx(v q.Lux) string {
	switch {
	case v >= 100:
		return num(float64(v), 0) + " lx"
	case v >= 10:
		return num(float64(v), 1) + " lx"
	}
	return num(float64(v), 2) + " lx"
}

// parts writes who gives how much.
func parts(from []LuxShare) string {
	var out []string
	for _, p := range from {
		out = append(out, p.Label+" "+lx(p.Lux))
	}
	return strings.Join(out, ", ")
}

// sources joins different sources of one limit in a line.
func sources(list ...finding.Source) string {
	var out []string
	for _, s := range list {
		text := s.String()
		if text == "" || len(out) > 0 && out[len(out)-1] == text {
			continue
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}
