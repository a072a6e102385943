package layout

import (
	"context"
	"sort"
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// Cure is one way out of a finding, tried on the scheme: Figure is what the
// changed scheme really computes to, not an estimate.
type Cure struct {
	Text   string // "move S1 to the middle of its lamps"
	Figure string // "11.62 V at L10 (3.15 %)"
	Holds  bool   // the finding would be gone
	// Metres is the change of the cut list, what is bought more of first.
	Metres []CableMetres
	// Then says what would still be asked or would come up, "" for nothing.
	Then string
	// Operation carries the cure out as one step; nil when something is needed
	// that the stock book does not hold.
	Operation edit.Operation

	thicker bool    // takes a thicker cable
	worse   int     // Stop findings that it brings about
	left    int     // findings of the same place that it leaves
	brings  int     // kinds of finding that come up with it
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

// Curable reports whether there are ways out of a finding that Cures can try.
func Curable(fd *finding.Finding) bool {
	switch fd.Code {
	case "VD-01", "VD-02", "VD-03", "SOL-01", "FLT-01", "FLT-02", "FLT-04", "FLT-05", "FLT-07", "CIR-05",
		"CAP-01", "CAP-02", "ADI-01", "ADI-02", "ADI-03", "RCD-01", "SRC-01":
		return fd.Level >= finding.Decide
	}
	return false
}

// How many cures are shown: those that hold, and those that only help.
const (
	mostHolding = 8
	mostHelping = 2
)

// Cures tries ways out of a finding of the frame and returns those that help,
// best first: those that hold before those that only help, those that bring no
// new Stop, those without a thicker cable, those that leave less to be asked,
// those that can be applied at once, and then those that need less cable
// (trade notes, scenario 2: moving the source comes before any thicker cable).
// Each is evaluated as a whole scheme, so this is asked for the one finding
// that someone looks at and not for every frame. It only reads the frame. When
// ctx ends before it is done the answer is nil.
func Cures(ctx context.Context, f *Frame, fd finding.Finding) []Cure {
	b := newBench(ctx, f, fd)
	if b == nil {
		return nil
	}
	b.run()
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
	case a.left+a.brings != b.left+b.brings:
		return a.left+a.brings < b.left+b.brings
	case a.order != b.order:
		return a.order < b.order
	}
	return a.Bought() < b.Bought()
}

// run tries what the code of the finding asks for.
func (b *bench) run() {
	switch b.fd.Code {
	case "VD-01":
		b.splitFeed()
		b.cables()
	case "VD-02", "VD-03", "SOL-01":
		if b.node < 0 {
			return
		}
		if b.over {
			b.otherSources()
			return
		}
		if b.net.Nodes[b.node].System == 0 {
			b.splitFeed()
		} else {
			b.moveSource()
			b.centreFeed()
			b.splitFeed()
			b.secondSource()
			b.doubleVoltage()
		}
		b.cables()
	case "FLT-01", "FLT-07":
		b.softerDevice()
		b.cables()
	case "FLT-02":
		b.softerDevice()
		b.indoorLeg()
	case "FLT-04", "CIR-05":
		if _, isRun := b.circuit.Branch[doc.ID(b.fd.Subject.ID)]; isRun {
			b.earthedCables()
		}
	case "FLT-05", "RCD-01":
		b.residualDevice()
	case "CAP-01":
		b.largerDevice()
	case "CAP-02":
		b.capacity()
	case "ADI-01", "ADI-02", "ADI-03":
		b.softerDevice()
		b.cables()
	case "SRC-01":
		b.otherSources()
		b.secondSource()
	}
}

// capacity tries ways out of a cable that carries too little.
func (b *bench) capacity() {
	if b.system() == 0 {
		b.softerDevice()
	} else {
		b.doubleVoltage()
	}
	b.cables()
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
