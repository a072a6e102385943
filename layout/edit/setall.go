package edit

import (
	"strconv"
	"strings"

	"duskwire/layout/doc"
)

// SetAll sets one property of several things as one step. Ops[i] sets it of
// IDs[i]. When some are refused none is done, and the refusal names each of
// them, so that one look tells what has to be unlocked or left out.
type SetAll struct {
	What string // the property: "zone", "fitting"
	IDs  []doc.ID
	Ops  []Operation
}

// Name implements Operation.
func (o SetAll) Name() string { return "Set " + o.What }

func (o SetAll) title(s *doc.Scheme) string { return o.Name() + " of " + counted(s, o.IDs) }

// Apply implements Operation.
func (o SetAll) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if len(o.IDs) == 0 {
		return nil, refuse("nothing is selected to set the %s of", o.What)
	}
	if len(o.IDs) != len(o.Ops) {
		return nil, refuse("found %d changes for %d things, expected one each", len(o.Ops), len(o.IDs))
	}
	var refused refusals
	n := s
	for i, op := range o.Ops {
		next, err := op.Apply(n)
		if err != nil {
			refused.add(doc.TagOf(s, o.IDs[i]), err.Error())
			continue
		}
		n = next
	}
	if len(refused.reasons) > 0 {
		return nil, refuse("%s", refused.String())
	}
	return n, nil
}

const (
	mostNamed   = 6 // things that are named for one reason; more are counted
	mostReasons = 4 // reasons that are told; more are counted
)

// refusals collects reasons with the things that each is the reason for.
type refusals struct {
	reasons []string
	tags    map[string][]string
}

func (r *refusals) add(tag, reason string) {
	if r.tags == nil {
		r.tags = map[string][]string{}
	}
	// A reason that begins with the thing itself is the same for all of them.
	if rest, own := strings.CutPrefix(reason, tag+" is "); own {
		reason = rest
	}
	if r.tags[reason] == nil {
		r.reasons = append(r.reasons, reason)
	}
	r.tags[reason] = append(r.tags[reason], tag)
}

// String writes "L1, L2: zone Z1 is locked; L4: ...".
func (r *refusals) String() string {
	var out []string
	for i, reason := range r.reasons {
		if i == mostReasons {
			out = append(out, strconv.Itoa(len(r.reasons)-i)+" more like these")
			break
		}
		tags, rest := r.tags[reason], ""
		if n := len(tags) - mostNamed; n > 0 {
			tags, rest = tags[:mostNamed], " and "+strconv.Itoa(n)+" more"
		}
		out = append(out, strings.Join(tags, ", ")+rest+": "+reason)
	}
	return strings.Join(out, "; ")
}
