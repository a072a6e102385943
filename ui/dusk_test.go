package ui

import (
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// settleDusk lets the worker finish.
func (r *rig) settleDusk() {
	r.t.Helper()
	for n := 0; r.w.dusk.busy; n++ {
		if n > 40 {
			r.t.Fatal("the night picture never comes to rest")
		}
		r.wait()
	}
}

// duskRig is a window that shows the night picture of the example.
func duskRig(t *testing.T) *rig {
	r := newRig(t, "townhouse.yaml")
	r.w.Fyne().Resize(fyne.NewSize(1200, 800))
	r.menu("Dusk")
	r.settleDusk()
	return r
}

// TestDuskView: the fourth view shows the night under the plan, coarse first, and
// takes it off again.
func TestDuskView(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.Fyne().Resize(fyne.NewSize(1200, 800))
	r.menu("Dusk")
	if r.w.plan.Look() != scene.LookDusk || !r.w.dusk.read.box.Visible() {
		t.Fatal("Dusk does not look like night")
	}
	r.wait()
	if s := r.w.plan.Night(); s == nil || !s.Coarse {
		t.Fatalf("first picture %+v, expected a coarse one", s)
	}
	r.settleDusk()
	s := r.w.plan.Night()
	if s.Coarse || s.Seq != r.desk.Frame().Seq {
		t.Errorf("at rest: coarse %v, of frame %d, expected the fine one of %d", s.Coarse, s.Seq, r.desk.Frame().Seq)
	}
	r.menu("Plan")
	if r.w.plan.Night() != nil || r.w.dusk.read.box.Visible() || r.w.plan.Look() != scene.LookPlan {
		t.Error("something of the night stays on the plan")
	}
}

// TestDuskFollows: a gesture, however many moves it has while the worker is at
// work, ends with the picture of what was let go; moves in between are not queued.
func TestDuskFollows(t *testing.T) {
	r := duskRig(t)
	id := r.idOf("L7")
	r.w.plan.Select(id)
	r.settleDusk()
	for k := range 12 {
		if err := r.desk.Preview(edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(0.1*float64(k), 0)}); err != nil {
			t.Fatal(err)
		}
	}
	steps := 0
	for ; r.w.dusk.busy; steps++ {
		r.wait()
	}
	if steps > 6 {
		t.Errorf("%d steps for twelve moves, expected what came in between to be left out", steps)
	}
	if err := r.desk.Commit(edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(1.1, 0)}); err != nil {
		t.Fatal(err)
	}
	r.settleDusk()
	got := r.w.plan.Night()
	if got.Preview || got.Seq != r.desk.Frame().Seq {
		t.Errorf("picture of frame %d, expected %d", got.Seq, r.desk.Frame().Seq)
	}
	wish := layout.DuskWish{Frame: r.desk.Frame(), Area: r.w.dusk.area}
	r.w.plan.NightWish(&wish)
	fresh := layout.NewDusk()
	var want *layout.DuskShot
	for more := true; more; {
		var shot *layout.DuskShot
		shot, more, _ = fresh.Step(context.Background(), wish)
		if shot != nil {
			want = shot
		}
	}
	if string(got.Image.Pix) != string(want.Image.Pix) {
		t.Error("the picture differs from one made from scratch")
	}
}

// TestDuskStale: an answer that was under way when its gesture was dropped, or its
// scheme closed, is not shown.
func TestDuskStale(t *testing.T) {
	r := duskRig(t)
	id := r.idOf("L7")
	before := r.w.plan.Night()
	if err := r.desk.Preview(edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(3, 0)}); err != nil {
		t.Fatal(err)
	}
	if !r.w.dusk.busy {
		t.Fatal("a preview asks for no picture")
	}
	r.desk.Cancel()
	r.wait() // the answer to the preview
	if got := r.w.plan.Night(); got != before {
		t.Errorf("a picture of a dropped gesture is shown: frame %d", got.Seq)
	}
	r.settleDusk()
	late := r.w.plan.Night()
	r.w.puts++
	if r.w.duskFits(late) {
		t.Error("a picture of a scheme that is closed would be shown")
	}
	r.w.puts--
	old := *late
	old.Seq--
	if r.w.duskFits(&old) {
		t.Error("an older picture would take the place of a newer one")
	}
}

