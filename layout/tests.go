package layout

import (
	"slices"
	"strings"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/judge"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// TestRow is one reading that is to be taken, with the facts it is judged by and
// what was read.
type TestRow struct {
	doc.Asked
	Label   string // "L7"; of a device the supply point or gear it stands at
	Of      string // what of it: a device, a part, a source; "" for the thing itself
	Circuit int
	Ask     judge.Ask
	Taken   doc.Taken // its Reading is nil where nothing was measured
}

// Tests are all readings that are to be taken of a frame: by test, then circuit by
// circuit, then by label.
type Tests struct {
	Rows []TestRow
	// Stray are readings of what is not tested in the drawing as it is: a device
	// that was exchanged, a lamp without supply.
	Stray []doc.Taken
	days  []judge.Day // of the visits, then one of no visit
}

// TestsOf lists what is to be read. Nothing is judged before it is asked for.
func TestsOf(f *Frame, rules *check.Rules) *Tests {
	t := unsorted(f, rules)
	t.sort()
	return t
}

// unsorted is TestsOf in the order of the circuits.
func unsorted(f *Frame, rules *check.Rules) *Tests {
	t := &Tests{days: daysOf(f.Scheme)}
	taken := doc.Latest(f.Scheme)
	for i := range f.Circuits.Circuits {
		b := &asking{f: f, rules: rules, taken: taken, circuit: i, net: f.Circuits.Circuits[i].Input.Net, res: f.Results[i], out: t}
		if len(b.net.Nodes) > 0 && b.res.Tree != nil {
			b.all()
		}
	}
	if len(taken) > 0 {
		t.strays(f.Scheme, taken)
	}
	return t
}

// sort puts the rows in their order.
func (t *Tests) sort() {
	order := make([]int, len(t.Rows))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, k int) int {
		a, b := &t.Rows[i], &t.Rows[k]
		switch {
		case a.Test != b.Test:
			return int(a.Test) - int(b.Test)
		case a.Circuit != b.Circuit:
			return a.Circuit - b.Circuit
		case a.Label == b.Label:
			return i - k
		case finding.LessLabel(a.Label, b.Label):
			return -1
		case finding.LessLabel(b.Label, a.Label):
			return 1
		}
		return i - k
	})
	rows := make([]TestRow, len(order))
	for n, i := range order {
		rows[n] = t.Rows[i]
	}
	t.Rows = rows
}

// strays keeps what was read of nothing, in the order of the file.
func (t *Tests) strays(s *doc.Scheme, taken map[doc.Asked]doc.Taken) {
	asked := make(map[doc.Asked]bool, len(t.Rows))
	for i := range t.Rows {
		asked[t.Rows[i].Asked] = true
	}
	for i := range s.Visits {
		for k := range s.Visits[i].Readings {
			r := &s.Visits[i].Readings[k]
			if last := taken[r.Asked]; last.Reading == r && !asked[r.Asked] {
				t.Stray = append(t.Stray, last)
			}
		}
	}
}

// daysOf are the conditions of every visit, and last those where there was none:
// the temperature of the survey, else 20 °C.
func daysOf(s *doc.Scheme) []judge.Day {
	usual := judge.Day{Temperature: q.Celsius(20)}
	if t := s.Survey.Test; t.Known {
		usual = judge.Day{Temperature: t.Value, Said: true}
	}
	days := make([]judge.Day, 0, len(s.Visits)+1)
	for i := range s.Visits {
		d := usual
		if t := s.Visits[i].Temperature; t.Known {
			d.Temperature, d.Said = t.Value, true
		}
		d.Leads = s.Visits[i].Leads
		days = append(days, d)
	}
	return append(days, usual)
}

// Day returns the conditions a row was read under, those of the survey where it was
// not.
func (t *Tests) Day(r *TestRow) judge.Day {
	if r.Taken.Reading == nil {
		return t.days[len(t.days)-1]
	}
	return t.days[r.Taken.Visit]
}

// Judge judges what was read; ok is false where nothing was.
func (t *Tests) Judge(r *TestRow) (j judge.Judgement, ok bool) {
	if r.Taken.Reading == nil {
		return j, false
	}
	return r.Ask.Judge(r.Taken.Value, t.Day(r)), true
}

// Expected is what a row should read, on its day.
func (t *Tests) Expected(r *TestRow) string { return r.Ask.Expected(t.Day(r)) }

// Row returns the row of what is asked, nil for none.
func (t *Tests) Row(a doc.Asked) *TestRow {
	for i := range t.Rows {
		if t.Rows[i].Asked == a {
			return &t.Rows[i]
		}
	}
	return nil
}

