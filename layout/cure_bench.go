package layout

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// bench is where ways out of one finding are tried.
type bench struct {
	ctx   context.Context
	frame *Frame
	rules *check.Rules
	fd    finding.Finding
	over  bool // the finding is about too many volts

	at      int // circuit of the finding
	circuit *derive.Circuit
	net     *network.Net
	result  *calc.Result
	node    int             // of the subject: a point, or the far end of a run; -1
	set     map[string]bool // ids the cure is judged by
	before  tally
	now     float64 // use of the present scheme, see reading
	found   []Cure
	tried   map[string]bool
	meter   luxMeter // for findings of light
}

// newBench sets up the bench. A finding may be about nothing that is in a
// circuit: a lamp without supply, or a run without a cable. Of a zone the
// circuit is that of the first thing named with it.
func newBench(ctx context.Context, f *Frame, fd finding.Finding) *bench {
	b := &bench{ctx: ctx, frame: f, fd: fd, node: -1, tried: map[string]bool{},
		over: fd.Code == "VD-03" && strings.HasPrefix(fd.Limit, "at most")}
	b.rules = f.Circuits.Loose.Rules
	b.circuit, b.net = &derive.Circuit{}, &network.Net{}
	b.result = &calc.Result{Tree: &network.Tree{}}
	if !b.place(doc.ID(fd.Subject.ID)) && doc.KindOf(f.Scheme, doc.ID(fd.Subject.ID)) == doc.ZoneKind {
		for _, s := range fd.Also {
			if b.place(doc.ID(s.ID)) {
				break
			}
		}
	}
	b.gather()
	now := trial{results: f.Results, nets: netsOf(f.Circuits), findings: f.Findings}
	for i := range f.Circuits.Circuits {
		now.inputs = append(now.inputs, f.Circuits.Circuits[i].Input)
	}
	if isLux(fd) {
		now.lux = b.meter.facts(f, b.rules)
	}
	b.before = tallyOf(f.Findings)
	_, b.now = b.read(&now)
	return b
}

// place looks for the circuit and the node of an entity.
func (b *bench) place(id doc.ID) bool {
	f := b.frame
	for i := range f.Circuits.Circuits {
		c := &f.Circuits.Circuits[i]
		node, isPoint := c.Node[id]
		branch, isRun := c.Branch[id]
		if !isPoint && !isRun {
			continue
		}
		b.at, b.circuit, b.net, b.result, b.node = i, c, c.Input.Net, f.Results[i], node
		if isRun {
			b.node = c.Input.Net.Branches[branch].To
		}
		return true
	}
	return false
}

// gather collects what the cure is judged by: of a drop every consumer of the
// same voltage system, otherwise what the finding names.
func (b *bench) gather() {
	b.set = map[string]bool{b.fd.Subject.ID: true}
	switch b.fd.Code {
	case "VD-01", "VD-02", "VD-03", "SOL-01", "SOL-02":
		sys := b.system()
		for i := range b.net.Nodes {
			n := &b.net.Nodes[i]
			if n.System == sys && check.Consumer(n) {
				b.set[n.ID] = true
			}
		}
	case "SRC-01", "CAP-01":
	default:
		for _, s := range b.fd.Also {
			b.set[s.ID] = true
		}
	}
}

// system is the voltage system of the finding.
func (b *bench) system() int {
	if b.node < 0 {
		return 0
	}
	return b.net.Nodes[b.node].System
}

// trial is the outcome of one change.
type trial struct {
	nets     []*network.Net
	results  []*calc.Result
	inputs   []calc.Input
	findings []finding.Finding
	lengths  []derive.Length // nil when the cut list stays
	lux      *check.LuxFacts // of a finding of light
}

