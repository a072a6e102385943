package panel

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/network"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

var update = flag.Bool("update", false, "write the masters of the panels anew")

// dump writes what an object shows, a line a part, told by kind: words, fields
// with what stands in them, lists with their choice, ticks and buttons. Places
// and sizes are left out: they go with the font.
func dump(o fyne.CanvasObject) string { return dumped(o, false) }

// dumpPlaced is dump with the place and the size of every part in whole units. The
// toolkit brings the font of tests along, so that they are the same everywhere.
func dumpPlaced(o fyne.CanvasObject) string { return dumped(o, true) }

func dumped(o fyne.CanvasObject, placed bool) string {
	var out strings.Builder
	at := fyne.Position{} // of the part that is walked
	var part fyne.CanvasObject
	say := func(depth int, format string, a ...any) {
		where := ""
		if placed {
			where = fmt.Sprintf("%.0f,%.0f %.0f×%.0f  ", at.X, at.Y, part.Size().Width, part.Size().Height)
		}
		fmt.Fprintf(&out, "%s%s%s\n", strings.Repeat("  ", depth), where, fmt.Sprintf(format, a...))
	}
	var walk func(fyne.CanvasObject, int)
	walk = func(o fyne.CanvasObject, depth int) {
		if o == nil || !o.Visible() {
			return
		}
		before := at
		at, part = at.Add(o.Position()), o
		defer func() { at = before }()
		switch o := o.(type) {
		case *widget.Label:
			if text := strings.TrimSpace(o.Text); text != "" {
				mark := ""
				if o.TextStyle.Bold {
					mark = "# "
				}
				say(depth, "%s%s", mark, strings.ReplaceAll(unkept(text), "\n", " / "))
			}
		case *Field:
			say(depth, "[%s] %s", o.Text, o.PlaceHolder)
		case *Pick:
			say(depth, "<%s> of %d", o.Selected, len(o.Options))
		case *tick:
			say(depth, "(%s) %s", map[bool]string{true: "x", false: " "}[o.Checked], o.Text)
		case *Button:
			text := o.Text
			if o.whole != "" { // wherever lines end
				text = o.whole
			}
			say(depth, "{%s}", text)
		case *Icon:
			if placed && o.Resource != nil {
				say(depth, "(%s)", o.Resource.Name())
			}
		case *slider:
			say(depth, "-%g- of %g to %g", o.Value, o.Min, o.Max)
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c, depth)
			}
		case *container.Scroll:
			walk(o.Content, depth)
		case *findingRow:
			say(depth, "row%s", map[bool]string{true: " open", false: ""}[o.open])
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c, depth+1)
			}
		case *Hinted:
			if o.Of != nil {
				say(depth, "with a tip:")
				depth++
			}
			walk(o.content, depth)
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c, depth)
			}
		}
	}
	walk(o, 0)
	return out.String()
}

// master compares a dump with the one kept in testdata.
func master(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name+".txt")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run the test with -update", err)
	}
	a, b := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range max(len(a), len(b)) {
		at := func(s []string) string {
			if i < len(s) {
				return s[i]
			}
			return "(no more)"
		}
		if at(a) != at(b) {
			t.Errorf("%s:%d: found %q, expected %q; read the difference, then run with -update", path, i+1, at(b), at(a))
			return
		}
	}
}

// TestMastersOfProperties keeps the form of every kind of thing.
func TestMastersOfProperties(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	s := d.Frame().Scheme
	first := func(k doc.Kind) doc.ID {
		id := doc.ID("")
		doc.Each(s, func(e doc.Entity, kind doc.Kind) {
			if kind == k && id == "" {
				id = e.Key()
			}
		})
		return id
	}
	kinds := map[string]doc.Kind{
		"supply": doc.SupplyKind, "box": doc.BoxKind, "lamp": doc.LampKind, "source": doc.SourceKind, "run": doc.RunKind,
		"zone": doc.ZoneKind, "area": doc.AreaKind, "line": doc.LineKind, "mark": doc.MarkKind,
	}
	p, _ := properties(t, d, "")
	master(t, "properties-scheme", dump(p.Object()))
	for name, kind := range kinds {
		id := first(kind)
		if id == "" {
			t.Errorf("the example has no %s", name)
			continue
		}
		p.SetSelection([]doc.ID{id})
		master(t, "properties-"+name, dump(p.Object()))
	}
	p.SetSelection([]doc.ID{first(doc.LampKind), first(doc.RunKind)})
	master(t, "properties-many", dump(p.Object()))
	p.SetSelection([]doc.ID{s.Lamps.All()[0].ID, s.Lamps.All()[1].ID})
	master(t, "properties-many-lamps", dump(p.Object()))
	p.SetSelection([]doc.ID{s.Runs.All()[0].ID, s.Runs.All()[1].ID})
	master(t, "properties-many-runs", dump(p.Object()))
}

