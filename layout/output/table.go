package output

import (
	"bytes"
	"io"
	"math"
	"strconv"
	"unicode/utf8"
)

// table lines up cells in columns, two spaces apart; what stands in the last
// column is as long as it likes. It holds the text of all cells one after the
// other, because a large scheme has some hundred thousand of them. Texts are
// made harmless as by printed.
type table struct {
	text  []byte
	ends  []int32 // per cell
	width []int   // per column, in letters
	wide  []int   // cells with letters of more than a byte, with their width, in order
	at    int     // column of the next cell
}

// newTable returns a table with its head; the columns are those of the head.
func newTable(head ...string) *table {
	t := &table{width: make([]int, len(head))}
	t.row(head...)
	return t
}

// grow makes room for so many rows.
func (t *table) grow(rows int) {
	t.text = append(make([]byte, 0, len(t.text)+rows*5*len(t.width)), t.text...)
	t.ends = append(make([]int32, 0, len(t.ends)+rows*len(t.width)), t.ends...)
}

// cell adds a text.
func (t *table) cell(s string) {
	start := len(t.text)
	t.text = append(t.text, s...)
	t.end(start)
}

// row adds a row of texts.
func (t *table) row(cells ...string) {
	for _, s := range cells {
		t.cell(s)
	}
}

// number adds a figure with so many decimals, "-" for none.
func (t *table) number(v *float64, digits int) {
	start := len(t.text)
	if v == nil {
		t.text = append(t.text, '-')
	} else {
		t.text = appendFixed(t.text, *v, digits)
	}
	t.end(start)
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

// end finishes the cell that starts at start.
func (t *table) end(start int) {
	n := len(t.text) - start
	if !plainLine(t.text[start:]) {
		if bytes.ContainsFunc(t.text[start:], unfit) {
			clean := bytes.Map(oneLine, t.text[start:])
			t.text = append(t.text[:start], clean...)
		}
		n = utf8.RuneCount(t.text[start:])
		t.wide = append(t.wide, len(t.ends), n)
	}
	t.ends = append(t.ends, int32(len(t.text)))
	t.width[t.at] = max(t.width[t.at], n)
	t.at = (t.at + 1) % len(t.width)
}

// plainLine reports whether a text is printable ASCII.
func plainLine(text []byte) bool {
	for _, b := range text {
		if b < ' ' || b >= 0x7F {
			return false
		}
	}
	return true
}

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
	start, wide := 0, t.wide
	for i, end := range t.ends {
		out = append(out, t.text[start:end]...)
		n := int(end) - start
		if len(wide) > 0 && wide[0] == i {
			n, wide = wide[1], wide[2:]
		}
		start = int(end)
		if k := i % len(t.width); k < len(t.width)-1 {
			for pad := t.width[k] + 2 - n; pad > 0; pad -= len(blanks) {
				out = append(out, blanks[:min(pad, len(blanks))]...)
			}
			continue
		}
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
