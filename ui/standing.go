package ui

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// workStanding names the work on the standing view.
const workStanding = "standing view"

// standing is the standing view: a panel over the upper right corner of the plan,
// which stays free for drawing, so that the picture follows what is drawn. Looking
// round changes nothing of the scheme until it is kept.
type standing struct {
	win   *Window
	box   *fyne.Container // what lies over the stage
	view  *standView
	pick  *panel.Pick
	says  *widget.Label
	hold  *panel.Button
	grow  *panel.Button
	entry *entry

	on, large bool
	eye       doc.Eye // as it looks now
	known     []doc.Eye
	work      layout.StandWork
	busy      bool
	again     bool
	long      bool // the step is one that may be broken off
	cancel    context.CancelFunc
	shown     layout.StandWish
}

func (w *Window) makeStanding() {
	s := &w.standing
	s.win = w
	s.view, s.pick, s.says = newStandView(s), panel.NewPick(), small("")
	s.says.Truncation = fyne.TextTruncateEllipsis
	s.pick.OnChanged = func(string) { s.choose(s.pick.SelectedIndex()) }
	s.hold = panel.NewButton("Keep", s.keep)
	change := panel.NewButton("…", s.change)
	place := panel.NewButton("New", func() { w.take(tool.NameEye) })
	s.grow = panel.NewButton("", s.resize)
	s.grow.Icon = theme.ViewFullScreenIcon()
	shut := panel.NewButton("", w.toggleStanding)
	shut.Icon = theme.CancelIcon()
	bar := container.NewBorder(nil, nil, nil, container.NewHBox(s.hold.Object(), change.Object(), place.Object(), s.grow.Object(), shut.Object()), s.pick.Object())
	says := panel.NewHinted(s.says, func() *panel.Tips { return w.tips }, func() panel.Tip { return panel.Tip{Head: "Standing view", Working: s.says.Text} })
	body := container.NewStack(panel.NewBackdrop(theme.ColorNameMenuBackground), container.NewBorder(bar, says, nil, nil, s.view))
	s.box = container.New(cornered{s}, body)
	s.box.Hide()
}

// cornered lays its object into the upper right corner and asks for no room.
type cornered struct{ of *standing }

// MinSize implements fyne.Layout.
func (cornered) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }

// Layout implements fyne.Layout.
func (l cornered) Layout(o []fyne.CanvasObject, size fyne.Size) {
	const gap = 6
	part := float32(0.5)
	if l.of.large {
		part = 1
	}
	least := o[0].MinSize()
	wide := min(max(part*size.Width-2*gap, least.Width), size.Width)
	high := min(max(wide*0.6, least.Height)+least.Height-90, max(part*1.1*size.Height, least.Height), size.Height-2*gap)
	o[0].Resize(fyne.NewSize(wide, high))
	o[0].Move(fyne.NewPos(max(size.Width-wide-gap, 0), gap))
}

// toggleStanding shows the standing view, or takes it off.
func (w *Window) toggleStanding() {
	s := &w.standing
	s.on = !s.on
	s.entry.Checked = s.on
	w.plan.SetEyes(s.on) // from where one looks
	w.menus.main.Refresh()
	if !s.on {
		s.box.Hide()
		if s.busy {
			s.cancel()
		}
		w.focusPlan()
		w.plan.Say() // the help was about looking round
		return
	}
	if !w.onPlan() {
		w.showView(0)
	}
	s.eye = doc.Eye{}
	s.follow(w.desk.Frame())
	s.box.Show()
	s.box.Refresh()
	w.win.Canvas().Focus(s.view)
	w.status.SetHint("Arrows look round, + and − closer and wider, PgDn the next eye point; Return keeps it. "+upperFirst(layout.NightCaveat), false)
	s.ask()
}

// resize makes the panel large or small.
func (s *standing) resize() {
	s.large = !s.large
	s.grow.SetIcon(theme.ViewFullScreenIcon())
	if s.large {
		s.grow.SetIcon(theme.ViewRestoreIcon())
	}
	s.box.Refresh()
}

// follow takes in the eye points of a frame: what was looked from stays unless it
// was changed or is gone; a new one is looked from.
func (s *standing) follow(f *layout.Frame) {
	if !s.on {
		return
	}
	was := s.known
	s.known = f.Scheme.Eyes
	names := make([]string, 0, len(s.known)+1)
	at := -1
	for i, e := range s.known {
		names = append(names, strings.TrimSpace(e.Tag+" "+e.Name))
		if e.Tag == s.eye.Tag {
			at = i
		}
	}
	fresh := slices.IndexFunc(s.known, func(e doc.Eye) bool {
		return !slices.ContainsFunc(was, func(o doc.Eye) bool { return o == e })
	})
	switch {
	case s.eye.Tag != "" && fresh >= 0 && !slices.Equal(was, s.known):
		at = fresh
		s.eye = s.known[at]
	case at < 0 && len(s.known) > 0:
		at = 0
		s.eye = s.known[0]
	case at < 0:
		if s.eye.Tag == "" || len(was) > 0 {
			s.eye = layout.UsualEye(f.Scheme)
		}
		names, at = append(names, s.eye.Title()+" (not kept)"), 0
	}
	if !slices.Equal(s.pick.Options, names) {
		s.pick.Options = names
	}
	if now := names[at]; s.pick.Selected != now {
		s.pick.Selected = now
		s.pick.Refresh()
	}
	s.mark()
}

