package ui

import (
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

func pictureFile(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, image.NewRGBA(image.Rect(0, 0, 200, 100))); err != nil {
		t.Fatal(err)
	}
	return path
}

// under waits until the file of the picture was looked at.
func (r *rig) underRead() {
	r.t.Helper()
	for n := 0; r.desk.Frame().Under == nil && n < 5; n++ {
		r.wait()
	}
}

// A picture that is chosen lies in the middle of what is seen, the scale tool
// is in hand, and undo takes it away in one step.
func TestImportPicture(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	path := pictureFile(t, "plan.png")
	seen := r.w.plan.Area()
	r.w.importPicture(path)
	r.wait()
	r.noSheet()
	u := r.desk.Frame().Scheme.Plan.Underlay
	if u.File != path || u.Width != 200 || len(u.Sum) != 64 || u.Fade != firstFade {
		t.Errorf("%+v", u)
	}
	if b := u.Bounds(); !seen.Contains(b.Min) || !seen.Contains(b.Max) {
		t.Errorf("%v is not within %v", b, seen)
	}
	if r.w.plan.Tool().Name() != tool.NameScale {
		t.Errorf("%s in hand", r.w.plan.Tool().Name())
	}
	if f := r.desk.Frame(); f.Under == nil || f.Under.Picture == nil {
		t.Error("the picture is not shown")
	}
	if text := texts(r.w.properties.Object()); !strings.Contains(text, "plan.png") || !strings.Contains(text, "200 × 100 pixels") {
		t.Error("the properties do not show the picture")
	}
	r.menu("Lock picture")
	if !r.desk.Frame().Scheme.Plan.Underlay.Lock || !r.w.under.lock.Checked {
		t.Error("not locked")
	}
	r.menu("Remove picture")
	if r.desk.Frame().Scheme.Plan.Underlay != (doc.Underlay{}) {
		t.Error("not removed")
	}
	r.menu("Undo")
	r.underRead()
	if f := r.desk.Frame(); f.Under == nil || f.Under.Picture == nil {
		t.Error("undo does not show it again")
	}
}

// Scaled, a picture may be many times as large: all of it is seen, so that the
// second length can be picked.
func TestScaledPictureFits(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.importPicture(pictureFile(t, "plan.png"))
	r.wait()
	before := r.w.plan.Area()
	u := r.desk.Frame().Scheme.Plan.Underlay
	click := func(p geom.Point) {
		at := r.w.plan.Where(p)
		e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}, Button: desktop.MouseButtonPrimary}
		r.w.plan.MouseMoved(e)
		r.w.plan.MouseDown(e)
		r.w.plan.MouseUp(e)
	}
	click(u.Place(doc.Spot{X: 20, Y: 20}))
	click(u.Place(doc.Spot{X: 180, Y: 80}))
	for _, c := range "200" {
		r.w.plan.TypedRune(c)
	}
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b := r.desk.Frame().Scheme.Plan.Underlay.Bounds()
	if before.Contains(b.Min) && before.Contains(b.Max) {
		t.Fatalf("the picture was not enlarged: %v", b)
	}
	if seen := r.w.plan.Area(); !seen.Contains(b.Min) || !seen.Contains(b.Max) {
		t.Errorf("%v is not within %v", b, seen)
	}
	if r.w.plan.Tool().Name() != tool.NameScale {
		t.Errorf("%s in hand", r.w.plan.Tool().Name())
	}
}

// What cannot be read is told in words and changes nothing; dropping one in a
// picture's place replaces it.
func TestImportPictureRefused(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	bad := filepath.Join(t.TempDir(), "bad.png")
	if err := os.WriteFile(bad, []byte("rubbish"), 0o644); err != nil {
		t.Fatal(err)
	}
	before := r.desk.Frame().Scheme
	r.w.importPicture(bad)
	r.wait()
	if r.top().title != "This picture cannot be used" || r.desk.Frame().Scheme != before {
		t.Error(r.top().title)
	}
	r.answer(r.top().buttons[0].Text)
	r.w.importPicture(pictureFile(t, "a.png"))
	r.wait()
	steps := r.desk.Frame().Scheme.Plan.Underlay
	r.w.importPicture(pictureFile(t, "b.png"))
	r.wait()
	if u := r.desk.Frame().Scheme.Plan.Underlay; u.Name() != "b.png" || u.At != steps.At || u.Pixel != steps.Pixel {
		t.Errorf("%+v", u)
	}
}

// A scheme whose picture is missing opens, with a Note.
func TestMissingPictureIsANote(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	s := *r.desk.Frame().Scheme
	s.Plan.Underlay = doc.Underlay{File: filepath.Join(t.TempDir(), "gone.png"), Sum: strings.Repeat("0a", 32), Width: 200, Height: 100, Pixel: 0.1}
	r.w.put(&s, "")
	r.underRead()
	found := false
	for _, f := range r.desk.Frame().Findings {
		found = found || f.Code == "PIC-01"
	}
	if !found {
		t.Error("no PIC-01")
	}
	r.noSheet()
	r.w.pictureAct(panel.CheckPicture)
	if r.w.plan.Tool().Name() != tool.NameScale {
		t.Error("the check cannot be taken")
	}
}
