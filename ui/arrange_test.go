package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// entryOf returns the menu entry whose label starts with the name, menus within
// menus included.
func (r *rig) entryOf(name string) *fyne.MenuItem {
	r.t.Helper()
	var found *fyne.MenuItem
	var look func([]*fyne.MenuItem)
	look = func(items []*fyne.MenuItem) {
		for _, i := range items {
			if found == nil && strings.HasPrefix(i.Label, name) && i.ChildMenu == nil {
				found = i
			}
			if i.ChildMenu != nil {
				look(i.ChildMenu.Items)
			}
		}
	}
	for _, m := range r.w.Fyne().MainMenu().Items {
		look(m.Items)
	}
	if found == nil {
		r.t.Fatalf("no menu entry %q", name)
	}
	return found
}

// lamps returns the ids of the first n lamps of the scheme.
func (r *rig) lamps(n int) []doc.ID {
	var ids []doc.ID
	for _, l := range r.desk.Frame().Scheme.Lamps.All()[:n] {
		ids = append(ids, l.ID)
	}
	return ids
}

func TestArrangeMenuAligns(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	ids := r.lamps(3)
	r.w.plan.Select(ids...)
	r.entryOf("On a level line").Action()
	s := r.desk.Frame().Scheme
	a, _ := doc.PointOf(s, ids[0])
	for _, id := range ids {
		if p, _ := doc.PointOf(s, id); p.At.Y != a.At.Y {
			t.Errorf("%s at %v is not level with %v", doc.TagOf(s, id), p.At, a.At)
		}
	}
	if got := r.desk.Frame().Undo; got != "Align 3 lamps on a level line" {
		t.Errorf("the step is %q", got)
	}
	// Once more changes nothing, which is said.
	r.entryOf("On a level line").Action()
	if r.desk.Frame().Scheme != s || !strings.Contains(texts(r.w.Fyne().Content()), "it is so already") {
		t.Error("nothing is said when nothing had to change")
	}
	// Refused in words, and nothing is done.
	r.w.plan.Select(ids[0])
	r.entryOf("On a level line").Action()
	if r.desk.Frame().Scheme != s || !strings.Contains(texts(r.w.Fyne().Content()), "at least 2 things") {
		t.Error("aligning one thing was not refused in words")
	}
}

// What is copied is pasted from the text on the clipboard, and a hostile text
// is refused.
func TestCopyAndPaste(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.plan.Select(r.lamps(2)...)
	before := r.desk.Frame().Scheme
	r.entryOf("Copy").Action()
	text := fyne.CurrentApp().Clipboard().Content()
	if !strings.HasPrefix(text, "duskwire-fragment: 1\n") {
		t.Fatalf("on the clipboard: %q", text)
	}
	r.entryOf("Paste").Action()
	r.wait()
	s := r.desk.Frame().Scheme
	if s.Lamps.Len() != before.Lamps.Len()+2 || len(r.w.plan.Selection()) < 2 || !strings.HasPrefix(r.desk.Frame().Undo, "Paste 2 ") {
		t.Errorf("%d lamps, %d selected, step %q", s.Lamps.Len(), len(r.w.plan.Selection()), r.desk.Frame().Undo)
	}
	fyne.CurrentApp().Clipboard().SetContent(strings.Replace(text, "stock: ", "stock: no-", 1))
	r.entryOf("Paste").Action()
	r.wait()
	if said := texts(r.w.Fyne().Content()); r.desk.Frame().Scheme != s || !strings.Contains(said, "expected a lamp of the stock book") {
		t.Errorf("a text with an unknown stock item: %s", said)
	}
	fyne.CurrentApp().Clipboard().SetContent("rm -rf")
	r.entryOf("Paste").Action()
	if said := texts(r.w.Fyne().Content()); !strings.Contains(said, "The clipboard holds no part of a scheme") {
		t.Errorf("a text that is no part of a scheme: %s", said)
	}
	r.menu("Undo")
	if r.desk.Frame().Scheme != before {
		t.Error("undo of the paste is not the scheme of before")
	}
}

func TestCutAndDuplicate(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	n := r.desk.Frame().Scheme.Lamps.Len()
	r.w.plan.Select(r.lamps(1)...)
	r.entryOf("Duplicate").Action()
	if got := r.desk.Frame(); got.Scheme.Lamps.Len() != n+1 || !strings.HasPrefix(got.Undo, "Duplicate ") {
		t.Errorf("%d lamps, step %q", got.Scheme.Lamps.Len(), got.Undo)
	}
	r.entryOf("Cut").Action()
	if got := r.desk.Frame(); got.Scheme.Lamps.Len() != n || !strings.HasPrefix(got.Undo, "Cut ") {
		t.Errorf("%d lamps, step %q", got.Scheme.Lamps.Len(), got.Undo)
	}
}

