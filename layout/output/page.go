package output

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// Sheet says what a picture of the plan shows and on which paper.
type Sheet struct {
	Plan  scene.Input
	Date  string // as it is to be printed; "" prints none
	Rules string // name of the rule set; "" takes the scheme's key
	// Amendment says of what time the values of the rule set are; "" says nothing.
	Amendment string
	// Paper is "A4" or "A3", Turn "landscape" or "portrait"; "" picks the
	// smallest paper that shows the plan well.
	Paper, Turn string
	// Denominator is the drawing scale, 50 for 1:50; 0 takes the scheme's own
	// where it fits, and the largest that fits where it does not.
	Denominator int
	// Circuit makes it a sheet of the one-line diagram in place of the plan.
	Circuit *scene.OneLineInput
	// PixelsPerMM is the resolution of a PNG; 0 takes 8 (203 dpi).
	PixelsPerMM float64
	// Part names the sheet as one of a pack, with Number of Of; "" stands alone.
	// A sheet of a pack has the wide margin for filing of ISO 5457.
	Part       string
	Number, Of int
	// Window is the part of the plan that is shown, with what lies beside it cut
	// off at the frame; empty for all of it.
	Window geom.Rect
	// More are rows of the legend that the plan itself does not explain.
	More []scene.Entry
}

// Sizes of the sheet in millimetres.
const (
	edge       = 10.0 // paper outside the frame
	filing     = 20.0 // on the left of a sheet that is filed (ISO 5457, from memory)
	sideStrip  = 76.0 // title and legend beside a landscape plan
	footStrip  = 74.0 // and below a portrait one
	titleHigh  = 58.0 // scale bar and title block together
	blockHigh  = 40.0 // title block
	capTitle   = 3.2
	capBody    = 2.0
	capSmall   = 1.8
	pitchSmall = 3.1 // between lines of small text
)

// format is one way to lay the sheet: paper size and the room for the plan.
type format struct {
	paper, turn   string
	width, height float64
	left          float64 // paper on the left of the frame
	room, strip   box     // plan, and the strip with legend and title
}

type box struct{ x0, y0, x1, y1 float64 }

func (b box) width() float64  { return b.x1 - b.x0 }
func (b box) height() float64 { return b.y1 - b.y0 }

// formats returns the formats a sheet allows, the most welcome first.
func formats(s Sheet) (out []format) {
	for _, paper := range []struct {
		name        string
		long, short float64
	}{{"A4", 297, 210}, {"A3", 420, 297}} {
		for _, turn := range []string{"landscape", "portrait"} {
			if s.Paper != "" && s.Paper != paper.name || s.Turn != "" && s.Turn != turn {
				continue
			}
			f := format{paper: paper.name, turn: turn, width: paper.long, height: paper.short, left: edge}
			if s.Part != "" {
				f.left = filing
			}
			if turn == "portrait" {
				f.width, f.height = paper.short, paper.long
			}
			f.room = box{f.left, edge, f.width - edge, f.height - edge}
			f.strip = f.room
			if turn == "landscape" {
				f.room.x1 -= sideStrip
				f.strip.x0 = f.room.x1
			} else {
				f.room.y1 -= footStrip
				f.strip.y0 = f.room.y1
			}
			out = append(out, f)
		}
	}
	return out
}

