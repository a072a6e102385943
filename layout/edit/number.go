package edit

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"duskwire/layout/doc"
)

// NumberLamps gives the lamps that have a number as tag new numbers in the
// order in which one meets them going out from the supply points along the
// runs, then those that no run reaches in the order of the file. At a junction
// the shorter branch comes first, so that the numbers of a long line follow one
// another. Tags that somebody made up, and numbers that something else has,
// are left alone.
type NumberLamps struct{}

// Name implements Operation.
func (o NumberLamps) Name() string { return "Number lamps along the runs" }

// Apply implements Operation.
func (o NumberLamps) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	prefix := doc.LampKind.Prefix()
	numbered := func(tag string) bool {
		rest, ok := strings.CutPrefix(tag, prefix)
		n, err := strconv.Atoi(rest)
		return ok && err == nil && n >= 0
	}
	used := map[string]bool{}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k != doc.LampKind || !numbered(e.Label()) {
			used[e.Label()] = true
		}
	})
	tags := map[doc.ID]string{}
	n := 0
	for _, id := range outward(s) {
		l, ok := s.Lamps.Get(id)
		if !ok || !numbered(l.Tag) {
			continue
		}
		for n++; used[prefix+strconv.Itoa(n)]; n++ {
		}
		tags[id] = prefix + strconv.Itoa(n)
	}
	if len(tags) == 0 {
		return nil, refuse("there is no lamp with a number to renumber")
	}
	out := *s
	out.Lamps = s.Lamps.Map(func(l *doc.Lamp) *doc.Lamp {
		if tag, ok := tags[l.ID]; ok && tag != l.Tag {
			c := *l
			c.Tag = tag
			return &c
		}
		return l
	})
	if doc.Diff(s, &out).Empty() {
		return s, nil
	}
	return &out, nil
}

// outward returns everything that runs may be joined to, in the order of a
// walk out from the supply points; what they do not reach comes last.
func outward(s *doc.Scheme) []doc.ID {
	next := map[doc.ID][]doc.ID{}
	for _, r := range s.Runs.All() {
		if r.From.On != "" && r.To.On != "" {
			next[r.From.On] = append(next[r.From.On], r.To.On)
			next[r.To.On] = append(next[r.To.On], r.From.On)
		}
	}
	w := &walker{next: next, seen: map[doc.ID]bool{}}
	for _, e := range s.Supplies.All() {
		w.from(e.ID)
	}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k.Joinable() {
			w.from(e.Key())
		}
	})
	return w.out
}

// walker walks a graph of runs; it needs no recursion, since a line of lamps
// may be long.
type walker struct {
	next map[doc.ID][]doc.ID
	seen map[doc.ID]bool
	out  []doc.ID
}

// from visits everything that start is joined to, branch by branch.
func (w *walker) from(start doc.ID) {
	if w.seen[start] {
		return
	}
	children, size := w.tree(start)
	stack := []doc.ID{start}
	for len(stack) > 0 {
		id := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		w.out = append(w.out, id)
		branches := children[id]
		slices.SortStableFunc(branches, func(a, b doc.ID) int { return cmp.Compare(size[a], size[b]) })
		for i := len(branches) - 1; i >= 0; i-- {
			stack = append(stack, branches[i])
		}
	}
}

// tree returns the spanning tree found breadth first, and how many things
// hang on each.
func (w *walker) tree(start doc.ID) (children map[doc.ID][]doc.ID, size map[doc.ID]int) {
	children, size = map[doc.ID][]doc.ID{}, map[doc.ID]int{}
	parent := map[doc.ID]doc.ID{}
	order := []doc.ID{start}
	w.seen[start] = true
	for i := 0; i < len(order); i++ {
		for _, id := range w.next[order[i]] {
			if !w.seen[id] {
				w.seen[id] = true
				parent[id] = order[i]
				children[order[i]] = append(children[order[i]], id)
				order = append(order, id)
			}
		}
	}
	for i := len(order) - 1; i > 0; i-- {
		size[order[i]]++
		size[parent[order[i]]] += size[order[i]]
	}
	return children, size
}
