package ui

import (
	"context"
	"errors"
	"math"
	"path/filepath"

	"fyne.io/fyne/v2"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

// Names of the work on the picture under the plan.
const (
	workUnder   = "picture of the plan"
	workPicture = "picture chosen"
)

// firstFade is how faint a new picture is, so that the drawing stands out.
const firstFade = 0.35

// under is what the window keeps of the picture under the plan.
type under struct {
	cache  picture.Cache
	asked  string       // file that is being read
	placed bool         // a picture that was read just now is being placed
	shown  doc.Underlay // as it lay in the last frame
	lock   *entry
	others []*entry // of use only with a picture
}

// pictureMenu is the menu about the picture under the plan.
func (w *Window) pictureMenu(m *menus) *fyne.Menu {
	u := &w.under
	u.lock = w.item("Lock picture", "", nil, w.lockPicture)
	u.others = []*entry{
		w.item("Scale picture", toolKey(tool.NameScale), nil, func() { w.take(tool.NameScale) }),
		w.item("Check its scale", "", nil, w.checkPicture),
		w.item("Move or turn picture", toolKey(tool.NameMovePicture), nil, func() { w.take(tool.NameMovePicture) }),
		u.lock,
		w.item("Picture properties", "", nil, w.showPicture),
		w.item("Remove picture", "", nil, func() { w.commit(edit.RemovePicture{}) }),
	}
	o := u.others
	return m.menu("Picture", w.item("Choose picture…", "Ctrl+Shift+Y", controlShift(fyne.KeyY), w.choosePicture),
		nil, o[0], o[1], o[2], o[3], nil, o[4], o[5])
}

// underFrame follows the picture of a frame: it is read when it has not been,
// and the menu shows what can be done.
func (w *Window) underFrame(f *layout.Frame) {
	lay := f.Scheme.Plan.Underlay
	w.fitScaled(lay)
	changed := w.under.lock.Checked != lay.Lock
	w.under.lock.Checked = lay.Lock
	for _, e := range w.under.others {
		changed = changed || e.Disabled != !lay.Present()
		e.Disabled = !lay.Present()
	}
	if changed {
		w.menus.main.Refresh()
	}
	if !lay.Present() || f.Under != nil || w.under.placed || w.bridge.Busy(workUnder) && w.under.asked == lay.File {
		return
	}
	w.under.asked = lay.File
	scheme, path := f.Scheme, f.Path
	Run(w.bridge, workUnder, func(ctx context.Context) (*layout.Under, error) {
		return layout.ReadUnder(ctx, &w.under.cache, path, scheme), nil
	}, func(u *layout.Under, _ error) { w.desk.SetUnder(u) })
}

// fitScaled shows all of the plan when its picture was just given another scale: the
// length that checks it may lie beside what was seen before.
func (w *Window) fitScaled(lay doc.Underlay) {
	was := w.under.shown
	w.under.shown = lay
	if lay.Sum == was.Sum && lay.Pixel != was.Pixel && w.plan.Tool().Name() == tool.NameScale {
		w.plan.ZoomFit()
	}
}

// choosePicture asks for a file to lie under the plan.
func (w *Window) choosePicture() {
	w.chooseFrom(choice{title: "Choose a picture for the plan", verb: "Choose", endings: picture.Endings}, w.importPicture)
}

// importPicture lays a picture under the plan, or puts it in the place of the
// one that is there. It is read in a worker first; what cannot be read is told
// and changes nothing.
func (w *Window) importPicture(path string) {
	full, err := filepath.Abs(path)
	if err != nil {
		w.fail("This picture cannot be used", err)
		return
	}
	RunTask(w.bridge, Task{Key: workPicture, Title: "Reading " + filepath.Base(full)}, func(ctx context.Context, _ Report) (*picture.Picture, error) {
		return w.under.cache.Read(ctx, full)
	}, func(p *picture.Picture, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.status.SetHint("Cancelled: the picture was not taken", true)
		case err != nil:
			w.fail("This picture cannot be used", err)
		default:
			w.settle()
			w.placePicture(full, p)
		}
	})
}

// placePicture puts a picture that was read on the plan.
func (w *Window) placePicture(path string, p *picture.Picture) {
	was := w.desk.Frame().Scheme.Plan.Underlay
	var op edit.Operation = edit.PlacePicture{Underlay: placed(path, p, w.plan.Area())}
	if was.Present() {
		op = edit.ReplacePicture{File: path, Sum: p.Sum, Width: p.Width, Height: p.Height}
	}
	w.under.placed = true
	ok := w.commit(op)
	w.under.placed = false
	if !ok {
		return
	}
	w.desk.SetUnder(&layout.Under{File: path, Picture: p})
	w.plan.Select()
	if now := w.desk.Frame().Scheme.Plan.Underlay; now.Known.Given() {
		w.status.SetHint("The picture was replaced; place, scale and check are as before", false)
		w.focusPlan()
		return
	}
	w.showPicture()
	w.take(tool.NameScale)
}

// placed lays a picture in the middle of what is seen, four fifths as large.
func placed(path string, p *picture.Picture, seen geom.Rect) doc.Underlay {
	u := doc.Underlay{File: path, Sum: p.Sum, Width: p.Width, Height: p.Height, Fade: firstFade}
	metres := math.Min(seen.Width().Metres()/float64(p.Width), seen.Height().Metres()/float64(p.Height)) * 0.8
	// Micrometres, so that the file holds a short number.
	u.Pixel = q.Metre(math.Max(1, math.Round(metres*1e6)) / 1e6)
	u.At = u.At.Add(seen.Centre().Sub(u.Middle()))
	return u
}

// checkPicture asks for the check dimension only.
func (w *Window) checkPicture() {
	w.plan.SetTool(tool.NewScaleCheck(w.defaults))
	w.tray.show(w.plan.Tool().Name())
	w.focusPlan()
}

func (w *Window) lockPicture() {
	w.commit(edit.LockPicture{Lock: !w.desk.Frame().Scheme.Plan.Underlay.Lock})
}

// showPicture brings the properties of the picture into view.
func (w *Window) showPicture() {
	w.plan.Select()
	w.tabs.SelectIndex(0)
	w.properties.ShowPicture()
}

// pictureAct does what a button of the picture section asks for.
func (w *Window) pictureAct(a panel.PictureAct) {
	switch a {
	case panel.ChoosePicture:
		w.choosePicture()
	case panel.ScalePicture:
		w.take(tool.NameScale)
	case panel.CheckPicture:
		w.checkPicture()
	case panel.MovePicture:
		w.take(tool.NameMovePicture)
	case panel.RemovePicture:
		w.commit(edit.RemovePicture{})
	}
}
