package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// twoSets writes an EULUMDAT file of two lamp sets.
func twoSets(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../calc/light/testdata/synthetic_same_isym3.ldt")
	if err != nil {
		t.Fatal(err)
	}
	raw := strings.Split(strings.ReplaceAll(string(data), "\r", ""), "\n")
	lines := append(append([]string{}, raw[:25]...), "2")
	lines = append(append(lines, raw[26:32]...), "2", "other", "628.3185", "4000K", "80", "21")
	path := filepath.Join(t.TempDir(), "two.LDT")
	if err := os.WriteFile(path, []byte(strings.Join(append(lines, raw[32:]...), "\n")), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// The sheet lists the lamp sets of a file; the one chosen is drawn, told and taken by
// OK, with turn and mirror, and shown again later.
func TestLampSetIsChosen(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select(r.idOf("L7"))
	r.lit(twoSets(t))
	s := r.top()
	if text := texts(s.pop); !strings.Contains(text, "2 lamp sets to choose from: the first is used") || !strings.Contains(text, "314.2 lm from the table") {
		t.Errorf("before the choice:\n%s", text)
	}
	choose := func(at int) {
		t.Helper()
		for range 30 {
			r.w.win.Canvas().FocusNext()
			if c, ok := r.w.win.Canvas().Focused().(*sheetSelect); ok {
				if want := "2: 2 × other, 628.3 lm, 4000K, 21 W"; len(c.Options) != 2 || c.Options[1] != want {
					t.Errorf("sets %q, expected the second to be %q", c.Options, want)
				}
				c.SetSelectedIndex(at)
				r.wait()
				return
			}
		}
		t.Fatal("Tab does not reach the lamp sets")
	}
	choose(1)
	for range 20 {
		r.w.win.Canvas().FocusNext()
		if b, ok := r.w.win.Canvas().Focused().(*sheetButton); ok && strings.HasPrefix(b.Text, "+ 90") {
			b.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
			break
		}
	}
	r.wait()
	if text := texts(s.pop); strings.Contains(text, "lamp sets to choose from") || !strings.Contains(text, "628.3 lm from the table") || !strings.Contains(text, "4000 K, 21 W") {
		t.Errorf("after the choice:\n%s", text)
	}
	r.answer("OK")
	r.lightsRead()
	of, _ := r.desk.Frame().Scheme.LightOf("spot-5w-230")
	if of.Set != 2 || of.Turn != 90 {
		t.Errorf("taken: %+v", of)
	}
	if text := texts(r.w.properties.Object()); !strings.Contains(text, "two.LDT, lamp set 2, 628 lm") {
		t.Errorf("the properties do not name the set:\n%s", text)
	}
	r.menu("Light of this fitting")
	for n := 0; len(r.w.sheets) == 0 && n < 20; n++ {
		r.wait()
	}
	if text := texts(r.top().pop); !strings.Contains(text, "628.3 lm from the table") {
		t.Errorf("shown again:\n%s", text)
	}
	choose(0)
	r.answer("OK")
	if of, _ := r.desk.Frame().Scheme.LightOf("spot-5w-230"); of.Set != 1 || of.Turn != 90 {
		t.Errorf("back to the first: %+v", of)
	}
}

// A file that has changed, or gone, under the open sheet is told when another lamp set
// is asked for, and OK takes the set that is shown.
func TestLampSetOfChangedFile(t *testing.T) {
	for what, c := range map[string]struct {
		change func(path string) error
		says   string
	}{
		"changed": {func(path string) error {
			data, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			return os.WriteFile(path, []byte(strings.Replace(string(data), "628.3185", "500", 1)), 0o644)
		}, "The file has changed on disc"},
		"gone": {os.Remove, "The lamp set cannot be read: cannot read two.LDT: there is no such file"},
	} {
		r := newRig(t, "townhouse.yaml")
		r.w.plan.Select(r.idOf("L7"))
		path := twoSets(t)
		r.lit(path)
		s := r.top()
		if err := c.change(path); err != nil {
			t.Fatal(err)
		}
		choice, ok := find(s.pop.Content, func(e *sheetSelect) bool { return len(e.Options) == 2 })
		if !ok {
			t.Fatal("no choice of a lamp set")
		}
		choice.SetSelectedIndex(1)
		r.wait()
		if text := texts(s.pop); !strings.Contains(text, c.says) || !strings.Contains(text, "314.2 lm from the table") {
			t.Errorf("%s: the sheet says\n%s", what, text)
		}
		if choice.SelectedIndex() != 0 {
			t.Errorf("%s: set %d is chosen, and the first is shown", what, choice.SelectedIndex()+1)
		}
		r.answer("OK")
		if of, _ := r.desk.Frame().Scheme.LightOf("spot-5w-230"); of.Set > 1 {
			t.Errorf("%s: set %d was taken unseen", what, of.Set)
		}
	}
}

// A file turned while another lamp set is read is shown turned, with that set.
func TestLampSetTurnedMeanwhile(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select(r.idOf("L7"))
	l := r.w.lights.cache.Read("", doc.LightFile{Lamp: "spot-5w-230", File: twoSets(t)})
	p := &lightForm{win: r.w, item: r.w.fitting(l.Of.Lamp), light: l, paint: scene.NewRasteriser()}
	r.w.openSheet("Light", fyne.NewSize(lightWidth, lightHigh), p.build)
	p.take(1)
	p.place(true, 90)
	for r.w.bridge.Busy(workSet) || r.w.bridge.Busy(workTurnedBy) {
		r.wait()
	}
	want := r.w.lights.cache.Read("", p.light.Of)
	if p.light.Of.Set != 2 || p.light.Of.Turn != 90 || !p.light.Of.Mirror || p.light.Table != want.Table || p.light.Dist.Intensity(37, 20) != want.Dist.Intensity(37, 20) {
		t.Errorf("shown: %+v, the table of the set %v, %v cd; expected %v cd", p.light.Of, p.light.Table == want.Table, p.light.Dist.Intensity(37, 20), want.Dist.Intensity(37, 20))
	}
}

// A photometric file that is dropped is looked at for the fitting that is selected;
// without one the line of help says what to select first.
func TestDroppedLight(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	path := twoSets(t)
	drop := func() { r.w.dropped(fyne.NewPos(0, 0), []fyne.URI{storage.NewFileURI(path)}) }
	r.w.plan.Select()
	drop()
	r.noSheet()
	if hint := r.w.status.Hint(); !strings.Contains(hint, "Select a lamp first, then drop the file again") {
		t.Errorf("nothing selected: %q", hint)
	}
	r.w.plan.Select(r.idOf("L7"), r.idOf("L9"))
	drop()
	r.noSheet()
	if hint := r.w.status.Hint(); !strings.Contains(hint, "Select lamps of one fitting, then drop") {
		t.Errorf("two fittings selected: %q", hint)
	}
	r.w.plan.Select(r.idOf("L7"))
	drop()
	for n := 0; len(r.w.sheets) == 0 && n < 20; n++ {
		r.wait()
	}
	if s := r.top(); !strings.HasPrefix(s.title, "Light of Spot 5 W") || !strings.Contains(texts(s.pop), "two.LDT") {
		t.Errorf("sheet %q", s.title)
	}
	r.answer("OK")
	if of, ok := r.desk.Frame().Scheme.LightOf("spot-5w-230"); !ok || of.File != path {
		t.Errorf("%v %+v", ok, of)
	}
}
