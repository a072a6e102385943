package packs

import (
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/scene"
)

// column is one column of a table.
type column struct {
	head, unit string
	grow       float64 // share of the room that is left; 0 keeps to its content
	least      float64 // millimetres, of a column that is filled in by hand
	anchor     scene.Anchor
}

// row is one row; heavy ones are sums or headings.
type row struct {
	cells []string
	heavy bool
	tick  bool   // the last cell is a square to be ticked
	span  bool   // the one cell goes across all columns
	mark  string // symbol of the plan in the first cell
}

// table is a table that breaks over pages.
type table struct {
	columns []column
	rows    []row
	high    float64 // least height of a row, for hand writing
	narrow  bool    // no wider than its content
}

// band adds a heading within the table.
func (t *table) band(s string) {
	t.rows = append(t.rows, row{cells: []string{s}, heavy: true, span: true})
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, row{cells: cells}) }
func (t *table) sum(cells ...string) { t.rows = append(t.rows, row{cells: cells, heavy: true}) }

const (
	cellPad   = 1.1 // at the sides of a cell
	cellAbove = 1.0 // above and below its text
)

// table draws a table. Rows stay whole; one that is higher than a page is
// broken. The heading is repeated on every page.
func (f *flow) table(t *table) {
	if len(t.rows) == 0 {
		return
	}
	widths := t.widths(f.width)
	d := &tableDrawing{flow: f, t: t, widths: widths}
	d.heads, d.headHigh = d.layHead()
	_, high := d.lay(&t.rows[0])
	f.room(d.headHigh + min(high, 40))
	d.head()
	for i := range t.rows {
		if r := &t.rows[i]; r.span && i+1 < len(t.rows) { // a heading stays with what follows
			_, own := d.lay(r)
			_, next := d.lay(&t.rows[i+1])
			if d.y+own+next > d.bottom {
				d.turn()
			}
		}
		d.row(&t.rows[i])
	}
	d.close()
	f.y += 3
}

// mostWanted is how many millimetres beyond the least a column of words counts
// with when room is short.
const mostWanted = 60.0

// widths shares out the width among the columns.
func (t *table) widths(room float64) []float64 {
	natural, least, grow := t.wishes()
	total := sum(natural)
	if total <= room && t.narrow {
		return natural
	}
	if total <= room {
		for i, c := range t.columns {
			if grow > 0 {
				natural[i] += (room - total) * c.grow / grow
			}
		}
		return natural
	}
	if grow == 0 {
		return shrink(natural, least, room)
	}
	// Columns of figures keep their width; those of words share the rest.
	left := room
	for i, c := range t.columns {
		if c.grow == 0 {
			left -= natural[i]
		} else {
			left -= least[i]
		}
	}
	if left < 0 {
		return shrink(natural, least, room)
	}
	spare := 0.0
	wants := func(i int) float64 { return min(natural[i]-least[i], mostWanted) } // one long note does not starve the others
	for i, c := range t.columns {
		if c.grow > 0 {
			spare += wants(i)
		}
	}
	for i, c := range t.columns {
		if c.grow > 0 && spare > 0 {
			natural[i] = least[i] + left*wants(i)/spare
		}
	}
	return natural
}

// wishes returns how wide every column would like to be, how narrow it may get,
// and the sum of the shares.
func (t *table) wishes() (natural, least []float64, grow float64) {
	n := len(t.columns)
	natural, least = make([]float64, n), make([]float64, n)
	for i, c := range t.columns {
		natural[i], least[i] = c.least, c.least
		take := func(s string, bold bool) {
			natural[i] = max(natural[i], scene.TextWidth(s, capBody, bold)+2*cellPad+0.1)
			for _, w := range q.Words(s) {
				least[i] = max(least[i], min(scene.TextWidth(w, capBody, bold), 24)+2*cellPad+0.1)
			}
		}
		for _, w := range strings.Fields(c.head) {
			take(w, true)
		}
		take(c.unit, false)
		for _, r := range t.rows {
			if i < len(r.cells) && !r.span {
				take(r.cells[i], r.heavy)
			}
		}
		grow += c.grow
	}
	return natural, least, grow
}

// shrink makes columns narrower in proportion to what they have to give.
func shrink(natural, least []float64, room float64) []float64 {
	give := sum(natural) - sum(least)
	if sum(least) >= room || give <= 0 {
		for i := range natural {
			natural[i] = least[i] * room / sum(least)
		}
		return natural
	}
	over := sum(natural) - room
	for i := range natural {
		natural[i] -= over * (natural[i] - least[i]) / give
	}
	return natural
}

func sum(v []float64) (s float64) {
	for _, x := range v {
		s += x
	}
	return s
}

// tableDrawing draws one table.
type tableDrawing struct {
	*flow
	t        *table
	widths   []float64
	heads    [][]string
	headHigh float64
	top      float64 // of the table on this page
}

// layHead returns the lines of the heading of every column.
func (d *tableDrawing) layHead() (lines [][]string, high float64) {
	most := 0
	for i, c := range d.t.columns {
		l := wrap(c.head, d.widths[i]-2*cellPad, capBody, true)
		lines = append(lines, l)
		n := len(l)
		if c.unit != "" {
			n++
		}
		most = max(most, n)
	}
	return lines, float64(most)*pitch + 2*cellAbove - (pitch - capBody) + 0.4
}