// A locked thing says so and stays; the panel shows and takes off the lock.
func TestLockFromTheMenu(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	id := r.lamps(1)[0]
	r.w.plan.Select(id)
	r.entryOf("Lock or unlock").Action()
	s := r.desk.Frame().Scheme
	if l, _ := s.Lamps.Get(id); !l.Lock || r.desk.Frame().Undo != "Lock "+l.Tag {
		t.Fatalf("lamp %+v, step %q", l, r.desk.Frame().Undo)
	}
	r.menu("Delete")
	if r.desk.Frame().Scheme != s || !strings.Contains(texts(r.w.Fyne().Content()), "is locked in its place; unlock it first (Ctrl+L)") {
		t.Error("a locked lamp was deleted, or nothing was said")
	}
	r.entryOf("Lock or unlock").Action()
	if l, _ := r.desk.Frame().Scheme.Lamps.Get(id); l.Lock {
		t.Error("the lock is still on")
	}
}

func TestSheetsOfArranging(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	ids := r.lamps(2)
	s := r.desk.Frame().Scheme
	r.w.plan.Select(ids...)
	r.entryOf("Rotate by").Action()
	entry, _ := find(r.top().pop.Content, func(*sheetEntry) bool { return true })
	entry.SetText("north")
	r.answer("Rotate")
	if len(r.w.sheets) != 1 || r.desk.Frame().Scheme != s {
		t.Fatal("a turn by no number was taken")
	}
	entry.SetText("-30")
	r.answer("Rotate")
	r.noSheet()
	if got := r.desk.Frame().Undo; got != "Rotate 2 lamps 30° clockwise" {
		t.Errorf("the step is %q", got)
	}
	r.w.plan.Select(ids[0])
	r.entryOf("Repeat").Action()
	r.answer("Repeat")
	p, _ := doc.PointOf(r.desk.Frame().Scheme, ids[0])
	last := r.w.plan.Selection()
	q, _ := doc.PointOf(r.desk.Frame().Scheme, last[len(last)-1])
	if len(last) != 4 || q.At != p.At.Add(geom.Pt(3, 0)) {
		t.Errorf("%d selected, the last at %v, want 3 m right of %v", len(last), q.At, p.At)
	}
	r.w.plan.Select()
	r.entryOf("By kind, zone or stock").Action()
	pick, _ := find(r.top().pop.Content, func(c *sheetSelect) bool { return true })
	for i, o := range pick.Options {
		if strings.HasPrefix(o, "Kind: box,") {
			pick.SetSelectedIndex(i)
		}
	}
	r.answer("Select")
	if got, want := len(r.w.plan.Selection()), r.desk.Frame().Scheme.Boxes.Len(); got != want || want == 0 {
		t.Errorf("%d selected, want %d boxes", got, want)
	}
}

// What is typed on the plan shows in the tray.
func TestTrayFollowsTheSeries(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.w.take(tool.NameRow)
	for _, c := range "w12" {
		r.w.plan.TypedRune(c)
	}
	r.w.plan.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	var chosen []string
	walk(r.w.tray.below, func(o fyne.CanvasObject) bool {
		if p, ok := o.(*panel.Pick); ok {
			chosen = append(chosen, p.Selected)
		}
		return true
	})
	if got := strings.Join(chosen[1:], ", "); got != "12 lamps, With runs" {
		t.Errorf("the tray shows %s", got)
	}
}

// No two entries answer to one shortcut, those of menus within menus included.
func TestNoShortcutTwice(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	seen := map[string]string{}
	var look func([]*fyne.MenuItem)
	look = func(items []*fyne.MenuItem) {
		for _, i := range items {
			if i.Shortcut != nil {
				if other := seen[i.Shortcut.ShortcutName()]; other != "" {
					t.Errorf("%s and %s both have %s", other, i.Label, i.Shortcut.ShortcutName())
				}
				seen[i.Shortcut.ShortcutName()] = i.Label
			}
			if i.ChildMenu != nil {
				look(i.ChildMenu.Items)
			}
		}
	}
	for _, m := range r.w.Fyne().MainMenu().Items {
		look(m.Items)
	}
}
