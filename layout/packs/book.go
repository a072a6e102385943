package packs

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// book is a frame made ready for looking things up.
type book struct {
	Input
	scheme *doc.Scheme
	stock  *doc.Stock
	pal    *scene.Palette
	branch map[doc.ID]place // of runs
	node   map[doc.ID]place // of entities
	trench *digging
	counts *takeoff
	fixed  *fixed
	tested *readings // see tests
}

// place is a node or a branch of one circuit.
type place struct{ circuit, at int }

func newBook(in Input) *book {
	b := &book{Input: in, scheme: in.Frame.Scheme, stock: in.Frame.Stock, pal: scene.Light(),
		branch: map[doc.ID]place{}, node: map[doc.ID]place{}}
	for i := range in.Frame.Circuits.Circuits {
		c := &in.Frame.Circuits.Circuits[i]
		for id, n := range c.Branch {
			b.branch[id] = place{i, n}
		}
		for id, n := range c.Node {
			if _, twice := b.node[id]; !twice || n != 0 {
				b.node[id] = place{i, n}
			}
		}
	}
	b.fixed = fixedOf(b.scheme)
	b.trench = diggingOf(b)
	b.counts = takeoffOf(b)
	return b
}

// net returns the circuit of a place.
func (b *book) net(p place) *network.Net { return b.Frame.Circuits.Circuits[p.circuit].Input.Net }

// branchOf returns the branch of a run; nil for a run in no circuit.
func (b *book) branchOf(run doc.ID) *network.Branch {
	p, ok := b.branch[run]
	if !ok {
		return nil
	}
	return &b.net(p).Branches[p.at]
}

// cableOf returns the cable of a run; nil when none is chosen.
func (b *book) cableOf(r *doc.Run) *network.Cable {
	c, ok := b.stock.Cable(r.Cable)
	if !ok {
		return nil
	}
	return c
}

// mains reports whether a run is on the mains; what no supply reaches goes by
// its cable.
func (b *book) mains(r *doc.Run) bool {
	if p, ok := b.branch[r.ID]; ok {
		net := b.net(p)
		sys := &net.Systems[net.Nodes[net.Branches[p.at].To].System]
		return float64(sys.Nominal) > b.extraLow()
	}
	c := b.cableOf(r)
	return c != nil && c.Mains
}

// extraLow is the highest nominal voltage that counts as extra-low: the rule
// set's, else the a.c. limit of BS 7671 Part 2 (from memory).
func (b *book) extraLow() float64 {
	if v := b.Rules.Site.ExtraLow.Value; v > 0 {
		return v
	}
	return 50
}

// length returns the measured length of run i in run order.
func (b *book) length(i int) *derive.Length { return &b.Frame.Circuits.Lengths[i] }

// about returns the findings that a test picks.
func (b *book) about(pick func(*finding.Finding) bool) (out []*finding.Finding) {
	for i := range b.Frame.Findings {
		if f := &b.Frame.Findings[i]; pick(f) {
			out = append(out, f)
		}
	}
	return out
}

// on picks the findings above a Note about one entity, overruled or not.
func on(id doc.ID) func(*finding.Finding) bool {
	return func(f *finding.Finding) bool { return f.Level > finding.Note && f.Subject.ID == string(id) }
}

// codes picks the findings above a Note whose code starts so.
func codes(starts ...string) func(*finding.Finding) bool {
	return func(f *finding.Finding) bool {
		for _, s := range starts {
			if f.Level > finding.Note && len(f.Code) >= len(s) && string(f.Code[:len(s)]) == s {
				return true
			}
		}
		return false
	}
}
