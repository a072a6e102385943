package file

import (
	"slices"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// object is a map of fields. Every field that is asked for counts as known;
// done reports the rest. Most objects have a handful of fields, so they are a
// list; a large one gets an index, lest a hostile file take for ever.
type object struct {
	node
	fields []field
	index  map[string]int
	asked  []string
}

// field is one field in file order.
type field struct {
	name       string
	key, value *tree
	known      bool
}

// manyFields is the size from which an object has an index.
const manyFields = 16

// object returns the node as a map of fields; an absent one has none.
func (n node) object() *object {
	o := n.log.room.object()
	o.node = n
	if n.y == nil {
		return o
	}
	if n.y.shape != mapping {
		n.fail(n.found(), "a map of fields")
		o.y = nil
		return o
	}
	size := len(n.y.items) / 2
	o.fields = slices.Grow(o.fields, size)
	if size >= manyFields {
		o.index = make(map[string]int, size)
	}
	for i := 0; i+1 < len(n.y.items); i += 2 {
		k := &n.y.items[i]
		if k.shape != scalar || k.isNull() {
			key := n
			key.y = k
			key.scalar("the name of a field")
			continue
		}
		name := k.text
		if at := o.find(name); at >= 0 {
			o.child(name, k).fail("the field a second time", "it once (line "+strconv.Itoa(int(o.fields[at].value.line))+")")
			continue
		}
		if o.index != nil {
			o.index[name] = len(o.fields)
		}
		o.fields = append(o.fields, field{name: name, key: k, value: &n.y.items[i+1]})
	}
	return o
}

// find returns the position of a field, -1 for none.
func (o *object) find(name string) int {
	if o.index != nil {
		if i, ok := o.index[name]; ok {
			return i
		}
		return -1
	}
	for i := range o.fields {
		if o.fields[i].name == name {
			return i
		}
	}
	return -1
}

// child is a node as the named field of the object.
func (o *object) child(name string, y *tree) node {
	return node{y: y, log: o.log, entity: o.entity, of: o, field: name}
}

// name sets the entity for messages of the object and all its fields.
func (o *object) name(entity string) { o.entity = entity }

// get returns the field, absent when the file has none.
func (o *object) get(key string) node {
	i := o.find(key)
	if i < 0 {
		o.ask(key)
		return o.child(key, nil)
	}
	return o.known(i)
}

// known returns a field that is in the file, and counts it as asked for.
func (o *object) known(i int) node {
	f := &o.fields[i]
	f.known = true
	return o.child(f.name, f.value)
}

// ask notes the name of a field that the file has not got. Where everything is
// only for a while no message is made, and nobody wants the names.
func (o *object) ask(key string) {
	if o.log.room != nil {
		return
	}
	if o.asked == nil {
		o.asked = make([]string, 0, 12)
	}
	o.asked = append(o.asked, key)
}

// has reports whether the field is in the file, and counts as asking for it. It
// comes before reading what most files have not got.
func (o *object) has(key string) bool {
	i := o.find(key)
	if i < 0 {
		o.ask(key)
		return false
	}
	o.fields[i].known = true
	return true
}

// need returns the field and reports it when it is missing.
func (o *object) need(key, expected string) node {
	n := o.get(key)
	if !n.present() && o.y != nil {
		o.child(key, o.y).fail("nothing", expected)
	}
	return n
}

// Short forms for the common kinds of field; a missing one gives zero.

func (o *object) text(key string) string              { return given(o, key, node.text) }
func (o *object) flag(key string) bool                { return given(o, key, node.flag) }
func (o *object) whole(key string, low, high int) int { return o.get(key).whole(low, high) }
func (o *object) length(key string) geom.Length       { return given(o, key, node.length) }
func (o *object) angle(key string) float64            { return given(o, key, node.angle) }
func (o *object) point(key string) geom.Point         { return given(o, key, node.point) }
func (o *object) list(key string) []node              { return given(o, key, node.list) }

func (o *object) word(key string, choices []string) int {
	if !o.has(key) {
		return 0
	}
	return o.get(key).word(choices)
}

// given reads a field if it is in the file.
func given[T any](o *object, key string, read func(node) T) (v T) {
	if i := o.find(key); i >= 0 {
		v = read(o.known(i))
	} else {
		o.ask(key)
	}
	return v
}

// flagOff reports whether a flag that is true when missing is false.
func (o *object) flagOff(key string) bool { return o.has(key) && !o.flag(key) }

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
	if !o.has(key) {
		return 0
	}
	return quantity(o.get(key), parse)
}

// needValue reads a quantity that must be there.
func needValue[T ~float64](o *object, key string, parse func(string) (T, error)) T {
	_, err := parse("")
	return quantity(o.need(key, quantityWanted(err)), parse)
}

// maybe reads a quantity that may be unknown: it is unknown when missing.
func maybe[T ~float64](o *object, key string, parse func(string) (T, error)) q.Maybe[T] {
	if !o.has(key) {
		return q.Maybe[T]{}
	}
	return q.Some(quantity(o.get(key), parse))
}

// done reports every field that nothing asked for.
func (o *object) done() {
	left := 0
	for i := range o.fields {
		if !o.fields[i].known {
			left++
		}
	}
	if left == 0 {
		return
	}
	known := o.asked
	for i := range o.fields {
		if o.fields[i].known {
			known = append(known, o.fields[i].name)
		}
	}
	slices.Sort(known)
	known = slices.Compact(known)
	for i := range o.fields {
		f := &o.fields[i]
		if f.known {
			continue
		}
		key := o.node
		key.y = f.key
		key.failHint("the unknown field "+strconv.Quote(f.name), "one of "+strings.Join(known, ", "), nearest(f.name, known))
	}
}
