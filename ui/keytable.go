package ui

import (
	"slices"
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
		{"", tool.KeyLine{Keys: "Return, Space", What: "Press what has the ring; open a finding; go to the chosen length, step or reading; commit a field"}, nil},
		{fyne.KeyEscape, tool.KeyLine{Keys: "Esc", What: "Hide a hint; in a field take back typing; back to the plan; close a question"}, nil},
		{"", tool.KeyLine{Keys: "← →", What: "On the tabs: choose one, Home and End the first and the last; Return or ↓ goes into it"}, nil},
		{"", tool.KeyLine{Keys: "↑ ↓", What: "In a list: the row above, the row below"}, nil},
		{"", tool.KeyLine{Keys: "Ctrl+Shift+Z", What: "Redo, as Ctrl+Y"}, nil},
		{"", tool.KeyLine{Keys: "Ctrl++", What: "Zoom in, as Ctrl+="}, nil},
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
	add("Section strip", board.StripKeys())
	add("Standing view", standLines())
	add("Readings", readingLines())
	add("Price list", priceLines())
	add("Questions and lists", sheetLines())
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

// keys lists the keys. To write all of them takes longer than a frame, so the sheet
// opens with the first and the others follow in later turns.
func (w *Window) keys() {
	room := w.sheetRoom()
	least := fyne.NewSize(min(room.Width, keysWidth), min(room.Height, keysHeight))
	groups := w.keyGroups()
	body := container.New(newColumns(least.Width-scrollRoom, groups))
	s := w.openSheet("Keys and mouse", least, func(s *sheet) fyne.CanvasObject {
		return s.long(body)
	}, answer{text: "Close", main: true, cancel: true})
	s.focus(s.buttons[0])
	written := 0
	var write func()
	write = func() {
		if !slices.Contains(w.sheets, s) {
			return // closed meanwhile
		}
		for lines := 0; written < len(groups) && (lines < keysATurn || w.panels.later == nil); written++ {
			body.Objects = append(body.Objects, keyBox(groups[written]))
			lines += len(groups[written].lines)
		}
		body.Refresh()
		s.scroll.Refresh()
		if written < len(groups) {
			w.panels.later(write)
		}
	}
	write()
}

// keysATurn is how many lines are written in one turn of the loop at least.
const keysATurn = 14

// keyBox is one subject with its keys.
func keyBox(g keyGroup) fyne.CanvasObject {
	head := widget.NewLabel(g.name)
	head.TextStyle.Bold = true
	box := container.New(layout.NewCustomPaddedVBoxLayout(0), head)
	for _, l := range g.lines {
		name, what := small(l.Keys), small(l.What)
		name.TextStyle.Bold = true
		name.Wrapping, what.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
		box.Objects = append(box.Objects, container.New(keyLine{}, name, what))
	}
	return box
}

// The sheet of the keys at its largest, and what its scroll bar takes.
const (
	keysWidth, keysHeight = 1180, 620
	scrollRoom            = 14
	columnLeast           = 370
)

// columns sets groups side by side in as many columns as the width has room for,
// one after the other, all about as long. Which column a group is in does not depend
// on those that are written yet, so that none moves when one comes.
type columns struct {
	width  float32
	number int
	in     []int // column of each group
	placed map[fyne.CanvasObject]float32
}

func newColumns(width float32, groups []keyGroup) *columns {
	c := &columns{width: width, number: max(1, int(width/columnLeast)), placed: map[fyne.CanvasObject]float32{}}
	total := float32(0)
	for _, g := range groups {
		total += g.about()
	}
	col, done, first := 0, float32(0), true
	for _, g := range groups {
		high := g.about()
		if col < c.number-1 && !first && done+high/2 > total*float32(col+1)/float32(c.number) {
			col++
		}
		first = false
		c.in, done = append(c.in, col), done+high
	}
	return c
}

// about is roughly how high a group gets, in lines.
func (g *keyGroup) about() float32 {
	const keys, words = 17, 38 // letters a line holds
	high := float32(2)
	for _, l := range g.lines {
		high += float32(max(1, (len([]rune(l.Keys))+keys-1)/keys, (len([]rune(l.What))+words-1)/words))
	}
	return high
}

// place gives every group its width and place and returns the height of all.
func (c *columns) place(o []fyne.CanvasObject) float32 {
	wide := c.width / float32(c.number)
	ends, most := make([]float32, c.number), float32(0)
	for i, g := range o {
		high, ok := c.placed[g]
		if !ok {
			g.Resize(fyne.NewSize(wide, 0)) // words know their lines once they have a width
			g.Resize(fyne.NewSize(wide, g.MinSize().Height))
			high = g.MinSize().Height
			c.placed[g] = high
		}
		g.Resize(fyne.NewSize(wide, high))
		y := &ends[c.in[i]]
		g.Move(fyne.NewPos(float32(c.in[i])*wide, *y))
		*y += high + groupGap
		most = max(most, *y)
	}
	return most
}

const groupGap = 8

// MinSize implements fyne.Layout.
func (c *columns) MinSize(o []fyne.CanvasObject) fyne.Size { return fyne.NewSize(c.width, c.place(o)) }

// Layout implements fyne.Layout.
func (c *columns) Layout(o []fyne.CanvasObject, _ fyne.Size) { c.place(o) }

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
