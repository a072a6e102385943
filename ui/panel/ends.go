package panel

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// endRows adds where the run is joined at both ends, and how its armour is
// finished there.
func endRows(f *form, run func() *doc.Run, set func(func(*doc.Run)) edit.Operation) {
	from := func(r *doc.Run) *doc.End { return &r.From }
	to := func(r *doc.Run) *doc.End { return &r.To }
	side := func(name string, of func(*doc.Run) *doc.End) {
		f.choice(name, func() []option { return sideOptions(f.on.scheme(), f.on.frame.Stock, of(run())) },
			func() string { return sideKey(of(run()).Side) },
			func(v string) edit.Operation { return set(func(e *doc.Run) { of(e).Side = sideByKey(v) }) }).when = func() bool {
			return sideOptions(f.on.scheme(), f.on.frame.Stock, of(run())) != nil
		}
	}
	side("Starts at", from)
	side("Ends at", to)
	armoured := func() bool {
		c, ok := f.on.frame.Stock.Cable(run().Cable)
		return ok && c.ArmourArea > 0
	}
	end := func(where string, of func(*doc.Run) *doc.End) {
		f.choice("Gland at "+where, glandOptions, func() string { return of(run()).Gland },
			func(v string) edit.Operation { return set(func(e *doc.Run) { of(e).Gland = v }) }).when = armoured
		f.check("Earth tag at "+where, func() bool { return !of(run()).Untagged },
			func(v bool) edit.Operation { return set(func(e *doc.Run) { of(e).Untagged = !v }) }).when = armoured
	}
	f.fold(named("Armour: glands and earth tags"), func() {
		end("start", from)
		end("end", to)
	}).when = armoured
}

// sideOptions lists the sides of what a run ends on: of a source, or of a strip
// lamp; nil where there is only one.
func sideOptions(s *doc.Scheme, book *doc.Stock, e *doc.End) []option {
	tag := doc.TagOf(s, e.On)
	switch e, _ := doc.Find(s, e.On); e := e.(type) {
	case *doc.Source:
		return []option{{"output", tag + ", output side"}, {"input", tag + ", mains side"}}
	case *doc.Lamp:
		if isStrip(book, e) {
			return []option{{"output", tag + ", near end"}, {"far", tag + ", far end"}}
		}
	}
	return nil
}

// sideKey names a side; what nobody said is the output of a source and the near
// end of a strip.
func sideKey(s doc.Side) string {
	switch s {
	case doc.Primary:
		return "input"
	case doc.FarEnd:
		return "far"
	}
	return "output"
}

func sideByKey(key string) doc.Side {
	switch key {
	case "input":
		return doc.Primary
	case "far":
		return doc.FarEnd
	}
	return doc.AnySide
}
