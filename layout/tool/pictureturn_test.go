package tool

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// The picture of pictured has its middle at 2,1.5 and its upper edge at 3, so that
// the handle stands on its stem of three pick radii, 0.24 m, at 2,3.24. A place at a
// bearing b, 1.74 m away from the middle, turns it to b.
func TestPictureHandle(t *testing.T) {
	at := func(bearing float64) string {
		return point(geom.Toward(geom.Pt(2, 1.5), bearing, geom.Metres(1.74)))
	}
	for _, tool := range []string{NameSelect, NameMovePicture} {
		for _, c := range []struct {
			name string
			do   []string
			want float64 // of the committed picture
			step bool
			on   bool // the gesture is still on
		}{
			{"whole degrees", []string{"down 2,3.24", "move " + at(20), "move " + at(33.4), "up " + at(33.4)}, 33, true, false},
			{"anticlockwise", []string{"down 2,3.24", "move " + at(-33.4), "up " + at(-33.4)}, -33, true, false},
			{"past below", []string{"down 2,3.24", "move " + at(100), "move " + at(190), "up " + at(190)}, -170, true, false},
			{"with Shift", []string{"down 2,3.24", "move " + at(33.4) + " shift", "up " + at(33.4) + " shift"}, 30, true, false},
			{"with Alt", []string{"down 2,3.24", "move " + at(33.4) + " alt", "up " + at(33.4) + " alt"}, 33.4, true, false},
			{"a click", []string{"down 2,3.24", "up 2,3.24"}, 0, false, false},
			{"a shaking hand", []string{"down 2,3.24", "move 2.035,3.24", "up 2.035,3.24"}, 0, false, false},
			{"put back", []string{"down 2,3.24", "move " + at(33.4), "move 2,3.24", "up 2,3.24"}, 0, false, false},
			{"Escape", []string{"down 2,3.24", "move " + at(33.4), "key Escape"}, 0, false, false},
			{"another window", []string{"down 2,3.24", "move " + at(33.4), "cancel"}, 0, false, false},
			{"typed", []string{"down 2,3.24", "move " + at(33.4), "type 12,55", "key Return", "up " + at(33.4)}, 12.55, true, false},
			{"typed and let go", []string{"down 2,3.24", "move " + at(33.4), "type <-7", "up " + at(33.4)}, -7, true, false},
			{"typed before it moves", []string{"down 2,3.24", "type 359", "key Return"}, -1, true, false},
			{"typed and taken back", []string{"down 2,3.24", "move " + at(33.4), "type 9", "key BackSpace", "up " + at(33.4)}, 33, true, false},
			{"Escape drops what is typed", []string{"down 2,3.24", "move " + at(33.4), "type 9", "key Escape"}, 0, false, true},
			{"too much", []string{"down 2,3.24", "move " + at(33.4), "type 361", "key Return"}, 0, false, true},
			{"no letters", []string{"down 2,3.24", "move " + at(33.4), "type rlm[}", "up " + at(33.4)}, 33, true, false},
		} {
			p := pictured(t)
			p.plays(t, "tool "+tool)
			u := p.plays(t, c.do...)
			if math.Abs(u.Turn-c.want) > 1e-9 || geom.Distance(u.Middle(), geom.Pt(2, 1.5)) > 3 {
				t.Errorf("%s, %s: turned %g about %v, want %g about 2,1.5", tool, c.name, u.Turn, u.Middle(), c.want)
			}
			if steps := len(p.desk.names); steps != map[bool]int{true: 1}[c.step] {
				t.Errorf("%s, %s: steps %v", tool, c.name, p.desk.names)
			}
			if _, on := p.session.Tool().(turning); on != c.on || !on && p.desk.preview != nil || p.session.Tool().Name() != tool {
				t.Errorf("%s, %s: %T in hand, preview %v", tool, c.name, p.session.Tool(), p.desk.preview != nil)
			}
			if len(p.session.Selection()) != 0 {
				t.Errorf("%s, %s: selects %v", tool, c.name, p.session.Selection())
			}
			if u := p.plays(t, "cancel", "undo"); c.step && u.Turn != 0 {
				t.Errorf("%s, %s: undo leaves %g", tool, c.name, u.Turn)
			}
		}
	}
}

