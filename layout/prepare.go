package layout

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// Prepared is a scheme that was derived and evaluated away from the desk, ready
// to be put on it.
type Prepared struct{ desk *Desk }

// Scheme returns the scheme that was prepared.
func (p *Prepared) Scheme() *doc.Scheme { return p.desk.frame.Scheme }

// Frame returns what was worked out of it; it is asked before Put.
func (p *Prepared) Frame() *Frame { return p.desk.frame }

// Unsaved says that the scheme is not what its file holds, as work that was
// found again is.
func (p *Prepared) Unsaved() *Prepared {
	p.desk.store.MarkSavedAs(nil)
	p.desk.frame.Unsaved = true
	return p
}

// WithLights gives the frame the light of photometric files that were read.
func (p *Prepared) WithLights(l *Lights) *Prepared {
	p.desk.SetLights(l)
	return p
}

// Preparer returns a function that derives and evaluates a scheme as Load does.
// It touches nothing of the desk, so that it may run in a worker; Preparer
// itself is called where the desk is used.
func (d *Desk) Preparer() func(s *doc.Scheme, path string) *Prepared {
	shipped, rules := d.shipped, d.rules
	return func(s *doc.Scheme, path string) *Prepared {
		p := &Desk{shipped: shipped, rules: rules, store: edit.NewStore(s), path: path}
		p.publish()
		return &Prepared{p}
	}
}

// Put puts a prepared scheme on the desk and forgets the history. A Prepared is
// put once.
func (d *Desk) Put(p *Prepared) {
	seq := uint64(1)
	if d.frame != nil {
		seq = d.frame.Seq + 1
	}
	next := p.desk
	p.desk = nil
	next.frame.Seq = seq // nobody has seen it yet
	d.store, d.preview, d.path, d.stock, d.memo = next.store, nil, next.path, next.stock, next.memo
	d.planner.last = next.planner.last
	d.apart.keep(next.frame)
	d.hand(next.frame)
}

// Steps returns the names of the steps of the history, oldest first, undone
// ones included, and how many of them are done.
func (d *Desk) Steps() (names []string, done int) { return d.store.Steps() }

// GoTo undoes or does steps again until n are done; false when there is no such
// state or when it is the present one.
func (d *Desk) GoTo(n int) bool { return d.step(func() bool { return d.store.GoTo(n) }) }
