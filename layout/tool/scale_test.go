package tool

import (
	"math"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// pictured is a session over a picture of 400 × 300 pixels of 10 mm, its upper
// left corner at 0,3.
func pictured(t *testing.T) *player {
	t.Helper()
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: "plan.png", Sum: strings.Repeat("0a", 32), Width: 400, Height: 300, Pixel: 0.01, At: geom.Pt(0, 3)}
	p := &player{}
	p.session, p.desk, p.set = newSession(s)
	return p
}

func (p *player) plays(t *testing.T, lines ...string) doc.Underlay {
	t.Helper()
	for _, l := range lines {
		if err := p.play(l); err != nil {
			t.Fatalf("%s: %v", l, err)
		}
	}
	return p.session.Scheme().Plan.Underlay
}

// Two points 2 m apart that are 4 m in truth double the picture; the check
// then tells its error.
func TestScaleTool(t *testing.T) {
	p := pictured(t)
	if p.plays(t, "tool Scale picture"); !strings.HasPrefix(p.hintAfter(t, "move 1,1"), "Scale 1/3") {
		t.Error(p.session.Hint())
	}
	p.plays(t, "click 1,1", "click 3,1")
	if p.session.Refused() != "" || !strings.HasPrefix(p.session.Hint(), "Scale 3/3") {
		t.Errorf("%q %q", p.session.Hint(), p.session.Refused())
	}
	u := p.plays(t, "type 4,0m", "key Return")
	if math.Abs(float64(u.Pixel)-0.02) > 1e-12 || u.Place(doc.Spot{X: 100, Y: 200}) != geom.Pt(1, 1) {
		t.Errorf("%+v", u)
	}
	if !strings.HasPrefix(p.session.Hint(), "Check 1/3") {
		t.Error(p.session.Hint())
	}
	u = p.plays(t, "click 1,1", "click 1,3", "type 2.02", "key Return")
	if p.session.Tool().Name() != NameSelect || p.session.Hint() != "Check dimension: 2 m on the picture, 2.02 m in truth: -0.99 %, -20 mm" {
		t.Errorf("%s: %s", p.session.Tool().Name(), p.session.Hint())
	}
	if !u.Check.Given() {
		t.Error("the check was not kept")
	}
	p.plays(t, "undo", "undo")
	if u := p.session.Scheme().Plan.Underlay; u.Known.Given() || u.Pixel != 0.01 {
		t.Errorf("two steps back: %+v", u)
	}
}

func (p *player) hintAfter(t *testing.T, line string) string {
	t.Helper()
	p.plays(t, line)
	return p.session.Hint()
}

func TestScaleToolRefuses(t *testing.T) {
	p := pictured(t)
	p.plays(t, "tool Scale picture", "click 9,9")
	if p.session.Refused() != "That is beside the picture" {
		t.Error(p.session.Refused())
	}
	p.plays(t, "click 1,1", "click 1,1")
	if !strings.Contains(p.session.Refused(), "the first point again") {
		t.Error(p.session.Refused())
	}
	p.plays(t, "click 3,1", "key Return")
	if !strings.Contains(p.session.Refused(), "expected the true length") {
		t.Error(p.session.Refused())
	}
	// The same length proves nothing; the tool stays and takes another.
	p.plays(t, "type 2", "key Return", "click 1,1", "click 3,1", "type 2", "key Return")
	if !strings.Contains(p.session.Refused(), "proves nothing") || p.session.Tool().Name() != NameScale {
		t.Errorf("%q", p.session.Refused())
	}
	p.plays(t, "key BackSpace", "key BackSpace", "click 1,2", "type 1", "key Return")
	if u := p.session.Scheme().Plan.Underlay; !u.Check.Given() {
		t.Error("no check after all")
	}
	none := &player{}
	none.session, none.desk, none.set = newSession(doc.New("uk-18"))
	none.plays(t, "tool Scale picture", "click 1,1")
	if none.session.Refused() != noPicture {
		t.Error(none.session.Refused())
	}
	none.plays(t, "key Escape")
	if none.session.Tool().Name() != NameSelect {
		t.Error("Escape does not leave")
	}
}

func TestMovePictureTool(t *testing.T) {
	p := pictured(t)
	u := p.plays(t, "tool Move picture", "down 1,1", "move 1.5,1", "move 2,3", "up 2,3")
	if u.At != geom.Pt(1, 5) {
		t.Errorf("at %v", u.At)
	}
	if p.plays(t, "undo").At != geom.Pt(0, 3) {
		t.Error("a drag is not one step")
	}
	// From right of the middle (2, 1.5) to below it is a quarter turn clockwise.
	u = p.plays(t, "down 3,1.5 shift", "move 2.5,1", "move 2,0.5", "up 2,0.5")
	if u.Turn != 90 || geom.Distance(u.Middle(), geom.Pt(2, 1.5)) > 3 {
		t.Errorf("turn %g about %v", u.Turn, u.Middle())
	}
	if u = p.plays(t, "undo", "down 3,1.5", "move 0,0", "key Escape"); u.At != geom.Pt(0, 3) || p.session.Previewing() {
		t.Error("Escape keeps the drag")
	}
	if u = p.plays(t, "key Right", "type ]]{"); u.At.X == 0 || u.Turn != 1.9 {
		t.Errorf("keys: %v, %g", u.At, u.Turn)
	}
}
