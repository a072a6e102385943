package file

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// WriteScheme returns the scheme as the text of a file, always the same text
// for the same scheme: fixed order of fields, one entity a block, nothing for
// what is unknown or has its usual value. Reading it gives an equal scheme.
// A scheme that could not be read again is refused.
func WriteScheme(s *doc.Scheme) ([]byte, error) {
	if list := doc.Problems(s); len(list) > 0 {
		return nil, fmt.Errorf("this scheme cannot be written: %w", list[0])
	}
	if s.StockText == "" && hasStock(s.Stock) {
		return nil, fmt.Errorf("this scheme cannot be written: stock: found items without their text, expected both")
	}
	w := &writer{}
	w.line(0, "duskwire", strconv.Itoa(version))
	w.text(0, "title", s.Title)
	w.text(0, "author", s.Author)
	w.text(0, "rules", s.Rules)
	w.text(0, "country", s.Country)
	w.survey(s.Survey)
	w.plan(s.Plan)
	w.underlay(s.Plan.Underlay)
	w.sections(s)
	w.decisions(s.Decisions)
	w.visits(s.Visits)
	w.issue(s.Issue)
	w.prices(s)
	w.lights(s.Lights)
	w.eyes(s.Eyes)
	if s.StockText != "" {
		w.WriteString("stock:" + s.StockText)
	}
	if w.Len() > maxBytes { // it could not be opened again
		return nil, fmt.Errorf("this scheme cannot be written: found %d MB, expected at most %d", (w.Len()+1<<20-1)>>20, maxBytes>>20)
	}
	return w.Bytes(), nil
}

// sections writes the entities.
func (w *writer) sections(s *doc.Scheme) {
	section(w, "supplies", s.Supplies, w.supply)
	section(w, "boxes", s.Boxes, w.box)
	section(w, "lamps", s.Lamps, w.lamp)
	section(w, "gear", s.Gear, func(e *doc.Gear) { w.item(e, e.Place, e.Stock); w.angle("aim", e.Aim) })
	section(w, "sources", s.Sources, func(e *doc.Source) { w.item(e, e.Place, e.Stock) })
	section(w, "runs", s.Runs, w.run)
	section(w, "zones", s.Zones, w.zone)
	section(w, "areas", s.Areas, w.area)
	section(w, "lines", s.Lines, w.lineEntity)
	section(w, "marks", s.Marks, w.mark)
	section(w, "dimensions", s.Dimensions, w.dimension)
}

func hasStock(s doc.Stock) bool {
	return len(s.Lamps)+len(s.Boxes)+len(s.Sources)+len(s.Gear)+len(s.Devices)+len(s.Cables) > 0
}

// writer collects the lines. depth 0 is the top level, 2 a field of an entity.
type writer struct {
	bytes.Buffer
	dash bool // the next line starts an item of a list
}

// line writes one field.
func (w *writer) line(depth int, key, value string) {
	indent := strings.Repeat("  ", depth)
	if w.dash {
		indent, w.dash = strings.TrimSuffix(indent, "  ")+"- ", false
	}
	w.WriteString(indent + key + ":")
	if value != "" {
		w.WriteString(" " + value)
	}
	w.WriteString("\n")
}

// text writes a text unless it is empty.
func (w *writer) text(depth int, key, s string) {
	if s != "" {
		w.line(depth, key, written(s))
	}
}

// length writes a length in millimetres unless it is 0.
func (w *writer) length(key string, l geom.Length) {
	if l != 0 {
		w.line(2, key, millimetres(l))
	}
}

// unknown writes a quantity if it is known.
func unknown[T ~float64](w *writer, key string, m q.Maybe[T], unit string) {
	if m.Known {
		w.line(2, key, amount(m.Value, unit))
	}
}

func section[E doc.Entity](w *writer, name string, set doc.Set[E], write func(E)) {
	if set.Len() == 0 {
		return
	}
	w.line(0, name, "")
	for _, e := range set.All() {
		w.dash = true
		w.line(2, "id", written(string(e.Key())))
		if e.Label() != string(e.Key()) {
			w.line(2, "tag", written(e.Label()))
		}
		write(e)
		if doc.Locked(e) {
			w.line(2, "lock", "true")
		}
	}
}

