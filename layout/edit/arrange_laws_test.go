package edit_test

import (
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// grown returns a scheme after random edits.
func (d *dice) grown(least, most int) *doc.Scheme {
	d.s = small()
	for range rapid.IntRange(least, most).Draw(d.t, "edits") {
		if n, err := d.operation().Apply(d.s); err == nil {
			d.s = n
		}
	}
	return d.s
}

// many returns ids of things that can be moved, each once.
func (d *dice) many() []doc.ID {
	var ids []doc.ID
	doc.Each(d.s, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind && d.one("take", 2) == 0 {
			ids = append(ids, e.Key())
		}
	})
	return ids
}

func (d *dice) fragment(ids []doc.ID) *doc.Fragment {
	f, ok := doc.FragmentOf(d.s, ids)
	if !ok {
		return nil
	}
	return f
}

// arranging returns one of the operations that arrange things.
func (d *dice) arranging() edit.Operation {
	r := func(label string, v float64) float64 { return rapid.Float64Range(-v, v).Draw(d.t, label) }
	switch d.one("arrange", 14) {
	case 0:
		return edit.Align{IDs: d.many(), How: edit.Alignment(d.one("how", len(edit.Alignments)))}
	case 1:
		return edit.Distribute{IDs: d.many(), How: edit.Spread(d.one("how", len(edit.Spreads))), Spacing: d.length("spacing", -geom.Metre, geom.Metre)}
	case 2:
		return edit.Mirror{IDs: d.many(), A: d.point(), B: d.point()}
	case 3:
		return edit.RotateHere(d.s, d.many(), r("turn", 400))
	case 4:
		return edit.SetLock{IDs: d.ids(), On: d.one("on", 2) == 0}
	case 5:
		return edit.NumberLamps{}
	case 6:
		return edit.TurnLeg{Run: d.some(doc.RunKind), Leg: d.one("leg", 4) - 1, Support: network.Support(d.one("support", 7)), Depth: geom.Metre / 2, Height: geom.Metre}
	case 7:
		id := d.some(doc.RunKind)
		o := edit.SplitRun{Run: id, Leg: d.one("leg", 3), At: d.point(), Box: &doc.Box{ID: d.id(), Stock: "box-85"}, New: d.id()}
		if run, ok := d.s.Runs.Get(id); ok && d.one("on a corner", 2) == 0 {
			path := doc.RunPath(d.s, run)
			o.At = path[d.one("corner", len(path))]
		}
		return o
	case 8:
		return edit.JoinRuns{A: d.some(doc.RunKind), B: d.some(doc.RunKind)}
	case 9:
		if f := d.fragment(d.many()); f != nil {
			return edit.NewPaste(f, d.point(), d.id)
		}
	case 10:
		if f := d.fragment(d.many()); f != nil {
			by := d.point()
			twice := edit.NewPaste(f, by.Add(by), d.id)
			return edit.Copies{Pastes: []edit.Paste{edit.NewPaste(f, by, d.id), twice}, Degrees: r("turn", 90)}
		}
	case 12:
		return edit.LayLeg{Run: d.some(doc.RunKind), Leg: d.one("leg", 4), Level: d.length("level", -2*geom.Metre, 2*geom.Metre)}
	case 13:
		return edit.SetHeight{ID: d.any(), Height: d.length("up", -2*geom.Metre, 4*geom.Metre)}
	case 11:
		return edit.AddMany{Label: "Row", Entities: []doc.Entity{
			&doc.Lamp{ID: d.id(), Stock: "pillar-10w", Place: d.place()}, &doc.Lamp{ID: d.id(), Stock: "pillar-10w", Place: d.place()},
		}}
	}
	return edit.Cut{IDs: d.ids()}
}

// Every arranging operation keeps the laws of editing: the scheme it was given
// is not changed, what it makes is valid, is told by a name and reads back from
// a file as it is; undo gives the scheme from before.
func TestLawsOfArranging(t *testing.T) {
	stock := book()
	done := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		d := &dice{t: t}
		s := d.grown(5, 30)
		store := edit.NewStore(s)
		for range 4 {
			d.s = store.Current()
			before := copied(d.s)
			op := d.arranging()
			err := store.Do(op)
			if why := diff(before, d.s); why != "" {
				t.Fatalf("%T changed the scheme it was given:\n%s", op, why)
			}
			var refused *edit.Refused
			if err != nil && (!errors.As(err, &refused) || refused.Reason == "") {
				t.Fatalf("%T was refused with %v", op, err)
			}
			if store.Current() == d.s {
				continue
			}
			done[fmt.Sprintf("%T", op)]++
			if err := doc.Validate(store.Current()); err != nil {
				t.Fatalf("after %T: %v", op, err)
			}
			if doc.Diff(d.s, store.Current()).Empty() || edit.Title(op, d.s) == "" {
				t.Fatalf("%T is the step %q and changed something: %v", op, edit.Title(op, d.s), !doc.Diff(d.s, store.Current()).Empty())
			}
			saveLoad(t, store.Current(), stock)
		}
		for store.Undo() {
		}
		if store.Current() != s {
			t.Fatal("undo of everything is not the first scheme")
		}
	})
	// Two random runs seldom meet: joining has a law of its own below.
	if t.Logf("done: %v", done); len(done) < 9 {
		t.Errorf("only %d kinds of operation were done: %v", len(done), done)
	}
}

