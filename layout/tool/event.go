// Package tool holds the drawing tools as state machines over events of our
// own, so that every gesture can be tested without a window. A tool never
// changes the scheme: it answers an event with what should happen.
package tool

import (
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// Kind of an event.
type Kind int

const (
	Down Kind = iota
	Move
	Up
	Key  // a named key: "Escape", "Return", "BackSpace", "Delete", arrows
	Rune // a typed character
	Cancel
)

// Button of the pointer.
type Button int

const (
	NoButton Button = iota
	LeftButton
	MiddleButton
	RightButton
)

// Modifiers held down.
type Modifiers struct{ Shift, Control, Alt bool }

// Event is one thing that the pointer or the keyboard did. Keys and characters
// carry the place of the pointer too.
type Event struct {
	Kind   Kind
	At     geom.Point // on the plan, not snapped
	Button Button
	Mods   Modifiers
	Clicks int // 1, 2: for Down
	Key    string
	Rune   rune
	// Reach is the pick radius on the plan at the present zoom.
	Reach geom.Length
	// ReachUp is the pick radius across a section, whose heights are stretched.
	ReachUp geom.Length
	// Keyed says that keys have brought the pointer here, by Step the last time, or
	// by a jump, which is Step 0. Then neither grid nor Shift pulls it, things and
	// corners catch it when they are nearer than the step, and lines when it stands
	// on them.
	Keyed bool
	Step  geom.Length
	// View is the part of the plan that is seen; empty when nobody knows.
	View geom.Rect
}

// World is what a tool may look at.
type World struct {
	Scheme    *doc.Scheme // start scheme of the gesture while one is on, otherwise the current
	Stock     *doc.Stock
	Circuit   *derive.Circuits // of the current frame; may be nil
	Selection []doc.ID
	Snap      bool
	Snaps     Snaps // what catches the pointer while Snap is on
	// NoPicture says that the picture under the plan is not shown: it was not read, or
	// the look of the plan leaves it out.
	NoPicture bool

	near    *places     // of Scheme, see snapTo
	caught  Caught      // what snapTo found last
	asked   *question   // how it was asked last, in this event
	visited *geom.Point // corner or thing that the pointer was caught by last
}

// Verdict is a tool's answer to one event.
type Verdict struct {
	Preview edit.Operation // show the scheme as if this were done
	Commit  edit.Operation // do it: one undo step
	Cancel  bool           // drop the preview
	Select  []doc.ID       // new selection when Selects
	Selects bool
	Next    Tool // another tool takes over; nil stays
	Overlay Overlay
	Hint    string // one line of help for the status bar
	Refused string // why nothing was done, for the status bar
	// Used says that the tool has taken a key or character, so that it must
	// not also work as a shortcut.
	Used bool
}

// Overlay is what floats above the plan: in plan coordinates.
type Overlay struct {
	Lines  [][]geom.Point
	Rubber *geom.Rect
	// Crossing says that the rubber band also takes what it touches.
	Crossing bool
	Snap     *geom.Point
	// Caught says how Snap was found; the session fills it in.
	Caught Caught
	Hover  doc.ID
	Corner *geom.Point // the chosen corner of what is selected
	Note   string      // measure text at the pointer, "3.20 m"
	NoteAt geom.Point
	// Typed is what was typed of the next point, with a caret; it stands by the
	// note.
	Typed string
	// Leads is the place that what was typed leads to, nil while it leads nowhere.
	Leads *geom.Point
	// Grip says that the pointer is on a handle that belongs to no thing.
	Grip bool
}

// Tool is one state machine.
type Tool interface {
	// Name is the name in the tray ("Run").
	Name() string
	Handle(Event, *World) Verdict
}

// Names of the keys that tools know, in Event.Key.
const (
	KeyEscape    = "Escape"
	KeyReturn    = "Return"
	KeyBackSpace = "BackSpace"
	KeyDelete    = "Delete"
	KeyUp        = "Up"
	KeyDown      = "Down"
	KeyLeft      = "Left"
	KeyRight     = "Right"
	KeySelectAll = "SelectAll" // Ctrl+A
)
