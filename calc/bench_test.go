package calc_test

import (
	"fmt"
	"strings"
	"testing"

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

func BenchmarkEvaluate(b *testing.B) {
	for _, n := range []int{100, 1000} {
		in := input(garden(n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				calc.Evaluate(in)
			}
		})
	}
}
