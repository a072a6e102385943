package panel

import (
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// TestDimensionForm: what is measured follows the plan and has no field.
func TestDimensionForm(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	lamps := d.Frame().Scheme.Lamps.All()
	m := &doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Aligned, From: doc.Anchor{On: lamps[0].ID}, To: doc.Anchor{On: lamps[1].ID}}
	if err := d.Commit(edit.AddDimension{Dimension: m}); err != nil {
		t.Fatal(err)
	}
	p, _ := properties(t, d, "D1")
	measured := func() string {
		for _, r := range p.now.rows {
			if f, ok := r.(*readRow); ok {
				return f.value.Text
			}
		}
		return ""
	}
	reads := func() string { return doc.ShapeOf(d.Frame().Scheme, m).Read() }
	before := measured()
	if before != reads() || !strings.HasSuffix(before, " m") {
		t.Fatalf("shows %q, it measures %s", before, reads())
	}
	if err := d.Commit(edit.MovePoints{IDs: []doc.ID{lamps[0].ID}, By: geom.Pt(0.777, 0)}); err != nil {
		t.Fatal(err)
	}
	if measured() == before || measured() != reads() {
		t.Errorf("shows %q after a move, it measures %s", measured(), reads())
	}
}
