package packs

import (
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// site puts the site pack together.
func site(d *draft) string {
	d.cover([]string{
		"Lengths include the allowances shown: measure before cutting.",
		"Mark out, then show the client where it will be dug. Take photographs with a scale before backfilling.",
		"Write on these pages what was done otherwise: the as-built page of the test pack is made from it.",
	})
	d.routeDrawings()
	d.list("Setting out", false, d.settingOut)
	d.list("Trenches", true, d.trenches)
	d.list("Cut list", true, d.cutList)
	d.drums()
	d.list("Materials", false, d.materialList)
	d.list("Box sheets", false, d.boxSheets)
	d.list("Labels", false, d.labelPages)
	d.list("Tools", false, d.tools)
	return "Site pack"
}

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
	if !b.scheme.Plan.Checked {
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

// trenches lists what is dug, what is met and the holes.
func (b *book) trenches(f *flow) {
	d := b.trench
	if len(d.stretches) == 0 {
		f.para("Nothing is dug: no run of the plan lies in the ground.")
	} else {
		b.trenchTable(f)
	}
	b.meetTable(f)
	b.holeTable(f)
	f.findings("Findings about the ground", b.about(codes("DIG-", "TRE-", "SRV-", "SUP-04")))
}

func (b *book) trenchTable(f *flow) {
	t := &table{columns: []column{
		{head: "No."}, {head: "Runs", grow: 0.4}, {head: "Ground", grow: 1}, {head: "Laid"}, {head: "Length", unit: "m", anchor: scene.Right},
		{head: "Cable depth", unit: "mm", anchor: scene.Right}, {head: "Trench depth", unit: "mm", anchor: scene.Right}, {head: "Width", unit: "mm", anchor: scene.Right},
		{head: "Dig", unit: "m³", anchor: scene.Right}, {head: "Sand", unit: "m³", anchor: scene.Right}, {head: "Tape", unit: "m", anchor: scene.Right},
		{head: "By hand", unit: "m", anchor: scene.Right}, {head: "Depth found", unit: "mm", least: 18},
	}}
	for i := range b.trench.stretches {
		s := &b.trench.stretches[i]
		var tags []string
		for _, r := range s.runs {
			tags = append(tags, r.Tag)
		}
		depth, deep, dig, sand := "not given", "?", "?", "?"
		if s.deep > 0 {
			depth, deep = millis(s.leg.Depth), digits(s.deep*1000, 0)
			dig, sand = digits(s.volume(), 2), digits(s.sand, 2)
		}
		tape, hand := "none", "–"
		if s.tape {
			tape = digits(s.length*tapeOver, 1)
		}
		if s.byHand > 0 {
			hand = digits(s.byHand, 1)
		}
		t.add("T"+whole(i+1), runsOf(tags), areaName(s.area), supportName(s.leg.Support), digits(s.length, 2), depth, deep, digits(s.wide*1000, 0), dig, sand, tape, hand, "")
	}
	sum := b.trench.sums()
	t.sum("", "", "Sum", "", digits(sum.length, 2), "", "", "", digits(sum.volume, 2), digits(sum.sand, 2), digits(sum.tape, 1), digits(sum.byHand, 1), "")
	f.table(t)
	f.small("Spoil to put back: " + digits(sum.reuse, 2) + " m³; to be taken away " + digits(sum.sand, 2) + " m³. A cable laid bare gets 100 mm of sand below and above it, so its trench is 100 mm deeper than the cable. " +
		"Width 300 mm, or 150 mm for extra-low voltage less than 450 mm deep (common practice, no source). Legs that several runs share from corner to corner are dug once, as deep as the deepest. " +
		"Rises at boxes and lamps are not in it.")
	if sum.unsaid > 0 {
		f.para(plural(sum.unsaid, "trench has", "trenches have") + " no depth in the plan: their volumes are not in the sums.")
	}
}

func (b *book) meetTable(f *flow) {
	f.head("What the trenches meet")
	if len(b.trench.meets) == 0 {
		f.para("Nothing that is drawn. Services that nobody drew may be there all the same: ask for the records, locate, dig a trial hole.")
		return
	}
	t := &table{columns: []column{{head: "Run"}, {head: "Meets", grow: 1}, {head: "From its start", unit: "m", anchor: scene.Right, least: 22}, {head: "to", unit: "m", anchor: scene.Right}}}
	if b.fixed != nil {
		t.columns = append(t.columns, column{head: "From F1", unit: "m", anchor: scene.Right, least: 15}, column{head: "From F2", unit: "m", anchor: scene.Right, least: 15})
	}
	t.columns = append(t.columns, column{head: "Note", grow: 1})
	for _, m := range b.trench.meets {
		what := b.called(m.on.Key())
		switch m.kind {
		case derive.MeetService:
			what = "buried service " + what
		case derive.MeetRun:
			what = "run " + what
		case derive.MeetRoots:
			what = "roots of tree " + what
		}
		to := "–"
		if m.to > m.at {
			to = long(m.to)
		}
		cells := []string{m.run.Tag, what, long(m.at), to}
		if b.fixed != nil {
			cells = append(cells, long(geom.Distance(b.fixed.at[0], m.spot)), long(geom.Distance(b.fixed.at[1], m.spot)))
		}
		t.add(append(cells, m.note)...)
	}
	f.table(t)
}

// holeTable lists the legs that pass a wall.
func (b *book) holeTable(f *flow) {
	t := &table{columns: []column{{head: "Run"}, {head: "Wall", grow: 1}, {head: "Cable", unit: "mm", anchor: scene.Right}, {head: "Drill about", unit: "mm", anchor: scene.Right}, {head: "Height", unit: "mm", anchor: scene.Right}, {head: "Fall"}, {head: "Done", least: 10}}}
	for _, r := range b.scheme.Runs.All() {
		br := b.branchOf(r.ID)
		if br == nil || br.Route == nil || r.With != "" {
			continue
		}
		for _, c := range br.Route.Crossings {
			if c.Kind != network.CrossWall || c.Leg >= len(r.Legs) {
				continue
			}
			l := r.Legs[c.Leg]
			fall := map[string]string{"out": "to the outside", "in": "to the inside: see the findings", "": "not said: drill falling to the outside"}[l.Hole]
			wide, drill := "not known", "–"
			if br.Cable != nil && br.Cable.Diameter > 0 {
				wide, drill = digits(float64(br.Cable.Diameter)*1000, 1), drillFor(float64(br.Cable.Diameter)*1000)
			}
			level := millis(l.Height)
			if dug(l) {
				level = "−" + millis(l.Depth)
			}
			t.rows = append(t.rows, row{cells: []string{r.Tag, c.Subject.Label, wide, drill, level, fall, ""}, tick: true})
		}
	}
	if len(t.rows) == 0 {
		return
	}
	f.head("Holes through walls")
	f.small("The hole falls 5 to 10 degrees to the outside, the cable hangs in a loop below it, and it is sealed on both sides (common practice, no source).")
	f.table(t)
}

// drillFor returns the drill for a cable: 2 mm more than it, in even
// millimetres (common practice, no source).
func drillFor(mm float64) string {
	n := 2
	for float64(n) < mm+2 {
		n += 2
	}
	return whole(n)
}

// cutList lists every piece of cable to be cut.
func (b *book) cutList(f *flow) {
	f.para("Cut = (plan + rises + tails + slack) × (1 + waste), rounded up to 0.5 m. Tag both ends with the name of the run before it is laid.")
	t := &table{high: 5.2, columns: []column{
		{head: "Run"}, {head: "From"}, {head: "To"}, {head: "Cable", grow: 1}, {head: "Plan", unit: "m", anchor: scene.Right}, {head: "Rises", unit: "m", anchor: scene.Right},
		{head: "Tails", unit: "m", anchor: scene.Right}, {head: "Slack", unit: "m", anchor: scene.Right}, {head: "Waste", unit: "%", anchor: scene.Right},
		{head: "Cut", unit: "m", anchor: scene.Right}, {head: "As cut", unit: "m", least: 20}, {head: "Done", least: 11},
	}}
	total := 0.0
	for i, r := range b.scheme.Runs.All() {
		l := b.length(i)
		name := l.Name
		if name == "" {
			name = "no cable chosen"
		}
		cut, was := digits(float64(l.Cut), 1), ""
		switch {
		case r.With != "":
			cut, name = "–", "in the cable of "+doc.TagOf(b.scheme, r.With)
		case r.Cut.Known:
			was = digits(float64(l.Cut), 2)
			cut = digits(float64(l.Needed), 2) + " needed"
		}
		total += float64(l.Cut)
		t.rows = append(t.rows, row{tick: true, cells: []string{l.Tag, l.From, l.To, name, metres(l.Plan), metres(l.Rises), metres(l.Tails), metres(l.Slack), digits(l.Waste*100, 0), cut, was, ""}})
	}
	if len(t.rows) == 0 {
		f.para("No run is drawn.")
		return
	}
	f.table(t)
	f.head("Sum by cable")
	sums := &table{narrow: true, columns: []column{{head: "Cable", grow: 1}, {head: "Pieces", anchor: scene.Right}, {head: "Cut", unit: "m", anchor: scene.Right}}}
	b.cables(func(_, name string, amount float64, _ int, _, note string) {
		sums.add(name, strings.Fields(note)[0], digits(amount, 1))
	})
	sums.sum("All", "", digits(total, 1))
	f.table(sums)
	f.findings("Findings about lengths", b.about(codes("LEN-")))
}

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
