package ui

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// settleStanding lets the worker finish.
func (r *rig) settleStanding() {
	r.t.Helper()
	for n := 0; r.w.standing.busy; n++ {
		if n > 40 {
			r.t.Fatal("the standing view never comes to rest")
		}
		r.wait()
	}
}

func standRig(t *testing.T) *rig {
	r := newRig(t, "townhouse.yaml")
	r.w.Fyne().Resize(fyne.NewSize(1200, 800))
	r.menu("Standing view")
	return r
}

// fresh is the fine picture as a worker makes it that has seen nothing before.
func (r *rig) fresh() []byte {
	r.t.Helper()
	var work layout.StandWork
	var last []byte
	wish := r.w.standing.shown
	wish.Frame, wish.Eye = r.desk.Frame(), r.w.standing.eye
	for more := true; more; {
		shot, m, err := work.Step(context.Background(), wish)
		if err != nil {
			r.t.Fatal(err)
		}
		last, more = shot.Image.Pix, m
	}
	return last
}

// TestStandingView: the panel opens on the first eye point, coarse first, with the
// caveat; it follows an edit, and what it shows at rest is what a fresh worker
// makes of the scheme.
func TestStandingView(t *testing.T) {
	r := standRig(t)
	s := &r.w.standing
	if !s.box.Visible() || s.eye.Tag != "V1" || r.w.Fyne().Canvas().Focused() != fyne.Focusable(s.view) {
		t.Fatalf("open %v, eye %q", s.box.Visible(), s.eye.Tag)
	}
	r.wait()
	small := s.view.img.Rect.Dx()
	r.settleStanding()
	if got := s.view.img.Rect.Dx(); small*3 > got || got < 200 {
		t.Errorf("first picture %d pixels wide, at rest %d, expected a coarse one first", small, got)
	}
	if !strings.HasPrefix(strings.ToLower(s.says.Text), layout.NightCaveat) {
		t.Errorf("the picture says %q", s.says.Text)
	}
	before := s.view.img.Pix
	if !bytes.Equal(before, r.fresh()) {
		t.Error("the picture is not the one of its scheme")
	}
	if err := r.desk.Commit(edit.MovePoints{IDs: []doc.ID{r.idOf("L7")}, By: geom.Pt(0.5, -2)}); err != nil {
		t.Fatal(err)
	}
	r.settleStanding()
	if bytes.Equal(before, s.view.img.Pix) || !bytes.Equal(s.view.img.Pix, r.fresh()) {
		t.Error("the picture does not follow a lamp that was moved")
	}
	r.menu("Standing view")
	if s.box.Visible() || s.on {
		t.Error("the panel stays")
	}
}

// TestStandingTurn: arrows look round without changing the scheme; Return keeps it
// as one step that undo takes back; Page down goes to the next eye point.
func TestStandingTurn(t *testing.T) {
	r := standRig(t)
	r.settleStanding()
	s := &r.w.standing
	start := r.desk.Frame().Scheme
	press := func(k fyne.KeyName) { s.view.TypedKey(&fyne.KeyEvent{Name: k}); r.settleStanding() }
	press(fyne.KeyRight)
	press(fyne.KeyUp)
	s.view.TypedRune('+')
	r.settleStanding()
	if s.eye.Bearing != 10 || s.eye.Tilt != 3 || s.eye.Field >= 65 || r.desk.Frame().Scheme != start || s.hold.Disabled() {
		t.Fatalf("turned to %+v, scheme changed %v", s.eye, r.desk.Frame().Scheme != start)
	}
	press(fyne.KeyReturn)
	if e, _ := r.desk.Frame().Scheme.Eye("V1"); e.Bearing != 10 || e != s.eye || !s.hold.Disabled() {
		t.Errorf("kept %+v, looked at %+v", e, s.eye)
	}
	r.menu("Undo")
	r.settleStanding()
	if r.desk.Frame().Scheme != start || s.eye.Bearing != 5 {
		t.Errorf("undo: %+v", s.eye)
	}
	press(fyne.KeyPageDown)
	if s.eye.Tag != "V2" {
		t.Errorf("the next one is %q", s.eye.Tag)
	}
	press(fyne.KeyEscape)
	if r.w.Fyne().Canvas().Focused() == fyne.Focusable(s.view) {
		t.Error("Esc does not go back to the plan")
	}
}

// TestStandingWithoutEyes: a scheme without eye points is looked at from one that
// can be kept; a new one is looked from at once; a name is given in the sheet.
func TestStandingWithoutEyes(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.Fyne().Resize(fyne.NewSize(1200, 800))
	for _, tag := range []string{"V1", "V2"} {
		if err := r.desk.Commit(edit.RemoveEye{Tag: tag}); err != nil {
			t.Fatal(err)
		}
	}
	r.menu("Standing view")
	r.settleStanding()
	s := &r.w.standing
	if !strings.Contains(s.pick.Selected, "not kept") || s.hold.Disabled() {
		t.Errorf("shown as %q", s.pick.Selected)
	}
	s.keep()
	r.settleStanding()
	if len(r.desk.Frame().Scheme.Eyes) != 1 || strings.Contains(s.pick.Selected, "not kept") {
		t.Errorf("kept %+v, shown as %q", r.desk.Frame().Scheme.Eyes, s.pick.Selected)
	}
	e := doc.Eye{Tag: "V7", Place: doc.Place{At: geom.Pt(3, 3), Height: doc.UsualEyeHeight}, Field: doc.UsualField}
	if err := r.desk.Commit(edit.AddEye{Eye: e}); err != nil {
		t.Fatal(err)
	}
	r.settleStanding()
	if s.eye != e {
		t.Errorf("looked from %+v, expected the new one", s.eye)
	}
	s.change()
	r.top().answer[2].check()
	r.answer("OK")
	r.settleStanding()
	s.change()
	r.answer("Remove")
	r.settleStanding()
	if _, ok := r.desk.Frame().Scheme.Eye("V7"); ok || s.eye.Tag == "V7" {
		t.Errorf("removed, but looked from %+v", s.eye)
	}
}
