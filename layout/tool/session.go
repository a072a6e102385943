package tool

import (
	"slices"

	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// Desk is what a session needs of the desk.
type Desk interface {
	Preview(edit.Operation) error
	Commit(edit.Operation) error
	Cancel()
}

// Session is one person at one plan: the tool in hand, the selection and what
// floats above the plan. It carries out the verdicts of the tool. It holds no
// part of the scheme but the published ones it was given.
type Session struct {
	desk      Desk
	tool      Tool
	world     World
	previewed bool // the desk holds a preview of ours
	busy      bool // inside a call to the desk
	verdict   Verdict
	refusal   refusal
}

// refusal is the last thing that was refused, and where the pointer was.
type refusal struct {
	why string
	at  geom.Point
}

// NewSession returns a session that starts with the tool.
func NewSession(d Desk, t Tool) *Session {
	return &Session{desk: d, tool: t, world: World{Snap: true}}
}

// Tool returns the tool in hand.
func (s *Session) Tool() Tool { return s.tool }

// Overlay returns what floats above the plan now.
func (s *Session) Overlay() Overlay { return s.verdict.Overlay }

// Hint returns the line of help for the state the tool is in, behind a word on
// what has caught the pointer.
func (s *Session) Hint() string {
	o := s.verdict.Overlay
	if o.Snap == nil || o.Caught.Word == "" || s.verdict.Hint == "" {
		return s.verdict.Hint
	}
	return o.Caught.Word + ". " + s.verdict.Hint
}

// Brief returns the line of help without the word on what has caught the pointer.
func (s *Session) Brief() string { return s.verdict.Hint }

// Refused returns why the last event did nothing, "" when it did something.
func (s *Session) Refused() string { return s.verdict.Refused }

// Selection returns the selected ids; the slice must not be changed.
func (s *Session) Selection() []doc.ID { return s.world.Selection }

// Scheme returns the committed scheme, as it is without any preview.
func (s *Session) Scheme() *doc.Scheme { return s.world.Scheme }

// Previewing reports whether a preview of this session is shown.
func (s *Session) Previewing() bool { return s.previewed }

// Drawing reports whether the tool in hand has begun something that it shows, or
// is told a place.
func (s *Session) Drawing() bool {
	o := s.verdict.Overlay
	return s.tool.Name() != NameSelect && (s.previewed || len(o.Lines) > 0 || o.Typed != "")
}

// SetSnap turns snapping to grid, things and vertices on or off.
func (s *Session) SetSnap(on bool) { s.world.Snap = on }

// SetPictureShown says whether the picture under the plan is to be seen.
func (s *Session) SetPictureShown(on bool) { s.world.NoPicture = !on }

// SetSnaps chooses what catches the pointer while snapping is on.
func (s *Session) SetSnaps(c Snaps) { s.world.Snaps = c }

// Snaps returns what catches the pointer while snapping is on.
func (s *Session) Snaps() Snaps { return s.world.Snaps }

// Snap reports whether snapping is on.
func (s *Session) Snap() bool { return s.world.Snap }

// Publish tells the session of a new frame. A previewed scheme is not taken
// as the start of anything. When the scheme changed by other hands than ours,
// by undo for example, a gesture that is on is dropped.
func (s *Session) Publish(scheme *doc.Scheme, stock *doc.Stock, c *derive.Circuits, preview bool) {
	s.world.Stock, s.world.Circuit = stock, c
	if preview {
		return
	}
	changed := s.world.Scheme != scheme
	foreign := changed && s.world.Scheme != nil && !s.busy
	s.world.Scheme = scheme
	if !changed {
		return
	}
	s.world.visited = nil
	s.prune()
	if foreign {
		s.previewed = false
		s.Send(Event{Kind: Cancel})
	}
}

// prune drops from the selection what is no longer there.
func (s *Session) prune() {
	s.world.Selection = slices.DeleteFunc(slices.Clone(s.world.Selection), func(id doc.ID) bool {
		return doc.KindOf(s.world.Scheme, id) == doc.NoKind
	})
}

// Take puts another tool in hand; what the old one had begun is dropped.
func (s *Session) Take(t Tool) {
	s.Send(Event{Kind: Cancel})
	s.tool = t
	s.verdict = Verdict{}
	s.world.visited = nil
}

// Select sets the selection to the ids that the scheme has.
func (s *Session) Select(ids ...doc.ID) {
	s.world.Selection = slices.Clone(ids)
	if s.world.Scheme != nil {
		s.prune()
	}
}

// Send gives an event to the tool and does what it answers. It returns the
// verdict; when the desk refused the operation, Refused says why.
func (s *Session) Send(e Event) Verdict {
	if s.world.Scheme == nil {
		return Verdict{}
	}
	s.world.caught, s.world.asked = Caught{Rank: geom.RankFree}, nil
	v := s.tool.Handle(e, &s.world)
	if c := s.world.caught; v.Overlay.Snap != nil && *v.Overlay.Snap == c.At {
		v.Overlay.Caught = c
	} else {
		v.Overlay.Caught = Caught{Rank: geom.RankFree} // typed
	}
	if v.Next != nil {
		s.tool = v.Next
	}
	s.verdict = v
	if err := s.carryOut(v); err != nil {
		s.verdict.Refused = err.Error()
		s.keepRefusal(e)
		return s.verdict
	}
	if v.Selects {
		s.Select(v.Select...)
	}
	s.keepRefusal(e)
	return s.verdict
}

// keepRefusal lets a refusal be read: letting the button go, or a hand that shakes,
// does not take it away, only what the pointer or a key does next.
func (s *Session) keepRefusal(e Event) {
	v := &s.verdict
	if v.Refused != "" {
		s.refusal = refusal{v.Refused, e.At}
		return
	}
	if (e.Kind != Up && e.Kind != Move) || v.Commit != nil || v.Preview != nil || geom.Distance(e.At, s.refusal.at) > stillReach(e) {
		s.refusal = refusal{}
	}
	v.Refused = s.refusal.why
}

// stillReach is how far a pointer may go that is not meant to move.
func stillReach(e Event) geom.Length {
	if e.Keyed {
		return 0
	}
	return e.Reach / 2
}

func (s *Session) carryOut(v Verdict) error {
	s.busy = true
	defer func() { s.busy = false }()
	switch {
	case v.Commit != nil:
		err := s.desk.Commit(v.Commit)
		if err != nil {
			s.drop()
		}
		s.previewed = false
		return err
	case v.Preview != nil:
		if err := s.desk.Preview(v.Preview); err != nil {
			return err
		}
		s.previewed = true
	case v.Cancel:
		s.drop()
	}
	return nil
}

// drop cancels our preview, if there is one.
func (s *Session) drop() {
	if s.previewed {
		s.previewed = false
		s.desk.Cancel()
	}
}
