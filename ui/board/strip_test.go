package board

import (
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
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// sideHand is a person at the strip.
type sideHand struct {
	t     *testing.T
	desk  *stripDesk
	strip *Strip
	win   fyne.Window
	now   time.Time
	mods  tool.Modifiers
	said  string
	menu  int
	keys  []fyne.KeyName
	asked int
}

// stripDesk publishes to a strip.
type stripDesk struct {
	*fakeDesk
	strip *Strip
}

func (d *stripDesk) tell() {
	if d.strip != nil {
		d.strip.SetFrame(d.Frame())
	}
}
func (d *stripDesk) Preview(op edit.Operation) error {
	err := d.fakeDesk.Preview(op)
	d.tell()
	return err
}
func (d *stripDesk) Commit(op edit.Operation) error {
	err := d.fakeDesk.Commit(op)
	d.tell()
	return err
}
func (d *stripDesk) Cancel() { d.fakeDesk.Cancel(); d.tell() }

func newSideHand(t *testing.T) *sideHand {
	s := smallGarden()
	r, _ := s.Runs.Get("r1")
	c := *r
	c.Legs = []doc.Leg{{To: geom.Pt(2, 0), Support: network.Clipped, Height: 300 * geom.Millimetre}, {Support: network.Buried, Depth: 450 * geom.Millimetre}}
	s.Runs = s.Runs.With(&c)
	h := &sideHand{t: t, desk: &stripDesk{fakeDesk: newFakeDesk(s)}, now: time.Unix(0, 0), menu: -9}
	test.NewTempApp(t)
	h.strip = NewStrip(h.desk, StripConfig{Modifiers: func() tool.Modifiers { return h.mods }, Now: func() time.Time { return h.now },
		OnHint: func(hint, refused string) { h.said = hint + refused }, OnMenu: func(leg int, _ fyne.Position) { h.menu = leg },
		OnKey: func(k fyne.KeyName) { h.keys = append(h.keys, k) }, OnHeight: func() { h.asked++ }})
	h.desk.strip = h.strip
	h.desk.tell()
	h.strip.SetActive(true)
	h.strip.SetSelection([]doc.ID{"r1"})
	h.win = test.NewTempWindow(t, h.strip)
	h.win.SetPadded(false)
	h.win.Resize(fyne.NewSize(800, 200))
	h.win.Canvas().Capture()
	return h
}

// at is the place of a distance in metres and a level in metres.
func (h *sideHand) at(along, level float64) fyne.Position {
	p := h.strip.scale.Paper(geom.Metres(along), geom.Metres(level))
	return fyne.NewPos(float32(p.X*unitsPerMM), float32(p.Y*unitsPerMM))
}

func (h *sideHand) mouse(p fyne.Position, b desktop.MouseButton) *desktop.MouseEvent {
	e := &desktop.MouseEvent{Button: b}
	e.Position, e.AbsolutePosition = p, p
	return e
}

func (h *sideHand) drag(p fyne.Position) {
	e := &fyne.DragEvent{}
	e.Position = p
	h.strip.Dragged(e)
}

func (h *sideHand) legs() []doc.Leg {
	r, _ := h.desk.scheme().Runs.Get("r1")
	return r.Legs
}

// TestStripDrag drags a leg down: a preview at each move, one step when it is
// let go, and the picture keeps its scale in between.
func TestStripDrag(t *testing.T) {
	h := newSideHand(t)
	from := h.at(3, -0.45)
	scale := h.strip.scale
	h.strip.MouseDown(h.mouse(from, desktop.MouseButtonPrimary))
	h.drag(h.at(3, -0.62))
	if h.desk.preview == nil || len(h.desk.history) != 1 {
		t.Fatal("no preview while dragging")
	}
	if h.strip.scale != scale {
		t.Error("the scale changes under the pointer")
	}
	h.strip.MouseUp(h.mouse(h.at(3, -0.62), desktop.MouseButtonPrimary))
	h.strip.DragEnd()
	if d := h.legs()[1].Depth; d != 600*geom.Millimetre || len(h.desk.history) != 2 || h.desk.preview != nil {
		t.Errorf("depth %v after %d steps", d, len(h.desk.history)-1)
	}
	if h.strip.Part() != 2 {
		t.Errorf("part %d is chosen, expected the leg that was dragged", h.strip.Part())
	}
	// Let go outside: only DragEnd comes.
	h.now = h.now.Add(time.Second)
	h.strip.MouseDown(h.mouse(h.at(0, 0), desktop.MouseButtonPrimary))
	h.drag(h.at(0, 0.41))
	h.strip.DragEnd()
	if p, _ := doc.PointOf(h.desk.scheme(), "b1"); p.Height != 400*geom.Millimetre {
		t.Errorf("the box stands at %v", p.Height)
	}
}

// TestStripKeys does everything without a mouse.
func TestStripKeys(t *testing.T) {
	h := newSideHand(t)
	key := func(names ...fyne.KeyName) {
		for _, n := range names {
			h.strip.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	key(fyne.KeyRight, fyne.KeyDown)
	if d := h.legs()[1].Depth; d != 500*geom.Millimetre {
		t.Errorf("depth %v", d)
	}
	h.mods.Shift = true
	key(fyne.KeyUp)
	h.mods.Shift = false
	if d := h.legs()[1].Depth; d != 490*geom.Millimetre {
		t.Errorf("depth %v", d)
	}
	key(fyne.KeyReturn)
	for _, r := range "650" {
		h.strip.TypedRune(r)
	}
	key(fyne.KeyReturn)
	if d := h.legs()[1].Depth; d != 650*geom.Millimetre {
		t.Errorf("depth %v", d)
	}
	h.strip.TypedRune('3')
	if s := h.legs()[1].Support; s != network.InDuct {
		t.Errorf("support %v", s)
	}
	key(desktop.KeyMenu)
	if h.menu != 1 {
		t.Errorf("the menu is for leg %d", h.menu)
	}
	h.strip.TypedRune('+')
	if h.asked != 1 || h.strip.Height() <= stripUsual {
		t.Errorf("asked %d times, height %v", h.asked, h.strip.Height())
	}
	key(fyne.KeyF7, fyne.KeyEscape)
	if len(h.keys) != 2 {
		t.Errorf("the window gets %v", h.keys)
	}
}

// TestStripEdge drags the upper edge and double-clicks a leg.
func TestStripEdge(t *testing.T) {
	h := newSideHand(t)
	h.strip.MouseDown(h.mouse(fyne.NewPos(300, 3), desktop.MouseButtonPrimary))
	h.drag(fyne.NewPos(300, -57))
	h.strip.DragEnd()
	if got := h.strip.Height(); got < stripUsual+50 || got > stripUsual+65 {
		t.Errorf("height %v after 60 units up", got)
	}
	for range 2 {
		h.strip.MouseDown(h.mouse(h.at(1, 0.3), desktop.MouseButtonPrimary))
		h.strip.MouseUp(h.mouse(h.at(1, 0.3), desktop.MouseButtonPrimary))
	}
	if h.strip.session.Overlay().Typed == "" {
		t.Error("a double click opens no field")
	}
	h.strip.FocusLost()
	if h.strip.session.Overlay().Typed != "" {
		t.Error("the field stays when the focus goes")
	}
}

// TestStripShows: one run shows, nothing else does, and what is not shown is
// not drawn.
func TestStripShows(t *testing.T) {
	h := newSideHand(t)
	if h.strip.Run() != "r1" || h.strip.draws == 0 {
		t.Fatalf("run %q drawn %d times", h.strip.Run(), h.strip.draws)
	}
	for _, ids := range [][]doc.ID{nil, {"l1"}, {"r1", "l1"}} {
		if h.strip.SetSelection(ids); h.strip.Run() != "" {
			t.Errorf("%v: shows %q", ids, h.strip.Run())
		}
	}
	h.strip.SetSelection([]doc.ID{"r1"})
	h.strip.SetActive(false)
	n := h.strip.draws
	h.desk.Commit(edit.LayLeg{Run: "r1", Leg: 1, Level: -geom.Metre})
	h.win.Canvas().Capture()
	if h.strip.Run() != "" || h.strip.draws != n {
		t.Error("a hidden strip is drawn")
	}
	h.strip.SetPalette(scene.Dark())
	h.strip.SetFrame(&layout.Frame{Scheme: doc.New("uk-18"), Stock: &doc.Stock{}})
}

// TestFoot: fitting keeps to what the strip leaves open, and showing the strip
// moves nothing.
func TestFoot(t *testing.T) {
	h := newHand(t, smallGarden(), fyne.NewSize(800, 600))
	before := h.where(4, 0)
	h.board.SetFoot(200)
	if h.where(4, 0) != before {
		t.Error("the plan jumps when its foot is covered")
	}
	h.board.ZoomFit()
	for _, p := range [][2]float64{{0, 0}, {4, 0}, {4, 4}} {
		if at := h.where(p[0], p[1]); at.Y > 400 {
			t.Errorf("%v lies under the strip at %v", p, at)
		}
	}
	h.board.FlyTo("b1")
	if at := h.where(0, 0); at.Y > 400 {
		t.Errorf("flown to %v", at)
	}
}
