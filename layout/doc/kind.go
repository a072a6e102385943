package doc

// Kind is the kind of an entity.
type Kind int

const (
	NoKind Kind = iota // no such entity
	SupplyKind
	BoxKind
	LampKind
	GearKind
	SourceKind
	RunKind
	ZoneKind
	AreaKind
	LineKind
	MarkKind
	DimensionKind
)

// Kinds are all kinds of entity in the order of the file.
var Kinds = []Kind{SupplyKind, BoxKind, LampKind, GearKind, SourceKind, RunKind, ZoneKind, AreaKind, LineKind, MarkKind, DimensionKind}

// String returns the word people use, "supply point", "lamp", ...
func (k Kind) String() string {
	return [...]string{"nothing", "supply point", "box", "lamp", "gear", "source", "run", "zone", "area", "line", "mark", "dimension"}[k]
}

// Prefix returns the start of the tags of the kind, "L" for lamps.
func (k Kind) Prefix() string {
	return [...]string{"", "SP", "B", "L", "G", "S", "R", "Z", "A", "N", "M", "D"}[k]
}

// KindOf returns the kind of the entity with the id; NoKind when the scheme
// has none.
func KindOf(s *Scheme, id ID) Kind {
	_, k := Find(s, id)
	return k
}

// KindOfEntity returns the kind of e.
func KindOfEntity(e Entity) Kind {
	switch e.(type) {
	case *Supply:
		return SupplyKind
	case *Box:
		return BoxKind
	case *Lamp:
		return LampKind
	case *Gear:
		return GearKind
	case *Source:
		return SourceKind
	case *Run:
		return RunKind
	case *Zone:
		return ZoneKind
	case *Area:
		return AreaKind
	case *Line:
		return LineKind
	case *Mark:
		return MarkKind
	case *Dimension:
		return DimensionKind
	}
	return NoKind
}

// Find returns the entity with the id and its kind, or nil and NoKind.
func Find(s *Scheme, id ID) (Entity, Kind) {
	if e, ok := s.Supplies.Get(id); ok {
		return e, SupplyKind
	}
	if e, ok := s.Boxes.Get(id); ok {
		return e, BoxKind
	}
	if e, ok := s.Lamps.Get(id); ok {
		return e, LampKind
	}
	if e, ok := s.Gear.Get(id); ok {
		return e, GearKind
	}
	if e, ok := s.Sources.Get(id); ok {
		return e, SourceKind
	}
	if e, ok := s.Runs.Get(id); ok {
		return e, RunKind
	}
	if e, ok := s.Zones.Get(id); ok {
		return e, ZoneKind
	}
	if e, ok := s.Areas.Get(id); ok {
		return e, AreaKind
	}
	if e, ok := s.Lines.Get(id); ok {
		return e, LineKind
	}
	if e, ok := s.Marks.Get(id); ok {
		return e, MarkKind
	}
	if e, ok := s.Dimensions.Get(id); ok {
		return e, DimensionKind
	}
	return nil, NoKind
}

// Each calls f for every entity, kind by kind in the order of the file.
func Each(s *Scheme, f func(Entity, Kind)) {
	each(s.Supplies, SupplyKind, f)
	each(s.Boxes, BoxKind, f)
	each(s.Lamps, LampKind, f)
	each(s.Gear, GearKind, f)
	each(s.Sources, SourceKind, f)
	each(s.Runs, RunKind, f)
	each(s.Zones, ZoneKind, f)
	each(s.Areas, AreaKind, f)
	each(s.Lines, LineKind, f)
	each(s.Marks, MarkKind, f)
	each(s.Dimensions, DimensionKind, f)
}

func each[E Entity](s Set[E], k Kind, f func(Entity, Kind)) {
	for _, e := range s.items {
		f(e, k)
	}
}

// TagOf returns the tag of the entity, "" when the scheme has none with the id.
func TagOf(s *Scheme, id ID) string {
	if e, _ := Find(s, id); e != nil {
		return e.Label()
	}
	return ""
}

// WithTag returns the entity with the tag, nil for none.
func WithTag(s *Scheme, tag string) Entity {
	var found Entity
	Each(s, func(e Entity, _ Kind) {
		if found == nil && e.Label() == tag {
			found = e
		}
	})
	return found
}

// FreeTag returns the tag for a new entity of the kind, see NextTag.
func FreeTag(s *Scheme, k Kind) string {
	tag := ""
	switch k {
	case SupplyKind:
		tag = NextTag(s.Supplies, k.Prefix())
	case BoxKind:
		tag = NextTag(s.Boxes, k.Prefix())
	case LampKind:
		tag = NextTag(s.Lamps, k.Prefix())
	case GearKind:
		tag = NextTag(s.Gear, k.Prefix())
	case SourceKind:
		tag = NextTag(s.Sources, k.Prefix())
	case RunKind:
		tag = NextTag(s.Runs, k.Prefix())
	case ZoneKind:
		tag = NextTag(s.Zones, k.Prefix())
	case AreaKind:
		tag = NextTag(s.Areas, k.Prefix())
	case LineKind:
		tag = NextTag(s.Lines, k.Prefix())
	case MarkKind:
		tag = NextTag(s.Marks, k.Prefix())
	case DimensionKind:
		tag = NextTag(s.Dimensions, k.Prefix())
	}
	// Somebody may have given a lamp the tag that boxes use.
	for WithTag(s, tag) != nil {
		tag += "a"
	}
	return tag
}
