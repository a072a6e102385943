package scene

import (
	"math"
	"strconv"
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// SectionInput is everything that the side of a run is drawn from.
type SectionInput struct {
	Scheme   *doc.Scheme
	Stock    *doc.Stock // nil: symbols by entity only
	Palette  *Palette   // nil: Light()
	Profile  *derive.Profile
	Readings [2]SectionReading
	Findings []finding.Finding
	Lengths  []derive.Length // for the cut length in the title
	Chosen   int             // 0 the start, then the legs from 1 on, then the end; -1 for none
	Mark     Colour          // of what is chosen
	// Scale is kept while a part is dragged, so that the picture stays still;
	// nil fits it.
	Scale *SectionScale
}

// SectionReading is what a meter should read at an end.
type SectionReading struct {
	Volts q.Volt
	Amps  q.Ampere
	Known bool
}

// SectionScale maps a section, distances along the run and levels above ground,
// to millimetres on paper.
type SectionScale struct {
	Origin  XY      // of the start at ground level
	K       float64 // paper mm per µm along
	Stretch float64 // how many times larger heights are drawn
}

// Paper returns the place on paper of a distance and a level.
func (s SectionScale) Paper(along, level geom.Length) XY {
	return XY{s.Origin.X + float64(along)*s.K, s.Origin.Y - float64(level)*s.K*s.Stretch}
}

// Place returns the distance and level (X, Y) at a place on paper.
func (s SectionScale) Place(p XY) geom.Point {
	return geom.Point{X: geom.Length(math.Round((p.X - s.Origin.X) / s.K)), Y: geom.Length(math.Round((s.Origin.Y - p.Y) / (s.K * s.Stretch)))}
}

// Room around the section, mm: the ends are lettered left and right, the title
// stands above, the distances below.
const (
	sectionLeft  = 27.0
	sectionRight = 20.0
	sectionTop   = 4.4
	sectionFoot  = 4.2
)

// stretches are the numbers of times that heights may be drawn larger.
var stretches = [...]float64{50, 20, 10, 5, 2, 1}

// FitSection returns the scale at which a profile fills width by height mm:
// heights are stretched by the largest round number that leaves room for all
// of them, and never shrunk.
func FitSection(p *derive.Profile, width, height float64) SectionScale {
	w, h := max(width-sectionLeft-sectionRight, 10), max(height-sectionTop-sectionFoot, 6)
	lo, hi := levelRange(p)
	ky := h / float64(hi-lo)
	s := SectionScale{K: ky, Stretch: 1}
	if p.Length > 0 {
		s.K = min(w/float64(p.Length), ky)
	}
	for _, n := range stretches {
		if s.K*n <= ky*(1+1e-9) {
			s.Stretch = n
			break
		}
	}
	s.Origin.X = sectionLeft + (w-float64(p.Length)*s.K)/2
	spare := h - float64(hi-lo)*s.K*s.Stretch
	s.Origin.Y = sectionTop + float64(hi)*s.K*s.Stretch + spare/2
	return s
}

// levelRange returns the levels to be shown, with some room.
func levelRange(p *derive.Profile) (lo, hi geom.Length) {
	const deep, high = -300 * geom.Millimetre, 300 * geom.Millimetre
	lo, hi = deep, high
	take := func(l geom.Length) { lo, hi = min(lo, l), max(hi, l) }
	for _, l := range p.Legs {
		take(l.Level)
	}
	for _, e := range p.Ends {
		take(e.Level)
	}
	for _, g := range p.Ground {
		if g.Area != nil {
			dig, _ := derive.DigDepth(g.Area)
			take(-dig)
		}
	}
	for _, m := range p.Meets {
		take(m.Level)
	}
	room := (hi - lo) / 6
	return lo - room, hi + room
}

// section is the state of one drawing.
type section struct {
	*builder
	in    SectionInput
	p     *derive.Profile
	scale SectionScale
	low   float64 // bottom of the earth on paper
	sys   system
}

// Section returns the side of a run as a display list, width by height mm, with
// its scale.
func Section(in SectionInput, width, height float64) (*List, SectionScale) {
	s := section{in: in, p: in.Profile, low: height - sectionFoot,
		builder: newBuilder(Input{Scheme: in.Scheme, Stock: in.Stock, Palette: in.Palette, Lengths: in.Lengths}, View{Denominator: 1}, width, height)}
	if in.Scale != nil {
		s.scale = *in.Scale
	} else {
		s.scale = FitSection(in.Profile, width, height)
	}
	if i, ok := in.Scheme.Runs.Index(s.p.Run.ID); ok {
		s.sys = s.systems()[i]
	}
	s.earth()
	s.grades()
	s.met()
	s.chosen()
	s.cable()
	s.ends()
	s.clashMarks()
	s.legTexts()
	s.distances()
	s.title()
	return s.list, s.scale
}

func (s *section) at(along, level geom.Length) XY { return s.scale.Paper(along, level) }

// words letters a text of the run on the label layer.
func (s *section) words(text string, at XY, c Colour, bold bool) {
	s.wordsOf(string(s.p.Run.ID), text, at, c, bold)
}

// wordsOf letters a text about an entity, "" for none.
func (s *section) wordsOf(id, text string, at XY, c Colour, bold bool) {
	s.free.box(at.X-0.2, at.Y-capLabel-0.2, at.X+TextWidth(text, capLabel, bold)+0.2, at.Y+0.3, hurtLabel)
	s.letter(Item{Entity: id, Text: text, Size: capLabel, Bold: bold, Style: Style{Fill: c}}, at)
}

// slab is a stretch of ground drawn in one piece, over several legs perhaps.
type slab struct {
	from, to geom.Length
	area     *doc.Area
}

func (s *section) slabs() (out []slab) {
	for _, g := range s.p.Ground {
		if n := len(out); n > 0 && out[n-1].area == g.Area {
			out[n-1].to = g.To
		} else {
			out = append(out, slab{g.From, g.To, g.Area})
		}
	}
	return out
}

// earth draws the ground under the run, use by use, hatched as deep as people
// dig there.
func (s *section) earth() {
	for _, g := range s.slabs() {
		tone, id, name := s.pal.Other, "", ""
		var dig geom.Length
		if g.area != nil {
			tone, id = s.pal.tone(g.area.Kind), string(g.area.ID)
			dig, _ = derive.DigDepth(g.area)
			if name = g.area.Name; name == "" {
				name = sentence(g.area.Kind)
			}
		}
		a, b := s.at(g.from, 0), s.at(g.to, 0)
		b.X = max(b.X, a.X+0.2)
		fill := s.pts(4)
		fill[0], fill[1], fill[2], fill[3] = a, b, XY{b.X, s.low}, XY{a.X, s.low}
		s.add(Item{Kind: Polygon, Layer: LayerGround, Entity: id, Points: fill, Style: Style{Fill: tone.Fill}})
		if dig > 0 {
			s.dug(id, a, b, dig)
		}
		s.add(Item{Kind: Segments, Layer: LayerGround, Entity: id, Points: s.keep([]XY{b, {b.X, s.low}}), Style: Style{Stroke: s.pal.Soft, Width: fine}})
		s.nameGround(id, name, g.area, dig, a.X, b.X)
	}
	a, b := s.at(0, 0), s.at(s.p.Length, 0)
	s.add(Item{Kind: Polyline, Layer: LayerGround, Points: s.keep([]XY{{a.X - 1.5, a.Y}, {max(b.X, a.X+3) + 1.5, b.Y}}), Style: Style{Stroke: s.pal.Wall, Width: bold}})
}

// dug hatches the ground as deep as people dig.
func (s *section) dug(id string, a, b XY, dig geom.Length) {
	y := min(s.at(0, -dig).Y, s.low)
	ring := []XY{a, b, {b.X, y}, {a.X, y}}
	if ps := s.ruled(ring, rule{angle: 55, step: 1.5}); len(ps) > 0 {
		s.add(Item{Kind: Segments, Layer: LayerGround, Entity: id, Points: ps, Style: Style{Stroke: s.pal.Soft, Width: fine}})
	}
	s.add(Item{Kind: Segments, Layer: LayerGround, Entity: id, Points: s.keep([]XY{{a.X, y}, {b.X, y}}), Style: Style{Stroke: s.pal.Soft, Width: thin, Dash: []float64{1.2, 0.8}}})
}

// nameGround letters the use of the ground along the bottom, with the digging
// depth where there is room.
func (s *section) nameGround(id, name string, a *doc.Area, dig geom.Length, x0, x1 float64) {
	if name == "" {
		return
	}
	tries := []string{name}
	if dig > 0 {
		tries = []string{name + ", " + derive.DigWords(a), name, doc.Written(dig)}
	}
	for _, text := range tries {
		if w := TextWidth(text, capLabel, false); w <= x1-x0-0.8 {
			s.wordsOf(id, text, XY{(x0 + x1 - w) / 2, s.low - 0.7}, s.pal.Ink, false)
			return
		}
	}
}

// grades draws level lines at round heights with their figures in metres.
func (s *section) grades() {
	step := geom.Length(0)
	for _, mm := range [...]geom.Length{50, 100, 200, 500, 1000, 2000, 5000} {
		if step = mm * geom.Millimetre; float64(step)*s.scale.K*s.scale.Stretch >= 3.4 {
			break
		}
	}
	x0, x1 := s.scale.Origin.X, s.at(s.p.Length, 0).X
	var ps []XY
	for n := -200; n <= 200; n++ {
		l := geom.Length(n) * step
		y := s.at(0, l).Y
		if y < sectionTop+0.4 || y > s.low-0.4 {
			continue
		}
		ps = append(ps, XY{x0 - 1.2, y}, XY{x0, y})
		if n != 0 {
			ps = append(ps, XY{x0, y}, XY{x1, y})
		}
		text := doc.Fixed(l, geom.Metre)
		if n > 0 {
			text = "+" + text
		}
		s.wordsOf("", text, XY{x0 - 1.8 - TextWidth(text, capLabel, false), y + capLabel/2}, s.pal.Soft, false)
	}
	if len(ps) > 0 {
		s.add(Item{Kind: Segments, Layer: LayerGrid, Points: ps, Style: Style{Stroke: s.pal.Soft, Width: fine, Dash: []float64{0.3, 1.1}}})
	}
}

// met marks the services and runs that are crossed: a service by an upright
// line with a cross, for its depth is not known; a run by a ring at its level.
func (s *section) met() {
	for _, m := range s.p.Meets {
		id := string(m.On.Key())
		switch m.Kind {
		case derive.MeetService:
			top, bottom := s.at(m.From, 0), s.at(m.From, 0)
			top.Y, bottom.Y = top.Y-1.6, s.low
			mid := XY{top.X, min(top.Y+3.4, s.low-1)}
			s.add(Item{Kind: Segments, Layer: LayerLines, Entity: id, Points: s.keep([]XY{top, bottom}), Style: Style{Stroke: s.pal.Service, Width: medium, Dash: []float64{1.6, 0.8}}})
			s.add(Item{Kind: Segments, Layer: LayerLines, Entity: id, Points: s.keep([]XY{{mid.X - 0.8, mid.Y - 0.8}, {mid.X + 0.8, mid.Y + 0.8}, {mid.X - 0.8, mid.Y + 0.8}, {mid.X + 0.8, mid.Y - 0.8}}),
				Style: Style{Stroke: s.pal.Service, Width: medium}})
			name := m.On.(*doc.Line).Name
			if name == "" {
				name = "buried service"
			}
			name += ", depth not known"
			x, w := top.X+0.8, TextWidth(name, capLabel, false)
			if x+w > s.at(s.p.Length, 0).X {
				x = top.X - 0.8 - w
			}
			s.wordsOf(id, name, XY{x, top.Y + 0.2}, s.pal.Service, false)
		case derive.MeetRun:
			at := s.at(m.From, m.Level)
			s.disc(LayerLines, id, at, 0.9, Style{Stroke: s.pal.Ink, Width: medium, Fill: s.pal.Paper})
			s.wordsOf(id, m.On.Label(), XY{at.X + 1.3, at.Y + capLabel/2}, s.pal.Ink, false)
		}
	}
}

// chosen lays the mark under the chosen part.
func (s *section) chosen() {
	n := s.in.Chosen
	st := Style{Stroke: s.in.Mark, Width: 2.2}
	st.Stroke.A = 0x60
	if n >= 1 && n <= len(s.p.Legs) {
		l := s.p.Legs[n-1]
		a, b := s.at(l.From, l.Level), s.at(l.To, l.Level)
		s.add(Item{Kind: Polyline, Layer: LayerRuns, Points: s.keep([]XY{{a.X, a.Y}, {max(b.X, a.X+0.5), b.Y}}), Style: st})
		for _, p := range [2]XY{a, b} {
			s.add(Item{Kind: Polygon, Layer: LayerRuns, Points: s.square(p, 0.9), Style: Style{Stroke: s.in.Mark, Width: medium, Fill: s.pal.Paper}})
		}
	}
}

// legDash tells the support apart on the side of a run; marks and words do so
// too.
var legDash = [...][]float64{network.Clipped: nil, network.Buried: nil, network.InDuct: nil,
	network.OnStructure: {2.6, 0.8}, network.InTree: {1.3, 0.8}, network.Indoors: {0.5, 0.8}}

// cable draws the run with its rises.
func (s *section) cable() {
	p, id := s.p, string(s.p.Run.ID)
	colour := runStyle(s.pal, s.sys).Stroke
	var rises []XY
	var last XY
	for i, l := range p.Legs {
		a, b := s.at(l.From, l.Level), s.at(l.To, l.Level)
		if i == 0 && p.Ends[0].On != nil {
			last = s.at(0, p.Ends[0].Level)
		} else if i == 0 {
			last = a
		}
		if last != a {
			rises = append(rises, last, a)
		}
		st := Style{Stroke: colour, Width: bold, Dash: legDash[l.Support]}
		if l.Support == network.Buried {
			st.Width = heavy
		}
		if l.Unsaid {
			st.Width, st.Dash = medium, []float64{0.3, 1.2}
		}
		s.add(Item{Kind: Polyline, Layer: LayerRuns, Entity: id, Points: s.keep([]XY{a, b}), Style: st})
		s.free.stroke(a, b, 3*hurtRun)
		last = b
	}
	if p.Ends[1].On != nil {
		if end := s.at(p.Length, p.Ends[1].Level); end != last {
			rises = append(rises, last, end)
		}
	}
	if len(rises) > 0 {
		s.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Points: s.keep(rises), Style: Style{Stroke: colour, Width: bold}})
	}
	for i, l := range p.Legs {
		path := []XY{s.at(l.From, l.Level), s.at(l.To, l.Level)}
		if marks := s.supports(path, p.Run.Legs[i:i+1]); len(marks) > 0 {
			s.add(Item{Kind: Segments, Layer: LayerRuns, Entity: id, Points: marks, Style: Style{Stroke: colour, Width: medium}})
		}
	}
}

