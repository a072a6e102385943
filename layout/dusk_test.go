package layout_test

import (
	"bytes"
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// wish asks for a frame as a board of 200 by 160 mm shows it.
func wish(f *layout.Frame, area geom.Rect, hold doc.ID) layout.DuskWish {
	return layout.DuskWish{Frame: f, Area: area, Hold: hold, PxPerMM: 2, Width: 200, Height: 160,
		View: scene.View{Denominator: 100, Origin: geom.Pt(-2, 16)}}
}

// settled takes steps until there is nothing more to do and returns the last
// shot, nil when there was none.
func settled(t interface{ Fatal(...any) }, d *layout.Dusk, w layout.DuskWish) (last *layout.DuskShot, shots int) {
	for range 10 {
		shot, more, err := d.Step(context.Background(), w)
		if err != nil {
			t.Fatal(err)
		}
		if shot != nil {
			last, shots = shot, shots+1
		}
		if !more {
			return last, shots
		}
	}
	t.Fatal("no end of steps")
	return nil, 0
}

// TestDuskEqualsScratch: after any sequence of gestures, turns, commits, undos
// and views, cut short anywhere, the worker gives what a new one gives.
func TestDuskEqualsScratch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		desk := rapidDesk(t)
		d := layout.SmallDusk()
		area := layout.NightArea(desk.Frame().Scheme)
		var hold doc.ID
		lamps := desk.Frame().Scheme.Lamps.All()
		for range rapid.IntRange(1, 6).Draw(t, "acts") {
			l := lamps[rapid.IntRange(0, len(lamps)-1).Draw(t, "lamp")]
			hold = doc.ID(rapid.SampledFrom([]string{"", string(l.ID)}).Draw(t, "hold"))
			by := geom.Point{X: geom.Length(rapid.IntRange(-20, 20).Draw(t, "x")) * geom.Metre / 10, Y: geom.Length(rapid.IntRange(-20, 20).Draw(t, "y")) * geom.Metre / 10}
			switch rapid.IntRange(0, 5).Draw(t, "act") {
			case 0, 1:
				_ = desk.Preview(edit.MovePoints{IDs: []doc.ID{l.ID}, By: by})
			case 2:
				_ = desk.Preview(edit.AimLamp{ID: l.ID, Aim: float64(rapid.IntRange(0, 360).Draw(t, "aim")), Tilt: float64(rapid.IntRange(-80, 80).Draw(t, "tilt"))})
			case 3:
				_ = desk.Commit(edit.MovePoints{IDs: []doc.ID{l.ID}, By: by})
			case 4:
				desk.Undo()
			case 5:
				desk.Cancel()
			}
			if !desk.Frame().Preview {
				area = layout.NightArea(desk.Frame().Scheme)
			}
			w := wish(desk.Frame(), area, hold)
			ctx, cancel := context.WithCancel(context.Background())
			cancel() // a fine fill that is cut short at once
			_, _, _ = d.Step(ctx, w)
			if rapid.Bool().Draw(t, "finish") {
				settled(t, d, w)
			}
		}
		w := wish(desk.Frame(), area, hold)
		w.View.Denominator = 101 // a view that was not drawn yet
		got, _ := settled(t, d, w)
		want, _ := settled(t, layout.SmallDusk(), w)
		if got.Coarse || want.Coarse {
			t.Fatal("the last picture is coarse")
		}
		if !bytes.Equal(got.Picture.Level(0).Pix, want.Picture.Level(0).Pix) || !bytes.Equal(got.Image.Pix, want.Image.Pix) {
			t.Fatal("the picture differs from one made from scratch")
		}
		if len(got.Lines) != len(want.Lines) {
			t.Fatalf("%d lines of lux, expected %d", len(got.Lines), len(want.Lines))
		}
	})
}

// rapidDesk is nightDesk for a property.
func rapidDesk(t *rapid.T) *layout.Desk {
	return openDesk(t, "../assets/examples/townhouse.yaml")
}

