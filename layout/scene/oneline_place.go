package scene

import "slices"

// shape weighs the elements from first on and says of each which kid goes
// straight on, which hang below it and which are branches of their own.
func (d *oneLine) shape(first, _ int) {
	for i := len(d.all) - 1; i >= first; i-- {
		e := &d.all[i]
		sy := lineSymbol(e.name)
		e.rx, e.ry = sy.rx, sy.ry
		e.weight++
		if e.up >= 0 {
			d.all[e.up].weight += e.weight
		}
		d.sort(e)
	}
}

// sort parts the kids of an element. A single kid goes straight on.
func (d *oneLine) sort(e *element) {
	if len(e.kids) == 1 {
		e.next = e.kids[0]
		return
	}
	heaviest := 0
	for _, k := range e.kids {
		kid := &d.all[k]
		if len(kid.kids) == 0 && !kid.tied {
			e.hangs = append(e.hangs, k)
			kid.hung = true
			continue
		}
		e.branches = append(e.branches, k)
		if kid.weight > heaviest {
			e.next, heaviest = k, kid.weight
		}
	}
	e.branches = slices.DeleteFunc(e.branches, func(k int) bool { return k == e.next })
}

// bus reports whether a line goes down from the element.
func (e *element) bus() bool { return len(e.hangs)+len(e.branches) > 0 }

// words returns the width of the texts under the symbol.
func (e *element) words() float64 {
	if e.wide > 0 {
		return e.wide
	}
	w := TextWidth(e.tag, capTag, true)
	for _, l := range e.lines {
		w = max(w, TextWidth(l, capLabel, false))
	}
	e.wide = w
	return w
}

// along returns the width of the texts along the line.
func (e *element) along() float64 {
	if e.long == 0 {
		e.long = max(TextWidth(e.over, capLabel, false), TextWidth(e.under, capLabel, false))
	}
	return e.long
}

// rows is how many lines of text stand under the symbol.
func (e *element) rows() int {
	if e.tag == "" {
		return len(e.lines)
	}
	return len(e.lines) + 1
}

// link is the room that the line to the element needs for its texts.
func (e *element) link() float64 {
	w := e.along()
	if w == 0 {
		return 7
	}
	return w + markRoom + 3
}

// hangText is the width of the texts beside a hanging symbol.
func (e *element) hangText() float64 {
	if e.aside == 0 {
		e.aside = max(TextWidth(e.hangHead(), capTag, false), e.along()) + markRoom
	}
	return e.aside
}

// hangHead is tag and figures in one line.
func (e *element) hangHead() string {
	s := e.tag
	for _, l := range e.lines {
		s += " · " + l
	}
	return fitted(s, 1.5*textMost)
}

// columns returns how the hanging ends of an element stand: columns, ends in
// one, and the width of one.
func (d *oneLine) columns(e *element) (columns, each int, width float64) {
	n := len(e.hangs)
	if n == 0 {
		return 0, 0, 0
	}
	columns = (n + hangMost - 1) / hangMost
	each = (n + columns - 1) / columns
	for i := 0; i < n && e.column == 0; i++ {
		kid := &d.all[e.hangs[i]]
		width = max(width, hangStub+2*kid.rx+1+kid.hangText()+lineGap)
	}
	e.column = max(e.column, width)
	return columns, each, e.column
}

// left and right are the room an element needs to its sides below the line.
func (d *oneLine) left(e *element) float64 {
	if e.bus() {
		return e.rx
	}
	return max(e.rx, e.words()/2)
}

func (d *oneLine) right(e *element) float64 {
	if !e.bus() {
		return max(e.rx, e.words()/2)
	}
	columns, _, width := d.columns(e)
	return max(e.rx, 1.2+e.words(), float64(columns)*width)
}

// down is the room that symbol, texts and hanging ends take below the line.
func (d *oneLine) down(e *element) float64 {
	h := e.ry + 1.5 + lineGap*float64(e.rows())
	if _, each, _ := d.columns(e); each > 0 {
		h += hangPitch*float64(each) + 1
	}
	return h + 1.5
}

// pitch is the distance from an element to the one straight on.
func (d *oneLine) pitch(a, b *element) float64 {
	return max(a.rx+b.link()+b.rx, d.right(a)+d.left(b)+lineGap)
}

// lead is the distance from the line down at the left to the first element.
func (d *oneLine) lead(e *element) float64 { return max(e.link()+e.rx, d.left(e)+2) }

