package layout

import (
	"context"
	"image"

	"duskwire/layout/doc"
)

// StandWish is what a standing view is asked of. It is immutable.
type StandWish struct {
	Frame *Frame
	Eye   doc.Eye
	// AfterCurfew asks for the lamps alone that burn then.
	AfterCurfew bool
	// Width and Height in pixels.
	Width, Height int
}

// StandShot is a standing view as it was drawn. It is immutable.
type StandShot struct {
	Wish   StandWish
	Coarse bool // the fine picture is still to come
	Image  *image.RGBA
	Night  *Night
}

// StandWork draws standing views one after the other, coarse first, and keeps the
// light as long as the frame stays, so that turning the head costs the picture
// alone. The fine picture depends on the wish alone. It runs in a worker and is used
// by one goroutine at a time; the zero value is ready.
type StandWork struct {
	nights       Nights
	of           *Frame
	after        bool // of night: after curfew
	night        *Night
	coarse, fine *Standing
	given        StandWish
	done         bool // given was drawn fine
}

// standCoarse is how many pixels a pixel of the coarse picture stands for each
// way, and cells of its sheet.
const standCoarse = 4

// Step does the next thing towards what is wished for, as Dusk.Step does: shot is
// nil when there is nothing new to show, more says that another Step with the same
// wish has something to do.
func (s *StandWork) Step(ctx context.Context, w StandWish) (shot *StandShot, more bool, err error) {
	if s.of != w.Frame || s.after != w.AfterCurfew {
		night, err := s.nights.Of(w.Frame)
		if err == nil && w.AfterCurfew {
			night, err = night.AfterCurfew(w.Frame)
		}
		if err != nil {
			return nil, false, err
		}
		s.of, s.after, s.night, s.coarse, s.fine = w.Frame, w.AfterCurfew, night, nil, nil
	}
	if s.given != w {
		v, err := s.rough(context.Background())
		if err != nil {
			return nil, false, err
		}
		img, err := v.Picture(context.Background(), w.Eye, max(w.Width/standCoarse, 1), max(w.Height/standCoarse, 1))
		if err != nil {
			return nil, false, err
		}
		s.given, s.done = w, false
		return &StandShot{w, true, img, s.night}, true, nil
	}
	if s.done {
		return nil, false, nil
	}
	if s.fine == nil {
		if s.fine, err = StandingOf(ctx, w.Frame.Scheme, s.night, nil, 0); err != nil {
			s.fine = nil
			return nil, false, err
		}
	}
	img, err := s.fine.Picture(ctx, w.Eye, w.Width, w.Height)
	if err != nil {
		return nil, false, err
	}
	s.done = true
	return &StandShot{w, false, img, s.night}, false, nil
}

// rough returns the light for a coarse picture: the fine one when it is there.
func (s *StandWork) rough(ctx context.Context) (v *Standing, err error) {
	if s.fine != nil {
		return s.fine, nil
	}
	if s.coarse == nil {
		s.coarse, err = StandingOf(ctx, s.of.Scheme, s.night, nil, standingCells/standCoarse/standCoarse)
	}
	return s.coarse, err
}
