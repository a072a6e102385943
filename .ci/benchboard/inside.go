package main

import (
	"image"
	"image/color"
	"os"
	"path/filepath"
	"runtime/pprof"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/ui"
)

// inside opens one window, measures it and tells the rows.
func inside(kind string, w, h int, dir, only, profile string) error {
	app.SetMetadata(fyne.AppMetadata{ID: "duskwire.bench", Name: "bench", Version: "0.0.1", Migrations: map[string]bool{"fyneDo": true}})
	ui.GiveWay()
	a := app.NewWithID("duskwire.bench")
	size := fyne.NewSize(float32(w), float32(h))
	if kind == "bare" {
		bare(a, size, only)
		return nil
	}
	return garden1000(a, size, dir, only, profile)
}

// bare measures what the toolkit and OpenGL take for next to nothing: one
// rectangle that moves, a picture of the window's size that is moved, and one
// that is given anew each frame.
func bare(a fyne.App, size fyne.Size, only string) {
	win := a.NewWindow("bare")
	win.SetPadded(false)
	rect := canvas.NewRectangle(color.NRGBA{R: 200, A: 255})
	rect.Resize(fyne.NewSquareSize(40))
	picture := image.NewRGBA(image.Rect(0, 0, int(size.Width), int(size.Height)))
	for i := range picture.Pix {
		picture.Pix[i] = 255
	}
	full := canvas.NewRaster(func(int, int) image.Image { return picture })
	full.ScaleMode = canvas.ImageScalePixels
	full.Resize(size)
	full.Hide()
	win.SetContent(container.NewWithoutLayout(full, rect))
	win.Resize(size)
	a.Lifecycle().SetOnStarted(func() {
		go func() {
			time.Sleep(500 * time.Millisecond)
			row := func(name string, step func(i int)) {
				if wanted(name, only) {
					tell(measure(name, step))
				}
			}
			row("bare window, a rectangle moves", func(i int) { rect.Move(fyne.NewPos(float32(i*3%600), 50)) })
			onUI(full.Show)
			row("  on a picture of the window's size", func(i int) { rect.Move(fyne.NewPos(float32(i*3%600), 50)) })
			row("  that is given anew in each frame", func(i int) { full.Refresh() })
			onUI(full.Hide)
			if only == "" {
				tell(idle())
				tell(memory())
			}
			tell(row0(lastRow))
		}()
	})
	win.ShowAndRun()
}

func row0(name string) row { return row{Name: name} }

// garden1000 measures the program's window on the large garden.
func garden1000(a fyne.App, size fyne.Size, dir, only, profile string) error {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		return err
	}
	s := garden()
	if err := photo(dir, s); err != nil {
		return err
	}
	path := filepath.Join(dir, "garden.yaml")
	if err := file.SaveScheme(path, s); err != nil {
		return err
	}
	load := func(path string) (*doc.Scheme, error) { return file.LoadScheme(path, stock, file.Keys(rules)...) }
	if s, err = load(path); err != nil {
		return err
	}
	desk := layout.NewDesk(stock, rules, s, path)
	w := ui.New(ui.Config{App: a, Desk: desk, Version: "bench", Load: load, Save: file.SaveScheme, State: filepath.Join(dir, "state"),
		Example: func() (*doc.Scheme, error) { return load(path) },
		Read: func(name string, text []byte) (*doc.Scheme, error) {
			return file.ReadScheme(name, text, stock, file.Keys(rules)...)
		}})
	w.Fyne().Resize(size)
	h := &hand{desk: desk, window: w, board: w.Plan(), only: only}
	a.Lifecycle().SetOnStarted(func() {
		go func() {
			h.session(profile)
			tell(row0(lastRow))
		}()
	})
	w.Fyne().ShowAndRun()
	return nil
}

// session measures everything; it runs outside the UI goroutine.
func (h *hand) session(profile string) {
	for h.desk.Frame().Under == nil { // the photo is read in a worker
		time.Sleep(100 * time.Millisecond)
	}
	time.Sleep(time.Second)
	if profile != "" {
		if f, err := os.Create(profile); err == nil {
			_ = pprof.StartCPUProfile(f)
			defer pprof.StopCPUProfile()
		}
	}
	tell(h.about())
	h.gestures()
	h.dusk()
	h.acts()
	if h.only == "" {
		tell(idle())
		tell(memory())
	}
}
