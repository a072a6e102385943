package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// setHead changes what belongs to no entity and checks the whole scheme.
func setHead(s *doc.Scheme, change func(*doc.Scheme)) (*doc.Scheme, error) {
	n := *s
	change(&n)
	if doc.Diff(s, &n).Empty() {
		return s, nil
	}
	if list := doc.CheckHead(&n); len(list) > 0 {
		return nil, &Refused{list[0].Error()}
	}
	return &n, nil
}

// SetTitle changes the title and the author.
type SetTitle struct{ Title, Author string }

// Name implements Operation.
func (o SetTitle) Name() string { return "Change title" }

// Apply implements Operation.
func (o SetTitle) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Title, n.Author = o.Title, o.Author })
}

// SetRules changes the rule set and the country.
type SetRules struct{ Rules, Country string }

// Name implements Operation.
func (o SetRules) Name() string { return "Change rule set" }

// Apply implements Operation.
func (o SetRules) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Rules, n.Country = o.Rules, o.Country })
}

// SetPlan changes scale, grid, north and whether the scale was checked.
type SetPlan struct{ Plan doc.Plan }

// Name implements Operation.
func (o SetPlan) Name() string { return "Change plan" }

// Apply implements Operation.
func (o SetPlan) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Plan = o.Plan })
}

// SetSurvey changes the site conditions.
type SetSurvey struct{ Survey doc.Survey }

// Name implements Operation.
func (o SetSurvey) Name() string { return "Change survey" }

// Apply implements Operation.
func (o SetSurvey) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Survey = o.Survey })
}

// Overrule records the decision about one finding; it takes the place of an
// earlier one about the same finding.
type Overrule struct{ Decision doc.Decision }

// Name implements Operation.
func (o Overrule) Name() string { return "Overrule " + o.Decision.Code }

// Apply implements Operation.
func (o Overrule) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	i := decision(s, o.Decision.Code, o.Decision.Subject)
	if i >= 0 && s.Decisions[i] == o.Decision {
		return s, nil
	}
	return setHead(s, func(n *doc.Scheme) {
		n.Decisions = slices.Clone(s.Decisions)
		if i >= 0 {
			n.Decisions[i] = o.Decision
		} else {
			n.Decisions = append(n.Decisions, o.Decision)
		}
	})
}

// Withdraw takes the decision about a finding back.
type Withdraw struct {
	Code    string
	Subject doc.ID
}

// Name implements Operation.
func (o Withdraw) Name() string { return "Withdraw decision " + o.Code }

// Apply implements Operation.
func (o Withdraw) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	i := decision(s, o.Code, o.Subject)
	if i < 0 {
		return nil, refuse("nothing was decided about %s", o.Code)
	}
	return setHead(s, func(n *doc.Scheme) { n.Decisions = slices.Delete(slices.Clone(s.Decisions), i, i+1) })
}

// decision returns the position of the decision about a finding, -1 for none.
func decision(s *doc.Scheme, code string, subject doc.ID) int {
	return slices.IndexFunc(s.Decisions, func(d doc.Decision) bool {
		return d.Code == code && d.Subject == subject
	})
}
