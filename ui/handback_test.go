package ui

import (
	"errors"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/doc"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

func press(o fyne.Focusable, k fyne.KeyName) { o.TypedKey(&fyne.KeyEvent{Name: k}) }

// typeAt types characters at what has the keyboard.
func (r *rig) typeAt(text string) {
	for _, c := range text {
		if at := r.w.Fyne().Canvas().Focused(); at != nil {
			at.TypedRune(c)
		}
	}
}

// Ctrl+Shift with an arrow aims a lamp that is alone, in Plan and in Dusk; several
// things it aligns.
func TestAlignKeysAimOneLamp(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	f := r.desk.Frame()
	var id doc.ID
	for _, l := range f.Scheme.Lamps.All() {
		if id == "" && tool.Aimable(f.Scheme, f.Stock, l.ID) {
			id = l.ID
		}
	}
	stand := func() (aim, tilt float64) {
		l, _ := r.desk.Frame().Scheme.Lamps.Get(id)
		item, _ := r.desk.Frame().Stock.Lamp(l.Stock)
		return l.Points(&item)
	}
	r.w.plan.Select(id)
	for _, view := range []string{"Plan", "Dusk"} {
		for i, v := range r.w.views.all {
			if v.name == view {
				r.w.showView(i)
			}
		}
		for _, c := range []struct {
			entry     string
			aim, tilt float64
		}{{"Right", 1, 0}, {"Left", -1, 0}, {"To the top", 0, 1}, {"To the bottom", 0, -1}} {
			aim, tilt := stand()
			r.entryOf(c.entry + " ").Action()
			now, tilted := stand()
			if d := math.Remainder(now-aim-c.aim, 360); math.Abs(d) > 1e-6 || math.Abs(tilted-tilt-c.tilt) > 1e-6 {
				t.Errorf("%s: %s turns the beam from %g, %g to %g, %g", view, c.entry, aim, tilt, now, tilted)
			}
		}
	}
	ids := r.lamps(3)
	r.w.plan.Select(ids...)
	r.entryOf("Left ").Action()
	s := r.desk.Frame().Scheme
	left := doc.BoundsOf(s, mustFind(t, s, ids[0])).Min.X
	for _, id := range ids[1:] {
		if got := doc.BoundsOf(s, mustFind(t, s, id)).Min.X; got != left {
			t.Errorf("%s stands at %v, expected %v", doc.TagOf(s, id), got, left)
		}
	}
}

func mustFind(t *testing.T, s *doc.Scheme, id doc.ID) doc.Entity {
	t.Helper()
	e, k := doc.Find(s, id)
	if k == doc.NoKind {
		t.Fatalf("no %s", id)
	}
	return e
}

// Escape in any field of the properties takes back what was typed and gives the
// keyboard to the plan, whose selection stays.
func TestEscapeLeavesEveryFieldOfProperties(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	s, c := r.desk.Frame().Scheme, r.w.Fyne().Canvas()
	var shown [][]doc.ID
	kinds := map[doc.Kind]bool{}
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		if k != doc.ZoneKind && !kinds[k] {
			kinds[k] = true
			shown = append(shown, []doc.ID{e.Key()})
		}
	})
	shown = append(shown, r.lamps(3), nil)
	fields, picks, ticks := 0, 0, 0
	for _, ids := range shown {
		r.w.plan.Select(ids...)
		var all []fyne.Focusable
		walk(r.w.properties.Object(), func(o fyne.CanvasObject) bool {
			if f, ok := o.(fyne.Focusable); ok {
				if d, able := o.(fyne.Disableable); !able || !d.Disabled() {
					all = append(all, f)
				}
			}
			return true
		})
		for _, f := range all {
			c.Focus(f)
			field, typed := f.(*panel.Field)
			before := ""
			switch {
			case typed:
				fields++
				before = field.Text
				r.typeAt("9]")
			case isPick(f):
				picks++
			default:
				ticks++
			}
			press(f, fyne.KeyEscape)
			if c.Focused() != fyne.Focusable(r.w.plan) {
				t.Errorf("%v: Escape leaves the keyboard at %T", ids, c.Focused())
			}
			if typed && (field.Text != before || field.Reason() != "") {
				t.Errorf("%v: Escape leaves %q of %q, %q", ids, field.Text, before, field.Reason())
			}
			if got := r.w.plan.Selection(); len(got) != len(ids) {
				t.Fatalf("Escape in a %T takes the selection from %v to %v", f, ids, got)
			}
		}
	}
	if r.desk.Frame().Scheme != s {
		t.Error("what was taken back changed the scheme")
	}
	if fields < 20 || picks < 5 || ticks < 3 {
		t.Errorf("only %d fields, %d lists and %d others were tried", fields, picks, ticks)
	}
	if press(r.w.plan, fyne.KeyEscape); len(r.w.plan.Selection()) != 0 {
		t.Error("Escape at the plan selects nothing no more")
	}
}

