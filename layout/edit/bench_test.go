package edit_test

import (
	"strconv"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// BenchmarkMove drags one of 1,000 lamps.
func BenchmarkMove(b *testing.B) {
	s := doc.New("uk-18")
	var lamps []*doc.Lamp
	for i := range 1000 {
		id := doc.ID("L" + strconv.Itoa(i))
		lamps = append(lamps, &doc.Lamp{ID: id, Tag: string(id), Stock: "pillar-10w"})
	}
	s.Lamps = doc.NewSet(lamps...)
	op := edit.MovePoints{IDs: []doc.ID{"L500"}, By: geom.Pt(1, 1)}
	for b.Loop() {
		if _, err := op.Apply(s); err != nil {
			b.Fatal(err)
		}
	}
}
