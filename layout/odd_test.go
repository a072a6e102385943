package layout_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/output"
)

// odd draws operations that a careless caller could make: numbers that are
// none, places off the plan, ids of nothing, corners that are not there.
type odd struct {
	t *rapid.T
	s *doc.Scheme
	n int
}

func pick[T any](o *odd, values ...T) T {
	o.n++
	return values[rapid.IntRange(0, len(values)-1).Draw(o.t, fmt.Sprint(o.n))]
}

func (o *odd) number() float64 {
	return pick(o, 0, 1, 5, 0.5, -1, 230, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, 5e-324, math.Copysign(0, -1))
}

func (o *odd) length() geom.Length {
	return pick(o, 0, 1, geom.Metre, 3*geom.Metre, -geom.Metre, doc.Far, -doc.Far, doc.Far+1, math.MaxInt64, math.MinInt64)
}

func (o *odd) point() geom.Point { return geom.Point{X: o.length(), Y: o.length()} }

func (o *odd) index() int { return pick(o, 0, 1, 2, -1, math.MaxInt, math.MinInt) }

func (o *odd) text() string {
	return pick(o, "", "x", "L1", "\u202e", "a\nb", "\x1b[31m", "\xff", strings.Repeat("W", 3000))
}

func (o *odd) id() doc.ID {
	ids := []doc.ID{"", "nobody", "\xff"}
	doc.Each(o.s, func(e doc.Entity, _ doc.Kind) { ids = append(ids, e.Key()) })
	return pick(o, ids...)
}

func (o *odd) end() doc.End {
	e := doc.End{On: o.id(), At: o.point(), Side: pick(o, doc.AnySide, doc.Primary, doc.Secondary, doc.Side(9))}
	if pick(o, true, false) {
		e.Tail = q.Some(q.Metre(o.number()))
	}
	return e
}

func (o *odd) legs() (legs []doc.Leg) {
	for range pick(o, 0, 1, 2, 3) {
		legs = append(legs, doc.Leg{
			To: o.point(), Support: pick(o, network.Clipped, network.Buried, network.Indoors, network.Support(-1), network.Support(99)),
			Depth: o.length(), Height: o.length(), Method: pick(o, "", "C", "Z", "\n"), Group: o.index(),
		})
	}
	return legs
}

func (o *odd) ohm() q.Maybe[q.Ohm] {
	return q.Maybe[q.Ohm]{Value: q.Ohm(o.number()), Known: pick(o, true, false)}
}
func (o *odd) amp() q.Maybe[q.Ampere] {
	return q.Maybe[q.Ampere]{Value: q.Ampere(o.number()), Known: pick(o, true, false)}
}
func (o *odd) kelvin() q.Maybe[q.Kelvin] {
	return q.Maybe[q.Kelvin]{Value: q.Kelvin(o.number()), Known: pick(o, true, false)}
}

func (o *odd) entity() edit.Operation {
	id, place := pick(o, doc.ID("new"), o.id()), doc.Place{At: o.point(), Height: o.length()}
	switch pick(o, 0, 1, 2, 3, 4, 5, 6) {
	case 0:
		return edit.Place{Entity: pick[doc.Entity](o, nil, (*doc.Lamp)(nil), &doc.Zone{ID: id}, &doc.Lamp{ID: id, Place: place, Stock: pick(o, "brick-3w", "spike-5w-12", "none", "")})}
	case 1:
		return edit.Place{Entity: &doc.Source{ID: id, Place: place, Stock: pick(o, "src-12dc-60", "src-12ac-60", "none")}}
	case 2:
		return edit.SetSupply{Supply: &doc.Supply{ID: o.id(), Place: place, Nominal: q.Volt(o.number()), Earthing: network.Earthing(o.index()),
			Ze: o.ohm(), Electrode: o.ohm(), MeasuredZs: o.ohm(), FaultCurrent: o.amp(), ExistingLoad: o.amp(), Leakage: o.amp(),
			Upstream: pick(o, "", "b32", "none"), Fuse: pick(o, "", "fuse-3", "none"), Spur: pick(o, true, false)}}
	case 3:
		return edit.AddRun{Run: pick(o, nil, &doc.Run{ID: id, Cable: pick(o, "", "swa-3x1.5", "elv-2x2.5", "none"), From: o.end(), To: o.end(), Legs: o.legs(), Slack: q.Metre(o.number())})}
	case 4:
		return edit.AddArea{Area: &doc.Area{ID: id, Tag: o.text(), Kind: pick(o, "lawn", ""), Ring: []geom.Point{o.point(), o.point(), o.point()}}}
	case 5:
		return edit.AddZone{Zone: pick(o, nil, &doc.Zone{ID: id, Name: o.text(), Number: o.index()})}
	}
	return edit.SetLamp{Lamp: pick(o, nil, &doc.Lamp{ID: o.id(), Tag: o.text(), Place: place, Stock: "brick-3w", Aim: o.number(), Zone: o.id()})}
}

