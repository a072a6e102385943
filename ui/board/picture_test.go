package board

import (
	"context"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
)

// The picture shows once it was read, follows a gesture that moves it, and
// costs no redraw when nothing about it changes.
func TestPictureUnderTheBoard(t *testing.T) {
	m := image.NewRGBA(image.Rect(0, 0, 100, 100))
	for i := range 10000 {
		m.SetRGBA(i%100, i/100, color.RGBA{255, 0, 0, 255})
	}
	path := filepath.Join(t.TempDir(), "red.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, m); err != nil {
		t.Fatal(err)
	}
	f.Close()
	s := doc.New("uk-18")
	s.Plan.Underlay = doc.Underlay{File: path, Sum: strings.Repeat("0a", 32), Width: 100, Height: 100, Pixel: 0.01, At: geom.Pt(2, 3)}
	h := newHand(t, s, fyne.NewSize(600, 400))
	h.board.SetGrid(false)
	red := func(x, y float64) bool {
		h.paint()
		at := h.board.view.at(geom.Pt(x, y))
		p := h.board.base.raster.Position()
		return h.board.base.image.RGBAAt(int(at.X-p.X), int(at.Y-p.Y)) == color.RGBA{255, 0, 0, 255}
	}
	if red(2.5, 2.5) {
		t.Error("shown before it was read")
	}
	shown := *h.desk.Frame()
	shown.Under = layout.ReadUnder(context.Background(), &picture.Cache{}, "", s)
	h.board.SetFrame(&shown)
	if !red(2.5, 2.5) || red(3.5, 2.5) {
		t.Error("not shown where it lies")
	}
	n := h.board.base.draws
	again := shown
	h.board.SetFrame(&again)
	if h.paint(); h.board.base.draws != n {
		t.Error("drawn again for nothing")
	}
	moved := shown
	if moved.Scheme, err = (edit.MovePicture{By: geom.Pt(1, 0)}).Apply(s); err != nil {
		t.Fatal(err)
	}
	moved.Preview = true
	h.board.SetFrame(&moved)
	if red(2.5, 2.5) || !red(3.5, 2.5) {
		t.Error("a gesture does not take the picture along")
	}
	back := shown
	h.board.SetFrame(&back)
	if !red(2.5, 2.5) || red(3.5, 2.5) {
		t.Error("a dropped gesture leaves the picture moved")
	}
}

// BenchmarkBoardPicture draws the base image over a photo of 12 million pixels:
// as after an edit, and in a new view each time, as after a zoom.
func BenchmarkBoardPicture(b *testing.B) {
	m := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	path := filepath.Join(b.TempDir(), "photo.png")
	f, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(f, m); err != nil {
		b.Fatal(err)
	}
	f.Close()
	s := largeGarden(1000)
	s.Plan.Underlay = doc.Underlay{File: path, Sum: strings.Repeat("0a", 32), Width: 4000, Height: 3000, Pixel: 0.02,
		At: geom.Pt(-10, 40), Turn: 3, Fade: 0.35}
	h := newHand(b, s, fyne.NewSize(1280, 800))
	read := layout.ReadUnder(context.Background(), &picture.Cache{}, "", s)
	if read.Err != nil {
		b.Fatal(read.Err)
	}
	shown := *h.desk.Frame()
	shown.Under = read
	h.board.SetFrame(&shown)
	b.Run("after an edit", func(b *testing.B) {
		for b.Loop() {
			h.board.base.draw()
		}
	})
	b.Run("in a new view", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			h.board.base.view = h.board.base.view.panned(float64(i%2*2-1), 0)
			h.board.base.draw()
		}
	})
}
