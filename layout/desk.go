package layout

import (
	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// Desk is the one place where the scheme is kept, derived and evaluated. It
// is used from one goroutine; everything it hands out is immutable.
type Desk struct {
	shipped doc.Stock
	rules   []*check.Rules
	store   *edit.Store
	preview *doc.Scheme // scheme of the gesture that is on, nil without one
	path    string
	frame   *Frame
	stock   stockCache
	memo    map[*network.Net]*calc.Worked
	planner planner
	watch   []*watcher
	rooms   *Rooms // of roomsOf, worked out when someone looks
	roomsOf *Frame
	tests   *Tests // of testsOf, worked out when someone looks
	testsOf *Frame
	under   *Under  // what became of the picture under the plan; nil before it was read
	lights  *Lights // what became of the photometric files; nil before they were read
	follow  following
	lux     luxMeter
	apart   lightApart
	cuts    cutApart
}

// watcher is one subscriber; f is nil once it has stopped.
type watcher struct{ f func(*Frame) }

// NewDesk returns a desk with the scheme on it. stock is the shipped stock
// book with the user's own over it; rules must hold at least one rule set.
func NewDesk(stock doc.Stock, rules []*check.Rules, start *doc.Scheme, path string) *Desk {
	if len(rules) == 0 {
		panic("layout: NewDesk without a rule set")
	}
	d := &Desk{shipped: stock, rules: rules}
	d.Load(start, path)
	return d
}

// Frame returns the state last published.
func (d *Desk) Frame() *Frame { return d.frame }

// Rules returns the rule sets that a scheme may name.
func (d *Desk) Rules() []*check.Rules { return d.rules }

// Subscribe calls f with every frame published from now on, in the goroutine
// of the edit; stop ends it.
func (d *Desk) Subscribe(f func(*Frame)) (stop func()) {
	w := &watcher{f}
	d.watch = append(d.watch, w)
	return func() { w.f = nil }
}

// Load puts another scheme on the desk and forgets the history.
func (d *Desk) Load(s *doc.Scheme, path string) { d.Put(d.Preparer()(s, path)) }

// Saved says that the scheme is now in the file at path. It takes the scheme
// because a file is written while the drawing goes on.
func (d *Desk) Saved(s *doc.Scheme, path string) {
	d.store.MarkSavedAs(s)
	d.path = path
	d.publish()
}

// Preview shows the scheme as if op were done to the scheme the gesture
// started from. A refused operation leaves the last preview as it was.
func (d *Desk) Preview(op edit.Operation) error {
	next, err := op.Apply(d.store.Current())
	if err != nil {
		return err
	}
	if next == d.preview {
		return nil
	}
	d.preview = next
	d.show()
	return nil
}

// Commit does op as one undo step and ends a preview.
func (d *Desk) Commit(op edit.Operation) error {
	err := d.store.Do(op)
	was := d.preview
	d.preview = nil
	if err == nil || was != nil {
		d.publish()
	}
	return err
}

// Cancel drops the preview.
func (d *Desk) Cancel() {
	if d.preview != nil {
		d.preview = nil
		d.publish()
	}
}

// Undo takes the last step back; false when there is none.
func (d *Desk) Undo() bool { return d.step(d.store.Undo) }

// Redo does the next step again; false when there is none.
func (d *Desk) Redo() bool { return d.step(d.store.Redo) }

func (d *Desk) step(move func() bool) bool {
	d.preview = nil
	moved := move()
	d.publish()
	return moved
}

// Explain returns every check made of one entity with its working, those that
// hold included, worst first.
func (d *Desk) Explain(id doc.ID) []finding.Finding {
	var out []finding.Finding
	for i := range d.frame.Circuits.Circuits {
		in := d.frame.Circuits.Circuits[i].Input
		out = append(out, calc.Explain(in, d.frame.Results[i], string(id))...)
	}
	for _, f := range d.frame.Findings {
		if f.Subject.ID == string(id) && !hasFinding(out, f) {
			out = append(out, f)
		}
	}
	overrule(out, d.frame.Scheme.Decisions)
	finding.Sort(out)
	return out
}

// Rooms returns the headroom of everything in the present frame. It is worked
// out once a frame, and only when it is asked for.
func (d *Desk) Rooms() *Rooms {
	if d.roomsOf != d.frame {
		d.rooms, d.roomsOf = RoomsOf(d.frame), d.frame
	}
	return d.rooms
}

// Tests returns what is to be read of the present frame with what was read. It is
// worked out once a frame, and only when it is asked for.
func (d *Desk) Tests() *Tests {
	if d.testsOf != d.frame {
		d.tests, d.testsOf = TestsOf(d.frame, d.rulesOf(d.frame.Scheme)), d.frame
	}
	return d.tests
}

func hasFinding(list []finding.Finding, f finding.Finding) bool {
	for i := range list {
		if list[i].Code == f.Code && list[i].Subject == f.Subject {
			return true
		}
	}
	return false
}

// publish derives, evaluates and hands out the new frame, or has a worker do it
// after a large edit.
func (d *Desk) publish() {
	if d.lags() {
		d.lag()
		return
	}
	d.publishWhole()
}

func (d *Desk) publishWhole() {
	w := d.working()
	w.do()
	d.take(w)
	d.hand(d.lightOf(w.frame))
	d.askLight()
	d.askDrums()
}

// hand gives a new frame to those who watch.
func (d *Desk) hand(f *Frame) {
	d.frame = f
	for _, w := range d.watch {
		if w.f != nil {
			w.f(f)
		}
	}
}

// rulesOf returns the rule set the scheme names. LoadScheme refuses unknown
// names when it is told the known ones, so the first set only serves schemes
// made in memory.
func (d *Desk) rulesOf(s *doc.Scheme) *check.Rules {
	for _, r := range d.rules {
		if r.Key == s.Rules {
			return r
		}
	}
	return d.rules[0]
}

// overrule marks the findings that the scheme records a decision on.
func overrule(fs []finding.Finding, decisions []doc.Decision) {
	for _, dec := range decisions {
		for i := range fs {
			if string(fs[i].Code) == dec.Code && fs[i].Subject.ID == string(dec.Subject) && fs[i].Level > finding.Note {
				fs[i].Overruled = &finding.Overrule{By: dec.By, On: dec.On, Reason: dec.Reason}
			}
		}
	}
}
