package layout

import (
	"math"
	"slices"
	"strings"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
)

// BuiltRow is one difference between the design as issued and the drawing as it is.
type BuiltRow struct {
	ID      doc.ID
	Tag     string
	Kind    doc.Kind
	Change  string // "moved 0.45 m", "cable", "added", ...
	Was, Is string // "" where there is none
}

// lengthApart is the difference in a run's length that counts: what a lamp may be
// moved by before it counts as moved.
const lengthApart = 0.1

// AsBuilt returns what is otherwise than in the design that was issued, in the order
// of the file, by label; ok is false when none was issued. Lengths of the issued
// design are measured from it anew.
func AsBuilt(f *Frame, rules *check.Rules) (rows []BuiltRow, ok bool) {
	issue := f.Scheme.Issue
	if issue == nil {
		return nil, false
	}
	b := &building{was: issue.Scheme, is: f.Scheme, stock: f.Stock}
	d := doc.Diff(b.was, doc.Issued(b.is))
	for _, r := range d.Removed {
		e, _ := doc.Find(b.was, r.ID)
		b.add(e, "not built", b.named(e), "")
	}
	for _, r := range d.Added {
		e, _ := doc.Find(b.is, r.ID)
		b.add(e, "added", "", b.named(e))
	}
	for _, r := range d.Changed {
		was, _ := doc.Find(b.was, r.ID)
		is, _ := doc.Find(b.is, r.ID)
		b.compare(was, is)
	}
	b.lengths(derive.Scheme(b.was, f.Stock, rules, nil).Lengths, f.Circuits.Lengths)
	slices.SortStableFunc(b.rows, func(x, y BuiltRow) int {
		switch {
		case x.Kind != y.Kind:
			return int(x.Kind) - int(y.Kind)
		case finding.LessLabel(x.Tag, y.Tag):
			return -1
		case finding.LessLabel(y.Tag, x.Tag):
			return 1
		}
		return 0
	})
	return b.rows, true
}

type building struct {
	was, is *doc.Scheme
	stock   *doc.Stock
	rows    []BuiltRow
}

func (b *building) add(e doc.Entity, change, was, is string) {
	b.rows = append(b.rows, BuiltRow{e.Key(), e.Label(), doc.KindOfEntity(e), change, was, is})
}

// differ adds a row when two texts differ.
func (b *building) differ(e doc.Entity, change, was, is string) {
	if was != is {
		b.add(e, change, orNone(was), orNone(is))
	}
}

func orNone(s string) string {
	if s == "" {
		return "none"
	}
	return s
}

// compare adds what is otherwise about one thing that is in both.
func (b *building) compare(was, is doc.Entity) {
	b.differ(is, "label", was.Label(), is.Label())
	b.differ(is, "kind", b.named(was), b.named(is))
	if p, ok := doc.PlaceOf(was); ok {
		to, _ := doc.PlaceOf(is)
		if by, moved := doc.Moved(p, to); moved {
			change := "height"
			if by > 0 {
				change = "moved " + q.Metre(by.Metres()).String()
			}
			b.add(is, change, spotText(p), spotText(to))
		}
	}
	switch is := is.(type) {
	case *doc.Run:
		w := was.(*doc.Run)
		b.differ(is, "from, to", ends(b.was, w), ends(b.is, is))
		b.differ(is, "laid", Laid(w), Laid(is))
		if w.With != is.With {
			b.add(is, "in the cable of", orNone(doc.TagOf(b.was, w.With)), orNone(doc.TagOf(b.is, is.With)))
		}
	case *doc.Box:
		w := was.(*doc.Box)
		b.differ(is, "filled with", w.Fill, is.Fill)
		if w.Hidden != is.Hidden {
			b.add(is, "hidden", yesNo(w.Hidden), yesNo(is.Hidden))
		}
	case *doc.Supply:
		w := was.(*doc.Supply)
		b.differ(is, "device at the board", b.device(w.Upstream), b.device(is.Upstream))
		b.differ(is, "separate RCD", b.device(w.Residual), b.device(is.Residual))
		b.differ(is, "fuse", b.device(w.Fuse), b.device(is.Fuse))
	}
}

func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// spotText is a place in words.
func spotText(p doc.Place) string {
	return doc.Written(p.At.X) + " from left, " + doc.Written(p.At.Y) + " from bottom, " + doc.Written(p.Height) + " high"
}

func ends(s *doc.Scheme, r *doc.Run) string {
	name := func(e doc.End) string {
		if e.On == "" {
			return "in the air"
		}
		return doc.TagOf(s, e.On)
	}
	return name(r.From) + ", " + name(r.To)
}

// named is what a thing is by the stock book.
func (b *building) named(e doc.Entity) string {
	key := doc.StockOf(e)
	switch e := e.(type) {
	case *doc.Lamp:
		if x, ok := b.stock.Lamp(key); ok {
			return x.Name
		}
	case *doc.Box:
		if x, ok := b.stock.Box(key); ok {
			return x.Name
		}
	case *doc.Gear:
		if x, ok := b.stock.GearItem(key); ok {
			return x.Name
		}
	case *doc.Source:
		if x, ok := b.stock.Converter(key); ok {
			return x.Name
		}
	case *doc.Run:
		if x, ok := b.stock.Cable(key); ok {
			return x.Name
		}
		return orNone(key)
	case *doc.Zone:
		return e.Name
	}
	return key
}

func (b *building) device(key string) string {
	if x, ok := b.stock.Device(key); ok {
		return x.Device.Label
	}
	return key
}

// lengths adds runs that came out longer or shorter, by the drawing or as cut.
func (b *building) lengths(was, is []derive.Length) {
	old := make(map[doc.ID]*derive.Length, len(was))
	for i := range was {
		old[was[i].Run] = &was[i]
	}
	for i := range is {
		l := &is[i]
		w, ok := old[l.Run]
		r, _ := b.is.Runs.Get(l.Run)
		if !ok || r.With != "" {
			continue
		}
		if math.Abs(float64(l.Needed-w.Needed)) > lengthApart {
			b.add(r, "length", w.Needed.String(), l.Needed.String())
		}
		if r.Cut.Known && math.Abs(float64(r.Cut.Value-w.Cut)) > lengthApart/2 {
			b.add(r, "as cut", w.Cut.String(), r.Cut.Value.String())
		}
	}
}

// Laid says how a run is carried, neighbours alike told once.
func Laid(r *doc.Run) string {
	var parts []string
	for _, l := range r.Legs {
		s := [...]string{"clipped", "buried", "in duct", "on structure", "in tree", "indoors"}[l.Support]
		dug := l.Support == network.Buried || l.Support == network.InDuct && l.Depth > 0
		switch {
		case dug && l.Depth > 0:
			s += " " + doc.Written(l.Depth) + " deep"
		case dug:
			s += ", depth not given"
		case l.Support != network.Indoors:
			s += " at " + doc.Written(l.Height)
		}
		if len(parts) == 0 || parts[len(parts)-1] != s {
			parts = append(parts, s)
		}
	}
	return strings.Join(parts, "; ")
}
