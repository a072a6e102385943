package file

import (
	"io/fs"
	"sort"
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Words of asset files.
var (
	evidenceWords  = []string{"found", "memory", "derived", "practice"}
	evidenceOf     = []finding.Evidence{finding.Found, finding.Memory, finding.Derived, finding.Practice}
	insulationKeys = []string{"70C thermoplastic", "90C thermoplastic", "90C thermosetting", "60C thermosetting"}
	methodWords    = []string{"A", "B", "C", "D", "E", "100", "101", "102", "103"}
)

// table is one table of the assets: rows holds a slice whose element type
// depends on the kind.
type table struct {
	key, kind string
	rows      any
}

// tableSet holds every table that rule sets and cables can name.
type tableSet struct {
	list []table
}

// find returns the table with the key.
func (s *tableSet) find(key string) (table, bool) {
	for _, t := range s.list {
		if t.key == key {
			return t, true
		}
	}
	return table{}, false
}

// keys returns the keys of the tables of a kind, for messages.
func (s *tableSet) keys(kind string) []string {
	var out []string
	for _, t := range s.list {
		if t.kind == kind {
			out = append(out, t.key)
		}
	}
	return out
}

// pick returns the rows of the table that the node names. A key that is not
// there, or is of another kind, is reported at the node.
func pick[T any](s *tableSet, n node, kind string) []T {
	key, ok := n.scalar("the key of a table of kind " + kind)
	if !ok {
		return nil
	}
	t, ok := s.find(key)
	if !ok {
		n.failHint(n.found(), "the key of a table of kind "+kind, nearest(key, s.keys(kind)))
		return nil
	}
	rows, ok := t.rows.([]T)
	if !ok || t.kind != kind {
		n.fail("table "+key+" of kind "+t.kind, "the key of a table of kind "+kind)
		return nil
	}
	return rows
}

// pickAll returns the rows of all tables that a list names, in its order.
func pickAll[T any](s *tableSet, n node, kind string) []T {
	var out []T
	for _, item := range n.list() {
		out = append(out, pick[T](s, item, kind)...)
	}
	return out
}

// tableFrame is what the rows of one table inherit from its head.
type tableFrame struct {
	source  finding.Source
	columns []node
}

// rowSource returns the source of a row: that of the table, with the row's own
// clause and evidence where it has them.
func (f tableFrame) rowSource(o *object) finding.Source {
	src := f.source
	if n := o.get("clause"); n.present() {
		src.Clause = n.text()
	}
	if n := o.get("evidence"); n.present() {
		src.Evidence = evidenceOf[n.word(evidenceWords)]
	}
	return src
}

// cells returns the cells of a row's list, which has one for every column.
func (f tableFrame) cells(n node) []node {
	items := n.list()
	if n.present() && len(items) != len(f.columns) {
		n.fail(plural(len(items), "value"), plural(len(f.columns), "value")+", one for each column")
		return nil
	}
	return items
}

// readSource reads a source; an edition that is not given is the file's. Common
// practice has no standard to name.
func readSource(n node, edition string) finding.Source {
	o := n.object()
	src := finding.Source{Evidence: evidenceOf[o.need("evidence", oneOf(evidenceWords)).word(evidenceWords)]}
	if src.Evidence == finding.Practice && !o.has("standard") {
		o.done()
		return src
	}
	src.Standard, src.Clause, src.Edition = o.needText("standard"), o.needText("clause"), edition
	if e := o.get("edition"); e.present() {
		src.Edition = e.text()
	}
	o.done()
	return src
}

// readTables reads a list of tables into the set.
func readTables(n node, edition string, set *tableSet) {
	for _, item := range n.list() {
		o := item.within("table").object()
		if o.y == nil {
			continue
		}
		key := o.needText("key")
		o.name("table " + key)
		if _, twice := set.find(key); twice {
			o.get("key").fail("the key "+key+" a second time", "a key of its own")
		}
		kind := o.need("kind", oneOf(kindNames())).word(kindNames())
		o.text("note")
		frame := tableFrame{
			source:  readSource(o.need("source", "a source"), edition),
			columns: o.get("columns").list(),
		}
		rows := o.need("rows", "a list of rows")
		items := rows.list()
		if rows.present() && len(items) == 0 {
			rows.fail("no row", "at least one row")
		}
		o.done()
		set.list = append(set.list, table{key: key, kind: kinds[kind].name, rows: kinds[kind].read(frame, items)})
	}
}

// loadTables reads every file in the folder tables of the assets.
func loadTables(fsys fs.FS) (*tableSet, error) {
	set := &tableSet{}
	var logs []*problems
	err := eachYAML(fsys, "tables", func(top node) {
		o := top.object()
		edition := o.need("edition", "a text").text()
		readTables(o.need("tables", "a list of tables"), edition, set)
		o.done()
		logs = append(logs, top.log)
	})
	if err != nil {
		return nil, err
	}
	// Constructions name tables of any file, so they are settled at the end.
	for _, t := range set.list {
		if rows, ok := t.rows.([]*construction); ok {
			for _, c := range rows {
				c.settle(set)
			}
		}
	}
	for _, log := range logs {
		if err := log.first(); err != nil {
			return nil, err
		}
	}
	return set, nil
}

// eachYAML parses the YAML files of a folder in the order of their names.
func eachYAML(fsys fs.FS, folder string, read func(top node)) error {
	names, err := fs.Glob(fsys, folder+"/*.yaml")
	if err != nil {
		return err
	}
	if len(names) == 0 {
		return &Error{File: folder, Found: "no file", Expected: "at least one .yaml file"}
	}
	sort.Strings(names)
	for _, name := range names {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return err
		}
		top, err := parseYAML(name, data)
		if err != nil {
			return err
		}
		read(top)
		if err := top.log.first(); err != nil {
			return err
		}
	}
	return nil
}

