package layout

import (
	"math"
	"strconv"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// span writes a short length.
func span(l geom.Length) string {
	if l < geom.Metre {
		return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64) + " mm"
	}
	return q.Metre(l.Metres()).String()
}

func number(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// runs names the runs of the finding.
func (b *bench) runs() string {
	ids := b.named(doc.RunKind)
	if len(ids) == 0 {
		return b.fd.Subject.Label
	}
	out := doc.TagOf(b.frame.Scheme, ids[0])
	if len(ids) > 1 {
		out += " and the others named"
	}
	return out
}

// depths that are dug to.
var depths = []geom.Length{300, 450, 500, 600, 750, 900, 1050, 1200}

func dug(l *doc.Leg) bool {
	return l.Support == network.Buried || l.Support == network.InDuct && l.Depth > 0
}

// deeper lays the legs that lie in the ground named deeper, step by step.
func (b *bench) deeper() {
	for _, d := range depths {
		d *= geom.Millimetre
		ops := b.eachLeg(func(r *doc.Run, i int) bool {
			l := &r.Legs[i]
			if !dug(l) || l.Depth <= 0 || l.Depth >= d || !b.liesIn(r, i) {
				return false
			}
			l.Depth = d
			return true
		})
		if len(ops) == 0 {
			continue
		}
		text := "lay " + b.runs() + " " + span(d) + " deep there"
		c, clear := b.try(orderMove, text, edit.Batch{Label: capital(text), Ops: ops})
		if c.Holds {
			b.keep(c)
		}
		if clear {
			return
		}
	}
}

// liesIn reports whether a leg lies in a piece of ground that the finding names;
// true when it names none.
func (b *bench) liesIn(r *doc.Run, leg int) bool {
	areas := b.named(doc.AreaKind)
	br, ok := b.circuit.Branch[r.ID]
	if len(areas) == 0 || !ok || b.net.Branches[br].Route == nil {
		return true
	}
	for _, st := range b.net.Branches[br].Route.Stretches {
		if st.Leg == leg {
			for _, id := range areas {
				if doc.ID(st.Area.ID) == id {
					return true
				}
			}
		}
	}
	return false
}

// harder puts an unarmoured cable in the ground into a duct, or takes an
// armoured one of the same size.
func (b *bench) harder() {
	b.pick(orderMove, 1, step("lay "+b.runs()+" in a duct", b.eachLeg(func(r *doc.Run, i int) bool {
		l := &r.Legs[i]
		if l.Support != network.Buried {
			return false
		}
		l.Support, l.Method = network.InDuct, ""
		return true
	})...))
	var options []option
	for _, id := range b.named(doc.RunKind) {
		r, _ := b.frame.Scheme.Runs.Get(id)
		now, ok := b.frame.Stock.Cable(r.Cable)
		if !ok {
			continue
		}
		for _, cb := range b.suiting(true, r.Legs, now.Size) {
			if cb.ArmourArea > 0 && cb.Size == now.Size {
				options = append(options, option{"use " + cb.Name + " for " + b.runs(), edit.SetCable{Runs: b.named(doc.RunKind), Cable: cb.Key}})
			}
		}
		break
	}
	b.pick(orderRun, 1, options...)
}

// taped lays marker tape above the legs in the ground.
func (b *bench) taped() {
	b.pick(orderMove, 1, step("lay marker tape above "+b.runs(), b.eachLeg(func(r *doc.Run, i int) bool {
		changed := r.Legs[i].NoTape
		r.Legs[i].NoTape = false
		return changed
	})...))
}

// sleeved puts the legs that lie there into a sleeve.
func (b *bench) sleeved() {
	b.pick(orderMove, 1, step("put "+b.runs()+" into a sleeve there", b.eachLeg(func(r *doc.Run, i int) bool {
		l := &r.Legs[i]
		if l.Sleeve || (b.fd.Code == "DIG-05") != dug(l) {
			return false
		}
		l.Sleeve = true
		return true
	})...))
}

// drilled lets every hole that falls inwards fall outwards.
func (b *bench) drilled() {
	b.pick(orderMove, 1, step("let the hole of "+b.runs()+" fall to the outside", b.eachLeg(func(r *doc.Run, i int) bool {
		changed := r.Legs[i].Hole == "in"
		if changed {
			r.Legs[i].Hole = "out"
		}
		return changed
	})...))
}

// offFence takes the legs that are fixed to what the finding names into the
// ground, with the cable as it is or in a duct.
func (b *bench) offFence() {
	deep := geom.Metres(b.rules.Site.DepthAdvised.Value)
	for _, way := range []struct {
		how     string
		support network.Support
	}{{"", network.Buried}, {" in a duct", network.InDuct}} {
		b.pick(orderMove, 1, step("take "+b.runs()+" down into the ground there, "+span(deep)+" deep"+way.how, b.eachLeg(func(r *doc.Run, i int) bool {
			l := &r.Legs[i]
			if !b.beside(r, i) {
				return false
			}
			l.Support, l.Depth, l.Height, l.Method = way.support, deep, 0, ""
			return true
		})...))
	}
}

// beside reports whether a leg runs along something that the finding names.
func (b *bench) beside(r *doc.Run, leg int) bool {
	br, ok := b.circuit.Branch[r.ID]
	if !ok || b.net.Branches[br].Route == nil {
		return false
	}
	for _, x := range b.net.Branches[br].Route.Beside {
		if x.Leg == leg && (x.Kind == network.BesideFence || x.Kind == network.BesideWall) && b.set[x.Subject.ID] {
			return true
		}
	}
	return false
}

// roundTree leads the legs that come too near a trunk round it.
func (b *bench) roundTree() {
	trees := b.named(doc.MarkKind)
	clear := geom.Metres(b.rules.Site.RootClear.Value)
	for _, side := range []float64{1, -1} {
		ops := b.eachRun(func(r *doc.Run) bool { return b.led(r, trees, clear, side) })
		how := map[float64]string{1: "", -1: " on its other side"}[side]
		b.pick(orderMove, 1, step("lead "+b.runs()+" round the tree"+how+", "+span(clear)+" clear of its bark", ops...))
	}
}

// led puts a corner into every dug leg of a run that passes a trunk too near.
func (b *bench) led(r *doc.Run, trees []doc.ID, clear geom.Length, side float64) bool {
	path := doc.RunPath(b.frame.Scheme, r)
	any := false
	for i := len(r.Legs) - 1; i >= 0; i-- {
		for _, id := range trees {
			m, _ := b.frame.Scheme.Marks.Get(id)
			need := m.Radius + clear
			if _, d := geom.Nearest(m.Place.At, path[i], path[i+1]); !dug(&r.Legs[i]) || d >= need {
				continue
			}
			p, ok := aside(path[i], path[i+1], m.Place.At, need, side)
			if !ok {
				continue
			}
			half := r.Legs[i]
			half.To = p
			r.Legs = append(r.Legs[:i:i], append([]doc.Leg{half}, r.Legs[i:]...)...)
			any = true
			break
		}
	}
	return any
}

// aside returns the corner nearest to a straight leg by way of which it keeps a
// distance from c; ok is false when one of its ends lies within that.
func aside(a, z, c geom.Point, need geom.Length, side float64) (geom.Point, bool) {
	foot, d := geom.Nearest(c, a, z)
	dx, dy := float64(foot.X-c.X), float64(foot.Y-c.Y)
	if d < geom.Millimetre { // the leg passes through: to the left of it
		dx, dy = float64(a.Y-z.Y), float64(z.X-a.X)
	}
	n := math.Hypot(dx, dy)
	if n == 0 || geom.Distance(a, c) < need || geom.Distance(z, c) < need {
		return geom.Point{}, false
	}
	for out := float64(need) + 10*float64(geom.Millimetre); out < 20*float64(need); out *= 1.1 {
		p := geom.Point{X: c.X + geom.Length(side*dx/n*out), Y: c.Y + geom.Length(side*dy/n*out)}
		_, near := geom.Nearest(c, a, p)
		_, far := geom.Nearest(c, p, z)
		if min(near, far) >= need {
			return p, true
		}
	}
	return geom.Point{}, false
}

// pondLamp tries a lamp made for ponds, a separated source, and the bank.
func (b *bench) pondLamp() {
	ids := b.named(doc.LampKind)
	if len(ids) == 0 {
		return
	}
	sys, fed := b.systemAt(doc.End{On: ids[0]})
	least := byte('0' + int(b.rules.Site.WaterIP.Value)%10)
	if fed {
		b.pick(orderDevice, 2, b.otherLamps(ids, func(item doc.LampStock) bool {
			return fitsLamp(item, sys) && len(item.IP) == 4 && item.IP[3] >= least && item.IP[3] <= '9'
		})...)
	}
	var ops []edit.Operation
	for _, id := range ids {
		if by, ok := b.ashore(id); ok {
			ops = append(ops, shift(id, by))
		}
	}
	text := "move " + doc.TagOf(b.frame.Scheme, ids[0])
	if len(ids) > 1 {
		text += " and the others named"
	}
	b.pick(orderMove, 1, step(text+" out of the water", ops...))
}

// ashore is the shortest way of a lamp out of the water it stands in, and a
// little further.
func (b *bench) ashore(id doc.ID) (by geom.Point, ok bool) {
	const clear = 0.3 // m
	p, _ := doc.PointOf(b.frame.Scheme, id)
	for _, area := range b.frame.Scheme.Areas.All() {
		if area.Kind != "water" || !geom.Inside(p.At, area.Ring) {
			continue
		}
		best := geom.Length(math.MaxInt64)
		geom.Edges(area.Ring, true, func(c, d geom.Point) {
			at, far := geom.Nearest(p.At, c, d)
			if far >= best || far == 0 {
				return
			}
			best = far
			more := 1 + clear*float64(geom.Metre)/float64(far)
			by = geom.Point{X: geom.Length(more * float64(at.X-p.At.X)), Y: geom.Length(more * float64(at.Y-p.At.Y))}
			ok = true
		})
	}
	return by, ok
}
