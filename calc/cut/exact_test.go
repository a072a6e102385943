package cut

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	q "duskwire/calc/quantity"
)

// TestAgainstCBC holds 200 random cases of up to 40 pieces against the integer
// solver CBC (coin-or, Debian package coinor-cbc) on another model of the same
// question: an arc-flow network in half metres (Valério de Carvalho, "Exact
// solution of bin-packing problems using column generation and
// branch-and-bound", Annals of Operations Research 86, 1999). Our plan is
// valid, and CBC has to prove that the model has no answer that costs less.
func TestAgainstCBC(t *testing.T) {
	cbc, err := exec.LookPath("cbc")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("cbc is not installed; CI compares with it (package coinor-cbc)")
		}
		t.Skip("cbc is not installed (package coinor-cbc)")
	}
	count := 200
	if testing.Short() {
		count = 20
	}
	dir := t.TempDir()
	jobs := make(chan int)
	var wait sync.WaitGroup
	for range 2 {
		wait.Go(func() {
			for n := range jobs {
				oneCase(t, cbc, dir, n)
			}
		})
	}
	for n := range count {
		jobs <- n
	}
	close(jobs)
	wait.Wait()
}

// oneCase makes a case from its number and compares the costs.
func oneCase(t *testing.T, cbc, dir string, n int) {
	half, offers := drawn(n)
	var list []Piece
	for i, h := range half {
		list = append(list, Piece{fmt.Sprint(i), q.Metre(h) / 2})
	}
	p, err := Best(list, offers, Options{})
	if err != nil {
		t.Errorf("case %d: %v", n, err)
		return
	}
	if err := valid(p, list, offers, Options{}); err != nil {
		t.Errorf("case %d: %v", n, err)
	}
	if !p.Proved || p.Bound != p.Cost {
		t.Errorf("case %d: cost %d not proved, bound %d", n, p.Cost, p.Bound)
	}
	path := filepath.Join(dir, fmt.Sprintf("case%d.lp", n))
	if err := os.WriteFile(path, []byte(arcFlow(half, offers, p.Cost-unit(half, offers))), 0o644); err != nil {
		t.Error(err)
		return
	}
	out, err := exec.Command(cbc, path, "sec", "60", "solve", "quit").CombinedOutput()
	if err != nil || !refuted(string(out)) {
		t.Errorf("case %d: %d pieces %v, offers %v: cbc does not prove that nothing costs less than %d: %v\n%s",
			n, len(half), half, offers, p.Cost, err, out)
	}
}

// refuted reports whether the solver says that the model has no answer. None
// of the models is unbounded: no cost is below 0.
func refuted(out string) bool {
	for _, line := range []string{"Problem proven infeasible", "Linear relaxation infeasible", "Pre-processing says infeasible", "Problem is infeasible"} {
		if strings.Contains(out, line) {
			return true
		}
	}
	return false
}

// unit returns a number that all costs of a case are multiples of.
func unit(half []int, offers []Offer) int64 {
	u := 0
	for _, o := range offers {
		if !o.byMetre() {
			u = gcd(u, int(o.Cost))
			continue
		}
		for _, h := range half {
			u = gcd(u, int(o.Cost)*h/2)
		}
	}
	return int64(u)
}

// drawn returns the lengths in half metres and the offers of a case.
func drawn(n int) ([]int, []Offer) {
	r := rand.New(rand.NewPCG(uint64(n), 41))
	var half []int
	for range 2 + r.IntN(39) {
		switch r.IntN(3) {
		case 0:
			half = append(half, 3+r.IntN(12)) // between lamps
		case 1:
			half = append(half, 10+r.IntN(60))
		default:
			half = append(half, 3+r.IntN(97))
		}
	}
	offers := []Offer{
		{Key: "25 m", Length: 25, Cost: 100 * int64(25+r.IntN(15))},
		{Key: "50 m", Length: 50, Cost: 100 * int64(50+r.IntN(15))},
		{Key: "100 m", Length: 100, Cost: 100 * int64(90+r.IntN(30))},
	}
	if n%3 == 0 {
		offers = append(offers, Offer{Key: "by the metre", Cost: 20 * int64(5+r.IntN(4))})
	}
	if n%5 == 0 {
		offers = append(offers, Offer{Key: "offcut", Length: q.Metre(8 + r.IntN(20)), Have: 1 + r.IntN(2), Cost: 100 * int64(r.IntN(3))})
	}
	return half, offers
}

