package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/ui"
	"duskwire/ui/board"
)

// hand is a person at the window. It sends the board what the driver would.
type hand struct {
	desk   *layout.Desk
	window *ui.Window
	board  *board.Board
	only   string
	at     fyne.Position
	stall  time.Duration // longest time without an answer since it was set to 0
}

func (h *hand) held(d time.Duration) { h.stall = max(h.stall, d) }

// about says what is drawn.
func (h *hand) about() row {
	s := h.desk.Frame().Scheme
	corners := 0
	for _, r := range s.Runs.All() {
		corners += len(r.Legs)
	}
	return row{Name: "the program", Text: fmt.Sprintf("%d lamps, %d vertices of runs, %d areas, lines and marks, %d findings, a photo; board of %.0fx%.0f",
		s.Lamps.Len(), corners, s.Areas.Len()+s.Lines.Len()+s.Marks.Len(), len(h.desk.Frame().Findings), h.board.Size().Width, h.board.Size().Height)}
}

func (h *hand) press(at fyne.Position, button desktop.MouseButton) {
	h.move(at)
	e := &desktop.MouseEvent{Button: button}
	e.Position, e.AbsolutePosition = at, at
	h.board.MouseDown(e)
}

func (h *hand) move(at fyne.Position) {
	h.at = at
	e := &desktop.MouseEvent{}
	e.Position, e.AbsolutePosition = at, at
	h.board.MouseMoved(e)
}

func (h *hand) drag(to fyne.Position) {
	d := to.Subtract(h.at)
	h.at = to
	e := &fyne.DragEvent{Dragged: fyne.NewDelta(d.X, d.Y)}
	e.Position, e.AbsolutePosition = to, to
	h.board.Dragged(e)
}

func (h *hand) release(button desktop.MouseButton) {
	e := &desktop.MouseEvent{Button: button}
	e.Position, e.AbsolutePosition = h.at, h.at
	h.board.MouseUp(e)
	h.board.DragEnd()
}

// round is a way round a place that comes back to it.
func round(c fyne.Position, i int, radius float64) fyne.Position {
	a := float64(i) / 20
	return c.AddXY(float32(radius*math.Sin(a)), float32(radius*(1-math.Cos(a))))
}

// holdRows asks for the rows of single acts.
const holdRows = "hold"

// wanted reports whether a row is asked for: a list of parts of names, with
// commas between them.
func wanted(name, only string) bool {
	for part := range strings.SplitSeq(only, ",") {
		if strings.Contains(name, part) {
			return true
		}
	}
	return false
}

func (h *hand) row(name string, before func(), step func(i int), after func()) {
	if !wanted(name, h.only) {
		return
	}
	if before != nil {
		onUI(before)
	}
	r := measure(name, step)
	if after != nil {
		onUI(after)
	}
	tell(r)
	time.Sleep(300 * time.Millisecond)
}

// gestures measures what goes on over many frames.
func (h *hand) gestures() {
	var middle, lamp fyne.Position
	onUI(func() { middle = fyne.NewPos(h.board.Size().Width/2, h.board.Size().Height/2) })
	h.row("  pointer moves, nothing held", nil, func(i int) { h.move(round(middle, i, 150)) }, nil)
	h.row("  pan", func() { h.press(middle, desktop.MouseButtonTertiary) },
		func(i int) { h.drag(round(middle, i, 200)) }, func() { h.release(desktop.MouseButtonTertiary) })
	h.row("  zoom, a notch a frame", nil, func(i int) {
		e := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 25)}
		if i/8%2 == 1 {
			e.Scrolled.DY = -25
		}
		e.Position = middle
		h.board.Scrolled(e)
	}, func() { h.board.ZoomFit() })
	grab := func(ids ...doc.ID) func() {
		return func() {
			h.board.ZoomFit()
			h.board.Select(ids...)
			l, _ := h.desk.Frame().Scheme.Lamps.Get("L500")
			lamp = h.board.Where(l.Place.At)
			h.press(lamp, desktop.MouseButtonPrimary)
		}
	}
	// Escape drops the gesture, so that every row begins with the same garden.
	drop := func() {
		h.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		h.release(desktop.MouseButtonPrimary)
		h.board.Select()
	}
	pull := func(i int) { h.drag(round(lamp, i, 60)) }
	var some, all []doc.ID
	for i, l := range h.desk.Frame().Scheme.Lamps.All() {
		if i >= 450 && i < 550 {
			some = append(some, l.ID)
		}
		all = append(all, l.ID)
	}
	h.row("  drag one lamp", grab(), pull, drop)
	h.row("  drag 100 selected lamps", grab(some...), pull, drop)
	h.row("  drag all lamps", grab(all...), pull, drop)
	h.row("  drag a bed", func() {
		h.board.ZoomFit()
		a, _ := h.desk.Frame().Scheme.Areas.Get("A20")
		h.board.Select(a.ID)
		lamp = h.board.Where(a.Ring[0])
		h.press(lamp, desktop.MouseButtonPrimary)
	}, pull, drop)
	h.row("  drag one lamp, lengths shown", func() {
		h.menu("Lengths")
		grab()()
	}, pull, func() {
		drop()
		h.menu("Properties")
	})
}

