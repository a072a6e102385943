package ui

import (
	"strconv"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// snapMenu is the entry that says what catches the pointer while snapping is
// on; the choice holds for the session.
func (w *Window) snapMenu(m *menus) *entry {
	kind := func(name string, of func(*tool.Snaps) *bool) *entry {
		e := w.item(name, "", nil, nil)
		e.Action = func() {
			c := w.plan.Snaps()
			off := of(&c)
			*off = !*off
			e.Checked = !*off
			w.plan.SetSnaps(c)
			w.menus.main.Refresh()
		}
		c := w.plan.Snaps()
		e.Checked = !*of(&c)
		return e
	}
	return w.within(m, "Snap to",
		kind("Grid", func(c *tool.Snaps) *bool { return &c.NoGrid }),
		kind("Corners", func(c *tool.Snaps) *bool { return &c.NoCorner }),
		kind("Edges of walls, areas and runs", func(c *tool.Snaps) *bool { return &c.NoEdge }),
		kind("Square to an edge", func(c *tool.Snaps) *bool { return &c.NoFoot }),
		kind("In line beyond an end", func(c *tool.Snaps) *bool { return &c.NoExtension }),
		kind("Level with and upright from a place", func(c *tool.Snaps) *bool { return &c.NoTrack }),
		kind("Beside a wall", func(c *tool.Snaps) *bool { return &c.NoAlong }),
		nil,
		w.item("Distance beside walls…", "", nil, w.besideWalls))
}

// besideWalls asks how far from a wall a line catches the pointer.
func (w *Window) besideWalls() {
	var far *sheetEntry
	sh := w.ask("Distance beside walls", "Beside walls, fences and buildings a line at this distance catches the pointer, once the plan is zoomed in far enough to tell it from the wall.",
		"Use it", func(s *sheet) []fyne.CanvasObject {
			far = newSheetEntry(s, doc.Written(w.plan.Snaps().Off()), "such as 50 mm")
			return []fyne.CanvasObject{captionedRow("Distance", far.object())}
		}, func() string {
			l, err := spacing(far.Text)
			if err != nil {
				return upperFirst(err.Error())
			}
			c := w.plan.Snaps()
			c.Beside, c.NoAlong = l, false
			w.plan.SetSnaps(c)
			return ""
		})
	sh.focus(far)
}

// alongWall asks along what, and how far from it, the selected run is laid.
func (w *Window) alongWall() {
	s := w.desk.Frame().Scheme
	run := w.selectedRun(s)
	if run == nil {
		w.refuse("Select one run, and the wall or area beside it if you like, then Along wall")
		return
	}
	walls := tool.WallsBy(s, run, w.plan.Selection())
	if len(walls) == 0 {
		w.refuse("There is no wall, line or area on the plan to lay " + run.Tag + " along")
		return
	}
	names := make([]string, len(walls))
	for i, id := range walls {
		e, _ := doc.Find(s, id)
		names[i] = wallName(e)
	}
	legs := []string{"All of it"}
	for i := range run.Legs {
		legs = append(legs, "Leg "+strconv.Itoa(i+1)+" alone")
	}
	var wall, part *sheetSelect
	var far *sheetEntry
	sh := w.ask("Lay "+run.Tag+" along a wall", "The run keeps its ends where they are joined, and lies at this distance on the side where it is now; below 0 on the other side.",
		"Lay it", func(sh *sheet) []fyne.CanvasObject {
			wall = newSheetSelect(sh, names, 0, nil)
			part = newSheetSelect(sh, legs, 0, nil)
			far = newSheetEntry(sh, doc.Written(w.plan.Snaps().Off()), "such as 50 mm")
			return []fyne.CanvasObject{captionedRow("Along", wall.object()), captionedRow("What", part.object()), captionedRow("Distance", far.object())}
		}, func() string {
			l, err := signedSpacing(far.Text)
			if err != nil {
				return upperFirst(err.Error())
			}
			op := edit.AlongWall{Run: run.ID, Wall: walls[max(0, wall.SelectedIndex())], Distance: l}
			if i := part.SelectedIndex(); i > 0 {
				op.Legs = []int{i - 1}
			}
			return w.done(op)
		})
	sh.focus(far)
}

// selectedRun returns the one run of the selection, nil for none or several.
func (w *Window) selectedRun(s *doc.Scheme) (run *doc.Run) {
	for _, id := range w.plan.Selection() {
		if r, ok := s.Runs.Get(id); ok {
			if run != nil {
				return nil
			}
			run = r
		}
	}
	return run
}

// wallName is a line or area in a list.
func wallName(e doc.Entity) string {
	kind, name := "", ""
	switch e := e.(type) {
	case *doc.Line:
		kind, name = e.Kind, e.Name
	case *doc.Area:
		kind, name = e.Kind, e.Name
	}
	if name != "" {
		return upperFirst(kind) + " " + e.Label() + ", " + name
	}
	return upperFirst(kind) + " " + e.Label()
}

// signedSpacing reads a distance that may lie below zero.
func signedSpacing(text string) (geom.Length, error) {
	sign := geom.Length(1)
	if len(text) > 1 && text[0] == '-' {
		sign, text = -1, text[1:]
	}
	l, err := spacing(text)
	return sign * l, err
}
