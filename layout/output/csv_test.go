package output

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// cellTexts are texts that people may give things; want is what a cell holds. The
// signs are those of OWASP, "CSV Injection".
var cellTexts = []struct{ text, want string }{
	{"=1+1", "'=1+1"},
	{"+44", "'+44"},
	{"-2", "'-2"},
	{"@SUM(A1)", "'@SUM(A1)"},
	{"\t=1+1", "'=1+1"},
	{"\r=1+1", "'=1+1"},
	{" \u200b=1+1", "'=1+1"}, // behind a space and a sign of no width
	{"＝1+1", "'＝1+1"},
	{`=HYPERLINK("http://example.invalid","x")`, `'=HYPERLINK("http://example.invalid","x")`},
	{`a "quoted", name`, `a "quoted", name`},
	{"two\r\nlines", "two lines"},
	{"x\x00y\x1b[31m", "x y [31m"},
	{"Ω 2.5 mm² <b>&amp;</b>", "Ω 2.5 mm² <b>&amp;</b>"},
	{"_x0041_", "_x0041_"},
	{"_x003D_1+1 _x0009_", "_x003D_1+1 _x0009_"},
	{"a-b=c", "a-b=c"},
	{"\xff", "\uFFFD"},
	{"", ""},
}

func hostileTable() DataTable {
	t := DataTable{File: "t", Sheet: "T", Keys: []string{"name", "length_m", "sure", "blank"}}
	for i, h := range cellTexts {
		t.Rows = append(t.Rows, []any{h.text, -1.25 * float64(i), i%2 == 0, nil})
	}
	return t
}

func csvOf(t testing.TB, table DataTable) [][]string {
	t.Helper()
	var b bytes.Buffer
	if err := CSV(&b, table); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), "\n"); n != len(table.Rows)+1 || n != strings.Count(b.String(), "\r\n") {
		t.Errorf("%d lines, want %d with CR LF", n, len(table.Rows)+1)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// TestCSVRoundTrip reads hostile cells back with encoding/csv: texts are texts,
// numbers stay numbers, below zero too, and what is not known stays empty.
func TestCSVRoundTrip(t *testing.T) {
	rows := csvOf(t, hostileTable())
	for i, h := range cellTexts {
		want := []string{h.want, strconv.FormatFloat(-1.25*float64(i), 'f', -1, 64), strconv.FormatBool(i%2 == 0), ""}
		for k := range want {
			if rows[i+1][k] != want[k] {
				t.Errorf("%q: column %d holds %q, want %q", h.text, k, rows[i+1][k], want[k])
			}
		}
	}
}

// TestCellLaw: whatever the text, no cell begins like a formula, also where tab
// and CR are not made spaces before.
func TestCellLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringOf(rapid.OneOf(rapid.SampledFrom([]rune("=+-@\t\r\n ＝＋－＠'a")), rapid.Rune())).Draw(t, "text")
		for _, c := range []string{textCell(s), guarded(s)} {
			if c != "" && strings.ContainsAny(c[:1], "=+-@\t\r\n") {
				t.Fatalf("%q became %q", s, c)
			}
		}
	})
}

// frameOf evaluates an example of the shipped assets.
func frameOf(t testing.TB, path string) *layout.Frame {
	t.Helper()
	s, stock, rules, err := file.Open(path, "", "")
	if err != nil {
		t.Fatal(err)
	}
	return layout.NewDesk(stock, rules, s, path).Frame()
}

const townhouse = "../../assets/examples/townhouse.yaml"

