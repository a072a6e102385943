package panel

import (
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

func words(list []string) func() []option {
	return func() (out []option) {
		for _, w := range list {
			out = append(out, option{w, capital(w)})
		}
		return out
	}
}

// uses are what ground of a kind may be lit for.
func uses(kind func() string) func() []option {
	return func() []option {
		usual := doc.UseOf(kind(), "")
		if usual == "none" {
			usual = "no light"
		}
		out := []option{{"", "As usual: " + usual}}
		for _, u := range doc.LightUses {
			name := capital(u)
			if u == "none" {
				name = "No light"
			}
			out = append(out, option{u, name})
		}
		return out
	}
}

// areaForm is the properties of a piece of ground.
func areaForm(on *subject) *form {
	f := newForm(on)
	area := func() *doc.Area { e, _ := on.scheme().Areas.Get(on.id); return e }
	set := func(change func(*doc.Area)) edit.Operation {
		e := *area()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return area().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Area) { e.Tag = v }) })
	f.choice("Ground", words(doc.AreaKinds), func() string { return area().Kind },
		func(v string) edit.Operation { return edit.ChangeKind{ID: on.id, Kind: v} })
	f.text("Name", func() string { return area().Name },
		func(v string) edit.Operation { return set(func(e *doc.Area) { e.Name = v }) })
	f.length("Digging depth", func() geom.Length { return area().DigDepth }, func(v geom.Length) edit.Operation {
		return set(func(e *doc.Area) { e.DigDepth = v })
	})
	f.extent("Height", func() string { return heightHint(area().Kind) }, func() geom.Length { return area().Height }, func(v geom.Length) edit.Operation {
		return set(func(e *doc.Area) { e.Height = v })
	})
	f.choice("Lit for", uses(func() string { return area().Kind }), func() string { return area().Use },
		func(v string) edit.Operation { return set(func(e *doc.Area) { e.Use = v }) })
	f.check("A hollow: water stands here after rain", func() bool { return area().Low }, func(on bool) edit.Operation {
		return set(func(e *doc.Area) { e.Low = on })
	})
	return f
}

// lineForm is the properties of a wall, fence, boundary or buried service.
func lineForm(on *subject) *form {
	f := newForm(on)
	l := func() *doc.Line { e, _ := on.scheme().Lines.Get(on.id); return e }
	set := func(change func(*doc.Line)) edit.Operation {
		e := *l()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return l().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Line) { e.Tag = v }) })
	f.choice("Line", words(doc.LineKinds), func() string { return l().Kind },
		func(v string) edit.Operation { return edit.ChangeKind{ID: on.id, Kind: v} })
	f.text("Name", func() string { return l().Name },
		func(v string) edit.Operation { return set(func(e *doc.Line) { e.Name = v }) })
	f.extent("Height", func() string { return heightHint(l().Kind) }, func() geom.Length { return l().Height }, func(v geom.Length) edit.Operation {
		return set(func(e *doc.Line) { e.Height = v })
	})
	f.choice("Whose", func() []option {
		return []option{{"", "Not known"}, {"own", "Own"}, {"neighbour", "Neighbour's"}}
	}, func() string { return l().Owner },
		func(v string) edit.Operation { return set(func(e *doc.Line) { e.Owner = v }) })
	f.choice("Lit for", uses(func() string { return l().Kind }), func() string { return l().Use },
		func(v string) edit.Operation { return set(func(e *doc.Line) { e.Use = v }) }).when = func() bool { return l().Kind == "step" || l().Use != "" }
	return f
}

// markForm is the properties of a tree, window, seat or piece of metalwork.
func markForm(on *subject) *form {
	f := newForm(on)
	m := func() *doc.Mark { e, _ := on.scheme().Marks.Get(on.id); return e }
	set := func(change func(*doc.Mark)) edit.Operation {
		e := *m()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return m().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Mark) { e.Tag = v }) })
	f.choice("Mark", words(doc.MarkKinds), func() string { return m().Kind },
		func(v string) edit.Operation { return edit.ChangeKind{ID: on.id, Kind: v} })
	f.text("Name", func() string { return m().Name },
		func(v string) edit.Operation { return set(func(e *doc.Mark) { e.Name = v }) })
	tree := func() bool { return m().Kind == "tree" }
	radius := func(name, unknown string, of func(*doc.Mark) *geom.Length) *line {
		return f.extent(name, func() string { return unknown }, func() geom.Length { return *of(m()) }, func(v geom.Length) edit.Operation {
			return set(func(e *doc.Mark) { *of(e) = v })
		})
	}
	trunk := func(e *doc.Mark) *geom.Length { return &e.Radius }
	const dark = "not known: no shadow"
	radius("Radius", "", trunk).when = func() bool { return !tree() }
	radius("Trunk, radius", dark, trunk).when = tree
	radius("Crown, radius", dark, func(e *doc.Mark) *geom.Length { return &e.Crown }).when = tree
	radius("Crown, top", dark, func(e *doc.Mark) *geom.Length { return &e.CrownTop }).when = tree
	radius("Crown, from", "not known: ⅓ of the top", func(e *doc.Mark) *geom.Length { return &e.CrownBase }).when = tree
	f.percent("Light through it", "30 % where empty", func() q.Maybe[doc.Ratio] { return m().CrownPass }, func(v q.Maybe[doc.Ratio]) edit.Operation {
		return set(func(e *doc.Mark) { e.CrownPass = v })
	}).when = tree
	f.choice("Whose", func() []option {
		return []option{{"", "Not known"}, {"own", "Own"}, {"neighbour", "Neighbour's"}}
	}, func() string { return m().Owner },
		func(v string) edit.Operation { return set(func(e *doc.Mark) { e.Owner = v }) }).when = func() bool { return m().Kind == "window" }
	placeRows(f, func() doc.Place { return m().Place }, func(p doc.Place) edit.Operation {
		return set(func(e *doc.Mark) { e.Place = p })
	})
	return f
}
