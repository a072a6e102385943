package file

import (
	"slices"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// ReadScheme reads a scheme file. name is only for messages; stock is the
// stock book whose keys the scheme may use beside those of its own stock
// section. rules are the keys of the rule sets it may name; without any, the
// name is taken as it stands. The error is of type *Error and the first in the
// order of the file.
func ReadScheme(name string, data []byte, stock doc.Stock, rules ...string) (*doc.Scheme, error) {
	return readScheme(name, string(data), func() (doc.Stock, []string) { return stock, rules })
}

// library gives the stock book and the keys of the rule sets. It may have to
// wait for them, so it is only asked once they are needed.
type library func() (stock doc.Stock, rules []string)

func readScheme(name, text string, lib library) (*doc.Scheme, error) {
	if s, ok := quickScheme(name, text, lib); ok {
		return s, nil
	}
	return slowScheme(name, []byte(text), lib)
}

// slowScheme reads a scheme with the YAML library.
func slowScheme(name string, data []byte, lib library) (*doc.Scheme, error) {
	top, err := parseYAML(name, data)
	if err != nil {
		return nil, err
	}
	v, err := readVersion(top)
	if err != nil {
		return nil, err
	}
	if err := migrate(top.y, v, version, migrations); err != nil {
		return nil, &Error{File: name, Line: 1, Field: "duskwire", Found: err.Error(), Expected: "a file of version " + strconv.Itoa(v)}
	}
	r := newReader(top.log)
	s := r.scheme(top.object(), lib)
	if err := top.log.first(); err != nil {
		return nil, err
	}
	stock, _ := lib()
	r.check(s, stock)
	if err := top.log.first(); err != nil {
		return nil, err
	}
	return s, nil
}

// spot names an entity, or a part of the head when id is "".
type spot struct {
	id   doc.ID
	part string
}

// reader builds a scheme and remembers where everything was.
type reader struct {
	log   *problems
	spots map[spot]node
	ids   map[doc.ID]node

	declined bool // the quick way has to give up
}

func newReader(log *problems) *reader {
	return &reader{log: log, spots: map[spot]node{}, ids: map[doc.ID]node{}}
}

// lineOf returns the line of a field such as "legs[2].depth", or of the
// nearest thing around it that is in the file.
func (r *reader) lineOf(id doc.ID, entity, field string) int {
	at := spot{id: id}
	if id == "" {
		at.part = entity
	}
	n := r.spots[at]
	for _, name := range strings.Split(strings.ReplaceAll(field, "[", ".["), ".") {
		c, ok := n.child(name)
		if !ok {
			break
		}
		n = c
	}
	return max(1, n.line())
}

// child returns the field of a map, or the item "[2]" of a list.
func (n node) child(name string) (node, bool) {
	if n.y == nil {
		return n, false
	}
	switch n.y.shape {
	case mapping:
		for i := 0; i+1 < len(n.y.items); i += 2 {
			if n.y.items[i].text == name {
				return node{y: &n.y.items[i+1]}, true
			}
		}
	case sequence:
		i, err := strconv.Atoi(strings.Trim(name, "[]"))
		if err == nil && i >= 1 && i <= len(n.y.items) {
			return node{y: &n.y.items[i-1]}, true
		}
	}
	return n, false
}

// check reports what is well formed but refers to nothing or lies outside
// what a scheme may hold.
func (r *reader) check(s *doc.Scheme, stock doc.Stock) {
	var first *Error
	var of *doc.Problem
	for _, p := range append(doc.Problems(s), doc.CheckStock(s, stock)...) {
		e := &Error{
			File: r.log.file, Line: r.lineOf(p.ID, p.Entity, p.Field),
			Entity: p.Entity, Field: p.Field, Found: p.Found, Expected: p.Expected,
		}
		if first == nil || e.Line < first.Line {
			first, of = e, p
		}
	}
	if first == nil {
		return
	}
	// Only the one that is told is compared with every word there is: a file
	// of thousands of wrong words would take minutes otherwise.
	if word, err := strconv.Unquote(of.Found); err == nil {
		first.Hint = nearest(word, candidates(s, stock, of))
	}
	r.log.list = append(r.log.list, first)
}

// candidates returns the words that a mistyped reference may have meant.
func candidates(s *doc.Scheme, stock doc.Stock, p *doc.Problem) []string {
	var out []string
	stock = stock.Over(s.Stock)
	kind := doc.KindOf(s, p.ID)
	switch field := p.Field; {
	case field == "cable" || field == "indoor.cable":
		for _, c := range stock.Cables {
			out = append(out, c.Key)
		}
	case field == "upstream" || field == "residual" || field == "fuse":
		for _, d := range stock.Devices {
			out = append(out, d.Key)
		}
	case field == "lamp":
		out = stock.Keys(doc.LampKind)
	case field == "stock":
		out = stock.Keys(kind)
	case field == "zone":
		for _, z := range s.Zones.All() {
			out = append(out, string(z.ID))
		}
	case field == "with":
		for _, run := range s.Runs.All() {
			out = append(out, string(run.ID))
		}
	case field == "control":
		for _, g := range s.Gear.All() {
			out = append(out, string(g.ID))
		}
	case field == "from.on" || field == "to.on":
		measures := kind == doc.DimensionKind
		doc.Each(s, func(e doc.Entity, k doc.Kind) {
			if k.Joinable() || measures && len(doc.Corners(s, e)) > 0 {
				out = append(out, string(e.Key()))
			}
		})
	case field == "kind" && kind == doc.AreaKind:
		out = doc.AreaKinds
	case field == "kind" && kind == doc.LineKind:
		out = doc.LineKinds
	case field == "kind" && kind == doc.MarkKind:
		out = doc.MarkKinds
	case field == "kind" && kind == doc.DimensionKind:
		out = doc.DimensionKinds
	case field == "fill":
		out = doc.BoxFills
	case field == "from.gland" || field == "to.gland":
		out = doc.Glands
	case field == "colour":
		out = doc.ZoneColours
	}
	return out
}

func (r *reader) scheme(top *object, lib library) *doc.Scheme {
	s := &doc.Scheme{}
	top.get("duskwire")
	s.Title = top.text("title")
	s.Author = top.text("author")
	s.Rules = top.needText("rules")
	s.Country = top.text("country")
	r.spots[spot{}] = top.node
	s.Survey = r.survey(top.get("survey").within("survey"))
	s.Plan = r.plan(top.get("plan").within("plan"))
	s.Plan.Underlay = r.underlay(top.get("picture").within("picture"))
	r.sections(s, top)
	s.Decisions = r.decisions(top.list("decisions"))
	s.Visits = r.visits(top.list("tests"))
	s.Issue = r.issue(top.get("issued"), s)
	stock, rules := lib()
	if s.Rules != "" && len(rules) > 0 && !slices.Contains(rules, s.Rules) {
		top.get("rules").fail(strconv.Quote(s.Rules), "one of the rule sets "+strings.Join(rules, ", "))
	}
	if n := top.get("stock"); n.present() {
		s.Stock = readOwnStock(n, stock)
		s.StockText = render(n)
	}
	if n := top.get("prices"); n.present() {
		s.Prices = readPrices(top.list("prices"), stock.Over(s.Stock))
		r.spots[spot{part: "prices"}] = n
	}
	if n := top.get("price_list"); n.present() {
		s.List = readPriceList(n.within("price_list"), stock.Over(s.Stock))
		r.spots[spot{part: "price_list"}] = n
	}
	if n := top.get("running"); n.present() {
		s.Running = readRunning(n.within("running"))
		r.spots[spot{part: "running"}] = n
	}
	s.Lights = r.lights(top.list("photometry"))
	s.Eyes = r.eyes(top.list("eyes"))
	top.done()
	return s
}

// sections reads the entities.
func (r *reader) sections(s *doc.Scheme, top *object) {
	s.Supplies = entities(r, top, "supplies", doc.SupplyKind, r.supply)
	s.Boxes = entities(r, top, "boxes", doc.BoxKind, box)
	s.Lamps = entities(r, top, "lamps", doc.LampKind, lamp)
	s.Gear = entities(r, top, "gear", doc.GearKind, gear)
	s.Sources = entities(r, top, "sources", doc.SourceKind, source)
	s.Runs = entities(r, top, "runs", doc.RunKind, r.run)
	s.Zones = entities(r, top, "zones", doc.ZoneKind, zone)
	s.Areas = entities(r, top, "areas", doc.AreaKind, area)
	s.Lines = entities(r, top, "lines", doc.LineKind, line)
	s.Marks = entities(r, top, "marks", doc.MarkKind, mark)
	s.Dimensions = entities(r, top, "dimensions", doc.DimensionKind, dimension)
}

func (r *reader) survey(n node) doc.Survey {
	o := n.object()
	v := doc.Survey{
		Air:       maybe(o, "air", q.ParseCelsius),
		Ground:    maybe(o, "ground", q.ParseCelsius),
		Soil:      maybe(o, "soil", q.ParseSoil),
		Conductor: maybe(o, "conductor", q.ParseCelsius),
		Test:      maybe(o, "test", q.ParseCelsius),
		Waste:     maybeRatio(o, "waste"),
		LightZone: o.text("light_zone"),

		Maintenance:       maybeFactor(o, "maintenance"),
		MaintenanceGround: maybeFactor(o, "maintenance_ground"),
		Curfew:            offTime(o, "curfew", `a time such as "23:00"`),
	}
	r.spots[spot{part: "survey"}] = o.node
	o.done()
	return v
}

// maybeFactor reads a factor for age and dirt.
func maybeFactor(o *object, key string) q.Maybe[doc.Ratio] {
	if n := o.get(key); n.present() {
		return q.Some(doc.Ratio(n.number(0.1, 1)))
	}
	return q.Maybe[doc.Ratio]{}
}

func maybeRatio(o *object, key string) q.Maybe[doc.Ratio] {
	if n := o.get(key); n.present() {
		return q.Some(doc.Ratio(n.ratio()))
	}
	return q.Maybe[doc.Ratio]{}
}

func (r *reader) plan(n node) doc.Plan {
	o := n.object()
	v := doc.New("").Plan
	if f := o.get("scale"); f.present() {
		v.Scale = scale(f)
	}
	if f := o.get("grid"); f.present() {
		v.Grid = f.length()
	}
	if f := o.get("north"); f.present() {
		v.North = q.Some(f.angle())
	}
	v.Checked = o.flag("checked")
	r.spots[spot{part: "plan"}] = o.node
	o.done()
	return v
}

// scale reads "1:50".
func scale(n node) int {
	const expected = `a scale such as "1:50"`
	s, ok := n.scalar(expected)
	if !ok {
		return 0
	}
	number, cut := strings.CutPrefix(s, "1:")
	v, err := strconv.Atoi(number)
	if !cut || err != nil {
		n.fail(n.found(), expected)
		return 0
	}
	return v
}

func (r *reader) decisions(list []node) []doc.Decision {
	var out []doc.Decision
	for i, n := range list {
		name := "decision " + strconv.Itoa(i+1)
		o := n.within(name).object()
		out = append(out, doc.Decision{
			Code:    o.needText("code"),
			Subject: doc.ID(o.text("subject")),
			By:      o.text("by"),
			On:      o.text("on"),
			Reason:  o.needText("reason"),
		})
		r.spots[spot{part: name}] = o.node
		o.done()
	}
	return out
}
