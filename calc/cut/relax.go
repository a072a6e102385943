package cut

// bound is a feasible answer of the dual of the linear relaxation: what each
// size is worth, and with what each limited drum saves the value of the whole. Since no pattern costs less
// than the worth of what it holds, value is a lower bound of every plan, and
// the reduced cost of a pattern is how much a plan with it lies above value.
type bound struct {
	worth []float64 // by size
	value float64
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
	rounds := 60 + 30*len(m.x)
	for range rounds {
		worth, limit := m.duals()
		k.fill(worth)
		column, cost, reduced := m.price(k, worth, limit)
		if reduced > -1e-7 {
			break
		}
		m.enter(column, cost)
	}
	worth, _ := m.duals()
	return p.feasible(k, worth)
}

// feasible scales an answer of the dual down until no pattern costs less than
// it is worth, so that rounding cannot make the bound too high.
func (p *problem) feasible(k *knapsack, worth []float64) *bound {
	b := &bound{worth: worth}
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
	for i := range p.sizes {
		if c := p.byMetre(i); c > 0 {
			over = max(over, worth[i]/float64(c))
		}
	}
	for i := range worth {
		worth[i] /= over
		b.value += worth[i] * float64(p.demand[i])
	}
	k.fill(worth)
	for _, d := range p.drums {
		if d.have > 0 {
			b.value += min(0, float64(d.cost)-k.most(0, d.capacity)) * float64(d.have)
		}
	}
	return b
}

// master is the linear programme over the patterns known so far.
type master struct {
	*rows
	p       *problem
	limited []int // drums with a limit, in the order of their rows
}

func newMaster(p *problem) *master {
	m := &master{p: p}
	for i, d := range p.drums {
		if d.have > 0 {
			m.limited = append(m.limited, i)
		}
	}
	m.rows = newRows(len(p.sizes) + len(m.limited))
	for r := range m.x {
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
	y := m.prices()
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
	for i := range m.p.sizes {
		if c := m.p.byMetre(i); c >= 0 {
			take(float64(c)-worth[i], i, 1)
		}
	}
	for i, d := range m.limited {
		take(-limit[d], i, 2)
	}
	column = make([]float64, len(m.x))
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
		return column, float64(m.p.byMetre(at)), reduced
	}
	column[n+at] = 1
	return column, 0, reduced
}
