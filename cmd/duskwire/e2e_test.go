//go:build e2e

// The window as a person meets it: a real X server without a monitor, a real
// pointer and keyboard, the program itself. Run it with make e2e.
package main_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// grid of the scheme that the test draws on, in metres.
const grid = 0.5

// emptyScheme writes a scheme with nothing on its plan.
func emptyScheme(t *testing.T) string {
	t.Helper()
	return emptyPlan(t, true)
}

// emptyPlan writes one whose scale was checked, or not.
func emptyPlan(t *testing.T, checked bool) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "drawn.yaml")
	s := &doc.Scheme{
		Title: "Drawn by the test", Rules: "uk-18", Country: "England",
		Plan: doc.Plan{Scale: 50, Grid: geom.Metres(grid), Checked: checked},
	}
	if err := file.SaveScheme(path, s); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestDraw draws a small garden by hand, saves it, and compares what the
// window says with what dusksheet says about the file.
func TestDraw(t *testing.T) {
	s := newScreen(t, 1280, 800)
	path := emptyScheme(t)
	p := s.run("1", path)

	// Five places on the grid, spread over the middle of the board.
	supplyX, supplyY := p.spot(0.2, 0.3)
	boxX, boxY := p.spot(0.45, 0.3)
	lamp1X, lamp1Y := p.spot(0.7, 0.3)
	lamp2X, lamp2Y := p.spot(0.7, 0.6)
	movedX, movedY := p.spot(0.45, 0.7)

	p.place(keySupply, "SP1", supplyX, supplyY)
	p.place(keyBox, "B1", boxX, boxY)
	p.place(keyLamp, "L1", lamp1X, lamp1Y)
	p.place(keyLamp, "L2", lamp2X, lamp2Y)

	p.route(1, supplyX, supplyY, boxX, boxY)
	p.route(2, boxX, boxY, lamp1X, lamp1Y)
	before := *p.await("no loose L1", func(f *frame) bool { return !f.has("CIR-01", "L1") })
	if !before.has("CIR-01", "L2") {
		t.Errorf("L2 hangs on no run, yet the findings do not say so: %+v", before.Findings)
	}

	p.key(keySelect)
	p.drag(lamp1X, lamp1Y, movedX, movedY)
	after := p.await("L1 in its new place", func(f *frame) bool {
		x, y, _ := f.place("L1")
		return math.Hypot(x-movedX, y-movedY) < 0.001 && !f.Preview
	})
	if after.Totals.Cable == before.Totals.Cable {
		t.Errorf("L1 moved by %.1f m and the cable total stayed %g m", math.Hypot(movedX-lamp1X, movedY-lamp1Y), before.Totals.Cable)
	}

	p.key("ctrl+z")
	p.await("L1 back where it was", func(f *frame) bool {
		x, y, _ := f.place("L1")
		return math.Hypot(x-lamp1X, y-lamp1Y) < 0.001
	})
	p.key("ctrl+y")
	p.await("L1 moved again", func(f *frame) bool {
		x, y, _ := f.place("L1")
		return math.Hypot(x-movedX, y-movedY) < 0.001
	})

	if !p.last.Unsaved {
		t.Error("drawn on, yet not marked as unsaved")
	}
	p.key("ctrl+s")
	saved := p.await("the file to be saved", func(f *frame) bool { return !f.Unsaved })
	s.picture("window.png")
	compare(t, saved, path)
	p.quit()
}

func (f *frame) has(code, subject string) bool {
	for _, x := range f.Findings {
		if x.Code == code && x.Subject == subject {
			return true
		}
	}
	return false
}

// compareRows holds the rows of the panel against dusksheet's findings. Notes
// below something worse are folded away; the last row counts them.
func compareRows(t *testing.T, f *frame, want []found) {
	t.Helper()
	rows, notes := f.Rows, 0
	if n := len(rows); n > 0 && f.Totals.Note > 1 && rows[n-1] == fmt.Sprintf("%d Notes", f.Totals.Note) {
		rows, notes = rows[:n-1], f.Totals.Note
	}
	if len(rows)+notes != len(want) {
		t.Fatalf("the panel shows %d rows and folds %d notes away for %d findings: %q", len(rows), notes, len(want), rows)
	}
	for i, row := range rows {
		x := want[i]
		for _, part := range []string{x.Code, x.Level, x.Subject, x.Text} {
			if !strings.Contains(strings.ToLower(row), strings.ToLower(part)) {
				t.Errorf("row %d of the panel is %q, without %q of dusksheet", i+1, row, part)
			}
		}
	}
}

