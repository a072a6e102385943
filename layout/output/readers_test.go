package output

import (
	"encoding/json"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// The readers of the distribution are libraries of another language, written by
// other people: ezdxf for drawings, openpyxl for workbooks. In CI they have to be
// there.
const python = "/usr/bin/python3"

// readBack runs a script on a file and reads the JSON that it prints.
func readBack(t *testing.T, library, script, path string, into any) {
	t.Helper()
	if err := exec.Command(python, "-c", "import "+library).Run(); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("python3-%s is not installed: %v", library, err)
		}
		t.Skipf("SKIPPED: python3-%s is not installed, so the file was not read by it", library)
	}
	out, err := exec.Command(python, "-W", "ignore", "-c", script, path).Output()
	if err != nil {
		if x, ok := err.(*exec.ExitError); ok {
			t.Fatalf("%s does not read %s: %v\n%s", library, filepath.Base(path), err, x.Stderr)
		}
		t.Fatal(err)
	}
	if err := json.Unmarshal(out, into); err != nil {
		t.Fatalf("%v in %s", err, out)
	}
}

// readDXF lists layers and entities, and what the library's own auditor finds.
const readDXF = `
import sys, json, ezdxf, math
d = ezdxf.readfile(sys.argv[1])
a = d.audit()
out = []
for e in d.modelspace():
    x = dict(kind=e.dxftype(), layer=e.dxf.layer, text="", length=0, closed=False, x=0, y=0, size=0)
    if x["kind"] == "LINE":
        x["length"] = (e.dxf.end - e.dxf.start).magnitude
    elif x["kind"] == "POLYLINE":
        p = list(e.points())
        x["closed"] = e.is_closed
        if e.is_closed:
            p.append(p[0])
        x["length"] = sum((q - r).magnitude for q, r in zip(p[1:], p))
    elif x["kind"] == "CIRCLE":
        x["x"], x["y"], x["size"] = e.dxf.center.x, e.dxf.center.y, e.dxf.radius
    elif x["kind"] == "TEXT":
        x["text"], x["size"] = e.plain_text(), e.dxf.height
    out.append(x)
print(json.dumps(dict(version=d.dxfversion, layers=[l.dxf.name for l in d.layers], entities=out,
    units=d.header.get("$LUNITS", -1), extent=list(d.header["$EXTMIN"])[:2] + list(d.header["$EXTMAX"])[:2],
    wrong=[str(e.message) for e in a.errors + a.fixes])))
`

type dxfRead struct {
	Version  string
	Layers   []string
	Units    int
	Extent   []float64
	Wrong    []string
	Entities []struct {
		Kind, Layer, Text  string
		Length, X, Y, Size float64
		Closed             bool
	}
}

// TestDXFByEzdxf measures drawings as an independent reader understands them: a
// wall of 10 m, a lawn of 6 m by 4 m, a lamp; and the runs of the whole example
// against the cut list. One unit is one metre.
func TestDXFByEzdxf(t *testing.T) {
	s := tenMetres().Plan.Scheme
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "lawn", Name: "Rasen-Stück 2,5 m² \\U+0041",
		Ring: []geom.Point{geom.Pt(-1, -1), geom.Pt(5, -1), geom.Pt(5, 3), geom.Pt(-1, 3)}})
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Place: doc.Place{At: geom.Pt(5, 2)}})
	var r dxfRead
	readBack(t, "ezdxf", readDXF, temp(t, "p.dxf", dxfOf(t, &layout.Frame{Scheme: s})), &r)
	if r.Version != "AC1009" || r.Units != 2 || len(r.Wrong) > 0 {
		t.Errorf("version %s, units %d, faults %v", r.Version, r.Units, r.Wrong)
	}
	seen := map[string]bool{}
	for _, e := range r.Entities {
		what := e.Kind + " " + e.Layer
		seen[what] = true
		switch what {
		case "LINE LINE-WALL":
			if math.Abs(e.Length-10) > 1e-9 {
				t.Errorf("the wall is %g units long, want 10 m", e.Length)
			}
		case "POLYLINE AREA-LAWN":
			if !e.Closed || math.Abs(e.Length-20) > 1e-9 {
				t.Errorf("the lawn: closed %v, %g m about", e.Closed, e.Length)
			}
		case "CIRCLE LAMP":
			if e.X != 5 || e.Y != 2 {
				t.Errorf("the lamp stands at %g, %g", e.X, e.Y)
			}
		}
	}
	for _, want := range []string{"LINE LINE-WALL", "POLYLINE AREA-LAWN", "CIRCLE LAMP", "TEXT TEXT-GROUND"} {
		if !seen[want] {
			t.Errorf("no %s", want)
		}
	}
	f := frameOf(t, townhouse)
	r = dxfRead{}
	readBack(t, "ezdxf", readDXF, temp(t, "g.dxf", dxfOf(t, f)), &r)
	if len(r.Wrong) > 0 {
		t.Errorf("faults in the example: %v", r.Wrong)
	}
	known := map[string]bool{}
	for _, l := range r.Layers {
		known[l] = true
	}
	run := 0
	for _, e := range r.Entities {
		if !known[e.Layer] {
			t.Errorf("layer %s is not in the table", e.Layer)
		}
		if !strings.HasPrefix(e.Layer, "RUN-") {
			continue
		}
		l := f.Circuits.Lengths[run]
		if math.Abs(e.Length-float64(l.Plan)) > 1e-5 {
			t.Errorf("%s is %g m long, the cut list says %g m", l.Tag, e.Length, float64(l.Plan))
		}
		run++
	}
	if run != len(f.Circuits.Lengths) || run == 0 {
		t.Errorf("%d runs, want %d", run, len(f.Circuits.Lengths))
	}
}

