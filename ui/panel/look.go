// Package panel holds the panels around the plan: findings, properties, the
// working behind each figure, the lengths and the running totals. A panel
// shows a Frame and turns what a person types into an operation; it computes
// nothing.
package panel

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
)

// Colours of the levels; the theme of the window answers for these names.
// Each level also has a shape and a word of its own, so that colour is never
// the only sign.
const (
	ColourStop   fyne.ThemeColorName = "duskwire-stop"
	ColourDecide fyne.ThemeColorName = "duskwire-decide"
	ColourNote   fyne.ThemeColorName = "duskwire-note"
	ColourHeld   fyne.ThemeColorName = "duskwire-held"
	ColourQuiet  fyne.ThemeColorName = "duskwire-quiet" // captions and units

	// The two lines of the ring round what has the focus.
	ColourRing      fyne.ThemeColorName = "duskwire-ring"
	ColourRingInner fyne.ThemeColorName = "duskwire-ring-inner"
)

// Drawing is a small picture of ours in a colour of the theme. Fyne's own
// recolouring changes fills only, and most of ours are lines.
type Drawing struct {
	name   string
	body   string // SVG elements on a ground of 24 by 24, in black
	colour fyne.ThemeColorName
}

// NewDrawing returns the picture in the named colour.
func NewDrawing(name, body string, colour fyne.ThemeColorName) *Drawing {
	return &Drawing{name, body, colour}
}

const black = "#000000"

// Name implements fyne.Resource; it tells the colour, for pictures are cached
// by their names.
func (d *Drawing) Name() string { return d.name + "-" + d.hex()[1:] + ".svg" }

// Content implements fyne.Resource.
func (d *Drawing) Content() []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24" viewBox="0 0 24 24">` +
		strings.ReplaceAll(d.body, black, d.hex()) + `</svg>`)
}

func (d *Drawing) hex() string {
	r, g, b, _ := theme.Color(d.colour).RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}

// Shapes of the levels: a barred octagon, a diamond with a question, a ring
// with an i, a tick, so that they stay apart in grey.
var marks = map[finding.Level]*Drawing{
	finding.Stop: NewDrawing("stop", `<path fill="#000000" d="M8 2h8l6 6v8l-6 6H8l-6-6V8zM6 10.3v3.4h12v-3.4z"/>`, ColourStop),
	finding.Decide: NewDrawing("decide", `<path fill="none" stroke="#000000" stroke-width="2" d="M12 2L22 12L12 22L2 12Z"/>`+
		`<path fill="none" stroke="#000000" stroke-width="2" d="M9.6 10.2C9.6 7.4 14.4 7.4 14.4 10.2C14.4 12 12 12 12 13.8"/>`+
		`<circle fill="#000000" cx="12" cy="16.4" r="1.3"/>`, ColourDecide),
	finding.Note: NewDrawing("note", `<circle fill="none" stroke="#000000" stroke-width="2" cx="12" cy="12" r="9.5"/>`+
		`<circle fill="#000000" cx="12" cy="7.6" r="1.4"/><path fill="#000000" d="M10.9 10.6h2.2v7h-2.2z"/>`, ColourNote),
	finding.Held: NewDrawing("held", `<path fill="none" stroke="#000000" stroke-width="2.6" d="M4 12.5L10 18.5L20.5 6"/>`, ColourHeld),
}

// Mark returns the sign of a level in its colour.
func Mark(l finding.Level) fyne.Resource { return marks[l] }

// Icon shows a picture. Unlike that of the toolkit it follows a change of colours
// when it is refreshed.
type Icon struct {
	widget.Icon
	drawn string // name of the picture as drawn last
}

// NewIcon returns an icon; of nil it is empty.
func NewIcon(of fyne.Resource) *Icon {
	i := &Icon{}
	i.ExtendBaseWidget(i)
	i.SetResource(of)
	return i
}

// SetResource shows another picture.
func (i *Icon) SetResource(of fyne.Resource) {
	i.Resource = of
	i.Refresh()
}

// Refresh implements fyne.CanvasObject.
func (i *Icon) Refresh() {
	name := ""
	if i.Resource != nil {
		name = i.Resource.Name()
	}
	if name == i.drawn {
		return
	}
	i.drawn = name
	of := i.Resource
	i.Resource = nil // the toolkit draws only what it takes for another picture
	i.Icon.Refresh()
	i.Resource = of
	i.Icon.Refresh()
}
