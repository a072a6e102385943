package packs

import (
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// settingOut lists the distances of every point from the two fixed points.
func (b *book) settingOut(f *flow) {
	if b.fixed == nil {
		f.para("The plan has nothing fixed to measure from: no building, no two marks that stay, no wall, fence or boundary. Draw one of them and this list is filled in.")
		return
	}
	p := b.fixed.at
	f.item("F1: " + b.fixed.words[0] + ".")
	f.item("F2: " + b.fixed.words[1] + ". From F1 to F2: " + long(geom.Distance(p[0], p[1])) + " m. Measure this first: when it is off, the plan is.")
	f.para("Two tapes, one from each fixed point, meet at the place. All distances are level, not along a slope. Side: as seen from F1 towards F2.")
	if part, by, ok := b.scheme.Plan.Underlay.CheckError(); ok {
		f.para("A second known length of the picture under the plan was compared with its scale: it is off by " + doc.OffText(part, by) + ".")
	} else if !b.scheme.Plan.Checked {
		f.para("The scale of this plan has not been checked against a known length.")
	}
	t := &table{columns: []column{
		{head: "Point"}, {head: "What", grow: 1}, {head: "From F1", unit: "m", anchor: scene.Right, least: 15}, {head: "From F2", unit: "m", anchor: scene.Right, least: 15},
		{head: "Side"}, {head: "Height or depth", grow: 0.3}, {head: "Done", least: 10},
	}}
	for _, s := range b.spots() {
		side := "on it"
		switch c := cross(p[0], p[1], s.at) / max(float64(geom.Distance(p[0], p[1])), 1); {
		case c > float64(5*geom.Millimetre):
			side = "left"
		case c < -float64(5*geom.Millimetre):
			side = "right"
		}
		t.rows = append(t.rows, row{cells: []string{s.name, s.what, long(geom.Distance(p[0], s.at)), long(geom.Distance(p[1], s.at)), side, s.height, ""}, tick: true})
	}
	f.table(t)
}