// choose picks paper and scale. The scale asked for, else the scheme's own,
// is kept when some paper holds it. Otherwise it is the largest that fits, on
// A4 when that gives 1:50 or larger, or when A3 gives nothing better.
func choose(s Sheet) (format, int, error) {
	all := formats(s)
	if len(all) == 0 {
		return format{}, 0, fmt.Errorf("picture: paper %q, %q: expected A4 or A3, landscape or portrait", s.Paper, s.Turn)
	}
	extent := extentOf(s)
	wanted := s.Denominator
	if wanted == 0 {
		wanted = s.Plan.Scheme.Plan.Scale
	}
	for _, f := range all {
		if wanted > 0 && scene.Fits(extent, wanted, f.room.width(), f.room.height()) {
			return f, wanted, nil
		}
	}
	best, scale := format{}, math.MaxInt
	for _, f := range all {
		d, ok := scaleFor(extent, f.room)
		if ok && d < scale && scale > 50 {
			best, scale = f, d
		}
	}
	if scale == math.MaxInt {
		return format{}, 0, fmt.Errorf("picture: the plan is %.0f m by %.0f m and does not fit the paper at 1:%d",
			extent.Width().Metres(), extent.Height().Metres(), scene.Scales[len(scene.Scales)-1])
	}
	if s.Denominator > 0 {
		return format{}, 0, fmt.Errorf("picture: the plan does not fit the paper at 1:%d; the largest scale that fits is 1:%d",
			s.Denominator, scale)
	}
	return best, scale, nil
}

// extentOf is what of the plan has to fit.
func extentOf(s Sheet) geom.Rect {
	if !s.Window.Empty() {
		return s.Window
	}
	return scene.Extent(s.Plan.Scheme)
}

// scaleFor returns the denominator of the largest scale at which a rectangle
// fits, and whether any does.
func scaleFor(extent geom.Rect, room box) (int, bool) {
	if extent.Empty() {
		return 50, true
	}
	for _, d := range scene.Scales {
		if scene.Fits(extent, d, room.width(), room.height()) {
			return d, true
		}
	}
	return scene.Scales[len(scene.Scales)-1], false
}

// ScaleOf returns the scale that a sheet gets, 50 for 1:50, and the millimetres
// that it has for the plan.
func ScaleOf(s Sheet) (denominator int, width, height float64, err error) {
	f, scale, err := choose(s)
	return scale, f.room.width(), f.room.height(), err
}

// Page returns the whole sheet: the plan to scale, frame, legend, scale bar,
// north arrow and title block. In its View a plan point gives its place on
// the sheet, so that 10 m at 1:50 are 200 mm.
func Page(s Sheet) (*scene.List, error) {
	f, scale, err := choose(s)
	if err != nil {
		return nil, err
	}
	if s.Plan.Palette == nil {
		s.Plan.Palette = scene.Light()
	}
	view := centred(extentOf(s), float64(scale), f.room)
	l := scene.Build(s.Plan, view, f.room.width(), f.room.height())
	clipOutlines(l, f.room.width(), f.room.height())
	shift(l, f.room.x0, f.room.y0)
	l.Width, l.Height = f.width, f.height
	p := &sheet{list: l, pal: s.Plan.Palette}
	if !s.Window.Empty() {
		p.cover(f)
	}
	p.frame(f)
	title := box{f.strip.x1 - sideStrip, f.strip.y1 - titleHigh, f.strip.x1, f.strip.y1}
	legend := box{f.strip.x0, f.strip.y0, f.strip.x1, title.y0}
	if f.turn == "portrait" {
		legend = box{f.strip.x0, f.strip.y0, title.x0, f.strip.y1}
		p.line(medium, title.x0, f.strip.y0, title.x0, f.strip.y1)
	}
	p.legend(s, legend)
	if f.turn == "portrait" {
		title.y0 = f.strip.y0
	}
	p.measures(scale, s.Plan.Scheme.Plan.North, title)
	p.title(s, f, scale, title)
	return l, nil
}

// centred returns the view with a rectangle of the plan in the middle of a room.
func centred(r geom.Rect, denominator float64, room box) scene.View {
	c, k := r.Centre(), denominator*float64(geom.Millimetre)
	return scene.View{Denominator: denominator,
		Origin: geom.Point{X: c.X - geom.Length(room.width()/2*k), Y: c.Y + geom.Length(room.height()/2*k)}}
}

