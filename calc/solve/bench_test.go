package solve

import (
	"fmt"
	"testing"

	"duskwire/calc/network"
)

// BenchmarkSolve shows that the time for each node stays the same: ns/node.
func BenchmarkSolve(b *testing.B) {
	for _, nodes := range []int{30, 500, 10000} {
		b.Run(fmt.Sprint(nodes), func(b *testing.B) {
			g := big(nodes)
			b.ReportAllocs()
			for b.Loop() {
				if s := g.solve(); s.Status.State != Converged {
					b.Fatal(s.Status)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(nodes), "ns/node")
		})
	}
}

// BenchmarkSolveMesh does the same with loops: rings of 25 lamps, and a lattice
// of 30 lamps a row whose rows are joined at every lamp.
func BenchmarkSolveMesh(b *testing.B) {
	for _, nodes := range []int{30, 500, 10000} {
		for what, build := range map[string]func(int) *grid{"rings": rings, "lattice": lattice} {
			b.Run(fmt.Sprint(what, "/", nodes), func(b *testing.B) {
				g := build(nodes)
				b.ReportAllocs()
				for b.Loop() {
					if s := g.mesh(); s.Status.State != Converged {
						b.Fatal(s.Status)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(nodes), "ns/node")
			})
		}
	}
}

// rings closes every chain of big.
func rings(nodes int) *grid {
	g := big(nodes)
	for n := 25; n+24 < nodes; n += 25 {
		g.net.Branches = append(g.net.Branches, network.Branch{From: n + 24, To: n / 25})
		g.z = append(g.z, g.z[0])
	}
	g.tree = network.BuildTree(g.net)
	return g
}

// lattice is rows of 30 lamps, each lamp joined to the one above it.
func lattice(nodes int) *grid {
	const row = 30
	g := newGrid(230, network.AC)
	for n := 1; n < nodes; n++ {
		g.node(0, []network.Load{lamp(allLaws[n%len(allLaws)], 5, 230, 0.9)})
		for _, from := range []int{n - 1, n - row} {
			if from >= 0 && (from != n-1 || n%row != 0) {
				g.net.Branches = append(g.net.Branches, network.Branch{From: from, To: n})
				g.z = append(g.z, 0.1+0.01i)
			}
		}
	}
	g.tree = network.BuildTree(g.net)
	g.scale(0, 0.05)
	return g
}

// big is a net of chains of 25 lamps off one another, at a 5 % drop.
func big(nodes int) *grid {
	g := newGrid(230, network.AC)
	for len(g.net.Nodes) < nodes {
		n := len(g.net.Nodes)
		from := n - 1
		if n%25 == 0 {
			from = n / 25
		}
		to := g.node(0, []network.Load{lamp(allLaws[n%len(allLaws)], 5, 230, 0.9)})
		g.net.Branches = append(g.net.Branches, network.Branch{From: from, To: to})
		g.z = append(g.z, 0.1+0.01i)
	}
	g.tree = network.BuildTree(g.net)
	g.scale(0, 0.05)
	return g
}
