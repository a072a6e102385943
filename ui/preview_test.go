package ui

import (
	"bytes"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/packs"
)

// ended runs results of workers until work with the key is done.
func (r *rig) ended(key string) {
	r.t.Helper()
	for r.w.bridge.Busy(key) {
		r.wait()
	}
}

// pages opens the sheet of pages with a view of 900 by 600 pixels.
func (r *rig) pages() *preview {
	r.t.Helper()
	r.menu("Pages")
	p := r.w.preview
	if p == nil {
		r.t.Fatal("no sheet of pages")
	}
	r.ended(workPages)
	p.view.resized(900, 600)
	r.ended(workPage)
	return p
}

func (p *preview) press(names ...fyne.KeyName) {
	for _, n := range names {
		p.view.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// TestPagesOnScreen goes through the packs by the keyboard: every page that is
// written is shown, with its number, and the picture is that of the page.
func TestPagesOnScreen(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	p := r.pages()
	if r.w.win.Canvas().Focused() != fyne.Focusable(p.view) {
		t.Error("the page does not have the keyboard")
	}
	for i, key := range packs.Keys {
		p.kind.SetSelectedIndex(i)
		r.ended(workPages)
		n := len(p.pack.Pages)
		if p.pack.Key != key || n < 4 || len(p.page.Options) != n {
			t.Fatalf("%s: %s with %d pages, %d in the list", key, p.pack.Key, n, len(p.page.Options))
		}
		seen := map[int]bool{p.at: true}
		for range n + 2 { // two more than there are: the last one stays
			p.press(fyne.KeyPageDown)
			seen[p.at] = true
		}
		if len(seen) != n || p.at != n-1 || !strings.HasPrefix(p.page.Selected, strings.TrimSpace(strings.Split(p.page.Options[n-1], ":")[0])) {
			t.Errorf("%s: %d pages seen of %d, at %q", key, len(seen), n, p.page.Selected)
		}
		if !p.next.Disabled() || p.back.Disabled() {
			t.Errorf("%s: on the last page Next can be pressed, or Back cannot", key)
		}
		p.press(fyne.KeyHome, fyne.KeyPageUp)
		if p.at != 0 {
			t.Errorf("%s: Home leads to page %d", key, p.at+1)
		}
		p.page.SetSelectedIndex(2)
		if p.view.page != &p.pack.Pages[2] {
			t.Errorf("%s: the list leads elsewhere", key)
		}
		r.ended(workPage)
		if d := p.view.drawn; d.page != p.view.page || d.img == nil {
			t.Fatalf("%s: the page was not drawn", key)
		}
		m := p.view.compose(900, 600).(*image.RGBA)
		at := image.Rectangle{Max: p.view.pageSize()}.Sub(p.view.off)
		if at.Dy() > 600 || at.Dx() > 900 || at.Min.X < 0 || at.Min.Y < 0 {
			t.Errorf("%s: the page lies at %v of 900 by 600", key, at)
		}
		if c := m.RGBAAt(at.Min.X+3, at.Min.Y+3); c.R != 255 || c.G != 255 || c.B != 255 {
			t.Errorf("%s: paper is %v", key, c)
		}
		if dark := inkIn(m, at); dark < 300 {
			t.Errorf("%s: %d dark pixels on the page", key, dark)
		}
	}
	p.press(fyne.KeyEscape)
	r.noSheet()
	if r.w.preview != nil {
		t.Error("the sheet is closed and still told of work")
	}
}

func inkIn(m *image.RGBA, at image.Rectangle) (n int) {
	for y := at.Min.Y; y < at.Max.Y; y++ {
		for x := at.Min.X; x < at.Max.X; x++ {
			if c := m.RGBAAt(x, y); c.R < 120 && c.G < 120 && c.B < 120 {
				n++
			}
		}
	}
	return n
}

// TestPageZoom zooms about the middle, fits, and moves over a page that is larger
// than the view before it turns to the next.
func TestPageZoom(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	p := r.pages()
	v := p.view
	whole := v.k
	v.TypedRune('1')
	if v.fit != fitNone || v.percent() < 99.9 || v.percent() > 100.1 || p.zoom.Text != "100 %" {
		t.Errorf("full size is %g %%, said %q", v.percent(), p.zoom.Text)
	}
	before := [2]float64{(float64(v.off.X) + 450) / v.k, (float64(v.off.Y) + 300) / v.k}
	v.TypedRune('+')
	after := [2]float64{(float64(v.off.X) + 450) / v.k, (float64(v.off.Y) + 300) / v.k}
	if d := after[1] - before[1]; v.percent() < 120 || d > 1 || d < -1 {
		t.Errorf("at %g %% the middle went from %v to %v mm", v.percent(), before, after)
	}
	r.ended(workPage)
	if v.drawn.at.Dx() > 900 || v.drawn.at.Dy() > 600 {
		t.Errorf("%v was drawn for a view of 900 by 600", v.drawn.at)
	}
	turned := 0
	for range 60 {
		p.press(fyne.KeyDown)
		if p.at > 0 {
			break
		}
		turned++
	}
	if p.at != 1 || turned < 3 {
		t.Errorf("%d steps down lead to page %d", turned, p.at+1)
	}
	v.TypedRune('w')
	if w := float64(v.pageSize().X); w > 900 || w < 850 {
		t.Errorf("fitted to the width it is %g wide", w)
	}
	p.goTo(0)
	v.TypedRune('0')
	if d := v.k - whole; d > 1e-9 || d < -1e-9 {
		t.Errorf("fitted anew: %g pixels a millimetre, at first %g", v.k, whole)
	}
	v.resized(450, 300)
	if v.pageSize().Y > 300 {
		t.Error("in a smaller view the page is not fitted")
	}
}

// TestPagesSaved: what is saved from the sheet is what it shows, and afterwards it
// has the keyboard again.
func TestPagesSaved(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	p := r.pages()
	p.kind.SetSelectedIndex(2)
	r.ended(workPages)
	path := filepath.Join(t.TempDir(), "p.pdf")
	r.answer("Save PDF…")
	r.wait() // the listing of the folder
	name, _ := find(r.top().pop.Content, func(e *sheetEntry) bool { return e.PlaceHolder == "file name" })
	if !strings.HasSuffix(name.Text, "-test-pack.pdf") {
		t.Errorf("proposes %q", name.Text)
	}
	name.SetText(path)
	r.answer("Save")
	if r.w.win.Canvas().Focused() != fyne.Focusable(p.view) {
		t.Error("the page does not have the keyboard again")
	}
	for range 10 {
		if exists(path) && !r.w.bridge.Busy(workExport+" "+path) {
			break
		}
		r.wait()
	}
	got, err := os.ReadFile(path)
	var want bytes.Buffer
	if err == nil {
		err = p.pack.PDF(&want)
	}
	if err != nil || !bytes.Equal(got, want.Bytes()) {
		t.Errorf("%v: %d bytes written, %d shown", err, len(got), want.Len())
	}
	if !strings.HasPrefix(p.help.Text, "Saved p.pdf") {
		t.Errorf("below the pages stands %q, not what was saved", p.help.Text)
	}
	p.press(fyne.KeyEscape)
	r.noSheet()
}

// TestPagesCancelled: a pack that is cancelled says so and another can be chosen;
// PgDn on a button turns the page too.
func TestPagesCancelled(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("Pages")
	p := r.w.preview
	r.w.bridge.stop(r.w.bridge.current[workPages])
	if p.pack != nil || !strings.HasPrefix(p.note.Text, "Cancelled") {
		t.Errorf("cancelled, it says %q", p.note.Text)
	}
	r.answer("Save PDF…") // nothing to save
	if r.top() != p.sheet {
		t.Error("a file is asked for without pages")
	}
	p.kind.SetSelectedIndex(1)
	r.ended(workPages)
	if p.pack == nil || p.pack.Key != "site" || p.note.Visible() {
		t.Fatalf("after another choice: %v, %q", p.pack, p.note.Text)
	}
	p.next.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	p.kind.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	if p.at != 2 {
		t.Errorf("PgDn on a button and on a list leads to page %d", p.at+1)
	}
	test.Tap(p.back)
	if p.at != 1 {
		t.Errorf("Back leads to page %d", p.at+1)
	}
	p.choose(0) // closed while it is made
	p.press(fyne.KeyEscape)
	if r.w.bridge.Busy(workPages) {
		t.Error("pages of a closed sheet are still made")
	}
	r.noSheet()
}
