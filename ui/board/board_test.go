package board

import (
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

var size = fyne.NewSize(640, 480)

func TestWheelKeepsPointUnderPointer(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	at := fyne.NewPos(123, 321)
	for _, dy := range []float32{25, 25, -75, 10, 200, -400, 3} {
		was := h.board.view.plan(at)
		before := h.board.Scale()
		h.wheel(at, 0, dy)
		if (h.board.Scale() < before) != (dy > 0) {
			t.Errorf("wheel %v: scale 1:%v to 1:%v", dy, before, h.board.Scale())
		}
		now := h.board.view.at(was)
		if math.Hypot(float64(now.X-at.X), float64(now.Y-at.Y)) > 0.01 {
			t.Errorf("wheel %v: the point under the pointer went to %v", dy, now)
		}
	}
	for range 50 {
		h.wheel(at, 0, 100)
	}
	if h.board.Scale() != largest {
		t.Errorf("scale 1:%v, want the end of the zoom", h.board.Scale())
	}
}

func TestFitShowsAll(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	all := doc.Bounds(h.desk.scheme())
	if shown := h.board.Area(); !shown.Contains(all.Min) || !shown.Contains(all.Max) {
		t.Errorf("shown %v does not hold %v", shown, all)
	}
	h.wheel(fyne.NewPos(0, 0), 0, 300)
	h.typed("f")
	if shown := h.board.Area(); !shown.Contains(all.Min) || !shown.Contains(all.Max) {
		t.Errorf("after f: shown %v does not hold %v", shown, all)
	}
}

func TestClickSelects(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.click(4, 0)
	if !slices.Equal(h.selected, []doc.ID{"l1"}) {
		t.Errorf("selected %v, want l1", h.selected)
	}
	if h.window.Canvas().Focused() != fyne.Focusable(h.board) {
		t.Error("a press did not focus the board")
	}
	h.mods.Shift = true
	h.click(4, 4)
	if !slices.Equal(h.selected, []doc.ID{"l1", "l2"}) {
		t.Errorf("selected %v, want both lamps", h.selected)
	}
	h.mods.Shift = false
	h.click(2, 4)
	if len(h.selected) != 0 {
		t.Errorf("selected %v, want nothing", h.selected)
	}
	if len(h.desk.history) != 1 {
		t.Error("selecting made a step")
	}
}

func TestDragLamp(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	before := h.board.base.draws
	h.press(h.where(4, 0), desktop.MouseButtonPrimary)
	h.paint()
	for i := range 20 {
		h.move(h.where(4+float64(i)/20, 0.51))
		h.paint()
	}
	if n := h.board.base.draws - before; n != 1 {
		t.Errorf("the base was drawn %d times during the drag, want once without the lamp", n)
	}
	if h.board.live.draws < 15 || !h.board.live.raster.Visible() {
		t.Errorf("the live picture was drawn %d times", h.board.live.draws)
	}
	if !h.board.hidden["l1"] || !h.board.hidden["r1"] || !h.board.hidden["b1"] || h.board.hidden["l2"] {
		t.Errorf("hidden in the base: %v, want the lamp, its run and the box", h.board.hidden)
	}
	if len(h.desk.history) != 1 {
		t.Error("a preview made a step")
	}
	h.let()
	h.paint()
	if got, want := h.lamp("l1"), geom.Pt(5, 0.5); got != want || len(h.desk.history) != 2 {
		t.Errorf("lamp at %v after %d steps, want %v after one", got, len(h.desk.history)-1, want)
	}
	if n := h.board.base.draws - before; n != 2 || h.board.live.raster.Visible() || h.board.hidden != nil {
		t.Errorf("after the drag: base drawn %d times, live %v, hidden %v", n, h.board.live.raster.Visible(), h.board.hidden)
	}
}

func TestDragEndsOutside(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.press(h.where(4, 0), desktop.MouseButtonPrimary)
	h.move(h.where(4.5, 0))
	outside := fyne.NewPos(size.Width+80, h.where(4, 0).Y)
	h.move(outside)
	h.let()
	if len(h.desk.history) != 2 || h.desk.preview != nil {
		t.Fatalf("%d steps, preview %v", len(h.desk.history)-1, h.desk.preview != nil)
	}
	if want := geom.ToGrid(h.board.view.plan(outside), geom.Metre/10); h.lamp("l1").X != want.X {
		t.Errorf("lamp at %v, want it under the pointer %v", h.lamp("l1"), want)
	}
	if h.window.Canvas().Focused() != fyne.Focusable(h.board) {
		t.Error("the focus did not come back")
	}
	// A click outside that no drag was made of is noticed at the next move.
	h.press(h.where(2, 4), desktop.MouseButtonPrimary)
	h.button = 0
	h.move(h.where(2, 4.01))
	if h.board.in.held != holdNone {
		t.Error("the button is still held")
	}
}

func TestEscapeCancelsDrag(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.press(h.where(4, 0), desktop.MouseButtonPrimary)
	h.move(h.where(5, 1))
	h.key(fyne.KeyEscape)
	h.move(h.where(6, 2))
	h.let()
	h.paint()
	if h.lamp("l1") != geom.Pt(4, 0) || len(h.desk.history) != 1 || h.desk.preview != nil {
		t.Errorf("lamp at %v after Escape, %d steps", h.lamp("l1"), len(h.desk.history)-1)
	}
	if h.board.hidden != nil || h.board.live.raster.Visible() {
		t.Error("the lamp is still drawn as dragged")
	}
}

func TestPanMovesTheImage(t *testing.T) {
	for _, button := range []desktop.MouseButton{desktop.MouseButtonTertiary, desktop.MouseButtonSecondary} {
		h := newHand(t, smallGarden(), size)
		before, was := h.board.base.draws, h.where(0, 0)
		h.press(fyne.NewPos(300, 200), button)
		for i := range 8 {
			h.move(fyne.NewPos(310+float32(i*10), 200))
			h.paint()
		}
		if n := h.board.base.draws - before; n != 0 {
			t.Errorf("button %v: %d redraws within the margin", button, n)
		}
		if now := h.where(0, 0); math.Abs(float64(now.X-was.X-80)) > 0.01 || math.Abs(float64(now.Y-was.Y)) > 0.01 {
			t.Errorf("button %v: the plan went from %v to %v, want 80 to the right", button, was, now)
		}
		if at := h.board.base.raster.Position(); at != fyne.NewPos(80-margin, -margin) {
			t.Errorf("button %v: the image is at %v", button, at)
		}
		h.move(fyne.NewPos(300+margin+20, 200))
		h.paint()
		if n := h.board.base.draws - before; n != 1 {
			t.Errorf("button %v: %d redraws after the margin was used up, want 1", button, n)
		}
		h.let()
		if h.menu != nil {
			t.Errorf("button %v: a pan asked for the menu", button)
		}
		if len(h.desk.history) != 1 || len(h.selected) != 0 {
			t.Errorf("button %v: a pan did something else", button)
		}
	}
}

func TestSpacePansAndClicks(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	space := &fyne.KeyEvent{Name: fyne.KeySpace}
	was := h.where(0, 0)
	h.board.KeyDown(space)
	h.press(h.where(4, 0), desktop.MouseButtonPrimary)
	h.move(h.at.AddXY(30, 10))
	h.let()
	h.board.KeyUp(space)
	if now := h.where(0, 0); now.X-was.X < 29 || len(h.selected) != 0 {
		t.Errorf("space and drag: plan moved by %v, selected %v", now.X-was.X, h.selected)
	}
	h.move(h.where(4, 0))
	h.board.KeyDown(space)
	h.typed(" ")
	h.board.KeyUp(space)
	if !slices.Equal(h.selected, []doc.ID{"l1"}) {
		t.Errorf("a tap on space selected %v, want l1", h.selected)
	}
}

func TestRightClickAsksForMenu(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.press(h.where(4, 4), desktop.MouseButtonSecondary)
	h.let()
	if h.menu == nil || *h.menu != "l2" || !slices.Equal(h.selected, []doc.ID{"l2"}) {
		t.Errorf("menu for %v, selected %v", h.menu, h.selected)
	}
}

func TestShiftWheelPans(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	was, scale := h.where(0, 0), h.board.Scale()
	h.wheel(fyne.NewPos(100, 100), 25, 0)
	if now := h.where(0, 0); now.X <= was.X || h.board.Scale() != scale {
		t.Errorf("plan from %v to %v, scale %v to %v", was, now, scale, h.board.Scale())
	}
}

func TestDrawRunWithTypedLength(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.typed("r")
	if h.tool != tool.NameRun {
		t.Fatalf("tool %q after r", h.tool)
	}
	h.click(0, 0)
	h.move(h.where(1, 3))
	h.typed("1.5m<0")
	if !h.board.over.shows("1.5m<0_") {
		t.Error("the length typed is not shown")
	}
	h.key(fyne.KeyReturn)
	h.click(4, 4)
	runs := h.desk.scheme().Runs.All()
	if len(runs) != 2 {
		t.Fatalf("%d runs", len(runs))
	}
	want := []geom.Point{geom.Pt(0, 0), geom.Pt(0, 1.5), geom.Pt(4, 4)}
	if got := doc.RunPath(h.desk.scheme(), runs[1]); !slices.Equal(got, want) {
		t.Errorf("run through %v, want %v", got, want)
	}
	if h.board.Scale() != h.status.Scale || h.board.Tool().Name() != tool.NameRun {
		t.Error("status or tool is wrong after the run", h.status)
	}
}

func TestDoubleClickEndsRun(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.typed("r")
	h.click(0, 0)
	h.click(1, 1)
	h.click(2, 3)
	h.now = h.now.Add(doubleTime / 2)
	h.press(h.where(2, 3), desktop.MouseButtonPrimary)
	h.let()
	if n := h.desk.scheme().Runs.Len(); n != 2 {
		t.Fatalf("%d runs after a double click", n)
	}
}

func TestPlaceByKeyboardAlone(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.board.FocusGained()
	h.typed("l")
	h.key(fyne.KeyRight, fyne.KeyRight, fyne.KeyUp)
	space := &fyne.KeyEvent{Name: fyne.KeySpace}
	h.board.KeyDown(space)
	h.typed(" ")
	h.board.KeyUp(space)
	if n := h.desk.scheme().Lamps.Len(); n != 3 {
		t.Fatalf("%d lamps, want one more", n)
	}
	at := h.lamp(h.selected[0])
	if at != geom.ToGrid(at, geom.Metre/10) {
		t.Errorf("placed off the grid at %v", at)
	}
	h.key(fyne.KeyEscape)
	h.typed("]")
	if !slices.Equal(h.selected, []doc.ID{"r1"}) {
		t.Errorf("] selected %v, want what follows the last lamp", h.selected)
	}
	h.typed("[[")
	if !slices.Equal(h.selected, []doc.ID{"l2"}) {
		t.Errorf("[[ selected %v, want l2", h.selected)
	}
	h.typed("z")
	if h.runes != "z" {
		t.Errorf("the window got %q", h.runes)
	}
}

func TestArrowsNudgeSelection(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.board.Select("l1")
	h.key(fyne.KeyUp)
	h.mods.Shift = true
	h.key(fyne.KeyLeft)
	if want := geom.Pt(3, 0.1); h.lamp("l1") != want {
		t.Errorf("lamp at %v, want %v", h.lamp("l1"), want)
	}
}

// With a tool in hand the arrows move the pointer: the thing placed last is
// still selected and would be pushed along. What is placed lands where they say.
func TestArrowsMoveThePointerOfATool(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.board.Select("l1")
	before := h.lamp("l1")
	h.typed("l")
	h.move(h.where(1.234, 2.777))
	h.key(fyne.KeyRight, fyne.KeyUp, fyne.KeyUp)
	if h.lamp("l1") != before {
		t.Errorf("the lamp went from %v to %v", before, h.lamp("l1"))
	}
	if at, _ := h.board.Pointer(); at != geom.Pt(1.3, 3) || h.status.Pointer != at {
		t.Errorf("the pointer is at %v, the status says %v, expected 1.3,3", at, h.status.Pointer)
	}
	h.mods.Shift = true
	h.key(fyne.KeyRight, fyne.KeyRight, fyne.KeyDown)
	h.space()
	h.mods.Shift = false
	if at := h.lamp(h.selected[0]); at != geom.Pt(1.32, 2.99) {
		t.Errorf("a lamp lands at %v, expected where the pointer is, 1.32,2.99", at)
	}
	h.typed("b")
	h.key(fyne.KeyLeft)
	h.space()
	if b, _ := h.desk.scheme().Boxes.Get(h.selected[0]); b == nil || b.Place.At != geom.Pt(1.2, 2.99) {
		t.Errorf("a box lands at %+v, expected 1.2,2.99", b)
	}
}

// TestArrowsDrawALeg: Shift is a centimetre while a leg is drawn too, and does not turn
// it to a round angle.
func TestArrowsDrawALeg(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.typed("w")
	h.move(h.where(1, 3))
	h.key(fyne.KeyRight)
	h.space()
	h.key(fyne.KeyRight, fyne.KeyRight, fyne.KeyRight)
	h.mods.Shift = true
	h.key(fyne.KeyUp)
	h.space()
	h.key(fyne.KeyUp, fyne.KeyUp)
	h.space()
	h.mods.Shift = false
	h.key(fyne.KeyReturn)
	lines := h.desk.scheme().Lines.All()
	want := []geom.Point{geom.Pt(1.1, 3), geom.Pt(1.4, 3.01), geom.Pt(1.4, 3.03)}
	if len(lines) != 1 || !slices.Equal(lines[0].Path, want) {
		t.Fatalf("drawn %+v, expected %v", lines, want)
	}
}

// TestJumpKey: J takes the pointer beside a wall and onto it, Shift+J back, the arrows
// then go along it, and a click lands there.
func TestJumpKey(t *testing.T) {
	s := smallGarden()
	s.Lines = doc.NewSet(&doc.Line{ID: "w1", Tag: "N1", Kind: "wall", Path: []geom.Point{geom.Pt(0, 2.534), geom.Pt(4, 2.534)}})
	h := newHand(t, s, size)
	h.typed("r")
	h.move(h.where(1, 2.7))
	h.key(fyne.KeyRight)
	at := func(want geom.Point) {
		t.Helper()
		if got, _ := h.board.Pointer(); got != want {
			t.Errorf("the pointer is at %v, expected %v", got, want)
		}
	}
	at(geom.Pt(1.1, 2.7))
	h.typed("j")
	at(geom.Pt(1.1, 2.584))
	h.typed("j")
	at(geom.Pt(1.1, 2.534))
	h.typed("J")
	at(geom.Pt(1.1, 2.584))
	if !strings.Contains(h.status.Hint, "50 mm beside N1") {
		t.Errorf("the hint is %q", h.status.Hint)
	}
	h.space()
	h.key(fyne.KeyRight, fyne.KeyRight)
	h.space()
	h.key(fyne.KeyReturn)
	r, _ := h.desk.scheme().Runs.Get(h.selected[0])
	if r == nil || r.From.At != geom.Pt(1.1, 2.584) || r.To.At != geom.Pt(1.3, 2.584) {
		t.Fatalf("drawn %+v, expected along the wall", r)
	}
	h.key(fyne.KeyEscape)
	h.typed("vj")
	if h.status.Refused == "" {
		t.Error("a jump with nothing to jump to says nothing")
	}
}

// TestRefusalStays: why nothing was placed can still be read when the button is up,
// and by keys.
func TestRefusalStays(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.typed("l")
	h.click(4, 0)
	if h.status.Refused != "L1 stands there already" {
		t.Errorf("after a click the status says %q, hint %q", h.status.Refused, h.status.Hint)
	}
	h.move(h.where(2, 3))
	if h.status.Refused != "" {
		t.Errorf("elsewhere it still says %q", h.status.Refused)
	}
	h.move(h.where(3.9, 0))
	h.key(fyne.KeyRight)
	h.space()
	if h.status.Refused != "L1 stands there already" {
		t.Errorf("after Space the status says %q", h.status.Refused)
	}
	h.key(fyne.KeyRight)
	if h.status.Refused != "" {
		t.Errorf("a step on it still says %q", h.status.Refused)
	}
}

func TestShortcuts(t *testing.T) {
	var forwarded fyne.Shortcut
	h := newHand(t, smallGarden(), size)
	h.board.cfg.OnShortcut = func(s fyne.Shortcut) { forwarded = s }
	h.board.TypedShortcut(&fyne.ShortcutUndo{})
	if _, ok := forwarded.(*fyne.ShortcutUndo); !ok {
		t.Errorf("forwarded %v, want undo", forwarded)
	}
	h.board.TypedShortcut(&fyne.ShortcutSelectAll{})
	if len(h.selected) != 4 {
		t.Errorf("select all took %v", h.selected)
	}
}

func TestFlyTo(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.wheel(fyne.NewPos(0, 0), 0, 300)
	scale := h.board.Scale()
	h.board.FlyTo("l2")
	if at := h.where(4, 4); math.Abs(float64(at.X-320)) > 1 || math.Abs(float64(at.Y-240)) > 1 {
		t.Errorf("l2 is at %v, want the middle", at)
	}
	if h.board.Scale() != scale || h.board.marked != "l2" {
		t.Errorf("scale 1:%v, marked %q", h.board.Scale(), h.board.marked)
	}
	h.board.ZoomOut()
	before, draws := h.board.Area(), h.board.base.draws
	h.board.FlyTo("l2")
	if h.board.Area() != before || h.board.base.draws != draws || h.board.marked != "l2" {
		t.Error("what is in view already moved the view, or is not marked")
	}
	h.board.FlyTo("nothing")
	h.click(4, 3.9)
	if h.board.marked != "" {
		t.Error("the mark stays after a press")
	}
}

// TestRedrawsTheLeast: what does not change the picture of the plan does not
// redraw it.
func TestRedrawsTheLeast(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	before := h.board.base.draws
	h.desk.publish() // the same scheme again, as after a save
	h.click(4, 0)
	h.move(h.where(1, 1))
	h.move(h.where(4, 4))
	h.paint()
	if n := h.board.base.draws - before; n != 0 {
		t.Errorf("%d redraws for nothing", n)
	}
	h.board.SetGrid(false)
	h.paint()
	if err := h.desk.Commit(edit.Delete{IDs: []doc.ID{"l1"}}); err != nil {
		t.Fatal(err)
	}
	if len(h.selected) != 0 {
		t.Errorf("the deleted lamp is still selected: %v", h.selected)
	}
	h.board.SetPalette(scene.Dark())
	h.paint()
	if n := h.board.base.draws - before; n != 2 {
		t.Errorf("%d redraws, want one for the grid and one for the rest", n)
	}
}

// TestUndoDuringDrag: a scheme changed by other hands ends the gesture.
func TestUndoDuringDrag(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.press(h.where(4, 0), desktop.MouseButtonPrimary)
	h.move(h.where(5, 1))
	h.desk.history = append(h.desk.history, smallGarden())
	h.desk.preview = nil
	h.desk.publish()
	h.move(h.where(6, 2))
	h.let()
	if len(h.desk.history) != 2 || h.lamp("l1") != geom.Pt(4, 0) {
		t.Errorf("lamp at %v after %d steps", h.lamp("l1"), len(h.desk.history))
	}
}

// TestManySelected: the marks of a large selection are in the base image, not
// a live object each.
func TestManySelected(t *testing.T) {
	h := newHand(t, largeGarden(200), size)
	h.board.TypedShortcut(&fyne.ShortcutSelectAll{})
	h.paint()
	objects := 0
	for _, box := range h.board.over.box.Objects {
		objects += len(box.(*fyne.Container).Objects)
	}
	if len(h.selected) < 200 || objects > 50 {
		t.Errorf("%d selected, %d live objects", len(h.selected), objects)
	}
}

// TestPaints looks at the pixels: the lamp shows where the plan says, and
// dragged it shows there and no more where it was.
func TestPaints(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.board.SetGrid(false)
	ink := func(x, y float64) int {
		img := h.window.Canvas().Capture()
		p := h.where(x, y)
		n := 0
		for dx := -8; dx <= 8; dx++ {
			for dy := -8; dy <= 8; dy++ {
				if isInk(img, int(p.X)+dx, int(p.Y)+dy) {
					n++
				}
			}
		}
		return n
	}
	if ink(4, 4) < 10 || ink(1, 4) > 0 {
		t.Fatalf("lamp: %d dark pixels, empty ground: %d", ink(4, 4), ink(1, 4))
	}
	h.press(h.where(4, 4), desktop.MouseButtonPrimary)
	h.move(h.where(2, 4.2))
	h.move(h.where(1, 4))
	h.board.over.box.Hide() // without the marks of the gesture
	if ink(1, 4) < 10 || ink(4, 4) > 0 {
		t.Errorf("dragged: %d dark pixels in the new place, %d in the old", ink(1, 4), ink(4, 4))
	}
}

func isInk(img image.Image, x, y int) bool {
	r, g, b, _ := img.At(x, y).RGBA()
	return r+g+b < 3*0x6000
}

// shows reports whether a text floats over the plan.
func (o *over) shows(text string) bool {
	for _, t := range o.pool.texts.items {
		if t.Visible() && t.Text == text {
			return true
		}
	}
	return false
}
