// Package board is the plan as a Fyne widget: pointer and keys go in to the
// tools of layout/tool, a cached base image with a few live objects over it
// comes out. It computes nothing of the plan itself.
//
// All methods must be called on the UI goroutine.
package board

import (
	"maps"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
)

// What the board can do for Fyne.
var (
	_ fyne.Widget        = (*Board)(nil)
	_ fyne.Draggable     = (*Board)(nil)
	_ fyne.Scrollable    = (*Board)(nil)
	_ fyne.Focusable     = (*Board)(nil)
	_ fyne.Shortcutable  = (*Board)(nil)
	_ fyne.Tabbable      = (*Board)(nil)
	_ desktop.Mouseable  = (*Board)(nil)
	_ desktop.Hoverable  = (*Board)(nil)
	_ desktop.Cursorable = (*Board)(nil)
	_ desktop.Keyable    = (*Board)(nil)
)

// Desk is what the board needs of the desk.
type Desk interface {
	Frame() *layout.Frame
	Preview(edit.Operation) error
	Commit(edit.Operation) error
	Cancel()
}

// Status is what the status bar says about the board.
type Status struct {
	Pointer geom.Point
	Inside  bool    // the pointer is over the board
	Scale   float64 // 50 for 1:50
	Hint    string  // what can be done now
	Brief   string  // the same where there is little room
	Refused string  // why the last thing was not done, "" when it was
	Drawing bool    // something is begun, or keys have brought the pointer here
}

// Config is what the window hands to the board. Every hook may be nil.
type Config struct {
	Palette  *scene.Palette // nil: scene.Light()
	Defaults *tool.Defaults // nil: tool.NewDefaults()
	// Modifiers returns the keys held now; the events of a drag do not carry
	// them. The window asks the desktop driver.
	Modifiers func() tool.Modifiers
	Now       func() time.Time // nil: time.Now

	OnSelect   func([]doc.ID)
	OnStatus   func(Status)
	OnTool     func(name string)
	OnRing     func()                            // the ring of the keyboard has moved, or gone
	OnMenu     func(id doc.ID, at fyne.Position) // at is absolute, id "" over nothing
	OnShortcut func(fyne.Shortcut)               // those the board has no use for
	// OnKey gets the keys that neither the tool nor the board takes.
	OnKey func(fyne.KeyName)
	// OnRune gets the characters that neither the tool nor the board takes.
	OnRune func(rune)
	// OnNight is told when another night picture is wanted, see NightWish.
	OnNight func()
	// OnEscape gets Escape before the tool does, and reports whether that was its
	// use: a hint was taken down.
	OnEscape func() bool
	// OnFigure is told of the figure that the pointer has come to, and nil when it
	// goes on, is pressed or begins something.
	OnFigure func(*Figure)
	// Work has pictures drawn in a worker. When it likes it calls take on the UI
	// goroutine, does the work that take returns on any, and calls done on the UI
	// goroutine; work is nil when there is nothing to do any more. nil: every
	// picture is drawn at once.
	Work func(take func() (work, done func()))
}

// Board is the plan.
type Board struct {
	widget.BaseWidget
	cfg     Config
	palette *scene.Palette
	session *tool.Session

	frame *layout.Frame // as last published
	still *layout.Frame // the last one without a preview
	view  view
	fit   bool // show everything at every size, until the view is changed

	night  night
	base   base
	live   live
	convoy convoy
	over   over
	hidden map[doc.ID]bool // left out of the base while a preview shows them
	grid   bool
	shows  scene.Look
	// foot is what is covered along the lower edge; see SetFoot.
	foot    float32
	lifted  lift
	noZones bool
	hatch   bool     // areas of all zones
	eyed    bool     // eye points in every view
	hatched []doc.ID // zones selected, as the base shows them
	marked  doc.ID   // flown to, marked until the next press
	flown   flight

	in       input
	typed    typedView
	rest     resting
	sending  bool
	told     Status
	toldIDs  []doc.ID
	toldRing doc.ID
	toldTool string
}

