package board

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/network"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// fakeDesk keeps a history and publishes to one board. Nothing is derived.
type fakeDesk struct {
	board    *Board
	stock    doc.Stock
	history  []*doc.Scheme
	preview  *doc.Scheme
	under    *layout.Under
	frame    *layout.Frame
	previews int
}

func newFakeDesk(s *doc.Scheme) *fakeDesk {
	d := &fakeDesk{history: []*doc.Scheme{s}, stock: doc.Stock{
		Lamps: []doc.LampStock{{Key: "lamp", Name: "Lamp", Kind: "spike", Load: network.Load{Nominal: 12}}},
		Boxes: []doc.BoxStock{{Key: "box"}},
	}}
	d.publish()
	return d
}

func (d *fakeDesk) Frame() *layout.Frame { return d.frame }
func (d *fakeDesk) scheme() *doc.Scheme  { return d.history[len(d.history)-1] }

func (d *fakeDesk) publish() {
	f := &layout.Frame{Scheme: d.scheme(), Stock: &d.stock, Under: d.under}
	if d.preview != nil {
		f.Scheme, f.Preview = d.preview, true
	}
	if d.frame != nil {
		f.Seq = d.frame.Seq + 1
	}
	d.frame = f
	if d.board != nil {
		d.board.SetFrame(f)
	}
}

func (d *fakeDesk) Preview(op edit.Operation) error {
	s, err := op.Apply(d.scheme())
	if err == nil {
		d.preview = s
		d.previews++
		d.publish()
	}
	return err
}

func (d *fakeDesk) Commit(op edit.Operation) error {
	s, err := op.Apply(d.scheme())
	d.preview = nil
	if err == nil && s != d.scheme() {
		d.history = append(d.history, s)
	}
	d.publish()
	return err
}

func (d *fakeDesk) Cancel() {
	if d.preview != nil {
		d.preview = nil
		d.publish()
	}
}

// hand is a person at the board: it sends what the driver would send.
type hand struct {
	t      testing.TB
	board  *Board
	desk   *fakeDesk
	window fyne.Window
	now    time.Time
	mods   tool.Modifiers
	at     fyne.Position
	button desktop.MouseButton
	drag   bool

	selected []doc.ID
	status   Status
	tool     string
	menu     *doc.ID
	runes    string
}

// smallGarden is a box, two lamps and a run on a 0.1 m grid.
func smallGarden() *doc.Scheme {
	s := doc.New("uk-18")
	s.Plan.Grid = geom.Metre / 10
	s.Boxes = doc.NewSet(&doc.Box{ID: "b1", Tag: "B1", Stock: "box"})
	s.Lamps = doc.NewSet(
		&doc.Lamp{ID: "l1", Tag: "L1", Stock: "lamp", Place: doc.Place{At: geom.Pt(4, 0)}},
		&doc.Lamp{ID: "l2", Tag: "L2", Stock: "lamp", Place: doc.Place{At: geom.Pt(4, 4)}},
	)
	s.Runs = doc.NewSet(&doc.Run{ID: "r1", Tag: "R1", From: doc.End{On: "b1"}, To: doc.End{On: "l1"},
		Legs: []doc.Leg{{To: geom.Pt(2, 2)}, {}}})
	return s
}

// newHand opens a board with the scheme in a window.
func newHand(t testing.TB, s *doc.Scheme, size fyne.Size) *hand {
	h := &hand{t: t, desk: newFakeDesk(s), now: time.Unix(0, 0)}
	test.NewTempApp(t)
	n := 0
	set := &tool.Defaults{Lamp: "lamp", Box: "box", Support: network.Buried, Depth: geom.Metre / 2, Ground: tool.NewGround(),
		NewID: func() doc.ID { n++; return doc.ID(fmt.Sprintf("n%d", n)) }}
	h.board = New(h.desk, Config{
		Defaults:  set,
		Now:       func() time.Time { return h.now },
		Modifiers: func() tool.Modifiers { return h.mods },
		OnSelect:  func(ids []doc.ID) { h.selected = ids },
		OnStatus:  func(s Status) { h.status = s },
		OnTool:    func(name string) { h.tool = name },
		OnMenu:    func(id doc.ID, _ fyne.Position) { h.menu = &id },
		OnRune:    func(r rune) { h.runes += string(r) },
	})
	h.desk.board = h.board
	h.window = test.NewTempWindow(t, h.board)
	h.window.SetPadded(false)
	h.window.Resize(size)
	h.paint()
	return h
}

// paint draws the window, which is when Fyne asks for the pictures.
func (h *hand) paint() { h.window.Canvas().Capture() }

// wait lets time pass, so that the next press is no double click.
func (h *hand) wait() { h.now = h.now.Add(time.Second) }

func (h *hand) where(x, y float64) fyne.Position { return h.board.Where(geom.Pt(x, y)) }

func (h *hand) event(button desktop.MouseButton) *desktop.MouseEvent {
	e := &desktop.MouseEvent{Button: button}
	e.Position, e.AbsolutePosition = h.at, h.at
	return e
}

func (h *hand) inside(p fyne.Position) bool {
	s := h.board.Size()
	return p.X >= 0 && p.Y >= 0 && p.X < s.Width && p.Y < s.Height
}

func (h *hand) press(p fyne.Position, button desktop.MouseButton) {
	h.move(p)
	h.button = button
	h.board.MouseDown(h.event(button))
}

// move moves the pointer as the driver does: as a drag once the pointer has
// gone two units with a button held, except for the secondary one.
func (h *hand) move(p fyne.Position) {
	d := p.Subtract(h.at)
	far := d.X >= 2 || d.X <= -2 || d.Y >= 2 || d.Y <= -2
	h.at = p
	if h.drag || h.button != 0 && h.button != desktop.MouseButtonSecondary && far {
		h.drag = true
		e := &fyne.DragEvent{Dragged: fyne.NewDelta(d.X, d.Y)}
		e.Position, e.AbsolutePosition = p, p
		h.board.Dragged(e)
		return
	}
	if h.inside(p) {
		h.board.MouseMoved(h.event(h.button))
	}
}

// let lets the button go: outside the board the focus goes and MouseUp does
// not come.
func (h *hand) let() {
	button := h.button
	if h.inside(h.at) {
		h.board.MouseUp(h.event(button))
	} else {
		h.window.Canvas().Unfocus()
	}
	h.button = 0
	if h.drag {
		h.drag = false
		h.board.DragEnd()
	}
}

func (h *hand) click(x, y float64) {
	h.wait()
	h.press(h.where(x, y), desktop.MouseButtonPrimary)
	h.let()
}

func (h *hand) key(names ...fyne.KeyName) {
	for _, n := range names {
		h.board.TypedKey(&fyne.KeyEvent{Name: n})
	}
}

// space taps the space bar.
func (h *hand) space() {
	e := &fyne.KeyEvent{Name: fyne.KeySpace}
	h.board.KeyDown(e)
	h.typed(" ")
	h.board.KeyUp(e)
}

func (h *hand) typed(s string) {
	for _, r := range s {
		h.board.TypedRune(r)
	}
}

func (h *hand) wheel(p fyne.Position, dx, dy float32) {
	e := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(dx, dy)}
	e.Position = p
	h.board.Scrolled(e)
}

func (h *hand) lamp(id doc.ID) geom.Point {
	l, ok := h.desk.scheme().Lamps.Get(id)
	if !ok {
		h.t.Fatalf("no lamp %s", id)
	}
	return l.Place.At
}