// TestDuskSteps: the first picture is coarse, the fine one follows, a moved lamp
// gives a fine picture at once, and nothing is drawn twice.
func TestDuskSteps(t *testing.T) {
	desk := nightDesk(t)
	d := layout.NewDusk()
	l := desk.Frame().Scheme.Lamps.All()[6]
	w := wish(desk.Frame(), layout.NightArea(desk.Frame().Scheme), l.ID)
	shot, more, err := d.Step(context.Background(), w)
	if err != nil || shot == nil || !shot.Coarse || !more {
		t.Fatalf("first step: %+v, more %v, %v", shot, more, err)
	}
	if shot, _, err = d.Step(context.Background(), w); err != nil || shot == nil || shot.Coarse {
		t.Fatalf("second step: %+v, %v", shot, err)
	}
	if g := shot.Grid; g.W*g.H < 250000 || g.W*g.H > 266000 {
		t.Errorf("fine sheet of %d x %d cells", g.W, g.H)
	}
	if shot, more, err = d.Step(context.Background(), w); err != nil || shot != nil || more {
		t.Fatalf("third step: %+v, more %v, %v", shot, more, err)
	}
	if err := desk.Preview(edit.MovePoints{IDs: []doc.ID{l.ID}, By: geom.Pt(0.5, 0.25)}); err != nil {
		t.Fatal(err)
	}
	w.Frame = desk.Frame()
	if shot, _, err = d.Step(context.Background(), w); err != nil || shot == nil || shot.Coarse || !shot.Preview {
		t.Fatalf("a moved lamp: %+v, %v", shot, err)
	}
}

// TestDuskIsNight: the picture's sheet shows what the night has, rounding of
// shares and left-out light aside.
func TestDuskIsNight(t *testing.T) {
	desk := nightDesk(t)
	shot, _ := settled(t, layout.NewDusk(), wish(desk.Frame(), layout.NightArea(desk.Frame().Scheme), ""))
	checked := 0
	for _, c := range shot.Lines {
		if !c.Closed || len(c.Line) < 40 {
			continue
		}
		// Beside the line there is more on one side and less on the other; where a
		// shadow ends that is a step.
		p, most, least := c.Line[len(c.Line)/3], 0.0, math.Inf(1)
		for _, by := range []geom.Point{geom.Pt(shot.Grid.Step, 0), geom.Pt(-shot.Grid.Step, 0), geom.Pt(0, shot.Grid.Step), geom.Pt(0, -shot.Grid.Step)} {
			lux := float64(shot.Night.Probe(geom.Pt(p.X, p.Y).Add(by)).Lux)
			most, least = math.Max(most, lux), math.Min(least, lux)
		}
		if slack := 0.004*c.Level + light.LeftOut; most < c.Level-slack || least > c.Level+slack {
			t.Errorf("beside the line of %g lx at %.2f, %.2f there are %g to %g lx", c.Level, p.X, p.Y, least, most)
		}
		checked++
	}
	if checked < 5 {
		t.Errorf("looked at %d lines", checked)
	}
}

// TestProbe: the shares sum to the whole, most first, and the whole is that of
// the scene.
func TestProbe(t *testing.T) {
	n, err := layout.NightOf(nightDesk(t).Frame())
	if err != nil {
		t.Fatal(err)
	}
	p := n.Probe(geom.Pt(3.25, 11.5))                                           // below L7
	want := float64(n.Scene.At(light.Vec{X: 3.25, Y: 11.5, Z: 0.12}, light.Up)) // on the deck
	if math.Abs(float64(p.Lux)-want) > 1e-9 || p.Lux < 10 {
		t.Errorf("%g lx, expected %g", float64(p.Lux), want)
	}
	sum := 0.0
	for i, s := range p.From {
		sum += s.Part
		if i > 0 && s.Lux > p.From[i-1].Lux {
			t.Error("a lamp that gives more comes later")
		}
	}
	if math.Abs(sum-1) > 1e-9 || p.From[0].Lamp.Tag != "L7" {
		t.Errorf("parts sum to %g, the first is %s", sum, p.From[0].Lamp.Tag)
	}
}

// TestNightGround: the cell kinds are those that asking point by point gives,
// but for cells whose middle lies on an edge.
func TestNightGround(t *testing.T) {
	s := nightDesk(t).Frame().Scheme
	g := layout.NightGrid(layout.NightArea(s), 200*200)
	got := layout.NightGround(s, g)
	off := 0
	for y := range g.H {
		for x := range g.W {
			p := g.Middle(x, y)
			want := light.RGB{}
			want, _ = layout.Reflectance("")
			for _, a := range s.Areas.All() {
				if rho, ok := layout.Reflectance(a.Kind); ok && geom.Inside(geom.Pt(p.X, p.Y), a.Ring) {
					want = rho
				}
			}
			if got.Rho[got.Kind[y*g.W+x]] != want {
				off++
			}
		}
	}
	if off > g.W*g.H/1000 {
		t.Errorf("%d of %d cells differ", off, g.W*g.H)
	}
}
