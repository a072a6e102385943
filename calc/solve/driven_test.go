package solve

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"math/cmplx"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"pgregory.net/rapid"
)

// driver hangs a constant-current source on a node and returns its output.
func (g *grid) driver(from int, amps, most float64) int {
	out := g.source(from, network.Converter{Nominal: q.Volt(most), Current: network.DC, Rated: q.VoltAmpere(amps * most), Regulated: true,
		Drive: q.Ampere(amps), Most: q.Volt(most), Efficiency: 0.85, PowerFactor: 0.9, NoLoad: 0.5, SELV: true})
	g.net.Systems[len(g.net.Systems)-1].Drive = q.Ampere(amps)
	return out
}

// diode hangs a lamp of a string behind a cable of r ohms.
func (g *grid) diode(from int, r, amps, forward float64) int {
	i := g.cable(from, complex(r, 0), network.Load{Law: network.Driven, Power: q.Watt(amps * forward), PowerFactor: 1,
		Nominal: q.Volt(forward), Drive: q.Ampere(amps)})
	g.net.Nodes[i].Kind = network.LampNode
	return i
}

// Hand arithmetic: 350 mA, three lamps of 3.1 V, a box between the first two.
// Cables of 0.5, 0.2, 0.3 and 0.4 Ω lose 0.175, 0.07, 0.105 and 0.14 V, so that
// the string takes 9.3 + 0.49 = 9.79 V and 3.4265 W; the mains 3.4265/0.85 + 0.5
// = 4.5312 W. Behind each cable stands what lamps and cables beyond still need.
func TestStringByHand(t *testing.T) {
	g := newGrid(230, network.AC)
	in := g.cable(0, 1)
	out := g.driver(in, 0.35, 24)
	l1 := g.diode(out, 0.5, 0.35, 3.1)
	box := g.cable(l1, 0.2)
	l2 := g.diode(box, 0.3, 0.35, 3.1)
	l3 := g.diode(l2, 0.4, 0.35, 3.1)
	spare := g.cable(l3, 7) // feeds nothing, so carries nothing
	s := g.solve()
	for _, row := range []struct {
		node        int
		volts, drop float64
	}{{out, 9.79, 0}, {l1, 9.615, 0.175}, {box, 6.445, 0.245}, {l2, 6.34, 0.35}, {l3, 3.1, 0.49}, {spare, 3.1, 0.49}} {
		if v := real(s.Voltage[row.node]); math.Abs(v-row.volts) > 1e-9 || math.Abs(float64(s.Drop[row.node])-row.drop) > 1e-9 {
			t.Errorf("node %d: %g V with %g V lost, want %g and %g", row.node, v, float64(s.Drop[row.node]), row.volts, row.drop)
		}
	}
	if p := real(s.Voltage[in] * cmplx.Conj(s.Current[1])); math.Abs(p-(3.4265/0.85+0.5)) > 1e-9 {
		t.Errorf("input %g W", p)
	}
	for b, want := range []float64{2: 0.35, 3: 0.35, 4: 0.35, 5: 0.35, 6: 0} {
		if b >= 2 && math.Abs(real(s.Current[b])-want) > 1e-12 {
			t.Errorf("branch %d carries %v, want %g", b, s.Current[b], want)
		}
	}
	if off := float64(s.Supplied - s.Used - s.Lost); math.Abs(off) > 1e-6 {
		t.Errorf("supplied %v, used %v, lost %v", s.Supplied, s.Used, s.Lost)
	}
}

// A forked string has no answer: no volts, and the lamps at their own power.
func TestStringForked(t *testing.T) {
	g := newGrid(230, network.AC)
	out := g.driver(g.cable(0, 1), 0.35, 24)
	a, b := g.diode(out, 0.5, 0.35, 3), g.diode(out, 0.5, 0.35, 3)
	s := g.solve()
	if s.Voltage[a] != 0 || s.Voltage[b] != 0 || s.Voltage[out] != 0 || math.Abs(float64(s.Used)-2.1) > 1e-9 {
		t.Errorf("volts %v %v %v, used %v", s.Voltage[out], s.Voltage[a], s.Voltage[b], s.Used)
	}
	if off := float64(s.Supplied - s.Used - s.Lost); math.Abs(off) > 1e-6 {
		t.Errorf("supplied %v, used %v, lost %v", s.Supplied, s.Used, s.Lost)
	}
}

