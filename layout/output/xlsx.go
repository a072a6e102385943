package output

import (
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"duskwire/calc/check"
	"duskwire/layout"
)

// bookDate is the date inside every workbook: the writer never asks the clock, so
// the same tables give the same bytes. It is the first day that a ZIP can hold.
const bookDate = "1980-01-01T00:00:00Z"

// mostWide is the width of the widest column, in characters.
const mostWide = 48

// XLSX writes a workbook: a sheet that says what the figures are and which Stop
// findings stand, then a sheet a table with its headings kept in sight. Text is
// stored as text, never as a formula, and guarded as in CSV, for a workbook is
// often saved as CSV later.
func XLSX(w io.Writer, f *layout.Frame, rules *check.Rules, tables []DataTable) error {
	x := &workbook{File: excelize.NewFile()}
	defer x.Close()
	x.do(x.SetDocProps(&excelize.DocProperties{Title: plain(f.Scheme.Title), Creator: "Duskwire", LastModifiedBy: "Duskwire",
		Created: bookDate, Modified: bookDate}))
	var err error
	x.bold, err = x.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}, Border: []excelize.Border{{Type: "bottom", Style: 1, Color: "000000"}}})
	x.do(err)
	x.do(x.SetSheetName("Sheet1", "About"))
	x.about(headingOf(f, rules))
	for _, t := range tables {
		x.table(t)
	}
	if x.err == nil {
		_, x.err = x.WriteTo(w)
	}
	if x.err != nil {
		return fmt.Errorf("xlsx: %w", x.err)
	}
	return nil
}

// workbook keeps the first error.
type workbook struct {
	*excelize.File
	bold int
	err  error
}

func (x *workbook) do(err error) {
	if x.err == nil {
		x.err = err
	}
}

// about is the first sheet.
func (x *workbook) about(h Heading) {
	title := h.Scheme
	if plain(title) == "" {
		title = "(untitled scheme)"
	}
	rows := [][2]string{{"Scheme", title}, {"Rule set", h.RuleSet + ", " + h.Edition}, {"", h.Statement}}
	if h.Stops > 0 {
		rows = append(rows, [2]string{"Stop findings", fmt.Sprintf("%d stand. Do not build from these figures; see the findings.", h.Stops)})
	}
	for _, o := range h.Overruled {
		rows = append(rows, [2]string{"Overruled", fmt.Sprintf("%s %s %s: %s (%s, %s: %s)", o.Level, o.Code, o.Subject, o.Text, o.By, o.On, o.Reason)})
	}
	rows = append(rows, [2]string{"Cells", "An empty cell does not apply or is not known; it is never zero."},
		[2]string{"", "A text that begins like a formula has an apostrophe before it."})
	for i, r := range rows {
		x.set("About", 1, i+1, r[0])
		x.set("About", 2, i+1, r[1])
	}
	x.do(x.SetColWidth("About", "A", "A", 16))
	x.do(x.SetColWidth("About", "B", "B", 100))
}

// table adds one sheet.
func (x *workbook) table(t DataTable) {
	_, err := x.NewSheet(t.Sheet)
	x.do(err)
	for i, key := range t.Keys {
		head := headOf(key)
		x.set(t.Sheet, i+1, 1, head)
		wide := utf8.RuneCountInString(head)
		for k, row := range t.Rows {
			x.set(t.Sheet, i+1, k+2, row[i])
			wide = max(wide, utf8.RuneCountInString(csvCell(row[i])))
		}
		name, err := excelize.ColumnNumberToName(i + 1)
		x.do(err)
		x.do(x.SetColWidth(t.Sheet, name, name, float64(min(wide, mostWide)+2)))
	}
	last, err := excelize.CoordinatesToCellName(max(len(t.Keys), 1), 1)
	x.do(err)
	x.do(x.SetCellStyle(t.Sheet, "A1", last, x.bold))
	x.do(x.SetPanes(t.Sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
}

// escape finds what readers of workbooks take for a code of a sign: "_x003D_" would
// come out as "=". ECMA-376 part 1, 22.9.2.19: the underscore before it is coded.
var escape = regexp.MustCompile(`_x[0-9A-Fa-f]{4}_`)

// set writes one cell; nil leaves it empty.
func (x *workbook) set(sheet string, column, row int, v any) {
	at, err := excelize.CoordinatesToCellName(column, row)
	x.do(err)
	switch v := v.(type) {
	case string:
		if s := textCell(v); s != "" {
			x.do(x.SetCellStr(sheet, at, escape.ReplaceAllString(s, "_x005F$0")))
		}
	case float64:
		x.do(x.SetCellFloat(sheet, at, v, -1, 64))
	case bool:
		x.do(x.SetCellBool(sheet, at, v))
	}
}

// units are the endings of keys and what they stand for.
var units = []struct{ ending, unit string }{{"_m", "m"}, {"_volt", "V"}, {"_ohm", "Ω"}, {"_ampere", "A"}, {"_a", "A"}, {"_percent", "%"}, {"_celsius", "°C"}, {"_watt", "W"}}

// headOf returns a key as the heading of a column: "cut_length_m" gives
// "Cut length, m".
func headOf(key string) string {
	unit := ""
	for _, u := range units {
		if words, ok := strings.CutSuffix(key, u.ending); ok {
			key, unit = words, ", "+u.unit
			break
		}
	}
	words := strings.ReplaceAll(key, "_", " ")
	if words == "" {
		return unit
	}
	return strings.ToUpper(words[:1]) + words[1:] + unit
}
