package edit_test

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// fiveLamps returns a scheme with lamps L1 to L5, L1 and L2 in the zone Z1.
func fiveLamps() (*doc.Scheme, []doc.ID) {
	s := doc.New("uk-18")
	var ids []doc.ID
	for i := range 5 {
		id := doc.ID(fmt.Sprint("L", i+1))
		l := &doc.Lamp{ID: id, Tag: string(id), Stock: "brick-3w"}
		if i < 2 {
			l.Zone = "Z1"
		}
		ids, s.Lamps = append(ids, id), s.Lamps.With(l)
	}
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1"}, &doc.Zone{ID: "Z2", Tag: "Z2"})
	return s, ids
}

func zoneOfAll(ids []doc.ID, zone doc.ID) edit.SetAll {
	o := edit.SetAll{What: "zone", IDs: ids}
	for _, id := range ids {
		o.Ops = append(o.Ops, edit.SetZone{Lamps: []doc.ID{id}, Zone: zone})
	}
	return o
}

// What is set of several things is one step with a name, undone at once.
func TestSetAllIsOneStep(t *testing.T) {
	s, ids := fiveLamps()
	st := edit.NewStore(s)
	if err := st.Do(zoneOfAll(ids, "Z2")); err != nil {
		t.Fatal(err)
	}
	for _, l := range st.Current().Lamps.All() {
		if l.Zone != "Z2" {
			t.Errorf("%s is in zone %q", l.Tag, l.Zone)
		}
	}
	if names, done := st.Steps(); done != 1 || names[0] != "Set zone of 5 lamps" {
		t.Errorf("%d steps, %q", done, names)
	}
	st.Undo()
	if st.Current() != s {
		t.Error("one undo did not take it back")
	}
	if n := do(t, s, edit.SetAll{What: "zone", IDs: ids[:2], Ops: zoneOfAll(ids[:2], "Z1").Ops}); n != s {
		t.Error("setting what is set already changed the scheme")
	}
}

// A refusal names everything that stands in the way, and nothing is done.
func TestSetAllRefusesInWords(t *testing.T) {
	s, ids := fiveLamps()
	z, _ := s.Zones.Get("Z1")
	locked := *s
	locked.Zones = s.Zones.With(doc.WithLock(z, true).(*doc.Zone))
	held := *s
	for _, id := range ids[1:3] {
		l, _ := s.Lamps.Get(id)
		held.Lamps = held.Lamps.With(doc.WithLock(l, true).(*doc.Lamp))
	}
	away := edit.SetAll{What: "place", IDs: ids}
	for _, id := range ids {
		l, _ := held.Lamps.Get(id)
		c := *l
		c.Place.At = geom.Pt(1, 1)
		away.Ops = append(away.Ops, edit.SetLamp{Lamp: &c})
	}
	for _, row := range []struct {
		name string
		s    *doc.Scheme
		op   edit.SetAll
		want string
	}{
		{"nothing", s, edit.SetAll{What: "zone"}, "nothing is selected to set the zone of"},
		{"one short", s, edit.SetAll{What: "zone", IDs: ids, Ops: zoneOfAll(ids[:4], "Z2").Ops}, "found 4 changes for 5 things, expected one each"},
		{"locked zone", &locked, zoneOfAll(ids, "Z2"), "L1, L2: zone Z1 is locked: no lamp joins or leaves it; unlock it first (Ctrl+L)"},
		{"locked lamps", &held, away, "L2, L3: locked in its place; unlock it first (Ctrl+L)"},
	} {
		n, err := row.op.Apply(row.s)
		if err == nil || err.Error() != row.want || n != nil {
			t.Errorf("%s: %v, expected %q", row.name, err, row.want)
		}
	}
}

// Many different reasons do not make a text without end.
func TestSetAllTellsFewReasons(t *testing.T) {
	s, _ := fiveLamps()
	o := edit.SetAll{What: "zone"}
	for i := range 500 {
		id := doc.ID(fmt.Sprint("X", i))
		o.IDs, o.Ops = append(o.IDs, id), append(o.Ops, edit.SetZone{Lamps: []doc.ID{id}, Zone: "Z1"})
	}
	_, err := o.Apply(s)
	if err == nil || len(err.Error()) > 400 || !strings.Contains(err.Error(), "496 more like these") {
		t.Errorf("refusal: %v", err)
	}
}