// compare holds the window's frame against dusksheet's reading of the file.
func compare(t *testing.T, f *frame, path string) {
	t.Helper()
	var sheet struct {
		Counts   struct{ Stop, Decide, Note int }
		Findings []found
	}
	code := sheetJSON(t, &sheet, "findings", path)
	if !reflect.DeepEqual(f.Findings, sheet.Findings) {
		t.Errorf("findings differ\nwindow    %+v\ndusksheet %+v", f.Findings, sheet.Findings)
	}
	compareRows(t, f, sheet.Findings)
	if want := map[bool]int{true: 1, false: 0}[f.Totals.Stop > 0]; code != want {
		t.Errorf("dusksheet findings ended with %d, want %d with %d Stop findings in the window", code, want, f.Totals.Stop)
	}
	c := sheet.Counts
	if c.Stop != f.Totals.Stop || c.Decide != f.Totals.Decide || c.Note != f.Totals.Note {
		t.Errorf("dusksheet counts %+v, the window %+v", c, f.Totals)
	}
	var readings struct {
		Points []struct{ Tag string }
		Runs   []struct {
			Tag string
			Cut float64 `json:"cut_length_m"`
		}
	}
	sheetJSON(t, &readings, "readings", path)
	sum := 0.0
	for _, r := range readings.Runs {
		sum += r.Cut
	}
	if len(readings.Runs) != len(f.Runs) || math.Abs(sum-f.Totals.Cable) > 1e-6 {
		t.Errorf("dusksheet measures %d runs, %g m; the window %d runs, %g m", len(readings.Runs), sum, len(f.Runs), f.Totals.Cable)
	}
	compareLengths(t, f, path)
	fed := false
	for _, point := range readings.Points {
		fed = fed || point.Tag == "L1"
	}
	if !fed {
		t.Errorf("dusksheet has no reading at L1: %+v", readings.Points)
	}
}

// compareLengths holds the runs of the window against dusksheet's cut list.
func compareLengths(t *testing.T, f *frame, path string) {
	t.Helper()
	var lengths struct {
		Pieces []struct {
			Run string
			Cut float64 `json:"cut_length_m"`
		}
	}
	sheetJSON(t, &lengths, "lengths", path)
	var tags []string
	sum := 0.0
	for _, x := range lengths.Pieces {
		tags, sum = append(tags, x.Run), sum+x.Cut
	}
	if !reflect.DeepEqual(tags, f.Runs) || math.Abs(sum-f.Totals.Cable) > 1e-6 {
		t.Errorf("dusksheet cuts %v, %g m; the window shows %v, %g m", tags, sum, f.Runs, f.Totals.Cable)
	}
}

// sheetJSON runs dusksheet, decodes its answer and returns the exit code.
func sheetJSON(t *testing.T, into any, command, path string) int {
	t.Helper()
	cmd := exec.Command(binary(t, "DUSKSHEET_BIN", "dusksheet"), command, path, "--format", "json")
	out, err := cmd.Output()
	var exit *exec.ExitError
	if err != nil && !(errors.As(err, &exit) && exit.ExitCode() == 1) {
		t.Fatalf("dusksheet %s: %v", command, err)
	}
	if err := json.Unmarshal(out, into); err != nil {
		t.Fatalf("dusksheet %s: %v\n%s", command, err, out)
	}
	return cmd.ProcessState.ExitCode()
}

// TestExample opens the program as a newcomer does, at both common scales,
// and leaves pictures to look at.
func TestExample(t *testing.T) {
	for _, row := range []struct {
		scale, picture string
		width, height  int
	}{
		{"1", "example.png", 1280, 800},
		{"2", "example-200.png", 2560, 1600},
	} {
		t.Run(row.scale, func(t *testing.T) {
			s := newScreen(t, row.width, row.height)
			p := s.run(row.scale)
			f := p.await("the example's lamps", func(f *frame) bool { return f.Totals.Lamps > 0 })
			if f.Totals.Stop != 0 || f.Unsaved {
				t.Errorf("the example opens with %d Stop findings, unsaved %v", f.Totals.Stop, f.Unsaved)
			}
			s.picture(row.picture)
			p.quit()
		})
	}
}
