package doc

// Entity is anything of the plan with an id and a tag.
type Entity interface {
	Key() ID
	Label() string // the tag people use, "L7"
}

// Set is an immutable ordered collection of entities. The zero Set is empty.
// With and Without return a new Set; replacing an entity keeps its place and
// shares the index.
type Set[E Entity] struct {
	items []E
	index map[ID]int
}

// NewSet returns a set of the entities in order. Two entities with one id are
// our bug: readers check for it before they call NewSet.
func NewSet[E Entity](items ...E) Set[E] {
	s, ok := SetOf(append([]E(nil), items...))
	if !ok {
		panic("doc: two entities of a set have one id")
	}
	return s
}

// SetOf returns a set of the entities in order, which must not be changed any
// more; ok is false when two of them have one id.
func SetOf[E Entity](items []E) (s Set[E], ok bool) {
	s = Set[E]{items: items, index: make(map[ID]int, len(items))}
	for i, e := range items {
		s.index[e.Key()] = i
	}
	return s, len(s.index) == len(items)
}

// Len returns the number of entities.
func (s Set[E]) Len() int { return len(s.items) }

// All returns the entities in order; the slice must not be changed.
func (s Set[E]) All() []E { return s.items }

// Get returns the entity with the id.
func (s Set[E]) Get(id ID) (e E, ok bool) {
	i, ok := s.index[id]
	if !ok {
		return e, false
	}
	return s.items[i], true
}

// Index returns the place of the entity with the id in All.
func (s Set[E]) Index(id ID) (int, bool) {
	i, ok := s.index[id]
	return i, ok
}

// With returns the set with e added at the end, or put in the place of the
// entity with the same id.
func (s Set[E]) With(e E) Set[E] {
	if i, ok := s.index[e.Key()]; ok {
		items := append([]E(nil), s.items...)
		items[i] = e
		return Set[E]{items, s.index}
	}
	return NewSet(append(s.items[:len(s.items):len(s.items)], e)...)
}

// Without returns the set without the entity with the id.
func (s Set[E]) Without(id ID) Set[E] {
	i, ok := s.index[id]
	if !ok {
		return s
	}
	items := append([]E(nil), s.items[:i]...)
	return NewSet(append(items, s.items[i+1:]...)...)
}

// Map returns the set with every entity replaced by what f returns, which must
// keep its id. Entities that f returns unchanged are shared; when all are, so
// is the whole set.
func (s Set[E]) Map(f func(E) E) Set[E] {
	var items []E
	for i, e := range s.items {
		n := f(e)
		if any(n) == any(e) {
			continue
		}
		if n.Key() != e.Key() {
			panic("doc: Map changed the id of " + string(e.Key()))
		}
		if items == nil {
			items = append([]E(nil), s.items...)
		}
		items[i] = n
	}
	if items == nil {
		return s
	}
	return Set[E]{items, s.index}
}

// Keep returns the set of the entities for which f is true, in order; the set
// itself when that is all of them.
func (s Set[E]) Keep(f func(E) bool) Set[E] {
	items := make([]E, 0, len(s.items))
	for _, e := range s.items {
		if f(e) {
			items = append(items, e)
		}
	}
	if len(items) == len(s.items) {
		return s
	}
	return NewSet(items...)
}

// Key and Label make every entity fit a Set.

func (e *Supply) Key() ID { return e.ID }
func (e *Box) Key() ID    { return e.ID }
func (e *Lamp) Key() ID   { return e.ID }
func (e *Gear) Key() ID   { return e.ID }
func (e *Source) Key() ID { return e.ID }
func (e *Run) Key() ID    { return e.ID }
func (e *Zone) Key() ID   { return e.ID }
func (e *Area) Key() ID   { return e.ID }
func (e *Line) Key() ID   { return e.ID }
func (e *Mark) Key() ID   { return e.ID }

func (e *Supply) Label() string { return e.Tag }
func (e *Box) Label() string    { return e.Tag }
func (e *Lamp) Label() string   { return e.Tag }
func (e *Gear) Label() string   { return e.Tag }
func (e *Source) Label() string { return e.Tag }
func (e *Run) Label() string    { return e.Tag }
func (e *Zone) Label() string   { return e.Tag }
func (e *Area) Label() string   { return e.Tag }
func (e *Line) Label() string   { return e.Tag }
func (e *Mark) Label() string   { return e.Tag }
