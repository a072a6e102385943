package scene

import (
	"sort"
	"strconv"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// LegendWidth and LegendHeight are the size in millimetres of the box that
// the sample of a legend entry stays in; its middle is at (0, 0).
const (
	LegendWidth  = 8.0
	LegendHeight = 4.4
)

// Entry explains one thing on the plan: a sample drawn about (0, 0) and the
// words for it. An entry without a sample is words only.
type Entry struct {
	Group  string
	Sample []Item
	Words  string
}

// Legend returns what the plan shows, each kind once, in the order of
// symbols, runs, zones, findings, cables, ground. Samples come from the same
// code as the plan.
func Legend(in Input) []Entry {
	b := newBuilder(in, View{Denominator: 1}, 1, 1)
	var out []Entry
	out = append(out, b.symbolEntries()...)
	out = append(out, b.doubtEntry()...)
	if b.looks != nil {
		out = append(out, b.looks.entries(b)...)
	}
	if b.dig != nil {
		out = append(out, b.digEntries()...)
		return append(out, b.groundEntries()...)
	}
	out = append(out, b.runEntries()...)
	if !in.NoZones || in.Hatch.any() {
		out = append(out, b.zoneEntries()...)
	}
	out = append(out, b.findingEntries()...)
	out = append(out, b.cableEntries()...)
	return append(out, b.groundEntries()...)
}

func (b *builder) symbolEntries() (out []Entry) {
	used := map[string]bool{}
	s := b.in.Scheme
	for _, e := range s.Supplies.All() {
		used[supplyName(e)] = true
	}
	for _, e := range s.Boxes.All() {
		used[b.boxName(e)] = true
	}
	for _, e := range s.Lamps.All() {
		used[b.lampName(e)] = true
	}
	for _, e := range s.Gear.All() {
		used[b.gearName(e)] = true
	}
	for _, e := range s.Sources.All() {
		used[b.sourceName(e)] = true
	}
	for _, name := range SymbolNames() {
		if used[name] {
			sy := symbols[name]
			up := min(sy.rx, sy.ry) // the foot makes a lamp sit low
			out = append(out, Entry{"Symbols", Symbol(name, XY{0, (up - sy.ry) / 2}, b.pal), symbolWords(name)})
		}
	}
	return out
}

// supportWords name the supports in a legend.
var supportWords = [...]string{
	network.Clipped: "clipped", network.Buried: "buried", network.InDuct: "in duct",
	network.OnStructure: "on a structure", network.InTree: "in a tree", network.Indoors: "indoors",
}

func (b *builder) runEntries() (out []Entry) {
	var seen [len(supportWords)]bool
	var voltages [3]bool
	loose := false
	systems := b.systems()
	for i, r := range b.in.Scheme.Runs.All() {
		voltages[systems[i]] = true
		loose = loose || r.From.On == "" || r.To.On == ""
		for _, l := range r.Legs {
			seen[l.Support] = true
		}
	}
	line := []XY{{-LegendWidth / 2, 0}, {LegendWidth / 2, 0}}
	add := func(s system, words string) {
		out = append(out, Entry{"Cable runs", []Item{{Kind: Polyline, Points: line, Style: runStyle(b.pal, s)}}, words})
	}
	if voltages[mains] {
		add(mains, "Run, mains")
	}
	if voltages[extra] {
		add(extra, "Run, extra-low voltage (ELV)")
	}
	if voltages[unknown] {
		add(unknown, "Run, voltage not known")
	}
	soft := Style{Stroke: b.pal.Soft, Width: medium}
	for s, yes := range seen {
		if yes {
			sample := []Item{{Kind: Polyline, Points: line, Style: Style{Stroke: b.pal.Soft, Width: bold}}}
			if m := supportMarks[s]; len(m) > 0 {
				sample = append(sample, Item{Kind: Segments, Points: m, Style: soft})
			}
			out = append(out, Entry{"Cable runs", sample, sentence(supportWords[s])})
		}
	}
	if loose {
		soft.Fill = b.pal.Paper
		out = append(out, Entry{"Cable runs", []Item{{Kind: Polyline, Points: []XY{{-LegendWidth / 2, 0}, {0, 0}}, Style: soft},
			{Kind: Circle, Points: []XY{{0, 0}}, Size: 0.9, Style: soft}}, "End in the air"})
	}
	return out
}

func (b *builder) zoneEntries() (out []Entry) {
	zones := append([]*doc.Zone(nil), b.in.Scheme.Zones.All()...)
	sort.SliceStable(zones, func(i, j int) bool { return zones[i].Number < zones[j].Number })
	for _, z := range zones {
		if b.in.NoZones && !b.in.Hatch.has(z.ID) {
			continue
		}
		n := strconv.Itoa(z.Number)
		out = append(out, Entry{"Zones", b.zoneSample(z, n), "Zone " + n + " " + z.Name})
	}
	return out
}

// zoneSample shows the ring and the number of a zone, or the ring on its hatch where
// the plan has that: there is no room for all three, and the words say the number.
func (b *builder) zoneSample(z *doc.Zone, n string) []Item {
	c := b.pal.zone(z.Colour)
	// Hatches start from the plan's origin, here the middle of a sheet of its own.
	const half = 10
	e := newBuilder(Input{Scheme: &doc.Scheme{}, Palette: b.pal}, View{Denominator: 1,
		Origin: geom.Point{X: -half * geom.Millimetre, Y: half * geom.Millimetre}}, 2*half, 2*half)
	hatched := b.in.Hatch.has(z.ID)
	if hatched {
		const r = LegendHeight/2 - 0.1
		p, q := XY{half - LegendWidth/2 + r, half}, XY{half + LegendWidth/2 - r, half}
		e.hatchZone(z, []capsule{{p, p, r}, {q, q, r}, {p, q, r}})
	}
	if !b.in.NoZones {
		e.drawZone("", XY{half - 1.8, half}, z.Number, 1.3, c)
	}
	if !b.in.NoZones && !hatched {
		w := TextWidth("/"+n, capTag, true)
		e.add(Item{Kind: Text, Points: []XY{{half + 2.2 - w/2, half + capTag/2}}, Size: capTag, Bold: true, Text: "/" + n, Style: Style{Fill: c}})
	}
	for i := range e.list.Items {
		it := &e.list.Items[i]
		ps := make([]XY, len(it.Points))
		for j, p := range it.Points {
			ps[j] = XY{p.X - half, p.Y - half}
		}
		it.Points = ps
	}
	return e.list.Items
}

// groundEntries draws each kind of ground used, as a scheme of its own at
// 1:200 (a window is then 6 mm wide).
func (b *builder) groundEntries() (out []Entry) {
	const scale = 200
	mini := func(draw func(b *builder)) []Item {
		e := newBuilder(Input{Scheme: &doc.Scheme{}, Palette: b.pal}, View{Denominator: scale,
			Origin: geom.Point{X: geom.Metres(-1), Y: geom.Metres(1)}}, 10, 10)
		draw(e)
		for i := range e.list.Items {
			it := &e.list.Items[i]
			ps := make([]XY, len(it.Points))
			for j, p := range it.Points {
				ps[j] = XY{p.X - 5, p.Y - 5}
			}
			it.Points = ps
		}
		return e.list.Items
	}
	mm := func(x, y float64) geom.Point { return geom.Pt(x*scale/1000, y*scale/1000) }
	const x, y = LegendWidth / 2, LegendHeight / 2
	add := func(words string, draw func(b *builder)) {
		out = append(out, Entry{"Ground", mini(draw), sentence(words)})
	}
	s := b.in.Scheme
	for _, kind := range kindsOf(s.Areas.All(), func(a *doc.Area) string { return a.Kind }, doc.AreaKinds) {
		if b.dig != nil && kind != "building" && kind != "water" {
			continue // explained by how deep people dig
		}
		add(kind, func(b *builder) {
			b.area(&doc.Area{Kind: kind, Ring: []geom.Point{mm(-x, -y), mm(x, -y), mm(x, y), mm(-x, y)}})
			for _, w := range b.walls {
				b.add(w)
			}
		})
	}
	for _, kind := range kindsOf(s.Lines.All(), func(l *doc.Line) string { return l.Kind }, doc.LineKinds) {
		add(kind, func(b *builder) {
			b.drawLine(&doc.Line{Kind: kind, Path: []geom.Point{mm(-x, 0), mm(x, 0)}})
		})
	}
	for _, kind := range kindsOf(s.Marks.All(), func(m *doc.Mark) string { return m.Kind }, doc.MarkKinds) {
		at := mm(0, 0)
		if kind == "door" {
			at = mm(0, y)
		}
		add(kind, func(b *builder) {
			b.mark(&doc.Mark{Kind: kind, Place: doc.Place{At: at}, Crown: geom.Metres(y * scale / 1000)})
		})
	}
	return out
}

// kindsOf returns the kinds used, in the order given; unknown ones last.
func kindsOf[E any](all []E, kind func(E) string, order []string) (out []string) {
	used := map[string]bool{}
	var more []string
	for _, e := range all {
		if k := kind(e); !used[k] {
			used[k] = true
			more = append(more, k)
		}
	}
	for _, k := range order {
		if used[k] {
			out = append(out, k)
			delete(used, k)
		}
	}
	for _, k := range more {
		if used[k] {
			out = append(out, k)
		}
	}
	return out
}

func (b *builder) findingEntries() (out []Entry) {
	var open, closed [finding.Stop + 1]bool
	for id, l := range b.worst {
		if b.closed[id] {
			closed[l] = true
		} else {
			open[l] = true
		}
	}
	words := [...]string{finding.Note: "Note", finding.Decide: "Decide", finding.Stop: "Stop: do not build"}
	for l := finding.Stop; l >= finding.Note; l-- {
		if open[l] {
			out = append(out, Entry{"Findings", Badge(l, false, XY{}, b.pal), words[l]})
		}
		if closed[l] {
			out = append(out, Entry{"Findings", Badge(l, true, XY{}, b.pal), words[l] + " (overruled)"})
		}
	}
	return out
}

// cableEntries lists the cables with their runs and total cut length.
func (b *builder) cableEntries() (out []Entry) {
	type total struct {
		runs int
		cut  float64
		all  bool // every cut length is known
	}
	totals := map[string]*total{}
	var order []string
	for i, r := range b.in.Scheme.Runs.All() {
		t := totals[r.Cable]
		if t == nil {
			t = &total{all: true}
			totals[r.Cable] = t
			order = append(order, r.Cable)
		}
		t.runs++
		if i < len(b.in.Lengths) && b.in.Lengths[i].Run == r.ID {
			t.cut += float64(b.in.Lengths[i].Cut)
		} else {
			t.all = false
		}
	}
	for _, key := range order {
		name := key
		if c, ok := b.stock.stock.Cable(key); ok {
			name = c.Name
		} else if key == "" {
			name = "No cable chosen"
		}
		t := totals[key]
		words := name + ": " + strconv.Itoa(t.runs) + " runs"
		if t.runs == 1 {
			words = name + ": 1 run"
		}
		if t.all {
			words += ", " + strconv.FormatFloat(t.cut, 'f', 1, 64) + " m cut"
		}
		out = append(out, Entry{"Cables", nil, words})
	}
	return out
}

// RunSample returns the sample of a run on the mains, or at extra-low voltage.
func RunSample(p *Palette, low bool) []Item {
	s := mains
	if low {
		s = extra
	}
	return []Item{{Kind: Polyline, Points: []XY{{-LegendWidth / 2, 0}, {LegendWidth / 2, 0}}, Style: runStyle(p, s)}}
}
