package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/tool"
	"duskwire/ui/board"
	"duskwire/ui/panel"
)

// eachEntry visits every entry of the menu bar, menus within menus included.
func (r *rig) eachEntry(f func(menu string, i *fyne.MenuItem)) {
	var look func(string, []*fyne.MenuItem)
	look = func(menu string, items []*fyne.MenuItem) {
		for _, i := range items {
			f(menu, i)
			if i.ChildMenu != nil {
				look(menu, i.ChildMenu.Items)
			}
		}
	}
	for _, m := range r.w.Fyne().MainMenu().Items {
		look(m.Label, m.Items)
	}
}

// TestListOfKeysIsWhole: the list is made of what the menus, the tools and the
// plan use, so nothing that has a key may be missing in it, and no key may mean
// two things.
func TestListOfKeysIsWhole(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	listed := map[string]map[string]bool{} // keys by subject
	all := map[string]int{}
	for _, g := range r.w.keyGroups() {
		listed[g.name] = map[string]bool{}
		for _, l := range g.lines {
			if l.Keys == "" || l.What == "" {
				t.Errorf("%s: a line without keys or words: %+v", g.name, l)
			}
			listed[g.name][l.Keys] = true
			all[l.Keys]++
		}
	}
	shortcuts, entries := map[string]string{}, 0
	r.eachEntry(func(menu string, i *fyne.MenuItem) {
		if i.Shortcut != nil {
			if was := shortcuts[i.Shortcut.ShortcutName()]; was != "" {
				t.Errorf("%s stands for %q and for %q", i.Shortcut.ShortcutName(), was, i.Label)
			}
			shortcuts[i.Shortcut.ShortcutName()] = i.Label
		}
		_, keys, shown := strings.Cut(i.Label, "      ")
		keys = strings.TrimSpace(keys)
		if i.Shortcut != nil && keys == "" {
			t.Errorf("%q has a shortcut and shows none", i.Label)
		}
		if shown && keys != "" {
			entries++
			if !listed["Menu "+menu][keys] {
				t.Errorf("%s of the menu %s is not in the list", keys, menu)
			}
		}
	})
	if entries < 50 {
		t.Fatalf("looked at %d entries, expected the whole menu bar", entries)
	}
	for _, tl := range tool.All(tool.NewDefaults()) {
		if key := toolKey(tl.Name()); all[key] == 0 {
			t.Errorf("%s of %s is not in the list", key, tl.Name())
		}
	}
	for _, l := range append(board.Keys(), tool.Keys()...) {
		if all[l.Keys] == 0 {
			t.Errorf("%s is not in the list", l.Keys)
		}
	}
	for _, k := range windowKeys() {
		if !listed["In the window"][k.line.Keys] {
			t.Errorf("%s of the window is not in the list", k.line.Keys)
		}
	}
}

// TestListOfKeysFits: three columns in a large window, one in a small one, and
// the sheet inside the window both times; the arrows scroll it.
func TestListOfKeysFits(t *testing.T) {
	for _, c := range []struct {
		size    fyne.Size
		columns int
	}{{fyne.NewSize(1280, 800), 3}, {fyne.NewSize(640, 400), 1}} {
		r := newRig(t, "townhouse.yaml")
		r.w.Fyne().Resize(c.size)
		r.w.keys()
		s := r.top()
		got := s.pop.Content.MinSize()
		if got.Width > c.size.Width || got.Height > c.size.Height {
			t.Errorf("the sheet is %v in a window of %v", got, c.size)
		}
		if n := (columns{s.scroll.Size().Width}).number(); n != c.columns {
			t.Errorf("%d columns in %v, expected %d", n, c.size, c.columns)
		}
		s.buttons[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
		if s.scroll.Offset.Y == 0 {
			t.Error("Page down does not scroll")
		}
		s.buttons[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		r.noSheet()
	}
}

// F1 and ? list the keys wherever the keyboard is.
func TestF1FromEverywhere(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	c := r.w.Fyne().Canvas()
	seen := map[fyne.Focusable]bool{}
	for range 200 {
		c.FocusNext()
		f := c.Focused()
		if f == nil || seen[f] {
			break
		}
		seen[f] = true
		f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
		if len(r.w.sheets) != 1 {
			t.Fatalf("F1 does nothing in %T", f)
		}
		r.top().choose(0)
		c.Focus(f)
	}
	if len(seen) < 20 {
		t.Fatalf("Tab came to %d parts, expected the whole window", len(seen))
	}
	c.Unfocus()
	test.TypeOnCanvas(c, "?")
	if len(r.w.sheets) != 1 {
		t.Error("? does nothing")
	}
}

// F7, F8 and F9 work wherever the keyboard is, fields of the panel included.
func TestFunctionKeysFromEverywhere(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	c := r.w.Fyne().Canvas()
	r.w.plan.Select(r.idOf("R3"))
	c.Focus(r.w.plan)
	states := map[fyne.KeyName]func() bool{
		fyne.KeyF7: func() bool { return r.w.side.off }, fyne.KeyF8: r.w.plan.Zones, fyne.KeyF9: r.w.plan.Hatch,
	}
	seen, fields := map[fyne.Focusable]bool{}, 0
	for range 200 {
		c.FocusNext()
		f := c.Focused()
		if f == nil || seen[f] {
			break
		}
		seen[f] = true
		if _, ok := f.(*panel.Field); ok {
			fields++
		}
		for key, state := range states {
			before := state()
			f.TypedKey(&fyne.KeyEvent{Name: key})
			if state() == before {
				t.Fatalf("%s does nothing in %T", key, f)
			}
			c.Focus(f)
			f.TypedKey(&fyne.KeyEvent{Name: key})
			c.Focus(f)
		}
	}
	if len(seen) < 20 || fields < 3 {
		t.Fatalf("Tab came to %d parts with %d fields, expected the whole window", len(seen), fields)
	}
}

// TestKeysSayOnce: a line of the list does not say the name of a tool twice.
func TestKeysSayOnce(t *testing.T) {
	w := newRig(t, "townhouse.yaml").w
	for _, g := range w.keyGroups() {
		for _, l := range g.lines {
			if name, says, ok := strings.Cut(l.What, ": "); ok && strings.HasPrefix(strings.ToLower(says), strings.ToLower(name)) {
				t.Errorf("%s: %q", l.Keys, l.What)
			}
		}
	}
}
