package panel

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// subject is what the forms look at and write to: the frame, the entity shown,
// and the desk.
type subject struct {
	desk    Desk
	frame   *layout.Frame
	id      doc.ID
	ids     []doc.ID                // the things shown when there are several
	found   found                   // those of them that are there
	wheel   func(*fyne.ScrollEvent) // turns the form
	rooms   *layout.Rooms           // see headroom
	roomsAt uint64
	show    func(doc.ID) // shows another entity
	seen    func(fyne.CanvasObject)
	tips    *Tips
	checks  explained
	picture func(PictureAct)
	light   func()
}

func (s *subject) scheme() *doc.Scheme { return s.frame.Scheme }

// form is the properties of one kind of entity: rows over one subject. It is
// built once and shows whichever entity of its kind is selected.
type form struct {
	on   *subject
	box  *fyne.Container
	into *fyne.Container // where rows are added: box, or the fold being filled
	rows []row
}

func newForm(on *subject) *form {
	box := container.NewVBox()
	return &form{on: on, box: box, into: box}
}

func (f *form) add(r row) {
	onFocus(r.object(), f.on.seen)
	f.rows, f.into.Objects = append(f.rows, r), append(f.into.Objects, r.object())
}

func (f *form) show() {
	for _, r := range f.rows {
		r.show()
	}
}

func (f *form) reset() {
	for _, r := range f.rows {
		r.reset()
	}
}

func (f *form) flush() {
	for _, r := range f.rows {
		r.flush()
	}
}

// heading adds a heading for the rows below it.
func (f *form) heading(text string) *line {
	r := newFixedRow(heading(text))
	f.add(r)
	return &r.line
}

// hint adds a sentence in small quiet print.
func (f *form) hint(text string) *line {
	r := newFixedRow(quiet(text))
	f.add(r)
	return &r.line
}

// field adds a field. A bare number typed into it is in the unit; "" takes the
// text as it is.
func (f *form) field(name, placeholder, unit string, read func() string, write func(string) error) *line {
	return &f.entry(name, placeholder, unit, read, write).line
}

func (f *form) entry(name, placeholder, unit string, read func() string, write func(string) error) *textRow {
	r := newTextRow(name, placeholder, read, write)
	r.field.unit = unit
	r.field.onWheel = func(e *fyne.ScrollEvent) {
		if f.on.wheel != nil {
			f.on.wheel(e)
		}
	}
	f.add(r)
	return r
}

// text adds a field for plain text.
func (f *form) text(name string, read func() string, set func(string) edit.Operation) *line {
	return f.field(name, "", "", read, func(s string) error { return f.on.desk.Commit(set(s)) })
}

// number adds a field for a number in a unit, "" for none.
func (f *form) number(name, unit string, read func() string, write func(string) error) *line {
	return f.field(name, "", unit, read, write)
}

// length adds a field for a length on the plan.
func (f *form) length(name string, read func() geom.Length, set func(geom.Length) edit.Operation) *line {
	return f.number(name, "m", func() string { return LengthText(read()) }, func(s string) error {
		m, err := q.ParseMetre(s)
		if err != nil {
			return err
		}
		return f.on.desk.Commit(set(geom.Metres(float64(m))))
	})
}

// extent adds a field for a length of which 0 means that it is not known: it is then
// empty with a hint of what is taken instead. With no hint 0 is a length like others.
func (f *form) extent(name string, hint func() string, read func() geom.Length, set func(geom.Length) edit.Operation) *line {
	var r *textRow
	r = f.entry(name, "", "m", func() string {
		h := hint()
		if r.field.PlaceHolder != h {
			r.field.SetPlaceHolder(h)
		}
		if h != "" && read() == 0 {
			return ""
		}
		return LengthText(read())
	}, func(s string) error {
		if s == "" && hint() != "" {
			return f.on.desk.Commit(set(0))
		}
		m, err := q.ParseMetre(s)
		if err != nil {
			return err
		}
		return f.on.desk.Commit(set(geom.Metres(float64(m))))
	})
	return &r.line
}

// heightHint says what the Dusk view takes for the height of ground of a kind, "" for
// nothing.
func heightHint(kind string) string {
	if h := layout.TakenHeight(kind); h > 0 {
		return fmt.Sprintf("not known: %g m taken", h)
	}
	return ""
}

