package layout

import (
	"sort"

	"duskwire/calc/cable"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// Order of the kinds of cure among those that are otherwise as good.
const (
	orderMove = iota
	orderCentre
	orderSplit
	orderSecond
	orderVolts
	orderDevice
	orderRun
	orderPath
	orderLast
)

const (
	mostSizes = 4 // sizes tried of one run
	mostRuns  = 2 // runs tried alone
	mostPaths = 3 // sizes shown for the whole path
)

// trail returns the branches from the start of the node's voltage system to it.
func (b *bench) trail(node int) []int {
	var out []int
	for br := b.result.Tree.Parent[node]; br >= 0 && b.net.Branches[br].Converter == nil; br = b.result.Tree.Parent[node] {
		out = append([]int{br}, out...)
		node = b.result.Tree.Up(b.net, node)
	}
	return out
}

// paths returns the runs on the way to everything that the finding names, the
// subject's first.
func (b *bench) paths() []int {
	seen := map[int]bool{}
	var out []int
	take := func(node int) {
		for _, br := range b.trail(node) {
			if r := &b.net.Branches[br]; !seen[br] && r.ID != "" && r.Cable != nil {
				seen[br] = true
				out = append(out, br)
			}
		}
	}
	if b.node >= 0 {
		take(b.node)
	}
	for _, s := range b.fd.Also {
		if node, ok := b.circuit.Node[doc.ID(s.ID)]; ok {
			take(node)
		} else if br, ok := b.circuit.Branch[doc.ID(s.ID)]; ok {
			take(b.net.Branches[br].To)
		}
	}
	return out
}

// cables tries a thicker cable: for the run itself when the finding is about
// runs, otherwise for the runs that lose most and for the whole path.
func (b *bench) cables() {
	if _, isRun := b.circuit.Branch[doc.ID(b.fd.Subject.ID)]; isRun {
		var own []int
		for id := range b.set {
			if br, ok := b.circuit.Branch[doc.ID(id)]; ok {
				own = append(own, br)
			}
		}
		sort.Ints(own)
		b.thicker(own)
		return
	}
	path := b.paths()
	if b.node >= 0 {
		single := b.heaviest(b.trail(b.node))
		for i := 0; i < len(single) && i < mostRuns; i++ {
			b.oneRun(single[i])
		}
	}
	b.thicker(path)
}

// heaviest orders own runs by what they add to the figure.
func (b *bench) heaviest(trail []int) []int {
	var out []int
	share := map[int]float64{}
	for _, br := range trail {
		r := &b.net.Branches[br]
		if r.ID == "" || r.Cable == nil {
			continue
		}
		share[br] = float64(r.Cable.R20) * float64(r.Length)
		if run := b.runOf(r.ID); run.Trusted && b.fd.Code != "FLT-01" && b.fd.Code != "FLT-07" {
			share[br] *= float64(run.Current)
		}
		out = append(out, br)
	}
	sort.SliceStable(out, func(i, j int) bool { return share[out[i]] > share[out[j]] })
	return out
}

// runOf is the present result of a run.
func (b *bench) runOf(id string) (out struct {
	Trusted bool
	Current q.Ampere
}) {
	for i := range b.result.Runs {
		if r := &b.result.Runs[i]; r.ID == id {
			out.Trusted, out.Current = r.Trusted, r.Current
		}
	}
	return out
}

// oneRun tries the sizes above the run's, up to the first that holds.
func (b *bench) oneRun(br int) {
	r := &b.net.Branches[br]
	tried := 0
	for _, cb := range cable.Family(r.Cable, b.frame.Stock.Cables) {
		if cb.Size <= r.Cable.Size || tried == mostSizes {
			continue
		}
		tried++
		c, _ := b.try(orderRun, "use "+cb.Name+" for "+r.Label, edit.SetCable{Runs: []doc.ID{doc.ID(r.ID)}, Cable: cb.Key})
		c.thicker = true
		if c.Holds {
			b.keep(c)
			return
		}
	}
}

// thicker tries size after size for several runs at once, up to the first that
// leaves nothing of the kind to be asked.
func (b *bench) thicker(runs []int) {
	shown := 0
	for _, size := range b.sizesAbove(runs) {
		text, op := b.atLeast(runs, size)
		if op == nil {
			continue
		}
		c, clear := b.try(orderPath, text, op)
		c.thicker = true
		b.keep(c)
		if c.Holds {
			shown++
		}
		if clear || shown == mostPaths {
			return
		}
	}
}

// sizesAbove lists the sizes above the thinnest of the runs, smallest first.
func (b *bench) sizesAbove(runs []int) []q.SquareMetre {
	var out []q.SquareMetre
	for _, br := range runs {
		r := &b.net.Branches[br]
		if r.Cable == nil || r.ID == "" {
			continue
		}
		for _, cb := range cable.Family(r.Cable, b.frame.Stock.Cables) {
			if cb.Size > r.Cable.Size && !hasSize(out, cb.Size) {
				out = append(out, cb.Size)
			}
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

func hasSize(list []q.SquareMetre, s q.SquareMetre) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// atLeast gives every thinner run the size; nil when that changes nothing.
func (b *bench) atLeast(runs []int, size q.SquareMetre) (string, edit.Operation) {
	by := map[string][]doc.ID{}
	var keys []string
	n := 0
	var last *network.Branch
	for _, br := range runs {
		r := &b.net.Branches[br]
		if r.Cable == nil || r.ID == "" || r.Cable.Size >= size {
			continue
		}
		for _, cb := range cable.Family(r.Cable, b.frame.Stock.Cables) {
			if cb.Size != size {
				continue
			}
			if by[cb.Key] == nil {
				keys = append(keys, cb.Key)
			}
			by[cb.Key] = append(by[cb.Key], doc.ID(r.ID))
			n++
			last = r
			break
		}
	}
	if n == 0 {
		return "", nil
	}
	text := "use " + size.String() + " for every run to " + b.fd.Subject.Label
	if n == 1 {
		text = "use " + size.String() + " for " + last.Label
	} else if _, isRun := b.circuit.Branch[doc.ID(b.fd.Subject.ID)]; isRun {
		text = "use " + size.String() + " for " + b.fd.Subject.Label + " and the others named"
	}
	if len(keys) == 1 {
		return text, edit.SetCable{Runs: by[keys[0]], Cable: keys[0]}
	}
	batch := edit.Batch{Label: capital(text)}
	for _, k := range keys {
		batch.Ops = append(batch.Ops, edit.SetCable{Runs: by[k], Cable: k})
	}
	return text, batch
}

// earthedCables tries a mains cable of the same size with a protective conductor
// for the runs on the path that are not made for the mains or have none.
func (b *bench) earthedCables() {
	for _, earth := range []network.EarthPath{network.EarthCore, network.EarthArmour} {
		by := map[string][]doc.ID{}
		var keys []string
		for _, br := range b.paths() {
			r := &b.net.Branches[br]
			if b.net.Nodes[r.To].System != 0 {
				continue
			}
			if r.Cable.Earth != network.NoEarth && r.Cable.Mains {
				continue
			}
			for _, cb := range b.frame.Stock.Cables {
				if cb.Mains && cb.Size == r.Cable.Size && cb.Earth == earth && cb.Buriable == r.Cable.Buriable {
					if by[cb.Key] == nil {
						keys = append(keys, cb.Key)
					}
					by[cb.Key] = append(by[cb.Key], doc.ID(r.ID))
					break
				}
			}
		}
		if len(keys) == 0 {
			continue
		}
		text := "use a mains cable with a protective conductor for the runs that have none"
		batch := edit.Batch{Label: capital(text)}
		for _, k := range keys {
			batch.Ops = append(batch.Ops, edit.SetCable{Runs: by[k], Cable: k})
		}
		c, _ := b.try(orderPath, text+" ("+keys[0]+")", batch)
		b.keep(c)
		if c.Holds {
			return
		}
	}
}

// capital begins a step's name with a capital letter.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