func workbookOf(t testing.TB, f *layout.Frame, tables []DataTable) []byte {
	t.Helper()
	_, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := XLSX(&b, f, RulesOf(rules, f.Scheme), tables); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestWorkbookAgain opens the workbook by the library again: every cell holds what
// the table holds, none has a formula.
func TestWorkbookAgain(t *testing.T) {
	f := frameOf(t, townhouse)
	_, rules, _ := file.Shipped("", "")
	tables := append(DataTables(f, RulesOf(rules, f.Scheme)), hostileTable())
	x, err := excelize.OpenReader(bytes.NewReader(workbookOf(t, f, tables)))
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	if got, want := strings.Join(x.GetSheetList(), ","), "About,Cut list,Cables,Drums,Readings,Runs,T"; got != want {
		t.Errorf("sheets %s, want %s", got, want)
	}
	for _, table := range tables {
		if len(table.Rows) == 0 {
			t.Errorf("%s: no rows", table.Sheet)
		}
		for r, row := range table.Rows {
			for c, v := range row {
				at, _ := excelize.CoordinatesToCellName(c+1, r+2)
				got, err := x.GetCellValue(table.Sheet, at, excelize.Options{RawCellValue: true})
				want := csvCell(v)
				if b, ok := v.(bool); ok {
					want = map[bool]string{true: "1", false: "0"}[b]
				}
				if err != nil || got != want {
					t.Errorf("%s %s holds %q, want %q (%v)", table.Sheet, at, got, want, err)
				}
				if formula, _ := x.GetCellFormula(table.Sheet, at); formula != "" {
					t.Errorf("%s %s has the formula %q", table.Sheet, at, formula)
				}
			}
		}
	}
}

// TestWorkbookOutside opens the workbook without the library: a ZIP of XML (ECMA-376
// part 1, 18.3.1.4 cells, 18.4.8 shared strings). Cell types: s is a shared
// string, b a truth value, none a number.
func TestWorkbookOutside(t *testing.T) {
	data := workbookOf(t, frameOf(t, townhouse), []DataTable{hostileTable()})
	parts := unzipped(t, data)
	var shared struct {
		Items []struct {
			Text string `xml:"t"`
		} `xml:"si"`
	}
	if err := xml.Unmarshal(parts["xl/sharedStrings.xml"], &shared); err != nil {
		t.Fatal(err)
	}
	var sheet struct {
		Rows []struct {
			Cells []struct {
				At      string  `xml:"r,attr"`
				Type    string  `xml:"t,attr"`
				Value   string  `xml:"v"`
				Formula *string `xml:"f"`
			} `xml:"c"`
		} `xml:"sheetData>row"`
	}
	if err := xml.Unmarshal(parts["xl/worksheets/sheet2.xml"], &sheet); err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, row := range sheet.Rows {
		for _, c := range row.Cells {
			if c.Formula != nil {
				t.Errorf("%s has a formula", c.At)
			}
			v := c.Type + ":" + c.Value
			if c.Type == "s" {
				n, err := strconv.Atoi(c.Value)
				if err != nil {
					t.Fatal(err)
				}
				v = "s:" + shared.Items[n].Text
			}
			found[c.At] = v
		}
	}
	if found["B1"] != "s:Length, m" {
		t.Errorf("B1 heads %q", found["B1"])
	}
	for i, h := range cellTexts {
		row := strconv.Itoa(i + 2)
		if want := "s:" + strings.ReplaceAll(h.want, "_x00", "_x005F_x00"); h.want != "" && found["A"+row] != want {
			t.Errorf("A%s holds %q, want %q", row, found["A"+row], want)
		}
		if v, err := strconv.ParseFloat(strings.TrimPrefix(found["B"+row], ":"), 64); err != nil && found["B"+row] != "n:"+csvCell(-1.25*float64(i)) || err == nil && v != -1.25*float64(i) {
			t.Errorf("B%s holds %q, want the number %g", row, found["B"+row], -1.25*float64(i))
		}
	}
	if !bytes.Contains(parts["docProps/core.xml"], []byte(bookDate)) {
		t.Error("the workbook has another date than the fixed one")
	}
}

// unzipped returns the parts of a workbook, each of them XML to its end.
func unzipped(t *testing.T, data []byte) map[string][]byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string][]byte{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		if parts[f.Name], err = io.ReadAll(r); err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(bytes.NewReader(parts[f.Name]))
		for err == nil {
			_, err = d.Token()
		}
		if err != io.EOF {
			t.Errorf("%s: %v", f.Name, err)
		}
	}
	return parts
}

// TestDataAgain: the same scheme gives the same bytes.
func TestDataAgain(t *testing.T) {
	f := frameOf(t, townhouse)
	_, rules, _ := file.Shipped("", "")
	var first []byte
	for range 4 {
		var b bytes.Buffer
		for _, table := range DataTables(f, RulesOf(rules, f.Scheme)) {
			if err := CSV(&b, table); err != nil {
				t.Fatal(err)
			}
		}
		b.Write(workbookOf(t, f, DataTables(f, RulesOf(rules, f.Scheme))))
		if err := DXF(&b, f); err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = b.Bytes()
		}
		if !bytes.Equal(first, b.Bytes()) {
			t.Fatal("the same scheme gives other bytes")
		}
	}
}

