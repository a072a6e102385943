package edit_test

import (
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const mm = geom.Millimetre

// Figures that are the usual ones follow the kind; measured ones stay. Depths:
// one spit is about 250 mm, two spits 450 mm, spiking of a lawn 75 to 100 mm.
func TestChangeKindOfArea(t *testing.T) {
	for _, c := range []struct {
		name      string
		from, to  string
		dig, want geom.Length
	}{
		{"usual follows", "lawn", "border", 100 * mm, 250 * mm},
		{"to two spits", "border", "dug bed", 250 * mm, 450 * mm},
		{"to what nobody digs", "dug bed", "paving", 450 * mm, 0},
		{"measured stays", "border", "dug bed", 300 * mm, 300 * mm},
		{"from paving", "paving", "lawn", 0, 100 * mm},
	} {
		s := small()
		s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: c.from, DigDepth: c.dig, Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}})
		a, _ := do(t, s, edit.ChangeKind{ID: "A1", Kind: c.to}).Areas.Get("A1")
		if a.Kind != c.to || a.DigDepth != c.want {
			t.Errorf("%s: got %s %v, expected %s %v", c.name, a.Kind, a.DigDepth, c.to, c.want)
		}
	}
}

func TestChangeKindOfLineAndMark(t *testing.T) {
	s := small()
	s.Lines = doc.NewSet(&doc.Line{ID: "N1", Tag: "N1", Kind: "wall", Height: 1800 * mm, Owner: "own", Path: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0)}})
	s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "tree", Radius: 400 * mm, Crown: 1500 * mm})
	n := do(t, do(t, s, edit.ChangeKind{ID: "N1", Kind: "boundary"}), edit.ChangeKind{ID: "M1", Kind: "seat"})
	l, _ := n.Lines.Get("N1")
	if l.Kind != "boundary" || l.Height != 0 || l.Owner != "own" {
		t.Errorf("line: got %+v", *l)
	}
	if m, _ := n.Marks.Get("M1"); m.Kind != "seat" || m.Radius != 400*mm || m.Crown != 0 {
		t.Errorf("mark: got %+v, expected the measured radius kept and the usual crown gone", *m)
	}
	if same := do(t, s, edit.ChangeKind{ID: "N1", Kind: "wall"}); same != s {
		t.Error("the kind it has made another scheme")
	}
	for _, bad := range []edit.ChangeKind{{ID: "N1", Kind: "lawn"}, {ID: "A1", Kind: "wall"}, {ID: "L1", Kind: "tree"}, {ID: "nobody", Kind: "lawn"}} {
		if _, err := bad.Apply(s); err == nil {
			t.Errorf("%+v was not refused", bad)
		}
	}
	if got, want := edit.Title(edit.ChangeKind{ID: "N1", Kind: "fence"}, s), "Change kind of N1"; got != want {
		t.Errorf("got %q, expected %q", got, want)
	}
}

// What is drawn with the usual figures of any kind is a valid scheme.
func TestUsualGroundIsValid(t *testing.T) {
	s := small()
	for _, k := range doc.AreaKinds {
		a := doc.UsualArea(k)
		a.ID, a.Ring = doc.ID("a-"+k), []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}
		s = do(t, s, edit.AddArea{Area: &a})
	}
	for _, k := range doc.LineKinds {
		l := doc.UsualLine(k)
		l.ID, l.Path = doc.ID("n-"+k), []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0)}
		s = do(t, s, edit.AddLine{Line: &l})
	}
	for _, k := range doc.MarkKinds {
		m := doc.UsualMark(k)
		m.ID = doc.ID("m-" + k)
		s = do(t, s, edit.AddMark{Mark: &m})
	}
}
