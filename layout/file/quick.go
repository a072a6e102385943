package file

import (
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"duskwire/layout/doc"
)

// A large scheme is read quickly when it is written as the program writes it:
// the long lists of entities are cut into pieces that are scanned and read at
// the same time, each entity by itself. Whatever is out of the ordinary (a
// thing beyond the scanner, any error at all) makes the quick way give up, and
// the file is read again from the top by the library, which finds the words
// and the line for what is wrong.

// longSections are the lists that may be long.
var longSections = []string{"boxes", "lamps", "gear", "sources", "runs"}

// longFrom is the length from which a list is left for later.
const longFrom = 16 << 10

// pieceSize is about how long a piece of a list is.
const pieceSize = 64 << 10

// body is a block list that is not scanned yet.
type body struct {
	text   string // whole lines
	column int    // of the dashes
}

// leave skips the block list at pos, the value of the top field before it, if
// it is long and one of the long sections.
func (s *scanner) leave() tree {
	known := false
	for _, name := range longSections {
		known = known || s.stack[len(s.stack)-1].text == name
	}
	start, end := s.pos-s.indent, len(s.s)
	for i := start; ; {
		line := strings.IndexByte(s.s[i:], '\n')
		if line < 0 || i+line+1 == len(s.s) {
			break
		}
		i += line + 1
		if c := s.s[i]; c != ' ' && c != '\n' && c != '#' {
			end = i
			break
		}
	}
	if !known || end-start < longFrom {
		return s.block(s.indent)
	}
	t := tree{shape: sequence, line: s.line, later: &body{s.s[start:end], s.indent}}
	s.pos = end // lines are not counted any more: no message is made of them
	s.next()
	return t
}

// pieces cuts the list before items.
func (b *body) pieces() []string {
	var out []string
	dash := "\n" + strings.Repeat(" ", b.column) + "- "
	rest := b.text
	for len(rest) > pieceSize*3/2 {
		cut := strings.Index(rest[pieceSize:], dash)
		if cut < 0 {
			break
		}
		cut += pieceSize + 1
		out, rest = append(out, rest[:cut]), rest[cut:]
	}
	return append(out, rest)
}

// quickScheme reads a scheme the quick way; ok is false when that is none.
func quickScheme(name, text string, lib library) (s *doc.Scheme, ok bool) {
	if len(text) > maxBytes {
		return nil, false
	}
	t, ok := scan(strings.TrimPrefix(text, "\ufeff"), true)
	if !ok {
		return nil, false
	}
	top := node{y: &t, log: &problems{file: name}}
	if v, err := readVersion(top); err != nil || v != version {
		return nil, false
	}
	r := newReader(top.log)
	s = r.scheme(top.object(), lib)
	if r.declined || len(top.log.list) > 0 {
		return nil, false
	}
	stock, _ := lib()
	if len(doc.Problems(s)) > 0 || len(doc.CheckStock(s, stock)) > 0 {
		return nil, false
	}
	return s, true
}

// part is what one piece of a list holds.
type part[E doc.Entity] struct {
	items []E
	ok    bool
}

// later reads a list that was left for later. The readers of entities run side
// by side, so they may use nothing but the object they are given.
func later[E doc.Entity](r *reader, b *body, read func(*object, doc.ID, string) E) doc.Set[E] {
	pieces := b.pieces()
	parts := make([]part[E], len(pieces))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.NumCPU(), len(pieces)) {
		wait.Go(func() {
			log := &problems{room: &room{}}
			for i := next.Add(1) - 1; int(i) < len(pieces); i = next.Add(1) - 1 {
				parts[i] = readPiece(log, pieces[i], b.column, read)
			}
		})
	}
	wait.Wait()
	n := 0
	for i := range parts {
		n += len(parts[i].items)
		r.declined = r.declined || !parts[i].ok
	}
	all := make([]E, 0, n)
	for i := range parts {
		all = append(all, parts[i].items...)
	}
	if r.declined {
		return doc.Set[E]{}
	}
	set, ok := doc.SetOf(all)
	r.declined = !ok
	return set
}

// readPiece reads the entities of one piece.
func readPiece[E doc.Entity](log *problems, text string, column int, read func(*object, doc.ID, string) E) (p part[E]) {
	s := &scanner{s: text, depth: 2}
	defer s.declines(&p.ok)
	s.next()
	p.items = make([]E, 0, len(text)/64)
	for more := s.indent == column && s.dash(); more; more = s.indent == column && s.dash() {
		log.room.clear()
		s.slab = s.slab[:0]
		t := s.item(column)
		_, e, id := entity(node{y: &t, log: log}, read)
		if id == "" || len(log.list) > 0 {
			return p
		}
		p.items = append(p.items, e)
	}
	p.ok = s.indent < 0
	return p
}
