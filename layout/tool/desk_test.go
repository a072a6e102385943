package tool

import (
	"fmt"
	"strings"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// fakeDesk keeps a history of schemes and publishes to one session.
type fakeDesk struct {
	session *Session
	stock   doc.Stock
	history []*doc.Scheme // the last is current
	names   []string
	preview *doc.Scheme
}

// stockForTests has one lamp of each voltage and one of everything else.
func stockForTests() doc.Stock {
	return doc.Stock{
		Lamps: []doc.LampStock{
			{Key: "low", Load: network.Load{Nominal: 12}, Height: 200 * geom.Millimetre},
			{Key: "high", Load: network.Load{Nominal: 230}},
			{Key: "spot", Kind: "spike", Beam: 36, Load: network.Load{Nominal: 12}, Height: 200 * geom.Millimetre},
		},
		Boxes:   []doc.BoxStock{{Key: "box"}},
		Gear:    []doc.GearStock{{Key: "gear"}},
		Sources: []doc.SourceStock{{Key: "source"}},
	}
}

// newSession returns a session on a scheme with the Select tool in hand; ids
// of what is drawn count up from n1.
func newSession(s *doc.Scheme) (*Session, *fakeDesk, *Defaults) {
	n := 0
	d := &Defaults{
		Lamp: "low", Box: "box", Gear: "gear", Source: "source", Cable: "mains", LowCable: "thin",
		Support: network.Buried, Depth: 600 * geom.Millimetre, Supply: doc.Supply{Nominal: q.Volt(230)}, Ground: NewGround(),
		NewID: func() doc.ID { n++; return doc.ID(fmt.Sprintf("n%d", n)) },
	}
	desk := &fakeDesk{stock: stockForTests(), history: []*doc.Scheme{s}}
	desk.session = NewSession(desk, NewSelect(d))
	desk.publish()
	return desk.session, desk, d
}

func (d *fakeDesk) current() *doc.Scheme { return d.history[len(d.history)-1] }

func (d *fakeDesk) publish() {
	s := d.current()
	if d.preview != nil {
		s = d.preview
	}
	d.session.Publish(s, &d.stock, nil, d.preview != nil)
}

func (d *fakeDesk) Preview(op edit.Operation) error {
	s, err := op.Apply(d.current())
	if err == nil {
		d.preview = s
		d.publish()
	}
	return err
}

func (d *fakeDesk) Commit(op edit.Operation) error {
	s, err := op.Apply(d.current())
	d.preview = nil
	if err == nil && s != d.current() {
		d.names = append(d.names, edit.Title(op, d.current()))
		d.history = append(d.history, s)
	}
	d.publish()
	return err
}

func (d *fakeDesk) Cancel() {
	d.preview = nil
	d.publish()
}

func (d *fakeDesk) undo() {
	if n := len(d.history); n > 1 {
		d.history, d.names, d.preview = d.history[:n-1], d.names[:n-2], nil
	}
	d.publish()
}

// readScheme reads the one-line notation of the tests:
//
//	lamp L1 5,0 low
//	run R1 SP1 2,1 S1.in
func readScheme(text string) (*doc.Scheme, error) {
	s := doc.New("uk-18")
	s.Plan.Grid = 100 * geom.Millimetre
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		f := strings.Fields(line)
		if len(f) < 3 {
			continue
		}
		id, tag := doc.ID(strings.ToLower(f[1])), f[1]
		at, err := readPoint(f[2])
		if err != nil && f[0] != "run" {
			return nil, fmt.Errorf("%q: %w", line, err)
		}
		stock := ""
		if len(f) > 3 {
			stock = f[3]
		}
		place := doc.Place{At: at}
		switch f[0] {
		case "supply":
			s.Supplies = s.Supplies.With(&doc.Supply{ID: id, Tag: tag, Place: place, Nominal: 230})
		case "box":
			s.Boxes = s.Boxes.With(&doc.Box{ID: id, Tag: tag, Place: place, Stock: stock})
		case "lamp":
			l := &doc.Lamp{ID: id, Tag: tag, Place: place, Stock: stock, Lock: len(f) == 5}
			if len(f) > 5 { // lamp L1 5,0 spot 2.1 90 -45: height, aim, tilt
				var h float64
				if _, err := fmt.Sscan(strings.Join(f[4:], " "), &h, &l.Aim, &l.Tilt); err != nil {
					return nil, fmt.Errorf("%q: %w", line, err)
				}
				l.Place.Height = geom.Length(h * float64(geom.Metre))
			}
			s.Lamps = s.Lamps.With(l)
		case "gear":
			s.Gear = s.Gear.With(&doc.Gear{ID: id, Tag: tag, Place: place, Stock: stock})
		case "source":
			s.Sources = s.Sources.With(&doc.Source{ID: id, Tag: tag, Place: place, Stock: stock})
		case "mark":
			s.Marks = s.Marks.With(&doc.Mark{ID: id, Tag: tag, Kind: "tree", Place: place})
		case "line":
			s.Lines = s.Lines.With(&doc.Line{ID: id, Tag: tag, Kind: "wall", Path: readPoints(f[2:])})
		case "area":
			s.Areas = s.Areas.With(&doc.Area{ID: id, Tag: tag, Kind: "lawn", Ring: readPoints(f[2:])})
		case "run":
			r := &doc.Run{ID: id, Tag: tag, Cable: "mains", From: readEnd(f[2]), To: readEnd(f[len(f)-1])}
			for _, p := range readPoints(f[3 : len(f)-1]) {
				r.Legs = append(r.Legs, doc.Leg{To: p, Support: network.Buried, Depth: 600 * geom.Millimetre})
			}
			r.Legs = append(r.Legs, doc.Leg{Support: network.Buried, Depth: 600 * geom.Millimetre})
			s.Runs = s.Runs.With(r)
		default:
			return nil, fmt.Errorf("%q: unknown entity", line)
		}
	}
	return s, nil
}