// cover hides what of the plan reaches over the edges of its room.
func (p *sheet) cover(f format) {
	r := f.room
	for _, b := range []box{{0, 0, f.width, r.y0}, {0, r.y1, f.width, f.height}, {0, r.y0, r.x0, r.y1}, {r.x1, r.y0, f.width, r.y1}} {
		p.add(scene.Item{Kind: scene.Polygon, Style: scene.Style{Fill: p.pal.Paper},
			Points: []scene.XY{{X: b.x0, Y: b.y0}, {X: b.x1, Y: b.y0}, {X: b.x1, Y: b.y1}, {X: b.x0, Y: b.y1}}})
	}
}

// shift moves a list on the sheet, its view with it.
func shift(l *scene.List, dx, dy float64) {
	for i := range l.Items {
		ps := make([]scene.XY, len(l.Items[i].Points))
		for j, q := range l.Items[i].Points {
			ps[j] = scene.XY{X: q.X + dx, Y: q.Y + dy}
		}
		l.Items[i].Points = ps
	}
	k := l.View.Denominator * float64(geom.Millimetre)
	l.View.Origin.X -= geom.Length(math.Round(dx * k))
	l.View.Origin.Y += geom.Length(math.Round(dy * k))
}

// Line weights of the sheet, millimetres.
const (
	thin   = 0.18
	medium = 0.35
	thick  = 0.7
)

// sheet adds the parts around the plan.
type sheet struct {
	list *scene.List
	pal  *scene.Palette
}

func (p *sheet) add(it scene.Item) {
	it.Layer = scene.LayerFrame
	p.list.Items = append(p.list.Items, it)
}

func (p *sheet) line(width float64, v ...float64) {
	var ps []scene.XY
	for i := 0; i+1 < len(v); i += 2 {
		ps = append(ps, scene.XY{X: v[i], Y: v[i+1]})
	}
	p.add(scene.Item{Kind: scene.Polyline, Points: ps, Style: scene.Style{Stroke: p.pal.Ink, Width: width}})
}

func (p *sheet) text(s string, x, y, size float64, bold bool) {
	p.add(scene.Item{Kind: scene.Text, Points: []scene.XY{{X: x, Y: y}}, Text: s, Size: size, Bold: bold,
		Style: scene.Style{Fill: p.pal.Ink}})
}

func (p *sheet) soft(s string, x, y float64, anchor scene.Anchor) {
	p.add(scene.Item{Kind: scene.Text, Points: []scene.XY{{X: x, Y: y}}, Text: s, Size: capSmall, Anchor: anchor,
		Style: scene.Style{Fill: p.pal.Soft}})
}

// frame draws the outline of the sheet and of the strip.
func (p *sheet) frame(f format) {
	p.line(thick, f.left, edge, f.width-edge, edge, f.width-edge, f.height-edge, f.left, f.height-edge, f.left, edge)
	if f.turn == "landscape" {
		p.line(medium, f.strip.x0, f.strip.y0, f.strip.x0, f.strip.y1)
	} else {
		p.line(medium, f.strip.x0, f.strip.y0, f.strip.x1, f.strip.y0)
	}
	if f.left > edge { // filed in a pack
		p.middles(f)
	}
}

// middles marks the middle of each side of the sheet (ISO 5457, from memory).
func (p *sheet) middles(f format) {
	const out = 5.0
	x, y := f.width/2, f.height/2
	p.line(thick, x, edge-out, x, edge)
	p.line(thick, x, f.height-edge, x, f.height-edge+out)
	p.line(thick, f.left-out, y, f.left, y)
	p.line(thick, f.width-edge, y, f.width-edge+out, y)
}

// OneLine makes any text fit for one line of print, as the sheets do.
func OneLine(s string) string { return plain(s) }

// plain makes any text fit for one line of print: control characters and
// line breaks become spaces, runs of spaces one.
func plain(s string) string {
	clean := strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return strings.Join(strings.Fields(clean), " ")
}

