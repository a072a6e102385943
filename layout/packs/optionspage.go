package packs

import "duskwire/layout/scene"

// options is the page of two schemes side by side.
func (b *book) options(f *flow, other *book) {
	c := compareBooks(b, other)
	f.para("Two ways to light this garden. A is the one of this pack; B is the other. Differences are B less A. Both were worked out in the same way.")
	t := &table{columns: []column{{head: "", least: 8}, {head: "Scheme", grow: 1}, {head: "Judged by", grow: 1}}}
	t.add("A", c.A.Title, c.A.Rules)
	t.add("B", c.B.Title, c.B.Rules)
	f.table(t)
	f.head("Figures")
	t = &table{columns: []column{{head: "What", grow: 1}, {head: "Unit"}, {head: "A", anchor: scene.Right, least: 24}, {head: "B", anchor: scene.Right, least: 24}, {head: "Difference", anchor: scene.Right, least: 24}}}
	for i := range c.Rows {
		x, y, d := c.Rows[i].cells()
		t.add(upper(c.Rows[i].What), c.Rows[i].Unit, x, y, d)
	}
	f.table(t)
	if len(c.Parts) > 0 {
		f.head("Parts that differ")
		t = &table{columns: []column{{head: "Part", grow: 1}, {head: "A", anchor: scene.Right, least: 16}, {head: "B", anchor: scene.Right, least: 16}, {head: "Difference", anchor: scene.Right, least: 20}}}
		group := ""
		for _, p := range c.Parts {
			if p.Group != group {
				group = p.Group
				t.band(group)
			}
			t.add(p.Part, whole(p.A), whole(p.B), plus(p.B-p.A))
		}
		f.table(t)
	}
	for _, n := range c.Notes {
		f.small(n)
	}
}
