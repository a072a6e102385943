package edit

import (
	"slices"

	"duskwire/layout/doc"
)

// SetLight takes the light of a fitting from a photometric file, in the place of
// one that it may have.
type SetLight struct{ Light doc.LightFile }

// Name implements Operation.
func (o SetLight) Name() string { return "Change light of " + o.Light.Lamp }

// Apply implements Operation.
func (o SetLight) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	return setHead(s, func(n *doc.Scheme) {
		n.Lights = slices.Clone(s.Lights)
		for i := range n.Lights {
			if n.Lights[i].Lamp == o.Light.Lamp {
				n.Lights[i] = o.Light
				return
			}
		}
		n.Lights = append(n.Lights, o.Light)
	})
}

// RemoveLight takes the light of a fitting from the stock book again.
type RemoveLight struct{ Lamp string }

// Name implements Operation.
func (o RemoveLight) Name() string { return "Light of " + o.Lamp + " as in the stock book" }

// Apply implements Operation.
func (o RemoveLight) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	if _, ok := s.LightOf(o.Lamp); !ok {
		return nil, &Refused{"fitting " + o.Lamp + ": found no photometric file, expected one to remove"}
	}
	return setHead(s, func(n *doc.Scheme) {
		n.Lights = slices.DeleteFunc(slices.Clone(s.Lights), func(l doc.LightFile) bool { return l.Lamp == o.Lamp })
	})
}
