package output

import (
	"duskwire/layout/scene"
)

// legendRow is one line of the legend: a heading, or a sample with words.
type legendRow struct {
	heading string
	sample  []scene.Item
	words   string
	lines   int // of words, at most; 0 for the usual three
}

// legend fills its box, in as many columns as it needs.
func (p *sheet) legend(s Sheet, b box) {
	const pad = 3.0
	rows := p.overruled(s)
	last := ""
	for _, e := range append(s.More[:len(s.More):len(s.More)], scene.Legend(s.Plan)...) {
		if e.Group != last {
			rows = append(rows, legendRow{heading: e.Group})
			last = e.Group
		}
		rows = append(rows, legendRow{sample: e.Sample, words: e.Words})
	}
	x0, y0 := b.x0+pad, b.y0+pad
	columns, pitch, holds := columnsFor(rows, b.width()-2*pad, b.height()-2*pad)
	for note := (legendRow{words: "Further kinds of ground: no room here"}); !holds && len(rows) > 2; {
		rows = append(rows[:len(rows)-2], note)
		columns, pitch, holds = columnsFor(rows, b.width()-2*pad, b.height()-2*pad)
	}
	wide := (b.width() - 2*pad) / float64(columns)
	c := &column{p: p, x: x0, y: y0, width: wide - 2, top: y0, bottom: b.y1 - pad, pitch: pitch, step: wide, end: b.x1}
	c.rows(rows)
}

// columnsFor picks the number of columns and the row height: the fewest
// columns at a roomy pitch, then more columns, then closer rows.
func columnsFor(rows []legendRow, width, height float64) (columns int, pitch float64, holds bool) {
	most := max(1, int(width/34))
	for _, pitch := range []float64{5.4, 4.9, 4.5} {
		for n := 1; n <= most; n++ {
			c := &column{width: width/float64(n) - 2, bottom: height, pitch: pitch, step: width / float64(n), end: width}
			c.rows(rows)
			if !c.full {
				return n, pitch, true
			}
		}
	}
	return most, 4.5, false
}

// indent is where the words of a row start.
func indent(r legendRow) float64 {
	if len(r.sample) == 0 {
		return 0
	}
	return scene.LegendWidth + 1.5
}

// column writes rows from the top down and moves on to the next column.
// With p nil it only tries whether they fit.
type column struct {
	p                        *sheet
	x, y, width, top, bottom float64
	pitch, step, end         float64
	full                     bool
}

func (c *column) rows(rows []legendRow) {
	for i, r := range rows {
		c.row(r, i+1 < len(rows) && r.heading != "")
	}
}

func (c *column) row(r legendRow, together bool) {
	most := r.lines
	if most == 0 {
		most = 3
	}
	words := wrap(r.words, c.width-indent(r), capSmall, false, most)
	heads := wrap(r.heading, c.width, capBody, true, 2)
	more := float64(max(len(heads)-1, 0)) * pitchSmall // a heading of two lines
	need := max(c.pitch, float64(len(words))*pitchSmall+1.2) + more
	if together { // a heading stays with the first row under it
		need += c.pitch
	}
	if c.y+need > c.bottom {
		c.x, c.y = c.x+c.step, c.top
	}
	if c.x+c.width/2 > c.end || c.full {
		c.full = true
		return
	}
	if r.heading != "" {
		for i, t := range heads {
			if c.p != nil {
				c.p.text(t, c.x, c.y+capBody+1.2+float64(i)*pitchSmall, capBody, true)
			}
		}
		c.y += c.pitch + more
		return
	}
	tall := max(c.pitch, float64(len(words))*pitchSmall+1.2)
	if c.p != nil {
		c.draw(r, words, c.y+tall/2)
	}
	c.y += tall
}

// draw puts one row at the level mid.
func (c *column) draw(r legendRow, words []string, mid float64) {
	for _, it := range r.sample {
		ps := make([]scene.XY, len(it.Points))
		for i, q := range it.Points {
			ps[i] = scene.XY{X: c.x + scene.LegendWidth/2 + q.X, Y: mid + q.Y}
		}
		it.Points, it.Entity = ps, ""
		c.p.add(it)
	}
	y := mid + capSmall/2 - pitchSmall*float64(len(words)-1)/2
	for _, w := range words {
		c.p.add(scene.Item{Kind: scene.Text, Points: []scene.XY{{X: c.x + indent(r), Y: y}}, Text: w, Size: capSmall,
			Style: scene.Style{Fill: c.p.pal.Ink}})
		y += pitchSmall
	}
}
