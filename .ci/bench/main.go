// Command bench sets "dusksheet readings" beside ngspice on the same nets: it
// writes a scheme of 1,000 lamps and one of 10,000, two netlists of each, runs
// all and prints wall times, their ratios, how far the voltages differ and the
// most memory that dusksheet took.
//
// The netlists are the lean one, which only holds the resistances that the
// scheme has, and the general one, in which every cable is R + jX as in the
// solver's own comparison with ngspice (calc/solve), here with X = 0.
//
//	go run ./.ci/bench [-lean] [-lamps N] out/bin/dusksheet [folder for the files]
//
// -lean leaves the general netlist out, which takes minutes; -lamps measures one
// scheme of so many lamps.
package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"time"

	"duskwire/calc/network"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// patience is how long ngspice may take before it is stopped.
const patience = 3 * time.Minute

func main() {
	lean := flag.Bool("lean", false, "leave the general netlist out")
	lamps := flag.Int("lamps", 0, "measure one scheme of so many lamps; 0 for those of 1,000 and 10,000")
	flag.Parse()
	if flag.NArg() < 1 {
		fmt.Fprintln(os.Stderr, "usage: bench [-lean] [-lamps N] path/to/dusksheet [folder]")
		os.Exit(2)
	}
	sizes := []int{1000, 10000}
	if *lamps > 0 {
		sizes = []int{*lamps}
	}
	if err := run(flag.Arg(0), flag.Args()[1:], *lean, sizes); err != nil {
		fmt.Fprintln(os.Stderr, "bench:", err)
		os.Exit(1)
	}
}

func run(dusksheet string, rest []string, lean bool, sizes []int) error {
	dir, err := os.MkdirTemp("", "duskwire-bench-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	if len(rest) > 0 {
		dir = rest[0]
	}
	fmt.Printf("%-6s  %-9s  %-22s  %-8s  %-22s  %-8s  %-7s  %s\n", "lamps", "dusksheet", "ngspice -b, lean", "ratio", "ngspice -b, general", "ratio", "memory", "largest difference (lean)")
	for _, n := range sizes {
		if err := compare(dusksheet, dir, n, lean); err != nil {
			return err
		}
	}
	return nil
}

// compare runs both programs on a scheme of n lamps and prints one line.
func compare(dusksheet, dir string, n int, lean bool) error {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		return err
	}
	scheme := filepath.Join(dir, fmt.Sprintf("garden-%d.yaml", n))
	s := garden(n)
	if err := file.SaveScheme(scheme, s); err != nil {
		return err
	}
	res := layout.NewDesk(stock, rules, s, scheme).Frame()
	net := res.Circuits.Circuits[0].Input.Net
	ours, memory, err := readings(dusksheet, scheme, filepath.Join(dir, "readings.txt"))
	if err != nil {
		return err
	}
	var cells []any
	off := "not compared"
	for _, general := range []bool{false, true} {
		if general && lean {
			cells = append(cells, "left out", "")
			continue
		}
		list := filepath.Join(dir, fmt.Sprintf("garden-%d-%v.cir", n, general))
		if err := os.WriteFile(list, netlist(net, rules[0].Name, general), 0o644); err != nil {
			return err
		}
		took, ratio, out, err := timed(list, ours)
		if err != nil {
			return err
		}
		cells = append(cells, took, ratio)
		if out != nil && !general {
			if off, err = difference(out, res.Results[0].Solution.Voltage); err != nil {
				return err
			}
		}
	}
	fmt.Printf("%-6d  %-9s  %-22s  %-8s  %-22s  %-8s  %-7s  %s\n", n, ours.Round(time.Millisecond), cells[0], cells[1], cells[2], cells[3], fmt.Sprintf("%.0f MB", memory), off)
	return nil
}

// timed runs ngspice on a netlist and returns its time and that over ours, in
// words; out is nil when there is nothing to compare.
func timed(list string, ours time.Duration) (took, ratio string, out []byte, err error) {
	theirs, out, err := spice(list)
	switch {
	case errors.Is(err, exec.ErrNotFound):
		return "not installed", "", nil, nil
	case errors.Is(err, context.DeadlineExceeded):
		return "stopped after " + patience.String(), fmt.Sprintf("over %.0f", patience.Seconds()/ours.Seconds()), nil, nil
	case err != nil:
		return "", "", nil, err
	}
	return theirs.Round(time.Millisecond).String(), fmt.Sprintf("%.1f", theirs.Seconds()/ours.Seconds()), out, nil
}

