package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2/container"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// kindItems lists the kinds of one sort of ground.
func kindItems(kinds []string) (out []item) {
	for _, k := range kinds {
		out = append(out, item{k, strings.ToUpper(k[:1]) + k[1:]})
	}
	return out
}

// addKind adds the list of kinds; a kind comes with its usual figures.
func (t *tray) addKind(c *choices, name string, kinds []string, at *string) {
	t.addPick(c, name, func() []item { return kindItems(kinds) }, func() string { return *at },
		func(k string) { t.set.Ground.Choose(k) })
}

// addLengthWhen is addLength for a figure that not every kind has.
func (t *tray) addLengthWhen(c *choices, name func() string, at *geom.Length, has func() bool) {
	part := &choices{box: container.NewVBox()}
	t.addLength(part, name, func() *geom.Length { return at })
	c.box.Add(part.box)
	c.rows = append(c.rows, part.rows...)
	c.rows = append(c.rows, func() {
		if has() {
			part.box.Show()
		} else {
			part.box.Hide()
		}
	})
}

func fixedName(s string) func() string { return func() string { return s } }

// heightName is the caption of a height that 0 may stand for.
func heightName(kind string) string {
	if h := layout.TakenHeight(kind); h > 0 {
		return fmt.Sprintf("Height, 0 for not known: %g m taken", h)
	}
	return "Height"
}

func (t *tray) areaChoices() *choices {
	c, a := &choices{box: container.NewVBox()}, &t.set.Ground.Area
	t.addKind(c, "Ground", doc.AreaKinds, &a.Kind)
	t.addPick(c, "Shape", func() []item { return []item{{"", "By corners"}, {"round", "Round"}} }, func() string {
		if t.set.Ground.Round {
			return "round"
		}
		return ""
	}, func(key string) {
		t.set.Ground.Round = key == "round"
		t.take(tool.NameArea) // the one in hand is of the other shape
	})
	t.addLengthWhen(c, fixedName("Digging depth"), &a.DigDepth, func() bool { return a.Kind != "building" })
	t.addLengthWhen(c, func() string { return heightName(a.Kind) }, &a.Height, func() bool { return doc.HasHeight(a.Kind) })
	return c
}

func (t *tray) lineChoices() *choices {
	c, l := &choices{box: container.NewVBox()}, &t.set.Ground.Line
	t.addKind(c, "Line", doc.LineKinds, &l.Kind)
	t.addLengthWhen(c, func() string { return heightName(l.Kind) }, &l.Height, func() bool { return doc.HasHeight(l.Kind) })
	t.addPick(c, "Whose", func() []item {
		return []item{{"", "Not known"}, {"own", "Own"}, {"neighbour", "Neighbour's"}}
	}, func() string { return l.Owner }, func(k string) { l.Owner = k })
	return c
}

func (t *tray) markChoices() *choices {
	c, m := &choices{box: container.NewVBox()}, &t.set.Ground.Mark
	tree := func() bool { return m.Kind == "tree" }
	t.addKind(c, "Mark", doc.MarkKinds, &m.Kind)
	t.addLengthWhen(c, fixedName("Trunk, radius, 0 for not known"), &m.Radius, tree)
	t.addLengthWhen(c, fixedName("Crown, radius, 0 for not known"), &m.Crown, tree)
	t.addLengthWhen(c, fixedName("Height, 0 for not known"), &m.Place.Height, func() bool { return m.Kind == "window" })
	return c
}

// takeKind takes the tool that draws the kind of ground.
func (w *Window) takeKind(kind string) {
	if name := w.defaults.Ground.Choose(kind); name != "" {
		w.take(name)
	}
}

// groundMenu is the Ground part of the Place menu: the kinds, sort by sort.
func (w *Window) groundMenu(m *menus) *entry {
	sorts := []struct {
		name  string
		kinds []string
	}{{tool.NameArea, doc.AreaKinds}, {tool.NameLine, doc.LineKinds}, {tool.NameMark, doc.MarkKinds}}
	var parts []*entry
	for _, s := range sorts {
		var kinds []*entry
		for _, k := range kindItems(s.kinds) {
			kinds = append(kinds, w.item(k.name, "", nil, func() { w.takeKind(k.key) }))
		}
		part := w.item(s.name, "", nil, func() {})
		part.ChildMenu = m.menu(s.name, kinds...)
		parts = append(parts, part)
	}
	ground := w.item("Ground", "", nil, func() {})
	ground.ChildMenu = m.menu("Ground", parts...)
	return ground
}
