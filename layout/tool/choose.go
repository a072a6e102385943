package tool

import (
	"cmp"
	"fmt"
	"slices"

	"duskwire/layout/doc"
)

// Choice is one group of things that can be selected together.
type Choice struct {
	Name string // "Zone Patio", "Lamps", "Stock brick-3w"
	IDs  []doc.ID
}

// Choices returns the groups of a scheme: first its kinds, then its zones with
// their lamps and those in none, then what stands there by stock item and
// cable. Empty groups are left out.
func Choices(s *doc.Scheme) []Choice {
	var kinds, zones, stock []Choice
	for _, k := range doc.Kinds {
		if k == doc.ZoneKind {
			continue
		}
		kinds = append(kinds, Choice{Name: "Kind: " + k.String(), IDs: where(s, func(_ doc.Entity, of doc.Kind) bool { return of == k })})
	}
	for _, z := range s.Zones.All() {
		name := z.Tag
		if z.Name != "" {
			name += " " + z.Name
		}
		zones = append(zones, Choice{Name: "Zone: " + name, IDs: inZone(s, z.ID)})
	}
	if len(zones) > 0 {
		zones = append(zones, Choice{Name: "Zone: none", IDs: inZone(s, "")})
	}
	by := map[string][]doc.ID{}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if key := doc.StockOf(e); key != "" {
			name := fmt.Sprintf("Stock: %s (%s)", key, k)
			by[name] = append(by[name], e.Key())
		}
	})
	for name, ids := range by {
		stock = append(stock, Choice{name, ids})
	}
	slices.SortFunc(stock, func(a, b Choice) int { return cmp.Compare(a.Name, b.Name) })
	return slices.DeleteFunc(slices.Concat(kinds, zones, stock), func(c Choice) bool { return len(c.IDs) == 0 })
}

func inZone(s *doc.Scheme, zone doc.ID) []doc.ID {
	return where(s, func(e doc.Entity, _ doc.Kind) bool {
		l, ok := e.(*doc.Lamp)
		return ok && l.Zone == zone
	})
}

// where returns the ids of what can be selected and fits.
func where(s *doc.Scheme, fits func(doc.Entity, doc.Kind) bool) []doc.ID {
	var ids []doc.ID
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind && fits(e, k) {
			ids = append(ids, e.Key())
		}
	})
	return ids
}

// SameKind returns everything of the kinds of the selection.
func SameKind(s *doc.Scheme, ids []doc.ID) []doc.ID {
	in := map[doc.Kind]bool{}
	for _, id := range ids {
		in[doc.KindOf(s, id)] = true
	}
	return where(s, func(_ doc.Entity, k doc.Kind) bool { return in[k] })
}

// SameStock returns everything of the stock items and cables of the selection.
func SameStock(s *doc.Scheme, ids []doc.ID) []doc.ID {
	type item struct {
		kind doc.Kind
		key  string
	}
	in := map[item]bool{}
	for _, id := range ids {
		e, k := doc.Find(s, id)
		if key := doc.StockOf(e); key != "" {
			in[item{k, key}] = true
		}
	}
	return where(s, func(e doc.Entity, k doc.Kind) bool { return in[item{k, doc.StockOf(e)}] })
}

// SameZone returns the lamps of the zones that lamps of the selection are in.
func SameZone(s *doc.Scheme, ids []doc.ID) []doc.ID {
	in := map[doc.ID]bool{}
	for _, id := range ids {
		if l, ok := s.Lamps.Get(id); ok && l.Zone != "" {
			in[l.Zone] = true
		}
	}
	return where(s, func(e doc.Entity, _ doc.Kind) bool {
		l, ok := e.(*doc.Lamp)
		return ok && in[l.Zone]
	})
}

// Connected returns what hangs together with the selection by runs: through
// boxes, lamps, gear and sources, up to the supply point and on from it.
func Connected(s *doc.Scheme, ids []doc.ID) []doc.ID {
	in := map[doc.ID]bool{}
	var queue []doc.ID
	take := func(id doc.ID) {
		if id != "" && !in[id] {
			in[id] = true
			queue = append(queue, id)
		}
	}
	at := map[doc.ID][]*doc.Run{}
	for _, r := range s.Runs.All() {
		for _, end := range []doc.ID{r.From.On, r.To.On} {
			if end != "" {
				at[end] = append(at[end], r)
			}
		}
	}
	for _, id := range ids {
		if k := doc.KindOf(s, id); k == doc.RunKind || k.Joinable() {
			take(id)
		}
	}
	for len(queue) > 0 {
		id := queue[0]
		queue = queue[1:]
		if r, ok := s.Runs.Get(id); ok {
			take(r.From.On)
			take(r.To.On)
		}
		for _, r := range at[id] {
			take(r.ID)
		}
	}
	return where(s, func(e doc.Entity, _ doc.Kind) bool { return in[e.Key()] })
}

// Others returns what is not selected.
func Others(s *doc.Scheme, ids []doc.ID) []doc.ID {
	in := map[doc.ID]bool{}
	for _, id := range ids {
		in[id] = true
	}
	return where(s, func(e doc.Entity, _ doc.Kind) bool { return !in[e.Key()] })
}
