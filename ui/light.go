package ui

import (
	"context"
	"errors"
	"fmt"
	"image"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	layouts "fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/scene"
)

// Names of the work on photometric files.
const (
	workLights   = "photometric files"
	workLight    = "photometric file chosen"
	workTurnedBy = "photometric file turned"
	workSet      = "photometric file, lamp set"
)

// lights is what the window keeps of the photometric files of the scheme.
type lights struct {
	cache layout.LightCache
	asked *doc.Scheme // whose files are being read
}

// lightsFrame follows the photometric files of a frame: they are read when one of
// them was not looked at yet.
func (w *Window) lightsFrame(f *layout.Frame) {
	if len(f.Scheme.Lights) == 0 || f.Lights.Covers(f.Scheme) || w.bridge.Busy(workLights) && w.lights.asked == f.Scheme {
		return
	}
	w.readLights(f)
}

// readLights reads the photometric files of a frame.
func (w *Window) readLights(f *layout.Frame) {
	w.lights.asked = f.Scheme
	scheme, path := f.Scheme, f.Path
	Run(w.bridge, workLights, func(ctx context.Context) (*layout.Lights, error) {
		return layout.ReadLights(ctx, &w.lights.cache, path, scheme)
	}, func(l *layout.Lights, err error) {
		if err == nil {
			w.desk.SetLights(l)
		}
	})
}

// showLight looks at the light of the fitting that is selected: at its photometric
// file, or for one.
func (w *Window) showLight() {
	w.settle()
	fitting, ok := w.litFitting("")
	if !ok {
		return
	}
	if of, ok := w.desk.Frame().Scheme.LightOf(fitting); ok {
		w.readLight(of)
		return
	}
	w.chooseLight(doc.LightFile{Lamp: fitting})
}

// dropLight looks at a photometric file that was dropped on the window.
func (w *Window) dropLight(path string) {
	w.settle()
	if fitting, ok := w.litFitting(", then drop the file again"); ok {
		w.readLight(doc.LightFile{Lamp: fitting, File: path})
	}
}

// litFitting returns the fitting whose lamps are selected; where there is not one,
// the line of help says what to select first, and then.
func (w *Window) litFitting(then string) (fitting string, ok bool) {
	f := w.desk.Frame()
	for _, id := range w.plan.Selection() {
		l, ok := f.Scheme.Lamps.Get(id)
		if !ok {
			continue
		}
		if fitting != "" && fitting != l.Stock {
			w.status.SetHint("Select lamps of one fitting"+then+": the light belongs to the fitting", true)
			return "", false
		}
		fitting = l.Stock
	}
	if fitting == "" {
		w.status.SetHint("Select a lamp first"+then+": the light belongs to its fitting", true)
		return "", false
	}
	return fitting, true
}

// chooseLight asks for a photometric file for a fitting.
func (w *Window) chooseLight(of doc.LightFile) {
	w.chooseFrom(choice{title: "Photometric file of " + w.fitting(of.Lamp).Name, verb: "Read", endings: file.LightEndings}, func(path string) {
		full, err := filepath.Abs(path)
		if err != nil {
			w.fail("This file cannot be used", err)
			return
		}
		w.readLight(doc.LightFile{Lamp: of.Lamp, File: full})
	})
}

// fitting returns a fitting of the stock book.
func (w *Window) fitting(key string) *doc.LampStock {
	item, ok := w.desk.Frame().Stock.Lamp(key)
	if !ok {
		item = doc.LampStock{Key: key, Name: key}
	}
	return &item
}

// readLight reads a photometric file in a worker and then shows it.
func (w *Window) readLight(of doc.LightFile) {
	path := w.desk.Frame().Path
	RunTask(w.bridge, Task{Key: workLight, Title: "Reading " + of.Name()}, func(ctx context.Context, _ Report) (*layout.Light, error) {
		l := w.lights.cache.Read(path, of)
		return l, ctx.Err()
	}, func(l *layout.Light, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.status.SetHint("Cancelled: the file was not read", true)
		case len(w.sheets) == 0:
			w.lookAgain(l)
			w.openLight(l)
		}
	})
}

// lookAgain has the files of the scheme read anew when one of them was found to be
// another than the frame knows, such as one that was put back.
func (w *Window) lookAgain(l *layout.Light) {
	f := w.desk.Frame()
	if was := f.Lights.Of(l.Of.Lamp); was != nil && was.Of == l.Of && (was.Sum != l.Sum || (was.Err == nil) != (l.Err == nil) || (was.TiltErr == nil) != (l.TiltErr == nil)) {
		w.readLights(f)
	}
}

// lightForm is the open sheet about a photometric file.
type lightForm struct {
	win     *Window
	item    *doc.LampStock
	light   *layout.Light // as it is turned and mirrored now
	sheet   *sheet
	turn    *sheetEntry
	mirror  *sheetButton
	set     *sheetSelect // of lamp sets, nil for at most one
	facts   *fyne.Container
	guesses *widget.Label
	open    *fyne.Container // of guesses, hidden without any
	reason  *widget.Label
	raster  *canvas.Raster
	paint   *scene.Rasteriser
	drawing *scene.List
}

