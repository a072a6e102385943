package edit

import "duskwire/layout/doc"

// Place adds a point entity: a supply point, box, lamp, gear, source or mark.
// Its id must be new (doc.NewID); an empty tag gets the next free one.
type Place struct{ Entity doc.Entity }

// Name implements Operation.
func (o Place) Name() string { return "Place " + nounOf(o.Entity) }

// Apply implements Operation.
func (o Place) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if missing(o.Entity) {
		return nil, refuse("there is nothing to place")
	}
	if _, ok := doc.PlaceOf(o.Entity); !ok {
		return nil, refuse("a %s does not stand at one point", doc.KindOfEntity(o.Entity))
	}
	return add(s, o.Entity)
}

// AddRun adds a run. An end may be on an entity or in the air.
type AddRun struct{ Run *doc.Run }

// Name implements Operation.
func (o AddRun) Name() string { return "Draw run" }

// Apply implements Operation.
func (o AddRun) Apply(s *doc.Scheme) (*doc.Scheme, error) { return add(s, o.Run) }

// AddZone adds a zone; number 0 becomes the next free number.
type AddZone struct{ Zone *doc.Zone }

// Name implements Operation.
func (o AddZone) Name() string { return "Add zone" }

// Apply implements Operation.
func (o AddZone) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if o.Zone != nil && o.Zone.Number == 0 {
		z := *o.Zone
		for _, other := range s.Zones.All() {
			z.Number = max(z.Number, other.Number)
		}
		z.Number++
		return add(s, &z)
	}
	return add(s, o.Zone)
}

// AddArea adds a piece of ground.
type AddArea struct{ Area *doc.Area }

// Name implements Operation.
func (o AddArea) Name() string { return "Draw area" }

// Apply implements Operation.
func (o AddArea) Apply(s *doc.Scheme) (*doc.Scheme, error) { return add(s, o.Area) }

// AddLine adds a wall, fence, boundary or buried service.
type AddLine struct{ Line *doc.Line }

// Name implements Operation.
func (o AddLine) Name() string { return "Draw line" }

// Apply implements Operation.
func (o AddLine) Apply(s *doc.Scheme) (*doc.Scheme, error) { return add(s, o.Line) }

// AddMark adds a tree, window, seat, piece of metalwork or door.
type AddMark struct{ Mark *doc.Mark }

// Name implements Operation.
func (o AddMark) Name() string { return "Place mark" }

// Apply implements Operation.
func (o AddMark) Apply(s *doc.Scheme) (*doc.Scheme, error) { return add(s, o.Mark) }

// Batch does several operations as one step. When one is refused, none is done.
type Batch struct {
	Label string
	Ops   []Operation
}

// Name implements Operation.
func (o Batch) Name() string { return o.Label }

// Apply implements Operation.
func (o Batch) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	for _, op := range o.Ops {
		n, err := op.Apply(s)
		if err != nil {
			return nil, err
		}
		s = n
	}
	return s, nil
}
