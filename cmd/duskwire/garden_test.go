//go:build e2e

package main_test

import (
	"reflect"
	"testing"

	"duskwire/layout/geom"
)

// TestGarden draws ground, lamps and runs with every way of drawing, goes back
// to the empty plan and forth again, saves, and looks into the file.
func TestGarden(t *testing.T) {
	s := newScreen(t, 1280, 800)
	path := emptyScheme(t)
	p := s.run("1", path)
	wallX, wallY := p.ground()
	supplyX, supplyY := p.spot(0.45, 0.64)
	p.place(keySupply, "SP1", supplyX, supplyY)
	boxX, boxY := p.spot(0.5, 0.5)
	p.place(keyBox, "B1", boxX, boxY)
	p.row(boxX, boxY)
	p.typedRoute(supplyX, supplyY, boxX, boxY)
	p.splitAndCopy(supplyX, supplyY, boxX, boxY)
	full := p.last

	steps := p.undoAll()
	if f := p.last; len(f.Places)+len(f.Runs) > 0 || f.Unsaved {
		t.Errorf("everything taken back leaves %+v, runs %v, unsaved %v", f.Places, f.Runs, f.Unsaved)
	}
	if again := p.redoAll(); again != steps || steps != 11 {
		t.Errorf("%d steps back and %d forth, expected 11 gestures", steps, again)
	}
	f := p.last
	if !reflect.DeepEqual(f.Places, full.Places) || !reflect.DeepEqual(f.Runs, full.Runs) || f.Totals != full.Totals {
		t.Errorf("back and forth again\nbefore %+v %v %+v\nafter  %+v %v %+v", full.Places, full.Runs, full.Totals, f.Places, f.Runs, f.Totals)
	}
	if !reflect.DeepEqual(f.Findings, full.Findings) {
		t.Errorf("findings\nbefore %+v\nafter  %+v", full.Findings, f.Findings)
	}
	p.key("ctrl+s")
	saved := p.await("the file to be saved", func(f *frame) bool { return !f.Unsaved })
	p.picture("garden.png")
	compare(t, saved, path)
	p.quit()
	inFile(t, saved, path, geom.Point{X: geom.Metres(wallX), Y: geom.Metres(wallY)})
}

// ground draws two areas, a wall and a tree, and returns where the wall starts.
func (p *program) ground() (wallX, wallY float64) {
	p.t.Helper()
	p.key(keyArea)
	for _, c := range [][2]float64{{0.05, 0.1}, {0.3, 0.1}, {0.3, 0.35}, {0.05, 0.3}} {
		p.click(p.spot(c[0], c[1]))
	}
	p.key("Return")
	p.step("Draw area")
	x, y := p.spot(0.05, 0.65)
	toX, toY := p.spot(0.3, 0.9)
	p.drag(x, y, toX, toY)
	p.step("Draw area")
	p.key("Escape")

	wallX, wallY = p.spot(0.4, 0.15)
	p.key(keyLine)
	p.click(wallX, wallY)
	p.typed("2.5m<90")
	p.key("Return", "Return")
	p.step("Draw line")
	p.key("Escape", keyMark)
	p.click(p.spot(0.9, 0.2))
	p.step("Place mark M1")
	p.key("Escape")
	return wallX, wallY
}

// row puts three lamps in a row that starts on a box, joined by runs.
func (p *program) row(x, y float64) {
	p.t.Helper()
	p.key(keyRow, "w")
	p.typed("3")
	p.key("Return")
	p.click(x, y)
	toX, _ := p.spot(0.8, 0.5)
	p.click(toX, y)
	p.runs(3)
	for i, tag := range []string{"L1", "L2", "L3"} {
		p.stands(tag, x+(toX-x)*float64(i+1)/3, y)
	}
	p.key("Escape", "Escape")
}

// typedRoute draws a run from the supply point to the box whose first leg has a
// typed length and angle. All of it lies above where the section strip opens
// when a run is selected.
func (p *program) typedRoute(fromX, fromY, toX, toY float64) {
	p.t.Helper()
	p.key(keyRun)
	p.click(fromX, fromY)
	p.typed("1.25m<0")
	p.key("Return")
	p.click(toX, toY)
	p.runs(4)
	p.key("Escape", "Escape")
}

