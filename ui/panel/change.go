package panel

import (
	"fmt"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// put is the operation that replaces an entity by a changed copy.
func put(e doc.Entity) edit.Operation {
	switch e := e.(type) {
	case *doc.Supply:
		return edit.SetSupply{Supply: e}
	case *doc.Box:
		return edit.SetBox{Box: e}
	case *doc.Lamp:
		return edit.SetLamp{Lamp: e}
	case *doc.Gear:
		return edit.SetGear{Gear: e}
	case *doc.Source:
		return edit.SetSource{Source: e}
	case *doc.Run:
		return edit.SetRun{Run: e}
	case *doc.Zone:
		return edit.ChangeZone{Zone: e}
	case *doc.Area:
		return edit.SetArea{Area: e}
	case *doc.Line:
		return edit.SetLine{Line: e}
	case *doc.Mark:
		return edit.SetMark{Mark: e}
	case *doc.Dimension:
		return edit.SetDimension{Dimension: e}
	}
	panic(fmt.Sprintf("panel: put of %T", e))
}

// remedy is the operation that carries out the action of a remedy; ok is false
// for a kind of action this window does not know.
func remedy(a *finding.Action) (op edit.Operation, ok bool) {
	if a == nil {
		return nil, false
	}
	switch a.Kind {
	case "cable":
		return edit.SetCable{Runs: []doc.ID{doc.ID(a.ID)}, Cable: a.Value}, true
	}
	return nil, false
}
