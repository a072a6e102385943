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
	drums := map[int][]string{} // arcs into the drums of an offer
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
			drums[k] = append(drums[k], name)
		}
		if len(drums[k]) > 0 {
			name := fmt.Sprintf("n_%d", k)
			general = append(general, name)
			cost = append(cost, fmt.Sprintf("%d %s", o.Cost, name))
			bought = append(bought, fmt.Sprintf("%d %s", int(2*o.Length), name))
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
	// what is cut. So do the numbers of drums, as something to branch on.
	fmt.Fprintf(&b, " long: %s >= %d\n", strings.Join(bought, "\n + "), total)
	if below > 0 {
		fmt.Fprintf(&b, " below: %s <= %d\n", strings.Join(cost, "\n + "), below)
	}
	for k, o := range offers {
		if len(drums[k]) > 0 {
			fmt.Fprintf(&b, " c%d: %s - n_%d = 0\n", k, strings.Join(drums[k], "\n + "), k)
		}
		if len(drums[k]) > 0 && o.Have > 0 {
			fmt.Fprintf(&b, " l%d: n_%d <= %d\n", k, k, o.Have)
		}
	}
	b.WriteString("General\n " + strings.Join(general, "\n ") + "\nEnd\n")
	return b.String()
}