// A copy that is pasted and taken out again leaves the scheme as it was, but
// for zones that came along, and the fragment reads back from its text as it is.
func TestLawOfCopying(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &dice{t: t}
		s := d.grown(5, 30)
		f := d.fragment(d.many())
		if f == nil {
			t.Skip("nothing was selected")
		}
		text, err := file.WriteFragment(f)
		if err != nil {
			t.Fatal(err)
		}
		back, err := file.ReadFragment("clipboard", text, book())
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if why := diff(f.Scheme, back.Scheme); why != "" || fmt.Sprint(f.Outside) != fmt.Sprint(back.Outside) || f.Title != back.Title {
			t.Fatalf("read back differs:\n%s\n%s", why, text)
		}
		p := edit.NewPaste(back, d.point(), d.id)
		n, err := p.Apply(s)
		if err != nil {
			t.Skip(err) // off the plan
		}
		if err := doc.Validate(n); err != nil {
			t.Fatal(err)
		}
		gone := p.Pasted()
		for _, z := range n.Zones.All() {
			if _, old := s.Zones.Get(z.ID); !old {
				gone = append(gone, z.ID)
			}
		}
		if n, err = (edit.Delete{IDs: gone}).Apply(n); err != nil {
			t.Fatal(err)
		}
		if why := diff(s, n); why != "" {
			t.Fatalf("not as before:\n%s", why)
		}
	})
}

// unlocked returns the scheme with nothing locked and whole degrees of aim,
// as people type them.
func unlocked(s *doc.Scheme) *doc.Scheme {
	doc.Each(s, func(e doc.Entity, _ doc.Kind) {
		c := doc.WithLock(e, false)
		if c == e {
			return
		}
		n, err := edit.SetLock{IDs: []doc.ID{e.Key()}}.Apply(s)
		if err != nil {
			panic(err)
		}
		s = n
	})
	c := *s
	c.Lamps = s.Lamps.Map(func(l *doc.Lamp) *doc.Lamp {
		m := *l
		m.Aim = float64(int(l.Aim*10)%3600) / 10
		m.Spin = float64(int(l.Spin))
		return &m
	})
	return &c
}

// Mirroring twice about an upright or level line changes nothing; four quarter
// turns neither, nor a turn and its opposite by more than rounding.
func TestMirrorAndRotateBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &dice{t: t}
		s := unlocked(d.grown(5, 20))
		d.s = s
		ids := d.many()
		if len(ids) == 0 {
			t.Skip("nothing")
		}
		a := d.point()
		lines := []geom.Point{a.Add(geom.Point{X: 1 + d.length("x", 0, geom.Metre)}), a.Add(geom.Point{Y: -1 - d.length("y", 0, geom.Metre)})}
		twice := edit.Mirror{IDs: ids, A: a, B: lines[d.one("line", 2)]}
		turn := edit.Rotate{IDs: ids, About: a, Degrees: []float64{90, -90}[d.one("way", 2)]}
		for _, ops := range [][]edit.Operation{{twice, twice}, {turn, turn, turn, turn}} {
			n := s
			var err error
			for _, op := range ops {
				if n, err = op.Apply(n); err != nil {
					t.Skip(err) // off the plan on the way
				}
			}
			if why := diff(flat(s), flat(n)); why != "" {
				t.Fatalf("%s: not as before:\n%s", ops[0].Name(), why)
			}
		}
	})
}

// flat writes the two forms of an aim straight up the sheet, 0 and 360, alike:
// a level beam has the second, so that it does not read as a lamp not aimed.
func flat(s *doc.Scheme) *doc.Scheme {
	c := *s
	c.Lamps = s.Lamps.Map(func(l *doc.Lamp) *doc.Lamp {
		m := *l
		if m.Aim == 360 {
			m.Aim = 0
		}
		return &m
	})
	return &c
}

// Splitting a run anywhere and joining the halves gives the path of before,
// with one corner more where it was cut, and no box.
func TestSplitAndJoinBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &dice{t: t}
		s := unlocked(d.grown(5, 20))
		d.s = s
		r, ok := s.Runs.Get(d.some(doc.RunKind))
		if !ok {
			t.Skip("no run")
		}
		leg := d.one("leg", len(r.Legs))
		path := doc.RunPath(s, r)
		at := geom.Around(path[leg], path[leg+1]).Centre()
		box := &doc.Box{ID: d.id(), Stock: "box-85"}
		o := edit.SplitRun{Run: r.ID, Leg: leg, At: at, Box: box, New: d.id()}
		n, err := o.Apply(s)
		if err != nil {
			t.Skip(err)
		}
		first, _ := n.Runs.Get(r.ID)
		second, _ := n.Runs.Get(o.New)
		if first.To.On != box.ID || second.From.On != box.ID || first.Cable != second.Cable || first.Slack+second.Slack != r.Slack {
			t.Fatalf("halves %+v and %+v", first, second)
		}
		if n, err = (edit.JoinRuns{A: r.ID, B: o.New}).Apply(n); err != nil {
			if r.From.On != "" && r.From.On == r.To.On {
				t.Skip(err)
			}
			t.Fatal(err)
		}
		back, _ := n.Runs.Get(r.ID)
		want := append(append([]geom.Point(nil), path[:leg+1]...), path[leg+1:]...)
		if at != path[leg] && at != path[leg+1] {
			want = append(append(append([]geom.Point(nil), path[:leg+1]...), at), path[leg+1:]...)
		}
		if got := doc.RunPath(n, back); fmt.Sprint(got) != fmt.Sprint(want) {
			t.Fatalf("path %v, want %v", got, want)
		}
		if n.Boxes.Len() != s.Boxes.Len() || n.Runs.Len() != s.Runs.Len() || back.Slack != r.Slack {
			t.Fatalf("%d boxes, %d runs, slack %v", n.Boxes.Len(), n.Runs.Len(), back.Slack)
		}
	})
}
