package board

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/tool"
)

// binding is one thing that the plan itself does at a key. The list of keys is
// made of the same table.
type binding struct {
	keys  []fyne.KeyName
	runes string
	line  tool.KeyLine
	do    func(*Board) // nil for what is done elsewhere, see KeyUp
}

// bindings are the keys of the plan, after the tool in hand has had them.
func bindings() []binding {
	return []binding{
		{[]fyne.KeyName{fyne.KeyPageUp}, "+=", tool.KeyLine{Keys: "+   Page up", What: "Zoom in at the pointer"},
			func(b *Board) { b.zoom(b.zoomPoint(), step) }},
		{[]fyne.KeyName{fyne.KeyPageDown}, "-", tool.KeyLine{Keys: "-   Page down", What: "Zoom out at the pointer"},
			func(b *Board) { b.zoom(b.zoomPoint(), 1/step) }},
		{[]fyne.KeyName{fyne.KeyHome}, "fF", tool.KeyLine{Keys: "F   Home", What: "Fit the plan to the window"}, (*Board).ZoomFit},
		{nil, "[", tool.KeyLine{Keys: "[", What: "Select the thing before, in the order of the file"}, func(b *Board) { b.walk(-1) }},
		{nil, "]", tool.KeyLine{Keys: "]", What: "Select the thing after"}, func(b *Board) { b.walk(1) }},
		{nil, "{", tool.KeyLine{Keys: "{", What: "Ring round the thing before; the selection stays"}, func(b *Board) { b.walkRing(-1) }},
		{nil, "}", tool.KeyLine{Keys: "}", What: "Ring round the thing after"}, func(b *Board) { b.walkRing(1) }},
		{nil, "j", tool.KeyLine{Keys: "J", What: "Jump to the next place near the pointer that would catch it: thing, corner, edge, beside a wall, in line, crossing"},
			func(b *Board) { b.jump(1) }},
		{nil, "J", tool.KeyLine{Keys: "Shift+J", What: "Jump to the place before"}, func(b *Board) { b.jump(-1) }},
		{nil, " ", tool.KeyLine{Keys: "Space", What: "With the ring: add the thing to the selection, or take it out. Else click at the pointer; held, the left button moves the view"}, nil},
		{[]fyne.KeyName{desktop.KeyMenu}, "", tool.KeyLine{Keys: "Menu key", What: "Menu of what is selected"}, (*Board).keyMenu},
	}
}

// Keys lists the keys of the plan.
func Keys() (out []tool.KeyLine) {
	for _, b := range bindings() {
		out = append(out, b.line)
	}
	return append(out, tool.KeyLine{Keys: "Arrows", What: "With a tool in hand: move the pointer by the grid, with Shift by a centimetre, and along a wall that it is on"})
}

// Gestures lists what the mouse does on the plan.
func Gestures() []tool.KeyLine {
	return []tool.KeyLine{
		{Keys: "Click", What: "Select; with a tool: place, or the next corner"},
		{Keys: "Shift+click", What: "Add to the selection, or take out of it"},
		{Keys: "Double click", What: "End what is drawn"},
		{Keys: "Drag a thing", What: "Move what is selected; a corner or bend alone when it is caught"},
		{Keys: "Drag the diamond", What: "Of a selected lamp: aim its beam, to where it lands or by how far it leans; the ring is where it is half as strong"},
		{Keys: "Drag the disc on a stem", What: "Over the upper edge of the picture, while nothing is selected or Move picture is in hand: turn it by whole degrees, with Shift by 15°, with Alt freely, or type the angle"},
		{Keys: "Drag over the ground", What: "To the right selects what lies inside, to the left also what is touched"},
		{Keys: "Wheel", What: "Zoom at the pointer; with Shift move sideways"},
		{Keys: "Middle or right drag", What: "Move the view"},
		{Keys: "Right click", What: "Menu of what is there"},
		{Keys: "Rest on a figure", What: "Its working, on plan, circuit and side of a run as in the panels; on a button its key"},
	}
}
