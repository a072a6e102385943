package scene_test

import (
	"fmt"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
	"duskwire/layout/scene"
)

// zoneItems are the items of the hatched areas.
func zoneItems(in scene.Input) (out []scene.Item) {
	for _, it := range scene.Build(in, scene.Fit(in.Scheme, 280, 240), 280, 240).Items {
		if it.Layer == scene.LayerZones {
			out = append(out, it)
		}
	}
	return out
}

func TestZoneHatch(t *testing.T) {
	in := small()
	if n := len(zoneItems(in)); n != 0 {
		t.Fatalf("%d items of hatched zones that nobody asked for", n)
	}
	in.Hatch.All = true
	seen := map[string]bool{}
	for _, it := range zoneItems(in) {
		seen[it.Entity] = true
		if it.Kind != scene.Segments || len(it.Points) < 4 || len(it.Points)%2 != 0 {
			t.Errorf("zone %s: a %v of %d points", it.Entity, it.Kind, len(it.Points))
		}
	}
	for _, z := range in.Scheme.Zones.All() {
		if !seen[string(z.ID)] {
			t.Errorf("zone %s has lamps and no hatch", z.ID)
		}
	}
	golden(t, "zones.txt", text(&scene.List{Width: 280, Height: 240, Items: zoneItems(in)}))
	first := in.Scheme.Zones.All()[0].ID
	in.Hatch = scene.Hatch{Only: []doc.ID{first}}
	for _, it := range zoneItems(in) {
		if it.Entity != string(first) {
			t.Errorf("zone %s is hatched although only %s was asked for", it.Entity, first)
		}
	}
	in.NoZones = true
	if len(zoneItems(in)) == 0 {
		t.Error("without rings there is no hatch either")
	}
	in.Skip = func(doc.ID) bool { return true }
	if n := len(zoneItems(in)); n != 0 {
		t.Errorf("%d items about lamps that are left out", n)
	}
	in.Skip, in.Look = nil, scene.LookDig
	if n := len(zoneItems(in)); n != 0 {
		t.Errorf("%d items of zones in the look of digging", n)
	}
}

// TestHatchesDiffer: no two zones of the first six share a hatch: angle, dashes
// or number of families differ, whatever the colour.
func TestHatchesDiffer(t *testing.T) {
	was := map[string]int{}
	for n := 1; n <= 6; n++ {
		s := &doc.Scheme{
			Zones: doc.NewSet(&doc.Zone{ID: "Z", Number: n, Colour: "grey"}),
			Lamps: doc.NewSet(&doc.Lamp{ID: "L", Zone: "Z", Place: doc.Place{At: geom.Pt(1, 1)}}),
		}
		l := scene.Build(scene.Input{Scheme: s, Hatch: scene.Hatch{All: true}}, scene.View{Denominator: 50, Origin: geom.Pt(0, 2)}, 40, 40)
		shape := ""
		for _, it := range l.Items {
			if it.Layer == scene.LayerZones {
				shape += fmt.Sprintf("%v %.2f %.1f;", it.Style.Dash, it.Points[0].X, it.Points[1].Y)
			}
		}
		if shape == "" || was[shape] > 0 {
			t.Errorf("zone %d is hatched like zone %d (%q)", n, was[shape], shape)
		}
		was[shape] = n
	}
}

// TestHatchInLegend: a hatched zone shows its hatch there, also without rings.
func TestHatchInLegend(t *testing.T) {
	in := small()
	count := func() (zones, hatches int) {
		for _, e := range scene.Legend(in) {
			if e.Group != "Zones" {
				continue
			}
			zones++
			for _, it := range e.Sample {
				if it.Layer == scene.LayerZones {
					hatches++
					break
				}
				for _, p := range it.Points {
					if p.X < -scene.LegendWidth/2 || p.X > scene.LegendWidth/2 || p.Y < -scene.LegendHeight/2 || p.Y > scene.LegendHeight/2 {
						t.Errorf("%s: a point at %v outside the sample", e.Words, p)
					}
				}
			}
		}
		return
	}
	all := in.Scheme.Zones.Len()
	if z, h := count(); z != all || h != 0 {
		t.Errorf("%d zones with %d hatches, expected %d and none", z, h, all)
	}
	in.Hatch.All, in.NoZones = true, true
	if z, h := count(); z != all || h != all {
		t.Errorf("%d zones with %d hatches, expected %d of both", z, h, all)
	}
	in.Hatch = scene.Hatch{Only: []doc.ID{in.Scheme.Zones.All()[0].ID}}
	if z, h := count(); z != 1 || h != 1 {
		t.Errorf("%d zones with %d hatches, expected the one that is hatched", z, h)
	}
}

// TestZoneStrokes: the strokes for drawings in plan coordinates keep to the lamps.
func TestZoneStrokes(t *testing.T) {
	s := small().Scheme
	for _, z := range s.Zones.All() {
		hatch, outline := scene.ZoneStrokes(s, z, 100)
		if len(hatch) == 0 || len(outline) == 0 {
			t.Fatalf("%s: %d and %d strokes", z.ID, len(hatch), len(outline))
		}
		for _, st := range append(hatch, outline...) {
			// 5.2 mm at 1:100, and a little for rounding; the bands lie between lamps.
			near := geom.Length(1 << 60)
			for _, l := range s.Lamps.All() {
				if l.Zone == z.ID {
					near = min(near, geom.Distance(l.Place.At, st[0]))
				}
			}
			if near > 7*geom.Metre/2+600*geom.Millimetre {
				t.Errorf("%s: a stroke %v from its next lamp", z.ID, doc.Written(near))
			}
		}
	}
	if h, o := scene.ZoneStrokes(s, &doc.Zone{ID: "none", Number: 1}, 100); h != nil || o != nil {
		t.Error("a zone without lamps has strokes")
	}
}

// BenchmarkHatch draws the areas of 1,000 lamps, all zones at once.
func BenchmarkHatch(b *testing.B) {
	in := scene.Input{Scheme: garden.Large(1000), Stock: garden.Stock(), Screen: true}
	v := scene.Centred(in.Scheme, 250, 1280/4.0, 800/4.0)
	for _, on := range []bool{false, true} {
		in.Hatch.All = on
		b.Run(fmt.Sprint(on), func(b *testing.B) {
			for b.Loop() {
				scene.Build(in, v, 1280/4.0, 800/4.0)
			}
		})
	}
}