func isPick(f fyne.Focusable) bool { _, ok := f.(*panel.Pick); return ok }

// A kind that the mouse chose in the tray is drawn with the next keys; who chooses by
// keys stays in the tray. The hint names the kind both times.
func TestKindChosenInTrayIsDrawn(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	c := r.w.Fyne().Canvas()
	r.w.plan.TypedRune('a')
	pick, ok := find(r.w.tray.below, func(*panel.Pick) bool { return true })
	if !ok {
		t.Fatal("no kinds to choose from")
	}
	for _, want := range []int{3, 4} {
		kind := doc.AreaKinds[want]
		test.Tap(pick)
		menu := c.Overlays().Top()
		if menu == nil {
			t.Fatal("the list does not open")
		}
		c.Overlays().Remove(menu)
		pick.SetSelectedIndex(want) // as its entry does
		if c.Focused() != fyne.Focusable(r.w.plan) {
			t.Fatalf("the keyboard is at %T", c.Focused())
		}
		if r.w.defaults.Ground.Area.Kind != kind || r.w.plan.Tool().Name() != tool.NameArea || !strings.Contains(r.w.status.Hint(), kind) {
			t.Errorf("%s chosen: %s in hand, the hint says %q", kind, r.w.plan.Tool().Name(), r.w.status.Hint())
		}
	}
	n := r.desk.Frame().Scheme.Areas.Len()
	for _, corner := range []string{"=0,-4", "=2,-4", "=2,-6"} {
		r.typeAt(corner)
		press(c.Focused(), fyne.KeyReturn)
	}
	press(c.Focused(), fyne.KeyReturn)
	all := r.desk.Frame().Scheme.Areas.All()
	if len(all) != n+1 || all[n].Kind != doc.AreaKinds[4] {
		t.Errorf("%d areas after drawing one, the last is %+v", len(all)-n, all[len(all)-1])
	}
	c.Focus(pick)
	press(pick, fyne.KeyLeft)
	if c.Focused() != fyne.Focusable(pick) {
		t.Errorf("an arrow at the list gives the keyboard to %T", c.Focused())
	}
	if kind := doc.AreaKinds[3]; !strings.Contains(r.w.status.Hint(), kind) {
		t.Errorf("by keys the hint says %q, expected %s", r.w.status.Hint(), kind)
	}
}

// A file that could not be read at the start is told in the window, over the welcome.
func TestUnreadFileIsTold(t *testing.T) {
	for _, welcome := range []bool{false, true} {
		r := newRig(t, "townhouse.yaml")
		cfg := r.w.cfg
		cfg.Unread, cfg.Welcome = errors.New("garden.yaml:1: found nothing, expected a scheme"), welcome
		r.w = New(cfg)
		r.w.Fyne().Show()
		s := r.top()
		if s.title != unreadTitle || !strings.Contains(texts(s.pop.Content), "garden.yaml:1") {
			t.Errorf("on top is %q: %s", s.title, texts(s.pop.Content))
		}
		press(r.w.Fyne().Canvas().Focused(), fyne.KeyEscape)
		if welcome {
			press(r.w.Fyne().Canvas().Focused(), fyne.KeyEscape)
		}
		r.noSheet()
		if at := r.w.Fyne().Canvas().Focused(); at != fyne.Focusable(r.w.plan) {
			t.Errorf("the keyboard is then at %T", at)
		}
	}
}

// The words over an empty plan give way to the first thing that is drawn by keys, and
// come back when it is dropped.
func TestBlankGivesWayToFirstPoint(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.put(doc.New("uk-18"), "")
	on := func() bool { return r.w.blank.box.Visible() }
	if !on() {
		t.Fatal("no words over an empty plan")
	}
	r.w.plan.TypedRune('a')
	if !on() {
		t.Error("a tool in hand alone takes the words away")
	}
	r.typeAt("=0,0")
	press(r.w.plan, fyne.KeyReturn)
	if on() {
		t.Error("the words cover an area with a corner")
	}
	press(r.w.plan, fyne.KeyEscape)
	if !on() {
		t.Error("the area is dropped and the words stay away")
	}
	press(r.w.plan, fyne.KeyRight)
	if on() {
		t.Error("the words cover the pointer that keys move")
	}
}