// wrap breaks a text into at most most lines no wider than width; what is too
// much ends in an ellipsis. No line ends between a number and its unit.
func wrap(s string, width, size float64, bold bool, most int) (out []string) {
	fits := func(t string) bool { return scene.TextWidth(t, size, bold) <= width }
	rest := []rune(plain(s))
	for len(rest) > 0 {
		if fits(string(rest)) {
			return append(out, string(rest))
		}
		n := 1 // runes that fit; break at the last space among them
		for n < len(rest) && fits(string(rest[:n+1])) {
			n++
		}
		if len(out) == most-1 {
			for n > 1 && !fits(string(rest[:n])+"…") {
				n--
			}
			return append(out, strings.TrimSpace(string(rest[:n]))+"…")
		}
		cut := n
		for cut > 0 && (rest[cut] != ' ' || held(rest, cut)) {
			cut--
		}
		if cut == 0 { // not even these fit one line: at a space all the same, or in the word
			for cut = n; cut > 0 && rest[cut] != ' '; {
				cut--
			}
			if cut == 0 {
				cut = n
			}
		}
		out = append(out, strings.TrimSpace(string(rest[:cut])))
		rest = []rune(strings.TrimSpace(string(rest[cut:])))
	}
	return out
}

// held reports whether the space at i stands between a number and its unit.
func held(text []rune, i int) bool {
	before, after := strings.Fields(string(text[:i])), strings.Fields(string(text[i:]))
	return len(before) > 0 && len(after) > 0 && q.Held(before[len(before)-1], after[0])
}

// cautions stand on every sheet.
const cautions = "Isolate and prove dead before work. Do not dig on this drawing alone: " +
	"positions of services are not verified. Local rules and a competent person decide."

// title draws the title block.
func (p *sheet) title(s Sheet, f format, scale int, b box) {
	const pad = 3.0
	y := b.y1 - blockHigh
	p.line(medium, b.x0, y, b.x1, y)
	x, w := b.x0+pad, b.width()-2*pad
	name := s.Plan.Scheme.Title
	if plain(name) == "" {
		name = "Garden lighting plan"
	}
	y += pad + capTitle
	size, down := capTitle, 5.0
	if s.Part != "" { // a third line, so that the first two are smaller
		size, down = 2.5, 3.7
		p.part(s, x, y+6.7, w)
	}
	for i, t := range wrap(name, w, size, true, 2) {
		p.text(t, x, y+size-capTitle+float64(i)*down, size, true)
	}
	y += 10.8
	what := "Scale 1:" + strconv.Itoa(scale) + " on " + f.paper
	if scale == 0 {
		what = "One-line diagram, " + f.paper
	}
	p.text(what, x, y, capBody, true)
	if d := plain(s.Date); d != "" {
		p.add(scene.Item{Kind: scene.Text, Points: []scene.XY{{X: b.x1 - pad, Y: y}}, Text: wrap(d, w/2, capBody, false, 1)[0], Size: capBody,
			Anchor: scene.Right, Style: scene.Style{Fill: p.pal.Ink}})
	}
	if a := plain(s.Plan.Scheme.Author); a != "" {
		y += 4
		p.text(wrap("Drawn by "+a, w, capSmall, false, 1)[0], x, y, capSmall, false)
	}
	rules := s.Rules
	if rules == "" {
		rules = s.Plan.Scheme.Rules
	}
	words := "Design aid, not a certificate. Findings are judged by the limits set in " + rules
	if a := plain(s.Amendment); a != "" {
		words += ", " + a + "; check against the current amendment"
	}
	words += "."
	if plain(rules) == "" {
		words = "Design aid, not a certificate. No rule set chosen."
	}
	y += 0.8
	lines := append(wrap(words, w, capSmall, false, 4), wrap(cautions, w, capSmall, false, 3)...)
	pitch := min(pitchSmall, (b.y1-1.6-y)/float64(len(lines))) // many lines stand closer, so that all find room
	for _, t := range lines {
		y += pitch
		p.soft(t, x, y, scene.Left)
	}
}

