package tool

import (
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

const busyGarden = `
supply SP1 0,0
source S1 4,0 source
box B1 6,0 box
lamp L1 8,0 low
lamp L2 8,2 high
run R1 SP1 2,1 S1.in
run R2 S1.out 5,3 6,3
line N1 -1,5 9,5
area A1 -1,-1 9,-1 9,9 -1,9
mark M1 3,3
`

// TestRandomEvents holds, for any order of events: nothing panics, one event
// makes at most one step, a cancel leaves no preview and the scheme as it is,
// and what is selected exists.
func TestRandomEvents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start, err := readScheme(busyGarden)
		if err != nil {
			t.Fatal(err)
		}
		s, desk, set := newSession(start)
		for range rapid.IntRange(1, 60).Draw(t, "events") {
			before := len(desk.history)
			switch rapid.IntRange(0, 13).Draw(t, "what") {
			case 0:
				tools := append(All(set), NewMirror(set, s.Selection()))
				s.Take(rapid.SampledFrom(tools).Draw(t, "tool"))
			case 13:
				jumpOn(t, s)
			case 1:
				desk.undo()
				before = len(desk.history)
			case 2:
				s.Send(Event{Kind: Cancel})
				if desk.preview != nil {
					t.Fatal("a cancel left a preview")
				}
				if len(desk.history) != before {
					t.Fatal("a cancel made a step")
				}
			default:
				s.Send(drawEvent(t))
			}
			if len(desk.history) > before+1 {
				t.Fatalf("one event made %d steps", len(desk.history)-before)
			}
			if s.Previewing() != (desk.preview != nil) {
				t.Fatalf("session previews %v, desk %v", s.Previewing(), desk.preview != nil)
			}
			for _, id := range s.Selection() {
				if doc.KindOf(desk.current(), id) == doc.NoKind {
					t.Fatalf("%s is selected but not there", id)
				}
			}
		}
	})
}

// jumpOn jumps to one of the places near a pointer that keys have moved, and clicks
// there: it must be caught where it jumped to.
func jumpOn(t *rapid.T, s *Session) {
	e := drawEvent(t)
	e.Kind, e.Keyed, e.Mods, e.Button, e.Clicks = Move, true, Modifiers{}, LeftButton, 1
	s.Send(e)
	list := s.Jumps()
	if len(list) == 0 {
		return
	}
	e.At, e.Step = rapid.SampledFrom(list).Draw(t, "jump"), 0
	v := s.Send(e)
	if o := v.Overlay; o.Snap != nil && o.Typed == "" && geom.Distance(*o.Snap, e.At) > onLine*3/2 {
		t.Fatalf("%s: a jump to %v is caught at %v", s.Tool().Name(), e.At, *o.Snap)
	}
}

// drawEvent draws an event on a half-metre raster, so that things are hit.
func drawEvent(t *rapid.T) Event {
	half := rapid.IntRange(-2, 20)
	return Event{
		Keyed:  rapid.Bool().Draw(t, "keyed"),
		Step:   geom.Length(rapid.SampledFrom([]int{0, 10, 100}).Draw(t, "step")) * geom.Millimetre,
		Kind:   Kind(rapid.SampledFrom([]int{int(Down), int(Move), int(Move), int(Up), int(Key), int(Rune)}).Draw(t, "kind")),
		At:     geom.Pt(float64(half.Draw(t, "x"))/2, float64(half.Draw(t, "y"))/2),
		Button: rapid.SampledFrom([]Button{LeftButton, LeftButton, LeftButton, RightButton}).Draw(t, "button"),
		Mods: Modifiers{Shift: rapid.Bool().Draw(t, "shift"), Control: rapid.Bool().Draw(t, "control"),
			Alt: rapid.Bool().Draw(t, "alt")},
		Clicks: rapid.IntRange(1, 2).Draw(t, "clicks"),
		Key: rapid.SampledFrom([]string{KeyEscape, KeyReturn, KeyBackSpace, KeyDelete, KeyUp, KeyDown,
			KeyLeft, KeyRight, KeySelectAll, "F1"}).Draw(t, "key"),
		Rune:  rapid.SampledFrom([]rune("0123456789.,mc<- x=@iIwWoOaAhHvVjJ")).Draw(t, "rune"),
		Reach: reach,
	}
}

// TestGestureIsOneStep drags through random places: what is previewed depends
// on the last place alone, the drag is one step, and undo gives the start.
func TestGestureIsOneStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start, err := readScheme(busyGarden)
		if err != nil {
			t.Fatal(err)
		}
		far := rapid.IntRange(1, 30)
		last := geom.Pt(float64(far.Draw(t, "x"))/3, float64(far.Draw(t, "y"))/3+20)
		drag := func(through int) *doc.Scheme {
			s, desk, _ := newSession(start)
			at := geom.Pt(8, 0)
			send := func(k Kind, p geom.Point) {
				s.Send(Event{Kind: k, At: p, Button: LeftButton, Clicks: 1, Reach: reach})
			}
			send(Down, at)
			for range through {
				send(Move, geom.Pt(float64(far.Draw(t, "vx")), float64(far.Draw(t, "vy"))))
			}
			send(Move, last)
			send(Up, last)
			if len(desk.history) != 2 {
				t.Fatalf("a drag made %d steps", len(desk.history)-1)
			}
			end := desk.current()
			desk.undo()
			if desk.current() != start {
				t.Fatal("undo did not give the start scheme")
			}
			return end
		}
		straight := writeScheme(drag(0))
		if roundabout := writeScheme(drag(rapid.IntRange(1, 6).Draw(t, "through"))); roundabout != straight {
			t.Fatalf("the way there matters:\n%s\n%s", straight, roundabout)
		}
	})
}
