package ui

import (
	"context"
	"errors"
	"time"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// workDusk names the work on the night picture.
const workDusk = "night picture"

// dusk is what the window keeps of the night picture: one worker, one step of it
// at a time. What is asked for meanwhile is asked once more when the step is done,
// for the frame and the view of then.
type dusk struct {
	work   *layout.Dusk
	busy   bool
	again  bool               // something was asked for during the step
	long   bool               // the step is one that may be broken off
	cancel context.CancelFunc // breaks it off
	area   geom.Rect          // of the last scheme without a gesture
	of     *doc.Scheme        // that
	puts   int                // see fits
	read   *duskRead
	after  bool // after curfew is what is looked at
	entry  *entry
}

func (w *Window) makeDusk() {
	w.dusk.work, w.dusk.read = layout.NewDusk(), newDuskRead(w)
}

// duskOn reports whether the night picture is what is looked at.
func (w *Window) duskOn() bool {
	return len(w.views.all) > 0 && w.views.current().look == scene.LookDusk
}

// lookDusk follows the choice of the view.
func (w *Window) lookDusk() {
	if w.duskOn() {
		w.dusk.read.box.Show()
		w.plan.SetFoot(w.dusk.read.height())
		w.askDusk()
		return
	}
	if w.dusk.read.box.Visible() {
		w.dusk.read.box.Hide()
		w.dusk.read.now = nil // it holds a night
		w.plan.SetFoot(0)
	}
	if w.plan.Night() != nil {
		w.plan.SetNight(nil)
	}
	if w.dusk.busy {
		w.dusk.cancel()
	}
}

// askDusk asks for the night picture of the present frame and view.
func (w *Window) askDusk() {
	d := &w.dusk
	if !w.duskOn() {
		return
	}
	f := w.desk.Frame()
	if !f.Preview && d.of != f.Scheme {
		d.of, d.area = f.Scheme, layout.NightArea(f.Scheme)
	}
	if d.busy {
		d.again = true
		if d.long {
			d.cancel()
		}
		return
	}
	wish := layout.DuskWish{Frame: f, Area: d.area, AfterCurfew: d.after}
	if !w.plan.NightWish(&wish) {
		return
	}
	if ids := w.plan.Selection(); len(ids) == 1 {
		wish.Hold = ids[0]
	}
	d.busy, d.puts = true, w.puts
	mine, cancel := context.WithCancel(context.Background())
	d.cancel = cancel
	work := d.work
	type answer struct {
		shot *layout.DuskShot
		more bool
		took time.Duration
	}
	Run(w.bridge, workDusk, func(ctx context.Context) (answer, error) {
		stop := context.AfterFunc(ctx, cancel)
		defer stop()
		begun := time.Now()
		shot, more, err := work.Step(mine, wish)
		return answer{shot, more, time.Since(begun)}, err
	}, func(a answer, err error) {
		cancel()
		w.gotDusk(a.shot, a.more, a.took, err)
	})
}

// gotDusk shows what the worker made, if it still belongs to what is drawn, and
// has it go on.
func (w *Window) gotDusk(shot *layout.DuskShot, more bool, took time.Duration, err error) {
	d := &w.dusk
	again := d.again
	d.busy, d.again = false, false
	if err != nil && !errors.Is(err, context.Canceled) {
		w.status.SetHint("No night picture: "+err.Error(), true)
		more = false
	}
	if w.duskOn() && shot != nil && w.duskFits(shot) {
		w.plan.SetNight(shot)
		d.read.update()
		w.changed()
	}
	d.long = more && !again
	switch {
	case !again && !more:
	case w.pace.later != nil && w.desk.Frame().Preview:
		// The hand has the processor for as long as the picture had it.
		d.busy = true
		w.pace.later(min(took, longestRest), func() {
			d.busy, d.again = false, false
			w.askDusk()
		})
	default:
		w.askDusk()
	}
}

// longestRest bounds how long the next picture of a gesture waits.
const longestRest = 100 * time.Millisecond

// duskFits reports whether a picture still belongs to what is drawn. During a
// gesture every picture of it is one step nearer; one that comes after the gesture
// was let go or dropped, or of a scheme that is no longer open, is not shown.
func (w *Window) duskFits(shot *layout.DuskShot) bool {
	f := w.desk.Frame()
	if w.dusk.puts != w.puts || shot.Preview && !f.Preview {
		return false
	}
	if shot.AfterCurfew != w.dusk.after {
		return false
	}
	was := w.plan.Night()
	return was == nil || shot.Seq >= was.Seq
}

// curfewEntry is the entry of the View menu that leaves dark what is off after curfew.
func (w *Window) curfewEntry() *entry {
	w.dusk.entry = w.item("Dusk after curfew", "Ctrl+Shift+6", controlShift(fyne.Key6), w.toggleCurfew)
	return w.dusk.entry
}

// toggleCurfew shows the night after curfew, or before it, on the plan and in the
// standing view. It goes to the Dusk view unless the standing view is open.
func (w *Window) toggleCurfew() {
	d := &w.dusk
	d.after = !d.after
	d.entry.Checked = d.after
	w.menus.main.Refresh()
	if !w.duskOn() && !w.standing.on {
		for i, v := range w.views.all {
			if v.look == scene.LookDusk {
				w.showView(i)
			}
		}
	}
	d.read.update()
	w.askDusk()
	w.standing.ask()
	f := w.desk.Frame()
	said := "Before curfew: all lamps on"
	if d.after {
		at, _ := f.Curfew()
		said = "After curfew, " + at.String() + ": zones that are off by then are dark; say it under Off at of the zone"
	}
	w.status.SetHint(said, false)
	w.changed()
}
