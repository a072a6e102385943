package cut

// knapsack is the table of the bounded knapsack problem over the sizes: the
// most value that sizes j, j+1 ... can bring into c steps, each at most as
// often as it is wanted.
type knapsack struct {
	p     *problem
	value []float64
	table [][]float64 // [j][c], j from 0 to the number of sizes
}

func newKnapsack(p *problem) *knapsack {
	k := &knapsack{p: p, table: make([][]float64, len(p.sizes)+1)}
	for j := range k.table {
		k.table[j] = make([]float64, p.widest+1)
	}
	return k
}

// fill works out the table for the values of the sizes, each as often as it is
// wanted. A size is taken in
// lots of 1, 2, 4 ..., which reach every number up to what is wanted (binary
// splitting), so the work is sizes · log(demand) · capacity.
func (k *knapsack) fill(value []float64) { k.fillWith(value, k.p.demand) }

// fillWith does the same for other numbers of the sizes.
func (k *knapsack) fillWith(value []float64, demand []int) {
	k.value = value
	for j := len(k.p.sizes) - 1; j >= 0; j-- {
		row := k.table[j]
		copy(row, k.table[j+1])
		if value[j] <= 0 || demand[j] == 0 {
			continue
		}
		for left, lot := demand[j], 1; left > 0; lot *= 2 {
			n := min(lot, left)
			left -= n
			size, v := n*k.p.sizes[j], float64(n)*value[j]
			for c := k.p.widest; c >= size; c-- {
				if w := row[c-size] + v; w > row[c] {
					row[c] = w
				}
			}
		}
	}
}

// most returns the largest value that fits into c steps from size j on.
func (k *knapsack) most(j, c int) float64 { return k.table[j][c] }

// take returns the counts of a fill of c steps with the largest value.
func (k *knapsack) take(c int) []int {
	const noise = 1e-12
	counts := make([]int, len(k.p.sizes))
	for j := range k.p.sizes {
		for n := 0; n <= k.p.demand[j] && n*k.p.sizes[j] <= c; n++ {
			if k.table[j+1][c-n*k.p.sizes[j]]+float64(n)*k.value[j] >= k.table[j][c]-noise*(1+k.table[j][c]) {
				counts[j] = n
				c -= n * k.p.sizes[j]
				break
			}
		}
	}
	return counts
}
