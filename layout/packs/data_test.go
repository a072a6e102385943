package packs

import (
	"bytes"
	"context"
	"encoding/csv"
	"strconv"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/file"

	"github.com/xuri/excelize/v2"
)

// TestDataFiles: every file is there and not empty, the same scheme gives the same
// bytes, and the list of materials in CSV and in the workbook is the one that is
// printed.
func TestDataFiles(t *testing.T) {
	for _, path := range []string{example, mistakes, sixty, three} {
		in := input(t, path)
		files, err := DataFiles(context.Background(), in, 400)
		if err != nil {
			t.Fatal(err)
		}
		again, err := DataFiles(context.Background(), input(t, path), 400)
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		byName := map[string][]byte{}
		for i, f := range files {
			names = append(names, f.Name)
			byName[f.Name] = f.Data
			if len(f.Data) == 0 || !bytes.Equal(f.Data, again[i].Data) {
				t.Errorf("%s, %s: %d bytes; the same again %v", path, f.Name, len(f.Data), bytes.Equal(f.Data, again[i].Data))
			}
		}
		want := "plan.dxf plan.svg plan.png materials.csv lengths.csv drums.csv readings.csv data.xlsx"
		if len(in.Frame.Scheme.Decisions) > 0 {
			want = strings.Replace(want, "data.xlsx", "overruled.csv data.xlsx", 1)
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("%s: files %s, want %s", path, got, want)
		}
		rows, err := csv.NewReader(bytes.NewReader(byName["materials.csv"])).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		x, err := excelize.OpenReader(bytes.NewReader(byName["data.xlsx"]))
		if err != nil {
			t.Fatal(err)
		}
		list := newBook(in).materials()
		if len(rows) != len(list)+1 || len(list) == 0 {
			t.Fatalf("%s: %d rows of %d materials", path, len(rows), len(list))
		}
		sheet, err := x.GetRows("Materials", excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		for i, m := range list {
			if r := rows[i+1]; r[1] != m.name || amountOf(t, r[2], m.places) != digits(m.amount, m.places) || sheet[i+1][2] != r[2] {
				t.Errorf("%s: row %v and %v of %v", path, r, sheet[i+1], m)
			}
		}
		x.Close()
	}
}

// amountOf writes a figure of a CSV as the printed list does.
func amountOf(t *testing.T, s string, places int) string {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return digits(v, places)
}

// TestDataStops: no file is handed out when the context ends or the width is none.
func TestDataStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if files, err := DataFiles(ctx, input(t, three), 0); err == nil || files != nil {
		t.Errorf("stopped: %d files, %v", len(files), err)
	}
	if files, err := DataFiles(context.Background(), input(t, three), 1); err == nil || files != nil {
		t.Errorf("one pixel: %d files, %v", len(files), err)
	}
}

// TestDataSaysStop: the workbook names the Stop findings that stand.
func TestDataSaysStop(t *testing.T) {
	files, err := DataFiles(context.Background(), input(t, mistakes), 400)
	if err != nil {
		t.Fatal(err)
	}
	x, err := excelize.OpenReader(bytes.NewReader(files[len(files)-1].Data))
	if err != nil {
		t.Fatal(err)
	}
	defer x.Close()
	rows, err := x.GetRows("About")
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if len(r) > 1 && strings.Contains(r[1], "Do not build from these figures") {
			return
		}
	}
	t.Errorf("the first sheet does not say that Stop findings stand: %v", rows)
}

// decided is the example with one finding decided against.
func decided(t testing.TB) Input {
	t.Helper()
	s, stock, _, err := file.Open(example, "", "")
	if err != nil {
		t.Fatal(err)
	}
	n := *s
	n.Decisions = []doc.Decision{{Code: "EAR-01", Subject: "L1", By: "A. Tester", On: "2026-05-01", Reason: "an electrode of its own"}}
	return inputOf(t, &n, stock, example)
}

// TestOverruledBesideTheLists: what was decided against goes with the lists and
// stands where two schemes are compared, with reason, name and date.
func TestOverruledBesideTheLists(t *testing.T) {
	in := decided(t)
	files, err := DataFiles(context.Background(), in, 400)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	for _, f := range files {
		if f.Name == "overruled.csv" {
			if rows, err = csv.NewReader(bytes.NewReader(f.Data)).ReadAll(); err != nil {
				t.Fatal(err)
			}
		}
	}
	keys := "code level subject text by on reason"
	if len(rows) != 2 || strings.Join(rows[0], " ") != keys || rows[1][0] != "EAR-01" || strings.Join(rows[1][4:], "|") != "A. Tester|2026-05-01|an electrode of its own" {
		t.Errorf("overruled.csv holds %q", rows)
	}
	notes := strings.Join(Compare(in, input(t, example)).Notes, "\n")
	if !strings.Contains(notes, "A: Overruled: Decide EAR-01: ") || !strings.Contains(notes, "Reason: an electrode of its own (A. Tester, 2026-05-01)") || strings.Contains(notes, "B: Overruled") {
		t.Errorf("the comparison says: %s", notes)
	}
}
