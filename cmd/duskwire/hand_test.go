//go:build e2e

package main_test

import (
	"math"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// Keys of the tools, as the tray shows them.
const (
	keySelect = "v"
	keyRun    = "r"
	keySupply = "p"
	keyBox    = "b"
	keyLamp   = "l"
	keyArea   = "a"
	keyLine   = "w"
	keyMark   = "t"
	keyRow    = "n"
)

// typed types a text; only ASCII comes through as it is.
func (s *screen) typed(text string) {
	s.t.Helper()
	s.do("type", "--delay", "25", "--", text)
}

// spot returns the place on the grid nearest to a share of the board's width
// and height from its upper left corner.
func (p *program) spot(right, down float64) (x, y float64) {
	v := p.last.View
	x, y = v.X+right*v.Width/v.PerMetre, v.Y-down*v.Height/v.PerMetre
	return math.Round(x/grid) * grid, math.Round(y/grid) * grid
}

// place takes a tool, clicks with it once and waits for the thing.
func (p *program) place(key, tag string, x, y float64) {
	p.t.Helper()
	p.key(key)
	p.click(x, y)
	p.stands(tag, x, y)
	p.key("Escape")
}

// stands waits for a thing and looks whether it is where it should be.
func (p *program) stands(tag string, x, y float64) {
	p.t.Helper()
	f := p.await(tag+" on the plan", func(f *frame) bool {
		_, _, ok := f.place(tag)
		return ok && !f.Preview
	})
	if gotX, gotY, _ := f.place(tag); !near(gotX, x) || !near(gotY, y) {
		p.t.Errorf("%s stands at (%g, %g) m, meant for (%g, %g) m", tag, gotX, gotY, x, y)
	}
}

// near compares metres to a millimetre.
func near(a, b float64) bool { return math.Abs(a-b) < 0.001 }

// route clicks a run and waits until there are n.
func (p *program) route(n int, points ...float64) {
	p.t.Helper()
	p.key(keyRun)
	for i := 0; i < len(points); i += 2 {
		p.click(points[i], points[i+1])
	}
	p.runs(n)
	p.key("Escape", "Escape")
}

func (p *program) runs(n int) {
	p.t.Helper()
	p.await("so many runs", func(f *frame) bool { return len(f.Runs) == n && !f.Preview })
}

// step waits for one more step of the history, of the name given.
func (p *program) step(name string) *frame {
	p.t.Helper()
	since := p.last.Seq
	return p.await("the step "+name, func(f *frame) bool { return f.Seq > since && f.Undo == name && !f.Preview })
}

// undoAll goes back to the start and returns the number of steps.
func (p *program) undoAll() (steps int) {
	p.t.Helper()
	for ; p.last.Undo != "" && steps < 100; steps++ {
		p.back("ctrl+z")
	}
	return steps
}

// redoAll takes it all back again.
func (p *program) redoAll() (steps int) {
	p.t.Helper()
	for ; p.last.Redo != "" && steps < 100; steps++ {
		p.back("ctrl+y")
	}
	return steps
}

// back presses the keys of undo or redo and waits for what comes of it.
func (p *program) back(keys string) {
	p.t.Helper()
	was := p.last
	p.key(keys)
	p.await("a step of "+keys, func(f *frame) bool { return f.Seq > was.Seq && !f.Preview })
}

// read loads the file that was saved.
func read(t *testing.T, path string) *doc.Scheme {
	t.Helper()
	from, err := file.NewReader("", "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := from.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// metres returns the place in metres.
func metres(p geom.Point) (x, y float64) { return p.X.Metres(), p.Y.Metres() }
