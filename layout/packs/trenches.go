package packs

import (
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

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
		"Width 300 mm, or 150 mm for extra-low voltage less than 450 mm deep (common practice, no source). Runs within 150 mm of each other that run alike to 10 degrees are dug once, as deep as the deepest, and 150 mm wider than what lies between them where that is more (common practice, no source). " +
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
