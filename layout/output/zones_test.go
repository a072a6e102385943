package output

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/internal/garden"
)

// TestZonesOf: the plan has the areas of the zones when they are asked for, in all
// three formats, and the legend explains them; PictureOf has none.
func TestZonesOf(t *testing.T) {
	f := frameOf(t, townhouse)
	var with, without, page bytes.Buffer
	if err := ZonesOf(&with, "svg", f, "a rule set", ""); err != nil {
		t.Fatal(err)
	}
	if err := PictureOf(&without, "svg", f, "a rule set", ""); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(with.String(), `<g class="zones">`); n != 1 {
		t.Errorf("%d groups of zones on the sheet, expected one", n)
	}
	strokes := func(sheet *bytes.Buffer) int { // of the frame with its legend
		_, frame, _ := strings.Cut(sheet.String(), `<g class="frame">`)
		return strings.Count(frame, "<path")
	}
	if more := strokes(&with) - strokes(&without); more < 2*f.Scheme.Zones.Len() {
		t.Errorf("the legend has %d paths more, expected hatch and outline for each of %d zones", more, f.Scheme.Zones.Len())
	}
	if strings.Contains(without.String(), `<g class="zones">`) {
		t.Error("zones are hatched that nobody asked for")
	}
	if err := ZonesOf(&page, "pdf", f, "a rule set", ""); err != nil || page.Len() == 0 {
		t.Errorf("%d bytes, %v", page.Len(), err)
	}
	if err := ZonesOf(&page, "png", f, "a rule set", "yesterday"); err == nil {
		t.Error("a date in words was taken")
	}
}

// TestDXFZones: outline and hatch of every zone lie on layers of their own and keep
// to its lamps.
func TestDXFZones(t *testing.T) {
	s, _, _ := garden.Small()
	all, layers, _ := drawing(t, dxfOf(t, &layout.Frame{Scheme: s, Circuits: &derive.Circuits{}}))
	for _, z := range s.Zones.All() {
		name := "ZONE-" + strconv.Itoa(z.Number)
		if !layers[name] || !layers[name+"-HATCH"] {
			t.Errorf("no layers for zone %d", z.Number)
		}
		n := 0
		for _, d := range all {
			if d.layer != name && d.layer != name+"-HATCH" {
				continue
			}
			n++
			near := math.Inf(1)
			for _, l := range s.Lamps.All() {
				if l.Zone == z.ID {
					near = min(near, math.Hypot(l.Place.At.X.Metres()-d.ps[0][0], l.Place.At.Y.Metres()-d.ps[0][1]))
				}
			}
			if near > 2.1 { // half a link of 3.5 m, and the width of a band
				t.Errorf("zone %d: a stroke %.2f m from its next lamp", z.Number, near)
			}
		}
		if n < 20 {
			t.Errorf("zone %d: %d strokes", z.Number, n)
		}
	}
}