// menu does a menu entry whose label starts with the name; a submenu is named
// after a slash.
func (h *hand) menu(name string) {
	first, rest, _ := strings.Cut(name, "/")
	for _, m := range h.window.Fyne().MainMenu().Items {
		for _, i := range m.Items {
			if !strings.HasPrefix(i.Label, first) {
				continue
			}
			if rest == "" {
				i.Action()
				return
			}
			for _, c := range i.ChildMenu.Items {
				if strings.Contains(c.Label, rest) {
					c.Action()
					return
				}
			}
		}
	}
	panic("no menu entry " + name)
}

// acts measures single acts: how long the window did not answer because of
// each. Each is done three times; the middle one counts.
func (h *hand) acts() {
	var stop func()
	onUI(func() { stop = h.window.Stalls(h.held) })
	defer onUI(func() { stop() })
	all := func() { h.board.Select(h.ids()...) }
	h.act("  select all", func() { h.board.Select() }, func() { h.menu("Select all") })
	h.act("  copy all", all, func() { h.menu("Copy") })
	h.act("  delete 100 lamps", func() { h.board.Select(h.ids()[:100]...) }, func() { h.menu("Delete") })
	h.act("  undo", nil, func() { h.menu("Undo") })
	h.act("  redo", nil, func() { h.menu("Redo") })
	h.act("  undo again", nil, func() { h.menu("Undo") })
	h.act("  undo to the beginning", nil, func() { h.desk.GoTo(0) })
	h.act("  a lamp nudged", func() { h.board.Select("L500") }, func() { h.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight}) })
	h.act("  save", nil, func() { h.menu("Save") })
	h.act("  other colours", nil, func() { h.menu("Dark window") })
	h.act("  next finding opened", nil, func() { h.menu("Next finding") })
	h.act("  working of a lamp", func() { h.board.Select("L700") }, func() { h.menu("Working") })
	h.act("  lengths shown", func() { h.menu("Properties") }, func() { h.menu("Lengths") })
	h.act("  fit to window", nil, func() { h.menu("Fit to window") })
	h.largeActs()
	h.act("  open", nil, func() { h.menu("Open recent/garden.yaml") })
}

// largeActs measures edits of all that is drawn, each on the garden as it was at
// the beginning.
func (h *hand) largeActs() {
	all := func() {
		h.menu("Properties")
		h.desk.GoTo(0)
		h.menu("Select all")
	}
	// edits measures an act on everything, and what takes it back; the second is not
	// measured without the first.
	edits := func(name string, before, do func()) {
		h.act("  "+name, before, do)
		h.act("  undo of "+name, func() {
			if h.desk.Frame().Undo == "" {
				h.menu("Redo")
			}
		}, func() { h.menu("Undo") })
	}
	entry := func(name string) func() { return func() { h.menu(name) } }
	edits("duplicate all", all, entry("Duplicate"))
	edits("lock all", all, entry("Lock or unlock"))
	edits("rotate all", all, entry("Mirror and rotate/Rotate left"))
	edits("mirror all", all, entry("Mirror and rotate/Mirror left and right"))
	edits("align all", all, entry("Align/Left"))
	edits("distribute all", all, entry("Distribute/Across"))
	edits("number all lamps", all, entry("Number lamps along the runs"))
	edits("delete all", all, entry("Delete"))
	edits("zone of all", func() {
		all()
		h.board.Select(h.ids()...)
	}, func() {
		zone := &doc.Zone{ID: doc.NewID(), Tag: "Z1", Name: "All"}
		h.done(edit.Batch{Label: "Change zone", Ops: []edit.Operation{edit.AddZone{Zone: zone}, edit.SetZone{Lamps: h.ids(), Zone: zone.ID}}})
	})
	edits("paste all", func() {
		all()
		h.menu("Copy")
	}, entry("Paste"))
	escape := func() {
		if o := h.window.Fyne().Canvas().Focused(); o != nil {
			o.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		}
	}
	onUI(func() { h.desk.GoTo(0) })
	h.act("  keys shown", escape, entry("Keys and mouse"))
	onUI(escape)
}

// done does an operation that must not be refused.
func (h *hand) done(op edit.Operation) {
	if err := h.desk.Commit(op); err != nil {
		panic(err)
	}
}

func (h *hand) ids() []doc.ID {
	var ids []doc.ID
	for _, l := range h.desk.Frame().Scheme.Lamps.All() {
		ids = append(ids, l.ID)
	}
	return ids
}

func (h *hand) act(name string, before, do func()) {
	if h.only != holdRows && !wanted(name, h.only) {
		return
	}
	var holds, acts, threads []float64
	for range 3 {
		if before != nil {
			onUI(before)
			time.Sleep(400 * time.Millisecond)
		}
		var took, before time.Duration
		onUI(func() {
			h.stall = 0
			before = ofThread()
			begun := time.Now()
			do()
			took = time.Since(begun)
		})
		time.Sleep(1200 * time.Millisecond)
		onUI(func() {
			holds, acts, threads = append(holds, ms(h.stall)), append(acts, ms(took)), append(threads, ms(ofThread()-before))
		})
	}
	slices.Sort(holds)
	slices.Sort(acts)
	slices.Sort(threads)
	tell(row{Name: name, Hold: holds[1], Act: acts[1], Thread: threads[1]})
}
