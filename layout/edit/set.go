package edit

import "duskwire/layout/doc"

// The operations of this file put a changed copy of one entity in its place.
// An empty tag keeps the tag it had.

// SetSupply changes a supply point.
type SetSupply struct{ Supply *doc.Supply }

// Name implements Operation.
func (o SetSupply) Name() string { return "Change supply point" }

// Apply implements Operation.
func (o SetSupply) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Supply) }

// SetBox changes a box.
type SetBox struct{ Box *doc.Box }

// Name implements Operation.
func (o SetBox) Name() string { return "Change box" }

// Apply implements Operation.
func (o SetBox) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Box) }

// SetLamp changes a lamp.
type SetLamp struct{ Lamp *doc.Lamp }

// Name implements Operation.
func (o SetLamp) Name() string { return "Change lamp" }

// Apply implements Operation.
func (o SetLamp) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Lamp) }

// SetGear changes gear.
type SetGear struct{ Gear *doc.Gear }

// Name implements Operation.
func (o SetGear) Name() string { return "Change gear" }

// Apply implements Operation.
func (o SetGear) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Gear) }

// SetSource changes a source.
type SetSource struct{ Source *doc.Source }

// Name implements Operation.
func (o SetSource) Name() string { return "Change source" }

// Apply implements Operation.
func (o SetSource) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Source) }

// SetRun changes a run.
type SetRun struct{ Run *doc.Run }

// Name implements Operation.
func (o SetRun) Name() string { return "Change run" }

// Apply implements Operation.
func (o SetRun) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Run) }

// ChangeZone changes a zone itself; SetZone puts lamps into one.
type ChangeZone struct{ Zone *doc.Zone }

// Name implements Operation.
func (o ChangeZone) Name() string { return "Change zone" }

// Apply implements Operation.
func (o ChangeZone) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Zone) }

// SetArea changes a piece of ground.
type SetArea struct{ Area *doc.Area }

// Name implements Operation.
func (o SetArea) Name() string { return "Change area" }

// Apply implements Operation.
func (o SetArea) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Area) }

// SetLine changes a wall, fence, boundary or buried service.
type SetLine struct{ Line *doc.Line }

// Name implements Operation.
func (o SetLine) Name() string { return "Change line" }

// Apply implements Operation.
func (o SetLine) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Line) }

// SetMark changes a mark.
type SetMark struct{ Mark *doc.Mark }

// Name implements Operation.
func (o SetMark) Name() string { return "Change mark" }

// Apply implements Operation.
func (o SetMark) Apply(s *doc.Scheme) (*doc.Scheme, error) { return replace(s, o.Mark) }