// openLight shows what was read; a file that cannot be used is told with what was
// found and what was expected, and only another one, or the stock book, can be taken.
func (w *Window) openLight(l *layout.Light) {
	p := &lightForm{win: w, item: w.fitting(l.Of.Lamp), light: l, paint: scene.NewRasteriser()}
	_, has := w.desk.Frame().Scheme.LightOf(l.Of.Lamp)
	answers := []answer{{text: "Other file…", then: func() { w.chooseLight(l.Of) }}}
	if has {
		answers = append(answers, answer{text: "As in the stock book", then: func() { w.commit(edit.RemoveLight{Lamp: l.Of.Lamp}) }})
	}
	answers = append(answers, answer{text: "Cancel", cancel: true, main: l.Err != nil})
	if l.Err == nil {
		answers = append(answers, answer{text: "OK", main: true, check: p.accept})
	}
	room := w.sheetRoom()
	size := fyne.NewSize(min(room.Width, lightWidth), min(room.Height, lightHigh))
	if l.Err != nil {
		size.Height = 0
	}
	s := w.openSheet("Light of "+p.item.Name, size, p.build, answers...)
	s.focus(s.buttons[len(s.buttons)-1]) // there the arrows move the sheet
}

const (
	lightWidth, lightHigh = 640, 600
	// lightTall is the height of the drawing where there is room for it, lightRest
	// what is left below it, lightScale how many units a millimetre of it has.
	lightTall    = 240
	lightRest    = 60
	lightScale   = 3.9
	lightCaption = 104
)

func (p *lightForm) build(s *sheet) fyne.CanvasObject {
	p.sheet = s
	box := container.NewVBox()
	if p.light.Err != nil {
		box.Add(wrapped("This file cannot be used: " + p.light.Err.Error() + "."))
		box.Add(wrapped("The light is drawn from the lumens and the beam of the stock book."))
		return box
	}
	if p.light.Changed() && p.light.Of.Sum != "" {
		note := wrapped("This is not the file that was taken in: it has changed since. OK takes it in as it is now.")
		note.Importance = widget.WarningImportance
		box.Add(note)
	}
	p.draw()
	p.raster = canvas.NewRaster(p.image)
	p.raster.ScaleMode = canvas.ImageScalePixels
	box.Add(container.New(atLeast{fyne.NewSize(0, p.tall())}, p.raster))
	if sets := p.sets(s); sets != nil {
		box.Add(sets)
	}
	box.Add(p.controls(s))
	p.reason = wrapped("")
	p.reason.Importance = widget.DangerImportance
	p.reason.Hide()
	box.Add(p.reason)
	p.facts = container.New(layouts.NewCustomPaddedVBoxLayout(-8))
	p.guesses = wrapped("")
	head := widget.NewLabel("Left open by the file, and taken so")
	head.TextStyle.Bold = true
	p.open = container.NewVBox(head, p.guesses)
	p.tell()
	box.Add(p.facts)
	box.Add(p.open)
	return s.long(container.New(layouts.NewCustomPaddedLayout(0, 0, 0, 14), box)) // clear of the scroll bar
}

// tell writes what the file says and what it leaves open.
func (p *lightForm) tell() {
	p.facts.RemoveAll()
	for _, f := range append([]layout.LightFact{{Name: "File", Text: p.light.Of.Name()}}, p.light.Facts(p.item)...) {
		name := widget.NewLabel(f.Name)
		name.Importance = widget.LowImportance
		p.facts.Add(container.New(captioned{lightCaption}, name, wrapped(f.Text)))
	}
	g := p.light.GuessText()
	p.guesses.SetText(g)
	if p.open.Show(); g == "" {
		p.open.Hide()
	}
}

// sets is the choice of a lamp set, nil where the file has at most one.
func (p *lightForm) sets(s *sheet) fyne.CanvasObject {
	list := p.light.Table.Sets
	if len(list) < 2 {
		return nil
	}
	names := make([]string, len(list))
	for i := range list {
		names[i] = layout.LampSetText(i+1, &list[i])
	}
	p.set = newSheetSelect(s, names, p.light.Table.Set-1, p.take)
	return container.New(captioned{lightCaption}, widget.NewLabel("Lamp set"), p.set.object())
}

// take reads the file with another lamp set; of several choices the last one counts.
func (p *lightForm) take(at int) {
	next := *p.light
	next.Of.Set = at + 1
	p.light = &next // what OK takes
	of, cache := next.Of, &p.win.lights.cache
	path := p.win.desk.Frame().Path
	Run(p.win.bridge, workSet, func(context.Context) (*layout.Light, error) { return cache.Read(path, of), nil },
		func(l *layout.Light, err error) {
			was := p.light
			switch {
			case err != nil || was.Of.Set != of.Set:
				return
			case l.Err != nil || l.Sum != was.Sum:
				p.gone(l)
				return
			}
			if p.light = l; was.Of != l.Of { // turned meanwhile
				p.place(was.Of.Mirror, was.Of.Turn)
			}
			p.draw()
			p.raster.Refresh()
			p.tell()
			p.facts.Refresh()
		})
}