func (d *tableDrawing) head() {
	d.top = d.y
	fill := scene.Colour{R: 236, G: 236, B: 236, A: 255}
	d.add(scene.Item{Kind: scene.Polygon, Style: scene.Style{Fill: fill},
		Points: points(d.x, d.y, d.x+sum(d.widths), d.y, d.x+sum(d.widths), d.y+d.headHigh, d.x, d.y+d.headHigh)})
	x := d.x
	for i, c := range d.t.columns {
		y := d.y + cellAbove + capBody
		for _, s := range d.heads[i] {
			d.cell(s, x, y, i, true)
			y += pitch
		}
		if c.unit != "" {
			d.cell(c.unit, x, y, i, false)
		}
		x += d.widths[i]
	}
	d.line(medium, d.x, d.y, d.x+sum(d.widths), d.y)
	d.y += d.headHigh
	d.line(medium, d.x, d.y, d.x+sum(d.widths), d.y)
}

// cell writes one line of a cell whose left edge is at x.
func (d *tableDrawing) cell(s string, x, y float64, column int, bold bool) {
	switch d.t.columns[column].anchor {
	case scene.Right:
		d.write(s, x+d.widths[column]-cellPad, y, capBody, bold, scene.Right)
	case scene.Middle:
		d.write(s, x+d.widths[column]/2, y, capBody, bold, scene.Middle)
	default:
		d.write(s, x+cellPad, y, capBody, bold, scene.Left)
	}
}

// lay breaks the cells of a row into lines.
func (d *tableDrawing) lay(r *row) (cells [][]string, high float64) {
	most := 1
	if r.span {
		cells = [][]string{wrap(r.cells[0], sum(d.widths)-2*cellPad, capBody, true)}
		return cells, height(len(cells[0]))
	}
	for i, s := range r.cells {
		l := wrap(s, d.widths[i]-2*cellPad, capBody, r.heavy)
		cells = append(cells, l)
		most = max(most, len(l))
	}
	return cells, max(height(most), d.t.high)
}

// height of a row of so many lines.
func height(lines int) float64 { return float64(lines)*pitch + 2*cellAbove - (pitch - capBody) + 0.3 }

func (d *tableDrawing) row(r *row) {
	cells, high := d.lay(r)
	if d.y+high > d.bottom {
		if whole := d.bottom - edge - 20 - d.headHigh; high <= whole {
			d.turn()
		}
	}
	for {
		n := int((d.bottom - d.y - 2*cellAbove + pitch - capBody) / pitch)
		rest, more := d.part(cells, max(n, 1), r)
		if !more {
			return
		}
		cells = rest
		if r.mark != "" { // once is enough
			bare := *r
			bare.mark, r = "", &bare
		}
		d.turn()
	}
}

// turn goes on with the table on the next page.
func (d *tableDrawing) turn() {
	d.close()
	d.within = d.section
	d.page()
	d.within = ""
	d.head()
}

// part writes up to n lines of a row and returns what is left of it.
func (d *tableDrawing) part(cells [][]string, n int, r *row) (rest [][]string, more bool) {
	most := 1
	for _, lines := range cells {
		most = max(most, min(len(lines), n))
	}
	high := height(most)
	down := 0.0
	if !r.span && d.t.high > high { // room for hand writing: text in the middle
		high, down = d.t.high, (d.t.high-high)/2
	}
	if r.span {
		d.sides(false)
	}
	x := d.x
	for i, lines := range cells {
		y := d.y + cellAbove + capBody + down
		for k, s := range lines {
			if k == n {
				break
			}
			d.cell(s, x, y, i, r.heavy)
			y += pitch
		}
		rest = append(rest, lines[min(len(lines), n):])
		more = more || len(lines) > n
		x += d.widths[i]
	}
	if r.mark != "" {
		const foot = 0.4 // what holds a lamp is drawn below it
		for _, it := range scene.Symbol(r.mark, scene.XY{X: d.x + d.widths[0]/2, Y: d.y + high/2 - foot}, d.pal) {
			d.add(it)
		}
	}
	if r.tick {
		m := d.x + sum(d.widths) - d.widths[len(d.widths)-1]/2
		c := d.y + down + height(1)/2
		d.box(0.2, m-1.3, c-1.3, m+1.3, c+1.3)
	}
	d.y += high
	if r.span {
		d.sides(true)
	}
	weight := thin
	if r.heavy {
		weight = medium
	}
	d.line(weight, d.x, d.y, d.x+sum(d.widths), d.y)
	return rest, more
}

// close ends the table on this page.
func (d *tableDrawing) close() {
	d.sides(false)
	d.line(medium, d.x, d.y, d.x+sum(d.widths), d.y)
}

// sides draws the lines between the columns from where they were drawn last; of
// a row that goes across only the outer ones.
func (d *tableDrawing) sides(outer bool) {
	defer func() { d.top = d.y }()
	if d.y <= d.top {
		return
	}
	x := d.x
	for i := 0; i <= len(d.widths); i++ {
		if outer && i > 0 && i < len(d.widths) {
			x += d.widths[i]
			continue
		}
		weight := thin
		if i == 0 || i == len(d.widths) {
			weight = medium
		}
		d.line(weight, x, d.top, x, d.y)
		if i < len(d.widths) {
			x += d.widths[i]
		}
	}
}
