package main

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// decided is the example with its one open decision taken.
func decided(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(example)
	if err != nil {
		t.Fatal(err)
	}
	data = append(data, "decisions:\n  - {code: EAR-01, subject: L1, by: A. Tester, on: \"2026-05-01\", reason: \"=an electrode, of its own\"}\n"...)
	path := filepath.Join(t.TempDir(), "decided.yaml")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestOverruledEverywhere: who decided what against the rules, when and why, comes
// with the night plan and with the list of readings.
func TestOverruledEverywhere(t *testing.T) {
	path, png := decided(t), filepath.Join(t.TempDir(), "night.png")
	const want = "\nOverruled: Decide EAR-01 L1: "
	for _, words := range [][]string{nil, {"--from", "V1"}} {
		code, out, errs := sheet(append([]string{"dusk", path, "--out", png}, words...)...)
		if code != exitClean || !strings.Contains(out, want) || !strings.Contains(out, "(A. Tester, 2026-05-01: =an electrode, of its own)\n") {
			t.Errorf("%v: exit %d, %s%s", words, code, out, errs)
		}
	}
	_, out, _ := sheet("dusk", path, "--out", png, "--format", "json")
	var said struct {
		Overruled []struct{ Code, By, On, Reason string } `json:"overruled"`
	}
	keys := map[string]any{}
	if json.Unmarshal([]byte(out), &keys) != nil || json.Unmarshal([]byte(out), &said) != nil || len(keys) != 4 || keys["caveat"] == nil || len(said.Overruled) != 1 {
		t.Errorf("JSON of the night plan: %s", out)
	}
	_, plain, _ := sheet("readings", example, "--measured", "--format", "csv")
	_, out, _ = sheet("readings", path, "--measured", "--format", "csv")
	before, err := csv.NewReader(strings.NewReader(plain)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil || len(rows) != len(before)+1 || !slices.Equal(rows[0], before[0]) {
		t.Fatalf("%d rows for %d, head %q: %v", len(rows), len(before), rows[0], err)
	}
	last := map[string]string{}
	for i, key := range rows[0] {
		last[key] = rows[len(rows)-1][i]
	}
	for key, want := range map[string]string{"test": "overruled", "tag": "L1", "of": "EAR-01", "verdict": "overruled", "read_on": "2026-05-01",
		"read_by": "A. Tester", "remark": "'=an electrode, of its own", "figure": "", "reads": ""} {
		if last[key] != want {
			t.Errorf("%s reads %q, want %q", key, last[key], want)
		}
	}
	if !strings.HasPrefix(last["judgement"], "Decide: L1 ") {
		t.Errorf("judgement reads %q", last["judgement"])
	}
}
