package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// AddEye adds an eye point.
type AddEye struct{ Eye doc.Eye }

// Name implements Operation.
func (o AddEye) Name() string { return "Place eye point " + o.Eye.Tag }

// Apply implements Operation.
func (o AddEye) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) { n.Eyes = append(slices.Clone(s.Eyes), o.Eye) })
}

// SetEye changes an eye point: its name, place, and where it looks.
type SetEye struct{ Eye doc.Eye }

// Name implements Operation.
func (o SetEye) Name() string { return "Change eye point " + o.Eye.Tag }

// Apply implements Operation.
func (o SetEye) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	i := slices.IndexFunc(s.Eyes, func(e doc.Eye) bool { return e.Tag == o.Eye.Tag })
	if i < 0 {
		return nil, noEye(o.Eye.Tag)
	}
	return setHead(s, func(n *doc.Scheme) {
		n.Eyes = slices.Clone(s.Eyes)
		n.Eyes[i] = o.Eye
	})
}

// RemoveEye takes an eye point away.
type RemoveEye struct{ Tag string }

// Name implements Operation.
func (o RemoveEye) Name() string { return "Remove eye point " + o.Tag }

// Apply implements Operation.
func (o RemoveEye) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if _, ok := s.Eye(o.Tag); !ok {
		return nil, noEye(o.Tag)
	}
	return setHead(s, func(n *doc.Scheme) {
		n.Eyes = slices.DeleteFunc(slices.Clone(s.Eyes), func(e doc.Eye) bool { return e.Tag == o.Tag })
	})
}

func noEye(tag string) error {
	return refuse("eye point %s: found none with this tag, expected one of the scheme", tag)
}
