package ui

import (
	"reflect"
	"testing"

	"fyne.io/fyne/v2"
)

// TestTurns: what is asked for again and again is done once and in its order, so that
// the last of it comes in its turn however often the first is asked for.
func TestTurns(t *testing.T) {
	var waits []func()
	var done []int
	p := turns{later: func(f func()) { waits = append(waits, f) }}
	for i := range p.show {
		p.show[i] = func() { done = append(done, i) }
	}
	turn := func() {
		if len(waits) != 1 {
			t.Fatalf("%d turns on their way, expected one", len(waits))
		}
		f := waits[0]
		waits = nil
		f()
	}
	p.do(turnFindings, turnProperties, turnOthers)
	p.do(turnProperties)
	if done != nil {
		t.Fatalf("%v done at once", done)
	}
	turn()
	p.do(turnFindings, turnProperties, turnOthers) // another frame
	turn()
	p.do(turnFindings)
	turn()
	turn()
	if want := []int{turnFindings, turnProperties, turnOthers, turnFindings}; !reflect.DeepEqual(done, want) || len(waits) != 0 {
		t.Errorf("done %v, expected %v; %d turns on their way", done, want, len(waits))
	}
	p.do(turnOthers)
	p.all() // at once instead
	turn()
	if want := 4 + int(turnCount); len(done) != want {
		t.Errorf("%d things done, expected %d", len(done), want)
	}
}

// TestKeysFollowInTurns: the list of keys opens with its first lines, the others come
// without moving them, and none comes to a list that was closed.
func TestKeysFollowInTurns(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.keys()
	whole := len(texts(r.top().pop.Content))
	r.top().choose(0)
	var waits []func()
	r.w.panels.later = func(f func()) { waits = append(waits, f) }
	turn := func() bool {
		if len(waits) == 0 {
			return false
		}
		f := waits[0]
		waits = waits[1:]
		f()
		return true
	}
	r.w.keys()
	body := r.top().scroll.Content.(*fyne.Container)
	first := body.Objects[0]
	at, size := first.Position(), first.Size()
	if n := len(texts(r.top().pop.Content)); n == 0 || n >= whole || size.Height == 0 {
		t.Fatalf("%d letters of %d at once, the first group %v high", n, whole, size.Height)
	}
	for turn() {
		if first.Position() != at || first.Size() != size {
			t.Fatal("the first group moved")
		}
	}
	if n := len(texts(r.top().pop.Content)); n != whole {
		t.Errorf("%d letters in the end, expected %d", n, whole)
	}
	r.top().choose(0)
	r.w.keys()
	body = r.top().scroll.Content.(*fyne.Container)
	r.top().choose(0)
	n := len(body.Objects)
	for turn() {
	}
	if len(body.Objects) != n {
		t.Error("a list that was closed is written on")
	}
}