// coordinate adds the two fields for a place on the plan.
func (f *form) coordinates(read func() geom.Point, set func(geom.Point) edit.Operation) {
	f.length("From left", func() geom.Length { return read().X }, func(v geom.Length) edit.Operation {
		return set(geom.Point{X: v, Y: read().Y})
	})
	f.length("From bottom", func() geom.Length { return read().Y }, func(v geom.Length) edit.Operation {
		return set(geom.Point{X: read().X, Y: v})
	})
}

// choice adds a list to choose a key from.
func (f *form) choice(name string, options func() []option, read func() string, set func(string) edit.Operation) *line {
	r := newChoiceRow(name, options, read, func(key string) error { return f.on.desk.Commit(set(key)) })
	f.add(r)
	return &r.line
}

// stock adds a list of stock items, whose names are long.
func (f *form) stock(name string, options func() []option, read func() string, set func(string) edit.Operation) *line {
	r := newChoiceRow(name, options, read, func(key string) error { return f.on.desk.Commit(set(key)) })
	r.widen()
	f.add(r)
	return &r.line
}

// check adds a yes or no.
func (f *form) check(name string, read func() bool, set func(bool) edit.Operation) *line {
	r := newCheckRow(name, read, func(on bool) error { return f.on.desk.Commit(set(on)) })
	f.add(r)
	return &r.line
}

// figure adds a figure of the calculation.
func (f *form) figure(name string, read func() string) *line {
	r := newReadRow(name, read, func() *Tips { return f.on.tips })
	r.about = func(t Tip) Tip { return t.of(f.on.frame) }
	f.add(r)
	return &r.line
}

// maybe adds a field for a quantity that may not be known: empty means
// unknown, which is not zero. The field names the unit of a bare number.
func maybe[T interface {
	~float64
	String() string
}](f *form, name, unit string, parse func(string) (T, error), read func() q.Maybe[T], set func(q.Maybe[T]) edit.Operation) *line {
	return f.field(name, "not known, in "+unit, unit, func() string {
		if m := read(); m.Known {
			return m.Value.String()
		}
		return ""
	}, func(s string) error {
		var m q.Maybe[T]
		if s != "" {
			v, err := parse(s)
			if err != nil {
				return err
			}
			m = q.Some(v)
		}
		return f.on.desk.Commit(set(m))
	})
}

// count adds a field for a number of things that may not be known.
func (f *form) count(name string, read func() q.Maybe[q.Count], set func(q.Maybe[q.Count]) edit.Operation) *line {
	return f.field(name, "not known", "", func() string {
		if m := read(); m.Known {
			return m.Value.String()
		}
		return ""
	}, func(s string) error {
		var m q.Maybe[q.Count]
		if s != "" {
			v, err := q.ParseCount(s)
			if err != nil {
				return err
			}
			m = q.Some(v)
		}
		return f.on.desk.Commit(set(m))
	})
}

// percent adds a field for a ratio that may not be known; hint stands in it while it is empty.
func (f *form) percent(name, hint string, read func() q.Maybe[doc.Ratio], set func(q.Maybe[doc.Ratio]) edit.Operation) *line {
	return f.field(name, hint, "%", func() string {
		if m := read(); m.Known {
			return q.Percent(float64(m.Value))
		}
		return ""
	}, func(s string) error {
		var m q.Maybe[doc.Ratio]
		if s != "" {
			v, err := parsePercent(s)
			if err != nil {
				return err
			}
			m = q.Some(doc.Ratio(v))
		}
		return f.on.desk.Commit(set(m))
	})
}

func parsePercent(s string) (float64, error) {
	text, found := strings.CutSuffix(strings.TrimSpace(s), "%")
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if !found || err != nil || v < 0 || v > 100 {
		return 0, &q.Error{Found: s, Kind: "share from 0 to 100", Units: []string{"%"}}
	}
	return v / 100, nil
}

func parseCount(s string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil || n < 0 {
		return 0, errors.New("found “" + s + "”, expected a whole number")
	}
	return n, nil
}

// LengthText writes a plan length in metres to the millimetre.
func LengthText(l geom.Length) string {
	s := strconv.FormatFloat(l.Metres(), 'f', 3, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		s = "0"
	}
	return s + " m"
}