// part letters which sheet of the pack it is.
func (p *sheet) part(s Sheet, x, y, w float64) {
	n := "Page " + strconv.Itoa(s.Number) + " of " + strconv.Itoa(s.Of)
	p.add(scene.Item{Kind: scene.Text, Points: []scene.XY{{X: x + w, Y: y}}, Text: n, Size: capBody, Anchor: scene.Right,
		Style: scene.Style{Fill: p.pal.Ink}})
	room := w - scene.TextWidth(n, capBody, false) - 2
	for _, t := range wrap(s.Part, room, capBody, true, 1) {
		p.text(t, x, y, capBody, true)
	}
}

// bars are the lengths of scale bar to choose from, metres.
var bars = []float64{100, 50, 20, 10, 5, 2, 1, 0.5}

// measures draws scale bar and north arrow above the title. Where north is not
// known it says so: an arrow up the sheet would be believed.
func (p *sheet) measures(scale int, north q.Maybe[float64], b box) {
	p.line(medium, b.x0, b.y0, b.x1, b.y0)
	middle := (b.y0 + b.y1 - blockHigh) / 2
	x, y := b.x0+4, middle-0.7
	for _, m := range bars {
		mm := m * 1000 / float64(scale)
		if mm > 48 {
			continue
		}
		const parts = 4
		for i := range parts {
			x0, x1 := x+mm*float64(i)/parts, x+mm*float64(i+1)/parts
			st := scene.Style{Stroke: p.pal.Ink, Width: thin, Fill: p.pal.Paper}
			if i%2 == 0 {
				st.Fill = p.pal.Ink
			}
			p.add(scene.Item{Kind: scene.Polygon, Points: []scene.XY{{X: x0, Y: y}, {X: x1, Y: y}, {X: x1, Y: y + 1.4}, {X: x0, Y: y + 1.4}}, Style: st})
		}
		for i := range 3 {
			t := strconv.FormatFloat(m*float64(i)/2, 'f', -1, 64)
			if i == 2 {
				t += " m"
			}
			w := scene.TextWidth(strings.TrimSuffix(t, " m"), capSmall, false)
			p.soft(t, x+mm*float64(i)/2-w/2, y-1.2, scene.Left)
		}
		break
	}
	p.soft("Check this bar before measuring", x-1, y+5.2, scene.Left)
	if north.Known {
		p.arrow(scene.XY{X: b.x1 - 10, Y: middle + 0.5}, north.Value)
		return
	}
	p.soft("North not", b.x1-2, middle-0.4, scene.Right)
	p.soft("given", b.x1-2, middle+2.4, scene.Right)
}

// arrow draws the north arrow, north degrees clockwise from up the sheet.
func (p *sheet) arrow(c scene.XY, north float64) {
	sin, cos := math.Sincos(north * math.Pi / 180)
	at := func(x, y float64) scene.XY { return scene.XY{X: c.X + x*cos + y*sin, Y: c.Y + x*sin - y*cos} }
	ink := scene.Style{Stroke: p.pal.Ink, Width: 0.25}
	p.add(scene.Item{Kind: scene.Polygon, Points: []scene.XY{at(0, 5), at(-1.8, -4), at(0, -2.6)},
		Style: scene.Style{Stroke: p.pal.Ink, Width: 0.25, Fill: p.pal.Ink}})
	p.add(scene.Item{Kind: scene.Polygon, Points: []scene.XY{at(0, 5), at(1.8, -4), at(0, -2.6)}, Style: ink})
	n := at(0, 7)
	p.add(scene.Item{Kind: scene.Text, Points: []scene.XY{{X: n.X, Y: n.Y + capBody/2}}, Anchor: scene.Middle, Text: "N",
		Size: capBody, Bold: true, Style: scene.Style{Fill: p.pal.Ink}})
}
