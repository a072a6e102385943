package board

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

func geomLength(um float64) geom.Length { return geom.Length(math.Round(um)) }

func (s *Strip) modifiers() tool.Modifiers {
	if s.cfg.Modifiers == nil {
		return tool.Modifiers{}
	}
	return s.cfg.Modifiers()
}

// MouseDown implements desktop.Mouseable.
func (s *Strip) MouseDown(e *desktop.MouseEvent) {
	s.grabFocus()
	in := &s.in
	if in.held || in.sizing {
		return
	}
	in.pointer, in.inside, in.abs = e.Position, true, e.AbsolutePosition
	s.rest.off()
	switch {
	case e.Button == desktop.MouseButtonSecondary:
		s.choose()
		if s.cfg.OnMenu != nil && s.profile != nil {
			s.cfg.OnMenu(s.leg(), e.AbsolutePosition)
		}
	case e.Button != desktop.MouseButtonPrimary:
	case e.Position.Y <= stripEdge:
		in.sizing = true
	default:
		now := s.cfg.Now()
		if in.clicks == 1 && now.Sub(in.lastPress) <= doubleTime && near(e.Position, in.lastAt, doubleUnits) {
			in.clicks = 2
		} else {
			in.clicks = 1
		}
		in.lastPress, in.lastAt = now, e.Position
		in.held = true
		s.send(tool.Event{Kind: tool.Down, Button: tool.LeftButton, Mods: s.modifiers(), Clicks: in.clicks})
	}
}

// choose takes the part under the pointer without moving it.
func (s *Strip) choose() {
	s.send(tool.Event{Kind: tool.Down, Button: tool.LeftButton, Clicks: 1})
	s.send(tool.Event{Kind: tool.Up, Button: tool.LeftButton, Clicks: 1})
}

// leg is the chosen leg from 0, -1 for an end.
func (s *Strip) leg() int {
	if p := s.Part(); p >= 1 && p <= len(s.profile.Legs) {
		return p - 1
	}
	return -1
}

// MouseUp implements desktop.Mouseable.
func (s *Strip) MouseUp(e *desktop.MouseEvent) {
	if e.Button == desktop.MouseButtonPrimary {
		s.release(e.Position)
	}
}

// release ends what the held button did.
func (s *Strip) release(at fyne.Position) {
	s.in.sizing = false
	if !s.in.held {
		return
	}
	s.in.pointer = at
	v := s.send(tool.Event{Kind: tool.Up, Button: tool.LeftButton, Mods: s.modifiers(), Clicks: s.in.clicks})
	s.in.held = false
	if v.Commit == nil {
		s.redraw()
		return
	}
	s.unroll() // the scale may follow again
}

// Dragged implements fyne.Draggable.
func (s *Strip) Dragged(e *fyne.DragEvent) { s.moveTo(e.Position) }

// DragEnd implements fyne.Draggable. Outside the strip it is all that comes.
func (s *Strip) DragEnd() {
	if s.in.held || s.in.sizing {
		s.release(s.in.pointer)
		s.grabFocus()
	}
}

// MouseIn implements desktop.Hoverable.
func (s *Strip) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (s *Strip) MouseMoved(e *desktop.MouseEvent) {
	s.in.inside = true
	if (s.in.held || s.in.sizing) && e.Button&desktop.MouseButtonPrimary == 0 {
		s.release(e.Position) // let go where nobody told us
	}
	s.moveTo(e.Position)
}

// MouseOut implements desktop.Hoverable.
func (s *Strip) MouseOut() {
	s.in.inside = false
	s.rest.off()
	s.showOver()
}

func (s *Strip) moveTo(p fyne.Position) {
	if s.in.sizing {
		s.setHeight(s.height - (p.Y - stripEdge/2))
		return
	}
	s.in.pointer = p
	e := tool.Event{Kind: tool.Move, Mods: s.modifiers()}
	if s.in.held {
		e.Button = tool.LeftButton
	}
	s.send(e)
	s.rests()
}

// setHeight asks the window for another height.
func (s *Strip) setHeight(h float32) {
	h = min(max(h, stripLeast), stripMost)
	if h != s.height {
		s.height = h
		if s.cfg.OnHeight != nil {
			s.cfg.OnHeight()
		}
	}
}

// Cursor implements desktop.Cursorable.
func (s *Strip) Cursor() desktop.Cursor {
	if s.in.sizing || s.in.pointer.Y <= stripEdge || s.in.held || s.session.Overlay().Note != "" {
		return desktop.VResizeCursor
	}
	return desktop.DefaultCursor
}

func (s *Strip) grabFocus() {
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(s); c != nil && c.Focused() != fyne.Focusable(s) {
			c.Focus(s)
		}
	}
}

// FocusGained implements fyne.Focusable.
func (s *Strip) FocusGained() {
	s.in.focused = true
	if !s.in.held {
		s.send(tool.Event{Kind: tool.Cancel}) // says what can be done here
	}
	s.showOver()
}

// FocusLost implements fyne.Focusable. What was being typed is dropped; a drag
// goes on.
func (s *Strip) FocusLost() {
	s.in.focused = false
	if !s.in.held {
		s.send(tool.Event{Kind: tool.Cancel})
	}
	s.showOver()
}

// TypedKey implements fyne.Focusable.
func (s *Strip) TypedKey(e *fyne.KeyEvent) {
	s.rest.off()
	if e.Name == desktop.KeyMenu && s.profile != nil && s.cfg.OnMenu != nil {
		at := fyne.NewPos(s.Size().Width/2, s.Size().Height/2)
		if app := fyne.CurrentApp(); app != nil {
			at = at.Add(app.Driver().AbsolutePositionForObject(s))
		}
		s.cfg.OnMenu(s.leg(), at)
		return
	}
	name, ok := keyNames[e.Name]
	if ok && name != tool.KeyDelete && s.send(tool.Event{Kind: tool.Key, Key: name, Mods: s.modifiers()}).Used {
		return
	}
	if s.cfg.OnKey != nil {
		s.cfg.OnKey(e.Name)
	}
}

// TypedRune implements fyne.Focusable.
func (s *Strip) TypedRune(r rune) {
	if s.send(tool.Event{Kind: tool.Rune, Rune: r, Mods: s.modifiers()}).Used {
		return
	}
	switch r {
	case '+', '=':
		s.setHeight(s.height + 30)
	case '-':
		s.setHeight(s.height - 30)
	default:
		if s.cfg.OnRune != nil {
			s.cfg.OnRune(r)
		}
	}
}

// StripKeys lists the keys of the section strip.
func StripKeys() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "← →", What: "Choose a leg or an end"},
		{Keys: "↑ ↓", What: "Raise or lower it by 50 mm; with Shift by 10 mm, with Alt by 1 mm"},
		{Keys: "Return", What: "Type its depth or height; Return takes it, Backspace takes back a figure, Esc drops it"},
		{Keys: "1 to 6", What: "The chosen leg: clipped, buried, in duct, on a structure, in a tree, indoors"},
		{Keys: "+   -", What: "Make the strip higher, lower"},
		{Keys: "Menu key", What: "Menu of the chosen leg"},
		{Keys: "Esc", What: "Back to the plan"},
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (s *Strip) TypedShortcut(k fyne.Shortcut) {
	if s.cfg.OnShortcut != nil {
		s.cfg.OnShortcut(k)
	}
}