// symbolOf returns the name of the symbol of what stands at an end.
func (b *builder) symbolOf(e doc.Entity) string {
	switch e := e.(type) {
	case *doc.Box:
		return b.boxName(e)
	case *doc.Lamp:
		return b.lampName(e)
	case *doc.Gear:
		return b.gearName(e)
	case *doc.Source:
		return b.sourceName(e)
	case *doc.Supply:
		return supplyName(e)
	}
	return "box"
}

// ends draws what stands at the ends at its height, and what is read there.
func (s *section) ends() {
	for n, e := range s.p.Ends {
		along := geom.Length(n) * s.p.Length
		x := s.at(along, 0).X
		if e.On == nil {
			l := s.p.Legs[n*(len(s.p.Legs)-1)]
			s.disc(LayerPoints, "", s.at(along, l.Level), 0.9, Style{Stroke: s.pal.Ink, Width: medium, Fill: s.pal.Paper})
			s.endText("", n, s.at(along, 0).Y, []string{"in the air"})
			continue
		}
		at, id := s.at(along, e.Level), string(e.On.Key())
		if foot := s.at(along, 0); e.Level > 0 && foot.Y-at.Y > 1 {
			s.add(Item{Kind: Segments, Layer: LayerPoints, Entity: id, Points: s.keep([]XY{{x, at.Y}, foot}), Style: Style{Stroke: s.pal.Soft, Width: thin, Dash: []float64{0.8, 0.6}}})
		}
		for _, it := range Symbol(s.symbolOf(e.On), at, s.pal) {
			it.Entity = id
			s.add(it)
		}
		if s.in.Chosen == n*(len(s.p.Legs)+1) {
			s.add(Item{Kind: Polygon, Layer: LayerPoints, Points: s.square(at, 2.8), Style: Style{Stroke: s.in.Mark, Width: 0.5}})
		}
		lines := []string{e.On.Label()}
		if r := s.in.Readings[n]; r.Known {
			lines = append(lines, r.Volts.String(), r.Amps.String())
		} else {
			lines = append(lines, "no reading")
		}
		s.endText(id, n, at.Y, append(lines, heightText(e.Level)))
	}
}

