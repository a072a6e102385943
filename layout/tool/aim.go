package tool

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

const aimHint = "Let go to aim; Shift keeps to 15° round and 5° up, Esc puts it back"

// Steps of the keys and of Shift, in degrees.
const (
	aimStep, aimFine              = 5.0, 1.0
	aimCoarse, tiltCoarse         = 15.0, 5.0
	aimRounded                    = 0.1 // of a drag
	mostTilt                      = 90.0
	aimKeys                       = "Ctrl+arrows"
	aimHandleHint                 = "Drag to aim the beam; " + aimKeys + " turn and tilt it"
	refusedAim                    = aimKeys + " aim one selected lamp that has a beam"
	wholeTurn             float64 = 360
)

// aiming turns the beam of one lamp: bearing and tilt in one movement.
type aiming struct {
	set   *Defaults
	id    doc.ID
	from  aimMap
	aim   float64 // as it was, for the pole
	moved edit.Operation
}

func newAiming(d *Defaults, w *World, h Hit, reach geom.Length) Tool {
	l, item, ok := beamOf(w.Scheme, w.Stock, h.ID)
	if !ok {
		return NewSelect(d)
	}
	aim, _ := l.Points(item)
	return aiming{set: d, id: h.ID, from: newAimMap(l, item, reach), aim: aim}
}

// Name implements Tool.
func (aiming) Name() string { return NameSelect }

// Handle implements Tool.
func (t aiming) Handle(e Event, w *World) Verdict {
	back := Verdict{Next: NewSelect(t.set), Hint: selectHint}
	switch {
	case e.Kind == Move:
		return t.move(e)
	case e.Kind == Up && e.Button == LeftButton:
		back.Commit, back.Cancel = t.moved, t.moved == nil
		return back
	case e.Kind == Cancel, e.Kind == Key && e.Key == KeyEscape:
		back.Cancel = true
		return back
	}
	return Verdict{Hint: aimHint}
}

func (t aiming) move(e Event) Verdict {
	aim, tilt, turned := t.from.read(e.At)
	if !turned {
		aim = t.aim
	}
	round, rise := aimRounded, aimRounded
	if e.Mods.Shift {
		round, rise = aimCoarse, tiltCoarse
	}
	aim, tilt = math.Round(aim/round)*round, math.Round(tilt/rise)*rise
	op := edit.AimLamp{ID: t.id, Aim: aim, Tilt: tilt}
	t.moved = op
	note := fmt.Sprintf("aim %s, tilt %s", angle(aim), angle(tilt))
	if t.from.ground {
		note += fmt.Sprintf(", lands %.2f m away", t.from.lands(tilt))
	}
	return Verdict{Preview: op, Next: t, Hint: aimHint, Overlay: Overlay{Note: note, NoteAt: e.At}}
}

// angle writes degrees, a whole turn as none.
func angle(deg float64) string {
	return fmt.Sprintf("%.4g°", math.Mod(math.Round(deg*10)/10, wholeTurn)+0)
}

// pickAim returns the hit on the aim handle of the one selected lamp.
func pickAim(w *World, e Event) (Hit, bool) {
	if len(w.Selection) != 1 {
		return Hit{}, false
	}
	m, ok := AimMarkOf(w.Scheme, w.Stock, w.Selection[0], e.Reach)
	if !ok || geom.Distance(e.At, m.Handle) > e.Reach {
		return Hit{}, false
	}
	return Hit{ID: w.Selection[0], Vertex: NoVertex, Leg: NoVertex, Aim: true}, true
}

// aimKey turns the selected lamp by an arrow with Ctrl: left and right round, up
// and down in tilt.
func (t selecting) aimKey(e Event, w *World) Verdict {
	v := Verdict{Hint: selectHint, Used: true}
	var l *doc.Lamp
	var item *doc.LampStock
	ok := len(w.Selection) == 1
	if ok {
		l, item, ok = beamOf(w.Scheme, w.Stock, w.Selection[0])
	}
	if !ok {
		v.Refused = refusedAim
		return v
	}
	step := aimStep
	if e.Mods.Shift {
		step = aimFine
	}
	aim, tilt := l.Points(item)
	turn := map[string][2]float64{KeyLeft: {-step, 0}, KeyRight: {step, 0}, KeyUp: {0, step}, KeyDown: {0, -step}}[e.Key]
	aim, tilt = math.Mod(aim+turn[0]+wholeTurn, wholeTurn), math.Min(math.Max(tilt+turn[1], -mostTilt), mostTilt)
	v.Commit = edit.AimLamp{ID: l.ID, Aim: aim, Tilt: tilt}
	v.Hint = fmt.Sprintf("%s: aim %s, tilt %s", l.Tag, angle(aim), angle(tilt))
	return v
}