// Laws of a string behind any mains net: power balances, the volts of the lamps
// and the cables make up those of the source, and thicker cable ahead of the
// source changes nothing behind it.
func TestStringLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{t}
		g := newGrid(230, network.AC)
		in := g.cable(0, complex(d.f(0, 5), 0), lamp(network.ConstantPower, d.f(1, 50), 230, d.f(0.5, 1)))
		amps := d.f(0.1, 1.4)
		at := g.driver(in, amps, 400)
		out, sum := at, 0.0
		for range 1 + d.n(8) {
			r, forward := d.f(0, 3), d.f(1, 40)
			at = g.diode(at, r, amps, forward)
			sum += forward + r*amps
		}
		s := g.solve()
		if v := real(s.Voltage[out]); math.Abs(v-sum) > 1e-9*sum {
			t.Fatalf("string at %g V, its parts make %g", v, sum)
		}
		if off := math.Abs(float64(s.Supplied - s.Used - s.Lost)); off > 1e-6*float64(s.Supplied) {
			t.Fatalf("supplied %v, used %v, lost %v", s.Supplied, s.Used, s.Lost)
		}
	})
}

// Outside check: ngspice, with both cores of every cable drawn as they are: a
// current source, lamps as fixed volts in the one core, the two cores joined
// behind the last lamp.
func TestStringAgainstSpice(t *testing.T) {
	path := ngspice(t)
	for seed := range 10 {
		d := newSeeded(uint64(seed))
		amps := []float64{0.35, 0.5, 0.7}[d.n(3)]
		g := newGrid(230, network.AC)
		at := g.driver(0, amps, 100)
		out := at
		var deck bytes.Buffer
		fmt.Fprintf(&deck, "string\nI1 0 f%d %g\nRr r%d 0 1u\n", out, amps, out)
		ahead := fmt.Sprint("f", out)
		for range 2 + d.n(6) {
			r, up := d.f(0.05, 3), at
			if d.n(4) == 0 {
				at = g.cable(at, complex(r, 0))
				fmt.Fprintf(&deck, "Rf%d %s f%d %.15g\nRb%d r%d r%d %.15g\n", at, ahead, at, r/2, at, up, at, r/2)
				ahead = fmt.Sprint("f", at)
				continue
			}
			forward := d.f(2, 12)
			at = g.diode(at, r, amps, forward)
			fmt.Fprintf(&deck, "Rf%d %s f%d %.15g\nRb%d r%d r%d %.15g\nV%d f%d g%d %.15g\n", at, ahead, at, r/2, at, up, at, r/2, at, at, at, forward)
			ahead = fmt.Sprint("g", at)
		}
		at = g.diode(at, 0.1, amps, 3)
		fmt.Fprintf(&deck, "Rf%d %s f%d 0.05\nRb%d r%d r%d 0.05\nV%d f%d r%d 3\n", at, ahead, at, at, at-1, at, at, at, at)
		fmt.Fprint(&deck, ".options reltol=1e-9 abstol=1e-12 vntol=1e-9\n.control\nset numdgt=12\nop\nprint all\nquit\n.endc\n.end\n")
		volts := runSpice(t, path, &deck)
		s := g.solve()
		for i := out; i < len(g.net.Nodes); i++ {
			want := volts[fmt.Sprint("f", i)] - volts[fmt.Sprint("r", i)]
			if got := real(s.Voltage[i]); want == 0 || math.Abs(got-want) > 1e-6*(1+want) {
				t.Errorf("net %d node %d: %g V, ngspice %g V", seed, i, got, want)
			}
		}
	}
}

func runSpice(t *testing.T, path string, deck *bytes.Buffer) map[string]float64 {
	t.Helper()
	cmd := exec.Command(path, "-b", "/dev/stdin")
	cmd.Stdin = deck
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("ngspice: %v\n%.2000s", err, out)
	}
	volts := map[string]float64{}
	for lines := bufio.NewScanner(bytes.NewReader(out)); lines.Scan(); {
		name, value, ok := strings.Cut(lines.Text(), " = ")
		if v, err := strconv.ParseFloat(strings.TrimSpace(value), 64); ok && err == nil {
			volts[name] = v
		}
	}
	return volts
}