func heightText(l geom.Length) string {
	switch {
	case l == 0:
		return "on the ground"
	case l < 0:
		return doc.Written(-l) + " deep"
	}
	return doc.Written(l) + " up"
}

// endText letters the lines of an end left or right of the section, the first
// of them bold.
func (s *section) endText(id string, n int, y float64, lines []string) {
	const pitch = 3.0
	high := pitch * float64(len(lines))
	y = min(max(y-high/2, sectionTop+0.2), max(s.h-0.6-high, sectionTop+0.2))
	wide := 0.0
	for i, text := range lines {
		wide = max(wide, TextWidth(text, capLabel, i == 0))
	}
	for i, text := range lines {
		x := min(s.at(s.p.Length, 0).X+4, s.w-0.6-wide) // never cut off
		if n == 0 {
			x = 1.2
			if free := s.scale.Origin.X - sectionLeft; free > 0 {
				x += free
			}
		}
		s.wordsOf(id, text, XY{x, y + pitch*float64(i) + capLabel + 0.4}, s.pal.Ink, i == 0)
	}
}

// clashMarks puts the findings about digging where they are.
func (s *section) clashMarks() {
	profile := func(id doc.ID) *derive.Profile {
		if id == s.p.Run.ID {
			return s.p
		}
		return nil
	}
	taken := map[XY]float64{}
	for _, c := range clashes(s.in.Scheme, s.in.Findings, profile) {
		at := s.at(c.along, s.p.Legs[c.leg].Level)
		s.disc(LayerFinding, string(c.run), at, 0.7, Style{Stroke: s.pal.Ink, Width: medium})
		x := at.X + taken[at]
		taken[at] += 2*badgeRadius + 0.3
		y := at.Y - badgeRadius - 1.2
		for _, it := range Badge(c.f.Level, c.f.Overruled != nil, XY{x, y}, s.pal) {
			it.Entity = string(c.run)
			s.add(it)
		}
		s.free.box(x-badgeRadius, y-badgeRadius, x+badgeRadius, y+badgeRadius, hurtLabel)
	}
}

