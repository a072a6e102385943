package scene

import (
	"duskwire/calc/finding"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// digSteps part the ground by how deep people dig: edging and spiking, one
// spit, two spits (common practice, no source).
var digSteps = [...]geom.Length{0, 150 * geom.Millimetre, 300 * geom.Millimetre, 450 * geom.Millimetre}

const digGrounds = len(digSteps) + 1

var (
	digLight = [digGrounds]Tone{{rgb(0xF8F8F6), rgb(0xC9C9C4)}, {rgb(0xF6F0E4), rgb(0xB69C6E)}, {rgb(0xF0E5D0), rgb(0xA98C59)},
		{rgb(0xEADABC), rgb(0x9C7C46)}, {rgb(0xE6D0AA), rgb(0x8A6832)}}
	digDark = [digGrounds]Tone{{rgb(0x1B1D20), rgb(0x444A51)}, {rgb(0x231F18), rgb(0x665539)}, {rgb(0x2A2318), rgb(0x776140)},
		{rgb(0x32281A), rgb(0x886C44)}, {rgb(0x392C1A), rgb(0x997848)}}
)

// digRules hatch the classes: the deeper, the closer.
var digRules = [digGrounds][]rule{
	1: {{45, 5, []float64{1.2, 1.6}}},
	2: {{45, 3.8, nil}},
	3: {{45, 2.3, nil}},
	4: {{45, 2.3, nil}, {-45, 2.3, nil}},
}

// digGround returns the class of a piece of ground, -1 for what is painted as
// on the plan: nobody digs in a building or in water.
func digGround(a *doc.Area) int {
	if a.Kind == "building" || a.Kind == "water" && a.DigDepth == 0 {
		return -1
	}
	n := 0
	depth, _ := derive.DigDepth(a)
	for n < len(digSteps) && depth > digSteps[n] {
		n++
	}
	return n
}

func digTone(p *Palette, class int) Tone {
	if c := p.Paper; int(c.R)+int(c.G)+int(c.B) < 3*128 {
		return digDark[class]
	}
	return digLight[class]
}

// paintGround fills and hatches an area: by its kind, or in the look of digging
// by how deep people dig there.
func (b *builder) paintGround(a *doc.Area, seen []XY) {
	if b.in.Look == LookDusk {
		return // the night picture shows the ground
	}
	id, tone, class := string(a.ID), b.pal.tone(a.Kind), -1
	if b.dig != nil {
		class = digGround(a)
	}
	if class >= 0 {
		tone = digTone(b.pal, class)
	}
	b.add(Item{Kind: Polygon, Layer: LayerGround, Entity: id, Points: b.keep(seen), Style: Style{Fill: b.ground(tone.Fill)}})
	if class < 0 {
		b.texture(id, a.Kind, seen, tone.Hatch)
		return
	}
	for _, r := range digRules[class] {
		if ps := b.ruled(seen, r); len(ps) > 0 {
			b.add(Item{Kind: Segments, Layer: LayerGround, Entity: id, Points: ps, Style: Style{Stroke: tone.Hatch, Width: fine, Dash: r.dash}})
		}
	}
}

// digName adds the digging depth to the name of an area.
func (b *builder) digName(name string, a *doc.Area) string {
	if b.dig == nil {
		return name
	}
	if depth, _ := derive.DigDepth(a); depth == 0 {
		return name
	}
	return name + ", " + derive.DigWords(a)
}

// Groups of the legend of the look of digging.
const (
	GroupDepths = "Depth of runs"
	GroupGround = "Ground, by how deep people dig"
	GroupMarks  = "Marks of digging"
)

// digEntries explain what the look of digging shows.
func (b *builder) digEntries() (out []Entry) {
	s := b.in.Scheme
	var used [depthClasses]bool
	var voltages [3]bool
	systems := b.systems()
	for i, r := range s.Runs.All() {
		for _, l := range r.Legs {
			used[b.dig.class(l)] = true
		}
		voltages[systems[i]] = true
	}
	sample := func(draw func(*builder)) []Item {
		e := newBuilder(Input{Scheme: &doc.Scheme{}, Palette: b.pal, Look: LookDig}, View{Denominator: 1}, 100, 100)
		draw(e)
		for i := range e.list.Items {
			for j, p := range e.list.Items[i].Points {
				e.list.Items[i].Points[j] = XY{p.X - 50, p.Y - 50}
			}
		}
		return e.list.Items
	}
	const x, y = LegendWidth / 2, LegendHeight / 2
	line := func(c depthClass, colour Colour) []Item {
		return sample(func(e *builder) { e.depthLines("", XY{50 - x, 50}, XY{50 + x, 50}, c, colour) })
	}
	for c, yes := range used {
		if yes {
			out = append(out, Entry{GroupDepths, line(depthClass(c), b.pal.Ink), b.dig.words(depthClass(c))})
		}
	}
	if voltages[mains] {
		out = append(out, Entry{GroupDepths, line(worked, runStyle(b.pal, mains).Stroke), "This colour: mains"})
	}
	if voltages[extra] {
		colour := runStyle(b.pal, extra).Stroke
		out = append(out, Entry{GroupDepths, append(line(worked, colour), sample(func(e *builder) { e.extraMarks("", XY{50 - x, 50}, XY{50 + x, 50}, colour) })...),
			"Strokes across, this colour: extra-low voltage (ELV)"})
	}
	out = append(out, b.digGroundEntries(sample, x, y)...)
	return append(out, b.digMarkEntries(sample)...)
}

func (b *builder) digGroundEntries(sample func(func(*builder)) []Item, x, y float64) (out []Entry) {
	var grounds [digGrounds]bool
	for _, a := range b.in.Scheme.Areas.All() {
		if c := digGround(a); c >= 0 {
			grounds[c] = true
		}
	}
	for c, yes := range grounds {
		if !yes {
			continue
		}
		a := &doc.Area{Kind: "lawn"}
		words := "No digging given"
		switch {
		case c == digGrounds-1:
			a.DigDepth, words = digSteps[c-1]+geom.Millimetre, "Deeper than "+doc.Written(digSteps[c-1])
		case c > 0:
			a.DigDepth, words = digSteps[c], "Up to "+doc.Written(digSteps[c])
		}
		ring := []XY{{50 - x, 50 - y}, {50 + x, 50 - y}, {50 + x, 50 + y}, {50 - x, 50 + y}}
		out = append(out, Entry{GroupGround, sample(func(e *builder) {
			e.paintGround(a, ring)
			e.add(Item{Kind: Polygon, Layer: LayerGround, Points: e.keep(ring), Style: Style{Stroke: e.pal.Soft, Width: thin}})
		}), words})
	}
	return out
}

func (b *builder) digMarkEntries(sample func(func(*builder)) []Item) (out []Entry) {
	add := func(words string, items []Item) { out = append(out, Entry{GroupMarks, items, words}) }
	var seen [finding.Stop + 1]bool
	for i := range b.in.Findings {
		if f := &b.in.Findings[i]; digging(f.Code) {
			seen[f.Level] = true
		}
	}
	words := [...]string{finding.Note: "Note about the way", finding.Decide: "Decide: clash in the ground", finding.Stop: "Stop: clash in the ground"}
	for l := finding.Stop; l >= finding.Note; l-- {
		if seen[l] {
			add(words[l], append(clashMark(XY{-1.9, 0}, l, false, b.pal), Badge(l, false, XY{1.9, 0}, b.pal)...))
		}
	}
	s := b.in.Scheme
	for _, l := range s.Lines.All() {
		if l.Kind == "buried service" {
			add("Service crossed: trial hole first", []Item{serviceMark(XY{}, b.pal, "")})
			break
		}
	}
	for _, m := range s.Marks.All() {
		if m.Kind == "tree" {
			add("Nothing dug nearer to a tree", sample(func(e *builder) { e.ring("", XY{50, 50}, 2, e.noDig()) }))
			add("By hand up to here", sample(func(e *builder) { e.ring("", XY{50, 50}, 2, e.byHand()) }))
			break
		}
	}
	return out
}
