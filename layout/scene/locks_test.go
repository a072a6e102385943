package scene_test

import (
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/scene"
)

// TestLockMarks: everything locked has a padlock of three items on the screen and
// none on paper; what is free or left out has none.
func TestLockMarks(t *testing.T) {
	in := small()
	in.Screen, in.Show = true, scene.AllLayers()
	v := scene.Fit(in.Scheme, 300, 240)
	count := func(in scene.Input) map[string]int {
		out := map[string]int{}
		for _, it := range scene.Build(in, v, 300, 240).Items {
			out[it.Entity]++
		}
		return out
	}
	var ids []doc.ID
	doc.Each(in.Scheme, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind {
			ids = append(ids, e.Key())
		}
	})
	locked, err := edit.SetLock{IDs: ids, On: true}.Apply(in.Scheme)
	if err != nil {
		t.Fatal(err)
	}
	in.Scheme = locked
	// Tags and names may give way to padlocks, so that less than three may come on top.
	in.Show[scene.LayerLabels], in.Show[scene.LayerFinding] = false, false
	marked := count(in)
	in.Screen = false
	plain := count(in)
	in.Screen = true
	for _, id := range ids {
		if n := marked[string(id)] - plain[string(id)]; n != 3 {
			t.Errorf("%s: %d items more with the lock on, expected a padlock of 3", id, n)
		}
	}
	first := ids[0]
	in.Skip = func(id doc.ID) bool { return id == first }
	if n := count(in)[string(first)]; n != 0 {
		t.Errorf("%d items of what is left out", n)
	}
}

// TestLocksKeepApart: the padlock of a symbol lies beside the symbol, so that both
// can be seen.
func TestLocksKeepApart(t *testing.T) {
	in := small()
	in.Screen = true
	var ids []doc.ID
	doc.Each(in.Scheme, func(e doc.Entity, k doc.Kind) {
		if k.Joinable() {
			ids = append(ids, e.Key())
		}
	})
	s, err := edit.SetLock{IDs: ids, On: true}.Apply(in.Scheme)
	if err != nil {
		t.Fatal(err)
	}
	in.Scheme = s
	v := scene.Fit(s, 300, 240)
	last := map[string][]scene.Item{}
	for _, it := range scene.Build(in, v, 300, 240).Items {
		if it.Layer == scene.LayerPoints {
			last[it.Entity] = append(last[it.Entity], it)
		}
	}
	for _, id := range ids {
		all := last[string(id)]
		body := all[len(all)-2] // of the padlock
		p, _ := doc.PointOf(s, id)
		at := v.Paper(p.At)
		for _, q := range body.Points {
			if dx, dy := q.X-at.X, q.Y-at.Y; dx*dx+dy*dy < 1.3*1.3 {
				t.Errorf("%s: the padlock reaches to %v, the symbol stands at %v", id, q, at)
			}
		}
	}
}
