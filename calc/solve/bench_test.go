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

// big is a net of chains of 25 lamps off one another, at a 5 % drop.
func big(nodes int) *grid {
	g := newGrid(230, network.AC)
	for len(g.net.Nodes) < nodes {
		n := len(g.net.Nodes)
		from := n - 1
		if n%25 == 0 {
			from = n / 25
		}
		to := g.node(0, []network.Load{lamp(allLaws[n%3], 5, 230, 0.9)})
		g.net.Branches = append(g.net.Branches, network.Branch{From: from, To: to})
		g.z = append(g.z, 0.1+0.01i)
	}
	g.tree = network.BuildTree(g.net)
	g.scale(0, 0.05)
	return g
}
