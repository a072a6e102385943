package calc_test

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"

	"duskwire/calc"
)

// garden is a scheme of n lamps: one way at the board feeds boxes along a
// trunk, each box ten mains lamps in a chain; every fifth box a 12 V source
// with ten lamps instead.
func garden(n int) string {
	var s strings.Builder
	s.WriteString("way TN-S ze=0.3 pfc=800\nboard b10-rcbo-30\nindoor te-2.5 3 C\n")
	at, run := "SP1", 0
	add := func(to, cable, length string) {
		run++
		fmt.Fprintf(&s, "R%d %s %s %s %s C\n", run, at, to, cable, length)
		at = to
	}
	for lamp, box := 0, 0; lamp < n; box++ {
		name := fmt.Sprintf("B%d", box)
		add(name, "swa-3x10", "0.5")
		cable, kind := "swa-3x2.5", "brick"
		if box%5 == 4 {
			src := fmt.Sprintf("S%d", box)
			add(src, "swa-3x2.5", "1")
			fmt.Fprintf(&s, "%s = dc100\n", src)
			at, cable, kind = src+"+", "elv-2x4", "spike"
		}
		for k := 0; k < 10 && lamp < n; k++ {
			lamp++
			l := fmt.Sprintf("L%d", lamp)
			add(l, cable, "0.8")
			fmt.Fprintf(&s, "%s = %s\n", l, kind)
		}
		at = name
	}
	return s.String()
}

// Ten circuits of a thousand lamps, their results all kept, stay under 200 MB;
// all that is ever allocated is counted, which is more than is held at once. The
// time is told and not judged: BenchmarkEvaluate measures it.
func TestMemoryOfTenThousandLamps(t *testing.T) {
	const most = 200 << 20
	var ins []calc.Input
	for range 10 {
		ins = append(ins, input(garden(1000)))
	}
	one := input(garden(10000)) // more than its cables carry: the search for the collapse
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	start := time.Now()
	var kept []*calc.Result
	lamps := 0
	for _, in := range append(ins, one) {
		kept = append(kept, calc.Evaluate(in))
		lamps += kept[len(kept)-1].Totals.Lamps
	}
	took := time.Since(start)
	runtime.ReadMemStats(&after)
	if lamps != 20000 {
		t.Fatalf("%d lamps", lamps)
	}
	used := after.TotalAlloc - before.TotalAlloc
	t.Logf("20,000 lamps, half of them on one circuit that collapses: %.1f MB, %v", float64(used)/(1<<20), took.Round(time.Millisecond))
	if used > most {
		t.Errorf("%d bytes were allocated, want at most %d", used, most)
	}
	runtime.KeepAlive(kept)
}

// BenchmarkEvaluateRings is a garden of 12 V rings of 20 lamps each, whose every
// run is sized by solving its ring again.
func BenchmarkEvaluateRings(b *testing.B) {
	var s strings.Builder
	s.WriteString("way TN-S ze=0.3 pfc=800\nboard b10-rcbo-30\nindoor te-2.5 3 C\n")
	run := 0
	add := func(from, to, cable, length string) {
		run++
		fmt.Fprintf(&s, "R%d %s %s %s %s C\n", run, from, to, cable, length)
	}
	at := "SP1"
	for k := range 25 {
		box, src := fmt.Sprint("B", k), fmt.Sprint("S", k)
		add(at, box, "swa-3x10", "1")
		add(box, src, "swa-3x2.5", "1")
		fmt.Fprintf(&s, "%s = dc100\n", src)
		from := src + "+"
		for i := range 20 {
			l := fmt.Sprint("L", 20*k+i)
			fmt.Fprintf(&s, "%s = spike\n", l)
			add(from, l, "elv-2x4", "0.8")
			from = l
		}
		add(from, src+"+", "elv-2x4", "0.8")
		at = box
	}
	in := input(s.String())
	b.ReportAllocs()
	for b.Loop() {
		calc.Evaluate(in)
	}
}

func BenchmarkEvaluate(b *testing.B) {
	for _, n := range []int{100, 1000, 10000} {
		in := input(garden(n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				calc.Evaluate(in)
			}
		})
	}
}
