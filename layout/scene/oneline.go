package scene

import (
	"slices"

	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// OneLineInput is what a one-line diagram is drawn from.
type OneLineInput struct {
	Scheme   *doc.Scheme
	Stock    *doc.Stock
	Circuits *derive.Circuits
	Results  []*calc.Result    // one a circuit; nil draws no figures
	Findings []finding.Finding // for the marks
	Palette  *Palette          // nil: Light()
	// Width is where long chains go on in a new line, mm; 0 takes 300. What
	// branches off far to the right may still reach beyond it.
	Width float64
}

// Diagram is a one-line diagram: the display list at its own size, and what
// stands where in it.
type Diagram struct {
	List    *List
	Symbols []DiagramSymbol // those nearer the supply first
	Runs    []DiagramRun    // every run of a circuit, once

	symbol map[doc.ID]int
	run    map[doc.ID]int
}

// DiagramSymbol is one symbol with its texts.
type DiagramSymbol struct {
	// Entity is "" for the open end of a run. What stands at the board has the
	// entity of its supply point, and Part is set: the supply point itself has a
	// symbol of its own.
	Entity    doc.ID
	Part      bool
	At        XY
	RX, RY    float64 // half size without texts
	Low, High XY      // with texts
	Up        int     // symbol on the supply side, -1 for none
	Kids      []int   // symbols fed from here, the one straight on first
	Run       doc.ID  // that feeds it, "" for none
}

// DiagramRun is one run as drawn.
type DiagramRun struct {
	Entity    doc.ID
	Path      []XY // from the supply side
	Low, High XY   // of its texts; equal when it has none
	From, To  int  // symbols at its ends, From nearer the supply; -1 for none
	Closes    bool // it closes a ring
}

// Symbol returns the symbol of an entity.
func (d *Diagram) Symbol(id doc.ID) (s *DiagramSymbol, ok bool) {
	i, ok := d.symbol[id]
	if !ok {
		return nil, false
	}
	return &d.Symbols[i], true
}

// RunOf returns the drawing of a run.
func (d *Diagram) RunOf(id doc.ID) (r *DiagramRun, ok bool) {
	i, ok := d.run[id]
	if !ok {
		return nil, false
	}
	return &d.Runs[i], true
}

// Measures of a diagram, mm. Letters are as large as on the plan.
const (
	oneLineEdge  = 8.0  // around the drawing
	oneLineAbove = 9.0  // over a line: symbol, texts of the run, finding mark
	ringLane     = 6.0  // more of it for each closing run
	lineGap      = 3.0  // between texts
	hangMost     = 6    // lamps that hang under each other
	hangPitch    = 10.0 // from one to the next
	hangStub     = 4.0  // of line before a hanging symbol
	markRoom     = 4.8  // that a finding mark takes beside a text
	textMost     = 44.0 // of any text
)

// NewOneLine draws every circuit as a one-line diagram (IEC 61082-1, from
// memory: one line
// for all conductors), from the supply at the left. The heaviest branch goes
// straight on, single ends hang below what feeds them, other branches stand
// below, and what is too long goes on in a new line. Lines of a circuit without
// rings never cross. It depends on nothing but its arguments.
func NewOneLine(in OneLineInput) *Diagram {
	d := &oneLine{in: in, width: in.Width}
	if d.width <= 0 {
		d.width = 300
	}
	d.b = newBuilder(Input{Scheme: in.Scheme, Stock: in.Stock, Findings: in.Findings, Palette: in.Palette}, View{Denominator: 1}, 1, 1)
	y, right := oneLineEdge, 0.0
	if in.Circuits != nil {
		for i := range in.Circuits.Circuits {
			r, bottom := d.circuit(i, y)
			right, y = max(right, r), bottom+6
		}
	}
	r, bottom := d.loose(y)
	d.out.List = &List{Width: max(right, r) + oneLineEdge, Height: bottom + oneLineEdge, Background: d.b.pal.Paper, View: View{Denominator: 1},
		Items: make([]Item, 0, 16*(len(d.all)+1))}
	d.draw()
	d.finish()
	return &d.out
}

// oneLine carries the drawing from step to step.
type oneLine struct {
	in    OneLineInput
	b     *builder
	width float64
	all   []element
	rings []ring
	heads []heading
	out   Diagram
}

// heading is a line of bold text.
type heading struct {
	at   XY
	text string
}

// circuit places circuit i below y.
func (d *oneLine) circuit(i int, y float64) (right, bottom float64) {
	first, firstRing := len(d.all), len(d.rings)
	d.all = slices.Grow(d.all, len(d.in.Circuits.Circuits[i].Input.Net.Nodes)+4)
	d.enter(i)
	if len(d.all) == first {
		return 0, y
	}
	d.shape(first, firstRing)
	d.heads = append(d.heads, heading{XY{oneLineEdge, y + capTag}, "Circuit of " + d.in.Circuits.Circuits[i].Input.Net.Label})
	right, bottom = d.block(first, oneLineEdge, y+4)
	d.all[first].path = nil // nothing feeds the board here
	return d.closeRings(first, firstRing, right), bottom
}

// finish turns the elements into what the diagram tells of itself.
func (d *oneLine) finish() {
	o := &d.out
	o.symbol, o.run = map[doc.ID]int{}, map[doc.ID]int{}
	for i := range d.all {
		e := &d.all[i]
		kids := make([]int, 0, len(e.kids))
		if e.next >= 0 {
			kids = append(kids, e.next)
		}
		for _, k := range e.kids {
			if k != e.next {
				kids = append(kids, k)
			}
		}
		lo, hi := e.box()
		id := e.id
		if e.none && e.run != "" {
			id = "" // a run in no circuit is told by its run alone
		}
		if id != "" && !e.part {
			o.symbol[id] = len(o.Symbols)
		}
		o.Symbols = append(o.Symbols, DiagramSymbol{Entity: id, Part: e.part, At: e.at, RX: e.rx, RY: e.ry, Low: lo, High: hi, Up: e.up, Kids: kids, Run: e.run})
		if e.run != "" {
			o.run[e.run] = len(o.Runs)
			o.Runs = append(o.Runs, DiagramRun{Entity: e.run, Path: e.path, Low: e.linkLow, High: e.linkHigh, From: e.up, To: i})
		}
	}
	for i := range d.rings {
		r := &d.rings[i]
		o.run[r.run] = len(o.Runs)
		o.Runs = append(o.Runs, DiagramRun{Entity: r.run, Path: r.path, Low: r.low, High: r.high, From: r.from, To: r.to, Closes: true})
	}
}
