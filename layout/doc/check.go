package doc

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// Validate returns everything about the scheme that must not be, as one error
// of *Problem values joined, or nil. Stock keys are not looked up; see
// CheckStock.
func Validate(s *Scheme) error { return joined(Problems(s)) }

func joined(list []*Problem) error {
	errs := make([]error, len(list))
	for i, p := range list {
		errs[i] = p
	}
	return errors.Join(errs...)
}

// Problems returns what Validate joins, in the order of the file.
func Problems(s *Scheme) []*Problem {
	list := append(append(CheckHead(s), checkVisits(s)...), checkIssue(s)...)
	all := make([]Entity, 0, s.Boxes.Len()+s.Lamps.Len()+s.Runs.Len()+64)
	Each(s, func(e Entity, _ Kind) { all = append(all, e) })
	twice := make(chan map[int][]*Problem, 1)
	go func() { twice <- duplicates(s, all) }()
	wrong := map[int][]*Problem{}
	guests := map[ID]*Run{}
	for _, run := range s.Runs.All() {
		if run.With != "" && guests[run.With] == nil {
			guests[run.With] = run
		}
	}
	for i, e := range all {
		if list := check(s, e, guests); len(list) > 0 {
			wrong[i] = list
		}
	}
	same := <-twice
	if len(same)+len(wrong) > 0 {
		for i := range all {
			list = append(append(list, same[i]...), wrong[i]...)
		}
	}
	return list
}

// duplicates returns, by their place, the entities whose id or tag one before
// them has.
func duplicates(s *Scheme, all []Entity) map[int][]*Problem {
	out := map[int][]*Problem{}
	// An id is mostly the tag as well, so both stand in one map; from 1.
	type at struct{ id, tag int32 }
	seen := make(map[string]at, len(all))
	for i, e := range all {
		id, tag := string(e.Key()), e.Label()
		byID := seen[id]
		byTag := byID
		if tag != id {
			byTag = seen[tag]
		}
		if byID.id > 0 || byTag.tag > 0 {
			r := &report{s: s, e: e, id: e.Key()}
			if byID.id > 0 {
				other := all[byID.id-1]
				r.add("id", strconv.Quote(id), "an id of its own ("+entityName(other, KindOfEntity(other))+" has this one)")
			}
			if byTag.tag > 0 {
				like := all[byTag.tag-1]
				r.add("tag", strconv.Quote(tag), "a tag of its own ("+entityName(like, KindOfEntity(like))+" has this one)")
			}
			out[i] = r.list
		}
		n := int32(i + 1)
		if tag == id {
			seen[id] = at{n, n}
			continue
		}
		seen[id], seen[tag] = at{n, byID.tag}, at{byTag.id, n}
	}
	return out
}

func entityName(e Entity, k Kind) string {
	if e.Label() == "" {
		return k.String() + " " + Short(string(e.Key()))
	}
	return k.String() + " " + Short(e.Label())
}

// Check returns what is wrong with one entity in itself and in what it refers
// to; it does not compare its id and tag with those of others.
func Check(s *Scheme, e Entity) []*Problem { return check(s, e, nil) }

func check(s *Scheme, e Entity, inCable map[ID]*Run) []*Problem {
	r := &report{s: s, e: e, id: e.Key(), inCable: inCable}
	r.word("id", string(e.Key()))
	r.word("tag", e.Label())
	if p, ok := PlaceOf(e); ok {
		r.place(p)
	}
	switch e := e.(type) {
	case *Supply:
		r.supply(e)
	case *Box:
		r.box(e)
	case *Lamp:
		r.lamp(e)
	case *Gear:
		r.needText("stock", e.Stock)
		r.degrees("aim", e.Aim)
	case *Source:
		r.needText("stock", e.Stock)
	case *Run:
		r.run(e)
	case *Zone:
		r.zone(e)
	case *Area:
		r.area(e)
	case *Line:
		r.line(e)
	case *Mark:
		r.mark(e)
	case *Dimension:
		r.dimension(e)
	}
	return r.list
}

