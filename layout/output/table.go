package output

import (
	"io"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// table lines up cells in columns, two spaces apart; what stands in the last
// column is as long as it likes. It holds the text of all cells one after the
// other in large pieces, because a large scheme has some hundred thousand of them.
// Texts are made harmless as by printed.
type table struct {
	text  []byte   // the piece that is filled
	full  [][]byte // those before it
	ends  []int32  // per cell: its end in its piece; -1 between pieces
	width []int    // per column, in letters
	wide  []int    // places in ends of cells with letters of more than a byte, with their width, in order
	at    int      // column of the next cell
}

// tablePiece is about how long a piece is.
const tablePiece = 1 << 16

// newTable returns a table with its head; the columns are those of the head.
func newTable(head ...string) *table {
	t := &table{width: make([]int, len(head))}
	t.row(head...)
	return t
}

// grow makes room for so many rows.
func (t *table) grow(rows int) {
	t.ends = append(make([]int32, 0, len(t.ends)+rows*len(t.width)+rows*len(t.width)/100), t.ends...)
}

// start begins a cell of about so many bytes and returns where it starts.
func (t *table) start(size int) int {
	if len(t.text)+size > cap(t.text) {
		if len(t.text) > 0 {
			t.full, t.ends = append(t.full, t.text), append(t.ends, -1)
		}
		t.text = make([]byte, 0, max(tablePiece, size))
	}
	return len(t.text)
}

// cell adds a text.
func (t *table) cell(s string) {
	start := t.start(len(s))
	t.text = append(t.text, s...)
	letters, plain := lettersOf(s)
	if !plain {
		t.text = append(t.text[:start], clean(s)...)
	}
	if letters != len(t.text)-start {
		t.wide = append(t.wide, len(t.ends), letters)
	}
	t.end(letters)
}

// row adds a row of texts.
func (t *table) row(cells ...string) {
	for _, s := range cells {
		t.cell(s)
	}
}

// number adds a figure with so many decimals, "-" for none.
func (t *table) number(v *float64, digits int) {
	start := t.start(32)
	if v == nil {
		t.text = append(t.text, '-')
	} else {
		t.text = appendFixed(t.text, *v, digits)
	}
	t.end(len(t.text) - start)
}

// appendFixed writes what strconv.AppendFloat writes with 'f'. Of a figure that
// is clearly not between two decimals the digits are those of a whole number,
// which is much quicker.
func appendFixed(text []byte, v float64, digits int) []byte {
	scale := [...]float64{1, 10, 100, 1000, 10000}
	if digits < len(scale) && v < 1e5 && !math.Signbit(v) {
		scaled := v * scale[digits] // within 1e-7 of the true value
		whole, part := math.Modf(scaled)
		if math.Abs(part-0.5) > 1e-6 {
			return appendDecimal(text, uint64(whole+math.Round(part)), digits)
		}
	}
	return strconv.AppendFloat(text, v, 'f', digits, 64)
}

// appendDecimal writes a whole number with a point before its last digits.
func appendDecimal(text []byte, n uint64, digits int) []byte {
	var room [24]byte
	i := len(room)
	for k := 0; n > 0 || k <= digits; k++ {
		if k == digits && digits > 0 {
			i--
			room[i] = '.'
		}
		i--
		room[i] = byte('0' + n%10)
		n /= 10
	}
	return append(text, room[i:]...)
}

// end finishes a cell of so many letters.
func (t *table) end(letters int) {
	t.ends = append(t.ends, int32(len(t.text)))
	if letters > t.width[t.at] {
		t.width[t.at] = letters
	}
	if t.at++; t.at == len(t.width) {
		t.at = 0
	}
}

// lettersOf counts the letters of a text; plain says that none of them is
// unfit.
func lettersOf(s string) (n int, plain bool) {
	plain = true
	for i := 0; i < len(s); n++ {
		if b := s[i]; b < utf8.RuneSelf {
			plain = plain && b >= ' ' && b < 0x7F
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(s[i:])
		plain = plain && !unfit(r)
		i += size
	}
	return n, plain
}

// clean makes a text of one line of any other.
func clean(s string) string { return strings.Map(oneLine, s) }

// oneLine turns signs that end a line, steer a terminal or turn the direction of
// writing into spaces.
func oneLine(r rune) rune {
	if unfit(r) {
		return ' '
	}
	return r
}

func unfit(r rune) bool { return r == '\n' || r == utf8.RuneError || turnsOrEnds(r) }

func turnsOrEnds(r rune) bool {
	turns := r >= 0x202A && r <= 0x202E || r >= 0x2066 && r <= 0x2069
	controls := r < ' ' && r != '\n' || r >= 0x7F && r <= 0x9F // Unicode class Cc
	return turns || controls || r == 0x2028 || r == 0x2029     // Zl, Zp
}

// write writes the lines of the table.
func (t *table) write(w io.Writer) error {
	const most = 1 << 16
	out := make([]byte, 0, most+most/4)
	pieces, wide := append(t.full, t.text), t.wide
	start, column := 0, 0
	for i, end := range t.ends {
		if end < 0 {
			pieces, start = pieces[1:], 0
			continue
		}
		out = append(out, pieces[0][start:end]...)
		n := int(end) - start
		if len(wide) > 0 && wide[0] == i {
			n, wide = wide[1], wide[2:]
		}
		start = int(end)
		if column < len(t.width)-1 {
			for pad := t.width[column] + 2 - n; pad > 0; pad -= len(blanks) {
				out = append(out, blanks[:min(pad, len(blanks))]...)
			}
			column++
			continue
		}
		column = 0
		if out = append(out, '\n'); len(out) >= most {
			if _, err := w.Write(out); err != nil {
				return err
			}
			out = out[:0]
		}
	}
	_, err := w.Write(out)
	return err
}

const blanks = "                                "

// tables writes tables with an empty line between them. They are made side by
// side.
func tables(w io.Writer, makers ...func() *table) error {
	made := make([]chan *table, len(makers))
	for i, f := range makers {
		made[i] = make(chan *table, 1)
		go func() { made[i] <- f() }()
	}
	for i := range made {
		if i > 0 {
			if _, err := io.WriteString(w, "\n"); err != nil {
				return err
			}
		}
		if err := (<-made[i]).write(w); err != nil {
			return err
		}
	}
	return nil
}
