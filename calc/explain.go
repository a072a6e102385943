package calc

import (
	"duskwire/calc/check"
	"duskwire/calc/finding"
)

// Explain returns the working of everything checked about one entity: each
// finding whose subject it is or that lists it, and, with level Held, each
// check about it that meets its limit. in and res must belong together, res
// being the Evaluate of in. Worst first.
func Explain(in Input, res *Result, id string) []finding.Finding {
	if in.Net == nil || in.Rules == nil || res == nil || id == "" {
		return nil
	}
	c := contextOf(in, withExisting(in.Net), res)
	c.Explain = id
	var out []finding.Finding
	for _, f := range check.Run(c) {
		if concerns(&f, id) {
			out = append(out, f)
		}
	}
	return out
}

func concerns(f *finding.Finding, id string) bool {
	if f.Subject.ID == id {
		return true
	}
	for _, s := range f.Also {
		if s.ID == id {
			return true
		}
	}
	return false
}