// TestMastersOfAddedThings keeps the forms of what the example does not have: a
// sensor that switches a zone, and a dimension.
func TestMastersOfAddedThings(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	s := d.Frame().Scheme
	key := ""
	for _, g := range d.Frame().Stock.Gear {
		if g.Kind == network.Sensor {
			key = g.Key
		}
	}
	z := *s.Zones.All()[0]
	z.Control = "G1"
	for _, op := range []edit.Operation{
		edit.Place{Entity: &doc.Gear{ID: "G1", Tag: "G1", Stock: key, Place: doc.Place{At: geom.Pt(3, 4), Height: geom.Metres(2)}}},
		edit.ChangeZone{Zone: &z},
		edit.AddDimension{Dimension: &doc.Dimension{ID: "D1", Tag: "D1", Kind: doc.Aligned, Offset: geom.Metres(0.5),
			From: doc.Anchor{On: s.Lamps.All()[0].ID}, To: doc.Anchor{At: geom.Pt(1, 2)}}},
	} {
		if err := d.Commit(op); err != nil {
			t.Fatal(err)
		}
	}
	p, _ := properties(t, d, "G1")
	master(t, "properties-gear", dump(p.Object()))
	p.SetSelection([]doc.ID{"D1"})
	master(t, "properties-dimension", dump(p.Object()))
}

// TestMastersOfEmptyPanels keeps what an empty scheme says: what to do next.
func TestMastersOfEmptyPanels(t *testing.T) {
	test.NewTempApp(t)
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	d := &counted{Desk: layout.NewDesk(stock, rules, doc.New(rules[0].Key), "")}
	w := NewWorkings(d)
	w.SetActive(true)
	master(t, "empty", "Properties\n"+dump(NewProperties(d).Object())+"\nFindings\n"+dump(NewFindings(d).Object())+
		"\nWorking\n"+dump(w.Object())+"\nLengths\n"+dump(NewLengths(d).Object()))
}

// TestMastersOfLists keeps the first rows of findings, workings and lengths.
func TestMastersOfLists(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	p.Next()
	master(t, "findings", dump(p.Object()))
	l := d.Frame().Circuits.Lengths
	row := newLengthRow(&Lengths{})
	out := ""
	for i := range min(3, len(l)) {
		row.fill(i, &l[i])
		out += dump(row)
	}
	master(t, "lengths", out)
}

// TestMastersFilled keeps what the working, the history and the bottom line show,
// filled, and where: the working of a run with one check laid open, the history in
// its middle, the bottom line with a place and a hint.
func TestMastersFilled(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	shown := func(o fyne.CanvasObject, width, height float32) string {
		t.Helper()
		w := test.NewTempWindow(t, o)
		w.SetPadded(false)
		for _, more := range []float32{1, 0} { // words know their lines once they have a width
			w.Resize(fyne.NewSize(width+more, height))
		}
		return dumpPlaced(o)
	}
	w := NewWorkings(d)
	w.SetActive(true)
	run := d.Frame().Scheme.Runs.All()[0].ID
	w.SetSelection([]doc.ID{run})
	w.Open(d.Desk.Explain(run)[0])
	master(t, "working-filled", shown(w.Object(), 330, 600))

	h := NewHistory(d)
	d.Subscribe(h.SetFrame)
	h.SetActive(true)
	lamp := d.Frame().Scheme.Lamps.All()[0].ID
	for i := range 3 {
		if err := d.Commit(edit.MovePoints{IDs: []doc.ID{lamp}, By: geom.Pt(0.1, 0)}); err != nil {
			t.Fatalf("step %d: %v", i, err)
		}
	}
	if err := d.Commit(edit.Delete{IDs: []doc.ID{lamp}}); err != nil {
		t.Fatal(err)
	}
	d.GoTo(2)
	master(t, "history-filled", shown(h.Object(), 330, 400))

	s := NewStatus(d.Frame())
	s.SetScale(50)
	s.SetPointer(geom.Pt(12.345, 6.7), true)
	s.SetHint("Click where the run goes next; Return ends it in the air", false)
	wide := shown(container.NewVBox(s.Object(), s.Help()), 1280, 80)
	s.SetNarrow(true)
	s.SetFrame(d.Frame())
	master(t, "status-filled", wide+"narrow\n"+shown(container.NewVBox(s.Object(), s.Help()), 760, 80))
}