// block places an element and everything that it feeds right of x and below y,
// and returns how far that reaches. Nothing else comes to stand there. What
// leaves to the right goes deeper only by kids that are not the heaviest, so
// the depth of calls grows with the logarithm of the number of elements.
func (d *oneLine) block(head int, x, y float64) (right, bottom float64) {
	lines, start, step := d.split(head, x)
	lane := x + 2.5
	for n, line := range lines {
		row := y + oneLineAbove + ringLane*float64(d.tiedIn(line))
		down, end := 0.0, 0.0
		for k, i := range line {
			e := &d.all[i]
			switch {
			case k == 0:
				e.at = XY{start, row}
			case step > 0:
				e.at = XY{start + float64(k)*step, row}
			default:
				before := &d.all[line[k-1]]
				e.at = XY{before.at.X + d.pitch(before, e), row}
			}
			if k > 0 {
				before := &d.all[line[k-1]]
				e.path = []XY{{before.at.X + before.rx, row}, {e.at.X - e.rx, row}}
			} else if n == 0 {
				e.path = []XY{{x, row}, {e.at.X - e.rx, row}}
			}
			d.hang(e)
			down, end = max(down, d.down(e)), max(end, e.at.X+d.right(e))
		}
		y = row + down
		for k := len(line) - 1; k >= 0; k-- { // those further right stand higher: no line down crosses them
			e := &d.all[line[k]]
			for _, kid := range e.branches {
				r, b := d.block(kid, e.at.X, y)
				end, y = max(end, r), b
				c := &d.all[kid]
				c.path = []XY{{e.at.X, e.at.Y + e.ry}, {e.at.X, c.at.Y}, {c.at.X - c.rx, c.at.Y}}
			}
		}
		if n+1 < len(lines) { // around the right of everything and back to the left
			end += lineGap
			y += 1
			last, next := &d.all[line[len(line)-1]], &d.all[lines[n+1][0]]
			below := y + oneLineAbove + ringLane*float64(d.tiedIn(lines[n+1]))
			next.path = []XY{{last.at.X + last.rx, row}, {end, row}, {end, y}, {lane, y}, {lane, below}, {start - next.rx, below}}
		}
		right = max(right, end)
	}
	return right, y + 1
}

// split parts the chain of an element into lines. It returns where they start,
// and the step between elements when they stand in columns, 0 when each takes
// what it needs.
func (d *oneLine) split(head int, x float64) (lines [][]int, start, step float64) {
	var chain []int
	for i := head; i >= 0; i = d.all[i].next {
		chain = append(chain, i)
	}
	start = x + d.lead(&d.all[head])
	room := max(d.width-x, 120)
	at, widest, lead := start, 0.0, 0.0
	for k, i := range chain {
		if k > 0 {
			p := d.pitch(&d.all[chain[k-1]], &d.all[i])
			at, widest = at+p, max(widest, p)
		}
		lead = max(lead, d.lead(&d.all[i]))
	}
	if at-x+d.right(&d.all[chain[len(chain)-1]]) <= room || len(chain) <= 4 {
		return [][]int{chain}, start, 0
	}
	each := max(3, int((room-2.5-lead)/widest)+1)
	n := (len(chain) + each - 1) / each
	each = (len(chain) + n - 1) / n // lines of like length
	lead = 0
	for k := 0; k < len(chain); k += each {
		lead = max(lead, d.lead(&d.all[chain[k]]))
	}
	start = x + 2.5 + lead
	for len(chain) > each {
		lines, chain = append(lines, chain[:each]), chain[each:]
	}
	return append(lines, chain), start, widest
}

// hang places the single ends below an element in columns.
func (d *oneLine) hang(e *element) {
	_, each, width := d.columns(e)
	top := e.at.Y + e.ry + 1.5 + lineGap*float64(e.rows()) + 1
	for n, k := range e.hangs {
		kid := &d.all[k]
		bus := e.at.X + float64(n/each)*width
		kid.at = XY{bus + hangStub + kid.rx, top + hangPitch*(float64(n%each)+0.5)}
		kid.path = []XY{{e.at.X, e.at.Y + e.ry}, {e.at.X, kid.at.Y}, {kid.at.X - kid.rx, kid.at.Y}}
		if n >= each {
			kid.path = []XY{{e.at.X, e.at.Y + e.ry}, {e.at.X, top}, {bus, top}, {bus, kid.at.Y}, {kid.at.X - kid.rx, kid.at.Y}}
		}
	}
}

// tiedIn counts the elements of a line that closing runs end on.
func (d *oneLine) tiedIn(line []int) (n int) {
	for _, i := range line {
		if d.all[i].tied {
			n++
		}
	}
	return n
}

