package doc

import "slices"

// Ref names one entity with its kind.
type Ref struct {
	Kind Kind
	ID   ID
}

// Changes is what changed from one scheme to another, each list in the order of
// the file.
type Changes struct {
	Added, Removed, Changed []Ref
	Title                   bool // title or author
	Rules                   bool // rule set or country
	Survey, Plan            bool
	Decisions, Stock        bool
	Tests, Issue            bool // readings; the design as issued
	Prices                  bool // what things cost, and what running them does
	Lights                  bool // photometric files
	Eyes                    bool // eye points
	Order                   bool // the same entities, another order
}

// Empty reports whether nothing changed.
func (d Changes) Empty() bool {
	return len(d.Added)+len(d.Removed)+len(d.Changed) == 0 &&
		!(d.Title || d.Rules || d.Survey || d.Plan || d.Decisions || d.Stock || d.Tests || d.Issue || d.Prices || d.Lights || d.Eyes || d.Order)
}

// Touches reports whether any entity of the kind was added, removed or changed.
func (d Changes) Touches(k Kind) bool {
	for _, list := range [][]Ref{d.Added, d.Removed, d.Changed} {
		for _, r := range list {
			if r.Kind == k {
				return true
			}
		}
	}
	return false
}

// Diff returns what changed from a to b. Entities are compared by pointer,
// which is exact because they are immutable and edits share what stays the
// same; sets that share their items cost nothing.
func Diff(a, b *Scheme) Changes {
	var d Changes
	if a == b {
		return d
	}
	d.Title = a.Title != b.Title || a.Author != b.Author
	d.Rules = a.Rules != b.Rules || a.Country != b.Country
	d.Survey = a.Survey != b.Survey
	d.Plan = a.Plan != b.Plan
	d.Decisions = !same(a.Decisions, b.Decisions)
	d.Stock = a.StockText != b.StockText || !sameStock(a.Stock, b.Stock)
	d.Prices = a.Running != b.Running || !same(a.Prices, b.Prices) || !a.List.Equal(&b.List)
	d.Lights = !slices.Equal(a.Lights, b.Lights)
	d.Eyes = !slices.Equal(a.Eyes, b.Eyes)
	d.Tests = !same(a.Visits, b.Visits)
	d.Issue = a.Issue != b.Issue
	compare(&d, SupplyKind, a.Supplies, b.Supplies)
	compare(&d, BoxKind, a.Boxes, b.Boxes)
	compare(&d, LampKind, a.Lamps, b.Lamps)
	compare(&d, GearKind, a.Gear, b.Gear)
	compare(&d, SourceKind, a.Sources, b.Sources)
	compare(&d, RunKind, a.Runs, b.Runs)
	compare(&d, ZoneKind, a.Zones, b.Zones)
	compare(&d, AreaKind, a.Areas, b.Areas)
	compare(&d, LineKind, a.Lines, b.Lines)
	compare(&d, MarkKind, a.Marks, b.Marks)
	compare(&d, DimensionKind, a.Dimensions, b.Dimensions)
	return d
}

func compare[E interface {
	Entity
	comparable
}](d *Changes, k Kind, a, b Set[E]) {
	if same(a.items, b.items) {
		return
	}
	count := len(d.Added) + len(d.Removed)
	for _, e := range a.items {
		if _, ok := b.index[e.Key()]; !ok {
			d.Removed = append(d.Removed, Ref{k, e.Key()})
		}
	}
	for i, e := range b.items {
		j, ok := a.index[e.Key()]
		switch {
		case !ok:
			d.Added = append(d.Added, Ref{k, e.Key()})
		case a.items[j] != e:
			d.Changed = append(d.Changed, Ref{k, e.Key()})
		}
		if ok && i != j && count == len(d.Added)+len(d.Removed) {
			d.Order = true
		}
	}
}

// same reports whether two slices are the same memory.
func same[T any](a, b []T) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

func sameStock(a, b Stock) bool {
	return same(a.Lamps, b.Lamps) && same(a.Boxes, b.Boxes) && same(a.Sources, b.Sources) &&
		same(a.Gear, b.Gear) && same(a.Devices, b.Devices) && same(a.Cables, b.Cables)
}