// splitAndCopy splits the first leg of that run with a box, pastes a copy of
// two lamps and mirrors it.
func (p *program) splitAndCopy(supplyX, supplyY, boxX, boxY float64) {
	p.t.Helper()
	p.key(keySelect)
	p.moveTo(p.pixel(supplyX, supplyY+0.625))
	p.key("ctrl+u")
	p.runs(5)
	if x, y, ok := p.last.place("B2"); !ok || !near(x, supplyX) || y <= supplyY || y >= supplyY+1.25 {
		p.t.Errorf("the run was split at (%g, %g) m, expected a box on its first leg", x, y)
	}
	left, _, _ := p.last.place("L1")
	middle, lampY, _ := p.last.place("L2")
	right, _, _ := p.last.place("L3")
	gap := middle - left
	p.drag(middle-gap/2, lampY+grid, right+gap/2, lampY-grid) // around L2 and L3
	p.key("ctrl+c")
	p.moveTo(p.pixel(p.spot(0.68, 0.3)))
	p.key("ctrl+v")
	p.runs(6)
	fourX, fourY, ok4 := p.last.place("L4")
	fiveX, _, ok5 := p.last.place("L5")
	if !ok4 || !ok5 || !near(fiveX-fourX, gap) || near(fourY, lampY) {
		p.t.Errorf("L4 at (%g, %g) m and L5 at %g m, expected a copy %g m wide", fourX, fourY, fiveX, gap)
	}
	p.key("ctrl+m")
	p.await("L4 and L5 to change places", func(f *frame) bool {
		x4, _, _ := f.place("L4")
		x5, _, _ := f.place("L5")
		return near(x4, fiveX) && near(x5, fourX) && !f.Preview
	})
}

// inFile looks whether the file holds what the window showed.
func inFile(t *testing.T, f *frame, path string, wall geom.Point) {
	t.Helper()
	s := read(t, path)
	for _, row := range []struct {
		what      string
		got, want int
	}{
		{"areas", s.Areas.Len(), 2}, {"lines", s.Lines.Len(), 1}, {"marks", s.Marks.Len(), 1},
		{"supply points", s.Supplies.Len(), 1}, {"boxes", s.Boxes.Len(), 2}, {"lamps", s.Lamps.Len(), 5}, {"runs", s.Runs.Len(), 6},
	} {
		if row.got != row.want {
			t.Fatalf("the file holds %d %s, expected %d", row.got, row.what, row.want)
		}
	}
	rectangle := s.Areas.All()[1].Ring
	if len(s.Areas.All()[0].Ring) != 4 || len(rectangle) != 4 ||
		rectangle[0].Y != rectangle[1].Y || rectangle[1].X != rectangle[2].X || rectangle[2].Y != rectangle[3].Y || rectangle[3].X != rectangle[0].X {
		t.Errorf("areas %v and %v, expected four corners by clicks and a rectangle", s.Areas.All()[0].Ring, rectangle)
	}
	end := wall.Add(geom.Point{X: geom.Metres(2.5)})
	if path := s.Lines.All()[0].Path; !reflect.DeepEqual(path, []geom.Point{wall, end}) {
		t.Errorf("the wall lies along %v, typed %v to %v", path, wall, end)
	}
	if kind := s.Marks.All()[0].Kind; kind != "tree" {
		t.Errorf("the mark is a %s, expected a tree", kind)
	}
	for _, l := range s.Lamps.All() {
		x, y := metres(l.Place.At)
		if atX, atY, ok := f.place(l.Tag); !ok || !near(x, atX) || !near(y, atY) {
			t.Errorf("%s lies at (%g, %g) m in the file, at (%g, %g) m in the window", l.Tag, x, y, atX, atY)
		}
	}
	supply, typed := s.Supplies.All()[0].Place.At, false
	for _, r := range s.Runs.All() {
		for _, leg := range r.Legs {
			typed = typed || leg.To == supply.Add(geom.Point{Y: geom.Metres(1.25)})
		}
	}
	if !typed {
		t.Errorf("no run bends 1.25 m above the supply point at %v", supply)
	}
}
