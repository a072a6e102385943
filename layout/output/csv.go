package output

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// CSV writes a table after RFC 4180: UTF-8, commas, CR LF, one line of keys. A
// point is the decimal sign; what is not known is an empty cell.
func CSV(w io.Writer, t DataTable) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	if err := out.Write(t.Keys); err != nil {
		return err
	}
	line := make([]string, len(t.Keys))
	for _, row := range t.Rows {
		for i, c := range row {
			line[i] = csvCell(c)
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func csvCell(c any) string {
	switch c := c.(type) {
	case nil:
		return ""
	case string:
		return textCell(c)
	case float64:
		return strconv.FormatFloat(c, 'f', -1, 64)
	case bool:
		return strconv.FormatBool(c)
	}
	panic(fmt.Sprintf("output: a table has no cells of %T", c))
}

// textCell returns a text on one line that no spreadsheet takes for a formula.
func textCell(s string) string { return guarded(plain(s)) }

// guarded puts an apostrophe before a text that a spreadsheet might run: one
// that begins with = + - @, tab or CR (the advice of OWASP, "CSV Injection"), or
// with the wide forms of these signs, which some programs make narrow. Numbers
// are written as numbers and never pass here.
func guarded(s string) string {
	if r, _ := utf8.DecodeRuneInString(s); s != "" && strings.ContainsRune("=+-@\t\r\n＝＋－＠", r) {
		return "'" + s
	}
	return s
}
