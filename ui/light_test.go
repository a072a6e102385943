package ui

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
)

const lightSample = "../calc/light/testdata/synthetic_same_full_0-360.ies"

// lightsRead waits until the photometric files of the scheme were looked at.
func (r *rig) lightsRead() {
	r.t.Helper()
	for n := 0; !r.desk.Frame().Lights.Covers(r.desk.Frame().Scheme) && n < 20; n++ {
		r.wait()
	}
}

// lit reads a file for the fitting of L7 and waits for its sheet.
func (r *rig) lit(path string) {
	r.t.Helper()
	r.w.readLight(doc.LightFile{Lamp: "spot-5w-230", File: path})
	for n := 0; len(r.w.sheets) == 0 && n < 20; n++ {
		r.wait()
	}
}

// The menu asks for a file of the fitting that is selected; the sheet turns and
// mirrors by the keyboard; OK is one step, undo gives the stock book's light back,
// and the entry then shows the file with a way back.
func TestLightOfFitting(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select()
	r.menu("Light of this fitting")
	r.noSheet()
	r.w.plan.Select(r.idOf("L7"))
	r.menu("Light of this fitting")
	if s := r.top(); !strings.HasPrefix(s.title, "Photometric file of Spot 5 W") {
		t.Fatalf("sheet %q", s.title)
	}
	r.answer("Cancel")
	path, err := filepath.Abs(lightSample)
	if err != nil {
		t.Fatal(err)
	}
	before := r.desk.Frame().Scheme
	r.lit(path)
	s := r.top()
	said := texts(s.pop)
	for _, want := range []string{"synthetic_same_full_0-360.ies", "LM-63-1995", "314.2 lm from the table", "110 cd at C 90°, γ 20°", "24 planes C", "colour temperature not stated"} {
		if !strings.Contains(said, want) {
			t.Errorf("the sheet lacks %q:\n%s", want, said)
		}
	}
	press := func(name string) {
		t.Helper()
		for range 20 {
			r.w.win.Canvas().FocusNext()
			if b, ok := r.w.win.Canvas().Focused().(*sheetButton); ok && strings.HasPrefix(b.Text, name) {
				b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
				if len(r.w.sheets) > 0 && r.w.win.Canvas().Focused() != fyne.Focusable(b) {
					t.Errorf("Space on %q takes the keyboard away", name)
				}
				return
			}
		}
		t.Fatalf("Tab does not reach %q", name)
	}
	press("+ 90")
	press("Mirrored")
	press("OK")
	r.noSheet()
	r.lightsRead()
	of, ok := r.desk.Frame().Scheme.LightOf("spot-5w-230")
	if !ok || of.File != path || of.Turn != 90 || !of.Mirror || len(of.Sum) != 64 {
		t.Fatalf("%v %+v", ok, of)
	}
	n, err := layout.NightOf(r.desk.Frame())
	if err != nil {
		t.Fatal(err)
	}
	lit := 0
	for i, f := range n.Files {
		if f != nil {
			lit++
			// Mirrored, the peak of C90 lies at C270; turned by 90° at C0.
			if _, c, gamma := n.Scene.Lamp(i).Dist.Peak(); math.Mod(c, 360) != 0 || gamma != 20 {
				t.Errorf("the peak lies at C%g γ%g, expected C0 γ20", c, gamma)
			}
		}
	}
	if lit != 2 { // L7 and L8 are of the fitting
		t.Errorf("%d lamps take the file, expected 2", lit)
	}
	if text := texts(r.w.properties.Object()); !strings.Contains(text, "synthetic_same_full_0-360.ies, 314 lm") {
		t.Errorf("the properties do not name the file:\n%s", text)
	}
	r.menu("Undo")
	if r.desk.Frame().Scheme != before {
		t.Error("undo does not give the scheme before")
	}
	r.menu("Redo")
	r.menu("Light of this fitting")
	for n := 0; len(r.w.sheets) == 0 && n < 20; n++ {
		r.wait()
	}
	r.answer("As in the stock book")
	if len(r.desk.Frame().Scheme.Lights) != 0 {
		t.Error("the file stays")
	}
}

// A file that cannot be used is told in words and cannot be taken; a turn that is
// no number is told and holds OK.
func TestLightRefused(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	bad := filepath.Join(t.TempDir(), "bad.ies")
	if err := os.WriteFile(bad, []byte("IESNA:LM-63-2002\nTILT=NONE\n1 -1 1 3 1000000000 1 2 0 0 0 1 1 10"), 0o644); err != nil {
		t.Fatal(err)
	}
	before := r.desk.Frame().Scheme
	r.lit(bad)
	s := r.top()
	if text := texts(s.pop); !strings.Contains(text, "bad.ies: LM-63-2002: number of horizontal angles: found 1e+09, expected a whole number from 1 to 2000") {
		t.Errorf("found %s", text)
	}
	for _, b := range s.buttons {
		if b.Text == "OK" {
			t.Error("a broken file can be taken")
		}
	}
	r.answer("Cancel")
	path, err := filepath.Abs(lightSample)
	if err != nil {
		t.Fatal(err)
	}
	r.lit(path)
	s = r.top()
	entry, ok := r.w.win.Canvas().Focused().(*sheetEntry)
	for range 20 {
		if ok {
			break
		}
		r.w.win.Canvas().FocusNext()
		entry, ok = r.w.win.Canvas().Focused().(*sheetEntry)
	}
	if !ok {
		t.Fatal("Tab does not reach the turn")
	}
	for _, wrong := range []string{"", "x", "nan", "1e9", "90 m"} {
		entry.SetText(wrong)
		r.answer("OK")
		if r.top() != s || r.desk.Frame().Scheme != before || !strings.Contains(texts(s.pop), "expected degrees from -360 to 360") {
			t.Errorf("%q was taken", wrong)
		}
	}
	entry.SetText("12.5°")
	entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if of, _ := r.desk.Frame().Scheme.LightOf("spot-5w-230"); of.Turn != 12.5 {
		t.Errorf("turned by %g, expected 12.5", of.Turn)
	}
}

// A scheme whose photometric file is missing opens, with a Note.
func TestMissingLightIsANote(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	s := *r.desk.Frame().Scheme
	data, err := os.ReadFile(lightSample)
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(data)
	path := filepath.Join(t.TempDir(), "gone.ies")
	s.Lights = []doc.LightFile{{Lamp: "spot-5w-230", File: path, Sum: hex.EncodeToString(sum[:])}}
	r.w.put(&s, "")
	r.lightsRead()
	found := func() bool {
		for _, f := range r.desk.Frame().Findings {
			if f.Code == "LIT-01" && strings.Contains(f.Text, "cannot read gone.ies: there is no such file") {
				return true
			}
		}
		return false
	}
	if !found() {
		t.Error("no LIT-01")
	}
	r.noSheet()
	// Looked at again after it was put back, it is taken, and the Note is gone.
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	r.w.plan.Select(r.idOf("L7"))
	r.menu("Light of this fitting")
	for n := 0; (len(r.w.sheets) == 0 || found()) && n < 20; n++ {
		r.wait()
	}
	if found() {
		t.Error("LIT-01 after the file was put back")
	}
	r.answer("OK")
	if got := r.desk.Frame().Scheme; len(got.Lights) != 1 || got.Lights[0] != s.Lights[0] {
		t.Errorf("OK changed %+v", got.Lights)
	}
}
