package scene

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// FontRegular and FontBold return the font files (TrueType) that the plan is
// lettered in, for writers that embed them.
func FontRegular() []byte { return goregular.TTF }

// FontBold returns the bold font file.
func FontBold() []byte { return gobold.TTF }

// typeface is one font with its advances in em.
type typeface struct {
	font *sfnt.Font
	upem fixed.Int26_6
	cap  float64           // cap height in em
	near [tableEnd]float64 // Latin, Greek, Cyrillic
	far  map[rune]float64  // the punctuation and signs that plans use

}

const tableEnd = 0x500

var faces = sync.OnceValue(func() *[2]*typeface {
	return &[2]*typeface{loadFace(goregular.TTF), loadFace(gobold.TTF)}
})

func faceOf(bold bool) *typeface {
	if bold {
		return faces()[1]
	}
	return faces()[0]
}

func loadFace(ttf []byte) *typeface {
	f, err := sfnt.Parse(ttf)
	if err != nil {
		panic("scene: built-in font: " + err.Error())
	}
	var buf sfnt.Buffer
	t := &typeface{font: f, upem: fixed.I(int(f.UnitsPerEm())), far: map[rune]float64{}}
	m, err := f.Metrics(&buf, t.upem, font.HintingNone)
	if err != nil {
		panic("scene: built-in font: " + err.Error())
	}
	t.cap = float64(m.CapHeight) / float64(t.upem)
	for r := rune(0); r < tableEnd; r++ {
		t.near[r] = t.measure(&buf, r)
	}
	for r := rune(0x2000); r < 0x2300; r++ {
		t.far[r] = t.measure(&buf, r)
	}
	return t
}

func (t *typeface) measure(buf *sfnt.Buffer, r rune) float64 {
	i, err := t.font.GlyphIndex(buf, r)
	if err != nil {
		return 0
	}
	a, err := t.font.GlyphAdvance(buf, i, t.upem, font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(a) / float64(t.upem)
}

// advance returns the advance of a rune in em.
func (t *typeface) advance(r rune) float64 {
	if r < tableEnd {
		return t.near[r]
	}
	if a, ok := t.far[r]; ok {
		return a
	}
	var buf sfnt.Buffer
	return t.measure(&buf, r)
}

// TextWidth returns the width in millimetres of a text whose capitals are
// capHeight millimetres high. It adds up the advances of the built-in font
// without kerning, as every writer of this program does.
func TextWidth(s string, capHeight float64, bold bool) float64 {
	t := faceOf(bold)
	var em float64
	for _, r := range s {
		em += t.advance(r)
	}
	return em * capHeight / t.cap
}

// FontSize returns the font size (em, millimetres) that gives a cap height.
func FontSize(capHeight float64, bold bool) float64 { return capHeight / faceOf(bold).cap }