func (o *odd) operation() edit.Operation {
	switch pick(o, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11) {
	case 0:
		return edit.MovePoints{IDs: []doc.ID{o.id(), o.id()}, By: o.point()}
	case 1:
		return edit.MoveVertex{ID: o.id(), Index: o.index(), To: o.point()}
	case 2:
		return edit.InsertVertex{ID: o.id(), Index: o.index(), At: o.point()}
	case 3:
		return edit.DeleteVertex{ID: o.id(), Index: o.index()}
	case 4:
		return edit.Delete{IDs: []doc.ID{o.id()}}
	case 5:
		return edit.SetEnd{Run: o.id(), From: pick(o, true, false), End: o.end()}
	case 6:
		return edit.SetSurvey{Survey: doc.Survey{Air: o.kelvin(), Ground: o.kelvin(), Conductor: o.kelvin(), Test: o.kelvin(),
			Soil: q.Maybe[q.KelvinMetrePerWatt]{Value: q.KelvinMetrePerWatt(o.number()), Known: true}, Waste: q.Some(doc.Ratio(o.number()))}}
	case 7:
		return edit.SetPlan{Plan: doc.Plan{Scale: o.index(), Grid: o.length(), North: q.Some(o.number())}}
	case 8:
		return edit.SetLegSupport{Run: o.id(), Legs: pick(o, nil, []int{}, []int{o.index()}), Support: network.Support(o.index()), Depth: o.length(), Height: o.length()}
	case 9:
		return edit.Overrule{Decision: doc.Decision{Code: o.text(), Subject: o.id(), By: o.text(), On: o.text(), Reason: o.text()}}
	case 10:
		return edit.Batch{Label: o.text(), Ops: []edit.Operation{o.entity(), edit.SetTitle{Title: o.text(), Author: o.text()}}}
	}
	return o.entity()
}

// TestOddOperations drives the desk with operations that no hand would make.
// Each is done or refused with a reason, nothing panics, and whatever stands
// afterwards can be reported, drawn and saved, without a figure that is none.
func TestOddOperations(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	first, err := file.LoadScheme("../assets/examples/townhouse.yaml", stock)
	if err != nil {
		t.Fatal(err)
	}
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		d := layout.NewDesk(stock, rules, first, "")
		o := &odd{t: t}
		for range rapid.IntRange(1, 15).Draw(t, "steps") {
			o.s = d.Frame().Scheme
			op := o.operation()
			err := pick(o, d.Preview, d.Commit)(op)
			var refused *edit.Refused
			if err != nil && (!errors.As(err, &refused) || refused.Reason == "" || len(refused.Reason) > 1000) {
				t.Fatalf("%T: refused with %v", op, err)
			}
			if err == nil {
				done++
			}
			pick(o, func() {}, d.Cancel, func() { d.Undo() }, func() { d.Redo() }, func() { d.Explain(o.id()) })()
		}
		fit(t, d)
	})
	if done == 0 {
		t.Error("every operation was refused")
	}
}

// fit fails when the frame cannot be reported, drawn or saved.
func fit(t *rapid.T, d *layout.Desk) {
	f := d.Frame()
	set := output.RulesOf(d.Rules(), f.Scheme)
	for _, r := range []interface{ Text(io.Writer) error }{output.FindingsOf(f, set), output.ReadingsOf(f, set), output.LengthsOf(f, set)} {
		data, err := json.Marshal(r)
		if err != nil {
			t.Fatalf("%T: %v", r, err)
		}
		var text strings.Builder
		if err := r.Text(&text); err != nil {
			t.Fatal(err)
		}
		for _, bad := range []string{"NaN", "Inf", "%!"} {
			if all := text.String() + string(data); strings.Contains(all, bad) {
				at := strings.Index(all, bad)
				t.Fatalf("%T has %s: %s", r, bad, all[max(0, at-200):min(len(all), at+40)])
			}
		}
	}
	var svg strings.Builder
	if err := output.PictureOf(&svg, "svg", f, "", ""); err == nil && (strings.Contains(svg.String(), "NaN") || strings.Contains(svg.String(), "Inf ")) {
		t.Fatal("the picture has a place that is none")
	}
	if doc.CheckStock(f.Scheme, *f.Stock) != nil {
		return // an operation does not look up stock keys, the file does
	}
	data, err := file.WriteScheme(f.Scheme)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := file.ReadScheme("odd.yaml", data, *f.Stock); err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
}
