package edit_test

import (
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

var cables = []string{"", "swa-3x1.5", "elv-2x2.5"}

// book is a stock book with the keys that the random edits use.
func book() doc.Stock {
	return doc.Stock{
		Lamps:   []doc.LampStock{{Key: "pillar-10w"}, {Key: "brick-3w"}},
		Boxes:   []doc.BoxStock{{Key: "box-85"}},
		Sources: []doc.SourceStock{{Key: "src-12dc-60"}},
		Gear:    []doc.GearStock{{Key: "isolator-20"}},
		Devices: []doc.DeviceStock{{Key: "fuse-3"}},
		Cables:  []*network.Cable{{Key: cables[1]}, {Key: cables[2]}},
	}
}

// diff compares two schemes by value.
func diff(a, b *doc.Scheme) string {
	return cmp.Diff(a, b, cmpopts.EquateEmpty(), cmp.AllowUnexported(
		doc.Set[*doc.Supply]{}, doc.Set[*doc.Box]{}, doc.Set[*doc.Lamp]{}, doc.Set[*doc.Gear]{}, doc.Set[*doc.Source]{},
		doc.Set[*doc.Run]{}, doc.Set[*doc.Zone]{}, doc.Set[*doc.Area]{}, doc.Set[*doc.Line]{}, doc.Set[*doc.Mark]{},
		doc.Set[*doc.Dimension]{},
	))
}

// copied returns a scheme that shares no memory with s.
func copied(s *doc.Scheme) *doc.Scheme {
	c := *s
	c.Supplies = copies(s.Supplies, nil)
	c.Boxes = copies(s.Boxes, nil)
	c.Lamps = copies(s.Lamps, nil)
	c.Gear = copies(s.Gear, nil)
	c.Sources = copies(s.Sources, nil)
	c.Zones = copies(s.Zones, nil)
	c.Marks = copies(s.Marks, nil)
	c.Dimensions = copies(s.Dimensions, nil)
	c.Runs = copies(s.Runs, func(r *doc.Run) { r.Legs = append([]doc.Leg(nil), r.Legs...) })
	c.Areas = copies(s.Areas, func(a *doc.Area) { a.Ring = append([]geom.Point(nil), a.Ring...) })
	c.Lines = copies(s.Lines, func(l *doc.Line) { l.Path = append([]geom.Point(nil), l.Path...) })
	c.Decisions = append([]doc.Decision(nil), s.Decisions...)
	c.List.Items = append([]doc.ItemPrice(nil), s.List.Items...)
	c.Prices = append([]doc.Price(nil), s.Prices...)
	for i := range c.Prices {
		c.Prices[i].Coils = append([]doc.Coil(nil), c.Prices[i].Coils...)
		c.Prices[i].Left = append([]q.Metre(nil), c.Prices[i].Left...)
	}
	c.Visits = append([]doc.Visit(nil), s.Visits...)
	for i := range c.Visits {
		c.Visits[i].Readings = append([]doc.Reading(nil), c.Visits[i].Readings...)
	}
	return &c
}

func copies[T any, E interface {
	*T
	doc.Entity
}](s doc.Set[E], deep func(E)) doc.Set[E] {
	var out []E
	for _, e := range s.All() {
		c := *e
		if deep != nil {
			deep(&c)
		}
		out = append(out, &c)
	}
	return doc.NewSet(out...)
}

// dice draws random operations that mostly fit the scheme, and some that do
// not.
type dice struct {
	t    *rapid.T
	s    *doc.Scheme
	next int
}

func (d *dice) one(label string, n int) int { return rapid.IntRange(0, n-1).Draw(d.t, label) }

func (d *dice) length(label string, low, high geom.Length) geom.Length {
	return geom.Length(rapid.Int64Range(int64(low), int64(high)).Draw(d.t, label))
}

func (d *dice) point() geom.Point {
	return geom.Point{X: d.length("x", -20*geom.Metre, 20*geom.Metre), Y: d.length("y", -20*geom.Metre, 20*geom.Metre)}
}

func (d *dice) place() doc.Place {
	return doc.Place{At: d.point(), Height: d.length("height", -geom.Metre, 3*geom.Metre)}
}

func (d *dice) id() doc.ID {
	d.next++
	return doc.ID(fmt.Sprintf("id-%d", d.next))
}

// some returns an entity of one of the kinds, or an id of nothing.
func (d *dice) some(kinds ...doc.Kind) doc.ID {
	var ids []doc.ID
	doc.Each(d.s, func(e doc.Entity, k doc.Kind) {
		for _, want := range kinds {
			if k == want {
				ids = append(ids, e.Key())
			}
		}
	})
	if len(ids) == 0 || d.one("stranger", 20) == 0 {
		return "nobody"
	}
	return ids[d.one("which", len(ids))]
}

func (d *dice) any() doc.ID { return d.some(doc.Kinds...) }

func (d *dice) end() doc.End {
	e := doc.End{}
	if d.one("tail", 2) == 0 {
		e.Tail = q.Some(q.Metre(rapid.Float64Range(0, 2).Draw(d.t, "tail length")))
	}
	if d.one("in the air", 3) == 0 {
		e.At = d.point()
		return e
	}
	e.On = d.some(doc.SupplyKind, doc.BoxKind, doc.LampKind, doc.GearKind, doc.SourceKind)
	if doc.KindOf(d.s, e.On) == doc.SourceKind {
		e.Side = doc.Side(1 + d.one("side", 2))
	}
	return e
}

func (d *dice) leg() doc.Leg {
	return doc.Leg{
		To: d.point(), Support: network.Support(d.one("support", 6)),
		Depth: d.length("depth", 0, geom.Metre), Height: d.length("leg height", 0, 3*geom.Metre), Group: d.one("group", 4),
		NoTape: d.one("tape", 2) == 1, Sleeve: d.one("sleeve", 2) == 1, Hole: []string{"", "out", "in"}[d.one("hole", 3)],
	}
}

func (d *dice) points(n int) []geom.Point {
	var ps []geom.Point
	for range n {
		ps = append(ps, d.point())
	}
	return ps
}

func (d *dice) ids() []doc.ID {
	var ids []doc.ID
	for range d.one("how many", 4) {
		ids = append(ids, d.any())
	}
	return ids
}

func (d *dice) dimension(id doc.ID) *doc.Dimension {
	anchor := func() doc.Anchor {
		if d.one("in the air", 3) == 0 {
			return doc.Anchor{At: d.point()}
		}
		return doc.Anchor{On: d.some(doc.LampKind, doc.BoxKind, doc.RunKind, doc.AreaKind, doc.LineKind, doc.MarkKind), Corner: d.one("corner", 3)}
	}
	return &doc.Dimension{ID: id, Kind: doc.DimensionKinds[d.one("dimension", 3)], From: anchor(), To: anchor(),
		Offset: d.length("offset", -geom.Metre, geom.Metre)}
}

func (d *dice) adding() edit.Operation {
	switch d.one("new", 11) {
	case 0:
		return edit.Place{Entity: &doc.Supply{ID: d.id(), Place: d.place(), Nominal: 230, Fuse: "fuse-3", Spur: true}}
	case 1:
		return edit.Place{Entity: &doc.Box{ID: d.id(), Place: d.place(), Stock: "box-85"}}
	case 2:
		return edit.Place{Entity: &doc.Gear{ID: d.id(), Place: d.place(), Stock: "isolator-20"}}
	case 3:
		return edit.Place{Entity: &doc.Source{ID: d.id(), Place: d.place(), Stock: "src-12dc-60"}}
	case 4:
		r := &doc.Run{ID: d.id(), Cable: cables[d.one("cable", 3)], From: d.end(), To: d.end()}
		for range d.one("legs", 4) {
			r.Legs = append(r.Legs, d.leg())
		}
		return edit.AddRun{Run: r}
	case 5:
		return edit.AddZone{Zone: &doc.Zone{ID: d.id(), Name: rapid.String().Draw(d.t, "name"), Colour: doc.ZoneColours[d.one("colour", 6)]}}
	case 6:
		return edit.AddArea{Area: &doc.Area{ID: d.id(), Kind: doc.AreaKinds[d.one("kind", 9)], Ring: d.points(2 + d.one("ring", 4))}}
	case 7:
		return edit.AddLine{Line: &doc.Line{ID: d.id(), Kind: doc.LineKinds[d.one("kind", 6)], Path: d.points(1 + d.one("path", 4))}}
	case 8:
		return edit.AddMark{Mark: &doc.Mark{ID: d.id(), Kind: doc.MarkKinds[d.one("kind", 5)], Place: d.place(), Crown: d.length("crown", 0, 5*geom.Metre)}}
	}
	if len(d.s.Runs.All())+d.s.Areas.Len() > 0 && d.one("measure", 2) == 0 {
		return edit.AddDimension{Dimension: d.dimension(d.id())}
	}
	return edit.Place{Entity: &doc.Lamp{ID: d.id(), Place: d.place(), Stock: "pillar-10w", Aim: rapid.Float64Range(0, 360).Draw(d.t, "aim")}}
}

func (d *dice) changing() edit.Operation {
	switch d.one("change", 14) {
	case 12:
		kinds := append(append(append([]string{"moss"}, doc.AreaKinds...), doc.LineKinds...), doc.MarkKinds...)
		return edit.ChangeKind{ID: d.some(doc.AreaKind, doc.LineKind, doc.MarkKind, doc.LampKind), Kind: kinds[d.one("kind", len(kinds))]}
	case 0:
		if l, ok := d.s.Lamps.Get(d.some(doc.LampKind)); ok {
			c := *l
			c.Stock, c.Lock, c.Zone = "brick-3w", d.one("lock", 4) == 0, d.some(doc.ZoneKind)
			return edit.SetLamp{Lamp: &c}
		}
	case 1:
		if r, ok := d.s.Runs.Get(d.some(doc.RunKind)); ok {
			c := *r
			c.To, c.Slack = d.end(), q.Metre(rapid.Float64Range(0, 2).Draw(d.t, "slack"))
			if d.one("share", 4) == 0 {
				c.With = d.some(doc.RunKind)
			}
			return edit.SetRun{Run: &c}
		}
	case 2:
		return edit.SetCable{Runs: []doc.ID{d.some(doc.RunKind)}, Cable: cables[d.one("cable", 3)]}
	case 3:
		return edit.SetLegSupport{Run: d.some(doc.RunKind), Support: network.Support(d.one("support", 6)), Depth: d.length("depth", 0, geom.Metre)}
	case 4:
		return edit.SetLeg{Run: d.some(doc.RunKind), Index: d.one("index", 3), Leg: d.leg()}
	case 5:
		if z, ok := d.s.Zones.Get(d.some(doc.ZoneKind)); ok && d.one("zone itself", 2) == 0 {
			c := *z
			c.Control, c.Dimmed = d.some(doc.GearKind), d.one("dimmed", 2) == 0
			return edit.ChangeZone{Zone: &c}
		}
		return edit.SetZone{Lamps: []doc.ID{d.some(doc.LampKind)}, Zone: d.some(doc.ZoneKind)}
	case 10:
		if m, ok := d.s.Dimensions.Get(d.some(doc.DimensionKind)); ok {
			return edit.SetDimension{Dimension: d.dimension(m.ID)}
		}
		return edit.AlongWall{Run: d.some(doc.RunKind), Wall: d.some(doc.LineKind, doc.AreaKind), Distance: d.length("beside", -geom.Metre, geom.Metre)}
	case 6:
		return edit.SetEnd{Run: d.some(doc.RunKind), From: d.one("from", 2) == 0, End: d.end()}
	case 7:
		return edit.SetPlan{Plan: doc.Plan{Scale: 20 + d.one("scale", 80), Grid: d.length("grid", 0, geom.Metre), North: q.Some(10.0)}}
	case 8:
		return edit.SetSurvey{Survey: doc.Survey{
			Air: q.Some(q.Celsius(rapid.Float64Range(-20, 50).Draw(d.t, "air"))), Waste: q.Some(doc.Ratio(rapid.Float64Range(0, 1).Draw(d.t, "waste"))),
		}}
	case 9:
		return edit.SetTitle{Title: rapid.String().Draw(d.t, "title"), Author: "A. N. Other"}
	case 11:
		if d.one("lights", 3) == 0 {
			return d.lighting()
		}
		if d.one("eyes", 3) == 0 {
			return d.seeing()
		}
		return d.pricing()
	}
	return edit.Withdraw{Code: "EAR-01", Subject: d.any()}
}

func (d *dice) operation() edit.Operation {
	path := []doc.Kind{doc.RunKind, doc.AreaKind, doc.LineKind}
	switch d.one("operation", 13) {
	case 12:
		return d.measuring()
	case 0, 1, 2, 3:
		return d.adding()
	case 4, 5, 6:
		return d.changing()
	case 7:
		return edit.MovePoints{IDs: d.ids(), By: d.point()}
	case 8:
		return edit.Delete{IDs: d.ids()}
	case 9:
		return edit.Overrule{Decision: doc.Decision{Code: "EAR-01", Subject: d.any(), Reason: rapid.StringN(0, 20, -1).Draw(d.t, "reason")}}
	case 10:
		switch id, i := d.some(path...), d.one("corner", 5); d.one("corner op", 3) {
		case 0:
			return edit.MoveVertex{ID: id, Index: i, To: d.point()}
		case 1:
			return edit.InsertVertex{ID: id, Index: i, At: d.point()}
		default:
			return edit.DeleteVertex{ID: id, Index: i}
		}
	}
	return edit.Batch{Label: "Several", Ops: []edit.Operation{d.adding(), d.changing()}}
}

// After any sequence of operations: the scheme is valid, nothing that existed
// before has changed, a refusal says why, what is saved reads back equal, undo
// of everything gives the very first scheme and redo of everything the last.
func TestLawsOfEditing(t *testing.T) {
	stock := book()
	done := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		first := small()
		store := edit.NewStore(first)
		d := &dice{t: t}
		steps := 0
		for range rapid.IntRange(1, 40).Draw(t, "operations") {
			d.s = store.Current()
			before := copied(d.s)
			op := d.operation()
			err := store.Do(op)
			if why := diff(before, d.s); why != "" {
				t.Fatalf("%T changed the scheme it was given:\n%s", op, why)
			}
			var refused *edit.Refused
			if err != nil && (!errors.As(err, &refused) || refused.Reason == "" || store.Current() != d.s) {
				t.Fatalf("%T was refused with %v; scheme kept: %v", op, err, store.Current() == d.s)
			}
			if err := doc.Validate(store.Current()); err != nil {
				t.Fatalf("after %T: %v", op, err)
			}
			if store.Current() != d.s {
				steps++
				done[fmt.Sprintf("%T", op)]++
				if edit.Title(op, d.s) == "" || store.UndoName() != edit.Title(op, d.s) {
					t.Fatalf("%T is the step %q", op, store.UndoName())
				}
				if doc.Diff(d.s, store.Current()).Empty() {
					t.Fatalf("%T is a step but changed nothing", op)
				}
			}
		}
		last := store.Current()
		saveLoad(t, last, stock)
		for range steps {
			if !store.Undo() {
				t.Fatal("undo ended early")
			}
		}
		if store.Undo() || store.Current() != first || store.Unsaved() {
			t.Fatal("undo of everything is not the very first scheme")
		}
		for range steps {
			store.Redo()
		}
		if store.Redo() || store.Current() != last {
			t.Fatal("redo of everything is not the last scheme")
		}
	})
	// The laws say nothing about an operation that was refused every time.
	if t.Logf("done: %v", done); len(done) < 20 {
		t.Errorf("only %d kinds of operation were done: %v", len(done), done)
	}
}

func saveLoad(t *rapid.T, s *doc.Scheme, stock doc.Stock) {
	text, err := file.WriteScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	back, err := file.ReadScheme("laws.yaml", text, stock)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	if why := diff(s, back); why != "" {
		t.Fatalf("read back differs:\n%s\n%s", why, text)
	}
}
