package output

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/internal/garden"
)

// A small reader of drawings, which knows nothing of the writer. Group codes by
// the DXF reference (from memory): 0 to 9 texts, 10 to 59 numbers, 60 to 79 whole
// numbers, 999 a comment.

type pair struct {
	code  int
	value string
}

// drawn is one entity read back.
type drawn struct {
	kind, layer, text string
	ps                [][2]float64
	size              float64
	closed            bool
}

func pairsOf(t *testing.T, data []byte) (out []pair) {
	t.Helper()
	lines := strings.Split(strings.TrimSuffix(string(data), "\r\n"), "\r\n")
	if len(lines)%2 != 0 {
		t.Fatalf("%d lines do not make pairs", len(lines))
	}
	for i := 0; i < len(lines); i += 2 {
		code, err := strconv.Atoi(strings.TrimSpace(lines[i]))
		v := lines[i+1]
		switch {
		case err != nil:
		case code >= 10 && code <= 59:
			_, err = strconv.ParseFloat(v, 64)
		case code >= 60 && code <= 79:
			_, err = strconv.Atoi(v)
		case code < 0 || code > 79 && code != 999:
			t.Errorf("line %d: group code %d", i+1, code)
		}
		if err != nil || len(v) > 255 || strings.ContainsFunc(v, func(r rune) bool { return r < ' ' || r > '~' }) {
			t.Errorf("line %d: code %d holds %q (%v)", i+2, code, v, err)
		}
		out = append(out, pair{code, v})
	}
	return out
}

// drawing reads sections, the table of layers and the entities.
func drawing(t *testing.T, data []byte) (all []drawn, layers map[string]bool, header map[string]float64) {
	t.Helper()
	layers, header = map[string]bool{}, map[string]float64{}
	section, inLayer, name, open := "", false, "", false
	ps := pairsOf(t, data)
	if last := ps[len(ps)-1]; last != (pair{0, "EOF"}) {
		t.Errorf("ends with %v", last)
	}
	for i, p := range ps {
		switch {
		case p == pair{0, "SECTION"}:
			section = ps[i+1].value
		case p == pair{0, "ENDSEC"}:
			section = ""
		case section == "HEADER" && p.code == 9:
			name = p.value
		case section == "HEADER" && (p.code == 10 || p.code == 20):
			header[name+strconv.Itoa(p.code)], _ = strconv.ParseFloat(p.value, 64)
		case section == "TABLES" && p.code == 0:
			inLayer = p.value == "LAYER"
		case section == "TABLES" && p.code == 2 && inLayer:
			layers[p.value] = true
		case section == "ENTITIES" && p.code == 0:
			switch p.value {
			case "VERTEX":
				if !open {
					t.Error("a VERTEX outside a POLYLINE")
				}
				continue
			case "SEQEND":
				open = false
				continue
			}
			if open {
				t.Error("a POLYLINE without SEQEND")
			}
			open = p.value == "POLYLINE"
			all = append(all, readEntity(ps[i+1:], p.value))
		}
	}
	return all, layers, header
}

// readEntity reads the groups of one entity, of a polyline with its vertices.
func readEntity(ps []pair, kind string) drawn {
	d := drawn{kind: kind}
	inVertex := kind != "POLYLINE" // its own place means nothing
	for _, p := range ps {
		v, _ := strconv.ParseFloat(p.value, 64)
		switch p.code {
		case 0:
			if kind != "POLYLINE" || p.value != "VERTEX" {
				return d
			}
			inVertex = true
		case 8:
			d.layer = p.value
		case 1:
			d.text = unescaped(p.value)
		case 10, 11:
			if inVertex {
				d.ps = append(d.ps, [2]float64{v, math.NaN()})
			}
		case 20, 21:
			if inVertex {
				d.ps[len(d.ps)-1][1] = v
			}
		case 40:
			d.size = v
		case 70:
			d.closed = p.value == "1"
		}
	}
	return d
}

var unicodeSign = regexp.MustCompile(`\\U\+[0-9A-F]{4}`)

func unescaped(s string) string {
	return unicodeSign.ReplaceAllStringFunc(s, func(m string) string {
		n, _ := strconv.ParseUint(m[3:], 16, 32)
		return string(rune(n))
	})
}

// long is the length of an entity in metres.
func (d drawn) long() (sum float64) {
	ps := d.ps
	if d.closed {
		ps = append(ps[:len(ps):len(ps)], ps[0])
	}
	for i := 1; i < len(ps); i++ {
		sum += math.Hypot(ps[i][0]-ps[i-1][0], ps[i][1]-ps[i-1][1])
	}
	return sum
}