// Nothing that a table or a stock item tells in SI units is smaller or larger
// than these; sums and squares of such values stay far from overflow.
const (
	smallest = 1e-12
	largest  = 1e9
)

// above reports a value that is not above zero, or absurd, and returns it.
func above[T ~float64](n node, v T) T {
	if n.present() && len(n.log.list) == 0 {
		switch {
		case !(v > 0):
			n.fail(n.found(), "a value above zero")
		case v < smallest || v > largest:
			n.fail(n.found(), "a value that a garden can have")
		}
	}
	return v
}

// between reports the field if its value in SI units is outside the range. An
// absent one is not looked at.
func between[T ~float64](o *object, key string, v T, low, high float64, unit string) {
	n := o.get(key)
	if n.present() && len(n.log.list) == 0 && !(float64(v) >= low && float64(v) <= high) {
		n.fail(n.found(), "a value from "+plainFloat(low)+unit+" to "+plainFloat(high)+unit)
	}
}

// needAbove reads a quantity that must be there and above zero.
func needAbove[T ~float64](o *object, key string, parse func(string) (T, error)) T {
	v := needValue(o, key, parse)
	return above(o.get(key), v)
}

// factor reads a rating factor that must be there.
func factor(o *object, key string) float64 {
	return factorOf(o.need(key, "a factor such as 0.85"))
}

// factorOf reads a rating factor: a number from 0.01 to 3.
func factorOf(n node) float64 { return n.number(0.01, 3) }

// parseDrop reads a volt drop per ampere and metre. "mV/A/m" is the unit of the
// printed tables and equals mΩ/m.
func parseDrop(s string) (q.OhmPerMetre, error) {
	if number, ok := strings.CutSuffix(s, "mV/A/m"); ok {
		return q.ParseOhmPerMetre(number + "mΩ/m")
	}
	return q.ParseOhmPerMetre(s)
}

// plural writes "1 value" or "3 values".
func plural(n int, noun string) string {
	s := plainFloat(float64(n)) + " " + noun
	if n != 1 {
		s += "s"
	}
	return s
}
