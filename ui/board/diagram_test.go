package board

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"duskwire/assets"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/scene"
)

// newDiagram opens the circuit of the example in a window.
func newDiagram(t testing.TB, cfg DiagramConfig) (*Diagram, *layout.Frame, func()) {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	data, err := assets.FS.ReadFile("examples/townhouse.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("townhouse.yaml", data, stock)
	if err != nil {
		t.Fatal(err)
	}
	f := layout.NewDesk(stock, rules, s, "").Frame()
	test.NewTempApp(t)
	d := NewDiagram(cfg)
	w := test.NewTempWindow(t, d)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(600, 400))
	d.SetFrame(f)
	d.SetActive(true)
	paint := func() { w.Canvas().Capture() }
	paint()
	return d, f, paint
}

func mouse(p fyne.Position, b desktop.MouseButton) *desktop.MouseEvent {
	e := &desktop.MouseEvent{Button: b}
	e.Position, e.AbsolutePosition = p, p
	return e
}

// TestDiagramSelects clicks what the diagram shows.
func TestDiagramSelects(t *testing.T) {
	var told []doc.ID
	var opened doc.ID
	now := time.Unix(0, 0)
	d, f, _ := newDiagram(t, DiagramConfig{Now: func() time.Time { return now }, OnSelect: func(ids []doc.ID) { told = ids }, OnOpen: func(id doc.ID) { opened = id }})
	click := func(tag string) doc.ID {
		t.Helper()
		id := doc.WithTag(f.Scheme, tag).Key()
		d.FlyTo(id)
		p, ok := d.Where(id)
		if !ok {
			t.Fatalf("%s is not drawn", tag)
		}
		d.MouseMoved(mouse(p, 0))
		if d.hover != id {
			t.Errorf("hover over %s is %q", tag, d.hover)
		}
		d.MouseDown(mouse(p, desktop.MouseButtonPrimary))
		d.MouseUp(mouse(p, desktop.MouseButtonPrimary))
		return id
	}
	for _, tag := range []string{"B1", "R4", "L15", "S1"} {
		now = now.Add(time.Second)
		if id := click(tag); len(told) != 1 || told[0] != id {
			t.Errorf("a click on %s selects %v", tag, told)
		}
	}
	if opened != "" {
		t.Errorf("single clicks open %s", opened)
	}
	if id := click("S1"); opened != id {
		t.Errorf("a double click on S1 opens %q", opened)
	}
}

// TestDiagramImageIsKept: hover, selection and short ways do not draw the image
// anew.
func TestDiagramImageIsKept(t *testing.T) {
	d, f, paint := newDiagram(t, DiagramConfig{})
	d.FlyTo(doc.WithTag(f.Scheme, "B1").Key())
	paint()
	was := d.picture.draws
	d.SetSelection([]doc.ID{doc.WithTag(f.Scheme, "B1").Key()})
	d.MouseMoved(mouse(fyne.NewPos(100, 100), 0))
	paint()
	if d.picture.draws != was {
		t.Errorf("drawn %d times more for marks", d.picture.draws-was)
	}
	at := d.place(fyne.NewPos(50, 50))
	d.MouseDown(mouse(fyne.NewPos(200, 200), desktop.MouseButtonPrimary))
	for x := float32(200); x > 160; x -= 4 {
		e := &fyne.DragEvent{}
		e.Position = fyne.NewPos(x, 200)
		d.Dragged(e)
		paint()
	}
	if d.picture.draws != was {
		t.Errorf("drawn %d times more on a short way", d.picture.draws-was)
	}
	if now := d.place(fyne.NewPos(50, 50)); now.X <= at.X || now.Y != at.Y {
		t.Errorf("the view went from %v to %v", at, now)
	}
	d.DragEnd()
	d.ZoomIn()
	paint()
	if d.picture.draws == was {
		t.Error("zooming did not draw")
	}
}

// TestDiagramWithoutCircuit says what is missing.
func TestDiagramWithoutCircuit(t *testing.T) {
	hint := ""
	d := NewDiagram(DiagramConfig{OnHint: func(s string) { hint = s }})
	test.NewTempApp(t)
	test.NewTempWindow(t, d)
	d.SetFrame(&layout.Frame{Scheme: doc.New("uk-18"), Stock: &doc.Stock{}})
	d.SetActive(true)
	for _, k := range []fyne.KeyName{fyne.KeyRight, fyne.KeyReturn, fyne.KeyHome, fyne.KeyEscape} {
		d.TypedKey(&fyne.KeyEvent{Name: k})
	}
	if hint == "" || hint[:8] != "There is" {
		t.Errorf("the hint is %q", hint)
	}
}