func dxfOf(t *testing.T, f *layout.Frame) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := DXF(&b, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestDXFMeasuresTrue measures a drawing of known size: a wall of 10 m, a lawn of
// 6 m by 4 m whose outline is 20 m and which is closed, a lamp at 5 m, 2 m.
func TestDXFMeasuresTrue(t *testing.T) {
	s := tenMetres().Plan.Scheme
	s.Areas = doc.NewSet(&doc.Area{ID: "A1", Tag: "A1", Kind: "lawn", Name: "50 %% ^J \\U+0041 Rasen-Stück 🌳\nnorth",
		Ring: []geom.Point{geom.Pt(-1, -1), geom.Pt(5, -1), geom.Pt(5, 3), geom.Pt(-1, 3)}})
	s.Lamps = doc.NewSet(&doc.Lamp{ID: "L1", Tag: "L1", Place: doc.Place{At: geom.Pt(5, 2)}})
	s.Marks = doc.NewSet(&doc.Mark{ID: "M1", Tag: "M1", Kind: "tree", Place: doc.Place{At: geom.Pt(8, 8)}, Radius: geom.Metres(0.3), Crown: geom.Metres(2.5)})
	s.Dimensions = doc.NewSet(&doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Aligned, From: doc.Anchor{On: "N1"}, To: doc.Anchor{On: "N1", Corner: 1}, Offset: geom.Metres(-0.5)})
	all, layers, header := drawing(t, dxfOf(t, &layout.Frame{Scheme: s}))
	seen := map[string]bool{}
	for _, d := range all {
		if !layers[d.layer] {
			t.Errorf("layer %s is in no table", d.layer)
		}
		if !regexp.MustCompile(`^[A-Z0-9-]{1,31}$`).MatchString(d.layer) {
			t.Errorf("layer %q is no name of release 12", d.layer)
		}
		what := d.kind + " " + d.layer
		seen[what+" "+d.text] = true
		switch what {
		case "LINE LINE-WALL":
			if math.Abs(d.long()-10) > 1e-9 {
				t.Errorf("the wall is %.6f m, want 10", d.long())
			}
		case "POLYLINE AREA-LAWN":
			if !d.closed || len(d.ps) != 4 || math.Abs(d.long()-20) > 1e-9 {
				t.Errorf("the lawn: closed %v, %d corners, %.6f m about", d.closed, len(d.ps), d.long())
			}
		case "CIRCLE LAMP":
			if d.ps[0] != [2]float64{5, 2} || d.size != 0.1 {
				t.Errorf("the lamp stands at %v, radius %g m", d.ps[0], d.size)
			}
		case "CIRCLE MARK-TREE-CROWN":
			if d.size != 2.5 {
				t.Errorf("the crown has a radius of %g m", d.size)
			}
		case "TEXT TEXT-TAG":
			if d.size != 0.1 { // 2 mm at 1:50
				t.Errorf("text %q is %g m high, want 0.1", d.text, d.size)
			}
		}
	}
	for _, want := range []string{"LINE LINE-WALL ", "POLYLINE AREA-LAWN ", "CIRCLE LAMP ", "TEXT TEXT-TAG L1", "CIRCLE MARK-TREE ", "CIRCLE MARK-TREE-CROWN ",
		"TEXT TEXT-DIMENSION 10.000 m", "TEXT TEXT-GROUND 50 %% ^J \\U+0041 Rasen-Stück ? north"} {
		if !seen[want] {
			t.Errorf("%q is not in the drawing", want)
		}
	}
	if header["$EXTMIN10"] > -1 || header["$EXTMAX10"] < 13 || header["$EXTMAX20"] < 10.5 {
		t.Errorf("extents %v do not hold the drawing", header)
	}
}

// TestDXFRuns: in the whole example every run has its plan length, which the cut
// list measured apart from the drawing, on the layer of its voltage.
func TestDXFRuns(t *testing.T) {
	f := frameOf(t, townhouse)
	all, _, _ := drawing(t, dxfOf(t, f))
	i, count := 0, map[string]int{}
	for _, d := range all {
		count[d.kind+" "+d.layer]++
		if !strings.HasPrefix(d.layer, "RUN-") {
			continue
		}
		l := f.Circuits.Lengths[i]
		if want := float64(l.Plan); math.Abs(d.long()-want) > 1e-5 {
			t.Errorf("%s is %.6f m long, the cut list says %.6f m", l.Tag, d.long(), want)
		}
		c, ok := f.Stock.Cable(f.Scheme.Runs.All()[i].Cable)
		if ok && c.Mains != (d.layer == layerMains) && d.layer != layerUnfed {
			t.Errorf("%s in %s is on %s", l.Tag, c.Name, d.layer)
		}
		i++
	}
	if i != f.Scheme.Runs.Len() {
		t.Errorf("%d runs drawn, want %d", i, f.Scheme.Runs.Len())
	}
	if n := count["CIRCLE LAMP"]; n != f.Scheme.Lamps.Len() || n == 0 {
		t.Errorf("%d lamps drawn, want %d", n, f.Scheme.Lamps.Len())
	}
}

// TestDXFEverything: one of everything, and nothing at all, are both read back.
func TestDXFEverything(t *testing.T) {
	s, _, _ := garden.Small()
	all, layers, _ := drawing(t, dxfOf(t, &layout.Frame{Scheme: s, Circuits: &derive.Circuits{}}))
	for _, l := range []string{"BOX", "LAMP", "GEAR", "SOURCE", "SUPPLY-POINT", layerUnfed, "TEXT-RUN", "AREA-BUILDING"} {
		if !layers[l] {
			t.Errorf("no layer %s", l)
		}
	}
	if n := len(all); n < 100 {
		t.Errorf("only %d entities", n)
	}
	if all, _, _ := drawing(t, dxfOf(t, &layout.Frame{Scheme: &doc.Scheme{}})); len(all) != 0 {
		t.Errorf("an empty scheme has %d entities", len(all))
	}
}

// FuzzDXFText: whatever a name is, its text is short plain ASCII that reads back.
func FuzzDXFText(f *testing.F) {
	for _, h := range cellTexts {
		f.Add(h.text)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got := dxfText(s)
		if len(got) > longest || strings.ContainsFunc(got, func(r rune) bool { return r < ' ' || r > '~' }) {
			t.Fatalf("%q became %q", s, got)
		}
		if unescaped(got) != plain(s) && len(got) < longest-12 && !strings.ContainsFunc(s, func(r rune) bool { return r > 0xFFFF }) {
			t.Fatalf("%q reads back as %q", s, unescaped(got))
		}
	})
}
