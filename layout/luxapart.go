package layout

import (
	"slices"
	"strings"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
)

// lightApart is the work on the rules of light in a worker.
type lightApart struct {
	run    func(take func() (work, done func())) // nil: they are worked out with the frame
	on     bool                                  // run was asked and is not done
	meter  luxMeter                              // of the worker
	of     *doc.Scheme                           // that list is about
	lights *Lights
	list   []finding.Finding // nothing overruled yet
}

// LightApart has the rules of light (codes LUX) worked out in a worker: the frame of
// an edit goes out with the findings of before (Frame.LightBehind), and a frame with
// those of the scheme follows. A gesture is followed so as well; on a scheme that
// Follow leaves to a worker light waits until the figures have caught up, which is
// when the hand rests. run is as for Follow. What comes in the end equals what a desk
// without a worker finds at once.
func (d *Desk) LightApart(run func(take func() (work, done func()))) {
	d.apart.run = run
	d.apart.keep(d.frame)
}

// inline returns what works out the rules of light with the frame, nil when a
// worker does.
func (d *Desk) inline() *luxMeter {
	if d.apart.run != nil {
		return nil
	}
	return &d.lux
}

// isLux reports whether a finding is one of light.
func isLux(f finding.Finding) bool { return strings.HasPrefix(string(f.Code), "LUX-") }

// keep takes the findings of light from a frame that has its own.
func (a *lightApart) keep(f *Frame) {
	if a.run == nil || f.LightBehind {
		return
	}
	a.of, a.lights, a.list = f.Scheme, f.Lights, nil
	for _, one := range f.Findings {
		if isLux(one) {
			one.Overruled = nil
			a.list = append(a.list, one)
		}
	}
}

// suits reports whether the list is that of a frame.
func (a *lightApart) suits(f *Frame) bool { return a.of == f.Scheme && a.lights == f.Lights }

// lightOf joins the findings of light that there are to a frame that was not
// handed out yet: its own, or those of before as far as what they are about still
// stands.
func (d *Desk) lightOf(f *Frame) *Frame {
	if d.apart.run == nil {
		return f
	}
	list := d.apart.list
	if f.LightBehind = !d.apart.suits(f); f.LightBehind {
		list = standing(f.Scheme, list)
	}
	f.refind(isLux, list)
	return f
}

// standing returns the findings whose subject the scheme still has.
func standing(s *doc.Scheme, list []finding.Finding) (out []finding.Finding) {
	gone := func(about finding.Subject) bool { return doc.KindOf(s, doc.ID(about.ID)) == doc.NoKind }
	for _, f := range list {
		if gone(f.Subject) {
			continue
		}
		f.Also = slices.DeleteFunc(slices.Clone(f.Also), gone)
		out = append(out, f)
	}
	return out
}

// large reports whether the figures of a scheme take too long to follow a gesture step
// by step.
func large(s *doc.Scheme) bool { return s.Lamps.Len()+s.Runs.Len() >= followFrom }

// Waits reports whether findings of the frame are those of before for longer than a
// moment: circuits that are Behind, or the light of a large scheme.
func (f *Frame) Waits() bool { return f.Behind || f.LightBehind && large(f.Scheme) }

// askLight has the findings of light of the present scheme worked out, unless its
// circuits are still behind or a worker is at it.
func (d *Desk) askLight() {
	a := &d.apart
	due := func() bool { return d.frame.LightBehind && !d.frame.Behind }
	if a.run == nil || a.on || !due() {
		return
	}
	a.on = true
	a.run(func() (work, done func()) {
		if !due() {
			a.on = false
			return nil, nil
		}
		f, rules := d.frame, d.rulesOf(d.frame.Scheme)
		var list []finding.Finding
		return func() { list = a.meter.findings(f, rules) }, func() { d.lit(f, list) }
	})
}

// lit hands out what a worker found of a frame, unless the scheme has changed.
func (d *Desk) lit(of *Frame, list []finding.Finding) {
	a := &d.apart
	a.on = false
	if d.frame.Scheme == of.Scheme && d.frame.Lights == of.Lights && !d.frame.Behind {
		a.of, a.lights, a.list = of.Scheme, of.Lights, list
		f := *d.frame
		f.Seq++
		d.hand(d.lightOf(&f))
	}
	d.askLight()
}