// TestDuskReading: at the pointer the lux, three lamps at most, and the caveat.
func TestDuskReading(t *testing.T) {
	r := duskRig(t)
	text := func() string {
		return r.w.dusk.read.lux.Text + "\n" + r.w.dusk.read.what.Text
	}
	r.w.dusk.read.point(geom.Pt(3.25, 11.5), true)
	// The factor for age and dirt is printed, maintained and new figures stand together.
	for _, want := range []string{"×0.8 (in the ground 0.7) for age and dirt", " when new)"} {
		if !strings.Contains(text(), want) {
			t.Errorf("the reading %q lacks %q", text(), want)
		}
	}
	if tip := r.w.dusk.read.tip().Working; !strings.Contains(tip, "×0.8, 0.7 for L14, L15 in the ground for age and dirt") {
		t.Errorf("the tip says %q", tip)
	}
	got := text()
	for _, want := range []string{" lx on the ground", ": L7 gives ", " % of it", "mpression; not a light measurement", "Photopic", "ssumed"} {
		if !strings.Contains(got, want) {
			t.Errorf("the reading lacks %q:\n%s", want, got)
		}
	}
	if n := strings.Count(r.w.dusk.read.lux.Text, "%"); n > 4 {
		t.Errorf("%d shares in %q", n, r.w.dusk.read.lux.Text)
	}
	if tip := r.w.dusk.read.tip(); !strings.Contains(tip.Working, "not aimed") || !strings.Contains(tip.Source, "volts") {
		t.Errorf("the tip says %+v", tip)
	}
	shown := r.w.tips.After
	r.w.tips.After = nil
	r.w.dusk.read.words.MouseIn(nil)
	words := texts(r.w.tips.Layer())
	for _, a := range r.w.plan.Night().Night.Assumed {
		if !strings.Contains(words, a) {
			t.Errorf("the tip lacks %q:\n%s", a, words)
		}
	}
	r.w.dusk.read.words.MouseOut()
	r.w.tips.After = shown
	r.w.dusk.read.point(geom.Pt(3.25, 11.5), false)
	if got := text(); strings.Contains(got, "lx on") {
		t.Errorf("a reading without a pointer:\n%s", got)
	}
	// Light is looked for once for a place, by the tip too, and never without a pointer.
	made := r.w.dusk.read.made
	r.w.dusk.read.point(geom.Pt(9, 9), false)
	r.w.dusk.read.update()
	if got := r.w.dusk.read.made; got != made {
		t.Errorf("%d readings without a pointer", got-made)
	}
	r.w.dusk.read.point(geom.Pt(4, 11.5), true)
	r.w.dusk.read.update()
	if tip := r.w.dusk.read.tip().Working; !strings.HasPrefix(tip, "At 4.00 m, 11.50 m: ") {
		t.Errorf("the tip of another place says %q", tip)
	}
	if got := r.w.dusk.read.made; got != made+1 {
		t.Errorf("%d readings of one place", got-made)
	}
}

// TestDuskReadingIsNeverCut: at 200 % and with names as long as people give them the
// reading breaks into lines, covers what it covers of the plan and no more, and does not
// shrink while the pointer goes about.
func TestDuskReadingIsNeverCut(t *testing.T) {
	r := duskRig(t)
	longNames(r)
	r.settleDusk()
	read := r.w.dusk.read
	for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(640, 400)} {
		r.w.Fyne().Resize(size)
		before := float32(0)
		for _, at := range []geom.Point{geom.Pt(3.25, 11.5), geom.Pt(9, 9), geom.Pt(3.25, 11.5), geom.Pt(40, 40)} {
			read.point(at, true)
			for name, l := range map[string]*widget.Label{"lux": read.lux, "caveat": read.what} {
				var lines []string
				for _, o := range test.LaidOutObjects(l) {
					if line, ok := o.(*canvas.Text); ok && line.Text != "" {
						lines = append(lines, strings.TrimSpace(line.Text))
						if w := fyne.MeasureText(line.Text, line.TextSize, line.TextStyle).Width; w > l.Size().Width {
							t.Errorf("%v: %q is wider than the plan", size, line.Text)
						}
					}
				}
				if got := strings.Join(lines, " "); got != l.Text {
					t.Errorf("%v, %s: %q is shown of %q", size, name, got, l.Text)
				}
			}
			high := read.height()
			if high < before || high > size.Height/2 {
				t.Errorf("%v: the reading is %.0f high after %.0f", size, high, before)
			}
			if got := read.words.Size().Height; got < high-0.5 {
				t.Errorf("%v: the reading has %.0f of %.0f", size, got, high)
			}
			before = high
		}
	}
	read.point(geom.Pt(3.25, 11.5), true)
	if tip := read.tip().Working; strings.Contains(tip, "From ") != strings.Contains(read.lux.Text, "gives") || strings.Contains(tip, "…") {
		t.Errorf("the tip does not say the names whole: %s", tip)
	}
}

