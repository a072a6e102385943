package panel

import (
	"duskwire/calc"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// runForm is the properties of a cable run.
func runForm(on *subject) *form {
	f := newForm(on)
	run := func() *doc.Run { e, _ := on.scheme().Runs.Get(on.id); return e }
	set := func(change func(*doc.Run)) edit.Operation {
		e := *run()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return run().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Run) { e.Tag = v }) })
	f.stock("Cable", func() []option { return cableOptions(on.frame.Stock) }, func() string { return run().Cable },
		func(v string) edit.Operation { return set(func(e *doc.Run) { e.Cable = v }) })
	runFigures(f)
	roomRows(f)
	f.add(newLegsRow(on, run, set))
	endRows(f, run, set)
	lengthRows(f, run, set)
	return f
}

// length returns the measured length of the subject.
func (s *subject) length() (derive.Length, bool) {
	for _, l := range s.frame.Circuits.Lengths {
		if l.Run == s.id {
			return l, true
		}
	}
	return derive.Length{}, false
}

// result returns what the calculation says of the run.
func (s *subject) result() (calc.Run, bool) {
	for _, r := range s.frame.Results {
		for i := range r.Runs {
			if r.Runs[i].ID == string(s.id) {
				return r.Runs[i], true
			}
		}
	}
	return calc.Run{}, false
}

func runFigures(f *form) {
	on := f.on
	have := func() bool { _, ok := on.result(); return ok }
	f.figure("Joins", func() string { l, _ := on.length(); return l.From + " → " + l.To })
	f.figure("Current", func() string { r, _ := on.result(); return r.Current.String() }).why(func() Tip {
		r, _ := on.result()
		return whyCurrent(on, r)
	}).when = have
	f.figure("Capacity", func() string {
		r, _ := on.result()
		if !r.Capacity.Known {
			return "not known: " + r.Capacity.Missing
		}
		return r.Capacity.Iz.String() + ", method " + r.Capacity.Method
	}).why(func() Tip {
		r, _ := on.result()
		return whyCapacity(on, r)
	}).when = have
	f.figure("Smallest that passes", func() string {
		r, _ := on.result()
		p := r.Proposal
		text := "no size of this family"
		if p.Cable != nil {
			text = p.Cable.Name
		}
		if p.Why != "" {
			text += "\n" + capital(p.Why)
		}
		return text
	}).when = func() bool {
		r, ok := on.result()
		return ok && (r.Proposal.Cable != nil || r.Proposal.Why != "")
	}
	f.hint("Joined to no supply point, so there is no current to compute yet.").when = func() bool { return !have() }
}

func lengthRows(f *form, run func() *doc.Run, set func(func(*doc.Run)) edit.Operation) {
	on := f.on
	part := func(name string, read func(derive.Length) q.Metre) {
		f.figure(name, func() string { l, _ := on.length(); return read(l).String() }).why(func() Tip {
			l, _ := on.length()
			return lengthTip(l)
		})
	}
	f.fold(func() string {
		l, _ := on.length()
		return "Length: needed " + l.Needed.String() + ", cut " + l.Cut.String()
	}, func() {
		part("On the plan", func(l derive.Length) q.Metre { return l.Plan })
		part("Rises and drops", func(l derive.Length) q.Metre { return l.Rises })
		part("Tails", func(l derive.Length) q.Metre { return l.Tails })
		part("Slack", func(l derive.Length) q.Metre { return l.Slack })
		f.figure("Cutting waste", func() string { l, _ := on.length(); return q.Percent(l.Waste) })
		part("Needed", func(l derive.Length) q.Metre { return l.Needed })
		part("Cut", func(l derive.Length) q.Metre { return l.Cut })
	})
	f.fold(named("Allowances, as cut, shared cable"), func() { allowanceRows(f, run, set) })
}

// allowanceRows adds what replaces the rules of thumb of the length.
func allowanceRows(f *form, run func() *doc.Run, set func(func(*doc.Run)) edit.Operation) {
	on := f.on
	tail := func(name string, end func(*doc.Run) *doc.End) {
		maybe(f, name, "m", q.ParseMetre, func() q.Maybe[q.Metre] { return end(run()).Tail },
			func(v q.Maybe[q.Metre]) edit.Operation {
				return set(func(e *doc.Run) { end(e).Tail = v })
			})
	}
	tail("Tail at start", func(r *doc.Run) *doc.End { return &r.From })
	tail("Tail at end", func(r *doc.Run) *doc.End { return &r.To })
	f.number("Extra slack", "m", func() string { return run().Slack.String() }, func(s string) error {
		v, err := q.ParseMetre(s)
		if err != nil {
			return err
		}
		return on.desk.Commit(set(func(e *doc.Run) { e.Slack = v }))
	})
	f.percent("Waste of this run", "of the cable, in %", func() q.Maybe[doc.Ratio] { return run().Waste },
		func(v q.Maybe[doc.Ratio]) edit.Operation { return set(func(e *doc.Run) { e.Waste = v }) })
	maybe(f, "As cut", "m", q.ParseMetre, func() q.Maybe[q.Metre] { return run().Cut },
		func(v q.Maybe[q.Metre]) edit.Operation { return set(func(e *doc.Run) { e.Cut = v }) })
	f.choice("Cores in the cable of", func() []option { return sheathOptions(on.scheme(), on.id) }, func() string { return string(run().With) },
		func(v string) edit.Operation { return set(func(e *doc.Run) { e.With = doc.ID(v) }) }).when = func() bool { return on.scheme().Runs.Len() > 1 }
}
