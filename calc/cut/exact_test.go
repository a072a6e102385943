package cut

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	q "duskwire/calc/quantity"
)

// TestAgainstCBC compares 200 random cases of up to 40 pieces with the integer
// solver CBC (coin-or, Debian package coinor-cbc) on another model of the same
// question: an arc-flow network in half metres (Valério de Carvalho, "Exact
// solution of bin-packing problems using column generation and
// branch-and-bound", Annals of Operations Research 86, 1999). Costs must be
// the same.
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
	path := filepath.Join(dir, fmt.Sprintf("case%d.lp", n))
	if err := os.WriteFile(path, []byte(arcFlow(half, offers, 0)), 0o644); err != nil {
		t.Error(err)
		return
	}
	out, err := exec.Command(cbc, path, "solve", "solution", path+".txt", "quit").CombinedOutput()
	if err != nil || !strings.Contains(string(out), "Optimal solution found") {
		t.Errorf("case %d: cbc: %v\n%s", n, err, out)
		return
	}
	want, err := objective(path + ".txt")
	if err != nil {
		t.Errorf("case %d: %v", n, err)
		return
	}
	if math.Abs(want-float64(p.Cost)) > 0.01 || !p.Proved {
		t.Errorf("case %d: %d pieces %v, offers %v: cost %d (proved %v), cbc %v", n, len(half), half, offers, p.Cost, p.Proved, want)
	}
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

// arcFlow writes the case in the LP format: flow from 0 over nodes (half
// metres cut so far) with one arc a piece, longer pieces first, leaving at any
// node into a drum that holds as much.
func arcFlow(half []int, offers []Offer, below int64) string {
	demand := map[int]int{}
	for _, h := range half {
		demand[h]++
	}
	var sizes []int
	for h := range demand {
		sizes = append(sizes, h)
	}
	slices.Sort(sizes)
	slices.Reverse(sizes)
	widest := 0
	for _, o := range offers {
		widest = max(widest, int(2*o.Length))
	}
	in, out := map[int][]string{}, map[int][]string{}
	arcs := map[int][]string{} // by size
	var general []string
	reached := map[int]bool{0: true}
	for _, s := range sizes {
		for a := widest; a >= 0; a-- { // so that arcs of one size follow each other
			if !reached[a] {
				continue
			}
			for k, at := 0, a; k < demand[s] && at+s <= widest; k, at = k+1, at+s {
				name := fmt.Sprintf("x_%d_%d", at, s)
				if !slices.Contains(arcs[s], name) {
					arcs[s] = append(arcs[s], name)
					out[at] = append(out[at], name)
					in[at+s] = append(in[at+s], name)
					general = append(general, name)
				}
				reached[at+s] = true
			}
		}
	}
	var b strings.Builder
	var cost, source, bought []string
	total := 0
	for s, n := range demand {
		total += s * n
	}
	limit := map[int][]string{}
	for k, o := range offers {
		if o.byMetre() {
			for _, s := range sizes {
				name := fmt.Sprintf("m_%d", s)
				arcs[s] = append(arcs[s], name)
				general = append(general, name)
				cost = append(cost, fmt.Sprintf("%d %s", o.Cost*int64(s)/2, name))
				bought = append(bought, fmt.Sprintf("%d %s", s, name))
			}
			continue
		}
		for a := 1; a <= int(2*o.Length); a++ {
			if !reached[a] {
				continue
			}
			name := fmt.Sprintf("z_%d_%d", a, k)
			out[a] = append(out[a], name)
			source = append(source, name)
			general = append(general, name)
			cost = append(cost, fmt.Sprintf("%d %s", o.Cost, name))
			bought = append(bought, fmt.Sprintf("%d %s", int(2*o.Length), name))
			if o.Have > 0 {
				limit[k] = append(limit[k], name)
			}
		}
	}
	b.WriteString("Minimize\n obj: " + strings.Join(cost, "\n + ") + "\nSubject To\n")
	for a := 1; a <= widest; a++ {
		if reached[a] && len(in[a])+len(out[a]) > 0 {
			fmt.Fprintf(&b, " n%d: %s - %s = 0\n", a, strings.Join(in[a], "\n + "), strings.Join(out[a], "\n - "))
		}
	}
	fmt.Fprintf(&b, " n0: %s - %s = 0\n", strings.Join(out[0], "\n + "), strings.Join(source, "\n - "))
	for _, s := range sizes {
		fmt.Fprintf(&b, " d%d: %s >= %d\n", s, strings.Join(arcs[s], "\n + "), demand[s])
	}
	// Follows from the rest and helps the solver: what is bought is as long as
	// what is cut.
	fmt.Fprintf(&b, " long: %s >= %d\n", strings.Join(bought, "\n + "), total)
	if below > 0 {
		fmt.Fprintf(&b, " below: %s <= %d\n", strings.Join(cost, "\n + "), below)
	}
	for k := range offers {
		if len(limit[k]) > 0 {
			fmt.Fprintf(&b, " l%d: %s <= %d\n", k, strings.Join(limit[k], "\n + "), offers[k].Have)
		}
	}
	b.WriteString("General\n " + strings.Join(general, "\n ") + "\nEnd\n")
	return b.String()
}

// objective reads the objective value from a solution file of cbc.
func objective(path string) (float64, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return 0, err
	}
	line, _, _ := strings.Cut(string(text), "\n")
	_, value, ok := strings.Cut(line, "objective value")
	if !ok {
		return 0, fmt.Errorf("cbc wrote %q", line)
	}
	return strconv.ParseFloat(strings.TrimSpace(value), 64)
}