// attempt evaluates the scheme as it would be after op. ok is false when it
// cannot be done or when nobody waits for the answer any more.
func (b *bench) attempt(op edit.Operation) (t *trial, ok bool) {
	if b.ctx.Err() != nil {
		return nil, false
	}
	f := b.frame
	s, err := op.Apply(f.Scheme)
	if err != nil || s == f.Scheme {
		return nil, false
	}
	cs := derive.Scheme(s, f.Stock, b.rules, f.Circuits)
	t = &trial{nets: netsOf(cs), lengths: cs.Lengths}
	for i := range cs.Circuits {
		in := cs.Circuits[i].Input
		t.add(in, b.known(in))
	}
	t.findings = append(t.findings, calc.Evaluate(cs.Loose).Findings...)
	if isLux(b.fd) {
		t.light(b, &Frame{Scheme: s, Stock: f.Stock, Circuits: cs, Results: t.results, Findings: t.findings, Lights: f.Lights})
	}
	overrule(t.findings, s.Decisions)
	return t, true
}

// known is the result of a circuit that the change left as it was, else nil.
func (b *bench) known(in calc.Input) *calc.Result {
	for i := range b.frame.Circuits.Circuits {
		if b.frame.Circuits.Circuits[i].Input.Net == in.Net {
			return b.frame.Results[i]
		}
	}
	return nil
}

func (t *trial) add(in calc.Input, r *calc.Result) {
	if r == nil {
		r = calc.Evaluate(in)
	}
	t.inputs = append(t.inputs, in)
	t.results = append(t.results, r)
	t.findings = append(t.findings, r.Findings...)
}

// attemptNet evaluates the finding's circuit with another net, the scheme and
// its cut list staying as they are.
func (b *bench) attemptNet(net *network.Net) (*trial, bool) {
	if b.ctx.Err() != nil {
		return nil, false
	}
	t := &trial{}
	for i := range b.frame.Circuits.Circuits {
		in, r := b.frame.Circuits.Circuits[i].Input, b.frame.Results[i]
		if i == b.at {
			in.Net, r = net, nil
		}
		t.add(in, r)
		t.nets = append(t.nets, in.Net)
	}
	t.findings = append(t.findings, calc.Evaluate(b.frame.Circuits.Loose).Findings...)
	overrule(t.findings, b.frame.Scheme.Decisions)
	return t, true
}

func netsOf(cs *derive.Circuits) []*network.Net {
	var out []*network.Net
	for i := range cs.Circuits {
		out = append(out, cs.Circuits[i].Input.Net)
	}
	return out
}

// try evaluates op and keeps it when it helps. It reports whether it holds and
// leaves nothing of the same kind to be asked.
func (b *bench) try(order int, text string, op edit.Operation) (c Cure, clear bool) {
	key := fmt.Sprintf("%#v", op)
	if sc, ok := op.(edit.SetCable); ok {
		key = fmt.Sprint(sc.Runs, sc.Cable)
	}
	if b.tried[key] {
		return Cure{}, false
	}
	b.tried[key] = true
	t, ok := b.attempt(op)
	if !ok {
		return Cure{}, false
	}
	c = b.judge(t, text)
	c.order, c.Operation = order, op
	return c, c.Holds && c.left == 0
}

// keep takes a cure up when it helps.
func (b *bench) keep(c Cure) {
	if c.Text == "" || (!c.Holds && !(c.use > 0 && c.use < b.now*(1-1e-3))) {
		return
	}
	b.found = append(b.found, c)
}

// judge reads a trial.
func (b *bench) judge(t *trial, text string) Cure {
	c := Cure{Text: text, Metres: b.metres(t)}
	c.Figure, c.use = b.read(t)
	c.Holds = true
	for i := range t.findings {
		f := &t.findings[i]
		if f.Overruled != nil || !b.concerns(f) {
			continue
		}
		if f.Code == b.fd.Code && f.Level >= b.fd.Level {
			c.Holds = false
			continue
		}
		if f.Level >= finding.Decide && b.related(f.Code) {
			c.left++
			c.Leaves = join(c.Leaves, follow(kind{f.Code, f.Level}))
		}
	}
	after := tallyOf(t.findings)
	for _, k := range after.order {
		if (k.code == b.fd.Code && k.level <= b.fd.Level) || !b.brought(after, k) {
			continue
		}
		if k.level == finding.Stop {
			c.worse++
		}
		if !slices.Contains(c.Leaves, follow(k)) {
			c.Brings = join(c.Brings, follow(k))
		}
	}
	c.Then = then(c.Leaves, c.Brings)
	return c
}

