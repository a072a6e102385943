package network

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"
)

func TestFindRings(t *testing.T) {
	for _, row := range []struct {
		what   string
		net    *Net
		closed []int
		on     []bool
		head   []int
	}{
		{"chain", wire(3, 0, [2]int{0, 1}, [2]int{1, 2}), nil, nil, nil},
		{"ring beyond a lead, with a tail", wire(5, 0, [2]int{0, 1}, [2]int{1, 2}, [2]int{2, 3}, [2]int{3, 1}, [2]int{3, 4}),
			[]int{2}, []bool{false, true, true, true, false}, []int{0, 1, 1, 1, 4}},
		{"two side by side", wire(2, 0, [2]int{0, 1}, [2]int{0, 1}), []int{1}, []bool{true, true}, []int{0, 0}},
		{"back to its own start", wire(2, 0, [2]int{0, 0}, [2]int{0, 1}), nil, nil, nil},
		{"two rings that share a node", wire(5, 0, [2]int{0, 1}, [2]int{1, 2}, [2]int{2, 0}, [2]int{2, 3}, [2]int{3, 4}, [2]int{4, 2}),
			[]int{1, 4}, []bool{true, true, true, true, true, true}, []int{0, 0, 0, 0, 0}},
		{"loose ring", wire(3, 0, [2]int{1, 2}, [2]int{2, 1}), nil, nil, nil},
	} {
		got := FindRings(row.net, BuildTree(row.net), nil)
		if want := (Rings{row.closed, row.on, row.head}); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, want %+v", row.what, got, want)
		}
	}
}

// Over two sources, and back to the mains, no ring is possible; within one it is.
func TestRingsKeepToTheirSource(t *testing.T) {
	n := wire(6, 0, [2]int{0, 1}, [2]int{0, 2}, [2]int{1, 3}, [2]int{2, 4}, [2]int{3, 4}, [2]int{3, 0}, [2]int{3, 5}, [2]int{5, 1})
	n.Systems = []System{{}, {SELV: true}, {SELV: true}}
	n.Branches[0].Converter, n.Branches[1].Converter = &Converter{}, &Converter{}
	for i, s := range map[int]int{1: 1, 3: 1, 5: 1, 2: 2, 4: 2} {
		n.Nodes[i].System = s
	}
	// The run from node 3 to the board is met before the source is passed, so the
	// tree takes it; name the systems by hand all the same.
	n.Branches[5].Converter = &Converter{}
	tr := BuildTree(n)
	got := FindRings(n, tr, n.RingAllowed)
	for _, b := range got.Closed {
		if !n.RingAllowed(b) {
			t.Errorf("branch %d is no ring", b)
		}
	}
	if n.RingAllowed(4) || n.RingAllowed(0) || !n.RingAllowed(6) {
		t.Error("allowed: two sources, a converter; or not one within a source")
	}
	n.Systems[1].SELV = false
	if n.RingAllowed(6) {
		t.Error("a system that is not separated may be a ring")
	}
}

// A branch lies on a loop when what it joins stays joined without it.
func TestRingsByCutting(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 10).Draw(t, "nodes")
		end := rapid.IntRange(0, n-1)
		net := wire(n, 0)
		for range rapid.IntRange(0, 16).Draw(t, "branches") {
			net.Branches = append(net.Branches, Branch{From: end.Draw(t, "from"), To: end.Draw(t, "to")})
		}
		tr := BuildTree(net)
		got := FindRings(net, tr, nil)
		reached := func(n *Net) int { return len(BuildTree(n).Order) }
		for b, br := range net.Branches {
			on := got.On != nil && got.On[b]
			less := *net
			less.Branches = append(append([]Branch(nil), net.Branches[:b]...), net.Branches[b+1:]...)
			fed := br.From == 0 || tr.Parent[br.From] >= 0
			if want := fed && br.From != br.To && reached(&less) == reached(net); on != want {
				t.Fatalf("branch %d (%d-%d): on a loop %v, want %v", b, br.From, br.To, on, want)
			}
			if on && got.Head[br.From] != got.Head[br.To] {
				t.Fatalf("branch %d joins two parts", b)
			}
		}
	})
}
