package board

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// What the diagram can do for Fyne.
var (
	_ fyne.Widget        = (*Diagram)(nil)
	_ fyne.Draggable     = (*Diagram)(nil)
	_ fyne.Scrollable    = (*Diagram)(nil)
	_ fyne.Focusable     = (*Diagram)(nil)
	_ fyne.Shortcutable  = (*Diagram)(nil)
	_ fyne.Tabbable      = (*Diagram)(nil)
	_ desktop.Mouseable  = (*Diagram)(nil)
	_ desktop.Hoverable  = (*Diagram)(nil)
	_ desktop.Cursorable = (*Diagram)(nil)
	_ desktop.Keyable    = (*Diagram)(nil)
)

// DiagramConfig is what the window hands to a diagram. Every hook may be nil.
type DiagramConfig struct {
	Palette    *scene.Palette // nil: scene.Light()
	Modifiers  func() tool.Modifiers
	Now        func() time.Time // nil: time.Now
	OnSelect   func([]doc.ID)   // the person selected
	OnOpen     func(doc.ID)     // and wants to see it on the plan
	OnHint     func(string)
	OnMenu     func(id doc.ID, at fyne.Position)
	OnShortcut func(fyne.Shortcut)
	OnRune     func(rune)
	OnFigure   func(*Figure)      // see Config
	OnKey      func(fyne.KeyName) // keys that the diagram has no use for
	OnDelete   func()             // the person wants what is selected deleted
	OnEscape   func() bool        // asked first; true keeps Escape from the diagram
	Ring       Ringer             // the plan; nil: there is no ring
	// Work has drawings made in a worker; see Config.
	Work func(take func() (work, done func()))
}

// Diagram shows the circuits of a frame as a one-line diagram: a cached image
// with the marks of hover and selection over it. It is drawn while it is shown
// only.
type Diagram struct {
	widget.BaseWidget
	cfg     DiagramConfig
	palette *scene.Palette
	frame   *layout.Frame
	active  bool
	drawing *scene.Diagram // as made last, nil before it was needed
	work    diagramWork

	origin scene.XY // place in the drawing at the upper left corner
	k      float64  // units for a millimetre of the drawing
	fit    bool     // everything is shown, until the view is changed
	placed bool     // a first view was chosen
	begun  bool     // and is the beginning at a size that can be read, until it is changed
	wrap   float64  // width of the drawing at which chains go on in a new line
	size   fyne.Size

	picture  diagramImage
	pool     pool
	box      *fyne.Container
	selected []doc.ID
	hover    doc.ID
	marked   doc.ID // flown to

	pointer  fyne.Position
	inside   bool
	focused  bool
	space    bool // the space bar is down
	pressed  desktop.MouseButton
	moved    bool
	from     fyne.Position
	lastTap  time.Time
	lastHint string
	rest     resting
	letters  letters
}

// NewDiagram returns a diagram; the window calls SetFrame with every frame.
func NewDiagram(cfg DiagramConfig) *Diagram {
	if cfg.Palette == nil {
		cfg.Palette = scene.Light()
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	d := &Diagram{cfg: cfg, palette: cfg.Palette, k: unitsPerMM * 0.75, rest: resting{tell: cfg.OnFigure}}
	d.picture.init(d)
	d.box = d.pool.init()
	d.ExtendBaseWidget(d)
	return d
}

// SetActive says whether the diagram is shown.
func (d *Diagram) SetActive(on bool) {
	d.active = on
	if on {
		d.lastHint = ""
		d.redraw()
	}
}

// SetPalette changes the colours, after a change of theme.
func (d *Diagram) SetPalette(p *scene.Palette) {
	d.palette, d.work.stale = p, true
	d.Refresh()
}

// Drawing returns the diagram as drawn, nil before it was shown.
func (d *Diagram) Drawing() *scene.Diagram { return d.drawing }

// Selection returns what is selected; the slice must not be changed.
func (d *Diagram) Selection() []doc.ID { return d.selected }

// SetSelection follows the selection made elsewhere. What stands alone is
// brought into view.
func (d *Diagram) SetSelection(ids []doc.ID) {
	if slices.Equal(ids, d.selected) {
		return
	}
	d.selected, d.marked = slices.Clone(ids), ""
	if d.active && len(ids) == 1 {
		d.reveal(ids[0])
		d.owe(ids[0])
	}
	d.marks()
}

// redraw makes drawing and image anew.
func (d *Diagram) redraw() {
	d.prepare()
	d.picture.redraw()
	d.marks()
}

// at returns the place of a point of the drawing in the widget.
func (d *Diagram) at(p scene.XY) fyne.Position {
	return fyne.NewPos(float32((p.X-d.origin.X)*d.k), float32((p.Y-d.origin.Y)*d.k))
}

// place returns the point of the drawing at a place of the widget.
func (d *Diagram) place(p fyne.Position) scene.XY {
	return scene.XY{X: d.origin.X + float64(p.X)/d.k, Y: d.origin.Y + float64(p.Y)/d.k}
}

// hit returns what lies at a place of the widget.
func (d *Diagram) hit(p fyne.Position) doc.ID {
	if d.drawing == nil {
		return ""
	}
	return d.drawing.Hit(d.place(p), pickUnits/d.k)
}

// choose selects and tells the window.
func (d *Diagram) choose(ids ...doc.ID) {
	d.selected, d.marked = ids, ""
	if d.cfg.OnSelect != nil {
		d.cfg.OnSelect(ids)
	}
	d.marks()
}

// open asks the window to show the selected thing on the plan.
func (d *Diagram) open() {
	if len(d.selected) > 0 && d.cfg.OnOpen != nil {
		d.cfg.OnOpen(d.selected[0])
	}
}

// hint tells what can be done; empty states say what is missing.
func (d *Diagram) hint() {
	text := "Click selects, a double click or Return shows it on the plan; arrows go along the circuit, Shift and arrows move the view"
	if d.begun && d.drawing != nil && !d.whole() {
		text = "The beginning: Ctrl+0 shows all. Click selects, Return shows it on the plan; arrows go along, Shift and arrows move the view"
	}
	switch {
	case d.drawing == nil || len(d.drawing.Symbols) == 0:
		text = "There is no circuit yet: draw a supply point, lamps and runs on the plan"
	case d.ringSays() != "":
		text = d.ringSays()
	case d.hover != "":
		text = doc.TagOf(d.frame.Scheme, d.hover) + ": " + text
	}
	if text != d.lastHint && d.cfg.OnHint != nil {
		d.lastHint = text
		d.cfg.OnHint(text)
	}
}
