package edit_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

func underlaid() *doc.Scheme {
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: "plan.png", Sum: strings.Repeat("0a", 32), Width: 4000, Height: 3000,
		Pixel: 0.005, Turn: 30, At: geom.Pt(-3, 7), Fade: 0.35}
	return s
}

// After scaling the two places are as far apart as was said, and the first one
// is where it was.
func TestScalePicture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := underlaid()
		spot := func(name string) doc.Spot {
			return doc.Spot{X: rapid.Float64Range(0, 4000).Draw(t, name+" x"), Y: rapid.Float64Range(0, 3000).Draw(t, name+" y")}
		}
		m := doc.Measure{From: spot("from"), To: spot("to"), Length: geom.Metres(rapid.Float64Range(0.5, 40).Draw(t, "length"))}
		if m.Pixels() < 10 {
			t.Skip("too near")
		}
		n, err := edit.ScalePicture{Known: m}.Apply(s)
		if err != nil {
			t.Fatal(err)
		}
		was, now := s.Plan.Underlay, n.Plan.Underlay
		if d := geom.Distance(was.Place(m.From), now.Place(m.From)); d > 2 {
			t.Errorf("the first place moved by %d µm", d)
		}
		if d := geom.Distance(now.Place(m.From), now.Place(m.To)) - m.Length; d > 3 || d < -3 {
			t.Errorf("the length is off by %d µm", d)
		}
	})
}

// Turning keeps the middle, moving moves, and back again is where it was.
func TestTurnAndMovePicture(t *testing.T) {
	s := underlaid()
	n := do(t, s, edit.TurnPicture{To: 123.456})
	a, b := s.Plan.Underlay.Middle(), n.Plan.Underlay.Middle()
	if geom.Distance(a, b) > 2 || n.Plan.Underlay.Turn != 123.46 {
		t.Errorf("turned to %g, the middle moved by %d µm", n.Plan.Underlay.Turn, geom.Distance(a, b))
	}
	if back := do(t, n, edit.TurnPicture{To: 390}); back.Plan.Underlay.Turn != 30 || geom.Distance(back.Plan.Underlay.At, s.Plan.Underlay.At) > 4 {
		t.Errorf("back: %+v", back.Plan.Underlay)
	}
	m := do(t, s, edit.MovePicture{By: geom.Pt(1, -2)})
	if m.Plan.Underlay.At != geom.Pt(-2, 5) {
		t.Errorf("moved to %v", m.Plan.Underlay.At)
	}
}

// The same pixels keep everything; others keep corner and width.
func TestReplacePicture(t *testing.T) {
	s := underlaid()
	m := doc.Measure{From: doc.Spot{X: 1}, To: doc.Spot{X: 1001}, Length: 5 * geom.Metre}
	s = do(t, do(t, s, edit.ScalePicture{Known: m}), edit.LockPicture{Lock: true})
	same := do(t, s, edit.ReplacePicture{File: "b.png", Sum: strings.Repeat("b", 64), Width: 4000, Height: 3000}).Plan.Underlay
	if same.Known != m || same.Pixel != s.Plan.Underlay.Pixel || !same.Lock || same.File != "b.png" {
		t.Errorf("%+v", same)
	}
	other := do(t, s, edit.ReplacePicture{File: "c.png", Sum: strings.Repeat("c", 64), Width: 2000, Height: 1000}).Plan.Underlay
	if other.Known.Given() || math.Abs(float64(other.Pixel-2*s.Plan.Underlay.Pixel)) > 1e-12 || other.At != s.Plan.Underlay.At {
		t.Errorf("%+v", other)
	}
}

func TestPictureRefusals(t *testing.T) {
	m := doc.Measure{From: doc.Spot{X: 100}, To: doc.Spot{X: 1100}, Length: 5 * geom.Metre}
	scaled := do(t, underlaid(), edit.ScalePicture{Known: m})
	locked := do(t, scaled, edit.LockPicture{Lock: true})
	turned := doc.Measure{From: m.To, To: m.From, Length: m.Length}
	for _, c := range []struct {
		s    *doc.Scheme
		op   edit.Operation
		want string
	}{
		{doc.New("uk-18"), edit.MovePicture{}, "there is no picture under the plan"},
		{doc.New("uk-18"), edit.PlacePicture{}, "there is no picture to place"},
		{locked, edit.MovePicture{By: geom.Pt(1, 0)}, "the picture is locked in its place"},
		{locked, edit.TurnPicture{To: 1}, "the picture is locked in its place"},
		{locked, edit.ScalePicture{Known: m}, "the picture is locked in its place"},
		{scaled, edit.ScalePicture{}, "the two places are one"},
		{scaled, edit.ScalePicture{Known: doc.Measure{To: doc.Spot{X: 9}}}, "the true length is missing"},
		{scaled, edit.ScalePicture{Known: doc.Measure{To: doc.Spot{X: 9000}, Length: 1e6}}, "picture: known.to[1]: found 9000"},
		{scaled, edit.CheckPicture{Check: turned}, "this is the length that the picture was scaled by"},
		{scaled, edit.FadePicture{Fade: 2}, "picture: fade: found 2"},
		{scaled, edit.TurnPicture{To: math.NaN()}, "expected an angle"},
	} {
		if n, err := c.op.Apply(c.s); err == nil || n != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.op.Name(), err, c.want)
		}
	}
	for _, op := range []edit.Operation{edit.CheckPicture{Check: doc.Measure{To: doc.Spot{Y: 800}, Length: 4 * geom.Metre}}, edit.FadePicture{Fade: 0.9}, edit.RemovePicture{}} {
		do(t, locked, op) // a lock is about the place only
	}
	if n := do(t, scaled, edit.MovePicture{}); n != scaled {
		t.Error("a move by nothing is a step")
	}
}
