package file

import (
	"strings"
	"unicode/utf8"
)

// sign says what a byte may be to the scanner.
type sign uint8

const (
	keySign sign = 1 << iota // may stand in a key
	starts                   // may start a plain scalar
	special                  // to be looked at in a plain scalar or quotes
	refused                  // a control character
	beyond                   // part of a letter beyond ASCII
)

var signs = signTable()

func signTable() (t [256]sign) {
	for c := range t {
		b := byte(c)
		switch {
		case b >= 'a' && b <= 'z', b >= 'A' && b <= 'Z', b >= '0' && b <= '9', b == '_':
			t[c] = keySign | starts
		case b == '/' || b == '(' || b == '+':
			t[c] = starts
		case b == '\n' || strings.IndexByte(":#,[]{}?\"'\\", b) >= 0:
			t[c] = special
		case b < ' ' || b == 0x7F:
			t[c] = refused
		case b >= utf8.RuneSelf:
			t[c] = beyond
		}
	}
	t['-'], t['.'] = keySign, keySign
	return t
}

// longestKey is far below the length that YAML allows.
const longestKey = 100

// key reads a key: a word of ASCII letters, digits and a few signs. Others are
// for the library.
func (s *scanner) key() tree {
	start := s.pos
	if s.pos == len(s.s) || signs[s.s[s.pos]]&starts == 0 {
		s.decline()
	}
	for s.pos < len(s.s) && signs[s.s[s.pos]]&keySign != 0 {
		s.pos++
	}
	if s.pos == start || s.pos-start > longestKey {
		s.decline()
	}
	return tree{shape: scalar, plain: true, line: s.line, text: s.s[start:s.pos]}
}

// value reads a scalar, or a map or list in brackets; inside says that it
// stands in brackets itself.
func (s *scanner) value(inside bool) tree {
	switch s.s[s.pos] {
	case '{':
		return s.braces()
	case '[':
		return s.brackets()
	case '"':
		return s.double()
	case '\'':
		return s.single()
	}
	return s.plain(inside)
}

// folded reads a text of several lines, ">" or ">-", which stand in one column
// beyond the given one. An empty line within is for the library.
func (s *scanner) folded(column int) tree {
	t := tree{shape: scalar, line: s.line}
	s.pos++
	clip := s.s[s.pos] != '-'
	if !clip {
		s.pos++
	}
	if s.pos == len(s.s) || s.s[s.pos] != '\n' {
		s.decline()
	}
	s.pos++
	s.line++
	indent := 0
	for s.pos+indent < len(s.s) && s.s[s.pos+indent] == ' ' {
		indent++
	}
	if indent <= column {
		s.decline()
	}
	margin := s.s[s.pos : s.pos+indent]
	var text strings.Builder // a hostile file may have millions of lines
	for strings.HasPrefix(s.s[s.pos:], margin) {
		if text.Len() > 0 {
			text.WriteByte(' ')
		}
		text.WriteString(s.textLine(indent))
	}
	if clip {
		text.WriteByte('\n')
	}
	t.text = text.String()
	if s.next(); s.indent > column {
		s.decline()
	}
	return t
}

// textLine reads a line of a folded text without its margin.
func (s *scanner) textLine(margin int) string {
	s.pos += margin
	start := s.pos
	for s.pos < len(s.s) && s.s[s.pos] != '\n' {
		switch signs[s.s[s.pos]] {
		case refused:
			s.decline()
		case beyond:
			s.letter()
		default:
			s.pos++
		}
	}
	if s.pos == len(s.s) || s.pos == start || s.s[start] == ' ' || s.s[s.pos-1] == ' ' {
		s.decline()
	}
	s.pos++
	s.line++
	return s.s[start : s.pos-1]
}

// spaces skips spaces within a line and returns the sign after them.
func (s *scanner) spaces() byte {
	for s.pos < len(s.s) && s.s[s.pos] == ' ' {
		s.pos++
	}
	if s.pos == len(s.s) {
		s.decline()
	}
	return s.s[s.pos]
}

// braces reads a map in braces.
func (s *scanner) braces() tree {
	first, line := s.open(), s.line
	s.pos++
	for s.spaces() != '}' || len(s.stack) > first {
		s.stack = append(s.stack, s.key())
		if s.spaces() != ':' || s.pos+1 == len(s.s) || s.s[s.pos+1] != ' ' || s.s[s.pos-1] == ' ' {
			s.decline()
		}
		s.pos++
		s.spaces()
		s.stack = append(s.stack, s.value(true))
		if s.spaces() == '}' {
			break
		}
		s.comma()
	}
	s.pos++
	return s.shut(first, mapping, line)
}

