package output

import (
	"fmt"
	"math"

	"duskwire/layout/scene"
)

// papers are the sheets of ISO 216 that a diagram is put on, long side first.
var papers = []struct {
	name        string
	long, short float64
}{{"A4", 297, 210}, {"A3", 420, 297}, {"A2", 594, 420}, {"A1", 841, 594}, {"A0", 1189, 841}}

// CircuitPage returns the whole sheet with the one-line diagram of the circuits
// at its own size, so that its letters are as large as those of a plan. Paper
// and Turn are heeded; without them it is the smallest sheet that holds the
// diagram, and one made to measure beyond A0.
func CircuitPage(s Sheet) (*scene.List, error) {
	if s.Plan.Palette == nil {
		s.Plan.Palette = scene.Light()
	}
	in := *s.Circuit
	in.Palette = s.Plan.Palette
	var l *scene.List
	var f format
	for _, paper := range papers {
		for _, turn := range []string{"landscape", "portrait"} {
			if s.Paper != "" && s.Paper != paper.name || s.Turn != "" && s.Turn != turn {
				continue
			}
			w, h := paper.long, paper.short
			if turn == "portrait" {
				w, h = h, w
			}
			f = circuitFormat(paper.name, turn, w, h)
			in.Width = f.room.width() - 16
			l = scene.NewOneLine(in).List
			if l.Width <= f.room.width() && l.Height <= f.room.height() {
				return circuitSheet(s, f, l), nil
			}
		}
	}
	switch {
	case l == nil:
		return nil, fmt.Errorf("picture: paper %q, %q: expected A4 to A0, landscape or portrait", s.Paper, s.Turn)
	case s.Paper != "":
		return nil, fmt.Errorf("picture: the diagram is %.0f mm by %.0f mm and does not fit %s", l.Width, l.Height, s.Paper)
	}
	w, h := math.Ceil(l.Width)+2*edge, math.Ceil(l.Height)+2*edge+blockHigh
	f = circuitFormat(fmt.Sprintf("sheet %.0f × %.0f mm", w, h), "landscape", w, h)
	return circuitSheet(s, f, l), nil
}

// circuitFormat has the title along the foot of the sheet.
func circuitFormat(paper, turn string, w, h float64) format {
	f := format{paper: paper, turn: turn, width: w, height: h, left: edge}
	f.room = box{edge, edge, w - edge, h - edge - blockHigh}
	f.strip = box{edge, h - edge - blockHigh, w - edge, h - edge}
	return f
}

// circuitSheet puts the diagram into its frame.
func circuitSheet(s Sheet, f format, l *scene.List) *scene.List {
	shift(l, f.room.x0, f.room.y0)
	l.Width, l.Height = f.width, f.height
	p := &sheet{list: l, pal: s.Plan.Palette}
	p.line(thick, edge, edge, f.width-edge, edge, f.width-edge, f.height-edge, edge, f.height-edge, edge, edge)
	b := f.strip
	p.line(medium, b.x0, b.y0, b.x1, b.y0)
	title := box{b.x1 - sideStrip, b.y0, b.x1, b.y1}
	p.line(medium, title.x0, b.y0, title.x0, b.y1)
	p.title(s, f, 0, title)
	notes := box{b.x0, b.y0, title.x0, b.y1}
	if over := p.overruled(s); len(over) > 0 {
		middle := (notes.x0 + notes.x1) / 2
		p.circuitOverruled(over, box{middle, b.y0, title.x0, b.y1})
		notes.x1 = middle
	}
	p.circuitNotes(notes)
	return l
}

// circuitOverruled lists what was decided against beside the notes, two lines a
// finding; what finds no room is in the findings.
func (p *sheet) circuitOverruled(rows []legendRow, b box) {
	const pad = 3.0
	x, y := b.x0+pad, b.y0+pad+capBody
	p.text(rows[0].heading, x, y, capBody, true)
	for i, r := range rows[1:] {
		words := wrap(r.words, b.width()-2*pad, capSmall, false, 2)
		room := int((b.y1 - pad/2 - y) / pitchSmall)
		if last := i+2 == len(rows); room < len(words) || !last && room == len(words) {
			p.soft("and others: see the findings", x, y+pitchSmall, scene.Left)
			return
		}
		for _, t := range words {
			y += pitchSmall
			p.soft(t, x, y, scene.Left)
		}
	}
}

// circuitNotes say how the diagram is read.
func (p *sheet) circuitNotes(b box) {
	const pad = 3.0
	x, y := b.x0+pad, b.y0+pad+capBody
	p.text("How to read it", x, y, capBody, true)
	for _, r := range []legendRow{
		{sample: scene.RunSample(p.pal, false), words: "Run, mains: cable, then length as cut and current"},
		{sample: scene.RunSample(p.pal, true), words: "Run, extra-low voltage"},
		{words: "At a point: volts, and amperes of its load and all beyond it. → is the output of a source."},
		{words: "Volts are the proof, with conductors at the temperature of the tables. Not to scale."},
	} {
		y += 5
		for i, t := range wrap(r.words, b.width()-2*pad-indent(r), capSmall, false, 2) {
			if i > 0 {
				y += pitchSmall
			}
			p.soft(t, x+indent(r), y, scene.Left)
		}
		for _, it := range r.sample {
			ps := make([]scene.XY, len(it.Points))
			for i, q := range it.Points {
				ps[i] = scene.XY{X: x + scene.LegendWidth/2 + q.X, Y: y - capSmall/2 + q.Y}
			}
			it.Points = ps
			p.add(it)
		}
	}
}
