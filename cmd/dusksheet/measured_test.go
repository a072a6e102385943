package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// tested is the town house with two days of readings behind it: a poor contact and a
// missing path put right on the second day, electronics that were left in, a lamp
// that loses volts, a loop that is too good, a device that trips late.
func tested(t *testing.T) string {
	t.Helper()
	var all []byte
	for _, name := range []string{example, "testdata/tests.yaml"} {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, data...)
	}
	path := filepath.Join(t.TempDir(), "tested.yaml")
	if err := os.WriteFile(path, all, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestMeasured keeps what readings --measured prints; the exit code follows the
// findings that the readings bring.
func TestMeasured(t *testing.T) {
	path := tested(t)
	for _, format := range []string{"text", "json", "csv"} {
		code, out, errs := sheet("readings", path, "--measured", "--format", format)
		if code != 1 || errs != "" {
			t.Fatalf("%s: exit %d, %s; want 1 for the device that trips late", format, code, errs)
		}
		golden := filepath.Join("testdata", "townhouse-measured."+format)
		if *update {
			if err := os.WriteFile(golden, []byte(out), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if out != string(want) {
			t.Errorf("%s differs from %s; look at the difference and run with -update if it is meant", format, golden)
		}
		if format == "json" && !json.Valid([]byte(out)) {
			t.Error("not valid JSON")
		}
		if format == "csv" {
			rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
			if err != nil || len(rows) < 60 {
				t.Errorf("CSV of %d rows: %v", len(rows), err)
			}
		}
	}
	_, out, _ := sheet("findings", path)
	for _, want := range []string{"Stop TST-01 SP1: RCD trip current", "Decide TST-02 L7: Fault loop Zs", "Decide TST-02 L10: Volts", "Note TST-03 SP1", "Stop 1, Decide 4"} {
		if !strings.Contains(out, want) {
			t.Errorf("findings lack %q", want)
		}
	}
	if strings.Contains(out, "L6: R1+R2") {
		t.Error("a reading that was taken again still speaks")
	}
	for _, bad := range [][]string{
		{"findings", path, "--measured"}, {"readings", path, "--format", "csv"}, {"readings", path, "--measured", "--format", "xml"},
	} {
		if code, _, errs := sheet(bad...); code != 2 || !strings.Contains(errs, "expected") {
			t.Errorf("%v: exit %d, %s", bad, code, errs)
		}
	}
}