// known checks a quantity if it is known.
func known[T ~float64](r *report, field string, m q.Maybe[T], low, high float64, unit string) {
	if m.Known {
		r.number(field, float64(m.Value), low, high, unit)
	} else if m.Value != 0 {
		r.add(field, "a value marked unknown", "no value")
	}
}

// temperature checks one in kelvins but tells it in °C.
func temperature(r *report, field string, m q.Maybe[q.Kelvin], low, high float64) {
	if m.Known {
		r.number(field, m.Value.Celsius(), low, high, " °C")
	} else if m.Value != 0 {
		r.add(field, "a value marked unknown", "no value")
	}
}

// CheckHead returns what is wrong outside the entities: title, rule set,
// survey, plan and decisions.
func CheckHead(s *Scheme) []*Problem {
	r := &report{s: s}
	r.text("title", s.Title)
	r.text("author", s.Author)
	r.needText("rules", s.Rules)
	r.text("country", s.Country)
	r.name = "survey"
	temperature(r, "air", s.Survey.Air, -50, 100)
	temperature(r, "ground", s.Survey.Ground, -50, 100)
	known(r, "soil", s.Survey.Soil, 0.1, 10, " K·m/W")
	temperature(r, "conductor", s.Survey.Conductor, -50, 150)
	temperature(r, "test", s.Survey.Test, -50, 100)
	known(r, "waste", s.Survey.Waste, 0, 1, "")
	known(r, "maintenance", s.Survey.Maintenance, 0.1, 1, "")
	known(r, "maintenance_ground", s.Survey.MaintenanceGround, 0.1, 1, "")
	r.oneOfOr("light_zone", s.Survey.LightZone, LightZones)
	r.off("curfew", s.Survey.Curfew, false)
	r.name = "plan"
	if s.Plan.Scale < 1 || s.Plan.Scale > 100000 {
		r.add("scale", "1:"+strconv.Itoa(s.Plan.Scale), "a scale from 1:1 to 1:100000")
	}
	r.span("grid", s.Plan.Grid, geom.Millimetre, 100*geom.Metre)
	r.degrees("north", s.Plan.North.Value)
	r.underlay(s.Plan.Underlay)
	r.running(&s.Running)
	r.prices(s)
	r.lights(s.Lights)
	r.eyes(s.Eyes)
	return append(r.list, checkDecisions(s)...)
}

func (r *report) supply(e *Supply) {
	r.number("nominal", float64(e.Nominal), 1, 1000, " V")
	if e.Earthing < network.EarthingUnknown || e.Earthing > network.TT {
		r.add("earthing", strconv.Itoa(int(e.Earthing)), "TN-S, TN-C-S, TT or unknown")
	}
	known(r, "ze", e.Ze, 0.001, 1e5, " ohm")
	known(r, "electrode", e.Electrode, 0.001, 1e5, " ohm")
	known(r, "measured_zs", e.MeasuredZs, 0.001, 1e5, " ohm")
	known(r, "fault_current", e.FaultCurrent, 1, 1e6, " A")
	known(r, "existing_load", e.ExistingLoad, 0, 1e4, " A")
	known(r, "leakage", e.Leakage, 0, 10, " A")
	known(r, "other_circuits", e.OtherCircuits, 0, 1000, "")
	if n := float64(e.OtherCircuits.Value); n != math.Trunc(n) {
		r.add("other_circuits", plain(n), "a whole number")
	}
	r.text("shares", e.Shares)
	r.text("upstream", e.Upstream)
	r.text("residual", e.Residual)
	r.text("fuse", e.Fuse)
	r.text("indoor.cable", e.Indoor.Cable)
	known(r, "indoor.length", e.Indoor.Length, 0, longest, " m")
	r.text("indoor.method", e.Indoor.Method)
}

