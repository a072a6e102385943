package scene

import (
	"strconv"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// Look is what the plan is drawn to show.
type Look int

const (
	LookPlan    Look = iota // what is there, to be built
	LookVolts               // runs by the volts lost up to their far ends
	LookAmperes             // runs by their current
	LookDig                 // ground and runs by digging, clashes marked
	LookDusk                // lines alone, to lie over the night picture
)

// alongSteps is the number of classes of a look: each heavier than the one
// before, and darker on paper (lighter on a dark screen), so that they are told
// apart without colour.
const alongSteps = 5

var (
	alongLight  = [alongSteps]Colour{rgb(0x6F96BB), rgb(0x5377B0), rgb(0x67479A), rgb(0x872363), rgb(0x5E0B14)}
	alongDark   = [alongSteps]Colour{rgb(0x5180A7), rgb(0x6A9FBF), rgb(0xBEA0F9), rgb(0xFBA8C5), rgb(0xFFE48F)}
	alongWidths = [alongSteps]float64{0.45, 0.65, 0.9, 1.15, 1.45}
)

// dropEdges part the classes of LookVolts: volts lost from the start of the
// voltage system over its nominal voltage. Ours; no limit of a rule set.
var dropEdges = [alongSteps - 1]float64{0.01, 0.02, 0.03, 0.05}

// flow is what one run carries.
type flow struct {
	known    bool
	from, to q.Volt // at its ends, the supply side first
	drop     float64
	current  q.Ampere
}

// along are the figures for one look.
type along struct {
	look  Look
	runs  map[doc.ID]flow
	edges [alongSteps - 1]float64
}

// newAlong collects the figures; nil for the plain plan.
func newAlong(in *Input) *along {
	if in.Look != LookVolts && in.Look != LookAmperes {
		return nil
	}
	a := &along{look: in.Look, runs: map[doc.ID]flow{}, edges: dropEdges}
	most := 0.0
	for i := 0; in.Circuits != nil && i < min(len(in.Circuits.Circuits), len(in.Results)); i++ {
		n, r := in.Circuits.Circuits[i].Input.Net, in.Results[i]
		if r == nil {
			continue
		}
		read := newReadings(n, r)
		for b := range n.Branches {
			if br := &n.Branches[b]; br.ID != "" && br.Cable != nil {
				f := flowOf(br, read)
				a.runs[doc.ID(br.ID)] = f
				most = max(most, float64(f.current))
			}
		}
	}
	if a.look == LookAmperes {
		step := stepOver(most / alongSteps)
		for i := range a.edges {
			a.edges[i] = step * float64(i+1)
		}
	}
	return a
}

// flowOf returns the figures of a branch; not known where its far end has no
// reading.
func flowOf(br *network.Branch, read *readings) (f flow) {
	run, to := read.runs[br.ID], read.point(br.To)
	if run == nil || to == nil || !run.Trusted || !to.Trusted {
		return f
	}
	f = flow{known: true, from: to.Voltage, to: to.Voltage, drop: to.DropRatio, current: run.Current}
	if p := read.point(br.From); p != nil && p.Trusted {
		f.from, f.drop = p.Voltage, max(f.drop, p.DropRatio)
	}
	return f
}

// stepOver returns the smallest of 1, 2, 5 times a power of ten that is at least
// v, and 0.001 at least.
func stepOver(v float64) float64 {
	for unit := 0.001; ; unit *= 10 {
		for _, m := range [3]float64{1, 2, 5} {
			if unit*m >= v*(1-1e-9) {
				return unit * m
			}
		}
	}
}

// class returns the class of a run, -1 without a figure.
func (a *along) class(id doc.ID) int {
	f := a.runs[id]
	if !f.known {
		return -1
	}
	v := f.drop
	if a.look == LookAmperes {
		v = float64(f.current)
	}
	n := 0
	for n < len(a.edges) && v > a.edges[n] {
		n++
	}
	return n
}

// style returns the line of a class; the gaps of extra-low voltage grow with
// the weight. No figure is a thin dotted line.
func (a *along) style(p *Palette, class int, s system) Style {
	if class < 0 {
		return Style{Stroke: p.Soft, Width: thin, Dash: []float64{0.6, 1.2}}
	}
	st := Style{Stroke: alongLight[class], Width: alongWidths[class]}
	if c := p.Paper; int(c.R)+int(c.G)+int(c.B) < 3*128 {
		st.Stroke = alongDark[class]
	}
	if s == extra {
		gap := 1.3 + max(0, st.Width-bold)
		st.Dash = []float64{3.4, gap, 0.2, gap}
	}
	return st
}

// text is the label of a run.
func (a *along) text(r *doc.Run) string {
	f := a.runs[r.ID]
	switch {
	case !f.known:
		return r.Tag + " · no reading"
	case a.look == LookAmperes:
		return r.Tag + " · " + f.current.String()
	case f.from == f.to:
		return r.Tag + " · " + f.to.String()
	}
	return r.Tag + " · " + strconv.FormatFloat(float64(f.from), 'f', 2, 64) + " → " + strconv.FormatFloat(float64(f.to), 'f', 2, 64) + " V"
}

// short is the label where there is little room: the figure alone, volts at the
// far end.
func (a *along) short(id doc.ID) string {
	f := a.runs[id]
	switch {
	case !f.known:
		return "no reading"
	case a.look == LookAmperes:
		return strconv.FormatFloat(float64(f.current), 'f', 2, 64) + " A"
	}
	return strconv.FormatFloat(float64(f.to), 'f', 1, 64) + " V"
}

// alongGroups head the classes in a legend.
var alongGroups = map[Look]string{LookVolts: "Volts lost, share of nominal", LookAmperes: "Amperes in a run"}

// AlongGroup is the heading of a look in the legend, "" for the plain plan.
func AlongGroup(l Look) string { return alongGroups[l] }

// entries explain the classes that runs are in.
func (a *along) entries(b *builder) (out []Entry) {
	var used [alongSteps]bool
	none := false
	for _, r := range b.in.Scheme.Runs.All() {
		if c := a.class(r.ID); c >= 0 {
			used[c] = true
		} else {
			none = true
		}
	}
	line := []XY{{-LegendWidth / 2, 0}, {LegendWidth / 2, 0}}
	edge := func(i int) string {
		if a.look == LookAmperes {
			return q.Ampere(a.edges[i]).String()
		}
		return strconv.FormatFloat(100*a.edges[i], 'f', -1, 64) + " %"
	}
	for c, yes := range used {
		if !yes {
			continue
		}
		words := "Above " + edge(max(0, c-1))
		if c == 0 {
			words = "Up to " + edge(0)
		} else if c < alongSteps-1 {
			words += " to " + edge(c)
		}
		out = append(out, Entry{alongGroups[a.look], []Item{{Kind: Polyline, Points: line, Style: a.style(b.pal, c, mains)}}, words})
	}
	if none {
		out = append(out, Entry{alongGroups[a.look], []Item{{Kind: Polyline, Points: line, Style: a.style(b.pal, -1, mains)}}, "No reading"})
	}
	return out
}