// New returns a board on the desk. The window calls SetFrame with every frame
// that the desk publishes.
func New(desk Desk, cfg Config) *Board {
	if cfg.Palette == nil {
		cfg.Palette = scene.Light()
	}
	if cfg.Defaults == nil {
		cfg.Defaults = tool.NewDefaults()
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	b := &Board{cfg: cfg, palette: cfg.Palette, grid: true, fit: true, rest: resting{tell: cfg.OnFigure}}
	b.session = tool.NewSession(desk, tool.NewSelect(cfg.Defaults))
	b.toldTool = b.session.Tool().Name()
	b.view = viewAt(geom.Point{}, 50, fyne.NewSize(0, 0))
	b.night.init(b)
	b.base.init(b)
	b.live.init(b)
	b.over.init(b)
	b.ExtendBaseWidget(b)
	if f := desk.Frame(); f != nil {
		b.SetFrame(f)
	}
	return b
}

// Tool returns the tool in hand.
func (b *Board) Tool() tool.Tool { return b.session.Tool() }

// SetTool puts a tool in hand; what the last one had begun is dropped.
func (b *Board) SetTool(t tool.Tool) {
	b.in.ring, b.typed = "", typedView{}
	b.sending = true
	b.session.Take(t)
	b.sending = false
	b.showHint()
	b.changed()
}

// Defaults returns the choices for what is drawn next; the tray changes them
// in place.
func (b *Board) Defaults() *tool.Defaults { return b.cfg.Defaults }

// Selection returns the selected ids; the slice must not be changed.
func (b *Board) Selection() []doc.ID { return b.session.Selection() }

// Select sets the selection.
func (b *Board) Select(ids ...doc.ID) {
	b.session.Select(ids...)
	b.changed()
}

// SetSnap turns snapping on or off.
func (b *Board) SetSnap(on bool) { b.session.SetSnap(on) }

// SetSnaps chooses what catches the pointer while snapping is on.
func (b *Board) SetSnaps(c tool.Snaps) { b.session.SetSnaps(c) }

// Snaps returns what catches the pointer while snapping is on.
func (b *Board) Snaps() tool.Snaps { return b.session.Snaps() }

// Snap reports whether snapping is on.
func (b *Board) Snap() bool { return b.session.Snap() }

// SetGrid shows or hides the grid.
func (b *Board) SetGrid(on bool) {
	if b.grid != on {
		b.grid = on
		b.base.redraw()
	}
}

// Grid reports whether the grid is shown.
func (b *Board) Grid() bool { return b.grid }

// SetLook chooses what the runs are drawn to show.
func (b *Board) SetLook(l scene.Look) {
	if b.shows != l {
		b.shows = l
		b.tellPicture()
		b.over.recolour()
		b.night.follow()
		b.base.redraw()
		b.showOver()
	}
}

// Look returns what the runs are drawn to show.
func (b *Board) Look() scene.Look { return b.shows }

// SetPalette changes the colours, after a change of theme.
func (b *Board) SetPalette(p *scene.Palette) {
	b.palette = p
	b.over.recolour()
	b.Refresh()
}

// SetFrame shows a frame. While a gesture previews, only what moves is drawn
// again; otherwise the base is, if anything that it shows has changed.
func (b *Board) SetFrame(f *layout.Frame) {
	if f == b.frame {
		return
	}
	was, first := b.frame, b.frame == nil
	b.frame = f
	b.tellPicture()
	own := b.sending
	b.sending = true // what the session answers to the frame is shown below
	b.session.Publish(f.Scheme, f.Stock, f.Circuits, f.Preview)
	b.sending = own
	if f != b.frame {
		return // the session dropped a gesture, and that was published already
	}
	if f.Preview && b.still != nil && b.joins(f) {
		b.base.ask()
	} else if f.Preview && b.still != nil {
		b.hide(affected(b.still.Scheme, f.Scheme))
		if f.Scheme.Plan.Underlay != b.base.lay || figured(b.shows) && f.Circuits != was.Circuits { // figures follow everywhere
			b.base.redraw()
		}
	} else {
		b.settle(f)
	}
	if first && b.fit {
		b.ZoomFit()
	}
	b.showLive()
	if !own {
		b.changed()
	}
}

// settle takes a frame without a preview as what the base shows.
func (b *Board) settle(f *layout.Frame) {
	same := b.still != nil && !b.convoy.on && len(b.hidden) == 0 && looksSame(b.still, f) && f.Scheme.Plan.Underlay == b.base.lay
	b.still, b.hidden = f, nil
	if !same {
		b.base.redraw()
	}
}

// hide leaves entities out of the base. Those hidden stay so until the
// gesture ends, so that a drag redraws the base once.
func (b *Board) hide(ids map[doc.ID]bool) {
	more := false
	for id := range ids {
		if !b.hidden[id] && doc.KindOf(b.still.Scheme, id) != doc.NoKind {
			if !more { // a worker may be drawing with the old ones
				next := make(map[doc.ID]bool, len(b.hidden)+len(ids))
				maps.Copy(next, b.hidden)
				b.hidden, more = next, true
			}
			b.hidden[id] = true
		}
	}
	if more {
		b.base.redraw()
	}
}

// send gives an event to the tool and shows what came of it.
func (b *Board) send(e tool.Event) tool.Verdict {
	e.At = b.place()
	e.Reach, e.Keyed, e.Step, e.View = b.view.length(pickUnits), b.in.keyed, b.in.step, b.view.area(b.open())
	b.sending = true
	v := b.session.Send(e)
	b.sending = false
	b.bringTyped(e)
	b.changed()
	return v
}

// changed shows the overlay anew and tells the window what is different.
func (b *Board) changed() {
	b.showOver()
	if ids := b.session.Selection(); !slices.Equal(ids, b.toldIDs) {
		b.toldIDs = slices.Clone(ids)
		b.followZones()
		if b.cfg.OnSelect != nil {
			b.cfg.OnSelect(b.toldIDs)
		}
	}
	if id := b.Ring(); id != b.toldRing {
		b.toldRing = id
		if b.cfg.OnRing != nil {
			b.cfg.OnRing()
		}
	}
	if name := b.session.Tool().Name(); name != b.toldTool {
		b.toldTool = name
		if b.cfg.OnTool != nil {
			b.cfg.OnTool(name)
		}
	}
	b.tell()
}

// Renew has the tool in hand say anew what it does: its defaults have changed.
func (b *Board) Renew() {
	if b.in.held == holdNone {
		b.showHint()
		b.changed()
	}
}

// showHint asks the tool in hand what it has to say at the pointer.
func (b *Board) showHint() {
	b.sending = true
	b.session.Send(tool.Event{Kind: tool.Move, At: b.place(), Reach: b.view.length(pickUnits), View: b.view.area(b.open()),
		Keyed: b.in.keyed, Step: b.in.step, Mods: b.modifiers()})
	b.sending = false
}

func (b *Board) tell() {
	s := Status{
		Pointer: b.place(), Inside: b.in.inside || b.in.keyed,
		Scale: b.view.denominator(), Hint: b.session.Hint(), Brief: b.session.Brief(), Refused: b.session.Refused(),
		Drawing: b.in.keyed || b.session.Drawing(),
	}
	if id := b.ringed(); id != "" && s.Refused == "" {
		s.Hint = ringHint(doc.TagOf(b.frame.Scheme, id), contains(b.session.Selection(), id))
	}
	if s == b.told || b.cfg.OnStatus == nil {
		return
	}
	b.told = s
	b.cfg.OnStatus(s)
}

func (b *Board) modifiers() tool.Modifiers {
	if b.cfg.Modifiers == nil {
		return tool.Modifiers{}
	}
	return b.cfg.Modifiers()
}
