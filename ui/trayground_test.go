package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// The Ground menu holds every kind that a file may hold; one click takes the
// tool, with the kind and its usual figures.
func TestGroundMenuHasEveryKind(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	var ground *fyne.Menu
	for _, m := range r.w.menus.main.Items {
		for _, i := range m.Items {
			if i.ChildMenu != nil && i.ChildMenu.Label == "Ground" {
				ground = i.ChildMenu
			}
		}
	}
	if ground == nil {
		t.Fatal("no Ground menu")
	}
	seen := 0
	for n, sort := range []struct {
		name  string
		kinds []string
		kind  *string
	}{
		{tool.NameArea, doc.AreaKinds, &r.w.defaults.Ground.Area.Kind},
		{tool.NameLine, doc.LineKinds, &r.w.defaults.Ground.Line.Kind},
		{tool.NameMark, doc.MarkKinds, &r.w.defaults.Ground.Mark.Kind},
	} {
		for i, item := range ground.Items[n].ChildMenu.Items {
			item.Action()
			if *sort.kind != sort.kinds[i] || r.w.plan.Tool().Name() != sort.name || !r.w.tray.buttons[sort.name].on {
				t.Errorf("%s gives %s with %s in hand", item.Label, *sort.kind, r.w.plan.Tool().Name())
			}
			seen++
		}
	}
	if want := len(doc.AreaKinds) + len(doc.LineKinds) + len(doc.MarkKinds); seen != want {
		t.Errorf("%d kinds in the menu, expected %d", seen, want)
	}
	if got, want := r.w.defaults.Ground.Line.Kind, doc.LineKinds[len(doc.LineKinds)-1]; got != want {
		t.Errorf("line %s, expected %s", got, want)
	}
}

// The tray's list of kinds brings the usual depth with it.
func TestTrayChoosesGround(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.TypedRune('a')
	pick, ok := find(r.w.tray.below, func(*panel.Pick) bool { return true })
	if !ok {
		t.Fatal("no kinds to choose from")
	}
	pick.SetSelected("Dug bed")
	if a := r.w.defaults.Ground.Area; a.Kind != "dug bed" || a.DigDepth != 450*geom.Millimetre {
		t.Errorf("got %s %v, expected a dug bed of two spits, 450 mm", a.Kind, a.DigDepth)
	}
}
