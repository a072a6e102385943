package layout

import (
	"context"
	"sort"
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/edit"
)

// Cure is one way out of a finding, tried on the scheme: Figure is what the
// changed scheme really computes to, not an estimate.
type Cure struct {
	Text   string // "move S1 to the middle of its lamps"
	Figure string // "11.62 V at L10 (3.15 %)"
	Holds  bool   // the finding would be gone
	// Metres is the change of the cut list and of the indoor leg, which that does
	// not hold, what is bought more of first.
	Metres []CableMetres
	// Leaves is what would still be asked of the same things, Brings what would
	// come up with it; Then says both in words, "" for nothing.
	Leaves, Brings []Follow
	Then           string
	// Operation carries the cure out as one step; nil when something is needed
	// that the stock book does not hold.
	Operation edit.Operation

	thicker bool    // takes a thicker cable
	worse   int     // Stop findings that it brings about
	left    int     // findings of the same place that it leaves
	order   int     // among cures that are as good
	use     float64 // figure over limit, 0 when the code has no such figure
}

// CableMetres is how much more of one cable the cut list would hold.
type CableMetres struct {
	Cable, Name string
	Metres      q.Metre // negative for what is no longer needed
}

// Bought returns the metres of cable that the cure takes, all kinds together.
func (c Cure) Bought() q.Metre {
	var sum q.Metre
	for _, m := range c.Metres {
		sum += max(m.Metres, 0)
	}
	return sum
}

// Cost says in words what cable the cure takes and frees: "18.5 m more of ...,
// 5 m less of ...".
func (c Cure) Cost() string {
	var parts []string
	for _, m := range c.Metres {
		name := m.Name
		if name == "" {
			name = m.Cable
		}
		if m.Metres > 0 {
			parts = append(parts, m.Metres.String()+" more of "+name)
		} else {
			parts = append(parts, (-m.Metres).String()+" less of "+name)
		}
	}
	if len(parts) == 0 {
		return "no more cable"
	}
	return strings.Join(parts, ", ")
}

// Follow is a kind of finding that a cure leaves standing or brings about.
type Follow struct {
	Code  finding.Code
	Level finding.Level
	Title string // of the rule: "No rating for the installation method"
}

// String names it: "CAP-03 no rating for the installation method (Stop)".
func (f Follow) String() string {
	out := string(f.Code)
	if f.Title != "" {
		out += " " + uncapital(f.Title)
	}
	return out + " (" + f.Level.String() + ")"
}

// Curable reports whether there are ways out of a finding that Cures can try.
func Curable(fd *finding.Finding) bool {
	w, ok := waysOut[fd.Code]
	return ok && fd.Level >= w.from
}

// How many cures are shown: those that hold, and those that only help.
const (
	mostHolding = 8
	mostHelping = 2
)

// Cures tries ways out of a finding of the frame and returns those that help,
// best first: deleting last, those that hold before those that only help, those
// that bring no new Stop, those without a thicker cable, those that leave less
// to be asked, those that can be applied at once, and then those that need less cable
// (trade notes, scenario 2: moving the source comes before any thicker cable).
// Each is evaluated as a whole scheme, so this is asked for the one finding
// that someone looks at and not for every frame. It only reads the frame. When
// ctx ends before it is done the answer is nil.
func Cures(ctx context.Context, f *Frame, fd finding.Finding) []Cure {
	if !Curable(&fd) {
		return nil
	}
	b := newBench(ctx, f, fd)
	waysOut[fd.Code].try(b)
	if ctx.Err() != nil {
		return nil
	}
	sort.SliceStable(b.found, func(i, j int) bool { return better(&b.found[i], &b.found[j]) })
	var out []Cure
	holding, helping := 0, 0
	for _, c := range b.found {
		switch {
		case c.Holds && holding < mostHolding:
			holding++
		case !c.Holds && helping < mostHelping:
			helping++
		default:
			continue
		}
		out = append(out, c)
	}
	return out
}

// better orders two cures; see Cures.
func better(a, b *Cure) bool {
	switch {
	case deletes(a) != deletes(b): // whatever else they bring
		return !deletes(a)
	case a.Holds != b.Holds:
		return a.Holds
	case !a.Holds && a.use != b.use:
		return a.use < b.use
	case (a.worse > 0) != (b.worse > 0):
		return a.worse == 0
	case a.thicker != b.thicker:
		return !a.thicker
	case (a.Operation == nil) != (b.Operation == nil):
		return a.Operation != nil
	case a.left+len(a.Brings) != b.left+len(b.Brings):
		return a.left+len(a.Brings) < b.left+len(b.Brings)
	case a.order != b.order:
		return a.order < b.order
	}
	return a.Bought() < b.Bought()
}

// deletes reports whether a cure takes out what was drawn: nobody wants that who
// can draw what is missing.
func deletes(c *Cure) bool {
	_, ok := c.Operation.(edit.Delete)
	return ok
}

// Untried returns the remedies of a finding that stand beside its cures: all
// when there are none, otherwise only advice that no cure replaces.
func Untried(fd *finding.Finding, cures []Cure) []finding.Remedy {
	if len(cures) == 0 {
		return fd.Remedies
	}
	var out []finding.Remedy
	for _, r := range fd.Remedies {
		if !r.Tried && r.Action == nil && r.Figure == "" {
			out = append(out, r)
		}
	}
	return out
}