// Of returns the rows of one test.
func (t *Tests) Of(test judge.Test) []TestRow {
	lo, _ := slices.BinarySearchFunc(t.Rows, test, func(r TestRow, t judge.Test) int { return int(r.Test) - int(t) })
	hi := lo
	for hi < len(t.Rows) && t.Rows[hi].Test == test {
		hi++
	}
	return t.Rows[lo:hi]
}

// asking puts together what is asked of one circuit.
type asking struct {
	f       *Frame
	rules   *check.Rules
	taken   map[doc.Asked]doc.Taken
	circuit int
	net     *network.Net
	res     *calc.Result
	out     *Tests
	beside  []judge.Beside       // armours beside the core on the way, from the supply point
	joints  []int                // branches on the way to each node, the indoor leg left out
	near    map[judge.Test][]int // see nearest
	sources []*network.Node      // see sourceOf
}

func (b *asking) all() {
	b.count()
	b.points()
	b.armours()
	b.insulations()
	b.supply()
	b.residuals()
	b.volts()
}

// put adds a row.
func (b *asking) put(on string, label, of string, test judge.Test, part string, ask judge.Ask) {
	a := doc.Asked{On: doc.ID(on), Test: test, Part: part}
	b.out.Rows = append(b.out.Rows, TestRow{Asked: a, Label: label, Of: of, Circuit: b.circuit, Ask: ask, Taken: b.taken[a]})
}

// armourBeside adds the armour of a branch whose protective conductor is a core,
// where it is joined at both ends.
func (b *asking) armourBeside(branch int, s judge.Beside) judge.Beside {
	br := &b.net.Branches[branch]
	if !br.Armoured() || br.Cable.Earth != network.EarthCore || !protect.JointAt(b.net, branch, br.From).Joined || !protect.JointAt(b.net, branch, br.To).Joined {
		return s
	}
	return s.Add(q.Ohm(float64(br.Cable.EarthR20)*float64(br.Length)), q.Ohm(float64(br.Cable.ArmourR20)*float64(br.Length)))
}

// count fills in joints and beside.
func (b *asking) count() {
	b.joints, b.beside = make([]int, len(b.net.Nodes)), make([]judge.Beside, len(b.net.Nodes))
	for _, i := range b.res.Tree.Order {
		if up := b.res.Tree.Up(b.net, i); up >= 0 {
			b.joints[i] = b.joints[up]
			if b.net.Nodes[i].Kind != network.SupplyNode {
				b.joints[i]++
				b.beside[i] = b.armourBeside(b.res.Tree.Parent[i], b.beside[up])
			}
		}
	}
}

// point returns the result of a node; nil for the board.
func (b *asking) point(i int) *calc.Point {
	switch {
	case i < 0 || i == b.net.Root:
		return nil
	case i > b.net.Root:
		i--
	}
	return &b.res.Points[i]
}

// read returns a figure that was read, in SI units; unknown where it was not or
// was no plain figure.
func (b *asking) read(on string, test judge.Test, part string) (v float64, ok bool) {
	t := b.taken[doc.Asked{On: doc.ID(on), Test: test, Part: part}]
	if t.Reading == nil || t.Value.Bound != judge.Exact {
		return 0, false
	}
	return t.Value.SI, true
}

// readOhm is read with the leads taken off.
func (b *asking) readOhm(on string, test judge.Test, part string) q.Maybe[q.Ohm] {
	v, ok := b.read(on, test, part)
	if !ok {
		return q.Maybe[q.Ohm]{}
	}
	if test == judge.R1R2 {
		if l := b.out.days[b.taken[doc.Asked{On: doc.ID(on), Test: test, Part: part}].Visit].Leads; l.Known {
			v = max(0, v-float64(l.Value))
		}
	}
	return q.Some(q.Ohm(v))
}

// partOf is the part of a node's entity that the node is.
func partOf(n *network.Node) string {
	if n.Tail {
		return doc.FarPart
	}
	return ""
}

// Electronics lists what has to be taken out of a system before 500 V is put on
// it: lamps, sources and gear that is more than a switch.
func Electronics(net *network.Net, system int) string {
	var lamps, other []string
	for i := range net.Nodes {
		n := &net.Nodes[i]
		if n.System != system {
			continue
		}
		switch {
		case n.Kind == network.LampNode && !n.Tail:
			lamps = append(lamps, n.Label)
		case n.Kind == network.PrimaryNode, n.Kind == network.GearNode && n.Gear != nil && n.Gear.Controls():
			other = append(other, n.Label)
		}
	}
	var parts []string
	if len(lamps) > 0 {
		parts = append(parts, "lamps "+TagRuns(lamps))
	}
	if len(other) > 0 {
		parts = append(parts, TagRuns(other))
	}
	if len(parts) == 0 {
		return "nothing"
	}
	return strings.Join(parts, "; ")
}