// arcs is the network of a case: an arc a piece over nodes (half metres cut so
// far), longer pieces first.
type arcs struct {
	sizes   []int // longest first
	demand  map[int]int
	widest  int
	reached map[int]bool
	in, out map[int][]string // by node
	of      map[int][]string // by size
	names   []string
}

func network(half []int, offers []Offer) *arcs {
	g := &arcs{demand: map[int]int{}, reached: map[int]bool{0: true},
		in: map[int][]string{}, out: map[int][]string{}, of: map[int][]string{}}
	for _, h := range half {
		g.demand[h]++
	}
	for h := range g.demand {
		g.sizes = append(g.sizes, h)
	}
	slices.Sort(g.sizes)
	slices.Reverse(g.sizes)
	for _, o := range offers {
		g.widest = max(g.widest, int(2*o.Length))
	}
	for _, s := range g.sizes {
		for a := g.widest; a >= 0; a-- { // so that arcs of one size follow each other
			for k, at := 0, a; g.reached[a] && k < g.demand[s] && at+s <= g.widest; k, at = k+1, at+s {
				if name := fmt.Sprintf("x_%d_%d", at, s); !slices.Contains(g.of[s], name) {
					g.of[s] = append(g.of[s], name)
					g.out[at] = append(g.out[at], name)
					g.in[at+s] = append(g.in[at+s], name)
					g.names = append(g.names, name)
				}
				g.reached[at+s] = true
			}
		}
	}
	return g
}

// till is what is bought: terms of the cost and of the length, and by offer
// the arcs that leave the network into its drums.
type till struct {
	cost, bought []string
	source       []string
	drums        [][]string
}

// sell adds the arcs into the drums and the pieces by the metre.
func (g *arcs) sell(offers []Offer) till {
	t := till{drums: make([][]string, len(offers))}
	pay := func(name string, cost int64, length int) {
		g.names = append(g.names, name)
		t.cost = append(t.cost, fmt.Sprintf("%d %s", cost, name))
		t.bought = append(t.bought, fmt.Sprintf("%d %s", length, name))
	}
	for k, o := range offers {
		if o.byMetre() {
			for _, s := range g.sizes {
				name := fmt.Sprintf("m_%d", s)
				g.of[s] = append(g.of[s], name)
				pay(name, o.Cost*int64(s)/2, s)
			}
			continue
		}
		for a := 1; a <= int(2*o.Length); a++ {
			if g.reached[a] {
				name := fmt.Sprintf("z_%d_%d", a, k)
				g.out[a] = append(g.out[a], name)
				g.names = append(g.names, name)
				t.drums[k] = append(t.drums[k], name)
			}
		}
		if len(t.drums[k]) > 0 {
			t.source = append(t.source, t.drums[k]...)
			pay(fmt.Sprintf("n_%d", k), o.Cost, int(2*o.Length))
		}
	}
	return t
}

// arcFlow writes the case in the LP format, with a cost of at most below.
func arcFlow(half []int, offers []Offer, below int64) string {
	g := network(half, offers)
	t := g.sell(offers)
	var b strings.Builder
	sum := func(terms []string) string { return strings.Join(terms, "\n + ") }
	b.WriteString("Minimize\n obj: " + sum(t.cost) + "\nSubject To\n")
	for a := 1; a <= g.widest; a++ {
		if len(g.in[a])+len(g.out[a]) > 0 {
			fmt.Fprintf(&b, " n%d: %s - %s = 0\n", a, sum(g.in[a]), strings.Join(g.out[a], "\n - "))
		}
	}
	if len(t.source) > 0 {
		fmt.Fprintf(&b, " n0: %s - %s = 0\n", sum(g.out[0]), strings.Join(t.source, "\n - "))
	}
	total := 0
	for _, s := range g.sizes {
		fmt.Fprintf(&b, " d%d: %s >= %d\n", s, sum(g.of[s]), g.demand[s])
		total += s * g.demand[s]
	}
	// Follows from the rest and helps the solver: what is bought is as long as
	// what is cut. So do the numbers of drums, as something to branch on.
	fmt.Fprintf(&b, " long: %s >= %d\n below: %s <= %d\n", sum(t.bought), total, sum(t.cost), below)
	for k, o := range offers {
		if len(t.drums[k]) > 0 {
			fmt.Fprintf(&b, " c%d: %s - n_%d = 0\n", k, sum(t.drums[k]), k)
		}
		if len(t.drums[k]) > 0 && o.Have > 0 {
			fmt.Fprintf(&b, " l%d: n_%d <= %d\n", k, k, o.Have)
		}
	}
	b.WriteString("General\n " + strings.Join(g.names, "\n ") + "\nEnd\n")
	return b.String()
}