// What is turned is told while it is dragged, what is refused says why.
func TestPictureHandleTells(t *testing.T) {
	p := pictured(t)
	if h := p.hintAfter(t, "move 2,3.24"); h != turnHandleHint || !p.session.Overlay().Grip {
		t.Errorf("over the handle: %q", h)
	}
	p.plays(t, "down 2,3.24", "move 3.74,1.5")
	if o := p.session.Overlay(); o.Note != "turned 90°" || o.NoteAt != geom.Pt(3.74, 1.5) || p.session.Hint() != turningHint {
		t.Errorf("%+v, %q", o, p.session.Hint())
	}
	p.plays(t, "type 1.")
	if o := p.session.Overlay(); o.Typed != "1._ °" || o.Note != "turned 1°" {
		t.Errorf("%+v", o)
	}
	p.plays(t, "type 5-", "key Return")
	if want := `found angle "1.5-", expected degrees clockwise from upright, such as 12.5 or -3`; p.session.Refused() != want {
		t.Errorf("%q", p.session.Refused())
	}
}

// With the tool for pictures in hand the edge of the picture is shown all the time, and
// where the picture is: after a gesture and a key too, before the pointer moves again.
func TestPictureKeepsItsEdge(t *testing.T) {
	for _, do := range [][]string{
		{"down 2,3.24", "move 3.74,1.5", "up 3.74,1.5"}, // the handle
		{"down 2,3.24", "move 3.74,1.5", "type 30", "key Return"},
		{"down 2,3.24", "move 3.74,1.5", "key Escape"},
		{"down 2,3.24", "up 2,3.24"},
		{"down 2,1", "move 3,2", "up 3,2"},
		{"down 2,1", "move 3,2", "key Escape"},
		{"down 2,1", "up 2,1"},
		{"key Left"},
		{"type ]"},
	} {
		p := pictured(t)
		p.plays(t, "tool "+NameMovePicture, "move 2,1")
		c := p.plays(t, do...).Corners()
		lines := p.session.Overlay().Lines
		if len(lines) != 1 || !slices.Equal(lines[0], []geom.Point{c[0], c[1], c[2], c[3], c[0]}) {
			t.Errorf("%v: the edge is %v, the picture has its corners at %v", do, lines, c)
		}
	}
}

// Things come before the handle, the ground does not; what is selected, locked or not
// to be seen has none with Select in hand, and the tool for pictures keeps it.
func TestPictureHandleGivesWay(t *testing.T) {
	lamp := func(s *doc.Scheme) {
		s.Lamps = s.Lamps.With(&doc.Lamp{ID: "L1", Tag: "L1", Stock: "spot", Place: doc.Place{At: geom.Pt(2, 3.2)}})
	}
	run := func(s *doc.Scheme) {
		s.Runs = s.Runs.With(&doc.Run{ID: "R1", Tag: "R1", From: doc.End{At: geom.Pt(0, 3.2)}, To: doc.End{At: geom.Pt(4, 3.2)}, Legs: []doc.Leg{{}}})
	}
	lawn := func(s *doc.Scheme) {
		s.Areas = s.Areas.With(&doc.Area{ID: "A1", Tag: "A1", Kind: "lawn", Ring: []geom.Point{geom.Pt(-9, -9), geom.Pt(9, -9), geom.Pt(9, 9), geom.Pt(-9, 9)}})
	}
	for _, c := range []struct {
		name       string
		change     func(*doc.Scheme)
		do         []string
		with, none bool // with Select, with the tool for pictures not
	}{
		{"bare", func(*doc.Scheme) {}, nil, true, false},
		{"lamp", lamp, nil, false, false},
		{"run", run, nil, false, false},
		{"lawn", lawn, nil, true, false},
		{"selected", func(s *doc.Scheme) {
			lamp(s)
			s.Lamps = s.Lamps.With(&doc.Lamp{ID: "L2", Tag: "L2", Stock: "spot", Place: doc.Place{At: geom.Pt(9, 9)}})
		}, []string{"select L2"}, false, false},
		{"locked", func(s *doc.Scheme) { s.Plan.Underlay.Lock = true }, nil, false, true},
		{"faded away", func(s *doc.Scheme) { s.Plan.Underlay.Fade = 1 }, nil, false, false},
		{"no picture", func(s *doc.Scheme) { s.Plan.Underlay = doc.Underlay{} }, nil, false, true},
	} {
		for _, tool := range []string{NameSelect, NameMovePicture} {
			s := *pictured(t).session.Scheme()
			c.change(&s)
			p := &player{}
			p.session, p.desk, p.set = newSession(&s)
			p.plays(t, append(append([]string{"tool " + tool}, c.do...), "down 2,3.24", "move 3.74,1.5")...)
			want := c.with
			if tool == NameMovePicture {
				want = !c.none
			}
			if _, on := p.session.Tool().(turning); on != want {
				t.Errorf("%s, %s: turns %v", c.name, tool, on)
			}
		}
	}
	p := pictured(t)
	p.session.SetPictureShown(false)
	if p.plays(t, "down 2,3.24", "move 3.74,1.5", "up 3.74,1.5").Turn != 0 {
		t.Error("turned by a handle that is not seen")
	}
}

