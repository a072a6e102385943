package layout_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/edit"
	"duskwire/layout/file"
)

// nightDesk opens the shipped example.
func nightDesk(t *testing.T) *layout.Desk { return openDesk(t, "../assets/examples/townhouse.yaml") }

// openDesk opens a scheme.
func openDesk(t interface{ Fatal(...any) }, path string) *layout.Desk {
	scheme, stock, rules, err := file.Open(path, "", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, scheme, "")
}

// nightLamp returns a lamp of the night by its tag.
func nightLamp(t *testing.T, n *layout.Night, tag string) light.Lamp {
	t.Helper()
	for i, l := range n.Lamps {
		if l.Tag == tag {
			return n.Scene.Lamp(i)
		}
	}
	t.Fatalf("no lamp %s in the night", tag)
	return light.Lamp{}
}

// TestNightAim: 0° is up the sheet, 90° to the right; tilt counts up from level.
func TestNightAim(t *testing.T) {
	for _, c := range []struct {
		aim, tilt float64
		want      light.Vec
	}{
		{360, 0, light.Vec{Y: 1}}, {90, 0, light.Vec{X: 1}}, {180, 0, light.Vec{Y: -1}}, {270, 0, light.Vec{X: -1}},
		{90, 90, light.Vec{Z: 1}}, {90, -90, light.Vec{Z: -1}}, {90, 45, light.Vec{X: math.Sqrt2 / 2, Z: math.Sqrt2 / 2}},
		{90, -30, light.Vec{X: math.Sqrt(3) / 2, Z: -0.5}},
	} {
		desk := nightDesk(t)
		l := *desk.Frame().Scheme.Lamps.All()[8]
		l.Aim, l.Tilt = c.aim, c.tilt
		if err := desk.Commit(edit.SetLamp{Lamp: &l}); err != nil {
			t.Fatal(err)
		}
		n, err := layout.NightOf(desk.Frame())
		if err != nil {
			t.Fatal(err)
		}
		lamp := nightLamp(t, n, l.Tag)
		if got := lamp.Axis(); got.Sub(c.want).Len() > 1e-9 {
			t.Errorf("aim %g°, tilt %g°: beam along %v, expected %v", c.aim, c.tilt, got, c.want)
		}
	}
}

// TestNightFollowsVolts: the share is the light that the circuit found, and the
// example's unaimed spikes are said to be assumed.
func TestNightFollowsVolts(t *testing.T) {
	f := nightDesk(t).Frame()
	n, err := layout.NightOf(f)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, r := range f.Results {
		for i := range r.Points {
			p := &r.Points[i]
			if !p.Light.Known || p.Darkest.Known {
				continue
			}
			for k, l := range n.Lamps {
				if string(l.ID) == p.ID {
					checked++
					if got := n.Scene.Lamp(k).Share; math.Abs(got-p.Light.Value) > 1e-12 {
						t.Errorf("%s: share %g, expected %g", l.Tag, got, p.Light.Value)
					}
				}
			}
		}
	}
	if checked < 10 {
		t.Errorf("%d lamps compared, expected 10 or more", checked)
	}
	if !strings.Contains(strings.Join(n.Assumed, "\n"), "not aimed, taken to shine straight up") {
		t.Errorf("assumed %q lacks the spikes that are not aimed", n.Assumed)
	}
	if got := float64(nightLamp(t, n, "L7").Dist.Flux()); math.Abs(got-400) > 0.01 {
		t.Errorf("L7 gives %g lm, expected the 400 lm of its stock item", got)
	}
}