// flow collects the fields of a map in braces.
type flow []string

func (f *flow) add(key, value string) { *f = append(*f, key+": "+value) }

func (f *flow) text(key, s string) {
	if s != "" {
		f.add(key, written(s))
	}
}

func (f flow) String() string { return "{" + strings.Join(f, ", ") + "}" }

func (w *writer) survey(v doc.Survey) {
	var f flow
	for _, t := range []struct {
		key string
		m   q.Maybe[q.Kelvin]
	}{{"air", v.Air}, {"ground", v.Ground}, {"conductor", v.Conductor}, {"test", v.Test}} {
		if t.m.Known {
			f.add(t.key, celsius(t.m.Value))
		}
	}
	if v.Soil.Known {
		f.add("soil", amount(v.Soil.Value, "K·m/W"))
	}
	if v.Waste.Known {
		f.add("waste", percent(v.Waste.Value))
	}
	if v.Maintenance.Known {
		f.add("maintenance", plainFloat(float64(v.Maintenance.Value)))
	}
	if v.MaintenanceGround.Known {
		f.add("maintenance_ground", plainFloat(float64(v.MaintenanceGround.Value)))
	}
	f.text("light_zone", v.LightZone)
	f.text("curfew", v.Curfew.String())
	if len(f) > 0 {
		w.line(0, "survey", f.String())
	}
}

func (w *writer) plan(p doc.Plan) {
	f := flow{`scale: "1:` + strconv.Itoa(p.Scale) + `"`}
	f.add("grid", millimetres(p.Grid))
	if p.North.Known {
		f.add("north", degrees(p.North.Value))
	}
	if p.Checked {
		f.add("checked", "true")
	}
	w.line(0, "plan", f.String())
}

func (w *writer) place(p doc.Place) {
	w.line(2, "at", pointText(p.At))
	w.length("height", p.Height)
}

// item writes a box, gear or source.
func (w *writer) item(e doc.Entity, p doc.Place, stock string) {
	w.place(p)
	w.text(2, "stock", stock)
}

func (w *writer) supply(e *doc.Supply) {
	w.place(e.Place)
	kind := supplyWords[1]
	if e.Spur {
		kind = supplyWords[0]
	}
	w.line(2, "kind", kind)
	w.line(2, "nominal", amount(e.Nominal, "V"))
	if e.Earthing != 0 {
		w.line(2, "earthing", earthingWords[e.Earthing])
	}
	unknown(w, "ze", e.Ze, "ohm")
	unknown(w, "electrode", e.Electrode, "ohm")
	unknown(w, "measured_zs", e.MeasuredZs, "ohm")
	unknown(w, "fault_current", e.FaultCurrent, "A")
	unknown(w, "existing_load", e.ExistingLoad, "A")
	unknown(w, "leakage", e.Leakage, "A")
	if e.OtherCircuits.Known {
		w.line(2, "other_circuits", plainFloat(float64(e.OtherCircuits.Value)))
	}
	w.text(2, "shares", e.Shares)
	if e.Switched {
		w.line(2, "switched", "true")
	}
	w.text(2, "upstream", e.Upstream)
	w.text(2, "residual", e.Residual)
	w.text(2, "fuse", e.Fuse)
	var f flow
	f.text("cable", e.Indoor.Cable)
	if e.Indoor.Length.Known {
		f.add("length", amount(e.Indoor.Length.Value, "m"))
	}
	f.text("method", e.Indoor.Method)
	if len(f) > 0 {
		w.line(2, "indoor", f.String())
	}
}

func (w *writer) box(e *doc.Box) {
	w.item(e, e.Place, e.Stock)
	w.text(2, "fill", e.Fill)
	if e.Hidden {
		w.line(2, "hidden", "true")
	}
	w.count("top_entries", e.TopEntries)
	w.count("open_entries", e.Open)
	if e.Unlinked {
		w.line(2, "linked", "false")
	}
}

// count writes a whole number unless it is 0.
func (w *writer) count(key string, n int) {
	if n != 0 {
		w.line(2, key, strconv.Itoa(n))
	}
}

func (w *writer) angle(key string, v float64) {
	if v != 0 {
		w.line(2, key, degrees(v))
	}
}

