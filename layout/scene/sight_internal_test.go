package scene

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"testing"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/internal/sight"
)

// seenApart is the least CIEDE2000 between colours that mean different things, for
// every kind of sight: about ten times what is just seen between large areas, since
// lines and rings are thin (ours; common practice, no source). Nobody has to live
// off it: what differs in colour differs in shape too, see TestShapesApart.
const seenApart = 10.0

// palettes are those that the plan is drawn with; the look of dusk draws with the
// dark one.
func palettes() map[string]*Palette { return map[string]*Palette{"light": Light(), "dark": Dark()} }

// coded are the colours of a palette that stand side by side and mean different
// things. Not among them are fills and hatches of the ground and of digging: they
// are pale so that runs stay readable, and pattern and words alone tell them.
func coded(p *Palette) map[string]map[string]Colour {
	along := alongLight
	if p.Paper == Dark().Paper {
		along = alongDark
	}
	steps := map[string]Colour{}
	for i, c := range along {
		steps[strconv.Itoa(i)] = c
	}
	return map[string]map[string]Colour{
		"zones":                        p.Zone,
		"findings":                     {"stop": p.Stop, "decide": p.Decide, "note": p.Note},
		"lines":                        {"mains": p.Mains, "extra-low voltage": p.Extra, "service": p.Service, "planting": p.Planting, "wall": p.Wall},
		"volts and amperes along runs": steps,
	}
}

// TestColoursApart: whoever lacks a kind of cone tells the colours apart as well.
func TestColoursApart(t *testing.T) {
	for name, p := range palettes() {
		for group, colours := range coded(p) {
			keys := slices.Sorted(maps.Keys(colours))
			for _, eye := range sight.Eyes {
				for i, a := range keys {
					for _, b := range keys[i+1:] {
						x, y := colours[a], colours[b]
						if d := sight.Difference(sight.See(eye, x.R, x.G, x.B), sight.See(eye, y.R, y.G, y.B)); d < seenApart {
							t.Errorf("%s, %s, %s: %s and %s are %.1f apart, at least %.0f are expected", name, group, eye, a, b, d, seenApart)
						}
					}
				}
			}
		}
	}
}

// bare describes items without their colours, but for what is as hollow as paper.
func bare(items []Item, paper Colour) (out string) {
	for _, it := range items {
		st := it.Style
		out += fmt.Sprintf("%d %v size %g width %g of %t dash %v fill %t %q\n", it.Kind, it.Points, it.Size, st.Width, st.Stroke.A > 0,
			st.Dash, st.Fill.A > 0 && st.Fill != paper, it.Text)
	}
	return out
}

// everyKind is a scheme with one of each kind of ground, line and mark and a zone
// for every ring.
func everyKind() *doc.Scheme {
	s := &doc.Scheme{}
	id := func(n int) doc.ID { return doc.ID("X" + strconv.Itoa(n)) }
	var areas []*doc.Area
	for i, kind := range doc.AreaKinds {
		areas = append(areas, &doc.Area{ID: id(i), Kind: kind, Ring: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0), geom.Pt(1, 1)}})
	}
	var lines []*doc.Line
	for i, kind := range doc.LineKinds {
		lines = append(lines, &doc.Line{ID: id(100 + i), Kind: kind, Path: []geom.Point{geom.Pt(0, 0), geom.Pt(1, 0)}})
	}
	var marks []*doc.Mark
	for i, kind := range doc.MarkKinds {
		marks = append(marks, &doc.Mark{ID: id(200 + i), Kind: kind})
	}
	var zones []*doc.Zone
	for i := range zoneRings {
		zones = append(zones, &doc.Zone{ID: id(300 + i), Number: i + 1, Name: "Z", Colour: doc.ZoneColours[i]})
	}
	s.Areas, s.Lines, s.Marks, s.Zones = doc.NewSet(areas...), doc.NewSet(lines...), doc.NewSet(marks...), doc.NewSet(zones...)
	return s
}

// samples are what the plan tells apart, drawn by the code of the plan, by group.
func samples(p *Palette) map[string]map[string][]Item {
	out := map[string]map[string][]Item{"findings": {}, "runs": {}, "along": {}, "digging": {}, "depth": {}, "rings": {}}
	for _, hatched := range []bool{false, true} {
		for _, e := range Legend(Input{Scheme: everyKind(), Palette: p, Hatch: Hatch{All: hatched}, NoZones: hatched}) {
			group := fmt.Sprint(e.Group, " hatched ", hatched)
			if out[group] == nil {
				out[group] = map[string][]Item{}
			}
			out[group][e.Words] = e.Sample
		}
	}
	for _, l := range []finding.Level{finding.Stop, finding.Decide, finding.Note} {
		out["findings"][l.String()] = Badge(l, false, XY{}, p)
		out["findings"][l.String()+" overruled"] = Badge(l, true, XY{}, p)
	}
	out["runs"]["mains"], out["runs"]["extra-low voltage"] = RunSample(p, false), RunSample(p, true)
	a := &along{}
	for class := -1; class < alongSteps; class++ {
		out["along"][strconv.Itoa(class)] = []Item{{Style: a.style(p, class, mains)}}
	}
	for class := range digGrounds {
		for i, r := range digRules[class] {
			out["digging"][strconv.Itoa(class)] = append(out["digging"][strconv.Itoa(class)],
				Item{Size: float64(i), Points: []XY{{r.angle, r.step}}, Style: Style{Dash: r.dash}})
		}
	}
	for class, st := range depthLine {
		out["depth"][strconv.Itoa(class)] = []Item{{Style: st}}
	}
	for n := 1; n <= zoneRings; n++ {
		b := newBuilder(Input{Scheme: &doc.Scheme{}, Palette: p}, View{Denominator: 1}, 10, 10)
		b.drawZone("", XY{5, 5}, n, 2, p.Ink)
		out["rings"][strconv.Itoa(n)] = b.list.Items
	}
	return out
}

// TestShapesApart: with every colour taken away nothing that is told apart looks
// the same: kinds of ground, lines, marks, runs, zones by ring and by hatch, findings
// open and overruled, classes of volts, amperes, digging and depth.
func TestShapesApart(t *testing.T) {
	for name, p := range palettes() {
		all := samples(p)
		for group, least := range map[string]int{"Ground hatched false": len(doc.AreaKinds) + len(doc.LineKinds) + len(doc.MarkKinds),
			"Zones hatched false": zoneRings, "Zones hatched true": zoneRings, "findings": 6, "along": alongSteps + 1} {
			if len(all[group]) < least {
				t.Errorf("%s: %q has %d samples, want %d", name, group, len(all[group]), least)
			}
		}
		for group, of := range all {
			like := map[string]string{}
			for _, key := range slices.Sorted(maps.Keys(of)) {
				shape := bare(of[key], p.Paper)
				if other, there := like[shape]; there {
					t.Errorf("%s, %s: %q and %q differ in nothing but colour", name, group, other, key)
				}
				like[shape] = key
			}
		}
	}
}