func (r *report) lamp(e *Lamp) {
	r.needText("stock", e.Stock)
	if e.Zone != "" {
		if _, ok := r.s.Zones.Get(e.Zone); !ok {
			r.add("zone", strconv.Quote(string(e.Zone)), "a zone of the scheme")
		}
	}
	known(r, "length", e.Length, 0.01, longest, " m")
	r.degrees("aim", e.Aim)
	r.degrees("tilt", e.Tilt)
	r.degrees("spin", e.Spin)
}

func (r *report) run(e *Run) {
	r.text("cable", e.Cable)
	r.end("from", e.From)
	r.end("to", e.To)
	if e.From.On != "" && e.From.On == e.To.On && !roundStrip(r.s, e) {
		r.add("to.on", strconv.Quote(string(e.To.On)), "another place than the run starts from")
	}
	switch n := len(e.Legs); {
	case n == 0:
		r.add("legs", "none", "at least one leg")
	case n > manyLegs:
		r.add("legs", strconv.Itoa(n), fmt.Sprintf("at most %d legs", manyLegs))
	}
	for i, l := range e.Legs {
		r.part, r.nth = "legs", i+1
		r.leg(l, i == len(e.Legs)-1)
		r.part, r.nth = "", 0
	}
	r.number("slack", float64(e.Slack), 0, longest, " m")
	known(r, "waste", e.Waste, 0, 1, "")
	known(r, "cut", e.Cut, 0, longest, " m")
	if e.With != "" {
		if other, ok := r.s.Runs.Get(e.With); !ok || e.With == e.ID || other.With != "" {
			r.add("with", strconv.Quote(string(e.With)), "the id of another run that has a cable of its own")
		}
		if other := r.guest(e.ID); other != nil {
			r.add("with", strconv.Quote(string(e.With)), "nothing: run "+Short(other.Tag)+" lies in its cable")
		}
	}
}

// guest returns the first run whose cores lie in the cable of a run, nil for
// none.
func (r *report) guest(id ID) *Run {
	if r.inCable != nil {
		return r.inCable[id]
	}
	for _, other := range r.s.Runs.All() {
		if other.With == id {
			return other
		}
	}
	return nil
}

// roundStrip reports whether a run leads from one end of a strip to the other:
// it brings the supply of the near end to the far one, so that both are fed.
func roundStrip(s *Scheme, e *Run) bool {
	return KindOf(s, e.From.On) == LampKind && (e.From.Side == FarEnd) != (e.To.Side == FarEnd)
}

func (r *report) leg(l Leg, last bool) {
	if !last {
		r.point("to", l.To)
	}
	if l.Support < network.Clipped || l.Support > network.Indoors {
		r.add("support", strconv.Itoa(int(l.Support)), "a support")
	}
	r.span("depth", l.Depth, 0, -deepest)
	r.span("height", l.Height, deepest, highest)
	r.text("method", l.Method)
	r.number("group", float64(l.Group), 0, 100, "")
	if l.Hole != "" {
		r.oneOf("hole", l.Hole, Holes)
	}
}

func (r *report) box(e *Box) {
	r.needText("stock", e.Stock)
	if e.Fill != "" {
		r.oneOf("fill", e.Fill, BoxFills)
	}
	r.number("top_entries", float64(e.TopEntries), 0, manyEntries, "")
	r.number("open_entries", float64(e.Open), 0, manyEntries, "")
}