func (w *writer) lamp(e *doc.Lamp) {
	w.item(e, e.Place, e.Stock)
	w.text(2, "zone", string(e.Zone))
	w.angle("aim", e.Aim)
	w.angle("tilt", e.Tilt)
	w.angle("spin", e.Spin)
	unknown(w, "length", e.Length, "m")
}

func (w *writer) run(e *doc.Run) {
	w.text(2, "cable", e.Cable)
	w.line(2, "from", endText(e.From))
	w.line(2, "to", endText(e.To))
	w.line(2, "legs", "")
	for i, l := range e.Legs {
		w.WriteString("      - " + legText(l, i == len(e.Legs)-1) + "\n")
	}
	if e.Slack != 0 {
		w.line(2, "slack", amount(e.Slack, "m"))
	}
	if e.Waste.Known {
		w.line(2, "waste", percent(e.Waste.Value))
	}
	unknown(w, "cut", e.Cut, "m")
	w.text(2, "with", string(e.With))
}

func endText(e doc.End) string {
	var f flow
	if e.On != "" {
		f.text("on", string(e.On))
		if e.Side != doc.AnySide {
			f.add("side", sideWords[e.Side])
		}
	} else {
		f.add("at", pointText(e.At))
	}
	if e.Tail.Known {
		f.add("tail", amount(e.Tail.Value, "m"))
	}
	f.text("gland", e.Gland)
	if e.Untagged {
		f.add("tag", "false")
	}
	return f.String()
}

func legText(l doc.Leg, last bool) string {
	var f flow
	if !last {
		f.add("to", pointText(l.To))
	}
	f.add("support", supportWords[l.Support])
	if l.Depth != 0 {
		f.add("depth", millimetres(l.Depth))
	}
	if l.Height != 0 {
		f.add("height", millimetres(l.Height))
	}
	f.text("method", l.Method)
	if l.Group != 0 {
		f.add("group", strconv.Itoa(l.Group))
	}
	if l.NoTape {
		f.add("tape", "false")
	}
	if l.Sleeve {
		f.add("sleeve", "true")
	}
	f.text("hole", l.Hole)
	return f.String()
}

func (w *writer) zone(e *doc.Zone) {
	w.text(2, "name", e.Name)
	if e.Number != 0 {
		w.line(2, "number", strconv.Itoa(e.Number))
	}
	w.text(2, "colour", e.Colour)
	w.text(2, "control", string(e.Control))
	if e.Dimmed {
		w.line(2, "dimmed", "true")
	}
	w.text(2, "off", e.Off.String())
}

func (w *writer) points(key string, ps []geom.Point) {
	w.line(2, key, "")
	for _, p := range ps {
		w.WriteString("      - " + pointText(p) + "\n")
	}
}

func (w *writer) area(e *doc.Area) {
	w.text(2, "kind", e.Kind)
	w.text(2, "name", e.Name)
	w.points("ring", e.Ring)
	w.length("dig_depth", e.DigDepth)
	w.length("height", e.Height)
	if e.Low {
		w.line(2, "low", "true")
	}
	w.text(2, "use", e.Use)
}

func (w *writer) lineEntity(e *doc.Line) {
	w.text(2, "kind", e.Kind)
	w.text(2, "name", e.Name)
	w.points("path", e.Path)
	w.length("height", e.Height)
	w.text(2, "owner", e.Owner)
	w.text(2, "use", e.Use)
}

func (w *writer) mark(e *doc.Mark) {
	w.text(2, "kind", e.Kind)
	w.text(2, "name", e.Name)
	w.place(e.Place)
	w.length("radius", e.Radius)
	w.length("crown", e.Crown)
	w.length("crown_base", e.CrownBase)
	w.length("crown_top", e.CrownTop)
	if e.CrownPass.Known {
		w.line(2, "crown_pass", percent(e.CrownPass.Value))
	}
	w.text(2, "owner", e.Owner)
}

func (w *writer) decisions(list []doc.Decision) {
	if len(list) > 0 {
		w.line(0, "decisions", "")
	}
	for _, d := range list {
		w.dash = true
		w.line(2, "code", written(d.Code))
		w.text(2, "subject", string(d.Subject))
		w.text(2, "by", d.By)
		w.text(2, "on", d.On)
		w.text(2, "reason", d.Reason)
	}
}
