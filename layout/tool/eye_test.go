package tool

import (
	"math"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestEyeTool: a drag, or two clicks, place an eye point that looks where the
// pointer was let go; Esc leaves nothing; a drag moves one that is there, Del
// removes it.
func TestEyeTool(t *testing.T) {
	start, err := readScheme("lamp L1 0,0 low")
	if err != nil {
		t.Fatal(err)
	}
	s, desk, set := newSession(start)
	send := func(k Kind, x, y float64) Verdict {
		return s.Send(Event{Kind: k, At: geom.Pt(x, y), Button: LeftButton, Reach: reach, Clicks: 1})
	}
	key := func(name string, x, y float64) Verdict {
		return s.Send(Event{Kind: Key, Key: name, At: geom.Pt(x, y), Reach: reach})
	}
	eyes := func() []doc.Eye { return s.Scheme().Eyes }
	s.Take(NewEye(set))
	send(Down, 2, 2)
	send(Move, 3, 3)
	if !s.Previewing() {
		t.Error("nothing is shown of an eye point while it is dragged")
	}
	key(KeyEscape, 3, 3)
	if s.Previewing() || len(eyes()) != 0 || s.Tool().Name() != NameEye {
		t.Fatalf("Esc leaves %+v, tool %s", eyes(), s.Tool().Name())
	}
	send(Down, 2, 2)
	send(Move, 3, 2)
	send(Up, 4, 2)
	if e := eyes(); len(e) != 1 || e[0].Tag != "V1" || e[0].Place.At != geom.Pt(2, 2) || math.Abs(e[0].Bearing-90) > 0.1 || e[0].Place.Height != doc.UsualEyeHeight {
		t.Fatalf("a drag places %+v", e)
	}
	if s.Tool().Name() != NameSelect {
		t.Errorf("tool %s after placing, expected Select", s.Tool().Name())
	}
	s.Take(NewEye(set))
	send(Down, 6, 6)
	send(Up, 6, 6)
	send(Move, 6, 4)
	send(Down, 6, 4)
	if e := eyes(); len(e) != 2 || e[1].Tag != "V2" || math.Abs(e[1].Bearing-180) > 0.1 {
		t.Fatalf("two clicks place %+v", e)
	}
	s.Take(NewEye(set))
	send(Down, 2, 2)
	send(Move, 1, 5)
	send(Up, 1, 5)
	if e := eyes(); len(e) != 2 || e[0].Place.At != geom.Pt(1, 5) || math.Abs(e[0].Bearing-90) > 0.1 {
		t.Fatalf("a drag moves to %+v", e)
	}
	if v := key(KeyDelete, 9, 9); v.Refused == "" {
		t.Error("Del beside every eye point is not refused")
	}
	key(KeyDelete, 6, 6)
	if e := eyes(); len(e) != 1 || e[0].Tag != "V1" {
		t.Fatalf("Del leaves %+v", e)
	}
	_ = desk
	key(KeyEscape, 9, 9)
	if s.Tool().Name() != NameSelect {
		t.Error("Esc does not go back to Select")
	}
}
