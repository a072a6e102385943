package cut

// prices are what each size is worth to one argument: whatever the worths are,
// the pieces cannot be cut from a list that holds less worth than they have.
// The best of them for a list come from its linear relaxation, and any other
// list may be held against them too.
type prices struct {
	worth []float64 // by size, 0 or more
	drum  []float64 // most worth that one drum of each kind holds
	step  float64   // most worth of one step by the metre
	need  float64   // worth of all pieces
}

// priced works out what the drums hold; the table is left filled with worth.
func (s *search) priced(worth []float64) *prices {
	c := &prices{worth: worth}
	s.table.fill(worth)
	for _, d := range s.p.drums {
		c.drum = append(c.drum, s.table.most(0, d.capacity))
	}
	for i, w := range worth {
		c.need += w * float64(s.p.demand[i])
		c.step = max(c.step, w/float64(s.p.sizes[i]))
	}
	return c
}

// margin is how much more worth a list holds than the pieces have, at most, as
// a share of it; below 0 the list cannot do. Pieces that are worth nothing, as
// where what is at hand is enough, are no argument against any list.
func (c *prices) margin(l list) float64 {
	if c.need <= 0 {
		return 0
	}
	sum := c.step*float64(l.room) - c.need
	for k, n := range l.n {
		sum += c.drum[k] * float64(n)
	}
	return sum / c.need
}

// relaxed returns the worths that fit a list worst. They are the dual of
// cutting the largest multiple of all demands from the list, drums and pieces
// divided at will: maximise m so that for every size what is cut is at least m
// times what is wanted, and no more drums are used than there are. A small
// shortage is allowed, so that the simplex method does not stand still where
// it starts, with nothing cut. Stopped early the worths are only less good.
func (s *search) relaxed(l list) []float64 {
	p := s.p
	sizes, drums := len(p.sizes), len(p.drums)
	m := newRows(sizes + drums + 1)
	for i := range p.sizes {
		m.x[i] = 1e-5 * float64(1+i%7)
	}
	for k, n := range l.n {
		m.x[sizes+k] = float64(n)
	}
	m.x[sizes+drums] = float64(l.room)
	worth := make([]float64, sizes)
	for range 60 + 10*m.rows {
		y := m.prices()
		column, cost := s.improving(l, y, worth)
		s.effort -= s.fee
		if column == nil || s.effort <= 0 {
			break
		}
		m.enter(column, cost)
	}
	return worth
}

// improving returns the column that improves most on the prices y of the rows,
// nil when there is none, and writes the worths.
func (s *search) improving(l list, y, worth []float64) (column []float64, cost float64) {
	p := s.p
	sizes, drums := len(p.sizes), len(p.drums)
	need := 0.0
	for i := range worth {
		worth[i] = max(0, -y[i])
		need += worth[i] * float64(p.demand[i])
	}
	s.table.fill(worth)
	const tiny = 1e-8
	most, kind, at := tiny, "", 0
	take := func(gain float64, what string, i int) {
		if gain > most {
			most, kind, at = gain, what, i
		}
	}
	take(1-need, "multiple", 0)
	for r, v := range y {
		take(v, "unused", r) // more than wanted may be cut, less than there is used
	}
	for k, d := range p.drums {
		if l.n[k] > 0 {
			take(s.table.most(0, d.capacity)+y[sizes+k], "drum", k)
		}
	}
	for i, w := range worth {
		if l.room > 0 {
			take(w+y[sizes+drums]*float64(p.sizes[i]), "metre", i)
		}
	}
	column = make([]float64, len(y))
	switch kind {
	case "multiple":
		for i, d := range p.demand {
			column[i] = float64(d)
		}
		return column, -1
	case "unused":
		column[at] = 1
	case "drum":
		for i, n := range s.table.take(p.drums[at].capacity) {
			column[i] = -float64(n)
		}
		column[sizes+at] = 1
	case "metre":
		column[at], column[sizes+drums] = -1, float64(p.sizes[at])
	default:
		return nil, 0
	}
	return column, 0
}