// readings runs dusksheet on a scheme and returns its wall time and the most
// memory that it took, in MB.
func readings(dusksheet, scheme, out string) (time.Duration, float64, error) {
	f, err := os.Create(out)
	if err != nil {
		return 0, 0, err
	}
	defer f.Close()
	cmd := exec.Command(dusksheet, "readings", scheme)
	cmd.Stdout = f
	var told bytes.Buffer
	cmd.Stderr = &told
	begun := time.Now()
	err = cmd.Run()
	took := time.Since(begun)
	// Exit code 1 says that Stop findings stand, which a bench may have.
	var exit *exec.ExitError
	if err != nil && (!errors.As(err, &exit) || exit.ExitCode() != 1) {
		return 0, 0, fmt.Errorf("%s: %w\n%s", dusksheet, err, told.String())
	}
	use, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
	if !ok {
		return took, 0, nil
	}
	return took, float64(use.Maxrss) / 1024, nil // kilobytes on Linux
}

// spice runs ngspice on a netlist.
func spice(list string) (time.Duration, []byte, error) {
	path, err := exec.LookPath("ngspice")
	if err != nil {
		return 0, nil, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	begun := time.Now()
	out, err := exec.CommandContext(ctx, path, "-b", list).Output()
	took := time.Since(begun)
	if ctx.Err() != nil {
		return 0, nil, ctx.Err()
	}
	if err != nil {
		return 0, nil, fmt.Errorf("ngspice on %s: %w", list, err)
	}
	return took, out, nil
}

// garden makes a scheme of n lamps on one supply point: combs of up to a
// thousand lamps, each a trunk of boxes a metre apart with chains of nine
// lamps, so that every comb of a larger garden is like that of a small one.
func garden(n int) *doc.Scheme {
	s := doc.New("uk-18")
	s.Title = fmt.Sprintf("Bench garden, %d lamps", n)
	sp := &doc.Supply{ID: "SP1", Tag: "SP1", Spur: true, Nominal: 230, Earthing: network.TNS, Upstream: "b32-rcbo-30", Fuse: "fuse-13"}
	sp.MeasuredZs.Value, sp.MeasuredZs.Known = 0.4, true
	s.Supplies = doc.NewSet(sp)
	g := &grower{want: n}
	for comb := 0; len(g.lamps) < n; comb++ {
		g.comb(comb)
	}
	s.Boxes, s.Lamps, s.Runs = doc.NewSet(g.boxes...), doc.NewSet(g.lamps...), doc.NewSet(g.runs...)
	return s
}

// grower collects the garden.
type grower struct {
	want  int
	boxes []*doc.Box
	lamps []*doc.Lamp
	runs  []*doc.Run
}

// comb adds one trunk with its teeth.
func (g *grower) comb(k int) {
	left := min(g.want-len(g.lamps), 1000)
	y := float64(12 * k)
	last, lastAt := doc.ID("SP1"), geom.Pt(0, 0)
	for i := 1; left > 0; i++ {
		at := geom.Pt(float64(i), y)
		b := &doc.Box{ID: doc.ID(fmt.Sprintf("B%d", len(g.boxes)+1)), Stock: "box-110", Place: doc.Place{At: at}}
		b.Tag = string(b.ID)
		g.boxes = append(g.boxes, b)
		g.run("swa-3x16", last, b.ID, at)
		if i == 1 {
			// Every comb starts by the supply point, however far it is drawn.
			g.runs[len(g.runs)-1].Legs[0].To = lastAt
		}
		last, lastAt = b.ID, at
		from := b.ID
		for t := 1; t <= 9 && left > 0; t, left = t+1, left-1 {
			to := geom.Pt(float64(i), y+float64(t))
			l := &doc.Lamp{ID: doc.ID(fmt.Sprintf("L%d", len(g.lamps)+1)), Stock: "brick-3w", Place: doc.Place{At: to}}
			l.Tag = string(l.ID)
			g.lamps = append(g.lamps, l)
			g.run("swa-3x1.5", from, l.ID, to)
			from = l.ID
		}
	}
}

// run adds a buried cable with one corner, at the far end.
func (g *grower) run(cable string, from, to doc.ID, corner geom.Point) {
	r := &doc.Run{ID: doc.ID(fmt.Sprintf("R%d", len(g.runs)+1)), Cable: cable, From: doc.End{On: from}, To: doc.End{On: to}}
	r.Tag = string(r.ID)
	r.Legs = []doc.Leg{
		{To: corner, Support: network.Buried, Depth: 500 * geom.Millimetre},
		{Support: network.Buried, Depth: 500 * geom.Millimetre},
	}
	g.runs = append(g.runs, r)
}

// netlist writes a mains net for ngspice. Phasors become two nets, node r… for
// the real part and i… for the imaginary one, tied together by the lamps,
// I = (P - jQ)·v/|v|² as B sources, and in the general form by the reactance of
// every cable too: Re: R·Ir - X·Ii, Im: R·Ii + X·Ir, the currents read by 0 V
// sources.
func netlist(n *network.Net, title string, general bool) []byte {
	var s bytes.Buffer
	fmt.Fprintf(&s, "garden of the bench, judged by %s\nVr r0 0 %.15g\nVi i0 0 0\n", title, float64(n.Supply.Nominal))
	for b := range n.Branches {
		br := &n.Branches[b]
		ohm := 0.0
		if br.Cable != nil {
			ohm = float64(br.Cable.Drop) * float64(br.Length)
		}
		for _, parts := range [][2]string{{"r", "i"}, {"i", "r"}} {
			part, other := parts[0], parts[1]
			switch {
			case ohm == 0:
				fmt.Fprintf(&s, "V%s%d %s%d %s%d 0\n", part, b, part, br.From, part, br.To)
			case general:
				fmt.Fprintf(&s, "R%s%d %s%d a%s%d %.15g\n", part, b, part, br.From, part, b, ohm)
				fmt.Fprintf(&s, "Vs%s%d a%s%d c%s%d 0\n", part, b, part, b, part, b)
				fmt.Fprintf(&s, "H%s%d c%s%d %s%d Vs%s%d 0\n", part, b, part, b, part, br.To, other, b)
			default:
				fmt.Fprintf(&s, "R%s%d %s%d %s%d %.15g\n", part, b, part, br.From, part, br.To, ohm)
			}
		}
	}
	for i := range n.Nodes {
		fmt.Fprintf(&s, ".nodeset v(r%d)=%.15g v(i%d)=0\n", i, float64(n.Supply.Nominal), i)
		for k, l := range n.Nodes[i].Loads {
			p := float64(l.Power)
			q := p * math.Sqrt(1-l.PowerFactor*l.PowerFactor) / l.PowerFactor
			size := fmt.Sprintf("max(v(r%d)^2+v(i%d)^2,%.15g)", i, i, 0.16*float64(l.Nominal*l.Nominal))
			fmt.Fprintf(&s, "Br%d_%d r%d 0 I=(%.15g*v(r%d)+%.15g*v(i%d))/%s\n", i, k, i, p, i, q, i, size)
			fmt.Fprintf(&s, "Bi%d_%d i%d 0 I=(%.15g*v(i%d)-%.15g*v(r%d))/%s\n", i, k, i, p, i, q, i, size)
		}
	}
	s.WriteString(".options reltol=1e-6 vntol=1e-6 abstol=1e-9\n.control\nset numdgt=9\nop\nprint all\nquit\n.endc\n.end\n")
	return s.Bytes()
}

// difference is the largest difference of a voltage, node by node.
func difference(out []byte, ours []complex128) (string, error) {
	theirs := map[string]float64{}
	lines := bufio.NewScanner(bytes.NewReader(out))
	for lines.Scan() {
		name, value, ok := strings.Cut(lines.Text(), " = ")
		if v, err := strconv.ParseFloat(strings.TrimSpace(value), 64); ok && err == nil {
			theirs[strings.TrimSpace(name)] = v
		}
	}
	worst := 0.0
	for i, v := range ours {
		re, ok := theirs[fmt.Sprint("r", i)]
		if !ok {
			return "", fmt.Errorf("ngspice gave no voltage for node %d", i)
		}
		worst = math.Max(worst, math.Hypot(re-real(v), theirs[fmt.Sprint("i", i)]-imag(v)))
	}
	return fmt.Sprintf("%.2g V", worst), nil
}
