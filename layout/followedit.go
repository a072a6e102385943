package layout

import (
	"slices"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
)

// How much an edit changes from which it is evaluated in a worker, and how many
// lamps and runs a scheme has from which every edit is. With less it takes some
// hundredths of a second at most, and the figures are those of the edit at once.
const (
	followEdit = 100
	followEach = 5000
)

// FollowEdits has large edits, and undo and redo of them, evaluated in a worker as
// previews are, see Follow: the frame of the edit goes out at once with the new
// scheme and the figures of before (Frame.Behind), and a frame with its own
// follows, which equals what a desk without a worker finds at once. Edits go on
// meanwhile; Whole does not wait for the worker. run is as for Follow.
func (d *Desk) FollowEdits(run func(take func() (work, done func()))) { d.follow.edits = run }

// lags reports whether the committed scheme is to be evaluated in a worker.
func (d *Desk) lags() bool {
	if d.follow.edits == nil || d.frame == nil || d.preview != nil {
		return false
	}
	s, of := d.store.Current(), d.frame.of
	size := s.Lamps.Len() + s.Runs.Len()
	return s != of && size >= followFrom && (size >= followEach || changed(of, s) >= followEdit)
}

// changed tells how much has to be evaluated for another scheme: the number of
// things that differ, those of the ground ten times, because runs are laid anew
// about them; at least followEdit when it is all.
func changed(a, b *doc.Scheme) int {
	if a.Survey != b.Survey || a.Country != b.Country || a.Rules != b.Rules || !sameStock(a.Stock, b.Stock) {
		return followEdit
	}
	const ground = 10
	return differing(a.Supplies, b.Supplies) + differing(a.Boxes, b.Boxes) + differing(a.Lamps, b.Lamps) +
		differing(a.Gear, b.Gear) + differing(a.Sources, b.Sources) + differing(a.Runs, b.Runs) +
		ground*(differing(a.Areas, b.Areas)+differing(a.Lines, b.Lines)+differing(a.Marks, b.Marks))
}

// differing counts the entities of two sets that only one has, or that are not the
// same value in both.
func differing[E interface {
	comparable
	doc.Entity
}](a, b doc.Set[E]) int {
	was, now := a.All(), b.All()
	n, stay := 0, 0
	for i, e := range now {
		if i < len(was) && was[i] == e {
			stay++
			continue
		}
		if old, ok := a.Get(e.Key()); ok {
			stay++
			if old == e {
				continue
			}
		}
		n++
	}
	return n + len(was) - stay
}

// stand takes the findings out of a frame that is behind whose subject its scheme
// has no more. The frame was not handed out yet.
func (f *Frame) stand() {
	gone := func(about finding.Subject) bool {
		return about.ID != "" && doc.KindOf(f.Scheme, doc.ID(about.ID)) == doc.NoKind
	}
	if f.Preview || !slices.ContainsFunc(f.Findings, func(one finding.Finding) bool { return gone(one.Subject) }) {
		return
	}
	f.Findings = slices.DeleteFunc(slices.Clone(f.Findings), func(one finding.Finding) bool { return gone(one.Subject) })
	f.Totals = totals(f)
}

// wholeLate is Whole for the frame of a committed edit that is behind.
func (d *Desk) wholeLate(f *Frame) func() *Frame {
	next := *f
	next.Behind, next.LightBehind, next.DrumsBehind, next.of = false, false, false, f.Scheme
	next.Circuits, next.Results, next.Drums, next.Findings, next.worked = nil, nil, nil, nil, nil
	w := &working{frame: &next, rules: d.rulesOf(f.Scheme), prev: f.Circuits, memo: d.memo, planner: d.planner, lux: new(luxMeter)}
	w.planner.apart = false
	return func() *Frame {
		once := *w
		own := next
		once.frame, once.lux = &own, new(luxMeter)
		once.do()
		return once.frame
	}
}
