package board

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// grabFocus makes the keys come here; Fyne does not do so by itself when a
// widget of one's own is pressed.
func (b *Board) grabFocus() {
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(b); c != nil && c.Focused() != fyne.Focusable(b) {
			c.Focus(b)
		}
	}
}

// FocusGained implements fyne.Focusable.
func (b *Board) FocusGained() {
	b.in.focused = true
	b.showOver()
}

// FocusLost implements fyne.Focusable. A gesture goes on: when a drag ends
// outside the board the focus is lost before the drag has ended.
func (b *Board) FocusLost() {
	b.in.focused, b.in.space, b.in.keyed = false, false, false
	b.showOver()
}

// AcceptsTab implements fyne.Tabbable: Tab leaves the board.
func (b *Board) AcceptsTab() bool { return false }

// keyNames are the keys that tools know.
var keyNames = map[fyne.KeyName]string{
	fyne.KeyEscape: tool.KeyEscape, fyne.KeyReturn: tool.KeyReturn, fyne.KeyEnter: tool.KeyReturn,
	fyne.KeyBackspace: tool.KeyBackSpace, fyne.KeyDelete: tool.KeyDelete,
	fyne.KeyUp: tool.KeyUp, fyne.KeyDown: tool.KeyDown,
	fyne.KeyLeft: tool.KeyLeft, fyne.KeyRight: tool.KeyRight,
}

// arrows are the keys that move something.
var arrows = map[string]bool{tool.KeyUp: true, tool.KeyDown: true, tool.KeyLeft: true, tool.KeyRight: true}

// TypedKey implements fyne.Focusable.
func (b *Board) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape && b.cfg.OnEscape != nil && b.cfg.OnEscape() {
		return
	}
	if e.Name == fyne.KeyEscape && b.ringed() != "" && b.DropRing() {
		return
	}
	for _, k := range bindings() {
		if k.do != nil && slices.Contains(k.keys, e.Name) {
			k.do(b)
			return
		}
	}
	name, ok := keyNames[e.Name]
	if !ok {
		if b.cfg.OnKey != nil {
			b.cfg.OnKey(e.Name)
		}
		return
	}
	b.marked = ""
	mods := b.modifiers()
	if arrows[name] && b.Tool().Name() != tool.NameSelect && b.Tool().Name() != tool.NameMovePicture {
		b.movePointer(name, mods) // what was placed last is selected, and must stay where it is
		return
	}
	if v := b.send(tool.Event{Kind: tool.Key, Key: name, Mods: mods}); !v.Used {
		b.movePointer(name, mods)
	}
}

// movePointer moves the pointer by one step of the grid, so that everything
// can be placed without a mouse; with Shift by a centimetre.
func (b *Board) movePointer(key string, mods tool.Modifiers) {
	s := b.session.Scheme()
	if s == nil {
		return
	}
	fresh := !b.in.keyed
	to, step, ok := tool.Stepped(b.start(), key, s.Plan.Grid, mods.Shift, fresh)
	if !ok {
		return
	}
	b.in.jumps = nil
	b.goTo(to, step)
}

// start is where keys begin to move the pointer: where it is, else in the middle.
func (b *Board) start() geom.Point {
	if !b.in.inside && !b.in.keyed {
		b.in.pointer = b.middle()
	}
	return b.place()
}

// goTo takes the pointer to a place by keys, by a step or, with 0, a jump.
func (b *Board) goTo(to geom.Point, step geom.Length) {
	b.in.keyed, b.in.at, b.in.step, b.in.ring = true, to, step, ""
	if !b.view.area(b.Size()).Contains(to) {
		b.look(viewAt(to, b.view.denominator(), b.Size()))
	}
	b.in.pointer = b.view.at(to)
	b.send(tool.Event{Kind: tool.Move, Mods: b.modifiers()})
}

// place is where the pointer is on the plan: exactly where keys have put it, as long
// as the view has not moved below it.
func (b *Board) place() geom.Point {
	if b.in.keyed && near(b.view.at(b.in.at), b.in.pointer, 0.5) {
		return b.in.at
	}
	if at, ok := b.typed.place(b); ok {
		return at
	}
	return b.view.plan(b.in.pointer)
}

