package board

import (
	"context"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// pictured opens a board over a picture of 4 by 3 m with its upper left corner at 0,3
// and its middle at 2,1.5.
func pictured(t *testing.T) *hand {
	path := filepath.Join(t.TempDir(), "plan.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, image.NewGray(image.Rect(0, 0, 400, 300))); err != nil {
		t.Fatal(err)
	}
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: path, Sum: strings.Repeat("0a", 32), Width: 400, Height: 300, Pixel: 0.01, At: geom.Pt(0, 3)}
	h := newHand(t, s, fyne.NewSize(600, 400))
	h.desk.under = layout.ReadUnder(context.Background(), &picture.Cache{}, "", s)
	h.desk.publish()
	h.board.look(viewAt(geom.Pt(2, 2), 50, h.board.Size())) // 10 mm a unit
	return h
}

// handleAt returns the place of the handle as it is drawn: a disc of paper with a ring.
func (h *hand) handleAt() (p fyne.Position, edge float32, ok bool) {
	for _, c := range h.board.over.pool.circles.items {
		if c.Visible() && c.Size().Width == 2*turnUnits {
			return c.Position().AddXY(turnUnits, turnUnits), c.StrokeWidth, true
		}
	}
	return p, 0, false
}

// TestTurnHandle: the handle stands 30 units over the middle of the upper edge; it is
// heavier under the pointer, dragged it turns the picture and goes along, and one step
// of undo is left.
func TestTurnHandle(t *testing.T) {
	h := pictured(t)
	p, edge, ok := h.handleAt()
	if want := h.where(2, 3).SubtractXY(0, 30); !ok || !near(p, want, 0.6) || edge != 2 {
		t.Fatalf("handle %v at %v of %g, want %v", ok, p, edge, want)
	}
	h.move(p)
	if _, edge, _ := h.handleAt(); edge != 4 || h.board.Cursor() != desktop.PointerCursor {
		t.Errorf("under the pointer it is %g wide", edge)
	}
	h.press(p, desktop.MouseButtonPrimary)
	to := geom.Toward(geom.Pt(2, 1.5), 30.4, geom.Metres(1.8))
	h.move(h.board.view.at(to))
	if u := h.board.frame.Scheme.Plan.Underlay; u.Turn != 30 {
		t.Errorf("turned %g°", u.Turn)
	}
	if p, _, _ := h.handleAt(); !near(p, h.board.view.at(geom.Toward(geom.Pt(2, 1.5), 30, geom.Metres(1.8))), 1) {
		t.Errorf("the handle is at %v", p)
	}
	h.let()
	if len(h.desk.history) != 2 || h.desk.scheme().Plan.Underlay.Turn != 30 || h.desk.preview != nil {
		t.Errorf("%d steps, turned %g", len(h.desk.history)-1, h.desk.scheme().Plan.Underlay.Turn)
	}
	p, _, ok = h.handleAt()
	u := h.desk.scheme().Plan.Underlay
	if want := h.board.view.at(geom.Toward(u.Place(doc.Spot{X: 200}), 30, geom.Metres(0.3))); !ok || !near(p, want, 1) {
		t.Errorf("afterwards the handle is at %v, want %v", p, want)
	}
	h.press(p, desktop.MouseButtonPrimary)
	h.move(h.where(3.8, 1.5))
	h.key(fyne.KeyEscape)
	h.let()
	if len(h.desk.history) != 2 || h.desk.preview != nil || h.board.frame.Scheme.Plan.Underlay.Turn != 30 {
		t.Error("Escape leaves something")
	}
}

// TestTurnHandleIsSeldom: it shows while nothing is selected and the picture can be
// seen and moved; the tool for pictures brings it into view.
func TestTurnHandleIsSeldom(t *testing.T) {
	h := pictured(t)
	b := h.board
	shows := func(what string, want bool) {
		t.Helper()
		p, _, ok := h.handleAt()
		if inside := ok && h.inside(p); inside != want {
			t.Errorf("%s: shown %v at %v", what, ok, p)
		}
	}
	shows("at rest", true)
	b.SetLook(scene.LookDusk)
	shows("at dusk", false)
	b.SetLook(scene.LookPlan)
	b.SetTool(tool.NewRun(b.cfg.Defaults))
	shows("with another tool", false)
	b.SetTool(tool.NewMovePicture(b.cfg.Defaults))
	shows("with the tool for pictures", true)
	b.look(viewAt(geom.Pt(2, 2), 10, b.Size())) // its upper edge is 1 m, 500 units, away
	shows("from near, with the tool for pictures", true)
	if p, _, _ := h.handleAt(); math.Abs(float64(p.Y)-20) > 1 {
		t.Errorf("it is %v from the edge", p)
	}
	b.SetTool(tool.NewSelect(b.cfg.Defaults))
	shows("from near", false)
	b.look(viewAt(geom.Pt(2, 2), 50, b.Size()))
	h.desk.under = &layout.Under{File: "gone.png"}
	h.desk.publish()
	shows("with no picture to be seen", false)
}