// legTexts says of each leg how it is carried and how deep or high, as long as
// there is room.
func (s *section) legTexts() {
	for i, l := range s.p.Legs {
		a, b := s.at(l.From, l.Level), s.at(l.To, l.Level)
		support, figure := supportWords[l.Support], doc.Written(l.Level)
		switch {
		case l.Unsaid:
			figure = "depth not given"
		case l.Support == network.Buried || l.Support == network.InDuct:
			figure = doc.Written(-l.Level)
		case l.Level == 0:
			figure = "at ground"
		}
		for _, text := range []string{strconv.Itoa(i+1) + " " + support + ", " + figure, support + ", " + figure, figure} {
			w := TextWidth(text, capLabel, false)
			if w > b.X-a.X-1 {
				continue
			}
			best, at := 400, XY{}
			for _, t := range [...]float64{0.5, 0.3, 0.7} {
				for k, y := range [...]float64{a.Y - 0.9, a.Y + capLabel + 1.9} {
					x := a.X + (b.X-a.X-w)*t
					if cost := k + 4*int(math.Abs(t-0.5)*10) + s.free.cost(x, y-capLabel, x+w, y, best); cost < best && y < s.low-2.6 {
						best, at = cost, XY{x, y}
					}
				}
			}
			if best < 400 {
				s.words(text, at, runStyle(s.pal, s.sys).Stroke, false)
				break
			}
		}
	}
}

