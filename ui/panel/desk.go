package panel

import (
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// Desk is what the panels need of the desk: the present frame, one way to
// change the scheme, the working behind the figures of one entity, and what is
// left before a finding turns.
type Desk interface {
	Frame() *layout.Frame
	Commit(edit.Operation) error
	Explain(doc.ID) []finding.Finding
	Rules() []*check.Rules
	Rooms() *layout.Rooms
}