// choose looks from another eye point.
func (s *standing) choose(i int) {
	if i < 0 || i >= len(s.known) || s.known[i].Tag == s.eye.Tag {
		return
	}
	s.eye = s.known[i]
	s.mark()
	s.ask()
}

// next looks from the next eye point, or the one before.
func (s *standing) next(by int) {
	n := len(s.known)
	at := slices.IndexFunc(s.known, func(e doc.Eye) bool { return e.Tag == s.eye.Tag })
	if n > 0 {
		s.pick.SetSelectedIndex((max(at, 0) + by + n) % n)
	}
}

// turn looks elsewhere by so many degrees.
func (s *standing) turn(round, up float64) {
	s.eye.Bearing = math.Mod(s.eye.Bearing+round+720, 360)
	s.eye.Tilt = max(-doc.MostEyeTilt, min(s.eye.Tilt+up, doc.MostEyeTilt))
	s.mark()
	s.ask()
}

// widen makes what is seen so many times as wide.
func (s *standing) widen(by float64) {
	s.eye.Field = max(doc.LeastField, min(s.eye.Field*by, doc.MostField))
	s.mark()
	s.ask()
}

// mark shows whether there is something to keep.
func (s *standing) mark() {
	if e, ok := s.win.desk.Frame().Scheme.Eye(s.eye.Tag); ok && e == s.eye {
		s.hold.Disable()
	} else {
		s.hold.Enable()
	}
}

// keep makes what is looked at now the eye point of the scheme.
func (s *standing) keep() {
	e := s.eye
	round := func(v float64) float64 { return math.Round(v*10) / 10 }
	e.Bearing, e.Tilt, e.Field = round(e.Bearing), round(e.Tilt), round(e.Field)
	var op edit.Operation = edit.AddEye{Eye: e}
	if _, ok := s.win.desk.Frame().Scheme.Eye(e.Tag); ok {
		op = edit.SetEye{Eye: e}
	}
	if err := s.win.desk.Commit(op); err != nil {
		s.win.status.SetHint(err.Error(), true)
		return
	}
	s.win.status.SetHint("Kept "+e.Title(), false)
}

// ask asks for the picture of the present frame and eye: never two steps at once;
// what comes meanwhile is asked once more.
func (s *standing) ask() {
	if !s.on {
		return
	}
	if s.busy {
		s.again = true
		if s.long {
			s.cancel()
		}
		return
	}
	wide, high := s.view.pixels()
	if wide < 2 || high < 2 {
		return
	}
	wish := layout.StandWish{Frame: s.win.desk.Frame(), Eye: s.eye, AfterCurfew: s.win.dusk.after, Width: wide, Height: high}
	mine, cancel := context.WithCancel(context.Background())
	s.busy, s.cancel = true, cancel
	work := &s.work
	type answer struct {
		shot *layout.StandShot
		more bool
		took time.Duration
	}
	Run(s.win.bridge, workStanding, func(ctx context.Context) (answer, error) {
		stop := context.AfterFunc(ctx, cancel)
		defer stop()
		begun := time.Now()
		shot, more, err := work.Step(mine, wish)
		return answer{shot, more, time.Since(begun)}, err
	}, func(a answer, err error) {
		cancel()
		s.got(a.shot, a.more, a.took, err)
	})
}

// got shows what the worker made and has it go on.
func (s *standing) got(shot *layout.StandShot, more bool, took time.Duration, err error) {
	again := s.again
	s.busy, s.again = false, false
	if err != nil && !errors.Is(err, context.Canceled) {
		s.says.SetText("No standing view: " + err.Error())
		more = false
	}
	if shot != nil && s.on {
		s.shown = shot.Wish
		s.view.show(shot.Image)
		when := ""
		if shot.Wish.AfterCurfew {
			when = "After curfew. "
		}
		s.says.SetText(when + fmt.Sprintf("%s: photopic, direct light only, ×%s for age and dirt. Eye %.2f m up, looks %.0f°, %.0f° wide", upperFirst(layout.NightCaveat), shot.Night.AgesShort(), s.eye.Place.Height.Metres(), s.eye.Bearing, s.eye.Field))
		s.win.changed()
	}
	s.long = more && !again
	switch {
	case !again && !more:
	case again && s.win.pace.later != nil:
		// The hand has the processor for as long as the picture had it.
		s.busy = true
		s.win.pace.later(min(took, longestRest), func() {
			s.busy, s.again = false, false
			s.ask()
		})
	default:
		s.ask()
	}
}

// standEntry is the entry of the View menu.
func (w *Window) standEntry() *entry {
	w.standing.entry = w.item("Standing view", "Ctrl+Shift+4", controlShift(fyne.Key4), w.toggleStanding)
	return w.standing.entry
}