func readPoint(s string) (geom.Point, error) {
	var x, y float64
	if _, err := fmt.Sscanf(s, "%g,%g", &x, &y); err != nil {
		return geom.Point{}, fmt.Errorf("found %q, expected a point such as 1.5,2", s)
	}
	return geom.Pt(x, y), nil
}

func readPoints(fields []string) []geom.Point {
	var out []geom.Point
	for _, f := range fields {
		if p, err := readPoint(f); err == nil {
			out = append(out, p)
		}
	}
	return out
}

func readEnd(s string) doc.End {
	if p, err := readPoint(s); err == nil {
		return doc.End{At: p}
	}
	tag, side, _ := strings.Cut(s, ".")
	e := doc.End{On: doc.ID(strings.ToLower(tag))}
	switch side {
	case "in":
		e.Side = doc.Primary
	case "out":
		e.Side = doc.Secondary
	}
	return e
}

// writeScheme writes a scheme in the notation of readScheme.
func writeScheme(s *doc.Scheme) string {
	var b strings.Builder
	doc.Each(s, func(e doc.Entity, k doc.Kind) {
		switch e := e.(type) {
		case *doc.Supply:
			fmt.Fprintf(&b, "supply %s %s\n", e.Tag, point(e.Place.At))
		case *doc.Box:
			fmt.Fprintf(&b, "box %s %s %s\n", e.Tag, point(e.Place.At), e.Stock)
		case *doc.Lamp:
			fmt.Fprintf(&b, "lamp %s %s %s%s\n", e.Tag, point(e.Place.At), e.Stock, aimText(e))
		case *doc.Gear:
			fmt.Fprintf(&b, "gear %s %s %s\n", e.Tag, point(e.Place.At), e.Stock)
		case *doc.Source:
			fmt.Fprintf(&b, "source %s %s %s\n", e.Tag, point(e.Place.At), e.Stock)
		case *doc.Dimension:
			sh := doc.ShapeOf(s, e)
			fmt.Fprintf(&b, "dimension %s %s %s %s reads %s, off %s\n", e.Tag, e.Kind, anchorText(s, e.From), anchorText(s, e.To), sh.Read(), doc.Written(e.Offset))
		case *doc.Mark:
			fmt.Fprintf(&b, "mark %s %s%s\n", e.Tag, point(e.Place.At), groundFacts(e.Kind, "tree", e.Radius, e.Crown))
		case *doc.Line:
			fmt.Fprintf(&b, "line %s%s%s\n", e.Tag, points(e.Path), groundFacts(e.Kind, "wall", e.Height))
		case *doc.Area:
			fmt.Fprintf(&b, "area %s%s%s\n", e.Tag, points(e.Ring), groundFacts(e.Kind, "lawn", e.DigDepth, e.Height))
		case *doc.Run:
			path := doc.RunPath(s, e)
			fmt.Fprintf(&b, "run %s %s%s %s %s\n", e.Tag, end(s, e.From), points(path[1:len(path)-1]), end(s, e.To), e.Cable)
		}
	})
	for _, e := range s.Eyes {
		fmt.Fprintf(&b, "eye %s %s looks %g\n", e.Tag, point(e.Place.At), e.Bearing)
	}
	return b.String()
}

// groundFacts writes the kind, when it is not the one that readScheme gives,
// and the lengths that are known, in metres.
func groundFacts(kind, usual string, facts ...geom.Length) string {
	out := ""
	if kind != usual {
		out = " " + kind
	}
	for _, l := range facts {
		if l != 0 {
			out += fmt.Sprintf(" %gm", l.Metres())
		}
	}
	return out
}

// aimText writes where a lamp points that was aimed.
func aimText(l *doc.Lamp) string {
	if !l.Aimed() {
		return ""
	}
	return fmt.Sprintf(" %gm aim %.4g tilt %.4g", l.Place.Height.Metres(), l.Aim, l.Tilt)
}

func anchorText(s *doc.Scheme, a doc.Anchor) string {
	if a.On == "" {
		return point(a.At)
	}
	return fmt.Sprintf("%s.%d", doc.TagOf(s, a.On), a.Corner)
}

func point(p geom.Point) string {
	return fmt.Sprintf("%g,%g", p.X.Metres(), p.Y.Metres())
}

func points(ps []geom.Point) string {
	out := ""
	for _, p := range ps {
		out += " " + point(p)
	}
	return out
}

func end(s *doc.Scheme, e doc.End) string {
	if e.On == "" {
		return point(e.At)
	}
	return doc.TagOf(s, e.On) + [...]string{"", ".in", ".out"}[e.Side]
}
