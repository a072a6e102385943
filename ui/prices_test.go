package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/doc"
)

// priceField returns the field of the open price list whose name starts so.
func priceField(t *testing.T, r *rig, name string) *priceEntry {
	t.Helper()
	box := r.top().scroll.Content.(*fyne.Container).Objects[0].(*fyne.Container)
	for _, o := range box.Objects {
		c, ok := o.(*fyne.Container)
		if !ok || len(c.Objects) != 2 {
			continue
		}
		if strings.HasPrefix(texts(c.Objects[0]), name) {
			e, _ := find(c.Objects[1], func(*priceEntry) bool { return true })
			return e
		}
	}
	t.Fatalf("the price list has no field %q", name)
	return nil
}

// Price list by the keyboard: Return commits and goes on, wrong text stays with
// its reason and keeps the sheet open, Escape takes typing back and then closes,
// and every price is one step. The example with mistakes has no price to start with.
func TestPriceList(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	r.menu("Price list")
	r.wait()
	if r.top().title != "Price list" {
		t.Fatalf("sheet %q", r.top().title)
	}
	lamp := priceField(t, r, "Brick light 3 W")
	r.top().focus(lamp)
	test.Type(lamp, "28-35")
	lamp.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if b, ok := r.desk.Frame().Scheme.List.Of("lamp", "brick-3w"); !ok || b != (doc.Band{Low: 2800, High: 3500}) || lamp.Text != "28.00 to 35.00" {
		t.Errorf("the list has %v, the field %q", b, lamp.Text)
	}
	if r.w.Fyne().Canvas().Focused() == fyne.Focusable(lamp) {
		t.Error("Return did not go on to the next field")
	}
	dig := priceField(t, r, "Trench dug")
	r.top().focus(dig)
	test.Type(dig, "nine")
	r.answer("Close")
	if len(r.w.sheets) != 1 || !dig.reason.Visible() || !strings.Contains(dig.reason.Text, "expected an amount") {
		t.Errorf("wrong text: %d sheets, reason %q", len(r.w.sheets), dig.reason.Text)
	}
	dig.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if dig.Text != "" || len(r.w.sheets) != 1 {
		t.Errorf("Escape left %q and %d sheets", dig.Text, len(r.w.sheets))
	}
	coil := priceField(t, r, "Armoured")
	r.top().focus(coil) // the one by the metre comes first
	coil.SetText("2")
	coil.FocusLost()
	money := priceField(t, r, "Word for your money")
	money.SetText("pounds")
	dig.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	r.noSheet()
	l := &r.desk.Frame().Scheme.List
	if l.Currency != "pounds" || len(l.Items) != 2 {
		t.Errorf("the list is %+v", l)
	}
	for range 3 {
		r.desk.Undo()
	}
	if l := &r.desk.Frame().Scheme.List; len(l.Items) != 0 || l.Currency != "" {
		t.Errorf("three steps back the list is %+v", l)
	}
}

// A list that was saved as CSV, filled in and read again is one step; a wrong one
// is told with its line and changes nothing.
func TestPriceCSVRound(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	path := filepath.Join(t.TempDir(), "prices.csv")
	file := func(button, verb string, waits int) {
		t.Helper()
		r.menu("Price list")
		r.wait()
		r.answer(button)
		r.wait() // the listing of the folder
		name, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
		name.SetText(path)
		r.answer(verb)
		for range waits {
			r.wait()
		}
	}
	file("Save CSV…", "Save", 2)
	data, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(data), "lamp,brick-3w,\"Brick light 3 W, 230 V\",each,,\r\n") {
		t.Fatalf("written %q, %v", data, err)
	}
	filled := strings.Replace(string(data), "each,,\r\n", "each,12.50,15\r\n", 2)
	if err := os.WriteFile(path, []byte(filled), 0o600); err != nil {
		t.Fatal(err)
	}
	file("Import CSV…", "Import", 2) // it is read, the form opens again
	r.answer("Close")
	if n := len(r.desk.Frame().Scheme.List.Items); n != 2 {
		t.Errorf("%d prices taken, want 2", n)
	}
	if err := os.WriteFile(path, []byte(strings.Replace(filled, "12.50", "12,50", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	file("Import CSV…", "Import", 1)
	if s := r.top(); !strings.Contains(s.title, "No price was taken") || !strings.Contains(texts(s.pop.Content), "prices.csv:") {
		t.Errorf("a wrong list: %q, %q", s.title, texts(s.pop.Content))
	}
	r.answer("Close")
	if n := len(r.desk.Frame().Scheme.List.Items); n != 2 {
		t.Errorf("a wrong list left %d prices", n)
	}
}

// The client pack beside another scheme asks for that first, shows both on its pages,
// then asks for a place.
func TestPackBeside(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	folder := t.TempDir()
	other, out := filepath.Join(folder, "other.yaml"), filepath.Join(folder, "p.pdf")
	if err := os.WriteFile(other, []byte("duskwire: 1\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	r.saved.put(other, doc.New("uk-18"))
	r.w.savePackBeside()
	name := func(path, verb string) {
		r.wait() // the listing
		e, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
		e.SetText(path)
		r.answer(verb)
	}
	name(other, "Choose")
	r.wait()
	p := r.w.preview
	if p == nil {
		t.Fatal("no sheet of pages")
	}
	r.ended(workPages)
	if p.key != "client" || !strings.Contains(strings.Join(p.page.Options, "; "), "Options side by side") {
		t.Fatalf("%s: %q", p.key, p.page.Options)
	}
	r.answer("Save PDF…")
	name(out, "Save")
	for range 10 {
		if exists(out) && !r.w.bridge.Busy(workExport+" "+out) {
			break
		}
		r.wait()
	}
	data, err := os.ReadFile(out)
	if err != nil || !strings.HasPrefix(string(data), "%PDF") {
		t.Errorf("%v, %d bytes", err, len(data))
	}
}
