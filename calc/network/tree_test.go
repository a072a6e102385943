package network

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

// wire makes a net of n nodes from pairs of node numbers.
func wire(n, root int, pairs ...[2]int) *Net {
	net := &Net{Nodes: make([]Node, n), Root: root}
	for _, p := range pairs {
		net.Branches = append(net.Branches, Branch{From: p[0], To: p[1]})
	}
	return net
}

func TestBuildTree(t *testing.T) {
	for _, row := range []struct {
		what   string
		net    *Net
		order  []int
		parent []int
		closed []int
		loose  []int
	}{
		{"chain", wire(3, 0, [2]int{0, 1}, [2]int{1, 2}), []int{0, 1, 2}, []int{-1, 0, 1}, nil, nil},
		{"star, breadth first", wire(5, 0, [2]int{0, 1}, [2]int{1, 2}, [2]int{0, 3}, [2]int{3, 4}), []int{0, 1, 3, 2, 4}, []int{-1, 0, 1, 2, 3}, nil, nil},
		{"drawn towards the supply", wire(3, 0, [2]int{1, 0}, [2]int{2, 1}), []int{0, 1, 2}, []int{-1, 0, 1}, nil, nil},
		{"root in the middle", wire(3, 1, [2]int{0, 1}, [2]int{1, 2}), []int{1, 0, 2}, []int{0, -1, 1}, nil, nil},
		{"ring", wire(3, 0, [2]int{0, 1}, [2]int{1, 2}, [2]int{2, 0}), []int{0, 1, 2}, []int{-1, 0, 2}, []int{1}, nil},
		{"two cables side by side", wire(2, 0, [2]int{0, 1}, [2]int{0, 1}), []int{0, 1}, []int{-1, 0}, []int{1}, nil},
		{"cable back to its own start", wire(2, 0, [2]int{0, 0}, [2]int{0, 1}), []int{0, 1}, []int{-1, 1}, []int{0}, nil},
		{"loose pair", wire(4, 0, [2]int{0, 1}, [2]int{2, 3}), []int{0, 1}, []int{-1, 0, -1, -1}, nil, []int{2, 3}},
		{"loose ring is not ours", wire(3, 0, [2]int{1, 2}, [2]int{2, 1}), []int{0}, []int{-1, -1, -1}, nil, []int{1, 2}},
		{"board alone", wire(1, 0), []int{0}, []int{-1}, nil, nil},
		{"empty", wire(0, 0), nil, []int{}, nil, nil},
	} {
		t.Run(row.what, func(t *testing.T) {
			got := BuildTree(row.net)
			for _, c := range []struct {
				what      string
				got, want []int
			}{
				{"order", got.Order, row.order}, {"parent", got.Parent, row.parent},
				{"closed", got.Closed, row.closed}, {"loose", got.Loose, row.loose},
			} {
				if !reflect.DeepEqual(c.got, c.want) {
					t.Errorf("%s = %v, want %v", c.what, c.got, c.want)
				}
			}
		})
	}
}

// Every node is either in the order or loose, parents come before children,
// kids are the parents turned round, and the branches reached are those of
// the tree and those that close a loop.
func TestTreeLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "nodes")
		end := rapid.IntRange(0, n-1)
		net := wire(n, end.Draw(t, "root"))
		for range rapid.IntRange(0, 30).Draw(t, "branches") {
			net.Branches = append(net.Branches, Branch{From: end.Draw(t, "from"), To: end.Draw(t, "to")})
		}
		tr := BuildTree(net)
		place := make([]int, n)
		for k, i := range tr.Order {
			place[i] = k + 1
		}
		if len(tr.Order)+len(tr.Loose) != n {
			t.Fatalf("%d in order and %d loose of %d", len(tr.Order), len(tr.Loose), n)
		}
		kids := 0
		for _, i := range tr.Order {
			up := tr.Up(net, i)
			if (up < 0) != (i == net.Root) || (up >= 0 && place[up] >= place[i]) {
				t.Fatalf("node %d at place %d is fed from %d", i, place[i], up)
			}
			for _, b := range tr.Kids[i] {
				far := net.Branches[b].From + net.Branches[b].To - i
				if tr.Parent[far] != b {
					t.Fatalf("branch %d leaves %d but does not feed %d", b, i, far)
				}
				kids++
			}
		}
		reached := 0
		for _, b := range net.Branches {
			if place[b.From] > 0 {
				reached++
			}
		}
		if kids+1 != len(tr.Order) || kids+len(tr.Closed) != reached {
			t.Fatalf("%d in the tree, %d closing, %d reached", kids, len(tr.Closed), reached)
		}
		if again := BuildTree(net); !reflect.DeepEqual(tr, again) {
			t.Fatal("a second walk differs")
		}
	})
}
