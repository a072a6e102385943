package edit_test

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// Copies are refused at a limit in words, before any is made.
func TestTooManyCopies(t *testing.T) {
	s := doc.New("uk-18")
	var lamps []*doc.Lamp
	for i := range 51 {
		id := doc.ID(fmt.Sprint("L", i+1))
		lamps = append(lamps, &doc.Lamp{ID: id, Tag: string(id), Stock: "brick-3w"})
	}
	s.Lamps = doc.NewSet(lamps...)
	f, _ := doc.FragmentOf(s, func() (ids []doc.ID) {
		for _, l := range lamps {
			ids = append(ids, l.ID)
		}
		return ids
	}())
	k := 0
	copies := func(n int) edit.Copies {
		var o edit.Copies
		for range n {
			o.Pastes = append(o.Pastes, edit.NewPaste(f, geom.Pt(0, 1), func() doc.ID { k++; return doc.ID(fmt.Sprint("n", k)) }))
		}
		return o
	}
	if _, err := copies(98).Apply(s); err != nil {
		t.Errorf("4998 things: %v", err)
	}
	if _, err := copies(99).Apply(s); err == nil || !strings.Contains(err.Error(), "99 copies would be 5049 things, expected at most 5000") {
		t.Errorf("5049 things: %v", err)
	}
}

// Adding many counts on from the same number as adding one.
func TestManyTagsAfterAnEnormousNumber(t *testing.T) {
	s := doc.New("uk-18")
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "a", Tag: "L9223372036854775807", Stock: "brick-3w"})
	n := do(t, s, edit.AddMany{Label: "Two", Entities: []doc.Entity{&doc.Lamp{ID: "b", Stock: "brick-3w"}, &doc.Lamp{ID: "c", Stock: "brick-3w"}}})
	if a, b := doc.TagOf(n, "b"), doc.TagOf(n, "c"); a != "L1" || b != "L2" {
		t.Errorf("tags %q and %q, expected L1 and L2", a, b)
	}
}
