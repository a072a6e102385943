// Command benchlight sets the sheet of lux (calc/light) beside a plain double
// loop in C, compiled with gcc -O2, on the same invented lamps: 100 lamps by
// 512 x 512 cells, one core each. It prints processor times, so that a busy
// machine does not blur them, how far the two differ against the error that
// the sheet states, and what it costs to move one lamp.
//
//	go run ./.ci/benchlight
package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"
	"time"

	"duskwire/calc/light"
)

const (
	lamps = 100
	cells = 512
	metre = 30.0 // edge of the plan
)

func main() {
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, "benchlight:", err)
		os.Exit(1)
	}
}

func run() error {
	runtime.GOMAXPROCS(1)
	dir, err := os.MkdirTemp("", "duskwire-light-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	placed, deck, err := garden()
	if err != nil {
		return err
	}
	c, cTime, err := plain(dir, deck)
	if err != nil {
		return err
	}
	scene, err := light.NewScene(placed, nil, 1)
	if err != nil {
		return err
	}
	sheet, err := light.NewSheet(scene, light.Grid{Step: metre / cells, W: cells, H: cells})
	if err != nil {
		return err
	}
	sheet.Keep() // as on the plan, where lamps are moved
	goTime := math.Inf(1)
	for range 3 {
		goTime = math.Min(goTime, timed(sheet.Fill))
	}
	share, most := apart(sheet.All(), c)
	total, slowest, err := moved(sheet, placed)
	if err != nil {
		return err
	}
	fmt.Printf("%d lamps, %d x %d cells, processor time on one core\n", lamps, cells, cells)
	fmt.Printf("plain C loop, gcc -O2      %8.1f ms\n", 1e3*cTime)
	fmt.Printf("sheet, whole               %8.1f ms   %.2f of C\n", 1e3*goTime, goTime/cTime)
	for step, name := range []string{"first step of a drag", "each step after it"} {
		fmt.Printf("%s, mean %6.1f ms   1/%.0f of the whole\n", name, 1e3*total[step]/lamps, goTime*lamps/total[step])
		fmt.Printf("%s, most %6.1f ms   1/%.0f of the whole\n", name, 1e3*slowest[step], goTime/slowest[step])
	}
	fmt.Printf("greatest difference        %8.4f lx   %.2f of what is stated (1 %% or %g lx)\n", most, share, light.LeftOut)
	if share > 1 {
		return errors.New("the sheet differs from the C loop by more than is stated")
	}
	return nil
}

// apart returns how far two sheets of lux differ: as a share of the error that is
// stated, and at most.
func apart(lux, plain []float64) (share, most float64) {
	for i, v := range lux {
		off := math.Abs(v - plain[i])
		most = math.Max(most, off)
		share = math.Max(share, off/math.Max(0.01*plain[i], light.LeftOut))
	}
	return share, most
}

// moved moves each lamp twice and returns the times of the first steps of a drag and
// of the next.
func moved(sheet *light.Sheet, placed []light.Lamp) (total, slowest [2]float64, err error) {
	for i := range placed {
		l := placed[i]
		for step := range total {
			l.At.X += 0.05
			var failed error
			one := timed(func() { failed = sheet.Exchange(i, l) })
			if failed != nil {
				return total, slowest, failed
			}
			total[step] += one
			slowest[step] = math.Max(slowest[step], one)
		}
	}
	return total, slowest, nil
}

// timed returns the processor time of the process in seconds.
func timed(f func()) float64 {
	begun := used()
	f()
	return (used() - begun).Seconds()
}

func used() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// garden makes lamps at random, always the same, and the deck that the C loop
// reads. Tables are those of an LM-63 file at 1° by 5°, so that both sides
// interpolate the same figures; two in three are rotational.
func garden() ([]light.Lamp, []byte, error) {
	r := rand.New(rand.NewSource(1))
	var deck bytes.Buffer
	fmt.Fprintln(&deck, lamps, cells, cells, 0, 0, metre/cells)
	var out []light.Lamp
	for i := range lamps {
		planes := 1
		if i%3 == 0 {
			planes = 73
		}
		beam := []float64{24, 36, 60, 100}[i%4]
		file, cd := table(planes, beam)
		p, err := light.ReadLM63(file)
		if err != nil {
			return nil, nil, err
		}
		l := light.Lamp{ID: fmt.Sprint(i), Dist: p.Dist, Share: 1, White: 2700,
			At:      light.Vec{X: metre * r.Float64(), Y: metre * r.Float64(), Z: 0.3 + 3*r.Float64()},
			Bearing: 6 * r.Float64(), Tilt: 1.2 * r.Float64(), Spin: 3 * r.Float64()}
		out = append(out, l)
		fmt.Fprintln(&deck, l.At.X, l.At.Y, l.At.Z, l.Bearing, l.Tilt, l.Spin, planes, 181)
		deck.WriteString(cd)
	}
	return out, deck.Bytes(), nil
}

// table returns an LM-63 file of cos^n with n changing round the axis, and its
// intensities alone.
func table(planes int, beam float64) ([]byte, string) {
	n := math.Log(0.5) / math.Log(math.Cos(beam/2*math.Pi/180))
	var head, cd strings.Builder
	fmt.Fprintf(&head, "IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 181 %d 1 2 0 0 0 1 1 5\n", planes)
	for g := range 181 {
		fmt.Fprintln(&head, g)
	}
	for p := range planes {
		fmt.Fprintln(&head, 5*p)
		s := math.Sin(float64(p) * 5 * math.Pi / 180)
		for g := range 181 {
			v := 400 * math.Pow(math.Max(math.Cos(float64(g)*math.Pi/180), 0), n*(1+0.5*s*s))
			cd.WriteString(strconv.FormatFloat(v, 'g', 12, 64) + "\n")
		}
	}
	return []byte(head.String() + cd.String()), cd.String()
}

// plain compiles and runs the C loop.
func plain(dir string, deck []byte) (lux []float64, seconds float64, err error) {
	prog, in, out := filepath.Join(dir, "loop"), filepath.Join(dir, "lamps"), filepath.Join(dir, "lux")
	if msg, err := exec.Command("gcc", "-O2", "-o", prog, ".ci/benchlight/c/loop.c", "-lm").CombinedOutput(); err != nil {
		return nil, 0, fmt.Errorf("gcc: %w: %s", err, msg)
	}
	if err := os.WriteFile(in, deck, 0o600); err != nil {
		return nil, 0, err
	}
	seconds = math.Inf(1)
	for range 3 {
		said, err := exec.Command(prog, in, out).Output()
		if err != nil {
			return nil, 0, fmt.Errorf("plain loop: %w", err)
		}
		v, err := strconv.ParseFloat(strings.TrimSpace(string(said)), 64)
		if err != nil {
			return nil, 0, err
		}
		seconds = math.Min(seconds, v)
	}
	raw, err := os.ReadFile(out)
	if err != nil {
		return nil, 0, err
	}
	lux = make([]float64, len(raw)/8)
	return lux, seconds, binary.Read(bytes.NewReader(raw), binary.LittleEndian, lux)
}
