package layout

import (
	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// followFrom is how many lamps and runs a scheme has from which its previews are
// evaluated in a worker. A smaller one takes a millisecond or two, and its figures
// are then those of the very move.
const followFrom = 250

// working is one frame in the making with all that it is made from, taken from
// the desk so that it may be worked out in a worker.
type working struct {
	frame   *Frame // without circuits, results and what follows from them
	rules   *check.Rules
	prev    *derive.Circuits // of the frame before
	memo    map[*network.Net]*calc.Worked
	planner planner
	lux     *luxMeter // nil: the rules of light are left to LightApart
}

// working begins the frame of the present scheme.
func (d *Desk) working() *working {
	s := d.store.Current()
	if d.preview != nil {
		s = d.preview
	}
	w := &working{rules: d.rulesOf(s), memo: d.memo, planner: d.planner, lux: d.inline()}
	var seq uint64
	if d.frame != nil {
		w.prev, seq = d.frame.Circuits, d.frame.Seq
	}
	lights := d.lights.of(s)
	w.frame = &Frame{
		Seq: seq + 1, Scheme: s, Stock: d.stock.over(d.shipped, s, lights), Preview: d.preview != nil, Path: d.path,
		Unsaved: d.store.Unsaved(), Undo: d.store.UndoName(), Redo: d.store.RedoName(),
		Under: d.underOf(s), Lights: lights, of: s,
	}
	return w
}

// do derives and evaluates; a circuit taken over from the frame before keeps its
// result.
func (w *working) do() {
	f := w.frame
	f.Circuits = derive.Scheme(f.Scheme, f.Stock, w.rules, w.prev)
	beside(len(f.Circuits.Lengths), func() {
		f.Drums = w.planner.plans(f.Circuits.Lengths, f.Scheme.Prices, w.rules.Limits.SpareOnDrum.Value, f.Preview)
		f.DrumsBehind = w.planner.behind
	}, func() { f.worked = w.evaluate(f.Circuits.Circuits) })
	w.memo = make(map[*network.Net]*calc.Worked, len(f.worked))
	for i, r := range f.worked {
		w.memo[f.Circuits.Circuits[i].Input.Net] = r
		f.Results = append(f.Results, r.Result)
		f.Findings = append(f.Findings, r.Result.Findings...)
	}
	f.Findings = append(f.Findings, calc.Evaluate(f.Circuits.Loose).Findings...)
	f.Findings = append(f.Findings, drumFindings(f, w.rules)...)
	f.Findings = append(f.Findings, whites(f.Circuits.Circuits, w.rules)...)
	f.Findings = append(f.Findings, underFindings(f.Scheme.Plan, f.Under)...)
	f.Findings = append(f.Findings, lightFindings(f)...)
	f.Findings = append(f.Findings, lightNotes(f)...)
	f.Findings = append(f.Findings, measured(f, w.rules)...)
	if w.lux != nil {
		f.Findings = append(f.Findings, w.lux.findings(f, w.rules)...)
	}
	overrule(f.Findings, f.Scheme.Decisions)
	finding.Sort(f.Findings)
	f.Totals = totals(f)
}

// evaluate evaluates every circuit, side by side when they are many.
func (w *working) evaluate(circuits []derive.Circuit) []*calc.Worked {
	out := make([]*calc.Worked, len(circuits))
	each(circuits, func(i int) {
		if out[i] = w.memo[circuits[i].Input.Net]; out[i] == nil {
			out[i] = calc.Work(circuits[i].Input)
		}
	})
	return out
}

// take keeps what the next frame is worked out faster with. The circuits of the
// frame that is handed out must be those of w.
func (d *Desk) take(w *working) { d.memo, d.planner = w.memo, w.planner }

// following is the evaluation of previews, and of large edits, in a worker.
type following struct {
	run   func(take func() (work, done func())) // nil: previews are evaluated at once
	on    bool                                  // run was asked and is not done
	edits func(take func() (work, done func())) // see FollowEdits; nil: edits are evaluated at once
}

// Follow has the previews of a large scheme evaluated in a worker: the frame of
// a move then goes out at once with the new scheme and the figures of an earlier
// move (Frame.Behind), and what the worker found follows. run is called where
// the desk is used. When it likes it calls take there, does the work that take
// returns anywhere, and calls done where the desk is used; work is nil when there
// is nothing to do any more. Frames of committed schemes are whole, unless
// FollowEdits is called too.
func (d *Desk) Follow(run func(take func() (work, done func()))) { d.follow.run = run }

// show publishes a preview.
func (d *Desk) show() {
	if d.follow.run == nil || !large(d.preview) {
		d.publish()
		return
	}
	d.lag()
}

// lag hands out the present scheme with the figures there are, and has its own found.
func (d *Desk) lag() {
	f := d.behind(d.frame)
	f.stand()
	d.hand(f)
	if d.frame.Behind { // a watcher may have ended it
		d.catchUp()
	}
}

// behind returns the frame of the present scheme with the figures of another.
func (d *Desk) behind(of *Frame) *Frame {
	now, f := d.working().frame, *of
	f.Seq, f.Scheme, f.Stock, f.Preview, f.Behind = now.Seq, now.Scheme, now.Stock, now.Preview, true
	f.Unsaved, f.Undo, f.Redo, f.Path, f.Under, f.Lights = now.Unsaved, now.Undo, now.Redo, now.Path, now.Under, now.Lights
	return &f
}

// catchUp has the present scheme evaluated, after what is under way.
func (d *Desk) catchUp() {
	if d.follow.on {
		return
	}
	d.follow.on = true
	run := d.follow.run
	if !d.frame.Preview {
		run = d.follow.edits
	}
	run(func() (work, done func()) {
		if !d.frame.Behind {
			d.follow.on = false
			return nil, nil
		}
		w, before := d.working(), d.store.Current()
		if w.lux != nil {
			w.lux = new(luxMeter) // the desk goes on with its own
		}
		return w.do, func() { d.caughtUp(w, before) }
	})
}

// caughtUp hands out what a worker found, unless it is of a gesture that is over or
// the desk has found it meanwhile. before is the scheme that was committed then.
func (d *Desk) caughtUp(w *working, before *doc.Scheme) {
	d.follow.on = false
	if !d.frame.Behind {
		return
	}
	if w.frame.Preview && d.store.Current() != before || d.frame.Circuits != w.prev {
		d.catchUp() // another gesture, or a frame in between
		return
	}
	d.take(w)
	f := d.behind(w.frame)
	if f.Behind = f.Scheme != w.frame.Scheme || f.Under != w.frame.Under || f.Lights != w.frame.Lights; f.Behind {
		f.stand()
	}
	d.hand(d.lightOf(f))
	if d.frame.Behind { // a watcher may have ended it
		d.catchUp()
		return
	}
	d.askLight()
	d.askDrums()
}
