package packs

import (
	"duskwire/layout/scene"
)

// materialList is the list to order by.
func (b *book) materialList(f *flow) {
	f.para("Counts follow the drawing. Where a figure rests on habit the note says so; what was not counted is named.")
	t := &table{columns: []column{{head: "Item", grow: 1.2}, {head: "Amount", anchor: scene.Right}, {head: "Unit"}, {head: "Where, and how counted", grow: 1}, {head: "Here", least: 10}}}
	group := ""
	for _, m := range b.materials() {
		if m.group != group {
			group = m.group
			t.band(group)
		}
		t.rows = append(t.rows, row{cells: []string{m.name, digits(m.amount, m.places), m.unit, m.note, ""}, tick: true})
	}
	f.table(t)
	f.findings("Findings about boxes and glands", b.about(codes("BOX-", "GLD-", "EAR-02", "EAR-03")))
}
