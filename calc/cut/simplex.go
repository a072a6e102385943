package cut

import "math"

// rows is the state of the revised simplex method for rows that are equations:
// the inverse of the basis, the cost of the basic columns and how much of each
// there is. It starts with one column a row, that has a 1 there.
type rows struct {
	rows    int
	inverse [][]float64
	cost    []float64
	x       []float64
}

func newRows(n int) *rows {
	m := &rows{rows: n, inverse: make([][]float64, n), cost: make([]float64, n), x: make([]float64, n)}
	for r := range m.inverse {
		m.inverse[r] = make([]float64, n)
		m.inverse[r][r] = 1
	}
	return m
}

// prices returns the dual prices of the rows.
func (m *rows) prices() []float64 {
	y := make([]float64, m.rows)
	for r, c := range m.cost {
		if c == 0 {
			continue
		}
		for j, v := range m.inverse[r] {
			y[j] += c * v
		}
	}
	return y
}

// enter takes a column into the basis for the one that reaches 0 first.
func (m *rows) enter(column []float64, cost float64) {
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