// BenchmarkDiagram draws the image of the example at 1280 x 800.
func BenchmarkDiagram(b *testing.B) {
	d, _, _ := newDiagram(b, DiagramConfig{})
	for b.Loop() {
		d.picture.stale = true
		d.picture.generate(1472, 992)
	}
}

// TestDiagramBegins: first all of it is shown where that can be read, else its
// beginning at a size that can; the hint says how to see all. What the person chose
// stays through another view.
func TestDiagramBegins(t *testing.T) {
	hint := ""
	d, _, paint := newDiagram(t, DiagramConfig{OnHint: func(s string) { hint = s }})
	win := fyne.CurrentApp().Driver().CanvasForObject(d)
	size := func(w, h float32) {
		for _, o := range fyne.CurrentApp().Driver().AllWindows() {
			if o.Canvas() == win {
				o.Resize(fyne.NewSize(w, h))
			}
		}
		paint()
	}
	supply := func() bool {
		p, ok := d.Where(doc.WithTag(d.frame.Scheme, "SP1").Key())
		return ok && p.X < d.size.Width && p.Y > 0 && p.Y < d.size.Height/2
	}
	if d.k < diagramLegible || d.whole() || !d.begun || !strings.Contains(hint, "Ctrl+0") {
		t.Errorf("in a small window %.2f units a mm, all seen %v; the hint is %q", d.k, d.whole(), hint)
	}
	if at := d.at(scene.XY{}); at.X < 0 || at.Y < 0 {
		t.Errorf("the upper left corner lies at %v", at)
	}
	size(800, 700)
	want := max(diagramLegible, min(unitsPerMM, float64(d.size.Width)/d.drawing.List.Width))
	if math.Abs(d.k-want) > 0.01 || want == diagramLegible || !d.begun || !supply() {
		t.Errorf("its width fits at %.2f, it begins at %.2f", want, d.k)
	}
	size(1900, 1500)
	if !d.whole() || d.k < diagramLegible || strings.Contains(hint, "Ctrl+0") {
		t.Errorf("in a large window %.2f units a mm, all seen %v; the hint is %q", d.k, d.whole(), hint)
	}
	size(600, 400)
	d.ZoomFit()
	if !d.whole() {
		t.Error("fitting does not show all")
	}
	d.ZoomIn()
	d.pan(-40, -30)
	at, k := d.origin, d.k
	d.SetActive(false)
	d.SetActive(true)
	size(700, 500)
	if d.origin != at || d.k != k {
		t.Errorf("the view went from %v at %.2f to %v at %.2f", at, k, d.origin, d.k)
	}
}

// TestDiagramKeysGoOn: keys and characters that the diagram has no use for go to the
// window, and no key of its own does.
func TestDiagramKeysGoOn(t *testing.T) {
	var keys []fyne.KeyName
	var runes string
	deleted, held := 0, true
	d, _, _ := newDiagram(t, DiagramConfig{OnKey: func(k fyne.KeyName) { keys = append(keys, k) },
		OnRune: func(r rune) { runes += string(r) }, OnDelete: func() { deleted++ }, OnEscape: func() bool { return held }})
	for _, k := range []fyne.KeyName{fyne.KeyF1, fyne.KeyDelete, fyne.KeyF6, fyne.KeyRight, fyne.KeyF9, fyne.KeyBackspace} {
		d.TypedKey(&fyne.KeyEvent{Name: k})
	}
	for _, r := range "l+?f" {
		d.TypedRune(r)
	}
	if want := []fyne.KeyName{fyne.KeyF1, fyne.KeyF6, fyne.KeyF9}; !slices.Equal(keys, want) || runes != "l?" || deleted != 2 {
		t.Errorf("keys %v, characters %q, deleted %d times", keys, runes, deleted)
	}
	d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if len(d.selected) == 0 {
		t.Error("Escape was for something else and selects nothing all the same")
	}
	held = false
	if d.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape}); len(d.selected) != 0 {
		t.Error("Escape leaves the selection")
	}
}
