package edit

import (
	"math"
	"strconv"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// underlaid changes the picture under the plan.
func underlaid(s *doc.Scheme, change func(*doc.Underlay)) (*doc.Scheme, error) {
	if !s.Plan.Underlay.Present() {
		return nil, refuse("there is no picture under the plan")
	}
	return setHead(s, func(n *doc.Scheme) { change(&n.Plan.Underlay) })
}

// unlocked is underlaid for what a locked picture refuses.
func unlocked(s *doc.Scheme, change func(*doc.Underlay)) (*doc.Scheme, error) {
	if u := s.Plan.Underlay; u.Present() && u.Lock {
		return nil, refuse("the picture is locked in its place")
	}
	return underlaid(s, change)
}

// PlacePicture lays a picture under the plan, instead of the one that is there.
type PlacePicture struct{ Underlay doc.Underlay }

// Name implements Operation.
func (o PlacePicture) Name() string { return "Place picture" }

// Apply implements Operation.
func (o PlacePicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if !o.Underlay.Present() {
		return nil, refuse("there is no picture to place")
	}
	return setHead(s, func(n *doc.Scheme) { n.Plan.Underlay = o.Underlay })
}

// ReplacePicture puts another file in the place of the picture, the same plan
// scanned better for instance. One of the same pixels keeps everything; any
// other keeps its upper left corner and its width, and has to be scaled again.
type ReplacePicture struct {
	File, Sum     string
	Width, Height int
}

// Name implements Operation.
func (o ReplacePicture) Name() string { return "Replace picture" }

// Apply implements Operation.
func (o ReplacePicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return underlaid(s, func(u *doc.Underlay) {
		if o.Width != u.Width || o.Height != u.Height {
			u.Pixel *= q.Metre(float64(u.Width) / float64(max(o.Width, 1)))
			u.Known, u.Check = doc.Measure{}, doc.Measure{}
		}
		u.File, u.Sum, u.Width, u.Height = o.File, o.Sum, o.Width, o.Height
	})
}

// RemovePicture takes the picture away; its file stays.
type RemovePicture struct{}

// Name implements Operation.
func (o RemovePicture) Name() string { return "Remove picture" }

// Apply implements Operation.
func (o RemovePicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return underlaid(s, func(u *doc.Underlay) { *u = doc.Underlay{} })
}

// ScalePicture makes the picture so large that two of its places are as far
// apart as in truth. The first place stays where it is.
type ScalePicture struct{ Known doc.Measure }

// Name implements Operation.
func (o ScalePicture) Name() string { return "Scale picture" }

// Apply implements Operation.
func (o ScalePicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if err := usable(o.Known); err != nil {
		return nil, err
	}
	return unlocked(s, func(u *doc.Underlay) {
		fixed := u.Place(o.Known.From)
		u.Known = o.Known
		u.Pixel = q.Metre(o.Known.Length.Metres() / o.Known.Pixels())
		u.At = u.At.Add(fixed.Sub(u.Place(o.Known.From)))
	})
}

// CheckPicture records a second known length, which the scale is compared with.
type CheckPicture struct{ Check doc.Measure }

// Name implements Operation.
func (o CheckPicture) Name() string { return "Check picture" }

// Apply implements Operation.
func (o CheckPicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if err := usable(o.Check); err != nil {
		return nil, err
	}
	if m := s.Plan.Underlay.Known; sameStretch(m, o.Check) {
		return nil, refuse("this is the length that the picture was scaled by, which proves nothing; take another one")
	}
	return underlaid(s, func(u *doc.Underlay) { u.Check = o.Check })
}

// sameStretch reports whether two measures lie between the same places, within
// two pixels, in either direction.
func sameStretch(a, b doc.Measure) bool {
	near := func(p, q doc.Spot) bool { return math.Hypot(p.X-q.X, p.Y-q.Y) <= 2 }
	return a.Given() && (near(a.From, b.From) && near(a.To, b.To) || near(a.From, b.To) && near(a.To, b.From))
}

// usable refuses a measure that is no length.
func usable(m doc.Measure) error {
	switch {
	case !(m.Pixels() >= 1):
		return refuse("the two places are one; take two that are well apart")
	case !m.Given():
		return refuse("the true length is missing")
	}
	return nil
}

// MovePicture moves the picture.
type MovePicture struct{ By geom.Point }

// Name implements Operation.
func (o MovePicture) Name() string { return "Move picture" }

// Apply implements Operation.
func (o MovePicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return unlocked(s, func(u *doc.Underlay) { u.At = u.At.Add(o.By) })
}

// TurnPicture turns the picture about its middle, to an angle in degrees
// clockwise from upright.
type TurnPicture struct{ To float64 }

// Name implements Operation.
func (o TurnPicture) Name() string { return "Turn picture" }

// Apply implements Operation.
func (o TurnPicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if math.IsNaN(o.To) || math.Abs(o.To) > 1e6 {
		return nil, refuse("found %s degrees, expected an angle", strconv.FormatFloat(o.To, 'g', -1, 64))
	}
	return unlocked(s, func(u *doc.Underlay) {
		middle := u.Middle()
		u.Turn = hundredths(math.Remainder(o.To, 360))
		u.At = u.At.Add(middle.Sub(u.Middle()))
	})
}

// hundredths rounds an angle so that a file holds a short number.
func hundredths(v float64) float64 { return math.Round(v*100)/100 + 0 }

// FadePicture makes the picture fainter: 0 shows it in full, 1 not at all.
type FadePicture struct{ Fade doc.Ratio }

// Name implements Operation.
func (o FadePicture) Name() string { return "Fade picture" }

// Apply implements Operation.
func (o FadePicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return underlaid(s, func(u *doc.Underlay) { u.Fade = o.Fade })
}

// LockPicture keeps the picture in its place, or lets it go again.
type LockPicture struct{ Lock bool }

// Name implements Operation.
func (o LockPicture) Name() string {
	if o.Lock {
		return "Lock picture"
	}
	return "Unlock picture"
}

// Apply implements Operation.
func (o LockPicture) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return underlaid(s, func(u *doc.Underlay) { u.Lock = o.Lock })
}
