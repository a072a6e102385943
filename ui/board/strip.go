package board

import (
	"image"
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// What the strip can do for Fyne.
var (
	_ fyne.Widget        = (*Strip)(nil)
	_ fyne.Draggable     = (*Strip)(nil)
	_ fyne.Focusable     = (*Strip)(nil)
	_ fyne.Shortcutable  = (*Strip)(nil)
	_ desktop.Mouseable  = (*Strip)(nil)
	_ desktop.Hoverable  = (*Strip)(nil)
	_ desktop.Cursorable = (*Strip)(nil)
)

// StripConfig is what the window hands to the strip. Every hook may be nil.
type StripConfig struct {
	Palette   *scene.Palette // nil: scene.Light()
	Defaults  *tool.Defaults // nil: tool.NewDefaults()
	Modifiers func() tool.Modifiers
	Now       func() time.Time // nil: time.Now

	OnHint     func(hint, refused string)
	OnMenu     func(leg int, at fyne.Position) // leg from 0, -1 for an end; at is absolute
	OnShortcut func(fyne.Shortcut)
	OnKey      func(fyne.KeyName) // keys that the strip has no use for
	OnRune     func(rune)         // and characters
	OnFigure   func(*Figure)      // see Config
	OnHeight   func()             // it wants to be as high as Height says
}

// Heights of the strip in units, and the reach of its upper edge.
const (
	stripUsual = 200
	stripLeast = 130
	stripMost  = 480
	stripEdge  = 7
)

// Strip is the side of the one run that is selected, unrolled, along the lower
// edge of the plan. It is drawn from the display list of layout/scene and
// edited by the tool of layout/tool; it computes nothing itself.
type Strip struct {
	widget.BaseWidget
	cfg     StripConfig
	palette *scene.Palette
	session *tool.Session
	frame   *layout.Frame
	profile *derive.Profile // of the frame, nil without a run
	scale   scene.SectionScale
	active  bool

	raster *canvas.Raster
	image  *image.RGBA
	paint  *scene.Rasteriser
	stale  bool
	draws  int // for tests
	pool   pool
	box    *fyne.Container
	height float32

	in      stripInput
	rest    resting
	list    *scene.List // as drawn
	letters letters
}

// stripInput is what is known of pointer and keyboard.
type stripInput struct {
	pointer   fyne.Position
	inside    bool
	focused   bool
	held      bool // the tool has the left button
	sizing    bool // the upper edge is dragged
	abs       fyne.Position
	lastPress time.Time
	lastAt    fyne.Position
	clicks    int
}

// NewStrip returns a strip on the desk. The window calls SetFrame with every
// frame and SetSelection with every selection.
func NewStrip(desk tool.Desk, cfg StripConfig) *Strip {
	if cfg.Palette == nil {
		cfg.Palette = scene.Light()
	}
	if cfg.Defaults == nil {
		cfg.Defaults = tool.NewDefaults()
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	s := &Strip{cfg: cfg, palette: cfg.Palette, height: stripUsual, paint: scene.NewRasteriser(), stale: true, rest: resting{tell: cfg.OnFigure}}
	s.session = tool.NewSession(desk, tool.NewSection(cfg.Defaults))
	s.raster = canvas.NewRaster(s.generate)
	s.raster.ScaleMode = canvas.ImageScalePixels
	s.box = s.pool.init()
	s.ExtendBaseWidget(s)
	return s
}

// Run returns the run that is shown, "" for none.
func (s *Strip) Run() doc.ID {
	if s.profile == nil {
		return ""
	}
	return s.profile.Run.ID
}

// Part returns what is chosen: 0 the start of the run, then its legs from 1 on,
// then its end.
func (s *Strip) Part() int {
	if t, ok := s.session.Tool().(tool.Section); ok && t.Run == s.Run() {
		return t.Part
	}
	return 1
}

// Height returns how high the strip wants to be, in units.
func (s *Strip) Height() float32 { return s.height }

// SetActive says whether the strip may be seen; one that may not costs nothing.
func (s *Strip) SetActive(on bool) {
	if s.active != on {
		s.active = on
		s.unroll()
	}
}

// SetPalette changes the colours, after a change of theme.
func (s *Strip) SetPalette(p *scene.Palette) {
	s.palette = p
	s.Refresh()
}

// SetSelection shows the run that alone is selected.
func (s *Strip) SetSelection(ids []doc.ID) {
	s.session.Select(ids...)
	s.unroll()
}

// SetFrame shows a frame, that of a gesture too.
func (s *Strip) SetFrame(f *layout.Frame) {
	if f == s.frame {
		return
	}
	s.frame = f
	s.session.Publish(f.Scheme, f.Stock, f.Circuits, f.Preview)
	if f == s.frame {
		s.unroll()
	}
}

// unroll takes the run from the frame.
func (s *Strip) unroll() {
	s.profile = nil
	if ids := s.session.Selection(); s.frame != nil && s.active && len(ids) == 1 {
		s.profile, _ = derive.Unroll(s.frame.Scheme, ids[0], nil)
	}
	s.redraw()
}

// redraw has the picture drawn at the next paint. While a part is dragged the
// scale stays.
func (s *Strip) redraw() {
	if s.profile == nil {
		s.pool.end()
		return
	}
	if !s.in.held {
		w, h := s.sheet()
		s.scale = scene.FitSection(s.profile, w, h)
	}
	s.stale = true
	s.raster.Refresh()
	s.showOver()
}

// sheet is the size of the picture in millimetres.
func (s *Strip) sheet() (w, h float64) {
	size := s.Size()
	return float64(size.Width) / unitsPerMM, float64(size.Height) / unitsPerMM
}

// generate is called by Fyne with the size in device pixels.
func (s *Strip) generate(w, h int) image.Image {
	if w <= 0 || h <= 0 || s.profile == nil || s.Size().Width <= 0 {
		return image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	}
	if s.image == nil || s.image.Rect.Dx() != w || s.image.Rect.Dy() != h {
		s.image, s.stale = image.NewRGBA(image.Rect(0, 0, w, h)), true
	}
	if !s.stale {
		return s.image
	}
	in := scene.SectionInput{Scheme: s.frame.Scheme, Stock: s.frame.Stock, Palette: s.palette, Profile: s.profile, Findings: s.frame.Findings,
		Chosen: s.Part(), Mark: s.markColour(), Scale: &s.scale}
	if s.frame.Circuits != nil {
		in.Lengths = s.frame.Circuits.Lengths
	}
	for i, r := range s.frame.RunEnds(s.profile.Run.ID) {
		in.Readings[i] = scene.SectionReading{Volts: r.Volts, Amps: r.Amps, Known: r.Known}
	}
	wide, high := s.sheet()
	list, _ := scene.Section(in, wide, high)
	s.paint.Draw(s.image, list, unitsPerMM*float64(w)/float64(s.Size().Width))
	s.stale, s.list = false, list
	s.draws++
	return s.image
}

// markColour is that of the board's marks.
func (s *Strip) markColour() scene.Colour {
	c := overColour(s.palette)
	return scene.Colour{R: c.R, G: c.G, B: c.B, A: 255}
}

// send gives an event to the tool and shows what came of it.
func (s *Strip) send(e tool.Event) tool.Verdict {
	if s.profile == nil {
		return tool.Verdict{}
	}
	e.At = s.scale.Place(scene.XY{X: float64(s.in.pointer.X) / unitsPerMM, Y: float64(s.in.pointer.Y) / unitsPerMM})
	const reach = pickUnits / float64(unitsPerMM) // mm
	e.Reach, e.ReachUp = geomLength(reach/s.scale.K), geomLength(reach/s.scale.K/s.scale.Stretch)
	part := s.Part()
	v := s.session.Send(e)
	if s.Part() != part {
		s.redraw()
	}
	s.showOver()
	if s.cfg.OnHint != nil && (e.Kind != tool.Move || s.in.inside) {
		s.cfg.OnHint(s.session.Hint(), s.session.Refused())
	}
	return v
}

// showOver puts the note, the field and the ring of the focus where they belong.
func (s *Strip) showOver() {
	mark, ink, paper := overColour(s.palette), nrgba(s.palette.Ink), nrgba(s.palette.Paper)
	v := s.session.Overlay()
	size := s.Size()
	s.pool.rect(fyne.NewPos(0, 0), fyne.NewSize(size.Width, 1.5), nrgba(s.palette.Soft), nil, 0)
	s.pool.rect(fyne.NewPos(size.Width/2-18, 3), fyne.NewSize(36, 2.5), nrgba(s.palette.Soft), nil, 0) // the grip
	if s.in.focused {
		s.pool.rect(fyne.NewPos(1, 1), size.SubtractWidthHeight(2, 2), nil, mark, 2)
	}
	if s.profile != nil {
		p := s.scale.Paper(v.NoteAt.X, v.NoteAt.Y)
		at := fyne.NewPos(float32(p.X*unitsPerMM), float32(p.Y*unitsPerMM))
		if v.Typed != "" {
			s.label(v.Typed, at.AddXY(14, -34), ink, paper, mark, 2)
		} else if v.Note != "" && (s.in.inside || s.in.focused) {
			s.label(v.Note, at.AddXY(16, 10), ink, paper, mark, 1)
		}
	}
	s.pool.end()
}

// label shows a text on paper, inside the strip.
func (s *Strip) label(text string, at fyne.Position, ink, paper, mark color.Color, width float32) {
	m := fyne.MeasureText(text, noteSize, fyne.TextStyle{})
	at.X = max(6, min(at.X, s.Size().Width-m.Width-8))
	at.Y = max(6, min(at.Y, s.Size().Height-m.Height-6))
	s.pool.rect(at.SubtractXY(4, 2), m.AddWidthHeight(8, 4), paper, mark, width)
	s.pool.text(text, at, ink, noteSize)
}

// CreateRenderer implements fyne.Widget.
func (s *Strip) CreateRenderer() fyne.WidgetRenderer {
	paper := canvas.NewRectangle(nrgba(s.palette.Paper))
	return &stripRenderer{s, paper, container.NewClip(container.NewWithoutLayout(paper, s.raster, s.box))}
}

type stripRenderer struct {
	strip *Strip
	paper *canvas.Rectangle
	clip  *container.Clip
}

// Layout implements fyne.WidgetRenderer.
func (r *stripRenderer) Layout(size fyne.Size) {
	r.clip.Resize(size)
	r.paper.Resize(size)
	r.strip.box.Resize(size)
	r.strip.raster.Resize(size)
	r.strip.redraw()
}

// MinSize implements fyne.WidgetRenderer.
func (r *stripRenderer) MinSize() fyne.Size { return fyne.NewSize(240, stripLeast) }

// Refresh implements fyne.WidgetRenderer.
func (r *stripRenderer) Refresh() {
	r.paper.FillColor = nrgba(r.strip.palette.Paper)
	r.paper.Refresh()
	r.strip.redraw()
}

// Objects implements fyne.WidgetRenderer.
func (r *stripRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.clip} }

// Destroy implements fyne.WidgetRenderer.
func (r *stripRenderer) Destroy() {}
