package ui

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout/doc"
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
		if n := newColumns(s.scroll.Size().Width, nil).number; n != c.columns {
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

// inEveryView does a test over every view, over the standing view and over the plan
// with the section strip; back goes there again.
func inEveryView(t *testing.T, do func(t *testing.T, r *rig, back func())) {
	for _, view := range []string{"Plan", "Circuit", "Dig", "Dusk", "Standing view", "Section strip"} {
		t.Run(view, func(t *testing.T) {
			r := newRig(t, "townhouse.yaml")
			r.w.Fyne().Resize(fyne.NewSize(1280, 800))
			r.w.plan.Select(r.idOf("R3"))
			enter := func() {
				switch view {
				case "Section strip":
					r.w.Fyne().Canvas().Focus(r.w.side.strip)
				case "Standing view":
					if !r.w.standing.on {
						r.menu(view)
					}
					r.w.Fyne().Canvas().Focus(r.w.standing.view)
				default:
					r.menu(view)
				}
			}
			enter()
			do(t, r, enter)
		})
	}
}

// around visits what Tab comes to, beginning with what has the keyboard: everything
// over the plan, and over another view one of each kind.
func (r *rig) around(visit func(fyne.Focusable)) {
	r.t.Helper()
	c := r.w.Fyne().Canvas()
	seen, kinds := map[fyne.Focusable]bool{}, map[string]bool{}
	for f := c.Focused(); f != nil && !seen[f]; f = c.Focused() {
		seen[f] = true
		if kind := fmt.Sprintf("%T", f); !kinds[kind] || r.w.views.now == 0 && !r.w.standing.on {
			kinds[kind] = true
			visit(f)
			c.Focus(f)
		}
		c.FocusNext()
	}
	if len(seen) < 20 || !seen[r.w.views.current().in] {
		r.t.Fatalf("Tab came to %d parts, expected the whole window", len(seen))
	}
}

// F1 lists the keys wherever the keyboard is, and ? wherever no text is typed.
func TestF1FromEverywhere(t *testing.T) {
	inEveryView(t, func(t *testing.T, r *rig, _ func()) {
		c := r.w.Fyne().Canvas()
		r.around(func(f fyne.Focusable) {
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
			if len(r.w.sheets) != 1 {
				t.Fatalf("F1 does nothing in %T", f)
			}
			r.top().choose(0)
			c.Focus(f)
			if _, text := f.(*panel.Field); text {
				return
			}
			if f.TypedRune('?'); len(r.w.sheets) != 1 {
				t.Fatalf("? does nothing in %T", f)
			}
			r.top().choose(0)
		})
		c.Unfocus()
		if test.TypeOnCanvas(c, "?"); len(r.w.sheets) != 1 {
			t.Error("? does nothing where nothing has the keyboard")
		}
	})
}

// F6, F7, F8 and F9 work wherever the keyboard is, fields of the panel included.
func TestFunctionKeysFromEverywhere(t *testing.T) {
	inEveryView(t, func(t *testing.T, r *rig, _ func()) {
		c := r.w.Fyne().Canvas()
		states := map[fyne.KeyName]func() bool{
			fyne.KeyF7: func() bool { return r.w.side.off }, fyne.KeyF8: r.w.plan.Zones, fyne.KeyF9: r.w.plan.Hatch,
		}
		fields := 0
		r.around(func(f fyne.Focusable) {
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
			if f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF6}); c.Focused() == f {
				t.Fatalf("F6 does nothing in %T", f)
			}
		})
		least := 1 // of each kind one
		if r.w.views.now == 0 && !r.w.standing.on {
			least = 3
		}
		if fields < least {
			t.Fatalf("Tab came to %d fields of the panel, expected %d at least", fields, least)
		}
	})
}

// TestToolsFromEveryView: the letter of a tool takes it in hand from every view; what
// only draws on the plan goes there.
func TestToolsFromEveryView(t *testing.T) {
	inEveryView(t, func(t *testing.T, r *rig, back func()) {
		c := r.w.Fyne().Canvas()
		for _, tl := range tool.All(r.w.defaults) {
			c.Focused().TypedRune(tool.Letter(tl.Name()))
			if got := r.w.plan.Tool().Name(); got != tl.Name() || !r.w.onPlan() {
				t.Errorf("%c leaves %s in hand, on the plan %v", tool.Letter(tl.Name()), got, r.w.onPlan())
			}
			if c.Focused() != fyne.Focusable(r.w.plan) {
				t.Errorf("after %c the keyboard is with %T", tool.Letter(tl.Name()), c.Focused())
			}
			r.w.take(tool.NameSelect)
			back() // what draws on the plan went there
		}
	})
}

// TestCircuitDeletes: Del takes out what is selected in the circuit, in one step, and
// says when nothing is.
func TestCircuitDeletes(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	r.menu("Circuit")
	id := r.idOf("L8")
	r.w.plan.Select(id)
	del := func() { r.w.Fyne().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete}) }
	del()
	if doc.KindOf(r.desk.Frame().Scheme, id) != doc.NoKind || r.w.views.now != 1 || len(r.w.circuit.Selection()) != 0 {
		t.Errorf("L8 is there still, or the view is %d, selected %v", r.w.views.now, r.w.circuit.Selection())
	}
	del()
	if got := r.w.status.Hint(); !strings.Contains(got, "nothing was deleted") {
		t.Errorf("with nothing selected Del says %q", got)
	}
	r.w.undo()
	if doc.KindOf(r.desk.Frame().Scheme, id) != doc.LampKind {
		t.Error("undo does not bring L8 back")
	}
}

// TestKeysSayOnce: a line of the list does not say the name of a tool twice, and no
// line stands twice under a subject, nor a subject twice.
func TestKeysSayOnce(t *testing.T) {
	w := newRig(t, "townhouse.yaml").w
	names := map[string]bool{}
	for _, g := range w.keyGroups() {
		if names[g.name] {
			t.Errorf("%s stands twice", g.name)
		}
		names[g.name] = true
		said := map[tool.KeyLine]bool{}
		for _, l := range g.lines {
			if said[l] {
				t.Errorf("%s, %q stands twice under %s", l.Keys, l.What, g.name)
			}
			said[l] = true
			if name, says, ok := strings.Cut(l.What, ": "); ok && strings.HasPrefix(strings.ToLower(says), strings.ToLower(name)) {
				t.Errorf("%s: %q", l.Keys, l.What)
			}
		}
	}
}