// then says in words what a cure leaves and brings.
func then(leaves, brings []Follow) string {
	var out []string
	for _, part := range []struct {
		verb string
		list []Follow
	}{{"leaves ", leaves}, {"brings ", brings}} {
		var names []string
		for _, f := range part.list {
			names = append(names, f.String())
		}
		if len(names) > 0 {
			out = append(out, part.verb+strings.Join(names, ", "))
		}
	}
	return strings.Join(out, "; ")
}

func follow(k kind) Follow { return Follow{k.code, k.level, titleOf(k.code)} }

// titleOf is the title of the rule with a code.
func titleOf(code finding.Code) string {
	for _, r := range append(append(check.All(), check.DrumRule), check.LuxRules...) {
		if r.Code == code {
			return r.Title
		}
	}
	return ""
}

// join adds what is not yet in a list.
func join(list []Follow, f Follow) []Follow {
	if slices.Contains(list, f) {
		return list
	}
	return append(list, f)
}

// related reports whether a code asks about the same thing as the finding:
// volts, fault loop, or current.
func (b *bench) related(code finding.Code) bool {
	family := func(c finding.Code) string {
		switch s, _, _ := strings.Cut(string(c), "-"); s {
		case "VD", "SOL":
			return "volts"
		case "CAP", "SRC":
			return "current"
		default:
			return s
		}
	}
	return family(code) == family(b.fd.Code)
}

// concerns reports whether a finding is about what the cure is judged by.
func (b *bench) concerns(f *finding.Finding) bool {
	if b.set[f.Subject.ID] {
		return true
	}
	for _, s := range f.Also {
		if b.set[s.ID] {
			return true
		}
	}
	return false
}

// tally holds what the findings that stand are about, by code and level.
type tally struct {
	about map[kind]map[string]bool
	order []kind
}

type kind struct {
	code  finding.Code
	level finding.Level
}

func tallyOf(fs []finding.Finding) tally {
	t := tally{about: map[kind]map[string]bool{}}
	sorted := append([]finding.Finding(nil), fs...)
	finding.Sort(sorted)
	for i := range sorted {
		f := &sorted[i]
		if f.Level < finding.Decide || f.Overruled != nil {
			continue
		}
		k := kind{f.Code, f.Level}
		if t.about[k] == nil {
			t.about[k] = map[string]bool{}
			t.order = append(t.order, k)
		}
		t.about[k][f.Subject.ID] = true
		for _, s := range f.Also {
			t.about[k][s.ID] = true
		}
	}
	return t
}

// brought reports whether a kind of finding came up with a change: one that was
// not there at all, or one about something old that was free of it. That a new
// part shares what its neighbours already have is not the change's doing.
func (b *bench) brought(after tally, k kind) bool {
	before := b.before.about[k]
	if len(before) == 0 {
		return true
	}
	for id := range after.about[k] {
		if !before[id] && doc.KindOf(b.frame.Scheme, doc.ID(id)) != doc.NoKind {
			return true
		}
	}
	return false
}

// metres compares the cut lists, cable by cable in the order of the new one.
func (b *bench) metres(t *trial) []CableMetres {
	if t.lengths == nil {
		return nil
	}
	var out []CableMetres
	at := map[string]int{}
	add := func(l *derive.Length, sign q.Metre) {
		if l.Cable == "" {
			return
		}
		i, seen := at[l.Cable]
		if !seen {
			i = len(out)
			at[l.Cable] = i
			out = append(out, CableMetres{Cable: l.Cable, Name: l.Name})
		}
		out[i].Metres += sign * l.Cut
	}
	for i := range t.lengths {
		add(&t.lengths[i], 1)
	}
	for i := range b.frame.Circuits.Lengths {
		add(&b.frame.Circuits.Lengths[i], -1)
	}
	var more, less []CableMetres
	for _, m := range out {
		switch {
		case m.Metres > 1e-6:
			more = append(more, m)
		case m.Metres < -1e-6:
			less = append(less, m)
		}
	}
	return append(more, less...)
}