func (r *report) end(field string, e End) {
	r.part = field
	defer func() { r.part = "" }()
	known(r, "tail", e.Tail, 0, longest, " m")
	if e.Gland != "" {
		r.oneOf("gland", e.Gland, Glands)
	}
	if e.On == "" {
		r.point("at", e.At)
		if e.Side != AnySide {
			r.add("side", "a side", "none: the end is in the air")
		}
		return
	}
	kind := KindOf(r.s, e.On)
	if !kind.Joinable() {
		r.add("on", strconv.Quote(string(e.On)), "the id of a supply point, box, lamp, gear or source")
	}
	if e.Side == FarEnd && (kind == LampKind || kind == NoKind) {
		return
	}
	if e.Side < AnySide || e.Side > Secondary || e.Side != AnySide && kind != SourceKind && kind != NoKind {
		r.add("side", "a side", fmt.Sprintf("none: %q is no source", e.On))
	}
}

func (r *report) zone(e *Zone) {
	r.text("name", e.Name)
	r.number("number", float64(e.Number), 0, 10000, "")
	if e.Colour != "" {
		r.oneOf("colour", e.Colour, ZoneColours)
	}
	if _, ok := r.s.Gear.Get(e.Control); !ok && e.Control != "" {
		r.add("control", strconv.Quote(string(e.Control)), "the id of gear")
	}
	r.off("off", e.Off, true)
}

func (r *report) path(field string, ps []geom.Point, least int) {
	if len(ps) < least || len(ps) > manyLegs {
		r.add(field, strconv.Itoa(len(ps))+" points", fmt.Sprintf("from %d to %d points", least, manyLegs))
	}
	for i, p := range ps {
		if max(p.X, p.Y) > Far || min(p.X, p.Y) < -Far {
			r.point(fmt.Sprintf("%s[%d]", field, i+1), p)
		}
	}
}

func (r *report) area(e *Area) {
	r.oneOf("kind", e.Kind, AreaKinds)
	r.text("name", e.Name)
	r.path("ring", e.Ring, 3)
	r.span("dig_depth", e.DigDepth, 0, -deepest)
	r.span("height", e.Height, 0, highest)
	r.oneOfOr("use", e.Use, LightUses)
}

func (r *report) line(e *Line) {
	r.oneOf("kind", e.Kind, LineKinds)
	r.text("name", e.Name)
	r.path("path", e.Path, 2)
	r.span("height", e.Height, 0, highest)
	r.oneOfOr("owner", e.Owner, LineOwners)
	r.oneOfOr("use", e.Use, LightUses)
}

// oneOfOr is oneOf for what may be left out.
func (r *report) oneOfOr(field, text string, list []string) {
	if text != "" {
		r.oneOf(field, text, list)
	}
}

func (r *report) mark(e *Mark) {
	r.oneOf("kind", e.Kind, MarkKinds)
	r.text("name", e.Name)
	r.span("radius", e.Radius, 0, 100*geom.Metre)
	r.span("crown", e.Crown, 0, 100*geom.Metre)
	r.span("crown_top", e.CrownTop, 0, 100*geom.Metre)
	r.span("crown_base", e.CrownBase, 0, 100*geom.Metre)
	if e.CrownTop > 0 && e.CrownBase >= e.CrownTop {
		r.add("crown_base", Written(e.CrownBase), "less than crown_top, "+Written(e.CrownTop))
	}
	known(r, "crown_pass", e.CrownPass, 0, 1, "")
	r.oneOfOr("owner", e.Owner, LineOwners)
}

func checkDecisions(s *Scheme) []*Problem {
	r := &report{s: s}
	type about struct {
		code string
		id   ID
	}
	seen := map[about]bool{}
	for i, d := range s.Decisions {
		r.name = fmt.Sprintf("decision %d", i+1)
		r.needText("code", d.Code)
		if d.Subject != "" && KindOf(s, d.Subject) == NoKind {
			r.add("subject", strconv.Quote(string(d.Subject)), "the id of an entity")
		}
		if seen[about{d.Code, d.Subject}] {
			r.add("code", strconv.Quote(d.Code), "one decision about a finding")
		}
		seen[about{d.Code, d.Subject}] = true
		r.text("by", d.By)
		r.text("on", d.On)
		r.needText("reason", d.Reason)
	}
	return r.list
}
