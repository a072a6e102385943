package solve

import "math/cmplx"

const (
	// finest is the step in load at which the search for the collapse point
	// ends, as a fraction of the whole load.
	finest = 1e-6
	// sweepLimit bounds the sweeps of one solve.
	sweepLimit = 4000
)

// search finds the voltages under the whole load. The first attempt is the
// whole load at once; when that fails the load is raised in steps, each
// starting from the last solution, and the steps are halved where they fail.
// A load that cannot be raised by another finest step is at its collapse
// point: the voltages as a function of the load turn back there (a fold), and
// no state of the same branch lies beyond.
func (s *sweeper) search() Status {
	s.share = 1
	ok, lost := s.attempt()
	if ok {
		return s.status(Converged, 1)
	}
	reached := 0.0
	for step := 0.5; step >= finest && s.sweeps < s.limit; {
		s.restore()
		s.share = min(1, reached+step)
		ok, at := s.attempt()
		if at >= 0 {
			lost = at
		}
		if !ok {
			step /= 2
			continue
		}
		s.keep()
		if reached = s.share; reached == 1 {
			return s.status(Converged, 1)
		}
		step *= 1.5
	}
	s.restore()
	if s.sweeps >= s.limit {
		return s.status(Unfinished, reached)
	}
	st := s.status(Collapsed, reached)
	st.Worst = s.lowest(lost)
	return st
}

// status sums up the search and sets the share of the loads it speaks of.
func (s *sweeper) status(state State, carried float64) Status {
	s.share = carried
	return Status{State: state, Sweeps: s.sweeps, Worst: s.worst, Residual: s.change, Carried: carried}
}

// lowest returns the node with the smallest voltage as a fraction of its
// nominal; the first of equals, and otherwise when no voltage has moved.
func (s *sweeper) lowest(otherwise int) int {
	worst, least := otherwise, 1-tolerance
	for _, i := range s.order {
		if r := cmplx.Abs(s.cells[i].v) / s.cells[i].nominal; r < least {
			worst, least = i, r
		}
	}
	if worst < 0 {
		return s.net.Root
	}
	return worst
}
