package edit

import (
	"strconv"
	"strings"

	"duskwire/layout/doc"
)

// AddMany adds several new entities as one step, such as a row of lamps with
// the runs between them. Their ids must be new; empty tags get the next free
// ones, in order.
type AddMany struct {
	Label    string
	Entities []doc.Entity
}

// Name implements Operation.
func (o AddMany) Name() string { return o.Label }

// Apply implements Operation.
func (o AddMany) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if len(o.Entities) == 0 {
		return nil, refuse("there is nothing to add")
	}
	return insert(s, o.Entities)
}

// tagger hands out free tags without looking through the scheme for each.
type tagger struct {
	used map[string]bool
	high map[doc.Kind]int
}

func newTagger(s *doc.Scheme) *tagger {
	t := &tagger{used: map[string]bool{}, high: map[doc.Kind]int{}}
	doc.Each(s, t.take)
	return t
}

// take notes the tag of an entity; numbers count within its kind.
func (t *tagger) take(e doc.Entity, k doc.Kind) {
	t.used[e.Label()] = true
	rest, ok := strings.CutPrefix(e.Label(), k.Prefix())
	if n, err := strconv.Atoi(rest); ok && err == nil && n < doc.MostNumber {
		t.high[k] = max(t.high[k], n)
	}
}

// next returns what doc.FreeTag would, and takes it.
func (t *tagger) next(k doc.Kind) string {
	t.high[k]++
	tag := k.Prefix() + strconv.Itoa(t.high[k])
	for t.used[tag] {
		tag += "a"
	}
	t.used[tag] = true
	return tag
}

// insert adds new entities, of each kind at the end, and checks them.
func insert(s *doc.Scheme, list []doc.Entity) (*doc.Scheme, error) {
	tags := newTagger(s)
	by := map[doc.Kind][]doc.Entity{}
	ids := make([]doc.ID, 0, len(list))
	in := map[doc.ID]bool{}
	for _, e := range list {
		if missing(e) {
			return nil, refuse("there is nothing to add")
		}
		if k := doc.KindOf(s, e.Key()); k != doc.NoKind || in[e.Key()] {
			return nil, refuse("the id %q is taken", e.Key())
		}
		in[e.Key()] = true
		kind, tag := doc.KindOfEntity(e), e.Label()
		switch {
		case tag == "":
			tag = tags.next(kind)
		case tags.used[tag]:
			return nil, refuse("the tag %s is taken", tag)
		}
		c := own(e, tag)
		tags.take(c, kind)
		by[kind] = append(by[kind], c)
		ids = append(ids, e.Key())
	}
	n := *s
	n.Supplies = grown(s.Supplies, by[doc.SupplyKind])
	n.Boxes = grown(s.Boxes, by[doc.BoxKind])
	n.Lamps = grown(s.Lamps, by[doc.LampKind])
	n.Gear = grown(s.Gear, by[doc.GearKind])
	n.Sources = grown(s.Sources, by[doc.SourceKind])
	n.Runs = grown(s.Runs, by[doc.RunKind])
	n.Zones = grown(s.Zones, by[doc.ZoneKind])
	n.Areas = grown(s.Areas, by[doc.AreaKind])
	n.Lines = grown(s.Lines, by[doc.LineKind])
	n.Marks = grown(s.Marks, by[doc.MarkKind])
	n.Dimensions = grown(s.Dimensions, by[doc.DimensionKind])
	return checked(&n, ids...)
}

func grown[E doc.Entity](s doc.Set[E], more []doc.Entity) doc.Set[E] {
	if len(more) == 0 {
		return s
	}
	items := append([]E(nil), s.All()...)
	for _, e := range more {
		items = append(items, e.(E))
	}
	return doc.NewSet(items...)
}
