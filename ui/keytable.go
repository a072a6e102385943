package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/tool"
	"duskwire/ui/board"
)

// windowKey is a key of the whole window that stands in no menu. The list of
// keys is made of the same table.
type windowKey struct {
	key  fyne.KeyName // "" for what Fyne does by itself
	line tool.KeyLine
	do   func(*Window)
}

func windowKeys() []windowKey {
	return []windowKey{
		{"", tool.KeyLine{Keys: "Tab, Shift+Tab", What: "Go through tools, plan, findings, tabs, panel and bottom line, and back"}, nil},
		{fyne.KeyF6, tool.KeyLine{Keys: "F6, Shift+F6", What: "To the next part of the window, the one before"}, func(w *Window) {
			if modifiers().Shift {
				w.nextRegion(-1)
			} else {
				w.nextRegion(1)
			}
		}},
		{fyne.KeyF1, tool.KeyLine{Keys: "F1, ?", What: "This list"}, (*Window).keys},
		{"", tool.KeyLine{Keys: "Return, Space", What: "Press what has the ring; open a finding; commit a field"}, nil},
		{fyne.KeyEscape, tool.KeyLine{Keys: "Esc", What: "Hide a hint; back to the plan; close a question; in a field take back typing"}, nil},
		{"", tool.KeyLine{Keys: "← →", What: "On the tabs: choose one; Return goes into it"}, nil},
		{"", tool.KeyLine{Keys: "Alt", What: "Open the menus; arrows and Return choose"}, nil},
	}
}

// windowKey does what a key of the whole window does, and reports whether it is
// one.
func (w *Window) windowKey(name fyne.KeyName) bool {
	if name == fyne.KeyEscape && w.tips.Hide() {
		return true
	}
	for _, k := range windowKeys() {
		if k.key == name && k.do != nil {
			k.do(w)
			return true
		}
	}
	return false
}

// keyGroup is one subject of the list of keys.
type keyGroup struct {
	name  string
	lines []tool.KeyLine
}

// keyGroups is the whole list: the menus, then what the plan, the tools and the
// window answer to.
func (w *Window) keyGroups() []keyGroup {
	var out []keyGroup
	add := func(name string, lines []tool.KeyLine) {
		if len(lines) > 0 {
			out = append(out, keyGroup{name, lines})
		}
	}
	add("On the plan", board.Keys())
	add("Mouse on the plan", board.Gestures())
	add("While drawing and changing", tool.Keys())
	add("In the window", windowLines())
	for _, m := range w.menus.main.Items {
		add("Menu "+m.Label, w.menuLines(m, ""))
	}
	add("Circuit view", board.DiagramKeys())
	add("Standing view", standLines())
	add("Pages on screen", pageLines())
	return out
}

func windowLines() (out []tool.KeyLine) {
	for _, k := range windowKeys() {
		out = append(out, k.line)
	}
	return out
}

// menuLines lists the entries of a menu, and of those within it, that have keys.
func (w *Window) menuLines(m *fyne.Menu, within string) (out []tool.KeyLine) {
	for _, e := range w.menus.entries[m] {
		name := e.name
		switch e { // these name the step as well
		case w.menus.undo:
			name = "Undo"
		case w.menus.redo:
			name = "Redo"
		}
		switch says := tool.Says(name); {
		case strings.HasPrefix(says, name): // "Row of lamps at a spacing" says it all
			name = says
		case says != "":
			name += ": " + lowerFirst(says)
		}
		if e.keys != "" {
			out = append(out, tool.KeyLine{Keys: e.keys, What: within + strings.TrimSuffix(name, "…")})
		}
		if e.ChildMenu != nil {
			out = append(out, w.menuLines(e.ChildMenu, e.name+": ")...)
		}
	}
	return out
}

// keys lists the keys.
func (w *Window) keys() {
	room := w.sheetRoom()
	least := fyne.NewSize(min(room.Width, keysWidth), min(room.Height, keysHeight))
	s := w.openSheet("Keys and mouse", least, func(s *sheet) fyne.CanvasObject {
		var groups []fyne.CanvasObject
		for _, g := range w.keyGroups() {
			head := widget.NewLabel(g.name)
			head.TextStyle.Bold = true
			box := container.New(layout.NewCustomPaddedVBoxLayout(0), head)
			for _, l := range g.lines {
				name, what := small(l.Keys), small(l.What)
				name.TextStyle.Bold = true
				name.Wrapping, what.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
				box.Add(container.New(keyLine{}, name, what))
			}
			groups = append(groups, box)
		}
		return s.long(container.New(columns{least.Width - scrollRoom}, groups...))
	}, answer{text: "Close", main: true, cancel: true})
	s.focus(s.buttons[0])
}

// The sheet of the keys at its largest, and what its scroll bar takes.
const (
	keysWidth, keysHeight = 1180, 620
	scrollRoom            = 14
	columnLeast           = 370
)

// columns sets groups side by side in as many columns as the width has room for,
// one after the other, all about as long.
type columns struct{ width float32 }

func (c columns) number() int { return max(1, int(c.width/columnLeast)) }

// place gives every group its width and place and returns the height of all.
func (c columns) place(o []fyne.CanvasObject) float32 {
	n := c.number()
	wide := c.width / float32(n)
	total := float32(0)
	for _, g := range o {
		g.Resize(fyne.NewSize(wide, 0)) // words know their lines once they have a width
		g.Resize(fyne.NewSize(wide, g.MinSize().Height))
		g.Resize(fyne.NewSize(wide, g.MinSize().Height))
		total += g.Size().Height + groupGap
	}
	col, y, most, done := 0, float32(0), float32(0), float32(0)
	for _, g := range o {
		high := g.Size().Height + groupGap
		if col < n-1 && y > 0 && done+high/2 > total*float32(col+1)/float32(n) {
			col, y = col+1, 0
		}
		g.Move(fyne.NewPos(float32(col)*wide, y))
		y, done = y+high, done+high
		most = max(most, y)
	}
	return most
}

const groupGap = 8

// MinSize implements fyne.Layout.
func (c columns) MinSize(o []fyne.CanvasObject) fyne.Size { return fyne.NewSize(c.width, c.place(o)) }

// Layout implements fyne.Layout.
func (c columns) Layout(o []fyne.CanvasObject, _ fyne.Size) { c.place(o) }

// keyLine sets a key and its meaning side by side.
type keyLine struct{}

const keyWidth = 138

// keyTuck is what lines are closer than the padding of their words.
const keyTuck = 7

func (keyLine) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(keyWidth+120, max(o[0].MinSize().Height, o[1].MinSize().Height)-keyTuck)
}

func (keyLine) Layout(o []fyne.CanvasObject, size fyne.Size) {
	up := -float32(keyTuck) / 2
	o[0].Move(fyne.NewPos(0, up))
	o[0].Resize(fyne.NewSize(keyWidth, size.Height+keyTuck))
	left := keyWidth - theme.Size(theme.SizeNameInnerPadding)
	o[1].Move(fyne.NewPos(left, up))
	o[1].Resize(fyne.NewSize(size.Width-left, size.Height+keyTuck))
}
