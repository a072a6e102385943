package cut

import "math"

// bound is a feasible answer of the dual of the linear relaxation: what each
// size is worth and what each limited drum saves. Since no pattern costs less
// than the worth of what it holds, value is a lower bound of every plan, and
// the reduced cost of a pattern is how much a plan with it lies above value.
type bound struct {
	worth []float64 // by size
	limit []float64 // by drum, 0 or less; 0 without a limit
	value float64
	table *knapsack // filled with worth
}

// relax solves the linear relaxation by column generation with the revised
// simplex method. Rows are the sizes (what is cut is what is wanted), then the
// limited drums (at most what there is). It starts from every size cut alone,
// which is feasible, and takes in the pattern of least reduced cost until there
// is none below 0. Stopped early, its answer is still turned into a valid
// bound, only a lower one.
func (p *problem) relax() *bound {
	m := newMaster(p)
	k := newKnapsack(p)
	rounds := 60 + 30*m.rows
	for range rounds {
		worth, limit := m.duals()
		k.fill(worth)
		column, cost, reduced := m.price(k, worth, limit)
		if reduced > -1e-7 {
			break
		}
		m.enter(column, cost)
	}
	worth, limit := m.duals()
	return p.feasible(k, worth, limit)
}

// feasible scales an answer of the dual down until no pattern costs less than
// it is worth, so that rounding cannot make the bound too high.
func (p *problem) feasible(k *knapsack, worth, limit []float64) *bound {
	b := &bound{worth: worth, limit: make([]float64, len(p.drums)), table: k}
	for i := range worth {
		worth[i] = max(worth[i], 0)
	}
	k.fill(worth)
	over := 1.0
	for _, d := range p.drums {
		if d.have == 0 {
			over = max(over, k.most(0, max(d.capacity, 0))/float64(d.cost))
		}
	}
	for i, c := range p.metre {
		if c > 0 {
			over = max(over, worth[i]/float64(c))
		}
	}
	for i := range worth {
		worth[i] /= over
		b.value += worth[i] * float64(p.demand[i])
	}
	k.fill(worth)
	for i, d := range p.drums {
		if d.have > 0 {
			b.limit[i] = min(0, float64(d.cost)-k.most(0, d.capacity))
			b.value += b.limit[i] * float64(d.have)
		}
	}
	return b
}

// master is the linear programme over the patterns known so far: the inverse
// of its basis, the cost of the basic columns and the answer.
type master struct {
	p       *problem
	rows    int
	inverse [][]float64
	cost    []float64
	x       []float64
	limited []int // drums with a limit, in the order of their rows
}

func newMaster(p *problem) *master {
	m := &master{p: p}
	for i, d := range p.drums {
		if d.have > 0 {
			m.limited = append(m.limited, i)
		}
	}
	m.rows = len(p.sizes) + len(m.limited)
	m.inverse = make([][]float64, m.rows)
	m.cost = make([]float64, m.rows)
	m.x = make([]float64, m.rows)
	for r := range m.inverse {
		m.inverse[r] = make([]float64, m.rows)
		m.inverse[r][r] = 1
		if r < len(p.sizes) {
			_, c := p.cheapest(r)
			m.cost[r], m.x[r] = float64(c), float64(p.demand[r])
		} else {
			m.x[r] = float64(p.drums[m.limited[r-len(p.sizes)]].have)
		}
	}
	return m
}

// duals returns the prices of the rows: worth by size, limit by drum.
func (m *master) duals() (worth, limit []float64) {
	y := make([]float64, m.rows)
	for r, c := range m.cost {
		if c == 0 {
			continue
		}
		for j, v := range m.inverse[r] {
			y[j] += c * v
		}
	}
	limit = make([]float64, len(m.p.drums))
	for i, d := range m.limited {
		limit[d] = y[len(m.p.sizes)+i]
	}
	return y[:len(m.p.sizes):len(m.p.sizes)], limit
}

// price returns the column of least reduced cost.
func (m *master) price(k *knapsack, worth, limit []float64) (column []float64, cost, reduced float64) {
	n := len(m.p.sizes)
	at, kind := -1, 0
	take := func(r float64, i, what int) {
		if r < reduced {
			reduced, at, kind = r, i, what
		}
	}
	for i, d := range m.p.drums {
		take(float64(d.cost)-limit[i]-k.most(0, d.capacity), i, 0)
	}
	for i, c := range m.p.metre {
		if c >= 0 {
			take(float64(c)-worth[i], i, 1)
		}
	}
	for i, d := range m.limited {
		take(-limit[d], i, 2)
	}
	column = make([]float64, m.rows)
	switch {
	case at < 0:
		return nil, 0, 0
	case kind == 0:
		for j, c := range k.take(m.p.drums[at].capacity) {
			column[j] = float64(c)
		}
		for i, d := range m.limited {
			if d == at {
				column[n+i] = 1
			}
		}
		return column, float64(m.p.drums[at].cost), reduced
	case kind == 1:
		column[at] = 1
		return column, float64(m.p.metre[at]), reduced
	}
	column[n+at] = 1
	return column, 0, reduced
}

// enter takes a column into the basis for the one that reaches 0 first.
func (m *master) enter(column []float64, cost float64) {
	const tiny = 1e-9
	step := make([]float64, m.rows)
	for r, row := range m.inverse {
		for j, v := range row {
			step[r] += v * column[j]
		}
	}
	leaves, least := -1, math.Inf(1)
	for r, d := range step {
		if d > tiny && m.x[r]/d < least {
			leaves, least = r, m.x[r]/d
		}
	}
	if leaves < 0 {
		return // cannot be: every column holds something that is wanted
	}
	pivot := m.inverse[leaves]
	for j := range pivot {
		pivot[j] /= step[leaves]
	}
	for r, row := range m.inverse {
		if r == leaves || step[r] == 0 {
			continue
		}
		for j, v := range pivot {
			row[j] -= step[r] * v
		}
		m.x[r] = max(m.x[r]-step[r]*least, 0)
	}
	m.x[leaves], m.cost[leaves] = least, cost
}
