package file

import (
	"sort"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// object is a map of fields. Every field that is asked for counts as known;
// done reports the rest.
type object struct {
	node
	fields map[string]node
	keys   []node // in file order
	known  map[string]bool
}

// object returns the node as a map of fields; an absent one has none.
func (n node) object() *object {
	o := &object{node: n, fields: map[string]node{}, known: map[string]bool{}}
	if n.y == nil {
		return o
	}
	if n.y.Kind != yaml.MappingNode {
		n.fail(n.found(), "a map of fields")
		o.y = nil
		return o
	}
	for i := 0; i+1 < len(n.y.Content); i += 2 {
		key := node{y: n.y.Content[i], log: n.log, entity: n.entity, field: n.field}
		name, ok := key.scalar("the name of a field")
		if !ok {
			continue
		}
		if earlier, twice := o.fields[name]; twice {
			key.field = n.path(name)
			key.fail("the field a second time", "it once (line "+strconv.Itoa(earlier.line())+")")
			continue
		}
		o.fields[name] = node{y: n.y.Content[i+1], log: n.log, entity: n.entity, field: n.path(name)}
		o.keys = append(o.keys, key)
	}
	return o
}

// name sets the entity for messages of the object and all its fields.
func (o *object) name(entity string) {
	o.entity = entity
	for k, n := range o.fields {
		n.entity = entity
		o.fields[k] = n
	}
	for i := range o.keys {
		o.keys[i].entity = entity
	}
}

// get returns the field, absent when the file has none.
func (o *object) get(key string) node {
	o.known[key] = true
	if n, ok := o.fields[key]; ok {
		return n
	}
	return node{log: o.log, entity: o.entity, field: o.path(key)}
}

// has reports whether the field is in the file.
func (o *object) has(key string) bool { return o.get(key).present() }

// need returns the field and reports it when it is missing.
func (o *object) need(key, expected string) node {
	n := o.get(key)
	if !n.present() && o.y != nil {
		at := o.node
		at.field = o.path(key)
		at.fail("nothing", expected)
	}
	return n
}

// Short forms for the common kinds of field; a missing one gives zero.

func (o *object) text(key string) string                { return o.get(key).text() }
func (o *object) flag(key string) bool                  { return o.get(key).flag() }
func (o *object) whole(key string, low, high int) int   { return o.get(key).whole(low, high) }
func (o *object) length(key string) geom.Length         { return o.get(key).length() }
func (o *object) angle(key string) float64              { return o.get(key).angle() }
func (o *object) point(key string) geom.Point           { return o.get(key).point() }
func (o *object) list(key string) []node                { return o.get(key).list() }
func (o *object) word(key string, choices []string) int { return o.get(key).word(choices) }

// flagOff reports whether a flag that is true when missing is false.
func (o *object) flagOff(key string) bool {
	n := o.get(key)
	return n.present() && !n.flag()
}

// needText returns a text that must be there and not empty.
func (o *object) needText(key string) string {
	n := o.need(key, "a text")
	s := n.text()
	if n.present() && s == "" {
		n.fail("an empty text", "a text")
	}
	return s
}

// value reads an optional quantity; a missing one gives zero. Use it only
// where zero is the documented meaning of absence.
func value[T ~float64](o *object, key string, parse func(string) (T, error)) T {
	return quantity(o.get(key), parse)
}

// needValue reads a quantity that must be there.
func needValue[T ~float64](o *object, key string, parse func(string) (T, error)) T {
	_, err := parse("")
	return quantity(o.need(key, quantityWanted(err)), parse)
}

// maybe reads a quantity that may be unknown: it is unknown when missing.
func maybe[T ~float64](o *object, key string, parse func(string) (T, error)) q.Maybe[T] {
	n := o.get(key)
	if !n.present() {
		return q.Maybe[T]{}
	}
	return q.Some(quantity(n, parse))
}

// done reports every field that nothing asked for.
func (o *object) done() {
	var known []string
	for k := range o.known {
		known = append(known, k)
	}
	sort.Strings(known)
	for _, key := range o.keys {
		if name := key.y.Value; !o.known[name] {
			key.failHint("the unknown field "+strconv.Quote(name), "one of "+strings.Join(known, ", "), nearest(name, known))
		}
	}
}
