package board

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// studio is a worker that a test steps through.
type studio struct {
	take       func() (work, done func())
	work, done func()
}

func (s *studio) run(take func() (work, done func())) { s.take = take }

// step does the next thing; false when there is nothing to do.
func (s *studio) step() bool {
	switch {
	case s.take != nil:
		take := s.take
		s.take = nil
		s.work, s.done = take()
	case s.work != nil:
		s.work()
		s.work = nil
	case s.done != nil:
		done := s.done
		s.done = nil
		done()
	default:
		return false
	}
	return true
}

// rest lets the worker finish.
func (s *studio) rest(h *hand) {
	h.t.Helper()
	for i := 0; s.step(); i++ {
		h.paint()
		if i > 100 {
			h.t.Fatal("the worker never rests")
		}
	}
	h.paint()
}

// newStudio opens a board on a plan that is drawn in a worker.
func newStudio(t testing.TB, n int) (*hand, *studio) {
	h := newHand(t, largeGarden(n), fyne.NewSize(320, 220))
	s := &studio{}
	h.board.cfg.Work = s.run
	return h, s
}

// exact fails when the board shows anything but the display list of its view.
func exact(h *hand, when string) {
	h.t.Helper()
	b := h.board
	s := &b.base
	if s.ahead.soft || b.convoy.on || b.hidden != nil || b.live.raster.Visible() {
		h.t.Fatalf("%s: stretched %v, convoy %v, hidden %d, live %v", when, s.ahead.soft, b.convoy.on, len(b.hidden), b.live.raster.Visible())
	}
	at, is := b.view.at(s.view.origin), s.raster.Position()
	if math.Abs(float64(at.X-is.X)) > 0.01 || math.Abs(float64(at.Y-is.Y)) > 0.01 || s.view.k != b.view.k {
		h.t.Fatalf("%s: the image lies at %v, drawn for %v", when, is, at)
	}
	covered(h, when)
	want := image.NewRGBA(s.image.Rect)
	list := scene.Build(s.sheet(s.view, s.raster.Size()).in, s.view.scene(), float64(s.raster.Size().Width)/unitsPerMM, float64(s.raster.Size().Height)/unitsPerMM)
	drawMany(list, b.frame.Scheme, b.over.many(), b.over.mark)
	scene.NewRasteriser().Draw(want, list, unitsPerMM*s.dpp)
	if got := s.generate(want.Rect.Dx(), want.Rect.Dy()).(*image.RGBA); !bytes.Equal(got.Pix, want.Pix) {
		h.t.Fatalf("%s: the image is not that of the display list", when)
	}
}

// TestWorkerExact: whatever is done while a worker draws, and whenever it comes
// to it, at rest the board shows what the display list says.
func TestWorkerExact(t *testing.T) {
	softened, convoys := 0, 0
	rapid.Check(t, func(r *rapid.T) {
		h, w := newStudio(t, 130)
		n := 0
		pick := func(lo, hi int) int { n++; return rapid.IntRange(lo, hi).Draw(r, fmt.Sprint(n)) }
		for range pick(1, 16) {
			at := fyne.NewPos(float32(pick(20, 300)), float32(pick(20, 200)))
			switch pick(0, 9) {
			case 0:
				h.wheel(at, 0, float32(pick(-2, 2)*25))
			case 1:
				h.wheel(at, float32(pick(-60, 60)), 0)
			case 2:
				if h.button == 0 {
					h.press(at, desktop.MouseButtonTertiary)
				}
			case 3:
				if h.button == 0 {
					var ids []doc.ID
					for i := range pick(0, 1)*70 + pick(1, 60) {
						ids = append(ids, doc.ID(fmt.Sprint("l", i)))
					}
					h.board.Select(ids...)
					h.wait()
					h.press(h.where(0, 0), desktop.MouseButtonPrimary)
					h.move(h.at.AddXY(10, 0))
					h.move(h.at.AddXY(float32(pick(-30, 30)), 20))
				}
			case 4:
				h.move(h.at.AddXY(float32(pick(-90, 90)), float32(pick(-60, 60))))
			case 5:
				if h.button != 0 {
					h.let()
				}
			case 6:
				h.key(fyne.KeyEscape)
			case 7:
				h.paint()
			default:
				for range pick(1, 4) {
					w.step()
				}
			}
			if h.board.base.ahead.soft {
				softened++
			}
			if h.board.convoy.drawn != nil {
				convoys++
			}
		}
		if h.button != 0 {
			h.let()
		}
		w.rest(h)
		exact(h, "at rest")
	})
	if softened == 0 || convoys == 0 {
		t.Errorf("stretched %d times, a convoy %d times: the law looked at nothing", softened, convoys)
	}
}

// TestWheelStretches: the wheel draws nothing in the frame; the picture is
// stretched at once, about the pointer, and exact when the worker is done.
func TestWheelStretches(t *testing.T) {
	h, w := newStudio(t, 200)
	at := h.where(3, 1)
	draws := h.board.base.draws
	for range 3 {
		h.wheel(at, 0, 25)
		h.paint()
	}
	if h.board.base.draws != draws || !h.board.base.ahead.soft {
		t.Fatalf("drawn %d times, stretched %v", h.board.base.draws-draws, h.board.base.ahead.soft)
	}
	// A lamp is where the view has it, in the stretched picture too: its mark is
	// dark on paper.
	img := h.board.base.ahead.scratch
	p := h.where(3, 1)
	if c := img.RGBAAt(int(p.X), int(p.Y)); c == h.board.base.image.RGBAAt(0, 0) {
		t.Errorf("nothing at %v in the stretched picture", p)
	}
	w.rest(h)
	exact(h, "after the wheel")
	if got, want := h.board.base.raster.Size(), h.board.Size().AddWidthHeight(2*margin, 2*margin); got != want {
		t.Errorf("at rest the image is %v, want a margin for a pan: %v", got, want)
	}
}

