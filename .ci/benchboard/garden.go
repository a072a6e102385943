package main

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
)

// lamps is how many lamps the garden has. Every lamp and every box hangs on a
// run of five legs.
const lamps = 1000

// garden makes one circuit of the lamps, the worst case for taking over what
// did not change: a spine of boxes, each feeding a row of nine lamps to the
// east or to the west, over beds, fences and trees.
func garden() *doc.Scheme {
	s := doc.New("uk-18")
	s.Title, s.Plan.Grid = "A thousand lamps", geom.Metre/2
	sp := &doc.Supply{ID: "SP1", Tag: "SP1", Spur: true, Nominal: 230, Earthing: network.TNS, Upstream: "b32-rcbo-30", Fuse: "fuse-13",
		Place: doc.Place{At: geom.Pt(0, -1)}}
	sp.MeasuredZs.Value, sp.MeasuredZs.Known = 0.4, true
	s.Supplies = doc.NewSet(sp)
	p := &planting{}
	last, lastAt := sp.ID, sp.Place.At
	for i := 0; len(p.lamps) < lamps; i++ {
		at := geom.Pt(0.6*float64(1-2*(i%2)), 0.5*float64(i))
		box := &doc.Box{ID: doc.ID(fmt.Sprintf("B%d", i+1)), Stock: "box-110", Place: doc.Place{At: at}}
		box.Tag = string(box.ID)
		p.boxes = append(p.boxes, box)
		p.run("swa-3x16", last, box.ID, lastAt, at)
		last, lastAt = box.ID, at
		from, fromAt := box.ID, at
		for k := 1; k <= 9 && len(p.lamps) < lamps; k++ {
			to := geom.Point{X: at.X + geom.Length(1-2*(i%2))*geom.Length(k)*4*geom.Metre, Y: at.Y}
			l := &doc.Lamp{ID: doc.ID(fmt.Sprintf("L%d", len(p.lamps)+1)), Stock: "brick-3w", Place: doc.Place{At: to, Height: 300 * geom.Millimetre}}
			l.Tag = string(l.ID)
			p.lamps = append(p.lamps, l)
			p.run("swa-3x1.5", from, l.ID, fromAt, to)
			from, fromAt = l.ID, to
		}
	}
	s.Boxes, s.Lamps, s.Runs = doc.NewSet(p.boxes...), doc.NewSet(p.lamps...), doc.NewSet(p.runs...)
	p.ground(s)
	return s
}

// planting collects the parts of a garden.
type planting struct {
	boxes []*doc.Box
	lamps []*doc.Lamp
	runs  []*doc.Run
}

// run lays a buried cable in five legs that swing a little.
func (p *planting) run(cable string, from, to doc.ID, a, b geom.Point) {
	r := &doc.Run{ID: doc.ID(fmt.Sprintf("R%d", len(p.runs)+1)), Cable: cable, From: doc.End{On: from}, To: doc.End{On: to}}
	r.Tag = string(r.ID)
	const legs = 5
	for k := 1; k <= legs; k++ {
		at := geom.Point{X: a.X + (b.X-a.X)*geom.Length(k)/legs, Y: a.Y + (b.Y-a.Y)*geom.Length(k)/legs}
		at.Y += geom.Length(k%2) * geom.Metre / 10
		if k == legs {
			at = geom.Point{}
		}
		r.Legs = append(r.Legs, doc.Leg{To: at, Support: network.Buried, Depth: 600 * geom.Millimetre})
	}
	p.runs = append(p.runs, r)
}

// ground draws 100 things under the cables: beds, fences, trees.
func (p *planting) ground(s *doc.Scheme) {
	var areas []*doc.Area
	var lines []*doc.Line
	var marks []*doc.Mark
	for i := range 40 {
		x, y := float64(i%8)*9-36, float64(i/8)*11
		id := doc.ID(fmt.Sprint("A", i+1))
		areas = append(areas, &doc.Area{ID: id, Tag: string(id), Kind: doc.AreaKinds[1+i%5], DigDepth: 100 * geom.Millimetre,
			Ring: []geom.Point{geom.Pt(x, y), geom.Pt(x+7, y), geom.Pt(x+7, y+6), geom.Pt(x+3, y+9), geom.Pt(x, y+6)}})
	}
	for i := range 20 {
		x, y := float64(i%10)*7-36, float64(i/10)*30
		id := doc.ID(fmt.Sprint("N", i+1))
		lines = append(lines, &doc.Line{ID: id, Tag: string(id), Kind: doc.LineKinds[i%4], Path: []geom.Point{geom.Pt(x, y), geom.Pt(x+5, y+1), geom.Pt(x+6, y+9)}})
	}
	for i := range 40 {
		id := doc.ID(fmt.Sprint("M", i+1))
		marks = append(marks, &doc.Mark{ID: id, Tag: string(id), Kind: doc.MarkKinds[i%4], Place: doc.Place{At: geom.Pt(float64(i%8)*9-33, float64(i/8)*11+9.7)},
			Radius: 150 * geom.Millimetre, Crown: geom.Metre})
	}
	s.Areas, s.Lines, s.Marks = doc.NewSet(areas...), doc.NewSet(lines...), doc.NewSet(marks...)
}

// photo writes a picture of twelve million pixels into the folder and lays it
// under the plan, turned a little.
func photo(folder string, s *doc.Scheme) error {
	const w, h = 4000, 3000
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			wave := math.Sin(float64(x)/90) * math.Cos(float64(y)/70)
			grain := uint8((x*7919 ^ y*104729) >> 3 & 31)
			m.SetRGBA(x, y, color.RGBA{R: 110 + uint8(30*wave+30)/2 + grain, G: 130 + uint8(40*wave+40)/2 + grain, B: 80 + grain, A: 255})
		}
	}
	path := filepath.Join(folder, "photo.png")
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(f, m); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	p, err := (&picture.Cache{}).Read(context.Background(), path)
	if err != nil {
		return err
	}
	s.Plan.Underlay = doc.Underlay{File: path, Sum: p.Sum, Width: w, Height: h, Pixel: q.Metre(0.022), At: geom.Pt(-44, 64), Turn: 2, Fade: 0.35}
	s.Plan.Checked = true
	return nil
}
