package edit_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// lighting draws an operation about photometric files, right or wrong.
func (d *dice) lighting() edit.Operation {
	lamp := []string{"pillar-10w", "brick-3w"}[d.one("fitting", 2)]
	if d.one("stock light", 3) == 0 {
		return edit.RemoveLight{Lamp: lamp}
	}
	return edit.SetLight{Light: doc.LightFile{Lamp: lamp, File: "spot.ies", Sum: strings.Repeat("0a", 31+d.one("short", 2)),
		Turn: float64(90 * d.one("turn", 10)), Mirror: d.one("mirror", 2) == 1}}
}

func TestSetLight(t *testing.T) {
	spot := doc.LightFile{Lamp: "pillar-10w", File: "spot.ies", Sum: strings.Repeat("0a", 32)}
	s, err := edit.SetLight{Light: spot}.Apply(doc.New("uk-18"))
	if err != nil || len(s.Lights) != 1 || s.Lights[0] != spot {
		t.Fatalf("%v, %+v", err, s)
	}
	turned := spot
	turned.Turn = 90
	next, err := edit.SetLight{Light: turned}.Apply(s)
	if err != nil || len(next.Lights) != 1 || next.Lights[0] != turned || s.Lights[0] != spot {
		t.Fatalf("%v, %+v, the scheme before has %+v", err, next, s.Lights)
	}
	if same, err := (edit.SetLight{Light: turned}).Apply(next); err != nil || same != next {
		t.Error("setting the same light makes another scheme")
	}
	bare, err := edit.RemoveLight{Lamp: "pillar-10w"}.Apply(next)
	if err != nil || len(bare.Lights) != 0 || len(next.Lights) != 1 {
		t.Fatalf("%v, %+v", err, bare)
	}
	for _, bad := range []edit.Operation{
		edit.RemoveLight{Lamp: "brick-3w"},
		edit.SetLight{Light: doc.LightFile{Lamp: "brick-3w", File: "a.ies"}},
		edit.SetLight{Light: doc.LightFile{Lamp: "brick-3w", Sum: spot.Sum}},
		edit.SetLight{Light: doc.LightFile{Lamp: "brick-3w", File: "a.ies", Sum: spot.Sum, Turn: math.NaN()}},
		edit.SetLight{Light: doc.LightFile{Lamp: "brick-3w", File: "a.ies", Sum: spot.Sum, Turn: math.Inf(1)}},
	} {
		if _, err := bad.Apply(next); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%+v: %v", bad, err)
		}
	}
}
