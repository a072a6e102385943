package ui

import "time"

// panelsEvery is how often at most the panels are written anew while something
// is being dragged: often enough to be followed by the eye, seldom enough to
// leave the frames to the plan.
const panelsEvery = 80 * time.Millisecond

// pace spaces out what would otherwise be done with every move of a gesture.
type pace struct {
	later func(time.Duration, func()) // calls back on the UI goroutine; nil: nothing is put off
	now   func() time.Time            // nil: time.Now
	last  time.Time
	due   bool
}

// do does f: at once when moving is false, otherwise at once or a little later,
// and then only once for all that came in between.
func (p *pace) do(moving bool, f func()) {
	clock := time.Now
	if p.now != nil {
		clock = p.now
	}
	if moving && p.later != nil {
		if p.due {
			return
		}
		if wait := panelsEvery - clock().Sub(p.last); wait > 0 {
			p.due = true
			p.later(wait, func() {
				if p.due {
					p.do(false, f)
				}
			})
			return
		}
	}
	p.due = false
	f()
	p.last = clock()
}