// distances letters the way along the run at its bends.
func (s *section) distances() {
	y := s.low + capLabel + 0.9
	last := math.Inf(-1)
	end := strconv.FormatFloat(s.p.Length.Metres(), 'f', 2, 64) + " m along"
	stop := s.at(s.p.Length, 0).X - TextWidth(end, capLabel, false)/2
	letter := func(text string, along geom.Length) {
		x, w := s.at(along, 0).X, TextWidth(text, capLabel, false)
		s.add(Item{Kind: Segments, Layer: LayerGrid, Points: s.keep([]XY{{x, s.low}, {x, s.low + 0.8}}), Style: Style{Stroke: s.pal.Soft, Width: thin}})
		if along < s.p.Length && x+w/2 > stop-1 || x-w/2 < last+1 {
			return
		}
		last = x + w/2
		s.wordsOf("", text, XY{x - w/2, y}, s.pal.Soft, false)
	}
	for _, l := range s.p.Legs {
		letter(strconv.FormatFloat(l.From.Metres(), 'f', 2, 64), l.From)
	}
	letter(end, s.p.Length)
}

// title names the run and states the scale of heights, both as fully as there is
// room for.
func (s *section) title() {
	i, _ := s.in.Scheme.Runs.Index(s.p.Run.ID)
	name := s.runText(i)
	full := name
	switch s.sys {
	case mains:
		full += " · mains"
	case extra:
		full += " · extra-low voltage"
	}
	stretch := strconv.FormatFloat(s.scale.Stretch, 'f', -1, 64)
	long, short := "heights drawn as lengths", "heights × "+stretch
	if s.scale.Stretch > 1 {
		long = "heights " + stretch + " times larger than lengths"
	}
	tag, _, _ := strings.Cut(name, " · ")
	for _, t := range [...][2]string{{full, long}, {full, short}, {name, short}, {tag, short}, {tag, "× " + stretch}} {
		w := TextWidth(t[1], capLabel, false)
		if 1.2+TextWidth(t[0], capLabel, true)+3 < s.w-w-1.2 || t[1][0] != 'h' {
			s.words(t[0], XY{1.2, 3}, s.pal.Ink, true)
			s.wordsOf("", t[1], XY{s.w - w - 1.2, 3}, s.pal.Soft, false)
			return
		}
	}
}
