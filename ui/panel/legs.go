package panel

import (
	"strconv"

	"fyne.io/fyne/v2/container"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// legsRow is the table of the legs of a run: how each is carried and how deep
// or high it lies. Forms of legs are kept and reused.
type legsRow struct {
	line
	on      *subject
	run     func() *doc.Run
	set     func(func(*doc.Run)) edit.Operation
	legs    []*form
	details *tick
}

func newLegsRow(on *subject, run func() *doc.Run, set func(func(*doc.Run)) edit.Operation) *legsRow {
	r := &legsRow{on: on, run: run, set: set}
	r.details = newTick("Method, grouping, tape, sleeve and hole", func(bool) { r.show() })
	r.box = container.NewVBox(heading("Legs"), r.details.object())
	return r
}

func (r *legsRow) show()  { r.each((*form).show) }
func (r *legsRow) reset() { r.each((*form).reset) }

func (r *legsRow) flush() {
	for i := range r.legs {
		if i < len(r.run().Legs) {
			r.legs[i].flush()
		}
	}
}

func (r *legsRow) each(do func(*form)) {
	n := len(r.run().Legs)
	for len(r.legs) < n {
		f := r.newLeg(len(r.legs))
		r.legs = append(r.legs, f)
		last := len(r.box.Objects) - 1
		r.box.Objects = append(r.box.Objects[:last:last], f.box, r.box.Objects[last])
	}
	for i, f := range r.legs {
		if i < n {
			f.box.Show()
			do(f)
		} else {
			f.box.Hide()
		}
	}
}

// newLeg makes the rows of leg i.
func (r *legsRow) newLeg(i int) *form {
	f := newForm(r.on)
	leg := func() doc.Leg {
		if legs := r.run().Legs; i < len(legs) {
			return legs[i]
		}
		return doc.Leg{}
	}
	change := func(do func(*doc.Leg)) edit.Operation {
		return r.set(func(e *doc.Run) {
			e.Legs = append([]doc.Leg(nil), e.Legs...)
			do(&e.Legs[i])
		})
	}
	deep := func() bool { return underground(leg().Support) }
	f.choice("Leg "+strconv.Itoa(i+1), supportOptions, func() string { return supportKey(leg().Support) },
		func(v string) edit.Operation {
			return change(func(l *doc.Leg) {
				l.Support = supportByKey(v)
				if underground(l.Support) && l.Depth == 0 {
					l.Depth = usualDepth
				}
			})
		})
	f.length("   depth", func() geom.Length { return leg().Depth }, func(v geom.Length) edit.Operation {
		return change(func(l *doc.Leg) { l.Depth = v })
	}).when = deep
	f.length("   height", func() geom.Length { return leg().Height }, func(v geom.Length) edit.Operation {
		return change(func(l *doc.Leg) { l.Height = v })
	}).when = func() bool { return !deep() }
	detail := func() bool { return r.details.Checked }
	f.choice("   method", func() []option { return methodOptions(r.on.frame.Stock, r.run().Cable) },
		func() string { return leg().Method },
		func(v string) edit.Operation { return change(func(l *doc.Leg) { l.Method = v }) }).when = detail
	f.number("   circuits touching", "", func() string { return strconv.Itoa(max(leg().Group, 1)) }, func(s string) error {
		n, err := parseCount(s)
		if err != nil {
			return err
		}
		return r.on.desk.Commit(change(func(l *doc.Leg) { l.Group = n }))
	}).when = detail
	legFittings(f, leg, change, detail)
	return f
}

// legFittings adds what protects a leg: tape above it, a sleeve about it, and
// how the hole falls where it passes a wall.
func legFittings(f *form, leg func() doc.Leg, change func(func(*doc.Leg)) edit.Operation, detail func() bool) {
	deep := func() bool { return underground(leg().Support) }
	f.check("   marker tape or covers above", func() bool { return !leg().NoTape }, func(on bool) edit.Operation {
		return change(func(l *doc.Leg) { l.NoTape = !on })
	}).when = func() bool { return detail() && deep() }
	f.check("   in a sleeve of its own", func() bool { return leg().Sleeve }, func(on bool) edit.Operation {
		return change(func(l *doc.Leg) { l.Sleeve = on })
	}).when = func() bool { return detail() && leg().Support != network.InDuct }
	f.choice("   hole through a wall", holeOptions, func() string { return leg().Hole }, func(v string) edit.Operation {
		return change(func(l *doc.Leg) { l.Hole = v })
	}).when = func() bool { return detail() && leg().Support != network.Buried }
}

// usualDepth is given to a leg that goes underground without a depth: 600 mm,
// common practice where a bed may be dug.
const usualDepth = 600 * geom.Millimetre