// readXLSX lists every cell with the type that the library gives it: f is a
// formula, s a text, n a number or nothing, b a truth value.
const readXLSX = `
import sys, json, openpyxl
b = openpyxl.load_workbook(sys.argv[1])
print(json.dumps({s.title: [[[c.data_type, c.value] for c in r] for r in s.iter_rows()] for s in b.worksheets}))
`

// TestXLSXByOpenpyxl: every cell is read by an independent library as it stands in
// the tables, texts that begin like a formula as text.
func TestXLSXByOpenpyxl(t *testing.T) {
	f := frameOf(t, townhouse)
	_, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	tables := append(DataTables(f, RulesOf(rules, f.Scheme)), hostileTable())
	var got map[string][][][2]any
	readBack(t, "openpyxl", readXLSX, temp(t, "d.xlsx", workbookOf(t, f, tables)), &got)
	for _, table := range tables {
		sheet := got[table.Sheet]
		if len(sheet) != len(table.Rows)+1 {
			t.Errorf("%s: %d rows, want %d", table.Sheet, len(sheet), len(table.Rows)+1)
			continue
		}
		for r, row := range table.Rows {
			for c, v := range row {
				kind, value := "n", v
				switch v := v.(type) {
				case string:
					if value = any(textCell(v)); value == "" {
						value = nil // an empty cell
					} else {
						kind = "s"
					}
				case bool:
					kind = "b"
				}
				if cell := sheet[r+1][c]; cell[0] != kind || cell[1] != value {
					t.Errorf("%s row %d column %d is %v, want %s %v", table.Sheet, r+2, c+1, cell, kind, value)
				}
			}
		}
	}
	for name, sheet := range got {
		for _, row := range sheet {
			for _, cell := range row {
				if cell[0] == "f" {
					t.Errorf("%s holds a formula: %v", name, cell[1])
				}
			}
		}
	}
}

// TestSVGByRsvg measures the picture that rsvg-convert draws, at 254 dots an inch
// or 10 a millimetre: the sheet is an A3, and the wall of 10 m at 1:50 is 200 mm.
func TestSVGByRsvg(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out.png")
	run(t, "rsvg-convert", "-d", "254", "-p", "254", "-o", out, temp(t, "p.svg", picture(t, "svg", tenMetres())))
	f, err := os.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	if b := m.Bounds(); b.Dx() != 4200 || b.Dy() != 2970 {
		t.Errorf("the sheet is %d by %d tenths of a millimetre", b.Dx(), b.Dy())
	}
	l, err := Page(tenMetres())
	if err != nil {
		t.Fatal(err)
	}
	from := l.View.Paper(geom.Pt(3, 2))
	// The wall is a stroke of 1.0 mm in #3c4148 with round ends: on its middle line
	// the dark pixels are 200 mm and two half widths long.
	y, first, last := int(from.Y*10), -1, -1
	for x := range m.Bounds().Dx() {
		r, g, b, _ := m.At(x, y).RGBA()
		if r>>8 == 0x3c && g>>8 == 0x41 && b>>8 == 0x48 {
			if first < 0 {
				first = x
			}
			last = x
		}
	}
	if long := float64(last-first+1) / 10; math.Abs(long-201) > 0.2 || math.Abs(float64(first)/10-(from.X-0.5)) > 0.2 {
		t.Errorf("the wall is drawn %g mm long from %g mm, want 201 mm from %.1f mm", long, float64(first)/10, from.X-0.5)
	}
}
