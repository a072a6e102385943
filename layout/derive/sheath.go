package derive

import "duskwire/layout/doc"

// sheaths groups the runs that have their cores in one cable; nil when none
// share.
func sheaths(s *doc.Scheme) map[doc.ID][]*doc.Run {
	var out map[doc.ID][]*doc.Run
	for _, r := range s.Runs.All() {
		if r.With == "" {
			continue
		}
		if out == nil {
			out = map[doc.ID][]*doc.Run{}
		}
		if own, ok := s.Runs.Get(r.With); ok && out[r.With] == nil {
			out[r.With] = append(out[r.With], own)
		}
		out[r.With] = append(out[r.With], r)
	}
	return out
}

// sharing returns the other runs in the cable of a run.
func (d *deriver) sharing(r *doc.Run) []*doc.Run {
	key := r.With
	if key == "" {
		key = r.ID
	}
	var out []*doc.Run
	for _, other := range d.sheath[key] {
		if other != r {
			out = append(out, other)
		}
	}
	return out
}

// sheathsOf returns the runs that share a cable with one of a walk.
func (d *deriver) sheathsOf(w *walk) []*doc.Run {
	if d.sheath == nil {
		return nil
	}
	var out []*doc.Run
	for i := range w.steps {
		if r := w.steps[i].run; r != nil {
			out = append(out, d.sharing(r)...)
		}
	}
	for i := range w.rings {
		out = append(out, d.sharing(w.rings[i].run)...)
	}
	return out
}
