package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout/journal"
)

// cautions are said at the start, in the About sheet and in the README.
var cautions = []string{
	"Duskwire is a design aid. It compares a drawing with the limits of a rule set; it does not certify anything.",
	"Isolate and prove dead before you work on any circuit.",
	"Do not dig on a drawing alone: locate buried services first.",
	"Local law and code, and a licensed or otherwise competent person, decide. What is not known is reported, not guessed.",
	"Several table values are from memory or from public pages. Each shows where it comes from; check it against the current edition of the standard.",
}

func cautionList() fyne.CanvasObject {
	box := container.NewVBox()
	for _, c := range cautions {
		box.Add(wrapped("•  " + c))
	}
	return box
}

// welcome shows the cautions when the program starts.
func (w *Window) welcome() {
	s := w.openSheet("Before you draw", fyne.NewSize(520, 0), func(*sheet) fyne.CanvasObject {
		return container.NewVBox(cautionList(),
			wrapped("The plan opens on a finished example. File, New starts your own with three questions; ? lists the keys."))
	}, answer{text: "Understood", main: true, cancel: true, then: func() {
		w.remember(func(m *journal.Memory) { m.Cautions = true })
		if w.cfg.Welcomed != nil {
			w.cfg.Welcomed()
		}
	}})
	s.focus(s.buttons[0])
}

// about names the program and says the cautions again.
func (w *Window) about() {
	s := w.openSheet(ProgramName+" "+w.cfg.Version, fyne.NewSize(540, 380), func(s *sheet) fyne.CanvasObject {
		box := container.NewVBox(wrapped("Garden lighting: one drawing, from which lengths, circuit and findings follow."), cautionList())
		for _, r := range w.desk.Rules() {
			box.Add(wrapped("Rule set “" + r.Name + "”, " + r.Edition + ". " + r.Statement))
		}
		return s.long(box)
	}, answer{text: "Close", main: true, cancel: true})
	s.focus(s.buttons[0])
}

// keyTable is what every key does.
var keyTable = [][2]string{
	{"V  P  B  L  R  G  S", "Take the tool: Select, Supply point, Box, Lamp, Run, Gear, Source"},
	{"A  W  T", "Draw ground: area (lawn, border, paving …), line (wall, fence …), mark (tree, window …)"},
	{"D", "Dimension line: from, to, where it stands; A, H, V: straight, across, up the sheet. Over an edge or corner it is read off"},
	{"Ctrl+Shift+P", "Lay the selected run along a wall at a distance"},
	{"Esc", "Cancel the gesture; back to Select; close a question"},
	{"Return", "End a run in the air, an area or a line; commit a field"},
	{"Backspace", "Take back the last corner of what is being drawn"},
	{"3.2m   <90   3.2m<90", "Typed while drawing: length, direction in degrees clockwise from up the sheet, or both"},
	{"@1.5,2   =4,2", "Typed while drawing: so far right and up of the last point; a place on the plan, also for the first point"},
	{",  .   I", "Choose the corner before or after of what is selected; put one in after it. Del takes the chosen one out, arrows move it"},
	{"Arrows", "Move the selection by the grid; with Shift ten times as far, with Alt a millimetre. With a tool in hand the pointer, with Shift by a centimetre"},
	{"1 to 6", "Turn the leg under the pointer, or all legs of the selected run: clipped, buried, in duct, on a structure, in a tree, indoors"},
	{"N, C", "Row of lamps, arc of lamps; there W joins them with runs, a number or a spacing is typed"},
	{"Drag over the ground", "To the right selects what lies inside, to the left also what is touched"},
	{"Ctrl+X, C, V, Shift+D", "Cut, copy, paste at the pointer, duplicate"},
	{"Ctrl+Shift+arrows", "Align left, right, to the top, to the bottom; with X, L and I on a line"},
	{"Ctrl+Shift+H, V, C, T", "Distribute across, up and down, along the chain, at a spacing"},
	{"Ctrl+M, Shift+M, Shift+B", "Mirror left and right, up and down, about a line"},
	{"Ctrl+R, Shift+R, T", "Rotate right, left, by an angle"},
	{"Ctrl+U, Shift+J", "Split the run at the pointer, join two runs"},
	{"Ctrl+L", "Lock or unlock"},
	{"Ctrl+Shift+E, Shift+N", "Repeat the selection, number lamps along the runs"},
	{"Ctrl+F, Shift+F", "Select by kind, zone or stock; what is connected"},
	{"Ctrl+Shift+K, G, O, A", "Select everything of this kind, this stock item, this zone; what is not selected"},
	{"Space", "Click at the pointer; held, the left button moves the view"},
	{"[  ]", "Select the thing before, the thing after"},
	{"Tab, Shift+Tab", "Go from part to part of the window and back"},
	{"Delete", "Take out what is selected"},
	{"Ctrl+Z, Ctrl+Y", "Undo, redo; in a field they take back typing"},
	{"Ctrl+A", "Select all"},
	{"Ctrl+H", "History: the arrows and Return go to a step"},
	{"Wheel,  +  -", "Zoom; F or Ctrl+0 fits the plan to the window"},
	{"Middle button", "Drag the view"},
	{"Alt", "Held: nothing catches the pointer. View, Snap to says what does"},
	{"Ctrl+K, Ctrl+G, Ctrl+D", "Snap, grid, dark window and paper"},
	{"Ctrl+B", "Wider panel, for its long sentences"},
	{"Ctrl+J", "Fly to the next finding"},
	{"Ctrl+1, 2, 3", "Properties, Working, Lengths"},
	{"Ctrl+N, O, S, Shift+S, Q", "New, open, save, save as, quit"},
	{"Ctrl+E, Ctrl+I", "Open the example, about and cautions"},
	{"Alt", "Open the menus; the arrows and Return choose"},
	{"?", "This list"},
}

// keys lists the keys.
func (w *Window) keys() {
	s := w.openSheet("Keys", fyne.NewSize(580, 400), func(s *sheet) fyne.CanvasObject {
		box := container.NewVBox()
		for _, k := range keyTable {
			name := widget.NewLabel(k[0])
			name.TextStyle.Bold = true
			box.Add(container.New(keyLine{}, name, wrapped(k[1])))
		}
		return s.long(box)
	}, answer{text: "Close", main: true, cancel: true})
	s.focus(s.buttons[0])
}

// keyLine sets a key and its meaning side by side.
type keyLine struct{}

const keyWidth = 190

func (keyLine) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(keyWidth+260, max(o[0].MinSize().Height, o[1].MinSize().Height)-6)
}

func (keyLine) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(keyWidth, o[0].MinSize().Height))
	o[1].Move(fyne.NewPos(keyWidth, 0))
	o[1].Resize(fyne.NewSize(size.Width-keyWidth, size.Height))
}