// gone says that the file is not what the sheet shows any more. The lamp set stays
// that which is shown, since nothing of another one is known.
func (p *lightForm) gone(l *layout.Light) {
	next := *p.light
	next.Of.Set = next.Table.Set
	p.light = &next
	p.set.Selected = p.set.Options[next.Table.Set-1]
	p.set.Refresh()
	text := "The file has changed on disc since it was read here: choose it again to see its lamp sets."
	if l.Err != nil {
		text = "The lamp set cannot be read: " + l.Err.Error() + "."
	}
	p.reason.SetText(text)
	p.reason.Show()
}

// controls are turn and mirror.
func (p *lightForm) controls(s *sheet) fyne.CanvasObject {
	p.turn = newSheetEntry(s, angleText(p.light.Of.Turn), "degrees")
	p.turn.OnChanged = func(string) { p.follow() }
	by := func(text string, by float64) fyne.CanvasObject {
		return newSheetButton(s, text, func() {
			turn, err := p.angle()
			if err != nil {
				turn = 0
			}
			p.turn.SetText(angleText(math.Mod(turn+by+720, 360)))
		}).object()
	}
	p.mirror = newSheetButton(s, mirrorText(p.light.Of.Mirror), func() {
		p.place(!p.light.Of.Mirror, p.light.Of.Turn)
		p.mirror.SetText(mirrorText(p.light.Of.Mirror))
	})
	return container.NewHBox(widget.NewLabel("Turn, degrees"), container.New(atLeast{fyne.NewSize(76, 0)}, p.turn.object()),
		by("− 90°", -90), by("+ 90°", 90), p.mirror.object())
}

func mirrorText(on bool) string {
	if on {
		return "Mirrored: yes"
	}
	return "Mirrored: no"
}

func angleText(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// angle reads the turn that is typed.
func (p *lightForm) angle() (float64, error) {
	text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(strings.TrimSpace(p.turn.Text), "deg"), "°"))
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || !(math.Abs(v) <= 360) {
		return 0, fmt.Errorf("turn: found %q, expected degrees from -360 to 360", doc.Short(p.turn.Text))
	}
	return v, nil
}

// follow turns the light to what is typed.
func (p *lightForm) follow() {
	turn, err := p.angle()
	if err != nil {
		p.reason.SetText(upperFirst(err.Error()))
		p.reason.Show()
		return
	}
	p.reason.Hide()
	p.place(p.light.Of.Mirror, turn)
}

// place shows the light turned and mirrored otherwise. A large table takes a
// worker a moment; of several turns the last one counts.
func (p *lightForm) place(mirror bool, turn float64) {
	was := p.light
	next := *was
	next.Of.Mirror, next.Of.Turn = mirror, turn
	p.light = &next // what OK takes
	Run(p.win.bridge, workTurnedBy, func(context.Context) (*layout.Light, error) { return was.With(mirror, turn), nil },
		func(l *layout.Light, err error) {
			if err == nil && l.Of == p.light.Of && l.Table == p.light.Table {
				p.light = l
				p.draw()
				p.raster.Refresh()
			}
		})
}

// draw makes the drawing of the light as it lies now.
func (p *lightForm) draw() {
	width := min(p.win.sheetRoom().Width, lightWidth) - 14
	palette := scene.Light()
	if p.win.theme.Dark() {
		palette = scene.Dark()
	}
	p.drawing = scene.Polar(p.light.Dist, palette, float64(width)/lightScale, float64(p.tall())/lightScale)
}

// tall is the height of the drawing.
func (p *lightForm) tall() float32 { return min(lightTall, p.win.sheetRoom().Height-lightRest) }

// image paints the drawing in the pixels that it has on the screen.
func (p *lightForm) image(wide, high int) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, max(wide, 1), max(high, 1)))
	p.paint.Draw(img, p.drawing, float64(wide)/p.drawing.Width)
	return img
}

// accept takes the file in as one step.
func (p *lightForm) accept() bool {
	turn, err := p.angle()
	if err != nil {
		p.follow()
		p.sheet.focus(p.turn)
		return false
	}
	of := p.light.Of
	of.Turn, of.Sum = turn, p.light.Sum
	for i := range p.sheet.answer {
		if p.sheet.answer[i].main {
			p.sheet.answer[i].then = func() {
				if p.win.commit(edit.SetLight{Light: of}) {
					p.win.status.SetHint("The light of "+p.item.Name+" comes from "+of.Name(), false)
				}
			}
		}
	}
	return true
}
