package packs

import (
	"context"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// The list says how far the scale it rests on can be trusted: by the second known
// length of the picture under the plan (by hand: 800 pixels of 10 mm are 8 m where
// 8.1 m are true, which is -1.23 %), by what somebody compared, or not at all.
func TestSettingOutSaysHowTheScaleWasChecked(t *testing.T) {
	const unchecked, off = "has not been checked", "off by -1.23 %, -100 mm"
	picture := doc.Underlay{File: "plan.png", Sum: strings.Repeat("0a", 32), Width: 1000, Height: 900, Pixel: 0.01,
		Known: doc.Measure{To: doc.Spot{X: 500}, Length: geom.Metres(5)},
		Check: doc.Measure{To: doc.Spot{X: 800}, Length: geom.Metres(8.1)}}
	for _, c := range []struct {
		byHand    bool
		picture   doc.Underlay
		says, not string
	}{
		{false, doc.Underlay{}, unchecked, "off by"},
		{true, doc.Underlay{}, "F1", unchecked},
		{false, picture, off, unchecked},
		{true, picture, off, unchecked},
	} {
		in := priced(t, example, func(s *doc.Scheme) { s.Plan.Checked, s.Plan.Underlay = c.byHand, c.picture })
		made, err := Make(context.Background(), in, nil, "site")
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(textOf(t, made[0], "Setting out")), " ")
		text = strings.ReplaceAll(text, "−", "-")
		if !strings.Contains(text, c.says) || strings.Contains(text, c.not) {
			t.Errorf("by hand %v, a second length %v: %s", c.byHand, c.picture.Check.Given(), text)
		}
	}
}