// brackets reads a list in brackets.
func (s *scanner) brackets() tree {
	first, line := s.open(), s.line
	s.pos++
	for s.spaces() != ']' || len(s.stack) > first {
		s.stack = append(s.stack, s.value(true))
		if s.spaces() == ']' {
			break
		}
		s.comma()
	}
	s.pos++
	return s.shut(first, sequence, line)
}

// comma skips a comma between brackets, after which a new line may start.
func (s *scanner) comma() {
	if s.s[s.pos] != ',' {
		s.decline()
	}
	if s.pos++; s.spaces() == '\n' {
		s.pos++
		s.line++
		if s.pos == len(s.s) || s.s[s.pos] != ' ' || s.spaces() == '\n' {
			s.decline()
		}
	}
}

// plain reads a scalar without quotes up to the end of the line or a comment;
// inside brackets also up to a comma or the closing bracket.
func (s *scanner) plain(inside bool) tree {
	start := s.pos
	switch c := signs[s.s[s.pos]]; {
	case c&(starts|beyond) != 0:
	case s.s[s.pos] == '-' && s.pos+1 < len(s.s) && signs[s.s[s.pos+1]]&starts != 0:
	default:
		s.decline()
	}
	for s.pos < len(s.s) {
		switch c := s.s[s.pos]; {
		case signs[c]&(special|refused|beyond) == 0:
			s.pos++
		case signs[c] == refused:
			s.decline()
		case signs[c] == beyond:
			s.letter()
		case s.stops(c, inside):
			text := strings.TrimRight(s.s[start:s.pos], " ")
			return tree{shape: scalar, plain: true, line: s.line, text: text}
		default:
			s.pos++
		}
	}
	return tree{shape: scalar, plain: true, line: s.line, text: strings.TrimRight(s.s[start:], " ")}
}

// stops reports whether a special sign ends a plain scalar.
func (s *scanner) stops(c byte, inside bool) bool {
	last := s.pos+1 == len(s.s)
	switch c {
	case '\n':
		return true
	case '#':
		return s.s[s.pos-1] == ' '
	case ',', ']', '}':
		return inside
	case '[', '{', '?':
		if inside {
			s.decline()
		}
	case ':':
		if last || s.s[s.pos+1] == ' ' || s.s[s.pos+1] == '\n' || inside && signs[s.s[s.pos+1]]&starts == 0 {
			s.decline()
		}
	}
	return false
}

// letter skips a letter beyond ASCII; those that YAML refuses or takes for the
// end of a line, and a few more, are for the library.
func (s *scanner) letter() {
	r, size := utf8.DecodeRuneInString(s.s[s.pos:])
	ok := r >= 0xA0 && r <= 0x2027 || r >= 0x2030 && r <= 0xD7FF || r >= 0xE000 && r < 0xFE00 || r >= 0x10000
	if !ok {
		s.decline()
	}
	s.pos += size
}

// double reads a scalar in double quotes.
func (s *scanner) double() tree {
	s.pos++
	start := s.pos
	var made []byte // the text, once it is not as it stands
	for ; ; s.pos++ {
		if s.pos == len(s.s) {
			s.decline()
		}
		c := s.s[s.pos]
		switch {
		case signs[c] == refused || c == '\n':
			s.decline()
		case signs[c] == beyond:
			at := s.pos
			s.letter()
			if made != nil {
				made = append(made, s.s[at:s.pos]...)
			}
			s.pos--
			continue
		case c == '"':
			t := tree{shape: scalar, line: s.line, text: s.s[start:s.pos]}
			if made != nil {
				t.text = string(made)
			}
			s.pos++
			return t
		case c == '\\':
			if made == nil {
				made = append(make([]byte, 0, 64), s.s[start:s.pos]...)
			}
			s.pos++
			c = s.escaped()
		}
		if made != nil {
			made = append(made, c)
		}
	}
}

// escaped returns what the sign after a backslash stands for.
func (s *scanner) escaped() byte {
	if s.pos < len(s.s) {
		switch c := s.s[s.pos]; c {
		case '"', '\\':
			return c
		case 'n':
			return '\n'
		}
	}
	s.decline()
	return 0
}

// single reads a scalar in single quotes; one with a quote inside is for the
// library.
func (s *scanner) single() tree {
	s.pos++
	start := s.pos
	for ; s.pos < len(s.s); s.pos++ {
		c := s.s[s.pos]
		switch {
		case signs[c] == refused || c == '\n':
			s.decline()
		case signs[c] == beyond:
			s.letter()
			s.pos--
		case c == '\'':
			t := tree{shape: scalar, line: s.line, text: s.s[start:s.pos]}
			s.pos++
			if s.pos < len(s.s) && s.s[s.pos] == '\'' {
				s.decline()
			}
			return t
		}
	}
	s.decline()
	return tree{}
}