// closeRings draws the runs that close rings: over their line when both ends
// stand in one, else around the right of what stands between. These lines may
// cross others. It returns how far everything reaches.
func (d *oneLine) closeRings(first, firstRing int, right float64) float64 {
	used := map[float64]int{} // lanes over a line, by its level
	ended := map[int]bool{}   // right sides taken
	for i := firstRing; i < len(d.rings); i++ {
		r := &d.rings[i]
		a, b := &d.all[r.from], &d.all[r.to]
		lane := func(e *element) float64 {
			used[e.at.Y]++
			return e.at.Y - oneLineAbove - ringLane*float64(used[e.at.Y]) + 3.5
		}
		w := TextWidth(r.text, capLabel, false)
		if a.at.Y == b.at.Y && r.from != r.to {
			y := lane(a)
			r.path = []XY{{a.at.X, a.at.Y - a.ry}, {a.at.X, y}, {b.at.X, y}, {b.at.X, b.at.Y - b.ry}}
			r.at = XY{min(a.at.X, b.at.X) + 1, y - 0.9}
		} else {
			x := d.rightOf(first, i, a.at.Y, b.at.Y) + lineGap
			way := func(e *element, i int) []XY {
				if !e.bus() && e.next < 0 && !e.hung && !ended[i] {
					ended[i] = true
					return []XY{{e.at.X + e.rx, e.at.Y}, {x, e.at.Y}}
				}
				y := lane(e)
				return []XY{{e.at.X, e.at.Y - e.ry}, {e.at.X, y}, {x, y}}
			}
			back := way(b, r.to)
			slices.Reverse(back)
			r.path = append(way(a, r.from), back...)
			r.at = XY{x + 1, (r.path[len(r.path)-len(back)].Y+r.path[len(r.path)-len(back)-1].Y)/2 + capLabel/2}
			right = max(right, x+1)
		}
		r.low, r.high = XY{r.at.X, r.at.Y - capLabel}, XY{r.at.X + w + markRoom, r.at.Y + tail}
		right = max(right, r.high.X)
	}
	return right
}

// rightOf returns how far everything between two levels reaches, the rings
// before ring n included.
func (d *oneLine) rightOf(first, n int, y0, y1 float64) (right float64) {
	lo, hi := min(y0, y1)-oneLineAbove-ringLane, max(y0, y1)+oneLineAbove
	for i := first; i < len(d.all); i++ {
		e := &d.all[i]
		a, b := e.box()
		if b.Y >= lo && a.Y <= hi {
			right = max(right, b.X)
		}
		for _, p := range e.path {
			if p.Y >= lo && p.Y <= hi {
				right = max(right, p.X)
			}
		}
	}
	for i := range d.rings[:n] {
		if r := &d.rings[i]; r.high.Y >= lo && r.low.Y <= hi {
			right = max(right, r.high.X)
		}
	}
	return right
}

// box returns what symbol and texts cover, the finding mark included.
func (e *element) box() (lo, hi XY) {
	lo, hi = XY{e.at.X - e.rx, e.at.Y - e.ry}, XY{e.at.X + e.rx, e.at.Y + e.ry}
	switch w := e.words(); {
	case e.hung:
		lo.Y, hi.Y = min(lo.Y, e.at.Y-3.9), max(hi.Y, e.at.Y+4.1)
		hi.X += 1 + e.hangText()
	case e.rows() == 0:
	case e.bus():
		hi.X = max(hi.X, e.at.X+1.2+w)
		hi.Y += 1.5 + lineGap*float64(e.rows())
	default:
		lo.X, hi.X = min(lo.X, e.at.X-w/2), max(hi.X, e.at.X+w/2)
		hi.Y += 1.5 + lineGap*float64(e.rows())
	}
	return lo, hi
}

// loose places, in rows under everything, what is joined to no supply.
func (d *oneLine) loose(y float64) (right, bottom float64) {
	first := len(d.all)
	d.enterLoose()
	if len(d.all) == first {
		return 0, y
	}
	d.heads = append(d.heads, heading{XY{oneLineEdge, y + capTag}, "In no circuit"})
	const column = 26.0
	each := max(3, int(d.width/column))
	for n := range d.all[first:] {
		e := &d.all[first+n]
		sy := lineSymbol(e.name)
		e.rx, e.ry, e.hung, e.none = sy.rx, sy.ry, true, true
		e.at = XY{oneLineEdge + 4 + column*float64(n%each), y + 9 + hangPitch*float64(n/each)}
		_, hi := e.box()
		right, bottom = max(right, hi.X), e.at.Y+5
		if e.run != "" {
			e.path = []XY{{e.at.X - 4, e.at.Y}, {e.at.X, e.at.Y}}
		}
	}
	return right, bottom
}