// TestDuskReadingApart: with many lamps a worker reads, once for all places that the
// pointer passes meanwhile and then where it is, and says the same.
func TestDuskReadingApart(t *testing.T) {
	r := duskRig(t)
	read := r.w.dusk.read
	read.point(geom.Pt(4, 11.5), true)
	want := read.lux.Text + read.what.Text
	read.point(geom.Pt(4, 11.5), false)
	read.now, read.apart = nil, 1
	made := read.made
	for _, x := range []float64{2, 2.5, 3, 3.5, 4} {
		read.point(geom.Pt(x, 11.5), true)
		if read.made != made || read.lux.Text != "Working out the light here …" {
			t.Fatalf("%d readings where the hand waits; the first line is %q", read.made-made, read.lux.Text)
		}
	}
	for n := 0; read.asked && n < 10; n++ {
		r.wait()
	}
	if got := read.lux.Text + read.what.Text; got != want || read.made != made+2 {
		t.Errorf("%d readings by the worker; it says\n%s\nexpected\n%s", read.made-made, got, want)
	}
	read.point(geom.Pt(5, 11.5), true)
	r.menu("Plan")
	r.wait()
	if read.now != nil || read.asked {
		t.Error("a reading that comes late is kept without a night")
	}
}

// TestProbeWords: a share is of the light at the pointer, and none is told of light
// that reads nothing.
func TestProbeWords(t *testing.T) {
	six, seven := &doc.Lamp{Tag: "L6"}, &doc.Lamp{Tag: "L7"}
	for want, p := range map[string]layout.Probe{
		"0.00 lx on the ground: no lamp shines here":        {},
		"0.00 lx on the ground":                             {Lux: 0.004, From: []layout.ProbeShare{{Lamp: six, Part: 1}}},
		"0.01 lx on the ground: L6 gives 100 % of it":       {Lux: 0.006, From: []layout.ProbeShare{{Lamp: six, Part: 1}}},
		"12 lx on the ground: L6 gives 75 % of it, L7 25 %": {Lux: 12, From: []layout.ProbeShare{{Lamp: six, Part: 0.75}, {Lamp: seven, Part: 0.25}}},
	} {
		if got := probeWords(p); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// TestDoubtWords: a reading says which lamp nobody knows the light of and how it is
// drawn, and nothing where that does not show.
func TestDoubtWords(t *testing.T) {
	u := &layout.Unsure{Lamp: &doc.Lamp{Tag: "L10"}, Volts: q.Some(q.Volt(10.13)), Why: "below 10.8 V", Drawn: 0.56, Most: 1}
	p := layout.Probe{Lux: 4, Least: 1, Most: 6.5, Doubts: []*layout.Unsure{{Lamp: &doc.Lamp{Tag: "L9"}}, u}, From: []layout.ProbeShare{{Lamp: u.Lamp, Part: 1, Doubt: u}}}
	if got, want := doubtWords(p), "L10 light not known at 10.13 V, below 10.8 V; drawn at 56 %, 1 more like it: here 1.0 lx to 6.5 lx. "; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	for _, p := range []layout.Probe{{Lux: 4, Least: 4, Most: 4}, {Doubts: p.Doubts, Most: 0.004}} {
		if got := doubtWords(p); got != "" {
			t.Errorf("%q, want nothing", got)
		}
	}
}