// TestPanPrepared: the ground ahead of a pan is drawn by the worker, so that no
// frame has to.
func TestPanPrepared(t *testing.T) {
	h, w := newStudio(t, 200)
	at := fyne.NewPos(100, 100)
	h.press(at, desktop.MouseButtonTertiary)
	turns := h.board.base.ahead.turn
	for range 40 {
		at = at.AddXY(8, 3)
		h.move(at)
		h.paint()
		covered(h, "while panning")
		w.step()
	}
	if h.board.base.ahead.turn != turns {
		t.Errorf("drawn in the frame %d times", h.board.base.ahead.turn-turns)
	}
	h.let()
	w.rest(h)
	exact(h, "after the pan")
}

// TestConvoyMoves: many lamps that are dragged move with every step, though the
// worker has drawn only once, and what is between them and the rest follows.
func TestConvoyMoves(t *testing.T) {
	h, w := newStudio(t, 200)
	var ids []doc.ID
	for i := range 100 {
		ids = append(ids, doc.ID(fmt.Sprint("l", i)))
	}
	h.board.Select(ids...)
	w.rest(h)
	h.press(h.where(3, 1), desktop.MouseButtonPrimary)
	h.move(h.where(3, 1).AddXY(10, 0))
	h.move(h.where(3.5, 1))
	w.rest(h)
	if !h.board.convoy.on || !h.board.live.raster.Visible() {
		t.Fatalf("no convoy: %v %v %v %d", h.board.convoy.on, h.board.frame.Preview, h.board.convoy.first, len(h.board.Selection()))
	}
	moved := together(h.board.still.Scheme, h.board.frame.Scheme, h.board.convoy.first)
	// l0 to l99 and the runs between them: 39 in each whole row of 40, 19 in the half.
	if want := 100 + 39 + 39 + 19; len(moved) != want {
		t.Errorf("%d things move together, want %d", len(moved), want)
	}
	shown := func() fyne.Position { // where the picture has l41, at (1, 1) on the plan
		r, l := h.board.live.raster, h.board.convoy
		off := l.flock.sheet.view.at(geom.Pt(1.5, 1))
		return r.Position().Add(fyne.NewDelta(off.X, off.Y))
	}
	for range 3 {
		was, from := shown(), h.board.frame.Scheme
		h.move(h.at.AddXY(20, 10))
		a, _ := doc.PointOf(from, "l41")
		z, _ := doc.PointOf(h.board.frame.Scheme, "l41")
		d := h.board.view.at(z.At).Subtract(h.board.view.at(a.At))
		if now := shown(); math.Abs(float64(now.X-was.X-d.X)) > 1 || math.Abs(float64(now.Y-was.Y-d.Y)) > 1 {
			t.Errorf("the picture went from %v to %v, the lamp by %v", was, now, d)
		}
	}
	h.let()
	w.rest(h)
	exact(h, "after the drag")
	h.wait()
	h.press(h.where(3.5, 1), desktop.MouseButtonPrimary)
	h.move(h.at.AddXY(10, 0))
	h.move(h.at.AddXY(30, 10))
	w.rest(h)
	h.key(fyne.KeyEscape)
	h.let()
	w.rest(h)
	exact(h, "after Escape")
}

// TestStretch checks where pixels come from: an image of four fields, shown
// twice as large about its middle and half as large, with paper around.
func TestStretch(t *testing.T) {
	src := image.NewRGBA(image.Rect(0, 0, 4, 4))
	for i := range src.Pix {
		src.Pix[i] = byte(i/4%4/2*100 + i/16/2*50 + 1)
	}
	v := view{k: 1000}
	tests := []struct {
		name string
		to   view
		want string
	}{
		{"as it is", v, "aabb aabb ccdd ccdd"},
		{"twice as large", view{origin: geom.Point{X: 1000, Y: -1000}, k: 500}, "aabb aabb ccdd ccdd"},
		{"half as large", view{k: 2000}, "ab.. cd.. .... ...."},
		{"moved", view{origin: geom.Point{X: -1000, Y: 1000}, k: 1000}, ".... .aab .aab .ccd"},
	}
	name := map[byte]byte{1: 'a', 101: 'b', 51: 'c', 151: 'd', 9: '.'}
	for _, test := range tests {
		into := image.NewRGBA(src.Rect)
		s := stretch{view: test.to, dpp: 1, paper: 0x09090909}
		s.draw(into, shot{src, v}, shot{src, v})
		var got []byte
		for i := 0; i < len(into.Pix); i += 4 {
			if i > 0 && i%16 == 0 {
				got = append(got, ' ')
			}
			got = append(got, name[into.Pix[i]])
		}
		if string(got) != test.want {
			t.Errorf("%s: %s, want %s", test.name, got, test.want)
		}
	}
}
