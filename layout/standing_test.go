package layout_test

import (
	"bytes"
	"context"
	"errors"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// TestStandingSameBytes: the picture is the same byte for byte, whatever pieces it
// is drawn in, and the light of the ground is that of the sheet it was given.
func TestStandingSameBytes(t *testing.T) {
	f := nightDesk(t).Frame()
	night, err := layout.NightOf(f)
	if err != nil {
		t.Fatal(err)
	}
	ctx := context.Background()
	sheet, err := layout.FillSheet(ctx, night, layout.NightGrid(layout.NightArea(f.Scheme), 128*128))
	if err != nil {
		t.Fatal(err)
	}
	e := layout.UsualEye(f.Scheme)
	draw := func(sheet *light.Sheet) []byte {
		v, err := layout.StandingOf(ctx, f.Scheme, night, sheet, 128*128)
		if err != nil {
			t.Fatal(err)
		}
		img, err := v.Picture(ctx, e, 203, 111)
		if err != nil {
			t.Fatal(err)
		}
		return img.Pix
	}
	if !bytes.Equal(draw(sheet), draw(nil)) {
		t.Error("two pictures of one scheme differ")
	}
}

// TestStandingCancelled: a cancelled context ends the work with its error, and the
// worker goes on from there.
func TestStandingCancelled(t *testing.T) {
	f := nightDesk(t).Frame()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	night, err := layout.NightOf(f)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := layout.StandingOf(ctx, f.Scheme, night, nil, 0); !errors.Is(err, context.Canceled) {
		t.Errorf("found %v, expected that it was cancelled", err)
	}
	var w layout.StandWork
	wish := layout.StandWish{Frame: f, Eye: layout.UsualEye(f.Scheme), Width: 120, Height: 80}
	if shot, more, err := w.Step(ctx, wish); err != nil || !more || shot == nil || !shot.Coarse {
		t.Fatalf("first step: %v, more %v, %v", shot, more, err)
	}
	if _, _, err := w.Step(ctx, wish); !errors.Is(err, context.Canceled) {
		t.Errorf("second step, cancelled: %v", err)
	}
	shot, more, err := w.Step(context.Background(), wish)
	if err != nil || more || shot == nil || shot.Coarse || shot.Image.Rect.Dx() != 120 {
		t.Fatalf("third step: %+v, more %v, %v", shot, more, err)
	}
	if again, more, err := w.Step(context.Background(), wish); again != nil || more || err != nil {
		t.Errorf("at rest: %v, %v, %v", again, more, err)
	}
}

// TestStandingSolids: everything that throws a shadow stands in the picture with
// the same outline and height.
func TestStandingSolids(t *testing.T) {
	f := nightDesk(t).Frame()
	solids, crowns := layout.SolidsOf(f.Scheme)
	blockers, _ := layout.BlockersOf(f.Scheme, layout.NewGaps())
	if len(blockers) == 0 {
		t.Fatal("nothing throws a shadow")
	}
	for _, b := range blockers {
		found := false
		for _, s := range solids {
			found = found || s.Top == b.Top && s.Base == b.Base && s.Closed == b.Closed && &s.Outline[0] != &b.Outline[0] && len(s.Outline) == len(b.Outline) && s.Outline[0] == b.Outline[0]
		}
		for _, c := range crowns {
			found = found || c.At.Z+c.Half > b.Top-1e-9 && c.At.Z-c.Half < b.Base+1e-9
		}
		if !found {
			t.Errorf("%+v throws a shadow and is not seen", b)
		}
	}
}

// TestUsualEye: before the door, looking at the garden, else from its lower edge.
func TestUsualEye(t *testing.T) {
	f := nightDesk(t).Frame()
	if e := layout.UsualEye(f.Scheme); e.Place.Height != doc.UsualEyeHeight || e.Field != doc.UsualField {
		t.Errorf("%+v", e)
	}
	s := *f.Scheme
	s.Marks = doc.NewSet(&doc.Mark{ID: "d", Tag: "M1", Kind: "door", Place: doc.Place{At: geom.Pt(-50, 3)}})
	if e := layout.UsualEye(&s); e.Bearing < 45 || e.Bearing > 135 || e.Place.At.X <= geom.Metres(-50) {
		t.Errorf("from a door on the left: %+v", e)
	}
}
