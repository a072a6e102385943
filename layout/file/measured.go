package file

import (
	"bytes"
	"reflect"
	"strconv"

	"duskwire/calc/judge"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// testWords are the tests as a file names them.
var testWords = func() (out []string) {
	for _, t := range judge.Tests {
		out = append(out, t.Key())
	}
	return out
}()

// visits reads the days of testing with what was read.
func (r *reader) visits(list []node) []doc.Visit {
	if len(list) > doc.ManyVisits { // before any is read
		list[doc.ManyVisits].fail(strconv.Itoa(len(list))+" visits", "at most "+strconv.Itoa(doc.ManyVisits))
		return nil
	}
	var out []doc.Visit
	for i, n := range list {
		name := "visit " + strconv.Itoa(i+1)
		o := n.within(name).object()
		v := doc.Visit{
			On: o.text("on"), By: o.text("by"),
			Temperature: maybe(o, "temperature", q.ParseCelsius), Leads: maybe(o, "leads", exact(q.ParseOhm)),
			Instrument: o.text("instrument"), Remark: o.text("remark"),
		}
		readings := o.list("readings")
		if len(readings) > doc.ManyReadings {
			readings[doc.ManyReadings].fail(strconv.Itoa(len(readings))+" readings", "at most "+strconv.Itoa(doc.ManyReadings))
			return out
		}
		for _, n := range readings {
			v.Readings = append(v.Readings, reading(n.object()))
		}
		r.spots[spot{part: name}] = o.node
		o.done()
		out = append(out, v)
	}
	return out
}

func reading(o *object) doc.Reading {
	e := doc.Reading{}
	e.On = doc.ID(o.needText("of"))
	known := len(o.log.list)
	word := o.need("test", oneOf(testWords)).word(testWords)
	if len(o.log.list) == known {
		e.Test = judge.TestOf(testWords[word])
	}
	e.Part, e.Remark = o.text("part"), o.text("remark")
	n := o.need("reads", "a reading such as 0.34 Ω, >299 MΩ or OL")
	if s, ok := n.scalar("a reading"); ok && e.Test != judge.NoTest {
		v, err := judge.Parse(e.Test, s)
		if err != nil {
			n.fail(n.found(), err.(*judge.Error).Expected)
		}
		e.Value = v
	}
	o.done()
	return e
}

func (w *writer) visits(list []doc.Visit) {
	if len(list) > 0 {
		w.line(0, "tests", "")
	}
	for i := range list {
		v := &list[i]
		w.dash = true
		w.line(2, "on", written(v.On)) // always there: an item needs a first field
		w.text(2, "by", v.By)
		if v.Temperature.Known {
			w.line(2, "temperature", celsius(v.Temperature.Value))
		}
		unknown(w, "leads", v.Leads, "ohm")
		w.text(2, "instrument", v.Instrument)
		w.text(2, "remark", v.Remark)
		if len(v.Readings) > 0 {
			w.line(2, "readings", "")
		}
		for k := range v.Readings {
			e := &v.Readings[k]
			var f flow
			f.text("of", string(e.On))
			f.text("test", e.Test.Key())
			f.text("part", e.Part)
			f.text("reads", e.Value.Text(e.Test))
			f.text("remark", e.Remark)
			w.WriteString("      - " + f.String() + "\n")
		}
	}
}

// issue reads the design as it was issued. Its entities have the ids of those of
// the scheme, so it has a reader of its own; what is still as it was is shared
// with the scheme.
func (r *reader) issue(n node, now *doc.Scheme) *doc.Issue {
	if !n.present() {
		return nil
	}
	o := n.within("issued").object()
	own := newReader(r.log)
	was := &doc.Scheme{Title: o.text("title"), Rules: o.text("rules"), Plan: doc.New("").Plan}
	was.Survey = own.survey(o.get("survey").within("survey as issued"))
	was.Supplies = entities(own, o, "supplies", doc.SupplyKind, own.supply)
	was.Boxes = entities(own, o, "boxes", doc.BoxKind, box)
	was.Lamps = entities(own, o, "lamps", doc.LampKind, lamp)
	was.Gear = entities(own, o, "gear", doc.GearKind, gear)
	was.Sources = entities(own, o, "sources", doc.SourceKind, source)
	was.Runs = entities(own, o, "runs", doc.RunKind, own.run)
	was.Zones = entities(own, o, "zones", doc.ZoneKind, zone)
	e := &doc.Issue{On: o.text("on"), By: o.text("by"), Scheme: was}
	r.spots[spot{part: "issued"}] = o.node
	o.done()
	was.Supplies, was.Boxes, was.Lamps = shared(was.Supplies, now.Supplies), shared(was.Boxes, now.Boxes), shared(was.Lamps, now.Lamps)
	was.Gear, was.Sources = shared(was.Gear, now.Gear), shared(was.Sources, now.Sources)
	was.Runs, was.Zones = shared(was.Runs, now.Runs), shared(was.Zones, now.Zones)
	return e
}

// shared returns the set with the entities of another in it where they are equal,
// and the other itself when all are.
func shared[E doc.Entity](was, now doc.Set[E]) doc.Set[E] {
	out := was.Map(func(e E) E {
		if is, ok := now.Get(e.Key()); ok && reflect.DeepEqual(is, e) {
			return is
		}
		return e
	})
	a, b := out.All(), now.All()
	if len(a) != len(b) {
		return out
	}
	for i := range a {
		if any(a[i]) != any(b[i]) {
			return out
		}
	}
	return now
}

// issue writes the design as issued, its sections one step in.
func (w *writer) issue(e *doc.Issue) {
	if e == nil {
		return
	}
	w.line(0, "issued", "")
	in := &writer{}
	in.line(0, "on", written(e.On))
	in.text(0, "by", e.By)
	in.text(0, "title", e.Scheme.Title)
	in.text(0, "rules", e.Scheme.Rules)
	in.survey(e.Scheme.Survey)
	in.sections(e.Scheme)
	for line := range bytes.Lines(in.Bytes()) {
		w.WriteString("  ")
		w.Write(line)
	}
}
