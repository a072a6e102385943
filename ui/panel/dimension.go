package panel

import (
	"strconv"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// dimensionForm is the properties of a dimension line. What it reads is
// measured, so that it is shown and never typed.
func dimensionForm(on *subject) *form {
	f := newForm(on)
	d := func() *doc.Dimension { e, _ := on.scheme().Dimensions.Get(on.id); return e }
	set := func(change func(*doc.Dimension)) edit.Operation {
		e := *d()
		change(&e)
		return put(&e)
	}
	f.figure("Measured", func() string { return doc.ShapeOf(on.scheme(), d()).Read() })
	f.text("Label", func() string { return d().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Dimension) { e.Tag = v }) })
	f.choice("Measures", func() []option {
		return []option{{doc.Aligned, "Straight"}, {doc.Horizontal, "Across"}, {doc.Vertical, "Up the sheet"}}
	}, func() string { return d().Kind }, func(v string) edit.Operation {
		return set(func(e *doc.Dimension) { e.Kind = v })
	})
	f.length("Line stands off", func() geom.Length { return d().Offset }, func(v geom.Length) edit.Operation {
		return set(func(e *doc.Dimension) { e.Offset = v })
	})
	f.figure("From", func() string { return anchorText(on.scheme(), d().From) })
	f.figure("To", func() string { return anchorText(on.scheme(), d().To) })
	f.hint("It follows what it is on. Drag an end to measure from another place, or the line to move it; by keys on the plan , and . choose one of them, the arrows move it, J takes an end to the next thing.")
	return f
}

// anchorText says what an end of a dimension follows.
func anchorText(s *doc.Scheme, a doc.Anchor) string {
	e, kind := doc.Find(s, a.On)
	switch {
	case a.On == "":
		return LengthText(a.At.X) + ", " + LengthText(a.At.Y)
	case len(doc.Corners(s, e)) > 1:
		return "Corner " + strconv.Itoa(a.Corner+1) + " of " + kind.String() + " " + e.Label()
	}
	return capital(kind.String()) + " " + e.Label()
}
