package scene

import (
	"strings"

	"duskwire/calc"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// element is one symbol of a diagram and the line that feeds it.
type element struct {
	id    doc.ID
	part  bool // of the supply point with that id
	name  string
	tag   string
	lines []string // under the tag
	run   doc.ID   // that feeds it
	over  string   // texts along the line that feeds it
	under string
	sys   system // of that line
	up    int
	kids  []int
	tied  bool // a closing run ends here
	none  bool // drawn without a line: joined to nothing

	weight   int
	next     int   // kid that goes straight on, -1 for none
	hangs    []int // single ends below
	branches []int // other kids
	hung     bool

	at                XY
	rx, ry            float64
	path              []XY
	linkLow, linkHigh XY // of the texts along the line

	// Widths as measured: texts under the symbol, along the line, beside a hanging
	// symbol, and of the columns that hang here; 0 before.
	wide, long, aside, column float64
}

// ring is a run that closes a ring.
type ring struct {
	run       doc.ID
	from, to  int // elements
	text      string
	sys       system
	path      []XY
	at        XY // of the text
	low, high XY
}

// enter makes the elements of circuit i: the board with its devices, then one
// for every entity. Both sides of a source, and both ends of a strip, are one.
func (d *oneLine) enter(i int) {
	c := &d.in.Circuits.Circuits[i]
	n := c.Input.Net
	if len(n.Nodes) == 0 {
		return
	}
	var result *calc.Result
	if i < len(d.in.Results) {
		result = d.in.Results[i]
	}
	read := newReadings(n, result)
	t := network.BuildTree(n)
	stands := make([]int, len(n.Nodes)) // element of each node
	of := map[string]int{}
	for _, node := range t.Order {
		up := t.Up(n, node)
		if up < 0 {
			stands[node] = d.board(n, node, c.Supply)
			continue
		}
		id := n.Nodes[node].ID
		if at, met := of[id]; met && id != "" {
			stands[node] = at
			d.all[at].lines = append(d.all[at].lines, read.output(node)...)
			continue
		}
		stands[node] = d.node(n, node, &n.Branches[t.Parent[node]], stands[up], read)
		of[id] = stands[node]
	}
	for _, k := range t.Closed {
		br := &n.Branches[k]
		r := ring{run: doc.ID(br.ID), from: stands[br.From], to: stands[br.To], sys: systemOf(n, br.To)}
		r.text = fitted(strings.Join(filled(br.Label+" closes the ring", d.cable(br), d.length(br), read.flow(br.ID)), " · "), 2*textMost)
		d.all[r.from].tied, d.all[r.to].tied = true, true
		d.rings = append(d.rings, r)
	}
}

// add appends an element below another.
func (d *oneLine) add(e element) int {
	i := len(d.all)
	d.all = append(d.all, e)
	if e.up >= 0 {
		d.all[e.up].kids = append(d.all[e.up].kids, i)
	}
	return i
}

// board makes the bar of the consumer unit and its devices, and returns the last.
func (d *oneLine) board(n *network.Net, node int, supply doc.ID) int {
	lines := []string{n.Supply.Nominal.String()}
	if n.Supply.Earthing != network.EarthingUnknown {
		lines = append(lines, n.Supply.Earthing.String())
	}
	at := d.add(element{id: supply, part: true, name: "line board", tag: "Board", lines: lines, sys: mains, up: -1, next: -1})
	for _, dev := range n.Nodes[node].Devices {
		at = d.add(element{id: supply, part: true, name: deviceSymbol(dev), lines: folded(dev.Label, 24, 3), sys: mains, up: at, next: -1})
	}
	return at
}

// node makes the element of a node that a branch feeds.
func (d *oneLine) node(n *network.Net, node int, br *network.Branch, up int, read *readings) int {
	nd := &n.Nodes[node]
	e := element{id: doc.ID(nd.ID), tag: fitted(nd.Label, textMost/2), name: d.symbolOf(nd), sys: systemOf(n, node), up: up, next: -1}
	if br.Converter == nil && br.Strip == nil {
		e.run = doc.ID(br.ID)
		name := br.Label
		if br.ID == "" {
			name = "Indoor leg"
		}
		size := d.cable(br)
		if size == "" {
			size = "not known"
		}
		e.over = fitted(strings.Join(filled(name, size), " · "), textMost)
		e.under = fitted(strings.Join(filled(d.length(br), read.flow(br.ID)), " · "), textMost)
	}
	for _, dev := range nd.Devices {
		e.lines = append(e.lines, folded(dev.Label, 22, 2)...)
	}
	e.lines = append(e.lines, read.at(node)...)
	return d.add(e)
}

func systemOf(n *network.Net, node int) system {
	s := n.Nodes[node].System
	if s > 0 && n.Systems[s].Nominal <= extraLow || s > 0 && n.Systems[s].Drive > 0 {
		return extra
	}
	return mains
}

// symbolOf returns the symbol of a node.
func (d *oneLine) symbolOf(nd *network.Node) string {
	s, id := d.in.Scheme, doc.ID(nd.ID)
	switch nd.Kind {
	case network.SupplyNode:
		if e, ok := s.Supplies.Get(id); ok {
			return supplyName(e)
		}
	case network.BoxNode:
		return "box"
	case network.GearNode:
		if e, ok := s.Gear.Get(id); ok {
			name := d.b.gearName(e)
			if _, own := lineSymbols["line "+strings.TrimPrefix(name, "gear ")]; own {
				return "line " + strings.TrimPrefix(name, "gear ")
			}
			return name
		}
	case network.LampNode:
		if e, ok := s.Lamps.Get(id); ok && strings.HasPrefix(d.b.lampName(e), "small") {
			return "small lamp other"
		}
		return "lamp other"
	case network.PrimaryNode, network.SecondaryNode:
		if e, ok := s.Sources.Get(id); ok && d.b.sourceName(e) == "driver" {
			return "driver"
		}
		return "line transformer"
	}
	if nd.ID == "" {
		return "line open"
	}
	return "gear other"
}

func (d *oneLine) cable(br *network.Branch) string {
	if br.Cable == nil {
		return ""
	}
	return cableText(br.Cable)
}

// length is the cut length of a run, as on the plan, or what is known of the
// indoor leg.
func (d *oneLine) length(br *network.Branch) string {
	if i, ok := d.in.Scheme.Runs.Index(doc.ID(br.ID)); ok && i < len(d.in.Circuits.Lengths) {
		return d.in.Circuits.Lengths[i].Cut.String()
	}
	if br.Cable == nil {
		return ""
	}
	return br.Length.String()
}

// readings looks up the figures of a circuit.
type readings struct {
	net    *network.Net
	result *calc.Result
	runs   map[string]*calc.Run
}

func newReadings(n *network.Net, r *calc.Result) *readings {
	out := &readings{net: n, result: r, runs: map[string]*calc.Run{}}
	if r != nil {
		for i := range r.Runs {
			out.runs[r.Runs[i].ID] = &r.Runs[i]
		}
	}
	return out
}

// point returns the reading at a node, nil without one.
func (r *readings) point(node int) *calc.Point {
	if r.result == nil || node == r.net.Root {
		return nil
	}
	if node > r.net.Root {
		node-- // the board has none
	}
	if node >= len(r.result.Points) {
		return nil
	}
	return &r.result.Points[node]
}

// at returns volts and amperes at a node, a line each.
func (r *readings) at(node int) []string {
	p := r.point(node)
	switch {
	case p == nil || r.net.Nodes[node].Kind == network.OpenNode:
		return nil
	case !p.Trusted:
		return []string{"no reading"}
	}
	return []string{p.Voltage.String(), p.Current.String()}
}

// output returns what stands at the second node of a source.
func (r *readings) output(node int) []string {
	if r.net.Nodes[node].Kind != network.SecondaryNode {
		return nil
	}
	p := r.point(node)
	if p == nil || !p.Trusted {
		return []string{r.net.Systems[r.net.Nodes[node].System].Label}
	}
	return []string{"→ " + p.Voltage.String(), "→ " + p.Current.String()}
}

// flow returns the current of a run.
func (r *readings) flow(id string) string {
	run := r.runs[id]
	switch {
	case run == nil:
		return ""
	case !run.Trusted:
		return "no reading"
	}
	return q.Ampere.String(run.Current)
}

// filled leaves out the empty ones.
func filled(parts ...string) (out []string) {
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return out
}

// fitted cuts a text off at a width.
func fitted(s string, width float64) string {
	if TextWidth(s, capLabel, false) <= width {
		return s
	}
	r := []rune(s)
	for len(r) > 1 && TextWidth(string(r)+"…", capLabel, false) > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// folded breaks a text between words into lines.
func folded(s string, width float64, most int) (out []string) {
	for _, w := range strings.Fields(s) {
		if n := len(out); n > 0 && (n == most || TextWidth(out[n-1]+" "+w, capLabel, false) <= width) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	for i := range out {
		out[i] = fitted(out[i], textMost)
	}
	return out
}
