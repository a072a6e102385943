package output

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"duskwire/calc/check"
	"duskwire/calc/light"
	"duskwire/layout"
)

// luxCaveat stands where figures of light are shown.
const luxCaveat = "computed, photopic, direct light only; not a light measurement"

// LuxReport is the light at one point and the lamps that give it.
type LuxReport struct {
	Heading
	At          LuxPoint   `json:"at"`
	Horizontal  float64    `json:"horizontal_lux"`
	New         float64    `json:"horizontal_new_lux"`
	Least       float64    `json:"horizontal_least_lux"`
	Most        float64    `json:"horizontal_most_lux"`
	Doubts      []LuxDoubt `json:"light_not_known"`
	Vertical    LuxSides   `json:"vertical_lux"`
	Kelvin      *float64   `json:"mixed_kelvin"`
	Maintenance float64    `json:"maintenance_factor"`
	Caveat      string     `json:"caveat"`
	Lamps       []LuxShare `json:"from"`
	Light       []LuxLight `json:"light_of"`
	Assumed     []string   `json:"assumed"`
	Remarks     []string   `json:"remarks"`

	ages string // the factors for age and dirt in words
}

// LuxLight says where the light of one lamp comes from.
type LuxLight struct {
	ID     string  `json:"id"`
	Tag    string  `json:"tag"`
	Basis  string  `json:"basis"` // "file" or "model"
	File   string  `json:"file"`  // name of the photometric file, "" for a model
	Format string  `json:"format"`
	Set    int     `json:"lamp_set"` // of an EULUMDAT file, counted from 1; 0 where there is none
	Lumens float64 `json:"lumens"`   // of the table that is used, at nominal volts
}

// LuxPoint is a point in metres: right, up the sheet, above ground.
type LuxPoint struct {
	X float64 `json:"x_m"`
	Y float64 `json:"y_m"`
	Z float64 `json:"z_m"`
}

// LuxSides are upright surfaces by the way they face on the sheet.
type LuxSides struct {
	Up    float64 `json:"facing_up_sheet"`
	Right float64 `json:"facing_right"`
	Down  float64 `json:"facing_down_sheet"`
	Left  float64 `json:"facing_left"`
}

// LuxShare is what one lamp gives on the horizontal.
type LuxShare struct {
	ID         string  `json:"id"`
	Tag        string  `json:"tag"`
	Horizontal float64 `json:"horizontal_lux"`
	Output     float64 `json:"output_percent"`
	Maintained float64 `json:"maintenance_factor"`
}

// LuxOf returns the light of a frame at a point.
func LuxOf(f *layout.Frame, rules *check.Rules, at light.Vec) (LuxReport, error) {
	night, err := layout.NightOf(f)
	if err != nil {
		return LuxReport{}, err
	}
	round := func(v float64) float64 { return math.Round(v*1e4) / 1e4 }
	lux := func(n light.Vec) float64 { return round(float64(night.Scene.At(at, n))) }
	r := LuxReport{Heading: headingOf(f, rules), At: LuxPoint{at.X, at.Y, at.Z}, Horizontal: lux(light.Up),
		Vertical:    LuxSides{lux(light.Vec{Y: 1}), lux(light.Vec{X: 1}), lux(light.Vec{Y: -1}), lux(light.Vec{X: -1})},
		Maintenance: night.Maintenance, Caveat: luxCaveat, Lamps: []LuxShare{}, Assumed: night.Assumed, Remarks: []string{}, ages: night.Ages()}
	r.New = round(float64(night.Scene.New(at, light.Up)))
	r.doubt(night, at, round)
	if r.Assumed == nil {
		r.Assumed = []string{}
	}
	if at.Z < 0 {
		r.Assumed = append(slices.Clone(r.Assumed), "the point lies below the level ground, which is taken to hide nothing")
	}
	r.Light = lightsOf(night)
	var mix light.XYZ
	shares := night.Scene.Shares(at, light.Up)
	if near := layout.NearText(night.NearTags(at, shares)); near != "" {
		r.Remarks = append(r.Remarks, near)
	}
	for i, v := range shares {
		l := night.Scene.Lamp(i)
		mix = mix.Add(light.Stimulus(l.White, float64(v)))
		if round(float64(v)) > 0 {
			r.Lamps = append(r.Lamps, LuxShare{l.ID, night.Lamps[i].Tag, round(float64(v)), math.Round(1e4*l.Share) / 100, l.Maintained})
		}
	}
	if x, y := mix.Chromaticity(); mix.Y > 0 {
		k := math.Round(float64(light.Correlated(x, y)))
		r.Kelvin = &k
	}
	return r, nil
}

// lightsOf lists where the light of every lamp comes from.
func lightsOf(n *layout.Night) []LuxLight {
	out := []LuxLight{}
	for i, l := range n.Lamps {
		one := LuxLight{ID: string(l.ID), Tag: l.Tag, Basis: "model", Lumens: math.Round(float64(n.Scene.Lamp(i).Dist.Flux())*10) / 10}
		if f := n.Files[i]; f != nil {
			one.Basis, one.File, one.Format, one.Set = "file", f.Of.Name(), f.Table.Format, f.Table.Set
		}
		out = append(out, one)
	}
	return out
}

// lightLines says the same in a line for every file and one for the models.
func (r LuxReport) lightLines() (out []string) {
	at := map[string]int{}
	for _, l := range r.Light {
		what := "model of lumens and beam"
		if l.Basis == "file" {
			set := ""
			if l.Set > 1 {
				set = fmt.Sprintf(", lamp set %d", l.Set)
			}
			what = fmt.Sprintf("photometric file %s (%s%s, %.0f lm)", OneLine(l.File), l.Format, set, l.Lumens)
		}
		i, ok := at[what]
		if !ok {
			i = len(out)
			at[what] = i
			out = append(out, what+": "+l.Tag)
			continue
		}
		out[i] += ", " + l.Tag
	}
	return out
}

// Text writes the report for reading.
func (r LuxReport) Text(out io.Writer) error {
	w := &strings.Builder{}
	fmt.Fprintf(w, "%s\n%s\n\n", r.Scheme, r.Statement)
	fmt.Fprintf(w, "At %g m, %g m, %g m above ground, maintained (factor %s): %s\n", r.At.X, r.At.Y, r.At.Z, r.ages, r.Caveat)
	fmt.Fprintf(w, "  horizontal %.2f lx; %.2f lx with all lamps new and clean\n", r.Horizontal, r.New)
	v := r.Vertical
	fmt.Fprintf(w, "  upright, facing up the sheet %.2f lx, right %.2f lx, down %.2f lx, left %.2f lx\n", v.Up, v.Right, v.Down, v.Left)
	if r.Kelvin != nil {
		fmt.Fprintf(w, "  mixed white about %.0f K\n", *r.Kelvin)
	}
	for _, l := range r.Lamps {
		if l.Horizontal < 0.005 {
			continue
		}
		fmt.Fprintf(w, "  from %s at %.0f %% output: %.2f lx\n", l.Tag, l.Output, l.Horizontal)
	}
	r.doubtText(w)
	for _, l := range r.lightLines() {
		fmt.Fprintf(w, "  light by %s\n", l)
	}
	for _, a := range r.Remarks {
		fmt.Fprintf(w, "  %s\n", a)
	}
	for _, a := range r.Assumed {
		fmt.Fprintf(w, "  assumed: %s\n", a)
	}
	for _, o := range r.Overruled {
		fmt.Fprintln(w, o.Line())
	}
	_, err := io.WriteString(printed{out}, w.String())
	return err
}
