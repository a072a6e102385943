package board

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// TestTypedComesIntoView: what is typed and leads out of sight takes the view along, by
// the least way and without a change of scale; taken back it brings the view back, and
// so does what leads nowhere.
func TestTypedComesIntoView(t *testing.T) {
	h := newHand(t, smallGarden(), fyne.NewSize(600, 400))
	b := h.board
	home := viewAt(geom.Pt(2, 2), 50, b.Size()) // 1:50 is 10 mm a unit: from -1,0 to 5,4 are seen
	start := func(keyed bool) {
		b.SetTool(tool.NewSelect(b.cfg.Defaults))
		b.SetTool(tool.NewRun(b.cfg.Defaults))
		b.look(home)
		h.click(1, 1)
		h.move(h.where(3, 1))
		if keyed {
			b.goTo(geom.Pt(3, 1), 0)
		}
	}
	units := func(dx, dy float64) view { return home.panned(dx, dy) }
	for _, keyed := range []bool{false, true} {
		for _, c := range []struct {
			name, typed string
			keys        []fyne.KeyName
			want        view
		}{
			{"in sight", "3", nil, home},
			// 11,1 is 12 m right of the left edge: at 1200 of 600 units, to come to 540.
			{"right", "10", nil, units(-660, 0)},
			// -6,1 is at -500, to come to 60.
			{"left by a direction", "7<270", nil, units(560, 0)},
			{"up", "@0,10", nil, units(0, 760)}, // 1,11 is at -700
			{"down and right", "=11,-6", nil, units(-660, -660)},
			{"an angle that is not typed to its end", "10<", nil, units(-660, 0)},
			{"on the way to millimetres", "100mm", nil, home},
			{"further than a plan reaches", "=20000,0", nil, home},
			{"further at the end", "20000", nil, units(-199660, 0)}, // 2001,1 was at 200200
			{"taken back", "10", []fyne.KeyName{fyne.KeyBackspace}, home},
			{"dropped", "10", []fyne.KeyName{fyne.KeyEscape}, home},
			{"refused", "10<<", []fyne.KeyName{fyne.KeyReturn}, home},
			{"taken", "10", []fyne.KeyName{fyne.KeyReturn}, units(-660, 0)},
		} {
			start(keyed)
			at := b.place()
			h.typed(c.typed)
			h.key(c.keys...)
			if d := b.view.at(c.want.origin); b.view.k != c.want.k || math.Hypot(float64(d.X), float64(d.Y)) > 0.1 {
				t.Errorf("%s, keyed %v: the view is %+v off", c.name, keyed, d)
			}
			if c.name != "taken" && b.place() != at {
				t.Errorf("%s, keyed %v: the pointer went from %v to %v", c.name, keyed, at, b.place())
			}
		}
	}
}

// TestTypedKeepsItsDirection: the pointer gives the direction of a length that is
// typed; the view that moves below it must not turn it.
func TestTypedKeepsItsDirection(t *testing.T) {
	h := newHand(t, smallGarden(), fyne.NewSize(600, 400))
	b := h.board
	b.look(viewAt(geom.Pt(2, 2), 50, b.Size()))
	b.SetSnap(false)
	b.SetTool(tool.NewLine(b.cfg.Defaults))
	h.click(1, 1)
	h.move(h.where(3, 3))
	h.typed("28.28427")
	lead := b.session.Overlay().Leads
	if lead == nil || geom.Distance(*lead, geom.Pt(21, 21)) > geom.Millimetre || !b.Area().Contains(*lead) {
		t.Fatalf("leads to %v, seen %v", lead, b.Area())
	}
	h.key(fyne.KeyReturn)
	// Where the next length goes is told by the pointer as it is seen.
	if at := b.place(); at != b.view.plan(h.at) || b.session.Overlay().NoteAt != at {
		t.Errorf("the pointer is at %v, seen at %v, note at %v", at, b.view.plan(h.at), b.session.Overlay().NoteAt)
	}
	// A click goes where it is seen, even in the middle of typing.
	b.SetTool(tool.ByName(b.cfg.Defaults, tool.NameLamp))
	h.typed("=40,2")
	seen := b.view.plan(h.at)
	if b.place() == seen {
		t.Error("40 m are in sight")
	}
	h.wait()
	h.press(h.at, desktop.MouseButtonPrimary)
	h.let()
	lamps := h.desk.scheme().Lamps.All()
	if got := lamps[len(lamps)-1].Place.At; len(lamps) != 3 || geom.Distance(got, seen) > geom.Centimetre {
		t.Errorf("%d lamps, placed at %v, clicked at %v", len(lamps), got, seen)
	}
}

// TestTypedLeavesGestures: a button that is held keeps the view, and so does a pointer
// that moves; a view that was moved by hand is where it goes back to.
func TestTypedLeavesGestures(t *testing.T) {
	h := newHand(t, smallGarden(), fyne.NewSize(600, 400))
	b := h.board
	home := viewAt(geom.Pt(2, 2), 50, b.Size())
	b.look(home)
	b.SetTool(tool.NewEye(b.cfg.Defaults))
	h.press(h.where(1, 1), desktop.MouseButtonPrimary)
	h.move(h.where(2, 1))
	h.typed("=30,30")
	if b.session.Overlay().Leads == nil || b.view != home {
		t.Errorf("%v: moved by %v in a gesture", b.session.Overlay().Leads, b.view.at(home.origin))
	}
	h.key(fyne.KeyEscape, fyne.KeyEscape)
	h.let()
	b.look(home)
	b.SetTool(tool.NewRun(b.cfg.Defaults))
	h.click(1, 1)
	h.move(h.where(3, 1))
	h.typed("3")
	h.move(h.where(1, 3.5))
	if b.view != home {
		t.Error("a pointer that moves takes the view along")
	}
	b.pan(-10, 0)
	moved := b.view
	h.typed("0")
	if b.view == moved {
		t.Error("30 m up are not seen")
	}
	h.key(fyne.KeyEscape)
	if b.view != moved {
		t.Error("goes back to another view than it was moved to")
	}
}

// TestTypedAndNoteAreApart: what is typed and the note beside it stand on the board and
// clear of each other wherever their place is, and the end of what is typed is seen.
func TestTypedAndNoteAreApart(t *testing.T) {
	h := newHand(t, smallGarden(), fyne.NewSize(300, 200))
	o := &h.board.over
	for _, text := range []string{"3.2m<45_", "3.2m<99999999999999999999999999999999999_"} {
		for x := float32(-500); x <= 800; x += 10 {
			for y := float32(-500); y <= 700; y += 10 {
				at := fyne.NewPos(x, y)
				top, bottom := o.note("3.20 m  45°, run 12.00 m", at)
				o.typed(text, at, top, bottom)
				note, typed := o.pool.plates.items[0], o.pool.plates.items[1]
				end := o.pool.texts.items[1]
				o.pool.end()
				low, high := typed.Position().Y, typed.Position().Y+typed.Size().Height
				if low < note.Position().Y+note.Size().Height && high > note.Position().Y || low < 0 || high > 200 || bottom > 200 || top < 0 {
					t.Fatalf("at %v: typed from %g to %g, note from %g to %g", at, low, high, top, bottom)
				}
				if !strings.HasSuffix(end.Text, "_") || typed.Position().X < 0 || end.Position().X+end.MinSize().Width > 300 {
					t.Fatalf("at %v: %q from %g, %g wide", at, end.Text, end.Position().X, end.MinSize().Width)
				}
			}
		}
	}
}
