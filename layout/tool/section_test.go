package tool

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// sideScheme is a run from a box on a wall to a lamp: clipped up to 3 m, then
// buried, in duct from 6 m on.
func sideScheme() *doc.Scheme {
	const mm = geom.Millimetre
	s := doc.New("uk-18")
	s.Boxes = doc.NewSet(&doc.Box{ID: "b1", Tag: "B1", Stock: "box", Place: doc.Place{Height: 300 * mm}})
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "l1", Tag: "L1", Stock: "low", Place: doc.Place{At: geom.Pt(9, 0), Height: 200 * mm}})
	s.Runs = doc.NewSet(
		&doc.Run{ID: "r1", Tag: "R1", Cable: "thin", From: doc.End{On: "b1"}, To: doc.End{On: "l1"}, Legs: []doc.Leg{
			{To: geom.Pt(3, 0), Support: network.Clipped, Height: 300 * mm}, {To: geom.Pt(6, 0), Support: network.Buried, Depth: 450 * mm}, {Support: network.InDuct, Depth: 450 * mm}}},
		&doc.Run{ID: "r2", Tag: "R2", Cable: "thin", From: doc.End{On: "l1"}, To: doc.End{At: geom.Pt(9, 2)}, Legs: []doc.Leg{{Support: network.Buried}}})
	return s
}

// levels writes what a section shows of a scheme: "B1 300 mm | clipped 300 mm".
func levels(s *doc.Scheme, run doc.ID) string {
	p, _ := derive.Unroll(s, run, nil)
	out := []string{}
	for part := 0; part <= len(p.Legs)+1; part++ {
		out = append(out, say(p, part))
	}
	return strings.Join(out, " | ")
}

// TestSectionScripts plays the gestures of testdata/section/*.txt on the side
// of a run: places are metres along it and above the ground.
func TestSectionScripts(t *testing.T) {
	files, err := filepath.Glob("testdata/section/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no scripts in testdata/section", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			raw, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			script, want, ok := strings.Cut(string(raw), "-- want --\n")
			if !ok {
				t.Fatalf("%s: part -- want -- expected", file)
			}
			p := newSidePlayer()
			for _, line := range strings.Split(strings.TrimSpace(script), "\n") {
				if err := p.play(line); err != nil {
					t.Fatalf("%s: %q: %v", file, line, err)
				}
				if r := p.session.Refused(); r != "" {
					fmt.Fprintf(&p.log, "refused: %s\n", r)
				}
			}
			got := p.log.String() + levels(p.desk.current(), "r1") + "\nsteps: " + strings.Join(p.desk.names, "; ") + "\n"
			if p.desk.preview != nil {
				got += "a preview is still on\n"
			}
			if *update {
				if err := os.WriteFile(file, []byte(script+"-- want --\n"+got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s: -want +got\n%s", file, diff)
			}
		})
	}
}

func newSidePlayer() *player {
	p := &player{}
	p.session, p.desk, p.set = newSession(sideScheme())
	p.session.Take(NewSection(p.set))
	p.session.Select("r1")
	return p
}

// TestSectionMissed: the pick radius across a section is its own.
func TestSectionMissed(t *testing.T) {
	p := newSidePlayer()
	p.session.Send(Event{Kind: Down, Button: LeftButton, Clicks: 1, At: geom.Pt(4.5, -0.5), Reach: reach, ReachUp: 20 * geom.Millimetre})
	p.session.Send(Event{Kind: Move, Button: LeftButton, At: geom.Pt(4.5, -1), Reach: reach, ReachUp: 20 * geom.Millimetre})
	if p.desk.preview != nil {
		t.Error("50 mm off a leg with a reach of 20 mm took it")
	}
}

// A gesture of any moves and keys makes one step at most when it is let go and
// none when it is cancelled, and whatever is done keeps a buried leg in the
// ground and a clipped one out of it.
func TestLawsOfSection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := newSidePlayer()
		at := func() geom.Point {
			return geom.Pt(rapid.Float64Range(-1, 10).Draw(t, "x"), rapid.Float64Range(-2, 2).Draw(t, "y"))
		}
		mods := func() Modifiers {
			return Modifiers{Shift: rapid.Bool().Draw(t, "shift"), Alt: rapid.Bool().Draw(t, "alt")}
		}
		send := func(e Event) {
			e.Reach, e.ReachUp, e.Button = geom.Metre/2, geom.Metre/2, LeftButton
			p.session.Send(e)
		}
		for range rapid.IntRange(1, 8).Draw(t, "gestures") {
			before, steps := p.desk.current(), len(p.desk.history)
			if rapid.Bool().Draw(t, "key") {
				key := rapid.SampledFrom([]string{KeyLeft, KeyRight, KeyUp, KeyDown}).Draw(t, "which")
				send(Event{Kind: Key, Key: key, Mods: mods()})
			} else {
				send(Event{Kind: Down, At: at(), Clicks: 1})
				for range rapid.IntRange(0, 4).Draw(t, "moves") {
					send(Event{Kind: Move, At: at(), Mods: mods()})
				}
				if rapid.Bool().Draw(t, "cancel") {
					send(Event{Kind: Key, Key: KeyEscape})
					if p.desk.current() != before {
						t.Fatal("a cancelled gesture changed the scheme")
					}
				}
				send(Event{Kind: Up, At: at()})
			}
			if n := len(p.desk.history) - steps; n > 1 {
				t.Fatalf("one gesture made %d steps", n)
			}
			if p.desk.preview != nil {
				t.Fatal("a preview is left on")
			}
			r, _ := p.desk.current().Runs.Get("r1")
			for i, l := range r.Legs {
				if l.Support == network.Buried && l.Depth <= 0 || edit.InGround(l.Support) && l.Height != 0 || !edit.InGround(l.Support) && (l.Height < 0 || l.Depth != 0) {
					t.Fatalf("leg %d: %+v", i+1, l)
				}
			}
		}
	})
}
