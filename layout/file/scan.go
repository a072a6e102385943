package file

import (
	"math"
	"strings"
)

// scanner reads the plain part of YAML in which our files are written: block
// maps and lists, scalars of one line that are plain or quoted, and lists and
// maps in brackets that end on their line. At the first thing beyond that, or
// wrong, it declines, and the whole file is left to the library, which knows
// all of YAML and says what is wrong. A tree that it does give is the one that
// the library gives.
type scanner struct {
	s      string
	pos    int
	line   int32
	indent int    // of the line at pos
	depth  int    // of values around pos
	stack  []tree // finished values whose map or list is not
	slab   []tree // room for finished maps and lists
	quick  bool   // long lists at the top are left for later
}

// declined is what scanning a thing beyond the scanner panics with, within
// the scanner only.
type declined struct{}

// scan returns the tree of a file; ok is false when it declines.
func scan(text string, quick bool) (t tree, ok bool) {
	if len(text) > math.MaxInt32 {
		return tree{}, false
	}
	s := &scanner{s: text, line: 1, quick: quick}
	defer s.declines(&ok)
	if s.next() && s.indent == 0 {
		t = s.block(0)
		return t, s.pos >= len(s.s)
	}
	return tree{}, false
}

// declines turns the panic of a scanner into false.
func (s *scanner) declines(ok *bool) {
	switch p := recover(); p.(type) {
	case nil:
	case declined:
		*ok = false
	default:
		panic(p)
	}
}

func (s *scanner) decline() { panic(declined{}) }

// next goes to the first sign of the next line that is not empty, the present
// one included; false at the end. pos must be at the start of a line.
func (s *scanner) next() bool {
	for s.pos < len(s.s) {
		start := s.pos
		for s.pos < len(s.s) && s.s[s.pos] == ' ' {
			s.pos++
		}
		if s.pos == len(s.s) {
			break
		}
		switch c := s.s[s.pos]; {
		case c == '\n':
			s.pos++
			s.line++
		case c == '#':
			s.comment()
		default:
			s.indent = s.pos - start
			if s.indent == 0 && (strings.HasPrefix(s.s[s.pos:], "---") || strings.HasPrefix(s.s[s.pos:], "...")) {
				s.decline()
			}
			return true
		}
	}
	s.indent = -1
	return false
}

// comment skips the rest of the line.
func (s *scanner) comment() {
	for s.pos < len(s.s) {
		switch signs[s.s[s.pos]] {
		case refused:
			s.decline()
		case beyond:
			s.letter()
			continue
		}
		s.pos++
		if s.s[s.pos-1] == '\n' {
			s.line++
			return
		}
	}
}

// endLine skips spaces and a comment up to the end of the line.
func (s *scanner) endLine() {
	start := s.pos
	for s.pos < len(s.s) && s.s[s.pos] == ' ' {
		s.pos++
	}
	switch {
	case s.pos == len(s.s):
	case s.s[s.pos] == '\n':
		s.pos++
		s.line++
	case s.s[s.pos] == '#' && s.pos > start:
		s.comment()
	default:
		s.decline()
	}
}

// deepest keeps far below the nesting that checking the library's tree allows.
const deepest = maxDepth - 2

// open notes the start of a map or list.
func (s *scanner) open() int {
	if s.depth++; s.depth > deepest {
		s.decline()
	}
	return len(s.stack)
}

// shut makes a map or list of the values since open.
func (s *scanner) shut(first int, kind shape, line int32) tree {
	s.depth--
	n := len(s.stack) - first
	if len(s.slab)+n > cap(s.slab) {
		s.slab = make([]tree, 0, max(256, n))
	}
	at := len(s.slab)
	s.slab = append(s.slab, s.stack[first:]...)
	s.stack = s.stack[:first]
	return tree{shape: kind, line: line, items: s.slab[at:len(s.slab):len(s.slab)]}
}

// dash reports whether an item of a block list starts at pos.
func (s *scanner) dash() bool {
	return s.pos+1 < len(s.s) && s.s[s.pos] == '-' && s.s[s.pos+1] == ' '
}

// block reads the map or list that starts at pos in the given column.
func (s *scanner) block(column int) tree {
	if s.dash() {
		return s.list(column)
	}
	return s.fields(column)
}

// fields reads a block map whose keys stand in the given column.
func (s *scanner) fields(column int) tree {
	first, line := s.open(), s.line
	for more := true; more; more = s.indent == column {
		key := s.key()
		if s.pos == len(s.s) || s.s[s.pos] != ':' {
			s.decline()
		}
		s.stack = append(s.stack, key)
		s.pos++
		s.stack = append(s.stack, s.fieldValue(column))
		if s.indent > column || s.indent == column && s.dash() {
			s.decline()
		}
	}
	return s.shut(first, mapping, line)
}

// fieldValue reads what follows the colon of a key in the given column.
func (s *scanner) fieldValue(column int) tree {
	if s.pos == len(s.s) || s.s[s.pos] != ' ' && s.s[s.pos] != '\n' {
		s.decline()
	}
	i := s.pos
	for i < len(s.s) && s.s[i] == ' ' {
		i++
	}
	if i < len(s.s) && s.s[i] != '\n' && s.s[i] != '#' {
		if s.pos = i; s.s[i] == '>' && i+1 < len(s.s) {
			return s.folded(column)
		}
		return s.rest()
	}
	s.endLine()
	s.next()
	switch {
	case s.indent == column && s.dash():
		return s.list(column)
	case s.indent <= column:
		s.decline() // no value
	}
	if s.quick && column == 0 && s.dash() {
		return s.leave()
	}
	return s.block(s.indent)
}

// rest reads a value up to the end of the line and goes to the next.
func (s *scanner) rest() tree {
	t := s.value(false)
	s.endLine()
	s.next()
	return t
}

// list reads a block list whose dashes stand in the given column.
func (s *scanner) list(column int) tree {
	first, line := s.open(), s.line
	for more := true; more; more = s.indent == column && s.dash() {
		s.stack = append(s.stack, s.item(column))
		if s.indent > column {
			s.decline()
		}
	}
	return s.shut(first, sequence, line)
}

// item reads one item of a block list whose dashes stand in the given column.
func (s *scanner) item(column int) tree {
	start := s.pos
	for s.pos++; s.pos < len(s.s) && s.s[s.pos] == ' '; {
		s.pos++
	}
	if s.pos == len(s.s) || s.s[s.pos] == '\n' || s.s[s.pos] == '#' || s.dash() {
		s.decline()
	}
	if s.keyed() {
		return s.fields(column + s.pos - start)
	}
	return s.rest()
}

// keyed reports whether a key of a block map starts at pos.
func (s *scanner) keyed() bool {
	i := s.pos
	for i < len(s.s) && signs[s.s[i]]&keySign != 0 {
		i++
	}
	return i > s.pos && i < len(s.s) && s.s[i] == ':' && (i+1 == len(s.s) || s.s[i+1] == ' ' || s.s[i+1] == '\n')
}
