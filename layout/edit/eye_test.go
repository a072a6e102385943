package edit_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// seeing draws an operation about eye points, right or wrong.
func (d *dice) seeing() edit.Operation {
	e := doc.Eye{Tag: []string{"V1", "V2", ""}[d.one("eye", 3)], Place: doc.Place{At: geom.Pt(float64(d.one("eye x", 9)), 1), Height: doc.UsualEyeHeight},
		Bearing: float64(30 * d.one("bearing", 12)), Field: []float64{65, 5}[d.one("field", 2)]}
	switch d.one("seeing", 3) {
	case 0:
		return edit.AddEye{Eye: e}
	case 1:
		return edit.RemoveEye{Tag: e.Tag}
	}
	return edit.SetEye{Eye: e}
}

func TestEyes(t *testing.T) {
	e := doc.Eye{Tag: "V1", Name: "Terrace door", Place: doc.Place{At: geom.Pt(3, 1), Height: doc.UsualEyeHeight}, Field: doc.UsualField}
	s, err := edit.AddEye{Eye: e}.Apply(doc.New("uk-18"))
	if err != nil || len(s.Eyes) != 1 || s.Eyes[0] != e {
		t.Fatalf("%v, %+v", err, s)
	}
	if tag := doc.FreeEyeTag(s); tag != "V2" {
		t.Errorf("next tag %q, expected V2", tag)
	}
	turned := e
	turned.Bearing = 90
	next, err := edit.SetEye{Eye: turned}.Apply(s)
	if err != nil || next.Eyes[0] != turned || s.Eyes[0] != e {
		t.Fatalf("%v, %+v, the scheme before has %+v", err, next, s.Eyes)
	}
	if same, err := (edit.SetEye{Eye: turned}).Apply(next); err != nil || same != next {
		t.Error("setting the same eye point makes another scheme")
	}
	bare, err := edit.RemoveEye{Tag: "V1"}.Apply(next)
	if err != nil || len(bare.Eyes) != 0 || len(next.Eyes) != 1 {
		t.Fatalf("%v, %+v", err, bare)
	}
	bad := func(change func(*doc.Eye)) edit.Operation {
		c := e
		change(&c)
		return edit.SetEye{Eye: c}
	}
	for _, op := range []edit.Operation{
		edit.AddEye{Eye: e}, // a second time
		edit.RemoveEye{Tag: "V9"},
		bad(func(e *doc.Eye) { e.Tag = "V9" }),
		bad(func(e *doc.Eye) { e.Place.Height = 0 }),
		bad(func(e *doc.Eye) { e.Bearing = math.NaN() }),
		bad(func(e *doc.Eye) { e.Field = 180 }),
		bad(func(e *doc.Eye) { e.Tilt = 90 }),
		bad(func(e *doc.Eye) { e.Name = "a\x00b" }),
	} {
		if _, err := op.Apply(s); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%+v: %v", op, err)
		}
	}
}
