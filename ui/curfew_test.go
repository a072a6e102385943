package ui

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/output"
)

// TestDuskAfterCurfew: the entry shows the night after curfew, in picture and reading,
// and takes it off again; what was on its way for the other is not shown.
func TestDuskAfterCurfew(t *testing.T) {
	r := duskRig(t)
	z := *r.desk.Frame().Scheme.Zones.All()[0]
	z.Off = doc.Off{Set: true, Minute: 22 * 60}
	if err := r.desk.Commit(edit.ChangeZone{Zone: &z}); err != nil {
		t.Fatal(err)
	}
	r.settleDusk()
	before := r.w.plan.Night()
	if what := r.w.dusk.read.what.Text; !strings.Contains(what, "Before curfew, all lamps on") {
		t.Errorf("before curfew the reading says %q", what)
	}
	r.menu("Dusk after curfew")
	if !r.w.dusk.entry.Checked {
		t.Error("the entry is not ticked")
	}
	if r.w.duskFits(before) {
		t.Error("a picture of before curfew would be shown after it")
	}
	r.settleDusk()
	after := r.w.plan.Night()
	if !after.AfterCurfew || bytes.Equal(after.Image.Pix, before.Image.Pix) {
		t.Error("after curfew nothing is darker")
	}
	if what := r.w.dusk.read.what.Text; !strings.Contains(what, "After curfew: 12 of 15 lamps burn on at 23:00") {
		t.Errorf("after curfew the reading says %q", what)
	}
	r.menu("Dusk after curfew")
	r.settleDusk()
	if got := r.w.plan.Night(); got.AfterCurfew || !bytes.Equal(got.Image.Pix, before.Image.Pix) {
		t.Error("taken off, it does not look as before")
	}
}

// TestDuskUpright: the reading has the light on upright surfaces with its direction,
// the tip all sides of the last point read, when the pointer has gone there.
func TestDuskUpright(t *testing.T) {
	r := duskRig(t)
	p := geom.Pt(3.5, 2)
	r.w.dusk.read.point(p, true)
	up := r.w.plan.Night().Night.Upright(p)
	want := ", upright " + luxWords(float64(up.Lux)) + " to "
	if got := r.w.dusk.read.lux.Text; !strings.Contains(got, want) || strings.Index(got, want) > strings.Index(got, ": ") {
		t.Errorf("the reading %q lacks %q before the lamps", got, want)
	}
	r.w.dusk.read.point(geom.Point{}, false)
	tip := r.w.dusk.read.tip().Working
	for _, part := range []string{"At 3.50 m, 2.00 m", "Upright, 1.5 m up: at most " + luxWords(float64(up.Lux)), "facing up the sheet", "facing left", "not aimed"} {
		if !strings.Contains(tip, part) {
			t.Errorf("the tip lacks %q:\n%s", part, tip)
		}
	}
}

// TestSaveNight: night picture and standing view are saved from the window as dusksheet
// writes them.
func TestSaveNight(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	var want, view bytes.Buffer
	f := r.desk.Frame()
	if _, err := output.DuskOf(context.Background(), &want, f, output.Dusk{Contours: true}); err != nil {
		t.Fatal(err)
	}
	if _, err := output.StandingOf(context.Background(), &view, f, f.Scheme.Eyes[0], output.Dusk{}); err != nil {
		t.Fatal(err)
	}
	for entry, data := range map[string][]byte{"Save night picture": want.Bytes(), "Save standing view": view.Bytes()} {
		path := filepath.Join(t.TempDir(), "n.png")
		r.export(entry, path)
		r.wait() // whether it is there already
		r.wait() // the file
		r.noSheet()
		if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, data) {
			t.Errorf("%s: %v, %d bytes, expected the %d of dusksheet", entry, err, len(got), len(data))
		}
		r.export(entry, path)
		r.wait()
		if s := texts(r.top().pop.Content); !strings.Contains(s, "lost") {
			t.Errorf("%s: writing over is not asked: %s", entry, s)
		}
		r.answer("Cancel")
	}
}
