// Package picture reads the picture that may lie under the plan: a photo, a
// scanned plan or the first page of a PDF. What is absurdly large is refused
// before it is decoded. A decoded picture is opaque, stands as its camera held
// it, and is kept as a pyramid of sizes, each half the one before, so that it
// can be drawn small without looking at every pixel.
package picture

import (
	"image"
	"math"
)

// Limits of what is read. Decoded size is what the decoder would need at most.
const (
	MostBytes  = 64 << 20  // of the file
	MostSide   = 30000     // pixels
	MostPixels = 64000000  // width times height
	mostMemory = 320 << 20 // bytes while decoding
	working    = 8000000   // pixels kept; a larger picture is shrunk to it
)

// Picture is a decoded picture. It is immutable.
type Picture struct {
	Sum           string // SHA-256 of the file, hexadecimal
	Width, Height int    // pixels of the picture as it stands, before shrinking
	// Light says that most of it is near white, as of a plan on paper.
	Light  bool
	levels []*image.RGBA
}

// Level returns the picture at a size: 0 is the largest, each one after that
// half as wide. The result must not be changed. A number outside is taken as
// the nearest inside.
func (p *Picture) Level(n int) *image.RGBA {
	return p.levels[min(max(n, 0), len(p.levels)-1)]
}

// Levels returns how many sizes there are.
func (p *Picture) Levels() int { return len(p.levels) }

// LevelFor returns the number of the smallest level that has at least the
// pixels that a width of that many pixels asks for; the largest when none has.
func (p *Picture) LevelFor(width float64) int {
	n := 0
	for n+1 < len(p.levels) && float64(p.levels[n+1].Rect.Dx()) >= width {
		n++
	}
	return n
}

// made returns the picture of a largest level.
func made(sum string, width, height int, top *image.RGBA) *Picture {
	p := &Picture{Sum: sum, Width: width, Height: height, levels: []*image.RGBA{top}}
	for last := top; max(last.Rect.Dx(), last.Rect.Dy()) > 64; {
		last = shrink(last, (last.Rect.Dx()+1)/2, (last.Rect.Dy()+1)/2)
		p.levels = append(p.levels, last)
	}
	p.Light = mean(p.levels[len(p.levels)-1]) > 0.6
	return p
}

// Of returns a picture of pixels that come from no file. They must be opaque and
// must not be changed afterwards.
func Of(top *image.RGBA) *Picture { return made("", top.Rect.Dx(), top.Rect.Dy(), top) }

// mean returns the average luma, 0 to 1, with the weights of ITU-R BT.709.
func mean(m *image.RGBA) float64 {
	var sum float64
	n := m.Rect.Dx() * m.Rect.Dy()
	for i := 0; i+3 < len(m.Pix); i += 4 {
		sum += 0.2126*float64(m.Pix[i]) + 0.7152*float64(m.Pix[i+1]) + 0.0722*float64(m.Pix[i+2])
	}
	return sum / 255 / float64(max(n, 1))
}

// workingSize returns the size at which a picture is kept.
func workingSize(w, h int) (int, int) {
	if w*h <= working {
		return w, h
	}
	k := math.Sqrt(float64(working) / (float64(w) * float64(h)))
	return max(1, int(float64(w)*k)), max(1, int(float64(h)*k))
}