// TestCSVSums: the cut lengths of lengths.csv and those of drums.csv, read as a
// stranger would, give the sum of the frame, cable by cable planned whole.
func TestCSVSums(t *testing.T) {
	f := frameOf(t, townhouse)
	_, rules, _ := file.Shipped("", "")
	sums := map[string]float64{}
	for _, table := range DataTables(f, RulesOf(rules, f.Scheme)) {
		rows := csvOf(t, table)
		for i, key := range rows[0] {
			if key != "cut_length_m" && key != "cut_m" {
				continue
			}
			for _, r := range rows[1:] {
				v, err := strconv.ParseFloat(r[i], 64)
				if err != nil {
					t.Errorf("%s: %q is no number", table.Sheet, r[i])
				}
				sums[table.Sheet] += v
			}
		}
	}
	for _, sheet := range []string{"Cut list", "Cables", "Drums", "Runs"} {
		if want := float64(f.Totals.Cable); want == 0 || math.Abs(sums[sheet]-want) > 1e-6 {
			t.Errorf("%s sums to %g m, the frame to %g m", sheet, sums[sheet], want)
		}
	}
}

// TestCSVNulls compares with the JSON of the same rows, key by key: null is an
// empty cell, never zero, and all else reads the same.
func TestCSVNulls(t *testing.T) {
	f := frameOf(t, townhouse)
	_, rules, _ := file.Shipped("", "")
	points := ReadingsOf(f, RulesOf(rules, f.Scheme)).Points
	rows := csvOf(t, DataTables(f, RulesOf(rules, f.Scheme))[3])
	nulls := 0
	for i := range points {
		text, err := json.Marshal(points[i])
		if err != nil {
			t.Fatal(err)
		}
		var m map[string]any
		if err := json.Unmarshal(text, &m); err != nil {
			t.Fatal(err)
		}
		for k, key := range rows[0] {
			want := ""
			switch v := m[key].(type) {
			case nil:
				nulls++
			case float64:
				want = strconv.FormatFloat(v, 'f', -1, 64)
			case bool:
				want = strconv.FormatBool(v)
			case string:
				want = v
			}
			if rows[i+1][k] != want {
				t.Errorf("%s %s is %q, JSON says %v", points[i].Tag, key, rows[i+1][k], m[key])
			}
		}
	}
	if nulls == 0 {
		t.Error("nothing is unknown in the example: the test tests nothing")
	}
}

// TestSVGSize reads the picture by another program where there is one: an A3 sheet
// at 96 dots an inch is 1587 by 1123 pixels (420 mm and 297 mm over 25.4 mm).
func TestSVGSize(t *testing.T) {
	path := temp(t, "plan.svg", picture(t, "svg", tenMetres()))
	out := run(t, "rsvg-convert", "--dpi-x", "96", "--dpi-y", "96", "-f", "png", path)
	wide, high := int(out[16])<<24|int(out[17])<<16|int(out[18])<<8|int(out[19]), int(out[20])<<24|int(out[21])<<16|int(out[22])<<8|int(out[23])
	if math.Abs(float64(wide)-420/25.4*96) > 1 || math.Abs(float64(high)-297/25.4*96) > 1 {
		t.Errorf("rsvg-convert makes it %d by %d pixels", wide, high)
	}
}

// TestPlanPNG: the picture is as wide as asked for, and keeps the shape of its
// paper, sides as 1 to the root of 2 (ISO 216).
func TestPlanPNG(t *testing.T) {
	f := &layout.Frame{Scheme: tenMetres().Plan.Scheme, Stock: &doc.Stock{}}
	f.Circuits = frameOf(t, townhouse).Circuits
	for _, wide := range []int{LeastWide, 333, 1200} {
		var b bytes.Buffer
		if err := PlanPNG(&b, f, "", "", wide); err != nil {
			t.Fatal(err)
		}
		p := b.Bytes()
		w, h := int(p[16])<<24|int(p[17])<<16|int(p[18])<<8|int(p[19]), int(p[20])<<24|int(p[21])<<16|int(p[22])<<8|int(p[23])
		if w != wide || math.Abs(float64(h)*math.Sqrt2-float64(w)) > 2 {
			t.Errorf("asked for %d pixels: %d by %d", wide, w, h)
		}
	}
	for _, wide := range []int{-1, 0, LeastWide - 1, MostWide + 1} {
		if err := PlanPNG(io.Discard, f, "", "", wide); err == nil {
			t.Errorf("%d pixels are not refused", wide)
		}
	}
}
