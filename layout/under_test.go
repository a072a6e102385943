package layout_test

import (
	"context"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/picture"
)

func writePicture(t *testing.T, path string, c color.Color) {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, 40, 30))
	for i := range 1200 {
		m.Set(i%40, i/40, c)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, m); err != nil {
		t.Fatal(err)
	}
}

func underDesk(t *testing.T) (*layout.Desk, *picture.Cache, string) {
	t.Helper()
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "plan.png")
	writePicture(t, path, color.White)
	cache := &picture.Cache{}
	p, err := cache.Read(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	d := layout.NewDesk(stock, rules, doc.New("uk-18"), "")
	if err := d.Commit(edit.PlacePicture{Underlay: doc.Underlay{File: path, Sum: p.Sum, Width: 40, Height: 30, Pixel: 0.1}}); err != nil {
		t.Fatal(err)
	}
	return d, cache, path
}

func noted(f *layout.Frame, code finding.Code) *finding.Finding {
	for i := range f.Findings {
		if f.Findings[i].Code == code {
			return &f.Findings[i]
		}
	}
	return nil
}

// CIR-10 goes from no scale, over not checked, to gone at 1 % and back beyond
// it; the figure is the error.
func TestScaleFinding(t *testing.T) {
	d, _, _ := underDesk(t)
	say := func(want string) *finding.Finding {
		t.Helper()
		f := noted(d.Frame(), "CIR-10")
		switch {
		case f == nil && want != "" || f != nil && want == "":
			t.Errorf("CIR-10: %v, want %q", f, want)
		case f != nil && (!strings.Contains(f.Text, want) || f.Level != finding.Note):
			t.Errorf("CIR-10: %v %s, want %q", f.Level, f.Text, want)
		}
		return f
	}
	do := func(op edit.Operation) {
		t.Helper()
		if err := d.Commit(op); err != nil {
			t.Fatal(err)
		}
	}
	say("has no scale yet")
	do(edit.ScalePicture{Known: doc.Measure{To: doc.Spot{X: 40}, Length: 8 * geom.Metre}}) // 0.2 m a pixel
	say("was not compared with a second one")
	check := func(length geom.Length) { // 20 pixels are 4 m
		do(edit.CheckPicture{Check: doc.Measure{To: doc.Spot{Y: 20}, Length: length}})
	}
	check(geom.Metres(4 / 1.01)) // on the limit
	say("")
	check(geom.Metres(4 / 0.99))
	say("")
	check(geom.Metres(3.9))
	if f := say("measures 4 m on the picture plan.png and is 3.9 m"); f != nil && (f.Figure != "+2.56 %" || f.Limit != "at most 1 % either way") {
		t.Errorf("%q, %q", f.Figure, f.Limit)
	}
	plan := d.Frame().Scheme.Plan
	plan.Checked = true // does not silence a check that fails
	do(edit.SetPlan{Plan: plan})
	say("in truth")
	plan.Underlay.Check = doc.Measure{}
	do(edit.SetPlan{Plan: plan})
	say("")
	do(edit.RemovePicture{})
	say("")
}

// PIC-01 is a Note when the file is gone or another one, and nothing before it
// was looked at; the rest of the scheme does not change.
func TestPictureFinding(t *testing.T) {
	d, cache, path := underDesk(t)
	look := func(want string) {
		t.Helper()
		d.SetUnder(layout.ReadUnder(context.Background(), cache, "", d.Frame().Scheme))
		f := noted(d.Frame(), "PIC-01")
		switch {
		case f == nil && want == "":
		case f == nil || want == "" || !strings.Contains(f.Text, want) || f.Level != finding.Note:
			t.Errorf("PIC-01: %v, want %q", f, want)
		}
	}
	if noted(d.Frame(), "PIC-01") != nil {
		t.Error("PIC-01 before the file was looked at")
	}
	look("")
	if d.Frame().Under.Picture == nil {
		t.Error("no picture in the frame")
	}
	writePicture(t, path, color.Black)
	look("is not the one that the plan was drawn over")
	if err := os.WriteFile(path, []byte("rubbish"), 0o644); err != nil {
		t.Fatal(err)
	}
	look("found neither PNG nor JPEG nor PDF")
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	look("there is no such file")
	if !d.Frame().Under.Missing() {
		t.Error("missing is not said")
	}
	if err := d.Commit(edit.RemovePicture{}); err != nil {
		t.Fatal(err)
	}
	if d.Frame().Under != nil || noted(d.Frame(), "PIC-01") != nil {
		t.Error("a picture that was taken away is still missed")
	}
	if d.Undo(); noted(d.Frame(), "PIC-01") == nil {
		t.Error("undo forgets what is known of the file")
	}
}

// Moving the picture leaves every circuit as it was.
func TestPictureTouchesNoCircuit(t *testing.T) {
	d, _, _ := underDesk(t)
	before := d.Frame().Circuits
	if err := d.Commit(edit.MovePicture{By: geom.Pt(1, 1)}); err != nil {
		t.Fatal(err)
	}
	for i := range before.Circuits {
		if before.Circuits[i].Input.Net != d.Frame().Circuits.Circuits[i].Input.Net {
			t.Error("a circuit was built again")
		}
	}
}
