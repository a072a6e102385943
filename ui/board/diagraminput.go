package board

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/tool"
)

func (d *Diagram) modifiers() tool.Modifiers {
	if d.cfg.Modifiers == nil {
		return tool.Modifiers{}
	}
	return d.cfg.Modifiers()
}

// MouseDown implements desktop.Mouseable.
func (d *Diagram) MouseDown(e *desktop.MouseEvent) {
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(d); c != nil && c.Focused() != fyne.Focusable(d) {
			c.Focus(d)
		}
	}
	d.rest.off()
	if e.Button == desktop.MouseButtonPrimary {
		d.dropRing()
	}
	if d.pressed == 0 {
		d.pressed, d.from, d.pointer, d.moved, d.inside = e.Button, e.Position, e.Position, false, true
		d.marks()
	}
}

// MouseUp implements desktop.Mouseable.
func (d *Diagram) MouseUp(e *desktop.MouseEvent) {
	if d.pressed != e.Button {
		return
	}
	d.pressed = 0
	if d.moved {
		d.settled()
		return
	}
	id := d.hit(e.Position)
	d.hover = id
	switch e.Button {
	case desktop.MouseButtonPrimary:
		d.click(id, d.modifiers(), e.Modifier)
	case desktop.MouseButtonSecondary:
		if id != "" && !slices.Contains(d.selected, id) {
			d.choose(id)
		}
		if d.cfg.OnMenu != nil && id != "" {
			d.cfg.OnMenu(id, e.AbsolutePosition)
		}
	}
	d.marks()
}

// click selects, or with Shift or Ctrl adds and takes out; the second of two
// opens.
func (d *Diagram) click(id doc.ID, mods tool.Modifiers, held fyne.KeyModifier) {
	now := d.cfg.Now()
	twice := id != "" && slices.Equal(d.selected, []doc.ID{id}) && now.Sub(d.lastTap) <= doubleTime
	d.lastTap = now
	many := mods.Shift || mods.Control || held&(fyne.KeyModifierShift|fyne.KeyModifierControl) != 0
	switch {
	case twice:
		d.open()
	case many && id == "":
	case many && slices.Contains(d.selected, id):
		rest := slices.DeleteFunc(slices.Clone(d.selected), func(o doc.ID) bool { return o == id })
		d.choose(rest...)
	case many:
		d.choose(append(slices.Clone(d.selected), id)...)
	case id == "":
		d.choose()
	default:
		d.choose(id)
	}
}

// settled draws the image anew after it was moved about.
func (d *Diagram) settled() {
	d.picture.redraw()
	d.marks()
}

// Dragged implements fyne.Draggable: any button moves the view.
func (d *Diagram) Dragged(e *fyne.DragEvent) { d.moveTo(e.Position) }

// DragEnd implements fyne.Draggable.
func (d *Diagram) DragEnd() {
	if d.pressed != 0 {
		d.pressed = 0
		d.settled()
	}
}

// MouseIn implements desktop.Hoverable.
func (d *Diagram) MouseIn(e *desktop.MouseEvent) { d.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (d *Diagram) MouseMoved(e *desktop.MouseEvent) {
	d.inside = true
	if d.pressed != 0 && e.Button&d.pressed == 0 {
		d.DragEnd()
	}
	d.moveTo(e.Position)
}

// MouseOut implements desktop.Hoverable.
func (d *Diagram) MouseOut() {
	d.inside, d.hover = false, ""
	d.rest.off()
	d.marks()
}

func (d *Diagram) moveTo(p fyne.Position) {
	by := p.Subtract(d.pointer)
	d.pointer = p
	defer d.rests()
	if d.pressed == 0 {
		if id := d.hit(p); id != d.hover {
			d.hover = id
			d.marks()
		}
		return
	}
	if d.moved = d.moved || !near(p, d.from, menuUnits); d.moved {
		d.pan(by.X, by.Y)
	}
}

// Scrolled implements fyne.Scrollable: the wheel zooms at the pointer, with
// Shift it pans.
func (d *Diagram) Scrolled(e *fyne.ScrollEvent) {
	const notch = 25 // of Fyne, one click of a wheel
	d.rest.off()
	if e.Scrolled.DX != 0 {
		d.pan(e.Scrolled.DX*2, 0)
	}
	if e.Scrolled.DY != 0 {
		d.zoom(e.Position, math.Pow(step, float64(e.Scrolled.DY)/notch))
	}
}

// Cursor implements desktop.Cursorable.
func (d *Diagram) Cursor() desktop.Cursor {
	if d.hover != "" && d.pressed == 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// FocusGained implements fyne.Focusable.
func (d *Diagram) FocusGained() { d.focused = true; d.marks() }

// FocusLost implements fyne.Focusable.
func (d *Diagram) FocusLost() { d.focused, d.space = false, false; d.marks() }

// AcceptsTab implements fyne.Tabbable: Tab leaves the diagram.
func (d *Diagram) AcceptsTab() bool { return false }