// jump takes the pointer to the next place near it that would catch it, or to the
// one before. Where it goes on to after that counts from where the first jump began.
func (b *Board) jump(by int) {
	if b.session.Scheme() == nil {
		return
	}
	in := &b.in
	if len(in.jumps) == 0 || b.place() != in.jumps[in.jump] {
		at := b.start()
		b.send(tool.Event{Kind: tool.Move, Mods: b.modifiers()})
		in.jumps = b.session.Jumps()
		if len(in.jumps) == 0 {
			b.session.Refuse("Nothing near the pointer would catch it")
			b.tell()
			return
		}
		in.jumps, in.jump = append([]geom.Point{at}, in.jumps...), 0
	}
	n := len(in.jumps)
	if in.jump = ((in.jump+by)%n + n) % n; in.jump == 0 { // where it began
		in.jump = (n + by) % n
	}
	b.goTo(in.jumps[in.jump], 0)
}

// zoomPoint is where the keys zoom: at the pointer, else in the middle.
func (b *Board) zoomPoint() fyne.Position {
	if b.in.inside || b.in.keyed {
		return b.in.pointer
	}
	return b.middle()
}

// keyMenu opens the menu for the selection, where it stands.
func (b *Board) keyMenu() {
	ids := b.session.Selection()
	if b.cfg.OnMenu == nil || b.frame == nil || len(ids) == 0 {
		return
	}
	at := b.view.at(tool.Extent(b.frame.Scheme, ids[0]).Centre())
	if app := fyne.CurrentApp(); app != nil {
		at = at.Add(app.Driver().AbsolutePositionForObject(b))
	}
	b.cfg.OnMenu(ids[0], at)
}

// TypedRune implements fyne.Focusable. The tool comes first, so that a length
// can be typed while a run is drawn.
func (b *Board) TypedRune(r rune) {
	if b.send(tool.Event{Kind: tool.Rune, Rune: r, Mods: b.modifiers()}).Used {
		b.in.spaceUsed = true
		return
	}
	if t := tool.ByLetter(b.cfg.Defaults, r); t != nil {
		b.SetTool(t)
		return
	}
	for _, k := range bindings() {
		if strings.ContainsRune(k.runes, r) {
			if k.do != nil {
				k.do(b)
			}
			return
		}
	}
	if b.cfg.OnRune != nil {
		b.cfg.OnRune(r)
	}
}

// KeyDown implements desktop.Keyable.
func (b *Board) KeyDown(e *fyne.KeyEvent) {
	if e.Name == fyne.KeySpace && !b.in.space {
		b.in.space, b.in.spaceUsed = true, false
	}
}

// KeyUp implements desktop.Keyable. A tap on the space bar is a click, or adds what
// the ring is on; held, it lets the left button pan.
func (b *Board) KeyUp(e *fyne.KeyEvent) {
	if e.Name != fyne.KeySpace || !b.in.space {
		return
	}
	b.in.space = false
	if b.in.spaceUsed || b.in.held != holdNone {
		return
	}
	if b.ringed() != "" && b.TakeRinged() {
		return
	}
	mods := b.modifiers()
	b.in.clicks = 0 // never half of a double click
	b.in.jumps = nil
	b.send(tool.Event{Kind: tool.Down, Button: tool.LeftButton, Mods: mods, Clicks: 1})
	b.send(tool.Event{Kind: tool.Up, Button: tool.LeftButton, Mods: mods, Clicks: 1})
}

// TypedShortcut implements fyne.Shortcutable. A focused widget gets all
// shortcuts, so those that are not ours go on to the window.
func (b *Board) TypedShortcut(s fyne.Shortcut) {
	if _, all := s.(*fyne.ShortcutSelectAll); all {
		b.send(tool.Event{Kind: tool.Key, Key: tool.KeySelectAll, Mods: b.modifiers()})
		return
	}
	if b.nudged(s) {
		return
	}
	if b.cfg.OnShortcut != nil {
		b.cfg.OnShortcut(s)
	}
}
