package tool

// KeyLine is one line of the list of keys: what is pressed or done with the
// mouse, and what that does.
type KeyLine struct{ Keys, What string }

// says is what each tool does, for its tip and the list of keys.
var says = map[string]string{
	NameSelect: "Select, move, turn and change what is drawn", NameRun: "Draw a cable run from thing to thing",
	NameSupply: "Where the garden takes its power", NameBox: "Junction box: runs join in it",
	NameLamp: "Lamp; on a run it is put into it", NameGear: "Switch, receiver, sensor or isolator in a run",
	NameSource: "Transformer or driver for lamps of extra-low voltage",
	NameArea:   "Ground: lawn, border, paving, deck, water, building …", NameLine: "Wall, fence, boundary or buried service",
	NameMark: "Tree, window, seat, metalwork or door", NameDimension: "Dimension line that measures",
	NameRow: "Row of lamps at a spacing", NameArc: "Arc of lamps at a spacing", NameEye: "Eye point that the standing view is seen from",
	NameScale:       "Two points of known distance give the picture its scale",
	NameMovePicture: "Move and turn the picture under the plan",
}

// Says returns in a few words what the tool with the name does.
func Says(name string) string { return says[name] }

// Keys lists what the tools answer to while something is drawn or changed. A
// test holds the keys that the tools ask for against it.
func Keys() []KeyLine {
	return []KeyLine{
		{"Esc", "Cancel and leave nothing; then back to Select"},
		{"Return", "End a run in the air, an area or a line"},
		{"Backspace", "Take back the last corner"},
		{"3.2m   <90   3.2m<90", "Length, direction (° clockwise from up the sheet), or both"},
		{"@1.5,2   =4,2", "So far right and up of the last point; a place on the plan, also for the first point"},
		{"Shift", "Held: a thing that is dragged keeps to 45°, a leg or a corner to 15°, a rectangle is square"},
		{"Alt", "Held: nothing catches the pointer"},
		{"Del", "Delete what is selected, or the chosen corner"},
		{",   .   I", "The corner before, the one after, of a run its ends too, of a dimension its handles; put a corner in after it"},
		{"J   Shift+J", "Chosen end of a run or a dimension: on to the next thing, or the one before; the arrows take it off"},
		{"Arrows", "Move the selection by the grid; Shift ten times as far, Alt a millimetre"},
		{"Ctrl+arrows", "Selected lamp: turn its beam by 5° left and right, tilt it up and down; with Shift by 1°"},
		{"1 to 6", "Leg under the pointer or all of the selected run: clipped, buried, in duct, on a structure, in a tree, indoors"},
		{"W", "Row or arc of lamps: join them with runs; a bare number or spacing is theirs, with <, @ or = it is a point"},
		{"O", "Before the first point: arc of lamps by its ends or about a middle; area round or by corners"},
		{"A   H   V", "Dimension: straight, across, up the sheet; how far off its line stands is typed"},
		{"[   ]   {   }", "Picture in hand: turn it by 1°, by 0.1°"},
		{"Ctrl+A", "Select all"},
	}
}