// A view whose upper edge leads past the middle of the picture has the handle at its
// corner that is furthest away: at the middle a hair's breadth would be half a turn.
func TestPictureMarkOffTheMiddle(t *testing.T) {
	p := pictured(t)
	p.plays(t, "tool "+NameMovePicture)
	m, ok := p.session.PictureMark(p.session.Scheme(), geom.Around(geom.Pt(1.5, 0.9), geom.Pt(2.2, 1.6)), 20*geom.Millimetre)
	if want := geom.Pt(1.54, 0.94); !ok || m.Handle != want {
		t.Errorf("handle at %v, want %v", m.Handle, want)
	}
}

// TestPictureMark: the handle is where it is picked, stands at the edge of the view
// when the picture's is not seen, and never so near the middle that it would jump.
func TestPictureMark(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		u := doc.Underlay{File: "p.png", Sum: strings.Repeat("0a", 32), Width: 400, Height: 300, Pixel: 0.01, At: geom.Pt(num("x", -3, 3), num("y", -3, 3)), Turn: num("turn", -180, 180)}
		s := doc.New("uk-18")
		s.Plan.Underlay = u
		session, _, set := newSession(s)
		session.Take(NewMovePicture(set))
		lo := geom.Pt(num("left", -4, 4), num("low", -4, 4))
		view := geom.Around(lo, lo.Add(geom.Pt(num("wide", 0.5, 20), num("high", 0.5, 20))))
		const near = 10 * geom.Millimetre // a pick radius at the scale of such a view
		m, ok := session.PictureMark(s, view, near)
		if !ok {
			t.Fatal("no handle")
		}
		edge := u.Place(doc.Spot{X: 200})
		if seen := geom.Toward(edge, u.Turn, stemReaches*near); view.Grow(-viewReaches * near).Contains(seen) {
			if m.Handle != seen || geom.Distance(m.Foot, edge) > 2 {
				t.Fatalf("handle at %v on %v, want %v on %v", m.Handle, m.Foot, seen, edge)
			}
		} else if view.Overlaps(u.Bounds()) && (!view.Contains(m.Handle) || geom.Distance(m.Handle, m.Middle) < middleReaches*near) {
			t.Fatalf("handle at %v, view %v, middle %v", m.Handle, view, m.Middle)
		}
		e := Event{Kind: Down, Button: LeftButton, At: m.Handle, Reach: near, View: view}
		session.Send(e)
		if _, on := session.Tool().(turning); !on {
			t.Fatal("what is drawn cannot be taken hold of")
		}
		// It goes with the pointer, and the picture turns by as much.
		by := num("by", -179, 179)
		far := geom.Distance(m.Middle, m.Handle)
		e.Kind, e.At, e.Mods.Alt = Move, geom.Toward(m.Middle, geom.Bearing(m.Middle, m.Handle)+by, far), true
		if geom.Distance(e.At, m.Handle) < near {
			return
		}
		op, ok := session.Send(e).Preview.(edit.TurnPicture)
		if !ok || math.Abs(math.Remainder(op.To-u.Turn-by, 360)) > 0.02 {
			t.Fatalf("by %g from %g gives %+v", by, u.Turn, op)
		}
		held, _ := session.PictureMark(s, view, near)
		if !held.Held || geom.Distance(held.Handle, e.At) > geom.Length(float64(far)*0.0004)+3 {
			t.Fatalf("handle at %v, pointer at %v", held.Handle, e.At)
		}
	})
}
