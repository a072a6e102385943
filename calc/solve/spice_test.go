package solve

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"duskwire/calc/network"
)

// deck writes a net as an ngspice netlist.
// A complex net becomes two coupled ones: node "r…" carries the real part of
// the voltage, "i…" the imaginary part. Lamps are B sources.
type deck struct{ bytes.Buffer }

// names of the two nodes of node i.
func re(i int) string { return fmt.Sprint("r", i) }
func im(i int) string { return fmt.Sprint("i", i) }

func (d *deck) line(format string, a ...any) { fmt.Fprintf(d, format+"\n", a...) }

func (d *deck) add(g *grid) {
	d.line("Vr %s 0 %.15g", re(0), float64(g.net.Supply.Nominal))
	d.line("Vi %s 0 0", im(0))
	for b, br := range g.net.Branches {
		name := fmt.Sprint("b", b)
		if br.Converter != nil {
			d.source(name, g, br)
			continue
		}
		z := g.z[b]
		if g.dc(br.To) {
			z = complex(real(z), 0)
		}
		d.series(name, re(br.From), im(br.From), re(br.To), im(br.To), z)
	}
	for i, node := range g.net.Nodes {
		for l, load := range node.Loads {
			d.load(fmt.Sprintf("%d_%d", i, l), re(i), im(i), load, g.dc(i))
		}
		d.line(".nodeset v(%s)=%.15g v(%s)=0", re(i), g.nominal(i), im(i))
	}
}

// series is the impedance R + jX from one node to another:
// Re: R·Ir - X·Ii, Im: R·Ii + X·Ir, the currents read by 0 V sources.
func (d *deck) series(name, fr, fi, tr, ti string, z complex128) {
	d.line("Rr%s %s a%s %.15g", name, fr, name, real(z))
	d.line("Ri%s %s b%s %.15g", name, fi, name, real(z))
	d.line("Vsr%s a%s c%s 0", name, name, name)
	d.line("Vsi%s b%s d%s 0", name, name, name)
	d.line("Hr%s c%s %s Vsi%s %.15g", name, name, tr, name, -imag(z))
	d.line("Hi%s d%s %s Vsr%s %.15g", name, name, ti, name, imag(z))
}

// low is |v|² at 40 % of nominal, under which the lamps of the netlist turn
// resistive: ngspice starts its search from there. No solution compared lies
// so low.
func low(nominal float64) float64 { return 0.16 * nominal * nominal }

// load draws I = (P - jQ)·v/|v|² (constant power), or with |v|² replaced by
// |v|·Un (constant current) or Un² (resistive).
func (d *deck) load(name, r, i string, l network.Load, dc bool) {
	p := float64(l.Power)
	qq := imag(-pull(network.Load{Law: network.Resistive, Power: l.Power, Nominal: 1, PowerFactor: l.PowerFactor}, dc, 1))
	size := fmt.Sprintf("max(v(%s)^2+v(%s)^2,%.15g)", r, i, low(float64(l.Nominal)))
	switch l.Law {
	case network.ConstantCurrent:
		size = fmt.Sprintf("(sqrt(%s)*%.15g)", size, float64(l.Nominal))
	case network.Resistive:
		size = fmt.Sprintf("%.15g", float64(l.Nominal)*float64(l.Nominal))
	case network.ResistorStrip:
		uf := float64(l.Forward)
		size = fmt.Sprintf("(sqrt(%s)*%.15g/max(sqrt(%s)-%.15g,1e-6))", size, float64(l.Nominal)*(float64(l.Nominal)-uf), size, uf)
	case network.Filament:
		un := float64(l.Nominal)
		size = fmt.Sprintf("(sqrt(%s)*%.15g*exp(0.55*ln(%.15g/sqrt(%s))))", size, un, un, size)
	}
	d.line("Br%s %s 0 I=(%.15g*v(%s)+%.15g*v(%s))/%s", name, r, p, r, qq, i, size)
	d.line("Bi%s %s 0 I=(%.15g*v(%s)-%.15g*v(%s))/%s", name, i, p, i, qq, r, size)
}

// source is an open voltage behind the regulation resistance, and on the
// primary a constant power of output/efficiency + no-load.
func (d *deck) source(name string, g *grid, br network.Branch) {
	c := br.Converter
	fr, fi, tr, ti := re(br.From), im(br.From), re(br.To), im(br.To)
	if c.Regulated {
		d.line("Vo%s o%s 0 %.15g", name, name, float64(c.Nominal))
	} else {
		d.line("Bo%s o%s 0 V=sqrt(v(%s)^2+v(%s)^2)*%.15g", name, name, fr, fi,
			float64(c.Nominal)*(1+c.Rise)/g.nominal(br.From))
	}
	d.series(name, "o"+name, "0", tr, ti, complex(float64(c.Resistance())+1e-9, 0))
	watts := fmt.Sprintf("((v(%s)*i(Vsr%s)+v(%s)*i(Vsi%s))/%.15g+%.15g)", tr, name, ti, name, c.Efficiency, float64(c.NoLoad))
	tan := imag(-pull(network.Load{Law: network.Resistive, Power: 1, Nominal: 1, PowerFactor: c.PowerFactor}, g.dc(br.From), 1))
	size := fmt.Sprintf("max(v(%s)^2+v(%s)^2,%.15g)", fr, fi, low(g.nominal(br.From)))
	d.line("Bpr%s %s 0 I=%s*(v(%s)+%.15g*v(%s))/%s", name, fr, watts, fr, tan, fi, size)
	d.line("Bpi%s %s 0 I=%s*(v(%s)-%.15g*v(%s))/%s", name, fi, watts, fi, tan, fr, size)
}

// spice returns the operating point of one net: voltage by node name. Each
// net is a process of its own (some 20 ms), so that none disturbs another.
func spice(t *testing.T, path string, g *grid) map[string]float64 {
	t.Helper()
	var d deck
	d.line("garden net")
	d.add(g)
	d.line(".options reltol=1e-9 abstol=1e-12 vntol=1e-9")
	d.line(".control\nset numdgt=12\nop\nprint all\nquit\n.endc\n.end")
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	cmd := exec.CommandContext(ctx, path, "-b", "/dev/stdin")
	cmd.Stdin = &d.Buffer
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

// ngspice returns the path of the program, or skips the test loudly; where tests
// run by themselves it must be there.
func ngspice(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("ngspice")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("ngspice is not installed (make test-packages installs it): %v", err)
		}
		t.Skip("NOT CHECKED AGAINST NGSPICE: the program ngspice is not installed; the solver was not compared with it")
	}
	return path
}

// Outside check: ngspice operating point of 60 random nets, half of them with
// sources, alternating and direct current, all three laws.
func TestAgainstSpice(t *testing.T) {
	path := ngspice(t)
	for seed := range compared {
		g := random(newSeeded(uint64(1000+seed)), 12, allLaws, seed%2 == 1)
		volts := spice(t, path, g)
		want := make([]complex128, len(g.net.Nodes))
		for i := range want {
			r, ok := volts[re(i)]
			if !ok {
				t.Fatalf("ngspice gave no voltage for net %d node %d", seed, i)
			}
			want[i] = complex(r, volts[im(i)])
		}
		within(t, seed, g, g.solve(), want)
	}
}
