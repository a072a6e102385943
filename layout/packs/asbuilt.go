package packs

import (
	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// asBuilt is for writing down what was done otherwise.
func (b *book) asBuilt(f *flow) {
	f.para("Write every difference from the drawing into this list and keep it with the property. What is known already is printed. Cables in the ground and joints that nobody sees matter most.")
	b.sinceIssue(f)
	b.builtRuns(f)
	f.head("Boxes, gear and sources")
	p := &table{high: 5.8, columns: []column{{head: "Tag"}, {head: "What", grow: 1}}}
	if b.fixed != nil {
		p.columns = append(p.columns, column{head: "From F1", unit: "m", anchor: scene.Right, least: 15}, column{head: "From F2", unit: "m", anchor: scene.Right, least: 15})
	}
	p.columns = append(p.columns, column{head: "Height", anchor: scene.Right}, column{head: "Place, kind or fill as built, remarks", least: 100})
	for _, s := range b.spots() {
		e := doc.WithTag(b.scheme, s.name)
		if s.number > 0 || e == nil || doc.KindOfEntity(e) == doc.LampKind {
			continue
		}
		cells := []string{s.name, s.what}
		if b.fixed != nil {
			cells = append(cells, b.offsets(s)...)
		}
		p.add(append(cells, s.height, "")...)
	}
	if len(p.rows) > 0 {
		f.table(p)
	}
	const blank, apart = 6, 7.0 // lines to write on, kept together under their heading
	f.room(capHead + 6 + blank*apart)
	f.head("Further differences")
	for range blank {
		f.y += apart
		f.line(thin, f.x, f.y, f.x+f.width, f.y)
	}
	f.gap(3)
	f.findings("Decided against the rules", b.about(overruled))
}

// builtRuns lists the runs with room for what was found. What the design was is
// known once it was issued; before that there is the drawing alone.
func (b *book) builtRuns(f *flow) {
	f.head("Runs")
	issued := map[doc.ID]*derive.Length{}
	legs, cuts := "Legs as drawn", "Cut as drawn"
	if b.scheme.Issue != nil {
		legs, cuts = "Legs as issued", "Cut as issued"
		lengths := derive.Scheme(b.scheme.Issue.Scheme, b.stock, b.Rules, nil).Lengths
		for i := range lengths {
			issued[lengths[i].Run] = &lengths[i]
		}
	}
	t := &table{high: 5.8, columns: []column{{head: "Run"}, {head: "From, to", least: 18}, {head: "Cable", grow: 1}, {head: legs, grow: 1.4}, {head: cuts, unit: "m", anchor: scene.Right, least: 22}, {head: "As cut", unit: "m", least: 18}, {head: "Depth found, route, remarks", least: 58}}}
	for i, r := range b.scheme.Runs.All() {
		l, design, laid := b.length(i), b.length(i), legsText(r)
		if b.scheme.Issue != nil {
			was, _ := b.scheme.Issue.Scheme.Runs.Get(r.ID)
			if design = issued[r.ID]; was == nil || design == nil {
				design, laid = nil, "not in the design; now "+laid
			} else {
				laid = legsText(was)
			}
		}
		cut, done := "–", ""
		if design != nil {
			cut = digits(ceilHalf(float64(design.Needed)), 1)
		}
		if r.Cut.Known {
			done = digits(float64(l.Cut), 2)
			if design != nil && absf(float64(l.Cut)-ceilHalf(float64(design.Needed))) > 0.05 {
				done += " (" + signed(float64(l.Cut)-ceilHalf(float64(design.Needed))) + ")"
			}
		}
		name := l.Name
		if r.With != "" {
			name, cut = "in the cable of "+doc.TagOf(b.scheme, r.With), "–"
		}
		t.add(l.Tag, l.From+", "+l.To, name, laid, cut, done, "")
	}
	if len(t.rows) > 0 {
		f.table(t)
	}
}

// sinceIssue lists what the drawing has otherwise than the design that was issued
// for the site.
func (b *book) sinceIssue(f *flow) {
	f.head("Differences from the design as issued")
	rows, ok := layout.AsBuilt(b.Frame, b.Rules)
	if !ok {
		f.para("The design was not marked as issued for the site, so what was changed since is not known. Mark it when the site pack goes out; draw what is built otherwise, and it stands here.")
		return
	}
	said := b.scheme.Issue.On
	if by := b.scheme.Issue.By; by != "" {
		said += " by " + by
	}
	f.para("Issued " + said + ". Things count as moved from 0.1 m on, which setting out with a tape gives. Lengths are measured from both drawings in the same way.")
	if len(rows) == 0 {
		f.para("The drawing is as it was issued. What was built otherwise and not drawn has to be written below.")
		return
	}
	t := &table{columns: []column{{head: "Tag"}, {head: "What"}, {head: "Difference", grow: 0.8}, {head: "As issued", grow: 1.3}, {head: "As drawn now", grow: 1.3}, {head: "Seen on site", least: 22}}, high: 5.4}
	for _, r := range rows {
		t.add(r.Tag, r.Kind.String(), r.Change, r.Was, r.Is, "")
	}
	f.table(t)
}
