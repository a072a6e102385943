package edit

import (
	"reflect"
	"strconv"
	"strings"

	"duskwire/layout/doc"
)

// nounOf returns what the entity is, with its tag if it has one.
func nounOf(e doc.Entity) string {
	if missing(e) {
		return "nothing"
	}
	noun := doc.KindOfEntity(e).String()
	if e.Label() != "" {
		return noun + " " + e.Label()
	}
	return noun
}

// titled is an operation whose step can be told better with the scheme at hand.
type titled interface {
	title(*doc.Scheme) string
}

// Title returns the name of the step that op is on the scheme it is applied
// to: "Move L7" where Name can only say "Move".
func Title(op Operation, s *doc.Scheme) string {
	if t, ok := op.(titled); ok {
		return t.title(s)
	}
	return op.Name()
}

// these names entities: "L7", "L7 and L8", "5 items".
func these(s *doc.Scheme, ids []doc.ID) string {
	if len(ids) > 2 {
		return strconv.Itoa(len(ids)) + " items"
	}
	var tags []string
	for _, id := range ids {
		tags = append(tags, doc.TagOf(s, id))
	}
	return strings.Join(tags, " and ")
}

func (o AddRun) title(s *doc.Scheme) string {
	switch {
	case missing(o.Run):
		return o.Name()
	case o.Run.Label() != "":
		return "Draw " + nounOf(o.Run)
	}
	return "Draw run " + doc.FreeTag(s, doc.RunKind) // as add names it
}
func (o MovePoints) title(s *doc.Scheme) string   { return "Move " + these(s, o.IDs) }
func (o Delete) title(s *doc.Scheme) string       { return "Delete " + these(s, o.IDs) }
func (o MoveVertex) title(s *doc.Scheme) string   { return "Move corner of " + doc.TagOf(s, o.ID) }
func (o InsertVertex) title(s *doc.Scheme) string { return "Add corner to " + doc.TagOf(s, o.ID) }
func (o DeleteVertex) title(s *doc.Scheme) string { return "Delete corner of " + doc.TagOf(s, o.ID) }
func (o SetEnd) title(s *doc.Scheme) string       { return "Join end of " + doc.TagOf(s, o.Run) }
func (o SetCable) title(s *doc.Scheme) string     { return "Change cable of " + these(s, o.Runs) }
func (o SetZone) title(s *doc.Scheme) string      { return "Change zone of " + these(s, o.Lamps) }
func (o SetLeg) title(s *doc.Scheme) string       { return "Change leg of " + doc.TagOf(s, o.Run) }
func (o SetLegSupport) title(s *doc.Scheme) string {
	return "Change support of " + doc.TagOf(s, o.Run)
}
func (o SetSupply) title(s *doc.Scheme) string { return changeOf(s, o.Supply) }
func (o SetBox) title(s *doc.Scheme) string    { return changeOf(s, o.Box) }
func (o SetLamp) title(s *doc.Scheme) string   { return changeOf(s, o.Lamp) }
func (o SetGear) title(s *doc.Scheme) string   { return changeOf(s, o.Gear) }
func (o SetSource) title(s *doc.Scheme) string { return changeOf(s, o.Source) }
func (o SetRun) title(s *doc.Scheme) string    { return changeOf(s, o.Run) }
func (o ChangeZone) title(s *doc.Scheme) string {
	return changeOf(s, o.Zone)
}
func (o SetArea) title(s *doc.Scheme) string { return changeOf(s, o.Area) }
func (o SetLine) title(s *doc.Scheme) string { return changeOf(s, o.Line) }
func (o SetMark) title(s *doc.Scheme) string { return changeOf(s, o.Mark) }

// changeOf says which field of the entity a new value of it changes: "Change
// height of L7", or only "Change L7" when there are several.
func changeOf(s *doc.Scheme, e doc.Entity) string {
	if missing(e) {
		return "Change nothing"
	}
	old, kind := doc.Find(s, e.Key())
	if old == nil || kind != doc.KindOfEntity(e) {
		return "Change " + nounOf(e)
	}
	fields := differing(reflect.ValueOf(old).Elem(), reflect.ValueOf(e).Elem())
	if len(fields) == 1 {
		return "Change " + fields[0] + " of " + old.Label()
	}
	return "Change " + old.Label()
}

// words are the field names that do not read well in lower case.
var words = map[string]string{
	"At": "place", "Ze": "Ze", "MeasuredZs": "measured Zs", "FaultCurrent": "fault current",
	"ExistingLoad": "existing load", "DigDepth": "digging depth", "From": "start", "To": "end",
	"Spur": "kind of supply", "Residual": "RCD", "Upstream": "device at the board", "Indoor": "indoor leg",
}

// differing returns the fields in which two structs of one type differ; those
// of an embedded place are looked at one by one.
func differing(a, b reflect.Value) []string {
	var out []string
	for i := range a.NumField() {
		f := a.Type().Field(i)
		if reflect.DeepEqual(a.Field(i).Interface(), b.Field(i).Interface()) {
			continue
		}
		if f.Type == reflect.TypeFor[doc.Place]() {
			out = append(out, differing(a.Field(i), b.Field(i))...)
			continue
		}
		name, ok := words[f.Name]
		if !ok {
			name = strings.ToLower(f.Name)
		}
		out = append(out, name)
	}
	return out
}
