package board

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// diagramBinding is one thing that the circuit view does at a key. The list of keys
// is made of the same table.
type diagramBinding struct {
	keys  []fyne.KeyName
	runes string
	line  tool.KeyLine
	do    func(*Diagram, fyne.KeyName) // nil for what is done elsewhere, see KeyUp
}

func diagramBindings() []diagramBinding {
	plain := func(do func(*Diagram)) func(*Diagram, fyne.KeyName) {
		return func(d *Diagram, _ fyne.KeyName) { do(d) }
	}
	return []diagramBinding{
		{[]fyne.KeyName{fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown}, "",
			tool.KeyLine{Keys: "Arrows", What: "Go along the circuit; with Shift move the view"}, (*Diagram).arrow},
		{[]fyne.KeyName{fyne.KeyReturn, fyne.KeyEnter}, "", tool.KeyLine{Keys: "Return", What: "Show on the plan what is selected"}, plain((*Diagram).open)},
		{[]fyne.KeyName{fyne.KeyEscape}, "", tool.KeyLine{Keys: "Esc", What: "Take the ring away; without one select nothing"}, plain((*Diagram).escape)},
		{nil, "{", tool.KeyLine{Keys: "{", What: "Ring round the thing before; the selection stays"}, plain(func(d *Diagram) { d.walkRing(-1) })},
		{nil, "}", tool.KeyLine{Keys: "}", What: "Ring round the thing after"}, plain(func(d *Diagram) { d.walkRing(1) })},
		{nil, " ", tool.KeyLine{Keys: "Space", What: "Add what the ring is on to the selection, or take it out"}, nil},
		{[]fyne.KeyName{fyne.KeyDelete, fyne.KeyBackspace}, "", tool.KeyLine{Keys: "Del   Backspace", What: "Delete what is selected"}, plain((*Diagram).erase)},
		{[]fyne.KeyName{fyne.KeyPageUp}, "+=", tool.KeyLine{Keys: "+   Page up", What: "Zoom in"}, plain((*Diagram).ZoomIn)},
		{[]fyne.KeyName{fyne.KeyPageDown}, "-", tool.KeyLine{Keys: "-   Page down", What: "Zoom out"}, plain((*Diagram).ZoomOut)},
		{[]fyne.KeyName{fyne.KeyHome}, "fF", tool.KeyLine{Keys: "F   Home", What: "Fit all circuits to the window"}, plain((*Diagram).ZoomFit)},
		{[]fyne.KeyName{desktop.KeyMenu}, "", tool.KeyLine{Keys: "Menu key", What: "Menu of what is selected"}, plain((*Diagram).keyMenu)},
	}
}

// DiagramKeys lists the keys of the circuit view.
func DiagramKeys() (out []tool.KeyLine) {
	for _, b := range diagramBindings() {
		out = append(out, b.line)
	}
	return append(out, tool.KeyLine{Keys: "Letter of a tool", What: "Go to the plan with the tool in hand"})
}

// ways are the directions of the arrows, and where the view goes with Shift.
var ways = map[fyne.KeyName]struct {
	way  scene.Way
	x, y float32
}{
	fyne.KeyLeft: {scene.WayBack, 1, 0}, fyne.KeyRight: {scene.WayOn, -1, 0},
	fyne.KeyUp: {scene.WayAbove, 0, 1}, fyne.KeyDown: {scene.WayBelow, 0, -1},
}

// TypedKey implements fyne.Focusable.
func (d *Diagram) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape && d.cfg.OnEscape != nil && d.cfg.OnEscape() {
		return
	}
	for _, b := range diagramBindings() {
		if slices.Contains(b.keys, e.Name) {
			b.do(d, e.Name)
			return
		}
	}
	if d.cfg.OnKey != nil {
		d.cfg.OnKey(e.Name)
	}
}

// TypedRune implements fyne.Focusable.
func (d *Diagram) TypedRune(r rune) {
	for _, b := range diagramBindings() {
		if strings.ContainsRune(b.runes, r) {
			if b.do != nil {
				b.do(d, "")
			}
			return
		}
	}
	if d.cfg.OnRune != nil {
		d.cfg.OnRune(r)
	}
}

// TypedShortcut implements fyne.Shortcutable: none is ours.
func (d *Diagram) TypedShortcut(s fyne.Shortcut) {
	if d.cfg.OnShortcut != nil {
		d.cfg.OnShortcut(s)
	}
}

// arrow goes along the circuit, or with Shift moves the view.
func (d *Diagram) arrow(key fyne.KeyName) {
	const far = 60
	w := ways[key]
	if d.modifiers().Shift {
		d.pan(w.x*far, w.y*far)
	} else {
		d.step(w.way)
	}
}

// step selects what comes next along the circuit.
func (d *Diagram) step(way scene.Way) {
	d.prepare()
	if d.drawing == nil {
		return
	}
	d.dropRing()
	from := doc.ID("")
	if len(d.selected) > 0 {
		from = d.selected[len(d.selected)-1]
	}
	if id := d.drawing.Step(from, way); id != "" {
		d.choose(id)
		d.reveal(id)
	}
}

// escape takes the ring away, else selects nothing.
func (d *Diagram) escape() {
	if !d.dropRing() {
		d.choose()
	}
}

// erase asks the window to delete what is selected.
func (d *Diagram) erase() {
	if d.cfg.OnDelete != nil {
		d.cfg.OnDelete()
	}
}

// keyMenu opens the menu for the selection, where it stands.
func (d *Diagram) keyMenu() {
	if len(d.selected) == 0 || d.cfg.OnMenu == nil {
		return
	}
	at, _ := d.Where(d.selected[0])
	if app := fyne.CurrentApp(); app != nil {
		at = at.Add(app.Driver().AbsolutePositionForObject(d))
	}
	d.cfg.OnMenu(d.selected[0], at)
}
