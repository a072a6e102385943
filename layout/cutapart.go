package layout

import (
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/finding"
)

// apartPieces is how many pieces of one cable a desk with a worker plans with the
// frame. The search for the best plan of more takes from tens of milliseconds to
// seconds (BenchmarkWorstPlan).
const apartPieces = 10

// cutApart is the work on long drum plans in a worker.
type cutApart struct {
	run func(take func() (work, done func())) // nil: they are worked out with the frame
	on  bool                                  // run was asked and is not done
}

// CutApart has the drum plans of long cut lists worked out in a worker: a frame
// goes out with the plans of before (Frame.DrumsBehind), with an empty one where
// there is none, and once an edit is committed a frame with those of its cut list
// follows. run is as for Follow. What comes in the end equals what a desk without
// a worker plans at once.
func (d *Desk) CutApart(run func(take func() (work, done func()))) {
	d.cuts.run = run
	d.planner.apart = run != nil
}

// drumFindings returns what is found of the plans of a frame; of plans of before,
// as far as what it is about still stands.
func drumFindings(f *Frame, rules *check.Rules) []finding.Finding {
	list := drums(f.Drums, rules)
	if f.DrumsBehind {
		return standing(f.Scheme, list)
	}
	return list
}

// withDrums returns a frame with other plans, those of its own cut list.
func (f *Frame) withDrums(plans []CablePlan, rules *check.Rules) *Frame {
	next := *f
	next.Drums, next.DrumsBehind = plans, false
	next.refind(func(one finding.Finding) bool { return one.Code == check.DrumRule.Code }, drumFindings(&next, rules))
	return &next
}

// refind puts findings in the place of those of one kind. The frame was not
// handed out yet.
func (f *Frame) refind(old func(finding.Finding) bool, list []finding.Finding) {
	out := append(slices.DeleteFunc(slices.Clone(f.Findings), old), list...)
	overrule(out, f.Scheme.Decisions)
	finding.Sort(out)
	f.Findings = out
	f.Totals = totals(f)
}

// replan plans the cut list of a frame; cables whose input is that of p keep
// their plan. p is left as it is.
func (p planner) replan(f *Frame, rules *check.Rules) ([]CablePlan, planner) {
	apart := p.apart
	p.apart = false
	plans := p.plans(f.Circuits.Lengths, f.Scheme.Prices, rules.Limits.SpareOnDrum.Value, false)
	p.apart = apart
	return plans, p
}

// askDrums has the cut list of the present scheme planned, unless a gesture is on
// or a worker is at it.
func (d *Desk) askDrums() {
	c := &d.cuts
	due := func() bool { return d.frame.DrumsBehind && !d.frame.Preview && !d.frame.Behind }
	if c.run == nil || c.on || !due() {
		return
	}
	c.on = true
	c.run(func() (work, done func()) {
		if !due() {
			c.on = false
			return nil, nil
		}
		f, p, rules := d.frame, d.planner, d.rulesOf(d.frame.Scheme)
		var plans []CablePlan
		return func() { plans, p = p.replan(f, rules) }, func() { d.planned(f, plans, p) }
	})
}

// planned hands out what a worker planned of a frame, unless the scheme has
// changed.
func (d *Desk) planned(of *Frame, plans []CablePlan, p planner) {
	d.cuts.on = false
	if d.frame.Circuits == of.Circuits && d.frame.Scheme == of.Scheme && d.frame.DrumsBehind && !d.frame.Preview {
		d.planner = p
		f := d.frame.withDrums(plans, d.rulesOf(of.Scheme))
		f.Seq++
		d.hand(f)
	}
	d.askDrums()
}

// Whole returns a function that returns a frame of the desk with all that a worker
// had yet to work out of its scheme, for papers, which are made from nothing of
// before. The function may run in a worker.
func (d *Desk) Whole(f *Frame) func() *Frame {
	p, rules := d.planner, d.rulesOf(f.Scheme)
	if f.Behind && !f.Preview {
		return d.wholeLate(f)
	}
	return func() *Frame {
		if f.Behind {
			return f // of a gesture
		}
		out := f
		if f.DrumsBehind {
			plans, _ := p.replan(f, rules)
			out = out.withDrums(plans, rules)
		}
		if f.LightBehind {
			next := *out
			next.LightBehind = false
			next.refind(isLux, new(luxMeter).findings(&next, rules))
			out = &next
		}
		return out
	}
}
