package board

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// TestRingSelectsWithoutMouse: the ring goes over things and leaves the selection as
// it is; Space adds what it is on and takes it out, so that any things come together.
func TestRingSelectsWithoutMouse(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	space := func() {
		h.board.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
		h.board.TypedRune(' ')
		h.board.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	}
	steps := []struct {
		keys string // { and } as typed, _ for the space bar, ! for Escape
		ring doc.ID
		want []doc.ID
	}{
		{"]", "", []doc.ID{"b1"}},
		{"}", "l1", []doc.ID{"b1"}},
		{"}_", "l2", []doc.ID{"b1", "l2"}}, // over l1
		{"{{_", "b1", []doc.ID{"l2"}},
		{"_", "b1", []doc.ID{"l2", "b1"}},
		{"!", "", []doc.ID{"l2", "b1"}},    // the ring goes first
		{"}}", "b1", []doc.ID{"l2", "b1"}}, // after the last of them in the file, and round
		{"}]", "", []doc.ID{"l2"}},         // from where the ring is
		{"{_", "l1", []doc.ID{"l2", "l1"}},
		{"l", "", []doc.ID{"l2", "l1"}}, // a tool in hand
		{"}", "", []doc.ID{"l2", "l1"}},
	}
	for i, s := range steps {
		for _, k := range s.keys {
			switch k {
			case '_':
				space()
			case '!':
				h.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			default:
				h.board.TypedRune(k)
			}
		}
		if h.board.in.ring != s.ring || !slices.Equal(h.board.Selection(), s.want) {
			t.Errorf("step %d, %s: ring on %q, selected %v; expected %q and %v", i, s.keys, h.board.in.ring, h.board.Selection(), s.ring, s.want)
		}
	}
}

// TestRingIsSeen: the ring is drawn and told of, and comes into view; a click, a key
// that moves the pointer and the end of its thing take it away.
func TestRingIsSeen(t *testing.T) {
	h := newHand(t, smallGarden(), size)
	h.typed("]")
	lines := func() (n int) {
		for _, l := range h.board.over.pool.lines.items {
			if l.Visible() && l.StrokeWidth == 3 {
				n++
			}
		}
		return n
	}
	before := lines()
	h.typed("}")
	if got := lines() - before; got != 8 {
		t.Errorf("%d arms more than before, expected the 8 of four corners", got)
	}
	if !strings.HasPrefix(h.status.Hint, "L1: Space adds it") {
		t.Errorf("the hint is %q", h.status.Hint)
	}
	h.board.look(viewAt(geom.Pt(500, 500), 50, h.board.Size()))
	h.typed("}")
	if !h.board.Area().Contains(geom.Pt(4, 4)) {
		t.Errorf("L2 is not in view: %v", h.board.Area())
	}
	h.click(4, 4)
	if h.board.in.ring != "" {
		t.Error("the ring stays after a click")
	}
	h.typed("}")
	h.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete}) // l2, which was clicked
	if got := h.board.ringed(); got == "l2" || doc.KindOf(h.desk.scheme(), "l2") != doc.NoKind {
		t.Errorf("the ring is on %q", got)
	}
	h.typed("}")
	h.board.Select()
	h.board.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if h.board.in.ring != "" || h.board.Tool().Name() != tool.NameSelect {
		t.Error("the ring stays while keys move the pointer")
	}
}
