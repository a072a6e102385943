package edit

import "duskwire/layout/doc"

// ChangeKind makes an area, line or mark another kind of its sort. Figures that
// still are the usual ones of the old kind become those of the new; what was
// measured stays.
type ChangeKind struct {
	ID   doc.ID
	Kind string
}

// Name implements Operation.
func (o ChangeKind) Name() string { return "Change kind" }

func (o ChangeKind) title(s *doc.Scheme) string { return "Change kind of " + doc.TagOf(s, o.ID) }

// Apply implements Operation.
func (o ChangeKind) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	e, kind := doc.Find(s, o.ID)
	switch e := e.(type) {
	case *doc.Area:
		c, was, is := *e, doc.UsualArea(e.Kind), doc.UsualArea(o.Kind)
		c.Kind = o.Kind
		follow(&c.DigDepth, was.DigDepth, is.DigDepth)
		follow(&c.Height, was.Height, is.Height)
		return replace(s, &c)
	case *doc.Line:
		c, was, is := *e, doc.UsualLine(e.Kind), doc.UsualLine(o.Kind)
		c.Kind = o.Kind
		follow(&c.Height, was.Height, is.Height)
		return replace(s, &c)
	case *doc.Mark:
		c, was, is := *e, doc.UsualMark(e.Kind), doc.UsualMark(o.Kind)
		c.Kind = o.Kind
		follow(&c.Radius, was.Radius, is.Radius)
		follow(&c.Crown, was.Crown, is.Crown)
		return replace(s, &c)
	}
	if kind == doc.NoKind {
		return nil, refuse("there is nothing with the id %q", o.ID)
	}
	return nil, refuse("%s is a %s, expected an area, a line or a mark", e.Label(), kind)
}

// follow gives a figure that still is the old usual one the new usual one.
func follow[T comparable](figure *T, was, is T) {
	if *figure == was {
		*figure = is
	}
}
