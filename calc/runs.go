package calc

import (
	"sync"
	"sync/atomic"

	"duskwire/calc/check"
)

// runList works out the results of the runs of a circuit, in branch order. Two
// goroutines may do so together: each takes the next piece of the list. What they
// share is only read, so that it makes no difference who does what.
type runList struct {
	c      *check.Context
	branch []int // per run
	out    []Run
	next   atomic.Int64

	ready sync.WaitGroup // until first is there
	first *proposer
}

// runPiece is how many runs are taken at a time.
const runPiece = 128

func newRunList(c *check.Context) *runList {
	l := &runList{c: c, branch: make([]int, 0, len(c.Net.Branches))}
	for b := range c.Net.Branches {
		if br := &c.Net.Branches[b]; br.ID != "" && br.Converter == nil && br.Strip == nil {
			l.branch = append(l.branch, b)
		}
	}
	l.out = make([]Run, len(l.branch))
	l.ready.Add(1)
	return l
}

// work looks the circuit over and then takes pieces until none is left.
func (l *runList) work(rate *rater) {
	l.first = newProposer(l.c, rate)
	l.ready.Done()
	l.take(l.first)
}

// help takes pieces beside work.
func (l *runList) help() {
	l.ready.Wait()
	if int(l.next.Load()) < len(l.out) {
		l.take(l.first.fork())
	}
}

func (l *runList) take(p *proposer) {
	for at := l.piece(); at < len(l.out); at = l.piece() {
		for k := at; k < min(at+runPiece, len(l.out)); k++ {
			l.run(k)
			if b := l.branch[k]; l.c.Ours(b) && !l.c.InRing(b) {
				l.out[k].Proposal = p.propose(b)
			}
		}
	}
}

// piece returns the start of the next piece.
func (l *runList) piece() int { return int(l.next.Add(runPiece)) - runPiece }

// run fills in all but the proposal.
func (l *runList) run(k int) {
	c, b := l.c, l.branch[k]
	br, r := &c.Net.Branches[b], &l.out[k]
	*r = Run{ID: br.ID, Label: br.Label, Cable: br.Cable, Length: br.Length, Capacity: c.Capacity[b]}
	if far := c.Far(b); far >= 0 {
		r.Current, r.Trusted = c.Flow(b), c.Trusted() && !doubtful(c, b)
		r.Operating.Value, r.Operating.Known = c.Operating(b)
	}
}

// done returns the runs once the pieces are. How many sizes are tried on rings
// depends on what was tried before, so their runs come last and one by one.
func (l *runList) done() []Run {
	if len(l.c.Tree.Closed) > 0 {
		for k, b := range l.branch {
			if l.c.Ours(b) && l.c.InRing(b) {
				l.out[k].Proposal = l.first.propose(b)
			}
		}
	}
	return l.out
}
