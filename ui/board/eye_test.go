package board

import (
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestEyesWhereOneLooks: eye points are on the plan while the standing view is open,
// whatever tool is in hand, and gone with it.
func TestEyesWhereOneLooks(t *testing.T) {
	s := *smallGarden()
	s.Eyes = []doc.Eye{{Tag: "V1", Place: doc.Place{At: geom.Pt(2, 2)}}}
	h := newHand(t, &s, size)
	for _, on := range []bool{false, true, false} {
		h.board.SetEyes(on)
		if h.board.over.shows("V1") != on {
			t.Errorf("open %v, the eye point is shown: %v", on, !on)
		}
	}
}
