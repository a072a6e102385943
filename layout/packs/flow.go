package packs

import (
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// Sizes of a list page in millimetres. Margins and title block after ISO 5457
// and ISO 7200: 20 mm for filing, 10 mm elsewhere, a block 180 mm wide (from
// memory).
const (
	filing    = 20.0
	edge      = 10.0
	blockHigh = 27.0 // of an upright page
	blockLow  = 20.5 // of one across, whose lines are longer
	inner     = 4.0  // between frame and text
	capTitle  = 3.4
	capHead   = 2.5
	capBody   = 2.0
	capSmall  = 1.8
	pitch     = 3.7 // between lines of body text
	pitchFine = 3.2 // and of small text
)

// Line weights, millimetres.
const (
	thin   = 0.13
	medium = 0.35
	thick  = 0.7
)

// flow fills pages from the top down and starts another when one is full.
type flow struct {
	*book
	landscape bool
	large     bool // on A3, else on A4
	pages     []*scene.List
	at        *scene.List
	x, width  float64 // of the text
	y, bottom float64
	repeat    string // title of the pages that follow
	section   string // heading of what is written now
	within    string // that heading while a page starts in the middle of it
}

func newFlow(b *book, landscape bool) *flow { return newSheet(b, paper{across: landscape}) }

// paper is what a page of a pack lies on.
type paper struct{ large, across bool } // A3, landscape

// newSheet is newFlow on any paper.
func newSheet(b *book, on paper) *flow {
	f := &flow{book: b, landscape: on.across, large: on.large}
	f.page()
	return f
}

// page starts a page.
func (f *flow) page() {
	w, h := 210.0, 297.0
	if f.large {
		w, h = 297, 420
	}
	if f.landscape {
		w, h = h, w
	}
	f.at = &scene.List{Width: w, Height: h, Background: f.pal.Paper}
	f.pages = append(f.pages, f.at)
	f.x, f.width = filing+inner, w-filing-edge-2*inner
	f.y, f.bottom = edge+inner, h-edge-block(f.at)-inner
	if f.repeat != "" {
		words := f.repeat
		if f.within != "" {
			words += ": " + f.within
		}
		f.write(first(wrap(words+", continued", f.width, capHead, true)), f.x, f.y+capHead, capHead, true, scene.Left)
		f.y += capHead + 4
	}
}

// block is the height of the title block of a page.
func block(l *scene.List) float64 {
	if l.Width > l.Height {
		return blockLow
	}
	return blockHigh
}

// room starts a page when so many millimetres are not left on this one.
func (f *flow) room(high float64) {
	if f.y+high > f.bottom {
		f.page()
	}
}

func (f *flow) add(it scene.Item) {
	it.Layer = scene.LayerFrame
	f.at.Items = append(f.at.Items, it)
}

func (f *flow) line(width float64, v ...float64) {
	f.add(scene.Item{Kind: scene.Polyline, Points: points(v...), Style: scene.Style{Stroke: f.pal.Ink, Width: width}})
}

// box draws a rectangle.
func (f *flow) box(width, x0, y0, x1, y1 float64) {
	f.add(scene.Item{Kind: scene.Polygon, Points: points(x0, y0, x1, y0, x1, y1, x0, y1), Style: scene.Style{Stroke: f.pal.Ink, Width: width}})
}

func points(v ...float64) []scene.XY {
	ps := make([]scene.XY, len(v)/2)
	for i := range ps {
		ps[i] = scene.XY{X: v[2*i], Y: v[2*i+1]}
	}
	return ps
}

func (f *flow) write(s string, x, y, size float64, bold bool, a scene.Anchor) {
	f.add(scene.Item{Kind: scene.Text, Points: points(x, y), Text: s, Size: size, Bold: bold, Anchor: a, Style: scene.Style{Fill: f.pal.Ink}})
}

// title heads the part; later pages repeat it.
func (f *flow) title(s string) {
	f.write(s, f.x, f.y+capTitle, capTitle, true, scene.Left)
	f.y += capTitle + 4.5
	f.repeat, f.section = s, ""
}

// head starts a section, with room for some lines below it.
func (f *flow) head(s string) {
	f.room(capHead + 18)
	f.y += 1.5
	for _, t := range wrap(s, f.width, capHead, true) {
		f.write(t, f.x, f.y+capHead, capHead, true, scene.Left)
		f.y += capHead + 2
	}
	f.y += 1.2
	f.section = s
}

// para writes a paragraph.
func (f *flow) para(s string) { f.lines(s, 0, capBody, pitch) }

// small writes a paragraph in small print.
func (f *flow) small(s string) { f.lines(s, 0, capSmall, pitchFine) }

func (f *flow) lines(s string, indent, size, pitch float64) {
	for _, t := range wrap(s, f.width-indent, size, false) {
		f.room(pitch)
		f.write(t, f.x+indent, f.y+size, size, false, scene.Left)
		f.y += pitch
	}
	f.y += 1
}

// item writes a line of a list after a dash.
func (f *flow) item(s string) {
	f.room(pitch)
	f.write("–", f.x, f.y+capBody, capBody, false, scene.Left)
	f.lines(s, 4, capBody, pitch)
	f.y -= 0.4
}

// tick writes a line of a list after a square to be ticked.
func (f *flow) tick(s string) {
	f.room(pitch)
	f.box(0.2, f.x+0.2, f.y-0.3, f.x+2.8, f.y+2.3)
	f.lines(s, 5, capBody, pitch)
}

func (f *flow) gap(mm float64) { f.y += mm }

// wrap breaks a text into lines no wider than width, never between a number and its
// unit; a word that is wider is broken where it has to be.
func wrap(s string, width, size float64, bold bool) (out []string) {
	blank := scene.TextWidth(" ", size, bold)
	line, used := "", 0.0
	flush := func() {
		if line != "" {
			out = append(out, line)
		}
		line, used = "", 0
	}
	for _, word := range q.Words(output.OneLine(s)) {
		w := scene.TextWidth(word, size, bold)
		if line != "" && used+blank+w <= width {
			line, used = line+" "+word, used+blank+w
			continue
		}
		flush()
		for w > width {
			n := fitting(word, width, size, bold)
			if n == len(word) {
				break
			}
			out = append(out, strings.TrimSpace(word[:n]))
			word = word[n:]
			w = scene.TextWidth(word, size, bold)
		}
		line, used = word, w
	}
	flush()
	return out
}

// fitting returns how many bytes of a word fit, at least one letter; it prefers
// to break after a hyphen or a slash.
func fitting(word string, width, size float64, bold bool) int {
	last, after := 0, 0
	for i, r := range word {
		end := i + len(string(r))
		if scene.TextWidth(word[:end], size, bold) > width && last > 0 {
			break
		}
		last = end
		if r == '-' || r == '/' || r == ' ' {
			after = end
		}
	}
	if after > 0 && last < len(word) {
		return after
	}
	return last
}
