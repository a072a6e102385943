package file

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"duskwire/layout/doc"
)

// Error is one problem of a file, told in one line: where it is, what was
// found there and what was expected.
type Error struct {
	File     string
	Line     int    // counted from 1; 0 when the whole file is meant
	Entity   string // "lamp L7"; "" outside any entity
	Field    string // "stock"; "" when the entity itself is meant
	Found    string // in words, texts quoted: `"spike-9"`, "nothing", "a list"
	Expected string
	Hint     string // `did you mean "spike-5w-12"?`; "" for none
}

// Error implements error:
//
//	garden.yaml:41: lamp L7: stock: found "spike-9", expected a lamp of the stock book (did you mean "spike-5w-12"?)
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d", e.Line)
	}
	for _, s := range []string{e.Entity, e.Field} {
		if s != "" {
			b.WriteString(": " + doc.Short(s))
		}
	}
	b.WriteString(": found " + doc.Short(e.Found) + ", expected " + e.Expected)
	if e.Hint != "" {
		b.WriteString(" (" + doc.Short(e.Hint) + ")")
	}
	return oneLine(b.String())
}

// oneLine keeps a line end in the name of a field, say, from making two lines
// of a message, and signs that turn the direction of writing from changing
// what it seems to say.
func oneLine(s string) string {
	return strings.Map(func(c rune) rune {
		turns := c >= 0x202A && c <= 0x202E || c >= 0x2066 && c <= 0x2069
		if turns || unicode.In(c, unicode.Cc, unicode.Zl, unicode.Zp) {
			return ' '
		}
		return c
	}, s)
}

// problems collects the errors of one file while it is read, so that the
// first in file order can be told even when fields are read in another order.
type problems struct {
	file string
	list []*Error
	room *room // for what is needed while reading, nil for none of its own
}

// first returns the error nearest the top of the file, nil for none.
func (p *problems) first() error {
	if len(p.list) == 0 {
		return nil
	}
	top := p.list[0]
	for _, e := range p.list {
		if e.Line < top.Line {
			top = e
		}
	}
	return top
}

// nearest returns `did you mean "x"?` for the candidate most like word, or ""
// when none is close. Only letters and digits count, and a common beginning
// counts in favour.
func nearest(word string, candidates []string) string {
	if slices.Contains(candidates, word) {
		return "" // it is no slip of spelling
	}
	word = bare(word)
	best, name := (len(word)+1)/2+1, ""
	for _, c := range candidates {
		other := bare(c)
		common := 0
		for common < min(len(word), len(other)) && word[common] == other[common] {
			common++
		}
		if d := editDistance(word, other) - common/3; d < best {
			best, name = d, c
		}
	}
	if name == "" {
		return ""
	}
	return fmt.Sprintf("did you mean %q?", name)
}

// bare returns the letters and digits of s in lower case.
func bare(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsDigit(c) {
			return unicode.ToLower(c)
		}
		return -1
	}, s)
}

// editDistance returns the number of letters to insert, delete or replace to
// turn a into b (the textbook dynamic programme, one row kept).
func editDistance(a, b string) int {
	if len(a) > 64 || len(b) > 64 {
		return max(len(a), len(b))
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			up := row[j]
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(up+1, row[j-1]+1, diagonal+cost)
			diagonal = up
		}
	}
	return row[len(b)]
}

// oneOf writes choices as `"a", "b" or "c"`.
func oneOf(choices []string) string {
	var b strings.Builder
	for i, c := range choices {
		switch {
		case i > 0 && i == len(choices)-1:
			b.WriteString(" or ")
		case i > 0:
			b.WriteString(", ")
		}
		b.WriteString(strconv.Quote(c))
	}
	return b.String()
}
